"""A batch from the slab to the drum: charges, blade and speed; what is kept; where nothing is ground."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from mullbook.derive.batch import batch
from mullbook.derive.batch_results import Sheet
from mullbook.derive.scale_results import Scale
from mullbook.derive.scale_up import CHARGE_AT_MOST, FASTEST_RPM, blade_for, scale_up
from mullbook.model.catalogue import Catalogue
from mullbook.render.batch_sheet import sheet_text
from mullbook.render.scale_words import scale_text
from mullbook.science.disperser import tip_speed
from mullbook.workflow import Roots, check
from tests.conftest import ROOT
from tests.corpus.cases import GOOD

KILOGRAMS = (0.05, 0.1, 0.5, 1, 5, 25, 200)


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return check(Roots(GOOD, ROOT / "schema", ROOT / "site_templates")).catalogue


@pytest.fixture(scope="module")
def sheet(catalogue: Catalogue) -> Sheet:
    return batch(catalogue, catalogue.recipe["invented-ochre-tubes"])


def ways(scale: Scale) -> dict[str, int]:
    return {each.id: each.charges for each in scale.ways}


@pytest.mark.parametrize("kilograms", KILOGRAMS)
def test_charges_add_up_and_fit(catalogue: Catalogue, sheet: Sheet, kilograms: float) -> None:
    found = scale_up(catalogue, sheet, kilograms * 1000)
    assert found.ways
    for way in found.ways:
        assert way.charges * way.pigment == pytest.approx(found.pigment_mass)
        assert way.charges * way.volume == pytest.approx(found.paste_volume)
        if way.id == "slab":
            assert way.pigment <= 100 * (1 + 1e-9)
        else:
            assert way.volume <= CHARGE_AT_MOST[way.id] * (1 + 1e-9)
            assert way.minutes == 20 * way.charges


def test_the_paste_grows_in_proportion(catalogue: Catalogue, sheet: Sheet) -> None:
    small, large = scale_up(catalogue, sheet), scale_up(catalogue, sheet, 10 * sheet.pigment_mass)
    assert large.paste_volume == pytest.approx(10 * small.paste_volume)
    assert small.keep == large.keep
    assert "multiply every weight" in small.keep and "lambda" in small.keep


def test_scaled_as_a_sheet_or_by_mass_is_the_same(catalogue: Catalogue, sheet: Sheet) -> None:
    as_sheet = batch(catalogue, sheet.recipe, scale=20)
    assert as_sheet.pigment_mass == pytest.approx(2000)
    by_mass, by_sheet = scale_up(catalogue, sheet, 2000), scale_up(catalogue, as_sheet)
    assert ways(by_mass) == ways(by_sheet)
    assert by_mass.paste_volume == pytest.approx(by_sheet.paste_volume)


def test_slab_then_jar_then_drum(catalogue: Catalogue, sheet: Sheet) -> None:
    assert ways(scale_up(catalogue, sheet, 100)) == {"slab": 1}
    assert "drum" in ways(scale_up(catalogue, sheet, 2000))
    assert "slab" not in ways(scale_up(catalogue, sheet, 25_000))
    assert [scale_up(catalogue, sheet, each).beyond_slab for each in (100, 101)] == [False, True]


def test_a_charge_too_small_for_a_blade_is_mulled(catalogue: Catalogue, sheet: Sheet) -> None:
    found = scale_up(catalogue, sheet, 100)
    assert any("mull it" in each for each in found.notes)
    assert all(
        way.blade.speed.result.low <= FASTEST_RPM
        for size in KILOGRAMS
        for way in scale_up(catalogue, sheet, 1000 * size).ways
        if way.blade and way.blade.speed.result
    )


@pytest.mark.parametrize("litres", [0.3, 1, 10, 50])
def test_the_blade_has_the_usual_proportions(litres: float) -> None:
    """Common practice: a third of the vessel, half to one blade above the bottom, 20 to 26 m/s."""
    blade = blade_for(1000 * litres)
    vessel, width = blade.vessel.result, blade.blade.result
    clearance, speed, fill = blade.clearance.result, blade.speed.result, blade.fill.result
    assert vessel and width and clearance and speed and fill
    pot = width.middle * 3
    assert vessel.low < pot < vessel.high
    assert (clearance.low, clearance.high) == pytest.approx((width.middle / 2, width.middle))
    assert tip_speed(width.middle, speed.low) == pytest.approx(20)
    assert tip_speed(width.middle, speed.high) == pytest.approx(26)
    assert fill.middle * math.pi / 4 * pot**2 / 1e6 == pytest.approx(litres)
    assert 1 <= fill.middle / width.middle <= 2


def test_a_drill_does_not_reach_the_speed_with_a_small_blade() -> None:
    """Common practice: a 50 mm blade needs about 7600 turns a minute for 20 m/s."""
    drill = blade_for(1000).drill.result
    assert drill and drill.high < 10


def test_lime_is_stirred_not_ground(catalogue: Catalogue, sheet: Sheet) -> None:
    washed = replace(sheet, recipe=replace(sheet.recipe, system="invented-limewash"))
    found = scale_up(catalogue, washed, 5000)
    assert not found.ways
    assert found.not_applicable.startswith("Not applicable because ")


def test_a_sheet_without_numbers_says_why(catalogue: Catalogue, sheet: Sheet) -> None:
    words = "Not derivable because the density is not known."
    found = scale_up(catalogue, replace(sheet, missing=(words,)))
    assert found.not_applicable == words and not found.ways


def test_waterborne_paste_stops_before_it_is_warm(catalogue: Catalogue, sheet: Sheet) -> None:
    assert "40 to 50 °C" in scale_up(catalogue, sheet).heat


def test_the_sheet_tells_it_only_beyond_the_slab(catalogue: Catalogue, sheet: Sheet) -> None:
    small, large = scale_up(catalogue, sheet), scale_up(catalogue, sheet, 2000)
    assert sheet_text(sheet, small) == sheet_text(sheet)
    assert sheet_text(sheet, large) == f"{sheet_text(sheet)}\n{scale_text(large)}"
    assert "20 to 26 m/s" in scale_text(large)
    assert "common practice" in scale_text(large)
