"""Days as entries and registers write them."""

from __future__ import annotations

from datetime import date


def day_of(text: object) -> date | None:
    """The day that a text such as 2026-11-25 names, or None where the calendar has none.

    >>> day_of("2026-02-28"), day_of("2026-02-30")
    (datetime.date(2026, 2, 28), None)
    """
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None
