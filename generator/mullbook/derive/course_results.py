"""Questions drawn from the data, each with its answer and how it was reached."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.derive.results import Because, DustLimit, Verdict
from mullbook.model.values import Working

KINDS = ("limit", "level", "binder", "student", "settling", "label", "room", "finish", "milder")
"""Kinds of question, in the order in which they take turns."""
LABEL_PARTS = ("name", "level", "hazards", "not-for", "lot", "dates", "keeper", "waste")
"""What stands on the label of a studio's jar of dry powder, in this order."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exercise:
    """One question with its answer. Which fields are filled depends on `kind`."""

    kind: str
    about: tuple[str, ...]
    """Ids of the pigments it is about."""
    binder: str | None = None
    amount: str | None = None
    """Column of the level table that is asked about."""
    working: Working | None = None
    """How the number asked for is worked out, from the single figures that the question gives."""
    limit: DustLimit | None = None
    verdict: Verdict | None = None
    barred: tuple[tuple[str, Because | None], ...] = ()
    """Pigment id and why a student may not open it alone; None where the book does not bar it."""
    left_out: tuple[str, ...] = ()
    """Parts that the shown label lacks."""
    milder: tuple[str, ...] = ()
