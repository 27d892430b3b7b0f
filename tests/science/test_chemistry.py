"""Molar masses, mass fractions and crystal densities, against two libraries and printed tables."""

from __future__ import annotations

import math

import chemicals
import pytest
from chemicals.elements import mass_fractions, molecular_weight, nested_formula_parser
from chemicals.volume import rho_data_CRC_inorg_s_const
from hypothesis import given
from hypothesis import strategies as st

from mullbook.science import chemistry
from tests.science.oracles import cases, number

WEIGHED_OTHERWISE = {
    "magnetite": "the library weighs another compound under this number",
    "orpiment": "the library weighs As4S6",
    "cochromite": "the library weighs another compound under this number",
    "valentinite": "the library has no such number",
}
"""Minerals whose molar mass the chemicals library does not give as ours."""

OTHER_DENSITY = {
    "massicot": "one number for litharge and massicot",
    "corundum": "another edition of the table",
}

FORMULAS = [
    "PbCO3", "Pb3(CO3)2(OH)2", "MnO2", "CaSO4(H2O)2", "Fe4(Fe(CN)6)3", "C32H16N8Cu", "Al2Si2O5(OH)4",
    "Ca5(PO4)3OH", "K2Cr2O7", "HgS", "CdS", "CoAl2O4", "Cu2CO3(OH)2", "As2S3", "TiO2", "Na2B4O7(H2O)10",
]  # fmt: skip


@pytest.mark.parametrize("formula", FORMULAS)
def test_molar_mass_agrees_with_another_library(formula: str) -> None:
    """Atomic weights of the chemicals library, summed by its own parser."""
    other = molecular_weight(nested_formula_parser(formula))
    assert chemistry.molar_mass(formula) == pytest.approx(other, rel=1e-4)


@pytest.mark.parametrize("formula", FORMULAS)
def test_element_fractions_agree_and_add_up(formula: str) -> None:
    other = mass_fractions(nested_formula_parser(formula))
    found = chemistry.element_fractions(formula)
    assert sum(found.values()) == pytest.approx(1)
    assert found == pytest.approx(other, rel=2e-4)


@pytest.mark.parametrize(
    ("formula", "element", "fraction"),
    [
        ("2PbCO3.Pb(OH)2", "Pb", 0.801),
        ("Pb3(CO3)2(OH)2", "Pb", 0.801),
        ("PbCO3", "Pb", 0.775),
        ("MnO2", "Mn", 0.632),
        ("HgS", "Hg", 0.862),
        ("CdS", "Cd", 0.778),
        ("As2S3", "As", 0.609),
        ("CoAl2O4", "Co", 0.333),
        ("MnO2", "Pb", 0.0),
    ],
)
def test_the_elements_that_limits_count(formula: str, element: str, fraction: float) -> None:
    """Worked by hand from IUPAC standard atomic weights."""
    assert chemistry.mass_fraction(formula, element) == pytest.approx(fraction, abs=1e-3)


@pytest.mark.parametrize(
    "formula", ["CaSO4.2H2O", "CaSO4·2H2O", "CaSO4(H2O)2", "CaSO₄·2H₂O", " CaSO4 (H2O)2 "]
)
def test_a_hydrate_may_be_written_in_several_ways(formula: str) -> None:
    assert chemistry.molar_mass(formula) == pytest.approx(172.17, abs=0.01)


@pytest.mark.parametrize("row", cases("crc_densities"))
def test_crc_numbers_name_the_compounds_we_weigh(row: dict[str, str]) -> None:
    try:
        other = chemicals.MW(row["cas"])
    except ValueError:
        other = 0.0
    agree = chemistry.molar_mass(row["formula"]) == pytest.approx(other, rel=1e-4)
    assert agree == (row["mineral"] not in WEIGHED_OTHERWISE)


@pytest.mark.parametrize("row", cases("crc_densities"))
def test_crc_densities_agree_with_the_library(row: dict[str, str]) -> None:
    if row["mineral"] in WEIGHED_OTHERWISE:
        return
    molar_volume = rho_data_CRC_inorg_s_const["Vm"][row["cas"]]
    density = chemistry.molar_mass(row["formula"]) / (molar_volume * 1e6)
    agree = density == pytest.approx(number(row, "density"), rel=2e-3)
    assert agree == (row["mineral"] not in OTHER_DENSITY)


@pytest.mark.parametrize("row", cases("unit_cells"))
def test_density_from_a_unit_cell(row: dict[str, str]) -> None:
    found = chemistry.crystal_density(row["formula"], number(row, "volume_A3"), number(row, "z"))
    assert found == pytest.approx(number(row, "density"), rel=3e-4)


@pytest.mark.parametrize("row", cases("crc_densities"))
def test_cells_come_near_the_printed_density(row: dict[str, str]) -> None:
    """An X-ray density is that of a perfect crystal; printed ones are mostly measured."""
    cell = next(each.values[0] for each in cases("unit_cells") if each.id == row["mineral"])  # type: ignore[attr-defined]
    found = chemistry.crystal_density(cell["formula"], number(cell, "volume_A3"), number(cell, "z"))
    assert found == pytest.approx(number(row, "density"), rel=0.05)


@pytest.mark.parametrize("row", cases("printed_cells"))
def test_density_from_a_printed_cell(row: dict[str, str]) -> None:
    a, b, c = (number(row, axis) for axis in "abc")
    volume = a * b * c * math.sin(math.radians(number(row, "beta")))
    assert volume == pytest.approx(number(row, "volume"), abs=0.2)
    found = chemistry.crystal_density(row["formula"], volume, number(row, "z"))
    assert found == pytest.approx(number(row, "density"), abs=2e-3)


@pytest.mark.parametrize(
    ("formula", "words"),
    [
        ("Xx2", "'Xx' is not the symbol of an element"),
        ("PbCO3)", "'PbCO3\\)' is not a chemical formula"),
        ("pbco3", "not a chemical formula"),
        ("", "not a chemical formula"),
        ("Ph2", "'Ph' is not the symbol"),
        ("Na7.5Al6Si6O24S4.5", "whole numbers"),
        ("Fe0.95O", "whole numbers"),
        ("K3Co(NO2)6.1.5H2O", "whole numbers"),
        ("Al2O3.2SiO2.2H2O", "whole numbers"),
        ("lead white", "not a chemical formula"),
    ],
)
def test_a_wrong_formula_is_refused_in_words(formula: str, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        chemistry.molar_mass(formula)


def test_a_wrong_element_is_refused_in_words() -> None:
    with pytest.raises(ValueError, match="'Lead' is not the symbol"):
        chemistry.mass_fraction("PbCO3", "Lead")


@given(st.text(max_size=12))
def test_any_text_gives_a_number_or_words(text: str) -> None:
    try:
        assert chemistry.molar_mass(text) > 0
    except ValueError as error:
        assert str(error)
