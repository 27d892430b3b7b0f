"""Washing plans, sieves and losses in the fire: against printed tables, and by what must always hold."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mullbook.model.values.washing import Grains, Mineral, Plan, Washing
from mullbook.science import chemistry, levigation, settling, sieving
from mullbook.science.wash_plan import plan
from tests.science.oracles import cases, number

densities = st.floats(1.5, 8)
degrees = st.floats(1, 49)
cut_sizes = st.lists(st.sampled_from([2, 5, 10, 20, 45, 63, 75, 150]), min_size=1, max_size=4, unique=True)
shares = st.lists(st.floats(0.01, 1), min_size=3, max_size=3)


@st.composite
def washings(draw: st.DrawFn) -> Washing:
    count = draw(st.integers(1, 3))
    return Washing(
        density=draw(densities),
        cuts=tuple(draw(cut_sizes)),
        depth=draw(st.floats(3, 40)),
        kept=draw(st.floats(0, 10)),
        volume=draw(st.floats(0.2, 20)),
        temperature=draw(degrees),
        solids=draw(st.floats(0.001, 0.1)),
        minerals=tuple(
            Mineral(f"m{each}", draw(densities), draw(st.floats(0.05, 1))) for each in range(count)
        ),
        grains=Grains(shares=tuple(draw(shares))),
        rounds=draw(st.integers(1, 6)),
    )


@pytest.mark.parametrize("row", cases("pipette_times"))
def test_waits_are_those_of_the_pipette_tables(row: dict[str, str]) -> None:
    """The tables round their constants: they run up to two per cent slow."""
    found = plan(
        Washing(
            density=2.65,
            cuts=(number(row, "size"),),
            depth=number(row, "depth"),
            temperature=number(row, "temperature"),
            solids=0.001,
        )
    )
    assert found.cuts[0].minutes * 60 == pytest.approx(number(row, "seconds"), rel=0.025)


@pytest.mark.parametrize("row", cases("calcination"))
def test_losses_in_the_fire_are_those_printed(row: dict[str, str]) -> None:
    found = chemistry.calcination_loss(
        row["formula"], row["product"], number(row, "parts"), number(row, "product_parts")
    )
    assert 100 * found == pytest.approx(number(row, "percent"), abs=number(row, "within"))


def test_gypsum_loses_three_quarters_of_its_water_first() -> None:
    plaster = chemistry.calcination_loss("CaSO4(H2O)2", "Ca2S2O8(H2O)1", 2, 1)
    whole = chemistry.calcination_loss("CaSO4(H2O)2", "CaSO4")
    assert plaster / whole == pytest.approx(0.75)


def test_iron_that_takes_up_oxygen_gains_mass() -> None:
    assert chemistry.calcination_loss("Fe3O4", "Fe2O3", 2, 3) < 0


@settings(deadline=None, max_examples=40)
@given(washings())
def test_nothing_is_lost_in_the_balance(asked: Washing) -> None:
    found = plan(asked)
    assert sum(each.share for each in found.fractions) == pytest.approx(1, abs=1e-9)
    assert sum(each.grams for each in found.fractions) == pytest.approx(found.grams, rel=1e-9)
    for place, mineral in enumerate(asked.minerals):
        whole = sum(each.share or 0 for each in asked.minerals)
        held = sum(each.minerals[place][0] for each in found.fractions)
        assert held == pytest.approx(found.grams * (mineral.share or 0) / whole, rel=1e-9)


@settings(deadline=None, max_examples=40)
@given(washings())
def test_finer_cuts_wait_longer_and_dense_grains_go_over_finer(asked: Washing) -> None:
    found = plan(asked)
    sizes, waits = [each.size for each in found.cuts], [each.minutes for each in found.cuts]
    assert sizes == sorted(sizes, reverse=True)
    assert waits == sorted(waits)
    for cut in found.cuts:
        by_density = sorted(zip((each.density for each in asked.minerals), cut.sizes, strict=True))
        assert [size for _, size in by_density] == sorted((size for _, size in by_density), reverse=True)


@settings(deadline=None, max_examples=40)
@given(washings(), st.floats(1.05, 4))
def test_a_deeper_vessel_takes_longer(asked: Washing, factor: float) -> None:
    deeper = Washing(
        density=asked.density,
        cuts=asked.cuts,
        depth=asked.depth * factor,
        temperature=asked.temperature,
        solids=asked.solids,
    )
    as_asked = plan(Washing(**{**_given(deeper), "depth": asked.depth}))
    assert plan(deeper).minutes > as_asked.minutes


def _given(asked: Washing) -> dict[str, object]:
    return {name: getattr(asked, name) for name in ("density", "cuts", "temperature", "solids")}


@settings(deadline=None, max_examples=40)
@given(washings())
def test_water_that_goes_in_comes_out_or_stays(asked: Washing) -> None:
    """Each jar holds its full volume at every stirring: what is poured and what was left make it up."""
    found = plan(asked)
    jars = {each.jar: 0.0 for each in found.steps}
    for step in found.steps:
        jars[step.jar] += step.litres_in
        assert jars[step.jar] == pytest.approx(asked.volume, rel=1e-9)
        jars[step.jar] -= step.litres_out
        if step.into in jars:
            jars[step.into] += step.litres_out
    assert found.litres == pytest.approx(sum(each.litres_in for each in found.steps), rel=1e-9)


@given(st.floats(0.2, 5), st.floats(0, 0.19), st.floats(0.01, 0.9), st.floats(0.01, 0.5))
def test_the_washes_reach_the_target_and_one_fewer_does_not(
    first: float, tap: float, retained: float, above: float
) -> None:
    target = tap + above
    try:
        count = levigation.washes_needed(first, tap, retained, target)
    except ValueError:
        assert levigation.wash_conductivity(first, tap, retained, levigation.MOST_WASHES) > target * 0.999
        return
    assert levigation.wash_conductivity(first, tap, retained, count) <= target * (1 + 1e-9)
    if count:
        assert levigation.wash_conductivity(first, tap, retained, count - 1) > target * (1 - 1e-9)


def test_tap_water_never_washes_below_itself() -> None:
    with pytest.raises(ValueError, match="only comes near"):
        levigation.washes_needed(1.8, 0.3, 0.2, 0.3)


@given(st.floats(0.5, 200), densities, densities, degrees)
def test_equal_grains_sink_alike(size: float, one: float, other: float, temperature: float) -> None:
    found = levigation.equal_settling(size, one, other, temperature)
    assert settling.settling_velocity(found, other, temperature) == pytest.approx(
        settling.settling_velocity(size, one, temperature), rel=1e-9
    )
    assert (found < size) == (other > one) or math.isclose(one, other, rel_tol=1e-9)


@given(st.floats(0.5, 60), st.floats(0.01, 30), densities, st.floats(0, 0.9), st.integers(1, 8))
def test_more_rounds_bring_more_over(
    size: float, time: float, density: float, retained: float, rounds: int
) -> None:
    def share(rounds: int) -> float:
        return levigation.poured_share(size, time, 10, density, 20, retained=retained, rounds=rounds)

    assert 0 <= share(rounds) <= share(rounds + 1) <= 1


def test_too_thick_a_slurry_is_refused() -> None:
    with pytest.raises(ValueError, match="settles as a front"):
        plan(Washing(density=2.65, cuts=(45,), solids=0.11))


@pytest.mark.parametrize(
    ("asked", "limit"),
    [
        (Washing(density=2.65, cuts=(75,), solids=0.001), "drag"),
        (Washing(density=4.2, cuts=(75,), solids=0.001), "hand"),
        (Washing(density=2.65, cuts=(20,), solids=0.005), "crowded"),
        (Washing(density=2.65, cuts=(2,), solids=0.001), "still"),
        (Washing(density=2.65, cuts=(0.5,), solids=0.001), "brownian"),
    ],
)
def test_where_the_law_fails_the_plan_says_so(asked: Washing, limit: str) -> None:
    assert limit in plan(asked).limits


def test_a_plain_plan_touches_no_limit() -> None:
    assert plan(Washing(density=2.65, cuts=(45, 20, 10), solids=0.004)).limits == ()


def test_stokes_alone_runs_ahead_of_the_drag_law() -> None:
    found: Plan = plan(Washing(density=2.65, cuts=(150, 20), solids=0.001))
    assert found.cuts[0].stokes < found.cuts[0].minutes * 0.85
    assert found.cuts[1].stokes == pytest.approx(found.cuts[1].minutes, rel=0.01)


@given(st.lists(st.floats(0, 100), min_size=1, max_size=6), st.floats(0.1, 100))
def test_sieve_shares_add_up(masses: list[float], pan: float) -> None:
    openings = [500.0 / 2**each for each in range(len(masses))]
    rows = sieving.sieve_rows(openings, masses, pan)
    assert sum(each.share for each in rows) == pytest.approx(1)
    passing = [each.passing for each in rows]
    assert passing == sorted(passing, reverse=True)
    assert rows[-1].above == 1


def test_more_found_than_put_on_is_a_fault() -> None:
    with pytest.raises(ValueError, match="weigh again"):
        sieving.sieve_loss(10, (6, 5))


@given(shares, st.floats(0.1, 600))
def test_a_guess_at_the_grains_is_spread_out_whole(parts: list[float], size: float) -> None:
    grains = Grains(shares=tuple(parts))
    assert sum(part for _, part in grains.points) == pytest.approx(1)
    assert 0 <= grains.above(size) <= 1
    rows = sieving.expected_on((size,), grains, 100)
    assert sum(each.mass for each in rows) == pytest.approx(100)
