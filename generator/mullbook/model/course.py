"""What a teacher picks for a handout."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """Pigments and pages of a handout, and how many questions are drawn about them."""

    title: str
    pigments: tuple[str, ...]
    school_class: str | None = None
    date: str | None = None
    words: str | None = None
    binders: tuple[str, ...] = ()
    pages: tuple[str, ...] = ()
    guides: tuple[str, ...] = ()
    questions: tuple[str, ...] = ()
    ask: int = 8
    kinds: tuple[str, ...] = ()
    seed: int = 1
