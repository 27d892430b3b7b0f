"""Paint wet and dry, against printed tables and by what must always hold."""

from __future__ import annotations

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import film, paint
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number, rows

rates = st.lists(st.floats(0.5, 100), min_size=1, max_size=5)
fractions = st.floats(0.01, 0.99)
densities = st.floats(0.8, 20)


def test_900_square_feet_a_gallon() -> None:
    """231 cubic inches over 900 x 144 square inches is 0.001782 inch."""
    rate = 900 * film.SQUARE_FEET_PER_GALLON
    assert film.wet_film([rate]) == pytest.approx(231 / (900 * 144) * 25400, rel=1e-9)
    assert film.wet_film([rate]) == pytest.approx(45.3, abs=0.05)
    assert film.wet_film([film.SQUARE_FEET_PER_GALLON]) == pytest.approx(40744, rel=1e-4)


@pytest.mark.parametrize("row", cases("coats"))
def test_coats_on_an_old_test_fence(row: dict[str, str]) -> None:
    """The table divides the arithmetic mean by three; films add, so the true rate is lower."""
    three = [number(row, each) for each in ("first", "second", "third")]
    assert statistics.mean(three) == pytest.approx(number(row, "printed_mean"), abs=1)
    assert film.coats(three) == pytest.approx(number(row, "harmonic"), abs=0.6)
    assert film.coats(three) < number(row, "printed_three_coats") - 4


@given(rates)
def test_films_add_up(coats: list[float]) -> None:
    assert film.wet_film(coats) == pytest.approx(sum(film.wet_film([each]) for each in coats))
    assert film.spreading_rate(film.wet_film(coats)) == pytest.approx(film.coats(coats))
    assert film.coats(coats) <= min(coats) * (1 + 1e-12)


@given(fractions, fractions, st.floats(1.001, 1.5))
def test_porosity_grows_above_the_critical_pvc_only(pvc: float, cpvc: float, factor: float) -> None:
    found = film.porosity(pvc, cpvc)
    assert 0 <= found < 1
    assert (found > 0) == (pvc > cpvc)
    assert film.porosity(min(1, pvc * factor), cpvc) >= found


@given(fractions, fractions)
def test_porosity_is_what_grains_and_binder_leave(pvc: float, cpvc: float) -> None:
    """Above the critical PVC grains fill `cpvc` of the film, binder its share beside them, air the rest."""
    if pvc > cpvc:
        binder = cpvc * (1 - pvc) / pvc
        assert film.porosity(pvc, cpvc) == pytest.approx(1 - cpvc - binder, abs=1e-12)


def test_paints_of_the_panel_table_scatter_as_it_says() -> None:
    """Wet densities by adding volumes: on the mean 0.9 % above the printed ones, with a spread of 2.3 %."""
    off = []
    for row in rows("panels"):
        gravity, pounds = number(row, "specific_gravity"), number(row, "pounds_per_gallon_of_oil")
        found = film.wet_density([pounds, 0.931 * 8.3454], [gravity, 0.931])
        off.append(100 * (number(row, "paint_specific_gravity") / found - 1))
    assert statistics.mean(off) == pytest.approx(-0.9, abs=0.15)
    assert statistics.stdev(off) == pytest.approx(2.3, abs=0.15)


def test_a_formulation_adds_up() -> None:
    """The paint of the PVC oracle: 25.2 g of pigment, 60.1 g of binder at half solids, water."""
    masses, solids = [25.2, 60.1, 14.7], [1, 0.5, 0]
    wet, dry = [4.2, 1.05, 1.0], [4.2, 1.1, 1.0]
    by_volume = paint.volume_solids(masses, wet, solids, dry)
    by_mass = film.weight_solids(masses, solids)
    assert by_mass == pytest.approx(0.5525)
    dry_density, wet_density = film.dry_density(masses, solids, dry), film.wet_density(masses, wet)
    assert by_volume * dry_density == pytest.approx(by_mass * wet_density)


@given(st.lists(st.tuples(st.floats(0.1, 100), densities, st.floats(0.01, 1)), min_size=1, max_size=5))
def test_mass_is_conserved_on_drying(parts: list[tuple[float, float, float]]) -> None:
    masses, dens, solids = (list(column) for column in zip(*parts, strict=True))
    kept = film.weight_solids(masses, solids) * film.wet_density(masses, dens)
    assert kept == pytest.approx(
        paint.volume_solids(masses, dens, solids) * film.dry_density(masses, solids, dens)
    )
    assert min(dens) * (1 - 1e-9) <= film.wet_density(masses, dens) <= max(dens) * (1 + 1e-9)


@given(st.lists(st.tuples(st.floats(0.1, 100), densities), min_size=1, max_size=5), st.floats(0, 0.5))
def test_the_batch_is_as_large_as_its_parts_and_their_air(
    parts: list[tuple[float, float]], air: float
) -> None:
    masses, dens = (list(column) for column in zip(*parts, strict=True))
    volume = film.batch_volume(masses, dens, air)
    assert volume * (1 - air) == pytest.approx(sum(mass / density for mass, density in parts))
    assert volume * (1 - air) * film.wet_density(masses, dens) == pytest.approx(sum(masses))


def test_the_worked_batch_of_twenty_grams() -> None:
    """20 g of ochre of 3.0 g/cm3, 29.8 g of acrylic at PVC 35 %, 10 g of vehicle: about 45 ml, one tube."""
    grams = paint.binder_for_pvc(20, 3.0, 0.35, 0.47, 1.13)
    assert grams == pytest.approx(29.8, abs=0.05)
    assert film.batch_volume([20, grams, 10], [3.0, 1.05, 1.0]) == pytest.approx(45, abs=0.1)


@pytest.mark.parametrize("air", [-0.1, 1.0])
def test_air_is_a_part_of_the_batch(air: float) -> None:
    with pytest.raises(ValueError, match="air"):
        film.batch_volume([20], [3.0], air)


@given(fractions, densities, st.floats(10, 200))
def test_air_comes_back_from_the_cup(air: float, density: float, cup: float) -> None:
    full = 50 + cup * density * (1 - air)
    assert film.entrained_air(full, 50, cup, density) == pytest.approx(air, abs=1e-9)


@pytest.mark.parametrize(
    ("full", "words"),
    [(229, "little air"), (220, "foamy: let it stand"), (232, "heavier than its parts")],
)
def test_what_the_cup_says(full: float, words: str) -> None:
    inputs = {"full": full, "empty": 100, "cup_volume": 100, "density": 1.3, "mass_error": 0.1}
    working = evaluate("entrained_air", inputs)
    assert words in working.reading
    assert working.result is not None
    assert working.result.high - working.result.low == pytest.approx(0.4 / 130)


def test_a_list_may_hold_ranges() -> None:
    working = evaluate("wet_film", {"spreading_rate": (Range(8, 10), 20.0)})
    assert working.result == Range(150, 175)
    assert working.steps == "from 1000/10 + 1000/20 = 150 to 1000/8 + 1000/20 = 175"


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: film.wet_film([]), "there is no coat"),
        (lambda: film.coats([10, 0]), "a spreading rate must be above 0"),
        (lambda: film.spreading_rate(0), "wet film must be above 0"),
        (lambda: film.porosity(0.5, 0), "CPVC must lie"),
        (lambda: film.weight_solids([1], [1, 1]), "do not match"),
        (lambda: film.dry_density([1, 1], [0, 0], [2, 2]), "add up to nothing"),
        (lambda: film.entrained_air(100, 100, 50, 1.2), "more than the empty one"),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
