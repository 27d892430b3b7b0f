"""The record of the second reading: every entry has rows, and no row stands for what is not there."""

from __future__ import annotations

import csv
from collections import Counter
from datetime import date
from pathlib import Path

import pytest

ENTRIES = Path(__file__).resolve().parent.parent / "entries"
COLUMNS = ["entry", "field_group", "source", "date", "result", "corrected"]
RESULTS = {"agrees", "differed", "no source to compare", "not re-opened"}
READ_TWICE = ("pigments", "substances", "binders", "additives")
GROUPS = {
    *("identity", "CAS", "EC", "colour index", "composition", "density", "bulk density"),
    *("oil absorption", "oil to grind", "refractive index", "particle size", "specific surface", "physical"),
    *("colour", "fastness", "suitability", "handling", "hazards", "limits", "IARC", "doses", "warnings"),
    "other",
}


def rows() -> list[dict[str, str]]:
    """The rows of the record."""
    with (ENTRIES / "REVIEW.csv").open(encoding="utf-8", newline="") as file:
        table = csv.DictReader(file)
        assert table.fieldnames == COLUMNS
        return list(table)


@pytest.fixture(scope="module")
def review() -> list[dict[str, str]]:
    return rows()


def held(folder: str) -> set[str]:
    """Names of the entries of a folder, such as `pigments/raw-umber`."""
    return {f"{folder}/{path.stem}" for path in (ENTRIES / folder).glob("*.yaml")}


@pytest.mark.parametrize("folder", READ_TWICE)
def test_every_entry_has_a_row(review: list[dict[str, str]], folder: str) -> None:
    assert sorted(held(folder) - {each["entry"] for each in review}) == []


def test_no_row_stands_for_what_is_not_there(review: list[dict[str, str]]) -> None:
    known = {name for folder in (*READ_TWICE, "systems", "sources") for name in held(folder)}
    assert sorted({each["entry"] for each in review} - known) == []


def test_no_source_is_made_up(review: list[dict[str, str]]) -> None:
    known = {name.removeprefix("sources/") for name in held("sources")}
    assert sorted({word for each in review for word in each["source"].split()} - known) == []


def test_words_are_the_agreed_ones(review: list[dict[str, str]]) -> None:
    assert {each["result"] for each in review} <= RESULTS
    assert {each["field_group"] for each in review} <= GROUPS


def test_dates_are_dates_gone_by(review: list[dict[str, str]]) -> None:
    assert all(date.fromisoformat(each["date"]) <= date.today() for each in review)


def test_what_differed_says_what_was_done(review: list[dict[str, str]]) -> None:
    assert [each for each in review if each["result"] == "differed" and not each["corrected"]] == []


def test_what_agrees_names_a_source(review: list[dict[str, str]]) -> None:
    silent = {"identity", "CAS", "density", "physical", "other", "hazards"}
    assert [
        each
        for each in review
        if each["result"] == "agrees" and not each["source"] and each["field_group"] not in silent
    ] == []


def test_one_row_for_an_entry_a_group_and_its_sources(review: list[dict[str, str]]) -> None:
    told = Counter((each["entry"], each["field_group"], each["source"]) for each in review)
    assert [key for key, count in told.items() if count > 1] == []


def test_the_share_that_differed_is_shown(review: list[dict[str, str]]) -> None:
    """Prints the error rate: rows that differed, of all that were held against an opened source."""
    found = Counter(each["result"] for each in review)
    compared = found["agrees"] + found["differed"]
    print(f"{found['differed']} of {compared} comparisons differed, {found['differed'] / compared:.1%}")
    assert compared > found["not re-opened"]
