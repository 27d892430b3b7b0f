"""The bench card on paper: what its two sides say, in one language."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.derive.results import Because, Derived, DerivedPigment, Safety, Verdict
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.values import Quantity
from mullbook.render.card import SHOWN_GRAMS, SHOWN_MILDER, SHOWN_REASONS, SHUT, WET_MEANS, shown_starts
from mullbook.render.print_house import House
from mullbook.render.print_late import Reviews
from mullbook.render.strings import Strings
from mullbook.render.words import in_sentence, number, quantity_text, range_text, room_volume

NUMBERS = (
    ("density", "density"),
    ("bulk-loose", "bulk_density_loose"),
    ("bulk-tapped", "bulk_density_tapped"),
    ("oil-absorption", "oil_absorption"),
    ("oil-to-grind", "oil_to_grind"),
    ("refractive-index", "refractive_index"),
    ("particle-size", "particle_size"),
)
"""Numbers of a powder on the back: key of the words, field of the entry."""
SUITS = ("suits", "test-first", "unsuitable")
Row = dict[str, Any]


class CardMaker:
    """Makes the view of cards in one language for one studio."""

    def __init__(self, catalogue: Catalogue, derived: Derived, strings: Strings, house: House) -> None:
        self.catalogue, self.derived, self.strings, self.house = catalogue, derived, strings, house
        self.say, self.reviews = strings.say, Reviews(catalogue, strings, "")

    def card(self, thing: Pigment | Binder | Additive) -> Row:
        """All that stands on the two sides of the card of one thing."""
        safety = self._safety(thing)
        return {
            "id": thing.id,
            "name": thing.name,
            "what": self.what(thing),
            "states": list(self._states(safety)),
            "not_for": list(self._not_for(thing, safety)),
            "milder": self._milder(safety),
            "do": [self.strings.retell(each) for each in self._steps(safety)],
            "start": list(self._start(thing)),
            "numbers": list(self._numbers(thing)),
            "lives": list(self._lives(thing)),
            "statements": self._statements(safety),
            "stop_test": self.strings.retell(_stop_test(thing) or "") or None,
            "waste": self._waste(safety),
            "wrong": list(self._wrong(safety)),
            "foot": self._foot(thing),
            "late": self.reviews.late(thing.name, thing),
            "code": self.code_text(thing),
        }

    def _safety(self, thing: Pigment | Binder | Additive) -> Safety:
        if isinstance(thing, Pigment):
            return self.derived.pigments[thing.id].safety
        return self.derived.products[thing.id]

    def what(self, thing: Pigment | Binder | Additive) -> str:
        """What it is, in a line: family, hue and codes; or the kind of product."""
        if not isinstance(thing, Pigment):
            kind = thing.kind if isinstance(thing, Binder) else thing.role
            return self.say(f"kinds.{kind}")
        index = thing.colour_index
        codes = (*index.names, *(f"C.I. {each}" for each in index.numbers)) if index else ()
        family = self.say(f"families.{thing.family}")
        return " · ".join((family, self.say(f"hues.{thing.hue}"), *codes))

    def level(self, level: str) -> str:
        """The name of a control level."""
        return self.say(f"levels.{level}")

    def code_text(self, thing: Pigment | Binder | Additive) -> str:
        """What the square code says: id and verdicts, no address."""
        safety = self._safety(thing)
        wet = self.level(safety.wet.level if safety.wet else self.catalogue.policy.wet_paint.not_known)
        if isinstance(thing, Pigment):
            dry = self.level(safety.dry["bench"].level)
            return self.say("qr.text", id=thing.id, name=thing.name, dry=dry, wet=wet)
        return self.say("qr.product", id=thing.id, name=thing.name, wet=wet)

    def _states(self, safety: Safety) -> Iterator[Row]:
        if safety.dry:
            yield self._dry(safety)
        wet = safety.wet or Verdict(level=self.catalogue.policy.wet_paint.not_known, reasons=())
        means = f"card.wet-{wet.level}" if wet.level in WET_MEANS else None
        words = self.catalogue.policy.words(wet.level)
        yield {
            "shape": f"lv-{wet.level}",
            "state": self.say("card.wet-paint" if safety.dry else "card.as-supplied"),
            "word": self.level(wet.level),
            "means": self.say(means) if means else self.strings.retell(words.means),
            "why": self._why(wet.reasons),
        }
        for state in ("sanding", "heating", "spraying"):
            found: Because | None = getattr(safety, state)
            if found is not None:
                yield self._action(state, found)

    def _dry(self, safety: Safety) -> Row:
        policy = self.catalogue.policy
        found = safety.dry["bench"]
        levels = [self.level(safety.dry[each.id].level) for each in policy.amounts]
        by_amount = list(zip(self._amounts(), levels, strict=True))
        same = len({name for _, name in by_amount}) == 1
        return {
            "shape": f"lv-{found.level}",
            "state": self.say("card.dry-powder"),
            "word": self.level(found.level),
            "means": self.strings.retell(policy.words(found.level).means),
            "why": self._why(found.reasons),
            "amounts": [] if same else by_amount,
        }

    def _amounts(self) -> Iterator[str]:
        """The amounts of the level table in words; the last is whatever is more than the one before."""
        most = 0.0
        for each in self.catalogue.policy.amounts:
            key = "amounts.over" if each.most is None else "amounts.up-to"
            most = most if each.most is None else each.most
            mass = f"{number(most / 1000)} kg" if most >= 1000 else f"{number(most)} g"
            yield self.say(key, mass=self._figure(mass))

    def _action(self, state: str, found: Because) -> Row:
        return {
            "shape": f"do-{found.id}",
            "state": self.say(f"card.{state}"),
            "word": self.say(f"actions.{found.id}"),
            "means": "",
            "why": self.strings.sentence(found.because),
        }

    def _why(self, reasons: Iterable[str]) -> str:
        shown = list(reasons)[:SHOWN_REASONS]
        return " ".join(self.strings.sentence(each) for each in shown)

    def _not_for(self, thing: Pigment | Binder | Additive, safety: Safety) -> Iterator[tuple[str, str]]:
        own = () if isinstance(thing, Pigment) else thing.not_for
        named = {each.person for each in own}
        for mine in own:
            yield self.say(f"persons.{mine.person}"), self.strings.retell(mine.because)
        for each in safety.not_for:
            if each.id not in named:
                yield self.say(f"persons.{each.id}"), self.strings.retell(each.because)

    def _milder(self, safety: Safety) -> str | None:
        names = [
            self.say(
                "card.milder",
                name=self.catalogue.pigment[each].name,
                level=self.level(self.derived.pigments[each].safety.dry["bench"].level),
            )
            for each in safety.milder[:SHOWN_MILDER]
        ]
        return self.say("card.do-without", names=", ".join(names)) if names else None

    def _steps(self, safety: Safety) -> tuple[str, ...]:
        policy = self.catalogue.policy
        if safety.dry:
            return policy.steps(safety.dry["bench"].level, safety.hazards)
        shut = safety.wet is not None and safety.wet.level == SHUT
        return policy.before_opening[SHUT] if shut else policy.before_opening_product

    def _start(self, thing: Pigment | Binder | Additive) -> Iterator[tuple[str, str]]:
        if not isinstance(thing, Pigment):
            return
        found = self.derived.pigments[thing.id]
        for each in shown_starts(found):
            assert each.start is not None and each.mass is not None and each.mass.result is not None
            about = f"{number(each.start * SHOWN_GRAMS / 100, 2)}\N{NO-BREAK SPACE}g"
            spread = range_text(each.mass.result.times(SHOWN_GRAMS / 100), "g", 2)
            binder = in_sentence(self.catalogue.binder[each.binder].name)
            grams = f"{SHOWN_GRAMS:.0f}"
            words = (
                self.say("card.start-for", binder=binder, grams=grams)
                if spread == about
                else self.say("card.start-range", binder=binder, grams=grams, range=self._figure(spread))
            )
            yield self._figure(about), words
        if found.paint.critical.result is not None and found.safety.dry["bench"].level != SHUT:
            yield self._critical(found)
        yield from self._air(found.safety)

    def _figure(self, text: str) -> str:
        return self.strings.figure(text)

    def _critical(self, found: DerivedPigment) -> tuple[str, str]:
        result = found.paint.critical.result
        assert result is not None
        if found.paint.critical_from == "rub-out":
            return self._figure(range_text(result, "fraction", 2)), self.say("card.critical")
        least = f"{number(result.low * 100, 2)}\N{NO-BREAK SPACE}%"
        return self.say("card.at-least", value=self._figure(least)), self.say("card.critical-least")

    def _air(self, safety: Safety) -> Iterator[tuple[str, str]]:
        limit = safety.shown_limit
        if limit is None:
            return
        values = {
            "fraction": self.say(f"fractions.{limit.fraction}"),
            "driver": in_sentence(self.catalogue.substance[limit.driver].name),
            "place": self.place(limit.jurisdiction),
        }
        if limit.remembered:
            values["place"] += f", {self.say('card.from-memory')}"
        if limit.reckoned < limit.value:
            alone = self._figure(number(limit.value, 2))
            words = self.say("card.dust-threshold", value=alone, **values)
        else:
            key = "card.dust-limit" if limit == safety.dust_limits[0] else "card.dust-limit-other"
            words = self.say(key, **values)
        yield self._figure(f"{number(limit.reckoned, 2)}\N{NO-BREAK SPACE}mg/m³"), words
        yield from self._aloft(safety, limit.reckoned)

    def _aloft(self, safety: Safety, limit: float) -> Iterator[tuple[str, str]]:
        """What fills a room to the limit: each of the studio's own, else the stated one."""
        for name, volume in self.house.rooms[:2]:
            figure = f"{number(limit * volume, 2)}\N{NO-BREAK SPACE}mg"
            words = self.say("card.room-aloft", room=name, volume=self._figure(number(volume)))
            yield self._figure(figure), words
        if not self.house.rooms and safety.room is not None and safety.room.result is not None:
            size = self._figure(number(room_volume(self.catalogue)))
            words = self.say("card.aloft", volume=size)
            yield self._figure(range_text(safety.room.result, "mg", 2)), words

    def place(self, place: str) -> str:
        """The name of a place, or of several."""
        return ", ".join(
            self.say(key) if self.strings.knows(key := f"places.{each}") else each
            for each in place.split(", ")
        )

    def _numbers(self, thing: Pigment | Binder | Additive) -> Iterator[tuple[str, str]]:
        if not isinstance(thing, Pigment):
            return
        for key, field in NUMBERS:
            held: Quantity | None = getattr(thing.physical, field)
            if held is not None:
                yield self.say(f"card.{key}"), self._figure(self._quantity(held))

    def _quantity(self, held: Quantity) -> str:
        low, high = held.ends
        if low is not None and high is not None:
            return quantity_text(held)
        bound = quantity_text(held).partition("at least " if high is None else "at most ")[2]
        return self.say("card.at-least" if high is None else "card.at-most", value=bound)

    def _lives(self, thing: Pigment | Binder | Additive) -> Iterator[tuple[str, str]]:
        """Binders by verdict; none for a jar that stays shut: a name would read as leave to use it."""
        if not isinstance(thing, Pigment) or self._safety(thing).dry["bench"].level == SHUT:
            return
        for verdict in SUITS:
            names = [
                in_sentence(self.catalogue.binder[each.binder].name)
                for each in thing.suitability
                if each.verdict == verdict and each.binder in self.catalogue.binder
            ]
            if names:
                yield self.say(f"card.{verdict}"), ", ".join(names)

    def _statements(self, safety: Safety) -> Row:
        """Hazard statements of the place, or in words that there are none and why."""
        none = ""
        if safety.status == "not-known":
            none = self.say("common.not-known-hazard")
        elif not safety.statements:
            none = self.say("common.none-found")
        return {
            "signal": self.say(f"signals.{safety.signal_word.lower()}") if safety.signal_word else "",
            "rows": [(code, self.strings.statement(code)) for code in safety.statements],
            "none": none,
        }

    def _waste(self, safety: Safety) -> Row | None:
        if safety.waste is None:
            return None
        words = self.catalogue.policy.waste[safety.waste.id]
        return {
            "shape": f"to-{safety.waste.id}",
            "state": self.say("card.waste"),
            "word": self.say(f"waste.{safety.waste.id}"),
            "means": self.strings.retell(words.means),
            "why": self.strings.sentence(safety.waste.because),
        }

    def _wrong(self, safety: Safety) -> Iterator[tuple[str, str]]:
        lines: dict[str, list[str]] = {}
        for each in safety.first_aid:
            situation, _, text = each.partition(": ")
            lines.setdefault(self.strings.retell(situation), []).append(self.strings.retell(text))
        for situation, texts in lines.items():
            yield situation, " ".join(texts)

    def _foot(self, thing: Pigment | Binder | Additive) -> list[str]:
        checked = thing.checked or self.say("common.not-known")
        lines = [
            self.say("common.edition", edition=self.strings.retell(self.catalogue.classification.edition)),
            self.say("common.checked", date=checked),
        ]
        if thing.review_by:
            lines.append(self.say("common.review-by", date=thing.review_by))
        if self.strings.foreign:
            lines.append(self.say("common.names-kept"))
        return lines


def _stop_test(thing: Pigment | Binder | Additive) -> str | None:
    if isinstance(thing, Pigment):
        return thing.handling.stop_test
    return thing.stop_test if isinstance(thing, Binder) else None
