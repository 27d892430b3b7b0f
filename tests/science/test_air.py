"""Limits read for one dust, the room's budget and the time in which the air is changed."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import air
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number

limits = st.floats(1e-4, 20)


@pytest.mark.parametrize(
    ("limit", "element", "formula", "share", "expected"),
    [
        pytest.param(0.05, "Pb", "2PbCO3.Pb(OH)2", 1.0, 0.0624, id="a lead limit on basic lead carbonate"),
        pytest.param(0.05, "Pb", "Pb3(CO3)2(OH)2", 0.5, 0.1248, id="half lead white, half chalk"),
        pytest.param(0.2, "Mn", "MnO2", 1.0, 0.3164, id="a manganese limit on manganese dioxide"),
        pytest.param(0.2, "Mn", "MnO2", 0.1, 3.164, id="an umber with a tenth of it"),
        pytest.param(0.1, None, None, 0.05, 2.0, id="a limit that names the substance: quartz, 5 %"),
    ],
)
def test_a_limit_as_an_element_is_milder_on_the_compound(
    limit: float, element: str | None, formula: str | None, share: float, expected: float
) -> None:
    """Worked by hand from mass fractions Pb 0.801 and Mn 0.632."""
    found = air.limit_on_pigment(limit, "inhalable", share, element, formula)
    assert found == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("fraction", ["fume", "vapour"])
def test_a_fume_limit_does_not_count_for_a_dust(fraction: str) -> None:
    working = evaluate("limit_on_pigment", {"limit": 5, "fraction": fraction})
    assert working.result is None
    assert working.not_derivable == (
        f"Not derivable because a {fraction} limit does not count for a dust: it is for heating."
    )


def test_an_element_that_is_not_there_gives_no_limit() -> None:
    inputs = {"limit": 0.05, "fraction": "inhalable", "expressed_as": "Pb", "formula": "MnO2"}
    assert "which MnO2 does not hold" in str(evaluate("limit_on_pigment", inputs).not_derivable)
    del inputs["formula"]
    assert "the formula is not known" in str(evaluate("limit_on_pigment", inputs).not_derivable)


def test_a_wider_share_gives_a_wider_limit() -> None:
    result = evaluate(
        "limit_on_pigment", {"limit": 0.1, "fraction": "respirable", "share": Range(0.01, 0.05)}
    ).result
    assert result is not None
    assert (result.low, result.high) == (pytest.approx(2), pytest.approx(10))


@given(st.lists(limits, min_size=1, max_size=6))
def test_limits_together_are_never_milder_than_the_strictest(each: list[float]) -> None:
    assert air.combined_limit(each) <= min(each) * (1 + 1e-12)
    assert air.combined_limit(each) == pytest.approx(air.combined_limit(each[::-1]))


@given(limits, st.floats(1e-3, 1))
def test_a_share_never_makes_a_limit_stricter_than_the_pure_substance(limit: float, share: float) -> None:
    assert air.limit_on_pigment(limit, "total", share) >= limit


def test_a_respirable_limit_on_the_inhalable_scale() -> None:
    assert air.inhalable_scale(4, "respirable") == 10
    assert air.inhalable_scale(4, "total") == air.inhalable_scale(4, "inhalable") == 4


@pytest.mark.parametrize("row", cases("clearing"))
def test_air_changes_of_a_remembered_table(row: dict[str, str]) -> None:
    """With perfect mixing; the table rounds up."""
    hours = air.clearing_time(1 / (1 - number(row, "removed")), number(row, "air_changes"), mixing=1)
    assert hours * 60 == pytest.approx(number(row, "minutes"), abs=1)


def test_a_poorly_mixed_room_takes_longer() -> None:
    assert air.clearing_time(100, 6) == pytest.approx(3 * air.clearing_time(100, 6, mixing=1))


def test_the_words_allow_nothing() -> None:
    budget = evaluate("dust_budget", {"limit": 0.05, "room_volume": 40})
    assert budget.result == Range(2, 2)
    assert budget.reading == "this little fills the whole room; at your face far less does"
    clearing = evaluate("clearing_time", {"ratio": 100, "air_changes": 6})
    assert clearing.reading == "the air has been changed"
    assert "mixing taken as 0.3333" in clearing.assumptions


@pytest.mark.parametrize(("ratio", "changes", "mixing"), [(0.5, 6, 1), (10, 0, 1), (10, 6, 0), (10, 6, 1.5)])
def test_what_makes_no_sense_gives_no_time(ratio: float, changes: float, mixing: float) -> None:
    working = evaluate("clearing_time", {"ratio": ratio, "air_changes": changes, "mixing": mixing})
    assert working.result is None
    assert str(working.not_derivable).startswith("Not derivable because ")
