"""Words of the pages for the bench: times, figures of a batch, charges, amounts of powder."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from mullbook.model.values import Range
from mullbook.render.batch_sheet import figure_text
from mullbook.render.scale_words import (
    WAY_NAMES,
    charges_text,
    mass_text,
    speed_text,
    volume_text,
    weak_drill,
)
from mullbook.render.words import range_text

CLOCK = (("s", 1 / 60, 1.0), ("min", 1.0, 90.0), ("h", 60.0, 2880.0))
"""Unit of time, its minutes, and the minutes up to which it is used; days beyond."""
DAY = 1440.0


def time_text(minutes: Range) -> str:
    r"""A time as it is read off a clock, to two figures.

    >>> time_text(Range(0.35, 0.35)), time_text(Range(3.48, 4.5)), time_text(Range(463, 463))
    ('21\xa0s', '3.5–4.5\xa0min', '7.7\xa0h')
    """
    unit, length = next(((unit, length) for unit, length, most in CLOCK if minutes.high < most), ("d", DAY))
    return range_text(minutes.times(1 / length), unit, 2)


def share(found: Range, figures: int = 2) -> str:
    """A fraction in per cent without its sign, for a column that carries it.

    >>> share(Range(0.24, 0.31))
    '24–31'
    """
    return range_text(found.times(100), "number", figures)


FILTERS: dict[str, Callable[..., Any]] = {
    "time": time_text,
    "share": share,
    "figure": figure_text,
    "charges": charges_text,
    "volume": volume_text,
    "mass": mass_text,
    "weak_drill": weak_drill,
    "turns": speed_text,
    "way_name": WAY_NAMES.__getitem__,
}
"""Filters of the templates for the bench."""
