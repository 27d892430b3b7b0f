"""Water and air: against IAPWS values and the libraries that hold them."""

from __future__ import annotations

import pytest
from chemicals.viscosity import mu_IAPWS

from mullbook.science import media
from tests.science.oracles import cases, number


@pytest.mark.parametrize("row", cases("water"))
def test_water_from_freezing_to_50(row: dict[str, str]) -> None:
    water = media.medium("water", number(row, "temperature"))
    assert water.density == pytest.approx(number(row, "density"), rel=1e-5)
    assert water.viscosity * 1000 == pytest.approx(number(row, "viscosity"), rel=1e-3)


@pytest.mark.parametrize(
    ("temperature", "density", "viscosity"),
    [(298.15, 998, 889.7351), (298.15, 1200, 1437.6495), (373.15, 1000, 307.8836), (1173.15, 400, 64.1546)],
)
def test_the_check_values_of_the_release(temperature: float, density: float, viscosity: float) -> None:
    """IAPWS R12-08, table of check values without the critical enhancement."""
    assert media.water_viscosity(temperature, density) * 1e6 == pytest.approx(viscosity, abs=5e-5)


@pytest.mark.parametrize("temperature", [0.5, 10, 20, 35, 50])
def test_water_against_a_library(temperature: float) -> None:
    water = media.medium("water", temperature)
    assert water.viscosity == pytest.approx(mu_IAPWS(water.temperature, water.density), rel=1e-9)


def test_air_of_20_degrees() -> None:
    """Handbook values: 1.204 kg/m3, 18.1 uPa s, a free path of 65 to 66 nm."""
    air = media.medium("air", 20)
    assert air.density == pytest.approx(1.204, abs=1e-3)
    assert air.viscosity == pytest.approx(18.1e-6, rel=5e-3)
    assert air.free_path == pytest.approx(65.5e-9, rel=0.02)


@pytest.mark.parametrize("temperature", [-1, 51])
def test_no_temperature_is_guessed(temperature: float) -> None:
    with pytest.raises(ValueError, match="between 0 and 50"):
        media.medium("water", temperature)


def test_no_other_fluid() -> None:
    with pytest.raises(ValueError, match="water or air, not 'oil'"):
        media.medium("oil", 20)
