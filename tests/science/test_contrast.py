"""Contrast against values printed by the standard and its own bounds."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.science.contrast import TEXT, contrast, lightened

COLOURS = st.integers(0, 0xFFFFFF).map(lambda number: f"#{number:06x}")


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    # WCAG 2.2, definition of contrast ratio: 1 to 21; #767676 is the grey that just passes on white.
    [("#000000", "#ffffff", 21.0), ("#ffffff", "#ffffff", 1.0), ("#767676", "#ffffff", 4.54)],
)
def test_known_ratios(one: str, other: str, ratio: float) -> None:
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)


@given(one=COLOURS, other=COLOURS)
def test_it_does_not_matter_which_comes_first_and_it_stays_in_bounds(one: str, other: str) -> None:
    assert contrast(one, other) == contrast(other, one)
    assert 1 <= contrast(one, other) <= 21.01


@given(colour=COLOURS)
def test_a_lightened_accent_reads_on_the_dark_sheet(colour: str) -> None:
    assert contrast(lightened(colour, "#201f1c"), "#201f1c") >= TEXT


def test_agrees_with_the_colour_library() -> None:
    from coloraide import Color

    for one, other in (("#2f5d50", "#eef1ec"), ("#83301a", "#f3efe7"), ("#0a0b0c", "#123456")):
        theirs = Color(one).contrast(Color(other), method="wcag21")
        assert contrast(one, other) == pytest.approx(theirs, rel=2e-3)
