"""Volumes of paint, against printed examples and by what must always hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.science import paint
from tests.science.oracles import cases, number

POUND_PER_GALLON = 8.3454
"""Pounds of water in a US gallon, as the panel table takes it."""
LINSEED_OIL = 0.931
"""Specific gravity of the oil in the panel table."""

densities = st.floats(0.8, 20)
absorptions = st.floats(1, 400)
fractions = st.floats(0.01, 0.99)


@pytest.mark.parametrize("row", cases("pvc"))
def test_pvc_of_a_printed_formulation(row: dict[str, str]) -> None:
    pigment = number(row, "pigment_g") / number(row, "pigment_density")
    binder = number(row, "binder_solids_g") / number(row, "binder_density")
    assert paint.pvc(pigment, binder) == pytest.approx(number(row, "pvc"), abs=5e-4)


@pytest.mark.parametrize("row", cases("cpvc"))
def test_cpvc_from_rub_out(row: dict[str, str]) -> None:
    found = paint.cpvc(number(row, "oil_absorption"), number(row, "density"))
    assert found == pytest.approx(number(row, "cpvc"), abs=6e-4)


def test_cpvc_with_the_density_of_the_standard_oil() -> None:
    """ASTM D281-12 names an oil of 0.926 to 0.931; the middle is 0.9285."""
    assert paint.cpvc(20, 4.2, oil_density=0.9285) == pytest.approx(0.5250, abs=5e-5)


@pytest.mark.parametrize("row", cases("grinds"))
def test_pvc_of_old_grinds(row: dict[str, str]) -> None:
    found = paint.pvc_of_grind(number(row, "oil_to_grind"), number(row, "density"))
    assert found == pytest.approx(number(row, "pvc"), abs=6e-4)


def test_a_percentage_of_paste_is_not_an_oil_absorption() -> None:
    """Gardner 1911 prints lampblack at 72 % of paste; 72 g per 100 g would be quite another paint."""
    assert paint.pvc_of_grind(72, 1.82) == pytest.approx(0.416, abs=1e-3)
    assert paint.pvc_of_grind(100 * 72 / (100 - 72), 1.82) == pytest.approx(0.167, abs=1e-3)


@pytest.mark.parametrize("row", cases("panels"))
def test_paints_of_one_pvc(row: dict[str, str]) -> None:
    """All panel paints stand at one PVC; their densities, by adding volumes, come near the printed ones."""
    gravity, pounds = number(row, "specific_gravity"), number(row, "pounds_per_gallon_of_oil")
    volume = pounds / (gravity * POUND_PER_GALLON)
    assert paint.pvc(volume, 1.0) == pytest.approx(0.264, abs=1e-3)
    mixed = paint.blend_density([pounds, LINSEED_OIL * POUND_PER_GALLON], [gravity, LINSEED_OIL])
    assert mixed == pytest.approx(number(row, "paint_specific_gravity"), rel=0.06)


def test_bulking_value() -> None:
    """US coatings textbook, chapter Pigments: specific gravity 2.00 makes a solid gallon of 16.66 lb."""
    assert paint.blend_density([70, 30], [2.00, 2.00]) * 8.33 == pytest.approx(16.66)


def test_a_blend_of_zinc_white_and_ochre() -> None:
    """Equal weights of zinc white (14, 5.65) and ochre (59, 2.94)."""
    absorption = paint.blend_oil_absorption([1, 1], [14, 59])
    density = paint.blend_density([1, 1], [5.65, 2.94])
    assert (absorption, density) == (36.5, pytest.approx(3.868, abs=5e-4))
    assert paint.pvc_of_grind(absorption, density) == pytest.approx(0.398, abs=5e-4)
    assert paint.cpvc_of_blend([1, 1], [14, 59], [5.65, 2.94]) == pytest.approx(0.398, abs=5e-4)


@pytest.mark.parametrize(
    ("masses", "specific_gravities", "claimed_gallons", "gallon"),
    [
        pytest.param(
            (90, 10 + 5 * 7.75), (6.7, 0.931), 6.5, 8.3454, id="Sabin: 5 gal oil and 100 lb paste lead"
        ),
        pytest.param((14, 7.25), (6.7, 0.931), 1.0, 8.3454, id="Sabin: 14 lb dry lead and 7.25 lb oil"),
        pytest.param((18, 5), (8.7, 0.931), 1.0, 8.3454, id="Terry 1893: red lead, US gallon"),
        pytest.param((18, 5), (8.7, 0.931), 1.0, 10.022, id="Terry 1893: red lead, imperial gallon"),
    ],
)
def test_printed_volumes_that_do_not_add_up(
    masses: tuple[float, float],
    specific_gravities: tuple[float, float],
    claimed_gallons: float,
    gallon: float,
) -> None:
    """Old books print volumes that adding volumes does not give: we do not agree with them."""
    gallons = sum(masses) / (paint.blend_density(masses, specific_gravities) * gallon)
    assert gallons != pytest.approx(claimed_gallons, rel=0.08)


def test_the_resin_density_variant_is_another_number() -> None:
    """A help-desk article (2010) divides the mass of oil by the density of the resin: 0.567, not our CPVC."""
    assert paint.cpvc(20, 4.2, oil_density=1.10) == pytest.approx(0.567, abs=5e-4)
    assert paint.cpvc(20, 4.2) != pytest.approx(0.567, abs=0.03)


@given(absorptions, densities)
def test_cpvc_lies_between_nought_and_one(absorption: float, density: float) -> None:
    assert 0 < paint.cpvc(absorption, density) < 1


@given(absorptions, st.floats(1.01, 3), densities)
def test_cpvc_falls_as_oil_absorption_rises(absorption: float, factor: float, density: float) -> None:
    assert paint.cpvc(absorption * factor, density) < paint.cpvc(absorption, density)


@given(fractions, st.floats(0.1, 1))
def test_cpvc_in_a_dispersion_is_never_higher(cpvc: float, binder_index: float) -> None:
    found = paint.cpvc_in_dispersion(cpvc, binder_index)
    assert 0 < found <= cpvc * (1 + 1e-12)


@given(fractions)
def test_a_binder_index_of_one_changes_nothing(cpvc: float) -> None:
    assert paint.cpvc_in_dispersion(cpvc, 1) == pytest.approx(cpvc)


@given(st.floats(0.1, 1e4), densities, fractions, st.floats(0.05, 1), st.floats(0.8, 2))
def test_the_binder_found_brings_back_the_pvc(
    mass: float, density: float, pvc: float, solids: float, solids_density: float
) -> None:
    binder = paint.binder_for_pvc(mass, density, pvc, solids, solids_density)
    assert paint.pvc(mass / density, binder * solids / solids_density) == pytest.approx(pvc)


@given(fractions, fractions)
def test_pvc_for_a_reduced_pvc_brings_it_back(reduced: float, cpvc: float) -> None:
    assert paint.reduced_pvc(paint.pvc_for_reduced(reduced, cpvc), cpvc) == pytest.approx(reduced)


@given(st.lists(st.tuples(st.floats(0.01, 100), densities), min_size=1, max_size=6))
def test_a_blend_lies_between_its_ends(parts: list[tuple[float, float]]) -> None:
    shares, values = [share for share, _ in parts], [value for _, value in parts]
    for mean in (paint.blend_density(shares, values), paint.blend_oil_absorption(shares, values)):
        assert min(values) * (1 - 1e-9) <= mean <= max(values) * (1 + 1e-9)
    assert paint.blend_density(shares, values) <= paint.blend_oil_absorption(shares, values) * (1 + 1e-9)


@given(absorptions, densities, st.lists(st.floats(0.01, 9), min_size=1, max_size=4))
def test_a_blend_of_one_pigment_with_itself(absorption: float, density: float, shares: list[float]) -> None:
    many = len(shares)
    found = paint.cpvc_of_blend(shares, [absorption] * many, [density] * many)
    assert found == pytest.approx(paint.cpvc(absorption, density))


@given(st.lists(st.tuples(st.floats(0.1, 100), densities, st.floats(0, 1)), min_size=1, max_size=5))
def test_volume_solids_are_a_fraction(parts: list[tuple[float, float, float]]) -> None:
    masses, wet, solids = (list(column) for column in zip(*parts, strict=True))
    assert 0 <= paint.volume_solids(masses, wet, solids) <= 1 + 1e-12


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: paint.pvc(0, 0), "neither pigment nor binder"),
        (lambda: paint.cpvc(20, 0), "density must be above 0"),
        (lambda: paint.cpvc(0, 3), "oil absorption must be above 0"),
        (lambda: paint.cpvc_in_dispersion(0.5, 1.2), "binder index"),
        (lambda: paint.cpvc_in_dispersion(1, 0.8), "CPVC must lie between 0 and 1"),
        (lambda: paint.binder_for_pvc(100, 3, 0, 0.5, 1.1), "PVC must lie between 0 and 1"),
        (lambda: paint.binder_for_pvc(100, 3, 0.3, 0, 1.1), "binder solids"),
        (lambda: paint.pvc_for_reduced(2, 0.6), "leaves no room for binder"),
        (lambda: paint.blend_density([1], [2, 3]), "do not match"),
        (lambda: paint.blend_density([0, 0], [2, 3]), "add up to nothing"),
        (lambda: paint.blend_density([-1, 2], [2, 3]), "must not be below 0"),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(call: object, words: str) -> None:
    with pytest.raises(ValueError, match=words):
        call()  # type: ignore[operator]
