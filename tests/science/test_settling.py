"""Settling, against printed constants, another library, and by what must always hold."""

from __future__ import annotations

import fluids
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import settling
from mullbook.science.media import medium
from mullbook.science.methods.settling import duration
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number, rows

sizes = st.floats(0.02, 1500)
heavy = st.floats(1.2, 12)
degrees = st.floats(0, 50)
solids = st.floats(0, 0.1)
fluid = st.sampled_from(("water", "air"))


def printed_time(row: dict[str, str], size: float) -> float:
    """Minutes in which a size sinks 10 cm by ASTM D422: `D = K sqrt(L/T)`, D in mm."""
    return 10 * (number(row, "k") / (size / 1000)) ** 2


@pytest.mark.parametrize("size", [1, 5, 20])
@pytest.mark.parametrize("row", [each for each in rows("d422") if each["misprint"] == "no"])
def test_size_from_time_by_the_constants_of_d422(row: dict[str, str], size: float) -> None:
    density, temperature = number(row, "density"), number(row, "temperature")
    found = settling.settling_size(printed_time(row, size), 10, density, temperature)
    assert found == pytest.approx(size, rel=3e-3)


@pytest.mark.parametrize("row", [each for each in rows("d422") if each["misprint"] == "yes"])
def test_misprinted_constants_of_d422_do_not_fit(row: dict[str, str]) -> None:
    found = settling.settling_size(
        printed_time(row, 5), 10, number(row, "density"), number(row, "temperature")
    )
    assert found != pytest.approx(5, rel=5e-3)


@pytest.mark.parametrize("row", cases("fall_times"))
def test_fall_times_by_stokes_law(row: dict[str, str]) -> None:
    """To 20 um the drag law is Stokes' law; a grain of 63 um is slower by drag, by some per cent."""
    size, printed = number(row, "size"), number(row, "seconds")
    found = settling.settling_time(size, 10, 2.65, number(row, "temperature")) * 60
    if size <= 20:
        assert found == pytest.approx(printed, rel=3e-3)
    else:
        assert printed < found < printed * 1.04


@pytest.mark.parametrize("row", cases("washing_times"))
def test_washing_times_as_a_maker_reads_them(row: dict[str, str]) -> None:
    minutes = number(row, "time") * {"s": 1 / 60, "min": 1, "h": 60}[row["unit"]]
    found = settling.settling_time(number(row, "size"), 10, number(row, "density"), 20)
    assert found == pytest.approx(minutes, rel=0.07)


@pytest.mark.parametrize("density", [1.5, 2.65, 5.2, 8.1])
@pytest.mark.parametrize("name", ["water", "air"])
def test_terminal_velocity_against_a_library(name: str, density: float) -> None:
    around, reached = medium(name, 20), set()
    for step in range(200):
        size = 0.5 * 10 ** (step / 48)
        found = settling.free_velocity(size, density, around)
        reynolds = found * size * 1e-6 * around.density / around.viscosity
        if not 1e-6 <= reynolds <= 1e3 or size > 5000:
            continue
        other = fluids.v_terminal(size * 1e-6, density * 1000, around.density, around.viscosity)
        slip = settling.slip(size * 1e-6, around.free_path) if reynolds < 0.1 else 1
        assert found == pytest.approx(other * slip, rel=0.05)
        reached.add(round(reynolds))
    assert max(reached) > 400


@pytest.mark.parametrize("exponent", range(-6, 4))
def test_drag_against_a_library(exponent: int) -> None:
    reynolds = 10.0**exponent
    found = 24 / reynolds * settling.drag_over_stokes(reynolds)
    assert found == pytest.approx(fluids.drag.Cheng(reynolds), rel=1e-12)
    assert found == pytest.approx(fluids.drag_sphere(reynolds), rel=0.05)


@given(sizes, heavy, degrees, solids, fluid)
def test_size_is_the_exact_inverse_of_time(
    size: float, density: float, temperature: float, crowd: float, around: str
) -> None:
    rest = {"solids_fraction": crowd, "fluid": around}
    time = settling.settling_time(size, 10, density, temperature, **rest)  # type: ignore[arg-type]
    back = settling.settling_size(time, 10, density, temperature, **rest)  # type: ignore[arg-type]
    assert back == pytest.approx(size, rel=1e-12)


