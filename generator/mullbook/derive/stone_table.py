"""The table of the stone check: what each mineral and rock of the catalogue may show, with what chance."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from mullbook.derive.composition import elements_of
from mullbook.derive.stone_results import Candidate, Hides, StoneTable
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Substance
from mullbook.model.facts import FieldTests, Observed
from mullbook.model.stones import Stone, StoneCheck, StoneHazard, StoneTest
from mullbook.model.values import BASES, Range
from mullbook.science import stone as science

RADIOACTIVE, COUNTER = "radioactive", "counter"
SHOWN = ("streak", "colour", "lustre", "habit", "feel", "acid", "magnet", "smell", "slurry", "salts")
"""Tests that are held against the field of the same name."""


def stone_table(catalogue: Catalogue) -> StoneTable | None:
    """Every candidate with its chances; None where the catalogue has no stone check.

    Candidates are the substances whose field tests tell a streak or a habit, and the rocks of the check, in
    the order of their names, so that the same entries always give the same table.
    """
    check = catalogue.stone_check
    if check is None:
        return None
    found = [
        *(_mineral(catalogue, check, each) for each in catalogue.substances if _is_asked_for(each)),
        *(_rock(catalogue, check, each) for each in check.stones),
    ]
    candidates = tuple(sorted(found, key=lambda each: (each.name.casefold(), each.id)))
    chances = {each.id: _chances(check, each, candidates) for each in check.tests}
    asked = [each.field_tests for each in catalogue.substances if _is_asked_for(each) and each.field_tests]
    told = [*asked, *(each.field_tests for each in check.stones)]
    known = {each.id: _known(each, told) for each in check.tests}
    return StoneTable(check=check, candidates=candidates, chances=chances, known=known)


def _known(test: StoneTest, told: Iterable[FieldTests]) -> dict[str, int]:
    """How many readings of one test rest on what; nothing where they are worked out, as for the counter."""
    held = Counter(each.basis for tests in told if (each := getattr(tests, test.id, None)) is not None)
    return {basis: held[basis] for basis in BASES if held[basis]}


def _is_asked_for(substance: Substance) -> bool:
    tests = substance.field_tests
    return tests is not None and any((tests.streak and tests.streak.any_of, tests.habit))


def _mineral(catalogue: Catalogue, check: StoneCheck, substance: Substance) -> Candidate:
    tests = substance.field_tests or FieldTests()
    hazards = _hazards(catalogue, check, [substance.id])
    shown = _shown(tests)
    traits = {trait for each in catalogue.lineage(substance.id) for trait in each.traits}
    elements = set(elements_of(substance.formula)) if substance.formula else set()
    # A mineral of known formula without uranium or thorium counts as the background does; a rock may not.
    if RADIOACTIVE in traits or elements & {"U", "Th"}:
        shown[COUNTER] = ("above",)
    elif elements:
        shown[COUNTER] = ("background",)
    return Candidate(
        id=substance.id,
        name=tests.mineral or substance.name,
        kind="substance",
        summary=substance.summary or "",
        shown=shown,
        hardness=tests.hardness.span if tests.hardness else None,
        density=_density(tests, substance),
        hazards=hazards,
        hides=tuple(_hides(check, substance.id, hazards)),
    )


def _density(tests: FieldTests, substance: Substance) -> Range | None:
    """From the lightest to the heaviest that is stated, of pieces or of the pure substance."""
    spans = [each.span for each in (tests.density, substance.density) if each is not None]
    held = [each for each in spans if each is not None]
    if not held:
        return None
    return Range(min(each.low for each in held), max(each.high for each in held))


def _rock(catalogue: Catalogue, check: StoneCheck, stone: Stone) -> Candidate:
    tests = stone.field_tests
    hazards = _hazards(catalogue, check, stone.holds)
    return Candidate(
        id=stone.id,
        name=stone.name,
        kind="stone",
        summary=stone.summary,
        shown=_shown(tests),
        hardness=tests.hardness.span if tests.hardness else None,
        density=tests.density.span if tests.density else None,
        hazards=hazards,
        hides=tuple(_hides(check, stone.id, hazards)),
    )


def _shown(tests: FieldTests) -> dict[str, tuple[str, ...]]:
    held: dict[str, Observed | None] = {name: getattr(tests, name) for name in SHOWN}
    return {name: each.any_of for name, each in held.items() if each is not None and each.any_of}


def _hazards(catalogue: Catalogue, check: StoneCheck, holds: Iterable[str]) -> tuple[str, ...]:
    held = [each for substance in holds for each in catalogue.lineage(substance)]
    return tuple(each.id for each in check.hazards if any(_carries(each, one) for one in held))


def _carries(hazard: StoneHazard, substance: Substance) -> bool:
    elements = elements_of(substance.formula) if substance.formula else ()
    return (
        substance.id in hazard.substances
        or bool(set(hazard.traits) & set(substance.traits))
        or bool(set(hazard.elements) & set(elements))
    )


def _hides(check: StoneCheck, candidate: str, hazards: tuple[str, ...]) -> Iterator[Hides]:
    for each in check.may_hold:
        if candidate in each.found_in and each.hides not in hazards:
            yield Hides(hazard=each.hides, say=each.say)


def _chances(
    check: StoneCheck, test: StoneTest, candidates: tuple[Candidate, ...]
) -> tuple[tuple[float, ...], ...]:
    if test.kind == "number":
        return tuple(_on_grid(test, each.density) for each in candidates)
    if test.kind == "steps":
        return tuple(_on_steps(test, each.hardness) for each in candidates)
    near = {each.id: each.near for each in test.values}
    table = science.confusion(near, test.error, check.near_share)
    return tuple(science.word_chances(each.shown.get(test.id, ()), table) for each in candidates)


def grid(test: StoneTest) -> tuple[float, ...]:
    """The points at which a number is weighed against other tests."""
    count = round((test.highest - test.lowest) / test.step)
    return tuple(test.lowest + test.step * (place + 0.5) for place in range(count))


def _on_grid(test: StoneTest, found: Range | None) -> tuple[float, ...]:
    points = grid(test)
    if found is None:
        return tuple(1 / len(points) for _ in points)
    return science.grid_chances(found.low, found.high, test.spread, test.error, points)


def _on_steps(test: StoneTest, found: Range | None) -> tuple[float, ...]:
    if found is None:
        return tuple(1 / len(test.values) for _ in test.values)
    bounds = tuple(each.below for each in test.values if each.below is not None)
    return science.step_chances(found.low, found.high, bounds, test.spread, test.error)
