"""Rules as properties: whatever is put in, a rule speaks exactly when it should, and nothing breaks."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from chemicals.identifiers import check_CAS
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from mullbook import load, workflow
from mullbook.checks.context import CatalogueContext, Check, EntryContext
from mullbook.checks.identity import cas_digit, ec_digit
from mullbook.checks.rules import ALL_RULES, CATALOGUE_RULES, ENTRY_RULES
from mullbook.model.catalogue import Catalogue
from mullbook.text.yaml_text import read_file, read_text
from tests.conftest import ROOT
from tests.corpus.cases import GOOD, SCHEMA, good_project

RULES: dict[str, Check] = {each.code: each for each in (*ENTRY_RULES, *CATALOGUE_RULES)}
DAY = st.dates(date(2000, 1, 1), date(2099, 12, 31))
CLASSES = ("carcinogenicity", "skin-sensitisation", "aquatic-chronic", "stot-repeated")


def entry(kind: str, data: dict[str, Any]) -> EntryContext:
    """An entry as a rule sees it; JSON is YAML, so that any data can be written."""
    document = read_text(json.dumps(data), f"{kind}s/{data.get('id')}.yaml")
    assert document.data == data
    return EntryContext(kind, document, load.entity(kind, data), Path(document.path))


def together(*entries: EntryContext) -> CatalogueContext:
    catalogue = load.catalogue(each.entity for each in entries)
    return CatalogueContext(catalogue, {(each.kind, each.entity.id): each.document for each in entries})


def codes(rule: str, context: object) -> list[str]:
    return [each.code for each in RULES[rule].check(context)]


def substance(name: str, **more: Any) -> dict[str, Any]:
    return {"id": name, "name": name, "kind": "compound", "hazards": {"status": "not-known"}, **more}


def hazard(name: str, basis: str = "common-practice") -> dict[str, Any]:
    told = {"category": "1", "statement": "H350", "place": "EU", "standing": "self-assessed"}
    return {"class": name, **told, "basis": basis}


def limit(value: dict[str, float], basis: str) -> dict[str, Any]:
    quantity = {**value, "unit": "mg/m3", "basis": basis}
    said = {"jurisdiction": "EU", "list": "x", "type": "twa", "fraction": "total", "scope": "x"}
    return {**said, "value": quantity}


def share(low: float, high: float) -> dict[str, Any]:
    return {"low": low, "high": high, "unit": "fraction", "basis": "common-practice"}


def pigment(*constituents: tuple[str, float, float], **more: Any) -> dict[str, Any]:
    parts = [
        {"substance": name, "share": share(low, high), "role": "colourant"}
        for name, low, high in constituents
    ]
    return {"id": "dug", "name": "Dug", "constituents": parts, **more}


def test_codes_stand_once_and_in_their_bands() -> None:
    told = [rule.code for rule in ALL_RULES.values()]
    assert told == sorted(told) and all(re.fullmatch(r"MB[0-9]\d\d", code) for code in told)
    assert len(RULES) == len(ENTRY_RULES) + len(CATALOGUE_RULES)
    for check in RULES.values():
        assert ALL_RULES[check.code] is check.rule


@pytest.mark.parametrize("rule", ALL_RULES.values(), ids=lambda rule: rule.code)
def test_every_rule_can_be_explained(rule: Any) -> None:
    told = workflow.explain(rule.code.lower())
    assert isinstance(told, str)
    assert rule.name in told and rule.why in told
    assert rule.bad != rule.good and rule.why.endswith(".")


@given(DAY, DAY)
def test_a_review_is_due_within_a_year_of_the_check(checked: date, review_by: date) -> None:
    given_days = entry("substance", substance("x", checked=str(checked), review_by=str(review_by)))
    in_time = checked < review_by <= checked + timedelta(days=366)
    assert codes("MB703", given_days) == ([] if in_time else ["MB703"])
    assert codes("MB707", given_days) == []


@given(st.integers(1900, 2099), st.integers(1, 12), st.integers(1, 31))
def test_a_day_must_be_in_the_calendar(year: int, month: int, day: int) -> None:
    text = f"{year}-{month:02}-{day:02}"
    try:
        date(year, month, day)
        expected = []
    except ValueError:
        expected = ["MB707"]
    assert codes("MB707", entry("substance", substance("x", checked=text))) == expected


@given(DAY, DAY, st.integers(1, 366))
def test_a_review_is_overdue_when_others_were_checked_later(checked: date, other: date, days: int) -> None:
    review_by = checked + timedelta(days=days)
    one = entry("substance", substance("one", checked=str(checked), review_by=str(review_by)))
    two = entry("substance", substance("two", checked=str(other)))
    assert codes("MB704", together(one, two)) == (["MB704"] if review_by < other else [])


@given(
    st.sets(st.sampled_from(CLASSES)),
    st.sets(st.sampled_from(CLASSES)),
    st.sets(st.sampled_from(CLASSES)),
)
def test_a_declared_class_is_explained_by_a_constituent_or_its_group(
    declared: set[str], own: set[str], lent: set[str]
) -> None:
    """A group lends its classes for the places where a member has none of its own."""
    group = substance("group", kind="group", hazards=classified(lent))
    member = substance("member", member_of=["group"], hazards=classified(own))
    made = pigment(("member", 1, 1), declared_hazards=[hazard(each) for each in sorted(declared)])
    context = together(entry("substance", group), entry("substance", member), entry("pigment", made))
    explained = {each.hazard for each in context.catalogue.classes_of(context.catalogue.substance["member"])}
    assert own <= explained
    assert len(codes("MB705", context)) == len(declared - explained)
    broken = replace(context, unsound=frozenset({("substance", "another")}))
    assert codes("MB705", broken) == []


def classified(classes: set[str]) -> dict[str, Any]:
    return {"status": "classified", "classes": [hazard(each) for each in sorted(classes)]}


AMOUNT = st.floats(0.001, 10, allow_nan=False).map(lambda number: round(number, 3))
FORM = st.one_of(
    AMOUNT.map(lambda value: {"value": value}),
    st.tuples(AMOUNT, AMOUNT).map(lambda ends: {"low": min(ends), "high": max(ends)}),
    AMOUNT.map(lambda value: {"min": value}),
    AMOUNT.map(lambda value: {"max": value}),
)


@given(FORM, FORM)
def test_a_remembered_limit_may_only_be_stricter(
    remembered: dict[str, float], published: dict[str, float]
) -> None:
    limits = [limit(remembered, "from-memory"), limit(published, "published")]
    found = codes("MB702", entry("substance", substance("x", limits=limits)))
    highest = remembered.get("value", remembered.get("high", remembered.get("max", float("inf"))))
    lowest = published.get("value", published.get("low", published.get("min", 0.0)))
    assert found == (["MB702"] if highest >= lowest else [])


@pytest.mark.parametrize("other", ["jurisdiction", "type", "fraction", "scope"])
def test_a_remembered_limit_is_held_against_its_like_only(other: str) -> None:
    limits = [limit({"value": 5}, "from-memory"), {**limit({"value": 1}, "published"), other: "another"}]
    assert codes("MB702", entry("substance", substance("x", limits=limits))) == []


@pytest.mark.parametrize("action", ["no", "only-extracted", "ordinary-care"])
@pytest.mark.parametrize("basis", ["published", "common-practice", "from-memory"])
def test_memory_may_refuse_heat_and_never_allow_it(action: str, basis: str) -> None:
    heating = {"action": action, "because": "x", "basis": basis}
    milder = basis == "from-memory" and action != "no"
    assert codes("MB702", entry("substance", substance("x", heating=heating))) == (
        ["MB702"] if milder else []
    )


@given(st.lists(st.tuples(st.integers(0, 100), st.integers(0, 100)), min_size=1, max_size=6))
def test_shares_hold_the_whole_between_their_sums(ends: list[tuple[int, int]]) -> None:
    shares = [(f"s{index}", min(pair) / 100, max(pair) / 100) for index, pair in enumerate(ends)]
    low, high = sum(min(pair) for pair in ends), sum(max(pair) for pair in ends)
    found = codes("MB601", entry("pigment", pigment(*shares)))
    assert found == ["MB601"] * ((low > 100) + (high < 100))


@given(st.floats(-1e6, 1e6), st.floats(-1e6, 1e6))
def test_a_range_that_runs_backwards_is_told_once_and_breaks_no_other_rule(low: float, high: float) -> None:
    backwards = entry("pigment", pigment(("x", low, high)))
    assert codes("MB502", backwards) == (["MB502"] if low > high else [])
    if low > high:
        assert codes("MB601", backwards) == []


@pytest.mark.parametrize("odd", [{"max": -1}, {"min": 2}, {"low": 1, "high": 0}])
def test_a_share_that_cannot_be_has_no_sum(odd: dict[str, float]) -> None:
    made = pigment(("x", 0, 1))
    made["constituents"][0]["share"] = {**odd, "unit": "fraction", "basis": "common-practice"}
    assert codes("MB601", entry("pigment", made)) == []
    assert codes("MB502", entry("pigment", made)) + codes("MB503", entry("pigment", made)) != []


@pytest.mark.parametrize("density", [{"min": 1}, {"max": 99}, {"value": 4.3}, {"low": 3, "high": 5}])
def test_a_density_is_held_against_the_cell_only_when_both_have_two_ends(density: dict[str, float]) -> None:
    volume = {"value": 138.25, "unit": "A3", "basis": "common-practice"}
    cell = {"system": "orthorhombic", "volume": volume, "z": 4}
    stated = {**density, "unit": "g/cm3", "basis": "common-practice"}
    assert (
        codes("MB604", entry("substance", substance("x", formula="FeHO2", cell=cell, density=stated))) == []
    )


@given(st.integers(10, 9999999), st.integers(0, 99))
def test_the_check_digit_of_a_cas_number(left: int, middle: int) -> None:
    body = f"{left}-{middle:02}"
    right = [digit for digit in range(10) if check_CAS(f"{body}-{digit}")]
    assert right == [cas_digit(f"{body}-0")]
    for digit in range(10):
        numbered = entry("pigment", pigment(cas=[{"number": f"{body}-{digit}", "basis": "common-practice"}]))
        assert codes("MB302", numbered) == ([] if [digit] == right else ["MB302"])


@given(st.integers(0, 999), st.integers(0, 999), st.integers(0, 9))
def test_an_ec_number_whose_digit_would_be_ten_was_never_given_out(
    left: int, middle: int, digit: int
) -> None:
    number = f"{left:03}-{middle:03}-{digit}"
    numbered = entry("substance", substance("x", ec=[{"number": number, "basis": "common-practice"}]))
    assert codes("MB303", numbered) == ([] if ec_digit(number) == digit else ["MB303"])


@given(st.sampled_from(["<b>", "</p>", "<!-- ", "<script src=x>", "&amp;", "&#60;", "javascript:", "< img"]))
def test_html_is_told_wherever_it_stands(text: str) -> None:
    for field in ("name", "summary", "note"):
        assert codes("MB901", entry("substance", {**substance("x"), field: f"before {text} after"})) == [
            "MB901"
        ]


@pytest.mark.parametrize("text", ["5 < 6 and 7 > 6", "Field & Salter", "a <1 % share", "A&B"])
def test_signs_of_plain_text_are_no_html(text: str) -> None:
    assert codes("MB901", entry("substance", substance("x", summary=text))) == []


def test_a_catalogue_without_anything_says_that_rules_are_missing_and_breaks_nothing() -> None:
    empty = CatalogueContext(Catalogue())
    assert [each for check in CATALOGUE_RULES for each in codes(check.code, empty)] == ["MB706", "MB706"]


# What might stand where something else should.
ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**9), 10**9),
    st.floats(allow_nan=False, allow_infinity=False, width=32),
    st.text(st.characters(codec="utf-8", exclude_categories=["C"]), max_size=20),
    st.sampled_from(
        ["not-known", "../x", "<b>", "2026-02-31", "PbCO3", "invented-sand", "invented-list-2020"]
    ),
    st.just([]),
    st.just({}),
    st.just([{"value": 1}]),
    st.just({"low": 3, "high": 1, "unit": "fraction", "basis": "published"}),
)


def pointers(data: Any, here: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield (*here, key)
        yield from pointers(value, (*here, key))


def spoilt(data: Any, pointer: tuple[Any, ...], value: Any) -> Any:
    if not pointer:
        return value
    copy = dict(data) if isinstance(data, dict) else list(data)
    copy[pointer[0]] = spoilt(copy[pointer[0]], pointer[1:], value)
    return copy


FILES = sorted(
    path.relative_to(GOOD).as_posix() for path in GOOD.rglob("*.yaml") if path.parent.name != "rulesets"
)
DATA = {name: read_file(GOOD / name).data for name in FILES}
PLACES = [(name, pointer) for name in FILES for pointer in pointers(DATA[name])]


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(PLACES), ODD)
def test_whatever_stands_in_an_entry_becomes_a_problem_and_never_a_crash(
    tmp_path_factory: pytest.TempPathFactory, place: tuple[str, tuple[Any, ...]], value: Any
) -> None:
    name, pointer = place
    project = good_project(tmp_path_factory.mktemp("spoilt"))
    first = (GOOD / name).read_text("utf-8").split("\n", 1)[0]
    text = f"{first}\n{json.dumps(spoilt(DATA[name], pointer, value), ensure_ascii=False)}\n"
    (project / "entries" / name).write_text(text, encoding="utf-8")
    loaded = workflow.check(workflow.Roots(project / "entries", SCHEMA, ROOT / "site_templates"))
    assert loaded.exit_code in (0, 1), loaded.problems
    if not loaded.errors:
        assert loaded.derived.pigments.keys() == loaded.catalogue.pigment.keys()