@given(sizes, heavy, st.floats(1.01, 2), degrees, st.tuples(solids, fluid))
def test_larger_and_denser_grains_sink_faster(
    size: float, density: float, factor: float, temperature: float, slurry: tuple[float, str]
) -> None:
    crowd, around = slurry

    def velocity(size: float, density: float) -> float:
        return settling.settling_velocity(size, density, temperature, solids_fraction=crowd, fluid=around)

    assert velocity(size * factor, density) > velocity(size, density)
    assert velocity(size, density * factor) > velocity(size, density)


@given(st.floats(0.02, 800), heavy, degrees, st.floats(0.005, 0.4), st.floats(1.01, 1.25))
def test_a_thicker_slurry_settles_more_slowly(
    size: float, density: float, temperature: float, crowd: float, factor: float
) -> None:
    thin = settling.settling_velocity(size, density, temperature, solids_fraction=crowd)
    thick = settling.settling_velocity(size, density, temperature, solids_fraction=crowd * factor)
    assert thick < thin < settling.settling_velocity(size, density, temperature)


@given(st.floats(0.05, 5), heavy, degrees)
def test_fine_grains_follow_stokes_law(size: float, density: float, temperature: float) -> None:
    water = medium("water", temperature)
    weight = settling.GRAVITY * (density * 1000 - water.density) * (size * 1e-6) ** 2
    found = settling.settling_velocity(size, density, temperature)
    assert found == pytest.approx(weight / (18 * water.viscosity), rel=1e-3)


@given(sizes, heavy, degrees, st.floats(1, 100), st.floats(1.1, 9))
def test_time_scales_with_depth(
    size: float, density: float, temperature: float, depth: float, factor: float
) -> None:
    once = settling.settling_time(size, depth, density, temperature)
    assert settling.settling_time(size, depth * factor, density, temperature) == pytest.approx(once * factor)


@pytest.mark.parametrize("crowd", [0.005, 0.02, 0.1])
def test_fine_pigment_is_crowded_by_the_brownian_exponent(crowd: float) -> None:
    """Brzinski and Durian: 5.6 for Brownian grains, to which fine pigment in water belongs."""
    alone = settling.settling_velocity(2, 2.65, 20)
    found = settling.settling_velocity(2, 2.65, 20, solids_fraction=crowd)
    assert found / alone == pytest.approx((1 - crowd) ** 5.6, rel=1e-4)


def test_below_half_a_per_cent_each_grain_is_alone() -> None:
    assert settling.settling_velocity(2, 2.65, 20, solids_fraction=0.0049) == settling.settling_velocity(
        2, 2.65, 20
    )


def test_the_exponent_by_regime() -> None:
    """4.48 for creeping grains too large to be Brownian, 4.45 Re^-0.1 above, 2.39 for fast ones."""
    water = medium("water", 20)
    found = [
        settling.exponent(size, settling.free_velocity(size, density, water), water)
        for size, density in ((1, 2.65), (20, 2.65), (200, 1.1), (2000, 2.65))
    ]
    assert found == sorted(found, reverse=True)
    assert found[0] == pytest.approx(5.6, abs=1e-3)
    assert found[1] == pytest.approx(5.6, abs=0.01)
    assert found[2] == pytest.approx(4.48, abs=0.4)
    assert found[3] == pytest.approx(2.39, abs=0.01)


@given(st.floats(1, 3000), st.floats(1.001, 1.01))
def test_the_exponent_has_no_seam(size: float, factor: float) -> None:
    water = medium("water", 20)

    def exponent(size: float) -> float:
        return settling.exponent(size, settling.free_velocity(size, 2.65, water), water)

    assert 0 <= exponent(size) - exponent(size * factor) < 0.03


