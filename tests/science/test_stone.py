"""Stone check: weighings as printed, and chances that are chances."""

from __future__ import annotations

import math
import random
import statistics
from collections.abc import Mapping

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import stone
from mullbook.science.media import water_density
from mullbook.science.powder import hydrostatic_density
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number

ids = st.sampled_from(["red", "orange", "yellow", "green"])
near = st.dictionaries(ids, st.lists(ids, unique=True), min_size=2).map(
    lambda found: {
        true: [each for each in close if each != true and each in found] for true, close in found.items()
    }
)
parts = st.floats(0.001, 0.5)
distributions = st.lists(st.floats(0.001, 1), min_size=2, max_size=6).map(
    lambda raw: [each / math.fsum(raw) for each in raw]
)


@pytest.mark.parametrize("row", cases("weighings"))
def test_a_weighing_gives_the_density_printed(row: Mapping[str, str]) -> None:
    found = hydrostatic_density(number(row, "mass_in_air"), number(row, "mass_in_water"), 20)
    of_water = water_density(20) / 1000
    printed = number(row, "density")
    assert found * number(row, "water") / of_water == pytest.approx(printed, abs=number(row, "tolerance"))


@given(st.floats(10, 200), st.floats(1.5, 8), st.floats(0.01, 0.1))
def test_the_uncertainty_is_what_a_thousand_weighings_scatter(
    air: float, density: float, error: float
) -> None:
    water, rng = air - air / density, random.Random(1)
    told = stone.weighing_uncertainty(air, water, 20, error)
    if told > 0.1 * density:
        return  # a stone too small for its balance: the scatter is no longer small
    weighed = [
        hydrostatic_density(air + rng.uniform(-error, error), water + rng.uniform(-error, error), 20)
        for _ in range(1000)
    ]
    assert statistics.stdev(weighed) == pytest.approx(told, rel=0.15)


def test_a_stone_that_floats_has_no_uncertainty() -> None:
    with pytest.raises(ValueError, match="less in water"):
        stone.weighing_uncertainty(5, 5, 20, 0.1)


@given(near, parts, st.floats(0, 1))
def test_every_true_value_is_read_as_something(
    close: dict[str, list[str]], error: float, part: float
) -> None:
    for true, read in stone.confusion(close, error, part).items():
        assert math.fsum(read.values()) == pytest.approx(1)
        assert read[true] == pytest.approx(1 - error)
        assert min(read.values()) >= 0


@given(near, parts)
def test_what_is_not_known_tells_nothing(close: dict[str, list[str]], error: float) -> None:
    table = stone.confusion(close, error, 0.7)
    assert set(stone.word_chances([], table)) == {1 / len(table)}


@given(st.floats(1, 9), st.floats(0, 3), parts, parts)
def test_steps_of_a_scale_share_everything(low: float, width: float, spread: float, error: float) -> None:
    chances = stone.step_chances(low, low + width, (2.5, 3.5, 5.5), spread, error)
    assert math.fsum(chances) == pytest.approx(1)
    assert min(chances) >= error / 4 - 1e-12


@given(st.floats(1, 8), st.floats(0, 3), st.floats(0.02, 0.5))
def test_a_plateau_holds_one_whole(low: float, width: float, spread: float) -> None:
    step, start, end = spread / 20, low - 8 * spread, low + width + 8 * spread
    count = int((end - start) / step)
    heights = [
        stone.plateau(start + (place + 0.5) * step, low, low + width, spread) for place in range(count)
    ]
    assert math.fsum(heights) * step == pytest.approx(1, rel=2e-3)


def test_a_reading_without_error_is_refused() -> None:
    with pytest.raises(ValueError, match="without any error"):
        stone.plateau(3, 2, 4, 0)


@given(st.lists(st.floats(-700, 700), min_size=1, max_size=50))
def test_shares_are_a_whole_and_keep_their_order(scores: list[float]) -> None:
    held = stone.shares(scores)
    assert math.fsum(held) == pytest.approx(1)
    assert held[scores.index(max(scores))] == max(held)


@given(distributions)
def test_entropy_is_least_for_the_certain_and_greatest_for_the_even(chances: list[float]) -> None:
    assert 0 <= stone.entropy(chances) <= math.log2(len(chances)) + 1e-9


@given(st.data())
def test_a_test_never_tells_more_than_is_open_or_than_it_has_answers(data: st.DataObject) -> None:
    held = data.draw(distributions)
    answers = data.draw(st.integers(2, 4))
    row = st.lists(st.floats(0.01, 1), min_size=answers, max_size=answers)
    chances = [
        [each / math.fsum(raw) for each in raw]
        for raw in data.draw(st.lists(row, min_size=len(held), max_size=len(held)))
    ]
    bits = stone.expected_information(held, chances)
    assert 0 <= bits <= min(stone.entropy(held), math.log2(answers)) + 1e-9


def test_expected_information_is_the_mean_of_what_each_answer_tells() -> None:
    """Worked the long way round: entropy before, less the mean entropy after each answer."""
    held, chances = [0.5, 0.3, 0.2], [[0.8, 0.2], [0.3, 0.7], [0.5, 0.5]]
    after = 0.0
    for answer in (0, 1):
        joint = [share * row[answer] for share, row in zip(held, chances, strict=True)]
        whole = sum(joint)
        after += whole * stone.entropy([each / whole for each in joint])
    assert stone.expected_information(held, chances) == pytest.approx(stone.entropy(held) - after)


def test_a_mineral_is_not_found_lighter_than_its_lightest() -> None:
    """Where the ends are ranges that cross, the peak between them would be missed at the corners."""
    crossed = {"value": Range(3.5, 3.9), "low": Range(3.3, 3.9), "high": Range(3.6, 4.3), "spread": 0.1}
    assert "heavier than the heaviest" in str(evaluate("fit_of_density", crossed).not_derivable)
