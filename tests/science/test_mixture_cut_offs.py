"""Cut-offs of the rulesets one by one: at the limit, just below it, and where places differ."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import Classification
from mullbook.science.label import not_judged
from mullbook.science.mixture import mixture_classes
from tests.science.clp import EYE, ORAL, RULES, SKIN, US_RULES, component, hazard
from tests.science.oracles import cases, number


def given(row: dict[str, str], share: float, rules: Classification) -> list[str]:
    """Categories that one classified part gives the mixture in its own class."""
    part = component("part", share, hazard(row["hazard"], row["category"], row["statement"]))
    return [each.category for each in mixture_classes([part], rules) if each.hazard == row["hazard"]]


@pytest.mark.parametrize("row", cases("eu_cut_offs"))
def test_eu(row: dict[str, str]) -> None:
    """CLP, Annex I, Tables 3.2.3 to 3.9.4, 4.1.1 and 4.1.2."""
    limit = number(row, "at_least")
    assert row["gives"] in given(row, limit, RULES)
    assert row["gives"] not in given(row, limit * 0.999, RULES)


@pytest.mark.parametrize("row", cases("cut_offs_eu_us"))
@pytest.mark.parametrize(("place", "rules"), [("eu", RULES), ("us", US_RULES)])
def test_eu_and_us(row: dict[str, str], place: str, rules: Classification) -> None:
    """CLP, Annex I, against 29 CFR 1910.1200, Appendix A (2015), for the rows that were read."""
    limit = number(row, place)
    assert given(row, limit, rules) == [row[f"{place}_gives"]]
    assert given(row, limit * 0.999, rules) == []


@pytest.mark.parametrize("row", cases("cut_offs_eu_us"))
def test_a_place_differs_exactly_where_its_rows_do(row: dict[str, str]) -> None:
    for share in (0.0005, 0.001, 0.002, 0.003, 0.005, 0.01, 0.02, 0.03, 0.05):
        differ = given(row, share, RULES) != given(row, share, US_RULES)
        below_us, below_eu = share < number(row, "us"), share < number(row, "eu")
        assert differ == (below_us != below_eu or (not below_eu and row["eu_gives"] != row["us_gives"]))


def test_from_a_tenth_on_organ_damage_is_the_same_again() -> None:
    for name, statement in (("stot-single", "H370"), ("stot-repeated", "H372")):
        row = {"hazard": name, "category": "1", "statement": statement}
        assert given(row, 0.1, RULES) == given(row, 0.1, US_RULES) == ["1"]


def test_what_the_us_ruleset_does_not_judge_is_named() -> None:
    """Its tables for these classes were not read: no class from them may read as clearance."""
    part = component(
        "part", 1.0, hazard(ORAL, "3", "H301"), hazard(SKIN, "2", "H315"), hazard(EYE, "1", "H318")
    )
    assert mixture_classes([part], US_RULES) == []
    assert not_judged([part], US_RULES) == (ORAL, EYE, SKIN)
    assert not_judged([part], RULES) == ()


@pytest.mark.parametrize("rules", [RULES, US_RULES])
def test_every_class_is_judged_or_named_as_not_judged(rules: Classification) -> None:
    judged = {rule.gives.hazard for rule in rules.mixture_rules}
    if rules.acute_toxicity is not None:
        judged |= {band.hazard for band in rules.acute_toxicity.bands}
    asked = {element.hazard for element in RULES.elements}
    assert judged & set(rules.not_judged) == set()
    assert asked <= judged | set(rules.not_judged)
