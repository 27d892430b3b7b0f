"""What heat turns a substance into."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values import Evidence, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Calcination(Evidence):
    """One change in the fire: what stays, what goes off, from which heat on, and how the colour turns."""

    product: str
    """Formula of what stays."""
    name: str
    """What it is called."""
    parts: float = 1
    product_parts: float = 1
    gives_off: str
    temperature: Quantity | None = None
    colour: str | None = None
