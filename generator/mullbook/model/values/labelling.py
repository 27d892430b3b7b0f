"""What a ruleset puts on a label beside signal word and pictograms, and the label that comes of it."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values.quantity import Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class Notice(Evidence):
    """A statement that names a component of a mixture that is not classified for it.

    `unless` says when it is left out: `so-classified`, the mixture has one of these classes itself;
    `classified`, it has any class. Without `hazards` or `categories` it holds for all of them.
    """

    code: str
    at_least: float
    unless: str
    hazards: tuple[str, ...] = ()
    categories: tuple[str, ...] = ()
    of_specific_limit: float | None = None
    """Part of a class's own specific limit from which it holds too, where that is lower."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplement(Evidence):
    """A statement asked for by what a paint holds, whatever its classes."""

    code: str
    applies_to: str
    element: str | None = None
    above: float | None = None
    """Share of the element above which it is asked for."""
    small_code: str | None = None
    small_below: float | None = None
    """Volume of a pack, in ml, below which `small_code` may stand in its place."""
    annulled: str | None = None
    """The day from which it is asked for no longer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Precaution(Evidence):
    """Precautionary statements that a class and its categories may carry, by what they are for."""

    hazard: str
    categories: tuple[str, ...]
    statement: str | None = None
    prevention: tuple[str, ...] = ()
    response: tuple[str, ...] = ()
    storage: tuple[str, ...] = ()
    disposal: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Redundant:
    """A precautionary statement that another one makes needless."""

    present: str
    drops: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PrecautionChoice(Evidence):
    """How a few precautionary statements are chosen among many."""

    most: int
    always: tuple[str, ...]
    """Kept whenever a class may carry them."""
    public: tuple[str, ...]
    """Added where the thing goes to the general public."""
    leave_out: tuple[str, ...]
    """Never chosen: only the supplier can fill them in."""
    redundant: tuple[Redundant, ...]
    order: tuple[str, ...]
    """Most needed first."""
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NoticeFound:
    """A supplemental statement with what gave it; without a code it only names a component."""

    code: str | None
    text: str
    why: str
    remembered: bool = False
    named: str = ""
    """The component that it names, if any."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A draft of the label elements of one jurisdiction, not a regulatory classification."""

    signal_word: str | None
    pictograms: tuple[str, ...]
    statements: tuple[str, ...]
    supplements: tuple[NoticeFound, ...]
    precautions: tuple[str, ...]
    unknown: str | None
    """The sentence on components of unknown acute toxicity."""
    not_judged: tuple[str, ...]
    """Classes of the components that the ruleset says nothing about."""
