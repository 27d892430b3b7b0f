"""Limits on a dust: compounds counted as their element, parts added up, liquids not divided by twenty."""

from __future__ import annotations

from itertools import pairwise

import pytest
from chemicals.elements import mass_fractions, nested_formula_parser

from mullbook.derive.composition import elements_of
from mullbook.derive.dust import dust_limits
from mullbook.derive.results import Derived, Part
from mullbook.derive.waste import drain
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Range
from mullbook.science.air import POWDER_FRACTIONS, combined_limit, limit_on_pigment
from mullbook.science.registry import evaluate

COUNTED = ("Pb", "Cd", "Cr", "Co", "Mn", "Ni", "As", "Sb", "Hg", "Ba")


def independent_fraction(formula: str, element: str) -> float:
    """Mass fraction of an element by the chemicals package, hydrates and adducts taken apart by hand."""
    atoms: dict[str, float] = {}
    for part in formula.replace("·", ".").split("."):
        digits = len(part) - len(part.lstrip("0123456789"))
        for symbol, count in nested_formula_parser(part[digits:]).items():
            atoms[symbol] = atoms.get(symbol, 0.0) + count * int(part[:digits] or 1)
    return float(mass_fractions(atoms).get(element, 0.0))


@pytest.mark.parametrize("element", COUNTED)
def test_the_element_in_a_compound_is_that_of_an_independent_package(
    catalogue: Catalogue, element: str
) -> None:
    checked = 0
    for substance in catalogue.substances:
        if substance.formula is None or element not in elements_of(substance.formula):
            continue
        mine = elements_of(substance.formula)[element]
        assert mine == pytest.approx(independent_fraction(substance.formula, element), rel=2e-3), substance.id
        checked += 1
    assert checked > 0


@pytest.mark.parametrize("element", COUNTED)
def test_a_limit_on_the_element_is_put_on_the_compound(catalogue: Catalogue, element: str) -> None:
    """Each limit expressed as the element, on each member alone: limit/(mass fraction)."""
    checked = 0
    for substance in catalogue.substances:
        if substance.formula is None or element not in elements_of(substance.formula):
            continue
        part = Part(
            substance=substance.id,
            name=substance.name,
            role="colourant",
            share=Range.of(1.0),
            groups=substance.member_of,
            elements=elements_of(substance.formula),
        )
        found = {
            (each.jurisdiction, each.list, each.fraction): each.value
            for each in dust_limits(catalogue, (part,))
        }
        for limit in catalogue.limits_of(substance):
            alone = [
                other
                for other in catalogue.limits_of(substance)
                if (other.jurisdiction, other.list, other.fraction, other.type)
                == (limit.jurisdiction, limit.list, limit.fraction, limit.type)
            ]
            value = limit.value.range
            key = (limit.jurisdiction, limit.list, limit.fraction)
            if limit.type != "twa" or limit.expressed_as != element or len(alone) > 1 or value is None:
                continue
            if limit.fraction in POWDER_FRACTIONS and key in found and limit.value.basis != "from-memory":
                on_compound = value.low / independent_fraction(substance.formula, element)
                assert found[key] == pytest.approx(on_compound, rel=2e-3), (substance.id, key)
                checked += 1
    assert checked > 0, element


def test_five_per_cent_quartz_alone_and_with_the_rest() -> None:
    alone = limit_on_pigment(0.05, "respirable", 0.05)
    assert alone == pytest.approx(1.0)
    assert combined_limit([alone, limit_on_pigment(5, "respirable", 0.95)]) == pytest.approx(0.84, abs=0.005)


def test_rinse_water_with_six_milligrams_of_lead_is_flagged() -> None:
    """A liquid with hardly any solids is its own extract: the total is not divided by twenty."""
    asked = {"total": 6.0, "regulated_level": 5.0, "solids_fraction": 0.001, "liquid_concentration": 0.0}
    found = evaluate("leach_screen", asked)
    assert found.result == Range.of(6.0)
    assert "may exceed: have it tested" in found.reading


def test_rinse_water_of_lead_white_is_flagged(derived: Derived) -> None:
    screens = derived.pigments["lead-white"].safety.beside.drain
    assert screens is not None
    rinse = next(each for each in screens.screens if (each.element, each.waste) == ("Pb", "rinse"))
    assert rinse.may_exceed
    assert rinse.working.result is not None
    assert rinse.working.result.low == pytest.approx(rinse.content)


def test_more_of_an_element_is_never_less_in_waste(catalogue: Catalogue) -> None:
    def lead(share: float) -> list[float]:
        part = Part(
            substance="lead-carbonate",
            name="x",
            role="colourant",
            share=Range.of(share),
            elements=elements_of("PbCO3"),
        )
        found = drain(catalogue, (part,), 0.5)
        assert found is not None
        return [each.working.result.high for each in found.screens if each.working.result]

    series = [lead(share) for share in (0.0001, 0.001, 0.01, 0.1, 0.5, 1.0)]
    assert all(low <= high for one, two in pairwise(series) for low, high in zip(one, two, strict=True))


def test_a_mild_limit_of_a_minor_part_never_widens_what_a_room_is_reckoned_with(
    catalogue: Catalogue, derived: Derived
) -> None:
    threshold = catalogue.policy.unlisted_dust
    for found in derived.pigments.values():
        for limit in found.safety.dust_limits:
            assert limit.reckoned <= min(limit.value, threshold.of(limit.fraction))
    chalk = derived.pigments["chalk"].safety
    assert chalk.shown_limit is not None and chalk.room is not None and chalk.room.result is not None
    assert chalk.shown_limit.value > threshold.respirable == 4
    assert chalk.room.result.high == pytest.approx(4 * 60)
