"""Extreme pH and parts that do not add up (CLP, Annex I, Tables 3.2.4 and 3.3.4)."""

from __future__ import annotations

import pytest

from mullbook.model.values import Range
from mullbook.model.values.hazard import SpecificLimit
from mullbook.model.values.ruleset import Component
from mullbook.science.mixture import mixture_classes
from tests.science.clp import EYE, RULES, SKIN, US_RULES, component, hazard

CORROSIVE, IRRITANT = hazard(SKIN, "1", "H314"), hazard(SKIN, "2", "H315")
WATER = component("water", 0.86)


def found(*components: Component, ph: Range | None = None) -> dict[str, str]:
    """Category of each class of a mixture."""
    return {each.hazard: each.category for each in mixture_classes(components, RULES, ph)}


def test_published_example() -> None:
    """UN document ST/SG/AC.10/C.4/2008/23, Annex 2, example 5: pH 4.0 as a whole, a part of pH 1.8 at 4 %.

    Its third part is of skin category 3, which the EU and the US do not have.
    """
    acid = component("ingredient 1", 0.04, CORROSIVE, ph=Range.of(1.8), adds_up=False)
    irritant = component("ingredient 2", 0.05, IRRITANT)
    mild = component("ingredient 3", 0.05)
    assert found(acid, irritant, mild, WATER, ph=Range.of(4.0))[SKIN] == "1"


@pytest.mark.parametrize(
    ("ph", "expected"),
    [
        (Range.of(2.0), {SKIN: "1", EYE: "1"}),
        (Range.of(2.1), {}),
        (Range.of(7.0), {}),
        (Range.of(11.4), {}),
        (Range.of(11.5), {SKIN: "1", EYE: "1"}),
        (Range(10.5, 12.0), {SKIN: "1", EYE: "1"}),
        (None, {}),
    ],
)
def test_ph_of_the_mixture(ph: Range | None, expected: dict[str, str]) -> None:
    """CLP, Annex I, 3.2.3.1.2 and 3.3.3.1.2. Of a range the worse end counts."""
    assert found(WATER, ph=ph) == expected


@pytest.mark.parametrize(
    ("ph", "share", "expected"),
    [
        (12.4, 0.01, {SKIN: "1", EYE: "1"}),
        (12.4, 0.009, {}),
        (1.0, 0.01, {SKIN: "1", EYE: "1"}),
        (9.0, 0.5, {}),
    ],
)
def test_strong_acids_and_bases(ph: float, share: float, expected: dict[str, str]) -> None:
    assert found(component("lime", share, ph=Range.of(ph))) == expected


@pytest.mark.parametrize(
    ("part", "share", "skin", "eye"),
    [
        (CORROSIVE, 0.01, "1", "1"),
        (CORROSIVE, 0.009, None, None),
        (IRRITANT, 0.03, "2", None),
        (IRRITANT, 0.029, None, None),
        (hazard(EYE, "1", "H318"), 0.01, None, "1"),
        (hazard(EYE, "2", "H319"), 0.03, None, "2"),
        (hazard(EYE, "2", "H319"), 0.029, None, None),
    ],
)
def test_parts_that_do_not_add_up(part: object, share: float, skin: str | None, eye: str | None) -> None:
    given = found(component("part", share, part, adds_up=False))  # type: ignore[arg-type]
    assert (given.get(SKIN), given.get(EYE)) == (skin, eye)


def test_only_where_they_are_marked() -> None:
    assert found(component("irritant", 0.05, IRRITANT)) == {}
    assert found(component("corrosive", 0.01, CORROSIVE)) == {SKIN: "2", EYE: "2"}


def test_limits_of_its_own_go_before() -> None:
    """An alkali of Annex VI with limits of its own is judged by them for the skin."""
    lesser = (SpecificLimit(0.02, "1B", "H314"), SpecificLimit(0.005, "2", "H315"))
    alkali = hazard(SKIN, "1A", "H314", at_least=0.05, lesser=lesser)
    given = found(component("alkali", 0.015, alkali, ph=Range.of(14), adds_up=False))
    assert given == {SKIN: "2", EYE: "1"}


def test_memory_is_marked() -> None:
    remembered = component("part", 0.03, hazard(SKIN, "2", "H315", basis="from-memory"), adds_up=False)
    (only,) = mixture_classes([remembered], RULES)
    assert only.remembered
    assert only.rule == "a part that does not add up counts from 3 % on (Annex I, Table 3.2.4)"


def test_a_ruleset_without_the_rule_says_nothing() -> None:
    assert mixture_classes([component("lime", 0.5, ph=Range.of(12.4))], US_RULES, Range.of(12.4)) == []
