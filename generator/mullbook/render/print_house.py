"""What a studio adds to paper: its name, numbers and rooms; empty where nobody wrote them down."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """Whose paper it is. What is None or empty is printed as a slot to write in."""

    name: str | None = None
    owner: str | None = None
    issued: str | None = None
    review_by: str | None = None
    poison_centre: str | None = None
    emergency: str | None = None
    rooms: tuple[tuple[str, float], ...] = ()
    """Rooms by name with their volume, m3."""


NOBODY = House()
"""The book's own paper: every slot is open."""
