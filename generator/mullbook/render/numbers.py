"""Numbers as they leave the house: as authored, or shortened where they were worked out."""

from __future__ import annotations

FIGURES = 4
"""Significant figures of a number that was worked out: more would claim more than the inputs carry."""

Number = int | float


def authored(value: float) -> Number:
    """A number as its entry has it: a whole one without its point.

    Parameters: `value`, any finite number. Returns an `int` where nothing is lost by it.

    >>> authored(95.0), authored(0.224)
    (95, 0.224)
    """
    return int(value) if value.is_integer() else value


def worked_out(value: float) -> Number:
    """A worked-out number, to four significant figures.

    >>> worked_out(0.329871), worked_out(123456.0)
    (0.3299, 123500)
    """
    return authored(float(f"{value:.{FIGURES}g}"))
