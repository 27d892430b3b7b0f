"""Labels on paper: what a jar of a powder or a tube of a batch says, most needed first."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from mullbook.derive.results import LabelDraft, Named, Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.values.labelling import Label, NoticeFound
from mullbook.render.print_card import CardMaker, Row
from mullbook.render.words import in_sentence, number, sentence

EARTH, LATE = "natural-earth", "label.overdue"
RUN = "\N{ZERO WIDTH SPACE}"
"""Before a sentence that runs on from the one before it."""


def _flowing(texts: Iterable[str]) -> list[Row]:
    """Sentences with whether each runs on; what finds no room is left out sentence by sentence."""
    return [{"words": each.removeprefix(RUN), "run": each.startswith(RUN)} for each in texts]


@dataclass(frozen=True, slots=True)
class Signed:
    """Who classified it and signed for it; without one every label is a draft."""

    name: str
    date: str


class LabelMaker:
    """Makes the view of labels in one language, in the words of a card maker."""

    def __init__(self, cards: CardMaker, signed: Signed | None = None) -> None:
        self.cards, self.strings, self.say = cards, cards.strings, cards.say
        self.catalogue: Catalogue = cards.catalogue
        self.signed = signed

    def jar(self, thing: Pigment | Binder | Additive) -> Row:
        """The label of a jar as it stands on the shelf."""
        derived = self.cards.derived
        pigment = isinstance(thing, Pigment)
        safety = derived.pigments[thing.id].safety if pigment else derived.products[thing.id]
        powder = safety.dry.get("bench")
        shown = powder or safety.wet
        level = shown.level if shown else self.catalogue.policy.wet_paint.not_known
        return {
            **self._head(thing.id, thing.name, self._code(thing), safety.label),
            "late": self.cards.reviews.late(thing.name, thing, key=LATE),
            "level": self._level("card.dry-powder" if powder else "card.as-supplied", level),
            "code": self.cards.code_text(thing),
            "blocks": _flowing(self._jar_blocks(thing, safety)),
        }

    def batch(self, draft: LabelDraft) -> Row:
        """The label of one batch, as drafted."""
        level = draft.level.level if draft.level else self.catalogue.policy.wet_paint.not_known
        number_ = draft.batch or self.say("common.slot")
        return {
            **self._head(draft.recipe, draft.name, self._what(draft, number_), draft.label),
            "late": self.cards.reviews.late(draft.name, *self._weighed(draft), key=LATE),
            "level": self._level("card.wet-paint", level),
            "code": self.say(
                "qr.batch", id=draft.recipe, name=draft.name, batch=number_, wet=self.cards.level(level)
            ),
            "blocks": _flowing(self._batch_blocks(draft)),
        }

    def _weighed(self, draft: LabelDraft) -> Iterator[Any]:
        """The recipe of a batch, where it is an entry, and all that goes into it."""
        made = self.catalogue.recipe.get(draft.recipe)
        yield from (made,) if made else ()
        for each in draft.weighed:
            for shelf in (self.catalogue.pigment, self.catalogue.binder, self.catalogue.additive):
                yield from (shelf[each],) if each in shelf else ()

    def _what(self, draft: LabelDraft, number_: str) -> str:
        return f"{self.strings.retell(draft.system)} · {self.say('label.batch', batch=number_)}"

    def _head(self, id_: str, name: str, code: str, label: Label | None) -> Row:
        draft = self.say("common.draft-short")
        if self.signed is not None:
            draft = self.say("label.signed", name=self.signed.name, date=self.signed.date)
        word = label.signal_word if label else None
        return {
            "id": id_,
            "name": name,
            "what": code,
            "draft": draft,
            "signal": self.say(f"signals.{word.lower()}") if word else "",
            "pictograms": [
                {"id": each, "alt": f"{each}: {self.say(f'pictograms.{each}')}"}
                for each in (label.pictograms if label else ())
            ],
        }

    def _level(self, state: str, level: str) -> Row:
        return {"shape": f"lv-{level}", "state": self.say(state), "word": self.cards.level(level)}

    def _code(self, thing: Pigment | Binder | Additive) -> str:
        return " · ".join(self._codes(thing)) if isinstance(thing, Pigment) else self.cards.what(thing)

    def _codes(self, pigment: Pigment) -> list[str]:
        """Colour Index names, and for an earth the number of its sample; or that there are none."""
        index = pigment.colour_index
        codes = list(index.names) if index else []
        if pigment.family == EARTH:
            codes.append(self.say("label.earth-sample"))
        return codes or [self.say("label.no-ci")]

    def _jar_blocks(self, thing: Pigment | Binder | Additive, safety: Safety) -> Iterator[str]:
        yield from self._statements(safety.label, safety.status)
        if safety.dry and safety.wet:
            yield self.say(
                "label.level", state=self.say("card.wet-paint"), level=self.cards.level(safety.wet.level)
            )
        slots = (self.say("label.lot"), self.say("label.opened"), self.say("label.quantity"))
        yield "  ".join(slots)
        yield from self._persons(each.id for each in safety.not_for)
        yield from self._precautions(safety.label)
        if safety.waste is not None:
            yield self._waste(safety.waste.id)
        yield " · ".join(self._dates(thing))
        yield from self._names_kept()

    def _dates(self, thing: Pigment | Binder | Additive) -> Iterator[str]:
        yield self.say("common.edition", edition=self.strings.retell(self.catalogue.label_rules.edition))
        yield self.say("common.checked", date=thing.checked or self.say("common.not-known"))

    def _batch_blocks(self, draft: LabelDraft) -> Iterator[str]:
        if draft.missing:
            yield self.say("label.missing", reason=" ".join(map(self.strings.retell, draft.missing)))
            return
        yield self.say("label.pigment", names=self._named(draft.pigments))
        if draft.binder is not None:
            yield self.say("label.binder", names=self._named((draft.binder,)))
        yield from self._statements(draft.label, "classified" if draft.classes else "searched-none-found")
        yield " · ".join(self._batch_line(draft))
        yield f"{self.say('label.maker')} {self.cards.house.name or self.say('common.slot')}"
        if draft.allergens:
            yield self.say("label.contains", names=self._named(draft.allergens))
        if draft.preservatives:
            yield self.say("label.preserved-with", names=self._named(draft.preservatives))
        else:
            yield self.say("label.preservative-none")
        yield from self._persons(each.id for each in draft.not_for)
        yield from (self.strings.retell(each) for each in draft.lines)
        yield from self._precautions(draft.label)
        yield from self._beside(draft)
        if draft.waste is not None:
            yield self._waste(draft.waste.id)
        yield from self._names_kept()

    def _names_kept(self) -> Iterator[str]:
        """In another language: that names are in English."""
        if self.strings.foreign:
            yield self.say("label.names-kept")

    def _batch_line(self, draft: LabelDraft) -> Iterator[str]:
        slot = self.say("common.slot")
        yield self.say("label.made", date=draft.made or slot)
        yield self.say("label.check-by", date=draft.check_by or slot)
        if draft.volume:
            yield self.say("label.volume", volume=self.strings.figure(number(draft.volume, 2)))

    def _named(self, found: Iterable[Named]) -> str:
        return "; ".join(self._one(each) for each in found)

    def _one(self, named: Named) -> str:
        """A name with what is said of it; names stay as they are, words are in the language of the label."""
        name = ", ".join(self.strings.term(each) for each in named.name.split(", "))
        if named.own_words:
            name = self.strings.retell(named.name)
        also = self._also(named)
        return f"{name} ({also})" if also else name

    def _also(self, named: Named) -> str:
        if named.bought:
            jar = self.catalogue.binder.get(named.entry) or self.catalogue.additive[named.entry]
            return self.say("label.as-bought", name=in_sentence(jar.name))
        if named.entry in self.catalogue.pigment:
            return ", ".join(self._codes(self.catalogue.pigment[named.entry]))
        if named.entry in self.catalogue.binder:
            return self.say(f"kinds.{self.catalogue.binder[named.entry].kind}")
        return named.also

    def _statements(self, label: Label | None, status: str) -> Iterator[str]:
        if label is None:
            return
        texts = [self._coded(code) for code in label.statements]
        texts += [self._noticed(each) for each in label.supplements]
        yield from (f"{RUN}{each}" for each in texts)
        if texts or label.unknown:
            yield from (self.strings.sentence(each) for each in (label.unknown,) if each)
        elif status == "not-known":
            yield self.say("common.not-known-hazard")
        else:
            yield self.say("label.no-class")

    def _coded(self, code: str) -> str:
        text = self.strings.statement(code)
        return f"{text} ({code})." if text else f"{code}."

    def _noticed(self, notice: NoticeFound) -> str:
        if notice.code is None:
            return self.say("label.holds", name=notice.named)
        return f"{self.strings.retell(notice.text).rstrip('.')} ({notice.code})."

    def _precautions(self, label: Label | None) -> Iterator[str]:
        if label is not None:
            yield from (f"{RUN}{self._coded(code)}" for code in label.precautions)

    def _persons(self, found: Iterable[str]) -> Iterator[str]:
        names = [self.say(f"persons.{each}") for each in dict.fromkeys(found)]
        if names:
            yield self.say("label.not-for", persons=", ".join(names))

    def _beside(self, draft: LabelDraft) -> Iterator[str]:
        for key, found in (("label.as-dust", draft.as_dust), ("label.listed-elsewhere", draft.elsewhere)):
            for each in found:
                told = self.strings.retell(each.text)
                yield sentence(self.say(key, statement=told, place=self.cards.place(each.place)))

    def _waste(self, route: str) -> str:
        means = self.strings.retell(self.catalogue.policy.waste[route].means)
        return self.say("label.waste", route=self.say(f"waste.{route}"), means=means)
