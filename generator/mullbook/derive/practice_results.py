"""What is derived for practice: verdicts by chemistry, numbers worked out for faults and tests."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.model.chemistry import ClassVerdict
from mullbook.model.values import Working


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassSays:
    """What the class of a pigment says of one attack."""

    class_id: str
    name: str
    verdict: ClassVerdict


@dataclass(frozen=True, slots=True, kw_only=True)
class ByClass:
    """A verdict for a binder that the entry says nothing of: by chemistry class, chemically expected."""

    verdict: str
    because: str
    class_id: str
    attack: str
    kin: str | None = None
    """Binder whose entered verdict is stricter than the class and therefore counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Chemistry:
    """What the chemistry of a pigment says."""

    classes: tuple[str, ...] = ()
    said: Mapping[str, ClassSays] = field(default_factory=dict)
    """By attack."""
    binders: Mapping[str, ByClass] = field(default_factory=dict)
    """By binder, only those that the entry says nothing of."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """A number that an entry asks to have worked out."""

    words: str
    working: Working
