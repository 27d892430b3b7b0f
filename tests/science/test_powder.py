"""Dry powder, against printed pairs and by what must always hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import powder
from mullbook.science.media import water_density
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number

sizes = st.floats(0.005, 100)
densities = st.floats(0.8, 20)
offs = st.floats(-1, 1)


@pytest.mark.parametrize("row", cases("surfaces"))
def test_surfaces_of_measured_powders(row: dict[str, str]) -> None:
    """Round dense grains come within a third of gas adsorption; the porous black has half as much again."""
    found = powder.specific_surface(number(row, "size"), number(row, "density"))
    fits = number(row, "surface") == pytest.approx(found, rel=0.41 if "coarse" in row["material"] else 0.25)
    assert fits == (row["fits"] == "yes")


@given(sizes, densities)
def test_surface_and_size_go_both_ways(size: float, density: float) -> None:
    surface = powder.specific_surface(size, density)
    assert powder.size_from_surface(surface, density) == pytest.approx(size, rel=1e-12)
    assert powder.specific_surface(size / 2, density) == pytest.approx(2 * surface)


@given(st.floats(1, 1000), densities, st.floats(0.05, 1))
def test_grains_take_less_room_than_powder(volume: float, density: float, part: float) -> None:
    found = powder.bulk_to_true_volume(volume, density * part, density)
    assert found == pytest.approx(volume * part)


def test_twenty_grams_of_loose_earth_fill_an_ounce() -> None:
    """Common practice: about 20 g of loose earth fill one US fluid ounce, 29.6 ml."""
    assert powder.bulk_density(20, 29.6) == pytest.approx(0.68, abs=0.005)


@pytest.mark.parametrize("row", cases("powder_flow"))
def test_the_table_of_powder_flow(row: dict[str, str]) -> None:
    """Two printed bounds are off by 0.01 against the index; the words follow the ratio."""
    for end in ("low", "high"):
        loose = 1 - number(row, f"index_{end}") / 100
        ratio = powder.hausner(loose, 1.0)
        assert powder.flow(ratio) == row["flow"]
        assert powder.flow(number(row, f"ratio_{end}")) == row["flow"]
        assert ratio == pytest.approx(number(row, f"ratio_{end}"), abs=0.0121)
        assert powder.compressibility(loose, 1.0) == pytest.approx(number(row, f"index_{end}"), abs=1e-9)


def test_a_ratio_turned_over_is_refused() -> None:
    """One printed page has loose over tapped; then nothing would flow well."""
    working = evaluate("hausner", {"loose": 0.85, "tapped": 0.6})
    assert "must not be below the loose one" in str(working.not_derivable)


def test_both_flow_numbers_say_the_same() -> None:
    inputs = {"loose": Range(0.55, 0.6), "tapped": 0.7}
    assert evaluate("hausner", inputs).reading == "flow: good to passable"
    assert evaluate("compressibility", inputs).reading == evaluate("hausner", inputs).reading


@given(st.floats(5, 200), densities, st.floats(10, 60), st.floats(0, 0.2), st.tuples(offs, offs))
def test_a_measured_density_holds_the_true_one(
    mass: float, density: float, before: float, error: float, off: tuple[float, float]
) -> None:
    """Whatever the readings are off by, within their error, the range holds the density."""
    first, second = off
    after = before + mass / density + second * error
    readings = {
        "mass": mass,
        "volume_before": before + first * error,
        "volume_after": after,
        "volume_error": error,
    }
    found = evaluate("density_by_displacement", readings).result
    if found is not None:
        assert found.low * (1 - 1e-9) <= density <= found.high * (1 + 1e-9)


@given(st.floats(5, 500), st.floats(1.2, 12), st.floats(0, 50), st.floats(0, 0.05), st.floats(-1, 1))
def test_a_stone_weighed_in_water(
    mass: float, density: float, temperature: float, error: float, off: float
) -> None:
    in_water = mass * (1 - water_density(temperature) / 1000 / density)
    found = evaluate(
        "hydrostatic_density",
        {
            "mass_in_air": mass,
            "mass_in_water": max(0, in_water + off * error),
            "temperature": temperature,
            "mass_error": error,
        },
    ).result
    if found is not None:
        assert found.low * (1 - 1e-9) <= density <= found.high * (1 + 1e-9)


def test_what_was_measured_is_told_with_its_error() -> None:
    exact = {"mass": 40, "volume_before": 30, "volume_after": 42.5, "mass_error": 0, "volume_error": 0}
    assert evaluate("density_by_displacement", exact).result == Range(3.2, 3.2)
    working = evaluate("density_by_displacement", {**exact, "volume_error": 0.25})
    assert working.reading == "3.2 ± 0.13 g/cm3"
    assert working.steps == "from 40/(42.75 − 29.75) = 3.077 to 40/(42.25 − 30.25) = 3.333"


def test_a_rise_within_the_error_gives_no_density() -> None:
    inputs = {"mass": 2, "volume_before": 30, "volume_after": 30.8, "volume_error": 0.5}
    working = evaluate("density_by_displacement", inputs)
    assert "does not rise by more than the error of reading" in str(working.not_derivable)


def test_a_rub_out_of_ones_own() -> None:
    inputs = {"oil_mass": 2.4, "pigment_mass": 5, "mass_error": 0}
    assert evaluate("rub_out", inputs).result == Range(48, 48)
    wide = evaluate("rub_out", {**inputs, "mass_error": 0.05}).result
    assert wide is not None
    assert wide.low < 48 < wide.high
