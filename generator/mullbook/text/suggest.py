"""Which known words were perhaps meant."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

LEAST_BEGINNING = 4


def nearest(word: str, candidates: Iterable[str], most: int = 3) -> list[str]:
    """The candidates close to a word, closest first, none if none is close.

    Case, accents, spaces, hyphens and underscores do not count; a slip is a letter missing, added, changed or
    two changed about. A candidate that the word begins, or whose parts stand in another order, is close too.

    Parameters: word; candidates; most, how many to return.

    >>> nearest("Oil Absorbtion", ["oil_absorption", "density", "oil_to_grind"])
    ['oil_absorption']
    >>> nearest("ochre-yellow", ["yellow-ochre", "red-ochre"])
    ['yellow-ochre']
    """
    ranked = []
    for candidate in set(candidates):
        distance = 0 if candidate == word else _rank(word, candidate)
        if distance is not None:
            ranked.append((candidate != word, distance, candidate))
    return [candidate for _, _, candidate in sorted(ranked)[: max(most, 0)]]


@lru_cache(maxsize=20_000)  # each name is asked for by several rules
def fold(word: str) -> str:
    """A word without case, accents, spaces, hyphens and underscores.

    >>> fold("Terre-Verte brûlée")
    'terrevertebrulee'
    """
    return "".join(_parts(word))


def edit_distance(left: str, right: str, most: int) -> int:
    """Slips between two words (letter missing, added, changed, neighbours swapped); `most + 1` if more.

    Source: the restricted Damerau-Levenshtein distance (optimal string alignment).

    >>> edit_distance("ornage", "orange", 2)
    1
    """
    if abs(len(left) - len(right)) > most:
        return most + 1
    before: list[int] = []
    row = list(range(len(right) + 1))
    for i, a in enumerate(left, 1):
        earlier, before, row = before, row, [i]
        for j, b in enumerate(right, 1):
            best = min(before[j] + 1, row[j - 1] + 1, before[j - 1] + (a != b))
            if i > 1 and j > 1 and a == right[j - 2] and left[i - 2] == b:
                best = min(best, earlier[j - 2] + 1)
            row.append(best)
        if min(row) > most:
            return most + 1
    return min(row[-1], most + 1)


def _rank(word: str, candidate: str) -> int | None:
    """Closeness of a candidate, 0 the closest; None if it is not close."""
    ours, theirs = _parts(word), _parts(candidate)
    left, right = "".join(ours), "".join(theirs)
    if not left or not right:
        return None
    allowed = _allowed(min(len(left), len(right)))
    distance = edit_distance(left, right, allowed)
    if distance <= allowed:
        return distance
    if len(ours) > 1 and sorted(ours) == sorted(theirs):
        return 1
    begins = theirs[: len(ours)] == ours or (len(ours) == 1 and right.startswith(left))
    return allowed + 1 if begins and len(left) >= LEAST_BEGINNING else None


def _allowed(length: int) -> int:
    """How many slips leave a word of this length recognisable."""
    return 0 if length <= 2 else 1 if length <= 5 else 2 if length <= 10 else 3


def _parts(word: str) -> list[str]:
    plain = unicodedata.normalize("NFKD", word.casefold())
    bare = plain if plain.isascii() else "".join(c for c in plain if not unicodedata.combining(c))
    return [part for part in re.split(r"[\s_\-]+", bare) if part]
