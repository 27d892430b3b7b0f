"""Doses, paste, parts, mixing, tubes and the disperser, by worked examples and by what must always hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import disperser, dosing, paint, powder, waste
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number

masses = st.floats(0.1, 1e4)
fractions = st.floats(0.01, 0.99)

PASTE: dict[str, float | Range] = {"active": 0.4, "pigment_mass": 80, "total_mass": 135}


@pytest.mark.parametrize(
    ("basis", "product", "told"),
    [
        ("active-on-pigment", 4.0, "2 % active on pigment, 5 % product on pigment"),
        ("product-on-total", 2.7, "1.35 % active on pigment"),
        ("product-on-pigment", 1.6, "0.8 % active on pigment, 2 % product on pigment"),
        ("active-on-total", 6.75, "5 % product on the whole"),
    ],
)
def test_two_per_cent_of_dispersant_has_several_meanings(basis: str, product: float, told: str) -> None:
    """80 g of pigment in 135 g of paste, a product of 40 % active."""
    working = evaluate("dose", {"percent": 2, "basis": basis, **PASTE})
    assert working.result is not None
    assert working.result.low == pytest.approx(product)
    assert told in working.reading
    for words in ("active on pigment", "product on pigment", "product on the whole"):
        assert words in working.reading


def test_a_dose_on_binder() -> None:
    working = evaluate("dose", {"percent": Range(5, 10), "basis": "on-binder", "binder_mass": 200})
    assert working.result == Range(10, 20)
    assert working.reading == "10 to 20 g of product: 5 to 10 % product on binder"


@given(st.floats(0.01, 20), fractions, masses, masses, st.sampled_from(dosing.BASES))
def test_a_dose_is_proportional_to_its_percentage(
    percent: float, active: float, pigment: float, total: float, basis: str
) -> None:
    def product(percent: float) -> float:
        return dosing.dose(
            percent, basis, active=active, pigment_mass=pigment, total_mass=total, binder_mass=total
        )

    assert product(3 * percent) == pytest.approx(3 * product(percent))


@pytest.mark.parametrize(
    ("inputs", "words"),
    [
        (
            {"basis": "active-on-pigment", "pigment_mass": 80},
            "the active content of the product is not known",
        ),
        ({"basis": "product-on-total"}, "the mass of the whole is not known"),
        ({"basis": "on-binder", "total_mass": 80}, "the mass of binder is not known"),
        ({"basis": "per jar"}, "a dose is active-on-pigment"),
    ],
)
def test_a_dose_that_is_not_derivable_says_why(inputs: dict[str, float | str], words: str) -> None:
    assert words in str(evaluate("dose", {"percent": 2, **inputs}).not_derivable)


def test_lampblack_in_per_cent_of_paste() -> None:
    assert dosing.per_100(72) == pytest.approx(257, abs=0.5)
    assert dosing.per_100(72) != pytest.approx(72, rel=0.5)


@given(st.floats(0, 99))
def test_per_cent_of_paste_goes_both_ways(percent: float) -> None:
    assert dosing.percent_of_paste(dosing.per_100(percent)) == pytest.approx(percent, abs=1e-9)


@pytest.mark.parametrize("row", cases("loose_powders"))
def test_parts_by_volume_and_by_weight(row: dict[str, str]) -> None:
    """Old tables print pigment to oil both ways; the loose density between them gives the volume back."""
    by_weight, by_volume = number(row, "weight_ratio"), number(row, "volume_ratio")
    assert by_weight / by_volume * 0.93 == pytest.approx(number(row, "bulk_density"), abs=0.005)
    found = dosing.parts_by_volume(by_weight, number(row, "bulk_density"), 1, 0.93)
    assert found == pytest.approx(by_volume, rel=0.02)


@pytest.mark.parametrize("row", cases("studio_rule"))
def test_what_the_common_studio_rule_gives(row: dict[str, str]) -> None:
    pigment = powder.bulk_to_true_volume(100, number(row, "bulk_density"), number(row, "density"))
    found = paint.pvc(pigment, 0.42 * (pigment + 50))
    assert 100 * found == pytest.approx(number(row, "pvc_percent"), abs=0.6)


@given(masses, fractions, fractions, fractions)
def test_what_is_added_brings_the_target(mass: float, share: float, added: float, part: float) -> None:
    target = added + (share - added) * part
    if abs(share - added) < 1e-3:
        return
    extra = dosing.mass_to_add(mass, share, target, added)
    assert extra >= 0
    assert dosing.mix_by_mass([mass, extra], [share, added]) == pytest.approx(target)


def test_a_target_that_nothing_reaches_is_refused() -> None:
    working = evaluate("mass_to_add", {"mass": 100, "share": 0.3, "target": 0.4, "added_share": 0.2})
    assert "no amount with a share of 0.2 brings 0.3 to 0.4" in str(working.not_derivable)


@pytest.mark.parametrize(
    ("volume", "tube", "tubes", "left"),
    [(225, 37, 5, 22), (225, 40, 5, 7), (45, 40, 1, 1.4), (30, 40, 0, 27.6)],
)
def test_tubes_of_a_batch(volume: float, tube: float, tubes: int, left: float) -> None:
    """100 g of ochre make 225 ml; 8 % stays on slab and knife: five full tubes and a jar."""
    assert dosing.full_tubes(volume, 0.08, tube) == tubes
    assert dosing.tube_remainder(volume, 0.08, tube) == pytest.approx(left)


def test_tubes_are_said_as_one_would() -> None:
    inputs = {"volume": 45, "loss": 0.08, "tube_volume": 40}
    assert evaluate("fill", inputs).reading == "1 full tube and 1.4 ml over"
    assert evaluate("fill", {**inputs, "volume": Range(225, 250)}).reading == (
        "5 full tubes and 7 to 30 ml over"
    )


@given(st.integers(1, 500), st.floats(1, 200), st.floats(0, 0.5))
def test_exactly_full_tubes_are_full(count: int, tube: float, loss: float) -> None:
    volume = count * tube / (1 - loss)
    assert dosing.full_tubes(volume, loss, tube) == count
    assert dosing.tube_remainder(volume, loss, tube) == pytest.approx(0, abs=1e-6 * volume)


def test_a_drill_cannot_disperse_with_a_small_blade() -> None:
    """A blade of 50 mm needs about 7600 turns a minute for 20 m/s."""
    assert disperser.speed_for_tip(50, 20) == pytest.approx(7600, rel=0.01)
    assert "slower" in evaluate("tip_speed", {"diameter": 50, "speed": 2000}).reading


def test_tip_speeds_of_practice() -> None:
    """4000 ft/min are about 20 m/s; 4800 to 5200 about 24 to 26."""
    assert [round(each * 0.3048 / 60) for each in (4000, 4800, 5200)] == [20, 24, 26]
    assert (
        evaluate("speed_for_tip", {"diameter": 80, "tip_speed": Range(20, 26)}).reading
        == "a disperser's speed"
    )


@given(st.floats(5, 500), st.floats(1, 20000))
def test_tip_speed_and_turns_go_both_ways(diameter: float, speed: float) -> None:
    assert disperser.speed_for_tip(diameter, disperser.tip_speed(diameter, speed)) == pytest.approx(speed)


def test_the_geometry_of_a_disperser() -> None:
    blade = disperser.blade_diameter(150)
    assert blade == pytest.approx(50)
    assert (disperser.blade_clearance(blade, 0.5), disperser.blade_clearance(blade)) == (25, 50)
    assert "1.77 diameters" in evaluate("fill_height", {"volume": 800, "vessel_diameter": 120}).reading


@pytest.mark.parametrize(
    ("total", "solid", "liquid", "expected", "words"),
    [
        (100, 1, None, 5, "may exceed: have it tested"),
        (60, 1, None, 3, "below the US leaching level for this one element"),
        (4, 0.001, None, 4, "below"),
        (100, 0.5, 2, (0.5 * 2 + 0.5 * 100) / 10.5, "below"),
    ],
)
def test_the_screen_before_a_leaching_test(
    total: float, solid: float, liquid: float | None, expected: float, words: str
) -> None:
    inputs = {"total": total, "regulated_level": 5, "solids_fraction": solid, "liquid_concentration": liquid}
    working = evaluate("leach_screen", inputs)
    assert working.result is not None
    assert working.result.low == pytest.approx(expected)
    assert words in working.reading


def test_a_liquid_part_that_is_not_known_is_not_taken_as_clean() -> None:
    working = evaluate("leach_screen", {"total": 100, "regulated_level": 5, "solids_fraction": 0.5})
    assert working.not_derivable == (
        "Not derivable because the concentration in the liquid part is not known."
    )


@given(st.floats(0, 1000), st.floats(0, 100), st.tuples(st.floats(0, 1), st.floats(0, 1)), st.floats(0, 1))
def test_the_screen_over_a_range_of_solids(
    total: float, liquid: float, ends: tuple[float, float], part: float
) -> None:
    low, high = sorted(ends)
    given_ = {"total": total, "regulated_level": 5, "liquid_concentration": liquid}
    wide = evaluate("leach_screen", {**given_, "solids_fraction": Range(low, high)}).result
    assert wide is not None
    inner = waste.leach_screen(total, min(high, low + part * (high - low)), liquid)
    assert wide.low - 1e-9 <= inner <= wide.high + 1e-9