def test_slip_in_air() -> None:
    """Handbooks of aerosols: about 1.17 at 1 um, 2.9 at 0.1 um, nothing for coarse grains."""
    path = medium("air", 20).free_path
    assert settling.slip(1e-6, path) == pytest.approx(1.17, abs=0.01)
    assert settling.slip(1e-7, path) == pytest.approx(2.9, abs=0.05)
    assert settling.slip(1e-4, path) == pytest.approx(1.0, abs=2e-3)


@given(st.data(), st.floats(0.05, 800), heavy, st.tuples(degrees, degrees), fluid)
def test_a_range_of_temperatures_holds_every_one(
    data: st.DataObject, size: float, density: float, ends: tuple[float, float], around: str
) -> None:
    """In air the velocity may turn round within a range: slip and viscosity both grow with warmth."""
    inputs = {"size": size, "density": density, "fluid": around}
    wide = evaluate("settling_velocity", {**inputs, "temperature": Range(min(ends), max(ends))}).result
    assert wide is not None
    within = data.draw(st.floats(min(ends), max(ends)))
    inner = settling.settling_velocity(size, density, within, fluid=around)
    assert wide.low * (1 - 1e-9) <= inner <= wide.high * (1 + 1e-9)


def test_a_range_that_turns_round_is_wider_than_its_ends() -> None:
    ends = [settling.settling_velocity(0.4, 2.65, temperature, fluid="air") for temperature in (0, 50)]
    wide = evaluate(
        "settling_velocity", {"size": 0.4, "density": 2.65, "temperature": Range(0, 50), "fluid": "air"}
    ).result
    assert wide is not None
    assert wide.low <= min(ends)
    assert wide.high >= max(ends)


@pytest.mark.parametrize(
    ("formula", "extra"),
    [("settling_velocity", {"size": 10}), ("settling_time", {"size": 10, "depth": 10})],
)
def test_a_thick_slurry_is_said_to_settle_as_a_front(formula: str, extra: dict[str, float]) -> None:
    working = evaluate(formula, {**extra, "density": 2.65, "temperature": 20, "solids_fraction": 0.2})
    assert "settles as a front, not by size" in working.reading
    thin = evaluate(formula, {**extra, "density": 2.65, "temperature": 20, "solids_fraction": 0.1})
    assert "front" not in thin.reading


def test_no_size_is_read_from_a_front_or_from_flocs() -> None:
    inputs: dict[str, float | str] = {"time": 10, "depth": 10, "density": 2.65, "temperature": 20}
    for extra in ({"solids_fraction": 0.2}, {"state": "flocculated"}):
        working = evaluate("settling_size", {**inputs, **extra})  # type: ignore[arg-type]
        assert working.result is None
        assert "settles as a front, not by size" in str(working.not_derivable)


def test_air_is_only_at_best() -> None:
    inputs = {"size": 2, "depth": 200, "density": 2.65, "temperature": 20, "fluid": "air"}
    assert "at best" in evaluate("settling_time", inputs).reading  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("formula", "inputs", "words"),
    [
        ("settling_time", {"size": 2, "density": 0.9, "depth": 10}, "does not sink in water"),
        ("settling_time", {"size": 0, "density": 2.65, "depth": 10}, "size must be above 0"),
        ("settling_time", {"size": 2, "density": 2.65, "depth": 0}, "depth must be above 0"),
        ("settling_size", {"time": 0, "density": 2.65, "depth": 10}, "time must be above 0"),
        ("settling_size", {"time": 1e-4, "density": 1.1, "depth": 500}, "no grain between"),
        ("settling_velocity", {"density": 2.65}, "size is not known"),
        ("settling_velocity", {"size": 2, "density": 2.65, "temperature": 60}, "temperature must be between"),
    ],
)
def test_what_cannot_be_worked_out_says_why(formula: str, inputs: dict[str, float], words: str) -> None:
    working = evaluate(formula, {"temperature": 20, **inputs})
    assert working.result is None
    assert words in str(working.not_derivable)


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(0.01, "0.6 s"), (0.9999, "1 min"), (60, "1 h"), (119.99, "2 h"), (1440, "24 h"), (2940, "2 d 1 h")],
)
def test_times_as_they_are_said(minutes: float, words: str) -> None:
    assert duration(minutes) == words
