"""The bench card: the answers someone wants before the jar is opened, in that order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from mullbook.derive.results import Because, BinderStart, Derived, DerivedPigment, Safety, Verdict
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.render.words import in_sentence, number, place_name, range_text, room_name, said, sentence

SHOWN_BINDERS = ("acrylic-gel", "linseed-oil", "gum-arabic-solution")
"""Binders whose start numbers stand on the card, where the pigment is not unsuitable in them."""
SHOWN_GRAMS = 20.0
SHOWN_REASONS = 3
SHOWN_MILDER = 3
POWDER = "Dry powder"
SHUT = "leave-it-shut"
WET_MEANS = {
    "open-bench": "Ordinary care.",
    "keep-it-damp": "Gloves; wipe it up wet before it dries.",
    "paste-only": "Trained adults only; never dried and sanded.",
}
"""What a level asks for when there is no dry powder about; the policy words its levels for powders."""


@dataclass(frozen=True, slots=True)
class State:
    """The verdict for one state: a shape, a word and a reason."""

    css: str
    state: str
    word: str
    why: str
    means: str = ""
    """What the word asks for; at the head of the card and for the waste, the rest has it in `why`."""
    amounts: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Milder:
    """A milder pigment to do with instead."""

    id: str
    name: str
    level: str
    level_name: str
    hex: str | None


@dataclass(frozen=True, slots=True)
class Card:
    """Everything on a bench card, in words."""

    id: str
    name: str
    what: str
    """What it is, in a line: codes and kind."""
    states: tuple[State, ...]
    not_for: tuple[tuple[str, str], ...]
    milder: tuple[Milder, ...]
    do: tuple[str, ...]
    start: tuple[tuple[str, str, str], ...]
    """Binders: the figure, of what, and for how much pigment with the range."""
    also: tuple[tuple[str, str], ...]
    """Further figures: where the film chalks, how little dust is too much."""
    stop_test: str | None
    waste: State | None
    wrong: tuple[tuple[str, str], ...]
    jurisdiction: str
    edition: str
    checked: str | None
    review_by: str | None


def pigment_card(catalogue: Catalogue, derived: Derived, pigment: Pigment) -> Card:
    """The bench card of a pigment."""
    found = derived.pigments[pigment.id]
    safety = found.safety
    level = safety.dry["bench"].level
    return Card(
        id=pigment.id,
        name=pigment.name,
        what=pigment_line(pigment),
        states=tuple(_powder_states(catalogue, safety)),
        not_for=_not_for(catalogue, safety),
        milder=tuple(_milder(catalogue, derived, safety)),
        do=catalogue.policy.steps(level, safety.hazards),
        start=tuple(_start(catalogue, found)),
        also=tuple(_also(catalogue, found)),
        stop_test=pigment.handling.stop_test,
        waste=_waste(catalogue, safety),
        wrong=tuple(_wrong(safety)),
        jurisdiction=catalogue.classification.jurisdiction,
        edition=catalogue.classification.edition,
        checked=pigment.checked,
        review_by=pigment.review_by,
    )


def product_card(catalogue: Catalogue, derived: Derived, product: Binder | Additive) -> Card:
    """The bench card of a binder or an additive."""
    safety = derived.products[product.id]
    wet = safety.wet or Verdict(level=catalogue.policy.wet_paint.not_known, reasons=())
    own = tuple((_person(catalogue, each.person), each.because) for each in product.not_for)
    known = {name for name, _ in own}
    return Card(
        id=product.id,
        name=product.name,
        what=f"{product.kind_name}, {said(product.kind if isinstance(product, Binder) else product.role)}",
        states=(_level_state(catalogue, "As supplied", wet, head=True),),
        not_for=(*own, *(pair for pair in _not_for(catalogue, safety) if pair[0] not in known)),
        milder=(),
        do=_product_steps(catalogue, wet.level),
        start=(),
        also=(),
        stop_test=product.stop_test if isinstance(product, Binder) else None,
        waste=_waste(catalogue, safety),
        wrong=tuple(_wrong(safety)),
        jurisdiction=catalogue.classification.jurisdiction,
        edition=catalogue.classification.edition,
        checked=product.checked,
        review_by=product.review_by,
    )


def pigment_line(pigment: Pigment) -> str:
    """What a pigment is, in a line: family, hue, Colour Index names and numbers."""
    index = pigment.colour_index
    codes = (*index.names, *(f"C.I. {each}" for each in index.numbers)) if index else ()
    return " · ".join((said(pigment.family), pigment.hue, *codes))


def _product_steps(catalogue: Catalogue, level: str) -> tuple[str, ...]:
    policy = catalogue.policy
    return policy.before_opening_product if level != SHUT else policy.before_opening[level]


def _powder_states(catalogue: Catalogue, safety: Safety) -> Iterator[State]:
    amounts = tuple(_by_amount(catalogue, safety))
    yield _level_state(catalogue, POWDER, safety.dry["bench"], amounts if len(amounts) > 1 else (), head=True)
    if safety.wet is not None:
        yield _level_state(catalogue, "Wet paint", safety.wet)
    for state, found in (
        ("Sanding", safety.sanding),
        ("Heating", safety.heating),
        ("Spraying", safety.spraying),
    ):
        if found is not None:
            yield _action_state(catalogue, state, found)


def _by_amount(catalogue: Catalogue, safety: Safety) -> Iterator[tuple[str, str]]:
    """The level for each amount; neighbours of one level are said once: up to this much, over that."""
    policy = catalogue.policy
    runs = [
        (level, [each.words for each in held])
        for level, held in groupby(policy.amounts, lambda each: safety.dry[each.id].level)
    ]
    for place, (level, words) in enumerate(runs):
        rest = place and place == len(runs) - 1
        said = runs[place - 1][1][-1].replace("up to", "over") if rest else words[-1]
        yield said, policy.words(level).name


def _level_state(
    catalogue: Catalogue,
    state: str,
    found: Verdict,
    amounts: tuple[tuple[str, str], ...] = (),
    *,
    head: bool = False,
) -> State:
    words = catalogue.policy.words(found.level)
    means = words.means if state == POWDER else WET_MEANS.get(found.level, words.means)
    why = " ".join(sentence(each) for each in found.reasons[:SHOWN_REASONS])
    if not head:
        return State(f"lv-{found.level}", state, words.name, f"{means} {why}")
    return State(f"lv-{found.level}", state, words.name, why, means, amounts)


def _action_state(catalogue: Catalogue, state: str, found: Because) -> State:
    return State(f"do-{found.id}", state, catalogue.policy.actions[found.id].name, sentence(found.because))


def _waste(catalogue: Catalogue, safety: Safety) -> State | None:
    if safety.waste is None:
        return None
    words = catalogue.policy.waste[safety.waste.id]
    why = sentence(safety.waste.because)
    return State(f"to-{safety.waste.id}", "Waste", words.name, why, words.means)


def _person(catalogue: Catalogue, person: str) -> str:
    return next((each.name for each in catalogue.policy.persons if each.id == person), person)


def _not_for(catalogue: Catalogue, safety: Safety) -> tuple[tuple[str, str], ...]:
    return tuple((_person(catalogue, each.id), each.because) for each in safety.not_for)


def _milder(catalogue: Catalogue, derived: Derived, safety: Safety) -> Iterator[Milder]:
    for each in safety.milder[:SHOWN_MILDER]:
        other = derived.pigments[each]
        level = other.safety.dry["bench"].level
        yield Milder(each, catalogue.pigment[each].name, level, catalogue.policy.words(level).name, other.hex)


def _start(catalogue: Catalogue, found: DerivedPigment) -> Iterator[tuple[str, str, str]]:
    for each in shown_starts(found):
        assert each.start is not None and each.mass is not None and each.mass.result is not None
        about = f"{number(each.start * SHOWN_GRAMS / 100, 2)}\N{NO-BREAK SPACE}g"
        spread = range_text(each.mass.result.times(SHOWN_GRAMS / 100), "g", 2)
        within = "" if spread == about else f"; range {spread}"
        binder = in_sentence(catalogue.binder[each.binder].name)
        yield about, binder, f" for {SHOWN_GRAMS:.0f} g of pigment{within}"


def _also(catalogue: Catalogue, found: DerivedPigment) -> Iterator[tuple[str, str]]:
    if found.paint.critical.result is not None and found.safety.dry["bench"].level != SHUT:
        yield _critical(found)
    yield from _air(catalogue, found.safety)


def shown_starts(found: DerivedPigment) -> list[BinderStart]:
    """Starts that stand on the card: of the shown binders, those with a number that are not unsuitable.

    There is none for a jar that is to stay shut: a quantity would read as leave to use it.
    """
    if found.safety.dry and found.safety.dry["bench"].level == SHUT:
        return []
    starts = {each.binder: each for each in found.paint.binders}
    return [
        each
        for binder in SHOWN_BINDERS
        if (each := starts.get(binder)) is not None
        and each.start is not None
        and each.mass is not None
        and each.mass.result is not None
        and each.verdict != "unsuitable"
    ]


def _critical(found: DerivedPigment) -> tuple[str, str]:
    result = found.paint.critical.result
    assert result is not None
    if found.paint.critical_from == "rub-out":
        return range_text(result, "fraction", 2), "critical pigment volume in oil: above it the film chalks"
    return (
        f"at least {number(result.low * 100, 2)}\N{NO-BREAK SPACE}%",
        "critical pigment volume in oil, from the oil that grinds it",
    )


def _air(catalogue: Catalogue, safety: Safety) -> Iterator[tuple[str, str]]:
    limit = safety.shown_limit
    if limit is None:
        return
    memory = ", from memory, not confirmed" if limit.remembered else ""
    driver = in_sentence(catalogue.substance[limit.driver].name)
    place = place_name(catalogue, limit.jurisdiction)
    stricter = "" if limit == safety.dust_limits[0] else "; the level goes by the strictest of any place"
    by_part = f"limit on this dust, {limit.fraction}, set by {driver} ({place}{stricter}{memory})"
    if limit.reckoned < limit.value:
        by_part = (
            f"threshold for any dust, {limit.fraction}; the limit of {driver} alone ({place}{memory}) would"
            f" give {number(limit.value, 2)}"
        )
    yield f"{number(limit.reckoned, 2)}\N{NO-BREAK SPACE}mg/m³", by_part
    if safety.room is not None and safety.room.result is not None:
        yield (
            range_text(safety.room.result, "mg", 2),
            f"aloft: this little fills {whole_room(catalogue)} to the limit; at your face far less does",
        )


def whole_room(catalogue: Catalogue) -> str:
    """The room that pages reckon with, taken as a whole."""
    article, _, room = room_name(catalogue).partition(" ")
    return f"{article} whole {room}"


def _wrong(safety: Safety) -> Iterator[tuple[str, str]]:
    lines: dict[str, list[str]] = {}
    for each in safety.first_aid:
        situation, _, text = each.partition(": ")
        lines.setdefault(situation, []).append(text)
    for situation, texts in lines.items():
        yield situation, " ".join(texts)
