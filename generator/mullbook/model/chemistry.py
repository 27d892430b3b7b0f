"""Classes of pigment by their chemistry, and what attacks each."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values import Evidence

SHARE_FROM = 0.05
"""Share from which a constituent puts a pigment into a class; common practice."""
STRICTNESS = ("suits", "test-first", "unsuitable")
"""Verdicts, mildest first."""


def strictest(*verdicts: str | None) -> str | None:
    """The strictest of some verdicts; None where there is none.

    >>> strictest("suits", None, "unsuitable", "test-first"), strictest(None)
    ('unsuitable', None)
    """
    known = [each for each in verdicts if each is not None]
    return max(known, key=STRICTNESS.index, default=None)


@dataclass(frozen=True, slots=True, kw_only=True)
class Attack:
    """Something that can harm a pigment, and the studio test that shows whether it does."""

    id: str
    name: str
    means: str
    test: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Medium:
    """Binders in which the same attack counts."""

    id: str
    name: str
    attacks: tuple[str, ...]
    kinds: tuple[str, ...] = ()
    """Kinds of binder that belong to it."""
    binders: tuple[str, ...] = ()
    """Binders that belong to it whatever their kind; they count first."""
    kin: tuple[str, ...] = ()
    """Binders for which an entry's own verdict is never made milder here."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice(Evidence):
    """What another source says of the same; those that contradict stand side by side."""

    says: str
    grade: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassVerdict(Evidence):
    """What one attack does to one class, why, and how well that is known."""

    attack: str
    verdict: str
    mechanism: str
    grade: str
    others: tuple[Voice, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ChemistryClass:
    """Pigments that share a chemistry: by the substances they hold, or by name."""

    id: str
    name: str
    substances: tuple[str, ...] = ()
    pigments: tuple[str, ...] = ()
    excepts: tuple[str, ...] = ()
    """Pigments that hold such a substance and still do not belong."""
    verdicts: tuple[ClassVerdict, ...] = ()
    note: str | None = None

    def against(self, attack: str) -> ClassVerdict | None:
        """What is said of one attack, or None."""
        return next((each for each in self.verdicts if each.attack == attack), None)
