"""Reflectance and scattering, against values of known indices and by what must always hold."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.science import optics
from mullbook.science.registry import evaluate
from tests.science.oracles import cases, number

indices = st.floats(1.0, 4.0)


def ranges(ends: st.SearchStrategy[float]) -> st.SearchStrategy[Range]:
    """Draw ranges whose ends come from a strategy."""
    return st.tuples(ends, ends).map(lambda pair: Range(min(pair), max(pair)))


index_ranges, absorption_ranges = ranges(indices), ranges(st.floats(0, 2))


@pytest.mark.parametrize("row", cases("fresnel"))
def test_reflectance_at_normal_incidence(row: dict[str, str]) -> None:
    printed = number(row, "reflectance")
    found = optics.fresnel(number(row, "n1"), number(row, "n2"))
    assert found == pytest.approx(printed, abs=5e-4 if printed > 0.01 else 5e-6)


@given(indices, indices, st.floats(0, 3))
def test_reflectance_is_the_same_from_both_sides(n1: float, n2: float, k: float) -> None:
    assert optics.fresnel(n1, n2, k) == pytest.approx(optics.fresnel(n2, n1, k))
    assert 0 <= optics.fresnel(n1, n2, k) < 1


@given(indices, indices)
def test_contrast_is_nought_only_between_equal_indices(n1: float, n2: float) -> None:
    assert optics.scattering_contrast(n1, n1) == 0
    assert 0 <= optics.scattering_contrast(n1, n2) < 1


@given(st.data(), index_ranges, index_ranges, absorption_ranges)
def test_a_range_of_reflectance_holds_every_point(
    data: st.DataObject, n1: Range, n2: Range, k: Range
) -> None:
    result = evaluate("fresnel", {"n1": n1, "n2": n2, "k": k}).result
    assert result is not None
    inner = optics.fresnel(*(data.draw(st.floats(each.low, each.high)) for each in (n1, n2, k)))
    assert result.low - 1e-12 <= inner <= result.high + 1e-12


@given(st.data(), index_ranges, index_ranges)
def test_a_range_of_contrast_holds_every_point(data: st.DataObject, pigment: Range, binder: Range) -> None:
    result = evaluate("scattering_contrast", {"n_pigment": pigment, "n_binder": binder}).result
    assert result is not None
    inner = optics.scattering_contrast(
        *(data.draw(st.floats(each.low, each.high)) for each in (pigment, binder))
    )
    assert result.low - 1e-12 <= inner <= result.high + 1e-12


def test_indices_that_may_be_equal_give_nought() -> None:
    """Chalk in oil: where the ranges meet, the least reflectance and contrast are nought, not a corner's."""
    chalk, oil = Range(1.48, 1.66), Range(1.47, 1.49)
    for formula, names in (("fresnel", ("n1", "n2")), ("scattering_contrast", ("n_pigment", "n_binder"))):
        result = evaluate(formula, dict(zip(names, (chalk, oil), strict=True))).result
        assert result is not None
        assert result.low == 0
        assert result.high > 0


@pytest.mark.parametrize(
    ("pigment", "binder", "k", "words"),
    [
        (1.60, 1.48, 0.0, "glassy"),
        (1.60, 1.0, 0.0, "hides"),
        (2.71, 1.48, 0.0, "hides"),
        (1.76, 1.48, 0.0, "semi-opaque"),
        (Range(1.50, 2.0), 1.48, 0.0, "glassy to hides"),
        (2.9, 1.48, 0.2, "hides by absorption, not by index"),
        (2.9, 1.48, Range(0, 0.2), "hides, or hides by absorption, not by index"),
    ],
)
def test_the_words_for_hiding(pigment: float | Range, binder: float, k: float | Range, words: str) -> None:
    """Chalk is glassy in oil and hides above the critical PVC, where the voids are air."""
    working = evaluate("scattering_contrast", {"n_pigment": pigment, "n_binder": binder, "k": k})
    assert working.reading == words


@pytest.mark.parametrize("row", cases("kubelka_munk"))
def test_kubelka_munk_both_ways(row: dict[str, str]) -> None:
    reflectance, ratio = number(row, "reflectance"), number(row, "k_over_s")
    assert optics.kubelka_munk(reflectance) == pytest.approx(ratio, rel=1e-4)
    assert optics.reflectance_from_ks(ratio) == pytest.approx(reflectance, abs=5e-6)


@given(st.floats(1e-4, 1))
def test_reflectance_comes_back_from_ks(reflectance: float) -> None:
    ratio = optics.kubelka_munk(reflectance)
    assert optics.reflectance_from_ks(ratio) == pytest.approx(reflectance, rel=1e-7)


@given(st.floats(1e-6, 1e4), st.floats(1.001, 10))
def test_more_absorption_reflects_less(ratio: float, factor: float) -> None:
    less = optics.reflectance_from_ks(ratio * factor)
    assert 0 < less < optics.reflectance_from_ks(ratio) < 1
    assert optics.kubelka_munk(less) == pytest.approx(ratio * factor, rel=1e-6)


@pytest.mark.parametrize("reflectance", [0, -0.1, 1.01])
def test_no_ks_outside_what_can_be_reflected(reflectance: float) -> None:
    with pytest.raises(ValueError, match="reflectance must lie"):
        optics.kubelka_munk(reflectance)
