"""The PVC ladder: where a start lies below or above the critical pigment volume, as one drawing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from mullbook.derive.results import BinderStart, DerivedPigment
from mullbook.model.catalogue import Catalogue
from mullbook.render.card import shown_starts
from mullbook.render.words import in_sentence, number

LATE = 55.0
"""Percent of pigment volume from which a label stands left of its mark, so that it stays on the drawing."""


@dataclass(frozen=True, slots=True)
class Band:
    """A stretch of the ladder, in percent of pigment volume, with its words and where they stand."""

    low: float
    high: float
    words: str
    at: float
    late: bool

    @property
    def width(self) -> float:
        """Its width; a single value still shows as a line."""
        return max(self.high - self.low, 0.6)


@dataclass(frozen=True, slots=True)
class Ladder:
    """One binder's ladder."""

    binder: str
    name: str
    start: Band
    critical: Band | None
    known: bool
    """Whether the critical volume is known; else it is only a lower bound."""
    words: str


def ladders(catalogue: Catalogue, found: DerivedPigment) -> tuple[Ladder, ...]:
    """Ladders of the binders whose starts stand on the bench card."""
    return tuple(_ladders(catalogue, found))


def _ladders(catalogue: Catalogue, found: DerivedPigment) -> Iterator[Ladder]:
    known = found.paint.critical_from == "rub-out"
    for each in shown_starts(found):
        if each.pvc is None:
            continue
        name = catalogue.binder[each.binder].name
        start = _band("start", each.pvc.low * 100, each.pvc.high * 100)
        critical = _critical(each, known)
        bands = ", ".join(band.words for band in (start, critical) if band)
        words = f"Pigment volume in {in_sentence(name)}: {bands}"
        yield Ladder(each.binder, name, start, critical, known, words)


def _critical(each: BinderStart, known: bool) -> Band | None:
    if each.critical is None or each.critical.result is None:
        return None
    found = each.critical.result
    return _band("critical", found.low * 100, found.high * 100 if known else None)


def _band(word: str, low: float, high: float | None) -> Band:
    first = number(low, 2)
    if high is None:
        return _placed(low, 100.0, f"{word} at least {first}\N{NO-BREAK SPACE}%")
    last = number(high, 2)
    said = first if first == last else f"{first}–{last}"
    return _placed(low, high, f"{word} {said}\N{NO-BREAK SPACE}%")


def _placed(low: float, high: float, words: str) -> Band:
    late = low > LATE
    return Band(round(low, 1), round(high, 1), words, round(high if late else low, 1), late)
