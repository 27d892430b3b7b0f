"""Sieves and grind gauges, against tables and another library."""

from __future__ import annotations

import pytest
from fluids.particle_size_distribution import ASTM_E11_sieve_list, ISO_3310_1_sieve_list, Sieve
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import fineness
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number


def micrometres(sieves: list[Sieve]) -> set[float]:
    """Return the openings among those that a paint maker uses."""
    return {round(sieve.opening * 1e6) for sieve in sieves if 19e-6 < sieve.opening < 5.61e-3}


def test_every_sieve_of_astm_e11_is_that_of_a_library() -> None:
    """The library's openings are right; its wires and inches below 1 mm are not, and are not used."""
    numbered = [sieve for sieve in ASTM_E11_sieve_list if sieve.old_designation.startswith("No. ")]
    theirs = {
        float(sieve.old_designation.removeprefix("No. ").replace(" 1/2", ".5")): round(sieve.opening * 1e6)
        for sieve in numbered
    }
    assert theirs == fineness.E11
    assert all(sieve.d_wire * 1e6 < 1 for sieve in numbered if sieve.opening < 0.9e-3)


def test_every_sieve_of_iso_3310_1_is_that_of_a_library() -> None:
    assert set(fineness.ISO_3310_1) == micrometres(ISO_3310_1_sieve_list)


@pytest.mark.parametrize("mesh", fineness.E11)
def test_number_and_opening_go_both_ways(mesh: float) -> None:
    assert fineness.mesh_of_opening(fineness.opening_of_mesh(mesh)) == mesh
    assert fineness.standard_opening(mesh=mesh) == fineness.standard_opening(opening=fineness.E11[mesh])


@pytest.mark.parametrize(("mesh", "opening", "old"), [(325, 45, 44), (200, 75, 74), (400, 38, 37)])
def test_openings_of_older_tables(mesh: float, opening: float, old: float) -> None:
    assert fineness.mesh_of_opening(old) == mesh
    assert fineness.standard_opening(opening=old) == opening
    assert f"{old} µm is the opening of an older table" in evaluate("sieve", {"opening": old}).reading


@pytest.mark.parametrize("opening", fineness.ISO_3310_1)
def test_an_iso_opening_is_never_moved(opening: float) -> None:
    assert fineness.standard_opening(opening=opening) == opening


def test_a_range_of_sieves() -> None:
    assert evaluate("sieve", {"mesh": Range(200, 325)}).result == Range(45, 75)


@pytest.mark.parametrize(
    ("formula", "inputs", "words"),
    [
        ("sieve", {"mesh": 300}, "No. 300 sieve; there is No. 270 (53 um) and No. 325 (45 um)"),
        ("sieve", {"mesh": 325, "opening": 45}, "not by both"),
        ("sieve", {"opening": 83}, "there is No. 170 (90 um) and No. 200 (75 um)"),
        ("sieve", {"opening": 5}, "there is No. 635 (20 um)"),
        (
            "sieve_number",
            {"opening": 100},
            "no sieve of 100 um; there is No. 140 (106 um) and No. 170 (90 um)",
        ),
        ("hegman", {"depth": 101}, ""),
        ("hegman", {"depth": 102}, "101.6 um deep at most"),
        ("grind_gauge", {"hegman": 9}, "hegman must be between 0 and 8"),
    ],
)
def test_what_is_no_sieve_names_its_neighbours(formula: str, inputs: dict[str, float], words: str) -> None:
    working = evaluate(formula, inputs)
    if words:
        assert words in str(working.not_derivable)
    else:
        assert working.result is not None


@pytest.mark.parametrize("row", cases("hegman"))
def test_the_hegman_scale(row: dict[str, str]) -> None:
    depth = fineness.depth_of_hegman(number(row, "hegman"))
    assert depth == pytest.approx(number(row, "depth"), abs=1e-9)
    assert depth == pytest.approx(number(row, "mils") * 25.4)
    assert fineness.hegman_of_depth(number(row, "depth")) == pytest.approx(number(row, "hegman"))


@given(st.floats(0, 8), st.sampled_from(sorted(fineness.MICROMETRES_PER_HEGMAN)))
def test_gauge_and_size_go_both_ways(hegman: float, convention: str) -> None:
    depth = fineness.depth_of_hegman(hegman, convention)
    assert fineness.hegman_of_depth(depth, convention) == pytest.approx(hegman, abs=1e-12)


def test_both_conventions_are_named() -> None:
    working = evaluate("grind_gauge", {"hegman": Range(5, 6)})
    assert working.result == Range(12.7 * 2, 12.7 * 3)
    assert (
        working.reading
        == "25.4 to 38.1 µm on a block of 101.6 µm (4 mil), 25 to 37.5 µm on a block of 100 µm"
    )
