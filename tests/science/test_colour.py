"""Screen colours and colour differences, against published spectra and a published test set."""

from __future__ import annotations

import pytest

from mullbook.science.colour import colour_distance, lab_to_hex
from tests.science.oracles import cases, number


def parts(colour: str) -> list[int]:
    """Return red, green and blue of a hex colour."""
    return [int(colour[place : place + 2], 16) for place in (1, 3, 5)]


@pytest.mark.parametrize("row", cases("colours"))
def test_hex_of_measured_powders(row: dict[str, str]) -> None:
    """Within one step of what another library made of the same spectra."""
    found, clipped = lab_to_hex(*(number(row, column) for column in ("L_2", "a_2", "b_2")))
    assert clipped == (row["outside"] == "yes")
    assert parts(found) == pytest.approx(parts(row["hex_2"]), abs=1)


@pytest.mark.parametrize("row", cases("colours"))
def test_the_observer_changes_a_swatch_little(row: dict[str, str]) -> None:
    two, ten = ([number(row, f"{axis}_{observer}") for axis in "Lab"] for observer in ("2", "10"))
    assert colour_distance((two[0], two[1], two[2]), (ten[0], ten[1], ten[2])) < 8


@pytest.mark.parametrize(
    ("first", "second", "difference"),
    [
        ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
        ((50, 3.1571, -77.2803), (50, 0, -82.7485), 2.8615),
        ((50, 2.5, 0), (73, 25, -18), 27.1492),
        ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
    ],
)
def test_colour_differences_of_the_published_test_set(
    first: tuple[float, float, float], second: tuple[float, float, float], difference: float
) -> None:
    """Pairs of Sharma, Wu and Dalal, Color Research and Application 30 (2005) 21-30, table 1; from memory."""
    assert colour_distance(first, second) == pytest.approx(difference, abs=1e-4)
    assert colour_distance(second, first) == pytest.approx(difference, abs=1e-4)


def test_white_black_and_nonsense() -> None:
    assert lab_to_hex(100, 0, 0) == ("#ffffff", False)
    assert lab_to_hex(0, 0, 0) == ("#000000", False)
    with pytest.raises(ValueError, match="three finite coordinates"):
        lab_to_hex(float("nan"), 0, 0)
