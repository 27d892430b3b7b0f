"""The bench card: the answers someone wants before the jar is opened, in that order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.derive.results import Because, Derived, DerivedPigment, Safety, Verdict
from mullbook.render.words import number, range_text, sentence

SHOWN_BINDERS = ("acrylic-gel", "linseed-oil", "gum-arabic-solution")
"""Binders whose start numbers stand on the card, where the pigment is not unsuitable in them."""
SHOWN_GRAMS = 20.0


@dataclass(frozen=True, slots=True)
class State:
    """The verdict for one state: a shape, a word and a reason."""

    css: str
    state: str
    word: str
    why: str
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
    states: tuple[State, ...]
    not_for: tuple[tuple[str, str], ...]
    milder: tuple[Milder, ...]
    do: tuple[str, ...]
    start: tuple[tuple[str, str], ...]
    stop_test: str | None
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
        states=tuple(_powder_states(catalogue, safety)),
        not_for=_not_for(catalogue, safety),
        milder=tuple(_milder(catalogue, derived, safety)),
        do=catalogue.policy.before_opening[level],
        start=tuple(_start(catalogue, found)),
        stop_test=pigment.handling.stop_test,
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
        states=(
            _level_state(catalogue, "As supplied", wet),
            *_waste(catalogue, safety),
        ),
        not_for=(*own, *(pair for pair in _not_for(catalogue, safety) if pair[0] not in known)),
        milder=(),
        do=_product_steps(catalogue, wet.level),
        start=(),
        stop_test=product.stop_test if isinstance(product, Binder) else None,
        wrong=tuple(_wrong(safety)),
        jurisdiction=catalogue.classification.jurisdiction,
        edition=catalogue.classification.edition,
        checked=product.checked,
        review_by=product.review_by,
    )


def _product_steps(catalogue: Catalogue, level: str) -> tuple[str, ...]:
    policy = catalogue.policy
    return policy.before_opening_product if level != "leave-it-shut" else policy.before_opening[level]


def _powder_states(catalogue: Catalogue, safety: Safety) -> Iterator[State]:
    policy = catalogue.policy
    levels = [(each.words, policy.words(safety.dry[each.id].level).name) for each in policy.amounts]
    same = len({name for _, name in levels}) == 1
    yield _level_state(catalogue, "Dry powder", safety.dry["bench"], () if same else tuple(levels))
    if safety.wet is not None:
        yield _level_state(catalogue, "Wet paint", safety.wet)
    for state, found in (
        ("Sanding the dry film", safety.sanding),
        ("Heating", safety.heating),
        ("Spraying", safety.spraying),
    ):
        if found is not None:
            yield _action_state(catalogue, state, found)
    yield from _waste(catalogue, safety)


def _level_state(
    catalogue: Catalogue, state: str, found: Verdict, amounts: tuple[tuple[str, str], ...] = ()
) -> State:
    why = sentence("; ".join(found.reasons[:3]))
    return State(f"lv-{found.level}", state, catalogue.policy.words(found.level).name, why, amounts)


def _action_state(catalogue: Catalogue, state: str, found: Because) -> State:
    return State(f"do-{found.id}", state, catalogue.policy.actions[found.id].name, sentence(found.because))


def _waste(catalogue: Catalogue, safety: Safety) -> Iterator[State]:
    if safety.waste is not None:
        words = catalogue.policy.waste[safety.waste.id]
        why = sentence(safety.waste.because)
        yield State(f"to-{safety.waste.id}", "Waste", words.name, f"{words.means} {why}")


def _person(catalogue: Catalogue, person: str) -> str:
    return next((each.name for each in catalogue.policy.persons if each.id == person), person)


def _not_for(catalogue: Catalogue, safety: Safety) -> tuple[tuple[str, str], ...]:
    return tuple((_person(catalogue, each.id), each.because) for each in safety.not_for)


def _milder(catalogue: Catalogue, derived: Derived, safety: Safety) -> Iterator[Milder]:
    for each in safety.milder:
        other = derived.pigments[each]
        level = other.safety.dry["bench"].level
        yield Milder(
            each, catalogue.pigment[each].name, level, catalogue.policy.words(level).name, other.hex
        )


def _start(catalogue: Catalogue, found: DerivedPigment) -> Iterator[tuple[str, str]]:
    starts = {each.binder: each for each in found.paint.binders}
    for binder in SHOWN_BINDERS:
        each = starts.get(binder)
        if each is None or each.start is None or each.mass is None or each.mass.result is None:
            continue
        if each.verdict == "unsuitable":
            continue
        grams = each.mass.result.times(SHOWN_GRAMS / 100)
        about = number(each.start * SHOWN_GRAMS / 100, 2)
        spread = "" if grams.is_point else f" ({range_text(grams, 'g', 2)})"
        yield (
            f"{about}\N{NO-BREAK SPACE}g",
            f"{catalogue.binder[binder].name.lower()} for {SHOWN_GRAMS:.0f} g of pigment to start{spread}",
        )
    if found.paint.critical.result is not None:
        yield _critical(found)
    yield from _air(catalogue, found.safety)


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
    driver = catalogue.substance[limit.driver].name.lower()
    yield (
        f"{number(limit.value, 2)}\N{NO-BREAK SPACE}mg/m³",
        f"limit on this dust, {limit.fraction} ({driver}; {limit.jurisdiction}, {limit.list}{memory})",
    )
    if safety.room is not None and safety.room.result is not None:
        yield range_text(safety.room.result, "mg", 2), (
            "aloft: this little fills a whole room of 60 m³ to the limit; at your face far less does"
        )


def _wrong(safety: Safety) -> Iterator[tuple[str, str]]:
    lines: dict[str, list[str]] = {}
    for each in safety.first_aid:
        situation, _, text = each.partition(": ")
        lines.setdefault(situation, []).append(text)
    for situation, texts in lines.items():
        yield situation, " ".join(texts)
