"""Every harmonised row of the EU list that applies to a substance of the catalogue is reproduced exactly."""

from __future__ import annotations

import re
from collections.abc import Mapping

import pytest

from mullbook.model.catalogue import Catalogue
from mullbook.model.values import HazardClass
from tests.science.oracles import rows

ROWS = rows("harmonised")
IDS = [f"{row['substance']} {row['index_no']}" for row in ROWS]

SHORT = {
    "respiratory-sensitisation": "Resp. Sens.",
    "skin-sensitisation": "Skin Sens.",
    "germ-cell-mutagenicity": "Muta.",
    "carcinogenicity": "Carc.",
    "reproductive-toxicity": "Repr.",
    "stot-single": "STOT SE",
    "stot-repeated": "STOT RE",
    "aspiration": "Asp. Tox.",
    "aquatic-acute": "Aquatic Acute",
    "aquatic-chronic": "Aquatic Chronic",
    "flammable-solid": "Flam. Sol.",
    "flammable-liquid": "Flam. Liq.",
}
# Rows that the entry leaves out: the list's own note takes them away under a condition the entry states.
LEFT_OUT = {
    ("mineral-spirits", "H340"): "note P: less than 0.1 % benzene",
    ("mineral-spirits", "H350"): "note P: less than 0.1 % benzene",
}
# Classes that stand in the list's column of specific limits, not in that of classes.
FROM_LIMITS = {("acetic-acid", "Eye Irrit. 2|H319"), ("ammonia-solution", "STOT SE 3|H335")}
EXCLUSIONS = {
    "mercury-compounds": ("mercuric-sulfide",),
    "cadmium-compounds": ("cadmium-sulfoselenide",),
    "barium-compounds-soluble": ("barium-sulfate",),
}
"""Group entry to members that its own wording leaves out."""


def short(each: HazardClass) -> str:
    """A class as the list's short code writes it."""
    if each.hazard.startswith("acute-toxicity"):
        return f"Acute Tox. {each.category}"
    if each.hazard == "skin-corrosion-irritation":
        return f"Skin {'Irrit.' if each.category == '2' else 'Corr.'} {each.category}"
    if each.hazard == "eye-damage-irritation":
        return f"Eye {'Irrit.' if each.category == '2' else 'Dam.'} {each.category}"
    if each.category == "lactation":
        return "Lact."
    if each.hazard == "other":
        return {"H260": "Water-react. 1", "H261": "Water-react. 2"}[each.statement]
    return f"{SHORT[each.hazard]} {each.category}"


def percentage(printed: str) -> float:
    """A percentage with a decimal comma, which the list prints without its nought."""
    return float(f"0{printed}".replace(",", "."))


def harmonised(catalogue: Catalogue, row: Mapping[str, str]) -> list[HazardClass]:
    """The EU classes that an entry takes from one row of the list."""
    return [
        each
        for each in catalogue.substance[row["substance"]].hazards.classes
        if (each.place, each.standing) == ("EU", "harmonised") and row["index_no"] in (each.at or "")
    ]


@pytest.mark.parametrize("row", ROWS, ids=IDS)
def test_the_classes_are_those_of_the_list(catalogue: Catalogue, row: dict[str, str]) -> None:
    printed = {each for each in row["classes"].split("; ") if each}
    wanted = {each for each in printed if (row["substance"], each.split("|")[1]) not in LEFT_OUT}
    given = {f"{short(each)}|{each.statement}" for each in harmonised(catalogue, row)}
    beside = {each for name, each in FROM_LIMITS if name == row["substance"]}
    assert given - beside == wanted


@pytest.mark.parametrize(
    "row", [row for row in ROWS if "M=" in row["specific"]], ids=lambda row: row["substance"]
)
def test_the_m_factors_are_those_of_the_list(catalogue: Catalogue, row: dict[str, str]) -> None:
    printed = [float(each) for each in re.findall(r"M=(\d+)", row["specific"])]
    water = {each.hazard: each.m_factor or 1.0 for each in harmonised(catalogue, row)}
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
            for each in harmonised(catalogue, row)
            for limit in [
                *([each.specific_limit.at_least] if each.specific_limit else []),
                *(lesser.at_least for lesser in each.lesser_categories),
            ]
        ]
        # A full class at every share above the general cut-off is stricter than a lesser class at a limit.
        general = any(
            each.specific_limit is None and found[1] and each.statement[:4] == found[1][:4]
            for each in harmonised(catalogue, row)
        )
        assert general or any(abs(limit - share) < 1e-12 for limit in held), part


@pytest.mark.parametrize(
    "row", [row for row in ROWS if "ATE" in row["specific"]], ids=lambda row: row["substance"]
)
def test_stated_estimates_are_there(catalogue: Catalogue, row: dict[str, str]) -> None:
    printed = {
        {"oral": "acute-toxicity-oral", "inhalation": "acute-toxicity-inhalation"}[route.lower()]: float(
            value
        )
        for route, value in re.findall(r"(Oral|Inhalation): ATE = ([\d.]+)", row["specific"])
    }
    given = {each.hazard: each.estimate for each in harmonised(catalogue, row) if each.estimate}
    assert given == printed


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
