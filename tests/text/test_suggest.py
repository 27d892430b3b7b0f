"""Suggestions: close words only, closest first, the same in whatever order the candidates come."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.text.suggest import edit_distance, fold, nearest

words = st.text("abcdeé -_", max_size=12)


@pytest.mark.parametrize(
    ("word", "candidates", "expected"),
    [
        ("ornage", ["orange", "red", "grey"], ["orange"]),
        ("Natural Earth", ["natural-earth", "mineral"], ["natural-earth"]),
        ("OIL_ABSORPTION", ["oil_absorption"], ["oil_absorption"]),
        ("densty", ["density", "dens"], ["density"]),
        ("terre brulee", ["terre-brûlée"], ["terre-brûlée"]),
        ("gettens-stout", ["gettens-stout-1942", "stout-1950"], ["gettens-stout-1942"]),
        ("ochre-yellow", ["yellow-ochre", "red-ochre"], ["yellow-ochre"]),
        ("kg", ["g", "mg", "ml"], []),
        ("completely-different", ["orange", "red"], []),
        ("", ["a", "b"], []),
        ("aab", ["aaa", "aac", "aad", "aae"], ["aaa", "aac", "aad"]),
    ],
)
def test_only_close_words_are_suggested(word: str, candidates: list[str], expected: list[str]) -> None:
    assert nearest(word, candidates) == expected


@given(words, st.lists(words), st.integers(0, 5))
def test_suggestions_are_candidates_each_once_and_few(word: str, candidates: list[str], most: int) -> None:
    found = nearest(word, candidates, most)
    assert len(found) == len(set(found)) <= most
    assert set(found) <= set(candidates)
    assert found == nearest(word, list(reversed(candidates)), most)


@given(words, st.lists(words, max_size=5))
def test_a_word_that_is_there_comes_first(word: str, candidates: list[str]) -> None:
    assert nearest(word, [*candidates, word])[0] == word


@given(words)
def test_case_and_joints_do_not_count(word: str) -> None:
    changed = word.upper().replace("-", " ").replace("_", "-")
    assert fold(changed) == fold(word)
    if fold(word):
        assert nearest(changed, [word]) == [word]


@given(words, words)
def test_distance_is_symmetric_and_zero_only_for_the_same(left: str, right: str) -> None:
    distance = edit_distance(left, right, 20)
    assert distance == edit_distance(right, left, 20)
    assert (distance == 0) == (left == right)
    assert abs(len(left) - len(right)) <= distance <= max(len(left), len(right))
    assert edit_distance(left, right, 2) == min(distance, 3)
