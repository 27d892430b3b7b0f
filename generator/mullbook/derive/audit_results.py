"""What a studio's edition and its audit consist of: jars with their levels, totals, what is due, rooms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.derive.results import Verdict
from mullbook.model.register import Change, Jar, Listed
from mullbook.model.studio import Room, Studio
from mullbook.model.values import Range, Working

MISSING, OLD = "missing", "old"
NEVER, OVERDUE, DUE_SOON = "no day set", "overdue", "due soon"


@dataclass(frozen=True, slots=True, kw_only=True)
class Audited:
    """One jar with what the book says of it on one day."""

    listed: Listed
    name: str
    level: str
    """Level at the amount that is in it, in the room it stands in."""
    because: str
    is_known: bool
    cas: tuple[str, ...] = ()
    red: tuple[str, ...] = ()
    """Why it is on the red list; empty where it is not."""
    review_due: str | None = None
    review: str = ""
    """`overdue`, `due soon`, `no day set`, or nothing."""
    sheet: str = ""
    """`missing`, `old`, or nothing."""
    elements: Mapping[str, Range] = field(default_factory=dict)
    """Grams of each element that is watched."""

    @property
    def jar(self) -> Jar:
        """What its row says."""
        return self.listed.jar


@dataclass(frozen=True, slots=True, kw_only=True)
class ElementTotal:
    """One element in everything that was weighed."""

    symbol: str
    name: str
    grams: Range
    jars: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelTotal:
    """Everything at one level."""

    level: str
    jars: int
    grams: float
    unweighed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Jars of one cupboard in one room."""

    room: str
    cupboard: str
    jars: tuple[Audited, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """A register looked at on one day."""

    today: str
    jars: tuple[Audited, ...]
    places: tuple[Place, ...]
    elements: tuple[ElementTotal, ...]
    levels: tuple[LevelTotal, ...]
    not_weighed: tuple[str, ...]
    """Jars without a mass: they are in no total of grams."""
    not_reckoned: Range
    """Grams whose elements no formula shows, within what was weighed."""
    since: str | None = None
    changes: tuple[Change, ...] = ()

    @property
    def red(self) -> tuple[Audited, ...]:
        """Jars on the red list."""
        return tuple(each for each in self.jars if each.red)

    @property
    def reviews(self) -> tuple[Audited, ...]:
        """Jars whose review is overdue, or has no day."""
        return tuple(each for each in self.jars if each.review in (OVERDUE, NEVER))

    @property
    def soon(self) -> tuple[Audited, ...]:
        """Jars whose review is due within a month."""
        return tuple(each for each in self.jars if each.review == DUE_SOON)

    @property
    def sheets(self) -> tuple[Audited, ...]:
        """Jars without a data sheet, or with an old one."""
        return tuple(each for each in self.jars if each.sheet)

    @property
    def quarantine(self) -> tuple[Audited, ...]:
        """Jars that nobody knows."""
        return tuple(each for each in self.jars if not each.is_known)

    @property
    def broken(self) -> tuple[Audited, ...]:
        """Jars in whose row something could not be read."""
        return tuple(each for each in self.jars if not each.listed.is_whole)


@dataclass(frozen=True, slots=True, kw_only=True)
class InRoom:
    """A powder in one room of the studio."""

    room: Room
    level: Verdict
    own_rule: bool
    """Whether a rule for this room makes the level stricter than elsewhere in the studio."""
    budget: Working | None = None
    clearing: Working | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShownJar:
    """One jar as pages show it: the columns that may be shown, and what the audit found."""

    cells: Mapping[str, str]
    name: str
    kind: str | None
    entry: str | None
    level: str
    red: tuple[str, ...]
    review: str
    sheet: str
    is_known: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StudioPages:
    """All that pages may know of a studio. Nothing private is in it."""

    studio: Studio
    columns: tuple[str, ...] = ()
    jars: tuple[ShownJar, ...] = ()
    own: frozenset[tuple[str, str]] = frozenset()
    changed: Mapping[tuple[str, str], tuple[str, ...]] = field(default_factory=dict)
    rooms: Mapping[str, tuple[InRoom, ...]] = field(default_factory=dict)
    """Pigment id to the rooms, for pigments that are on the shelf or in every room alike."""
    audit: Audit | None = None
    """Totals only: its jars are left out."""
    left_out: frozenset[str] = frozenset()
    """Pigments of the book that this edition leaves out."""
    dark_accent: str | None = None

    @property
    def shelf(self) -> dict[tuple[str, str], tuple[ShownJar, ...]]:
        """Kind and id of an entry to its jars."""
        found: dict[tuple[str, str], tuple[ShownJar, ...]] = {}
        for each in self.jars:
            if each.kind is not None and each.entry is not None:
                key = (each.kind, each.entry)
                found[key] = (*found.get(key, ()), each)
        return found

    def is_own(self, kind: str, entry: str) -> bool:
        """Whether an entry is the studio's own."""
        return (kind, entry) in self.own

    def changes(self, kind: str, entry: str) -> tuple[str, ...]:
        """Keys of an entry of the book that the studio changes."""
        return self.changed.get((kind, entry), ())
