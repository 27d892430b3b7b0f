"""Factors, limits and exceptions of the EU list hold; its classes and estimates are compared in `nets`."""

from __future__ import annotations

import re

import pytest

from mullbook.model.catalogue import Catalogue
from tests.safety.nets import harmonised_of
from tests.science.oracles import rows

ROWS = rows("harmonised")

EXCLUSIONS = {
    "mercury-compounds": ("mercuric-sulfide",),
    "cadmium-compounds": ("cadmium-sulfoselenide",),
    "barium-compounds-soluble": ("barium-sulfate",),
}
"""Group entry to members that its own wording leaves out."""


def percentage(printed: str) -> float:
    """A percentage with a decimal comma, which the list prints without its nought."""
    return float(f"0{printed}".replace(",", "."))


@pytest.mark.parametrize(
    "row", [row for row in ROWS if "M=" in row["specific"]], ids=lambda row: row["substance"]
)
def test_the_m_factors_are_those_of_the_list(catalogue: Catalogue, row: dict[str, str]) -> None:
    printed = [float(each) for each in re.findall(r"M=(\d+)", row["specific"])]
    water = {each.hazard: each.m_factor or 1.0 for each in harmonised_of(catalogue, row)}
    assert [water["aquatic-acute"], water.get("aquatic-chronic", printed[-1])] == [printed[0], printed[-1]]


@pytest.mark.parametrize(
    "row", [row for row in ROWS if "C ≥" in row["specific"]], ids=lambda row: row["substance"]
)
def test_each_specific_limit_is_there(catalogue: Catalogue, row: dict[str, str]) -> None:
    """Of each statement, the lowest share from which the list gives it, or a stricter one."""
    for part in row["specific"].split(" ; "):
        found = re.search(r"(H\d{3}\w*)?: (?:C ≥ ([\d,]+) %|([\d,]+) % ≤ C)", part)
        if found is None:
            continue
        share = percentage(found[2] or found[3]) / 100
        held = [
            limit
            for each in harmonised_of(catalogue, row)
            for limit in [
                *([each.specific_limit.at_least] if each.specific_limit else []),
                *(lesser.at_least for lesser in each.lesser_categories),
            ]
        ]
        # A full class at every share above the general cut-off is stricter than a lesser class at a limit.
        general = any(
            each.specific_limit is None and found[1] and each.statement[:4] == found[1][:4]
            for each in harmonised_of(catalogue, row)
        )
        assert general or any(abs(limit - share) < 1e-12 for limit in held), part


@pytest.mark.parametrize(
    ("group", "member"), [(group, each) for group, held in EXCLUSIONS.items() for each in held]
)
def test_a_member_the_list_names_as_an_exception_gets_nothing(
    catalogue: Catalogue, group: str, member: str
) -> None:
    substance = catalogue.substance[member]
    codes = {each.at for each in catalogue.substance[group].hazards.classes if each.place == "EU"}
    taken = [each for each in catalogue.classes_of(substance) if each.place == "EU" and each.at in codes]
    assert taken == []


@pytest.mark.parametrize("blue", ["iron-ferrocyanide", "ammonium-iron-ferrocyanide"])
def test_ferrocyanides_are_no_salts_of_hydrogen_cyanide(catalogue: Catalogue, blue: str) -> None:
    substance = catalogue.substance[blue]
    assert [each for each in catalogue.classes_of(substance) if each.place == "EU"] == []
    assert "except complex cyanides such as ferrocyanides" in (substance.hazards.note or "")


def test_the_table_holds_what_the_catalogue_takes_from_the_list(catalogue: Catalogue) -> None:
    """An index number in an entry that the table lacks would go unchecked; those are named."""
    known = {row["index_no"] for row in ROWS}
    unchecked = {
        found[0]
        for substance in catalogue.substances
        for each in substance.hazards.classes
        if each.source == "clp-annex-vi-atp17"
        and (found := re.search(r"\d{3}-\d{3}-\d{2}-[\dX]", each.at or ""))
        and found[0] not in known
    }
    organics = {"603-070-00-6", "603-098-00-9", "607-750-00-3", "019-003-00-3"}
    # The table was filtered by element when it was drawn up. Of the row for arsenic acid and its salts the
    # group takes the cancer class alone, which is stricter than its own row.
    assert unchecked == {*organics, "033-005-00-1"}
