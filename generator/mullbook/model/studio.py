"""A studio: who it is, its rooms, what it asks beyond the book, and what its pages show."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

POISON_CENTRE = "poison-centre"
ALWAYS_SHOWN = ("unlabelled-jar", "unknown-stone")
"""Pigment entries that stand in every edition: they are for what nobody wrote down."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Units:
    """How numbers are written."""

    mass: str = "g"
    volume: str = "ml"
    decimal: str = "point"


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """A room with its volume, m3, and, where somebody measured it, how often an hour its air is changed."""

    id: str
    name: str
    volume: float
    air_changes: float | None = None
    note: str | None = None
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class EmergencyNumber:
    """A number to call."""

    of: str
    name: str
    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Contact:
    """Who looks after what."""

    name: str
    role: str
    reach: str | None = None
    private: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelRule:
    """A level that powders have here at least.

    It holds for every pigment, class, element or family it names; for every powder where it names none; and
    where it names rooms, in those only.
    """

    at_least: str
    because: str
    pigments: tuple[str, ...] = ()
    classes: tuple[str, ...] = ()
    elements: tuple[str, ...] = ()
    families: tuple[str, ...] = ()
    rooms: tuple[str, ...] = ()
    also_wet: bool = False

    @property
    def for_every_powder(self) -> bool:
        """Whether it names nothing."""
        return not (self.pigments or self.classes or self.elements or self.families)


@dataclass(frozen=True, slots=True, kw_only=True)
class DustCaps:
    """Lower thresholds for any dust, mg/m3."""

    because: str
    inhalable: float | None = None
    respirable: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountCaps:
    """Smaller amounts, g, up to which the milder columns of the level table count."""

    because: str
    bench: float | None = None
    batch: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tightening:
    """What a studio asks beyond the book."""

    levels: tuple[LevelRule, ...] = ()
    dust_caps: DustCaps | None = None
    amounts: AmountCaps | None = None
    data_sheet_years: float = 3
    """Age from which a data sheet counts as due; common practice."""
    review_months: int = 12
    """Months from one look at a jar to the next, where the register gives no day."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Colours of the pages, as `#rrggbb`."""

    accent: str | None = None
    paper: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """The register and what pages show of it."""

    show: str = "first"
    register: str = "register.csv"
    columns: tuple[str, ...] = (
        "jar",
        "lot",
        "quantity",
        "unit",
        "data_sheet_date",
        "opened",
        "review_due",
        "disposal",
        "assessment",
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Studio:
    """The whole of studio.yaml."""

    name: str
    rooms: tuple[Room, ...]
    short_name: str | None = None
    about: str | None = None
    edition: str | None = None
    issued: str | None = None
    review_by: str | None = None
    answers_for_it: str | None = None
    jurisdiction: str | None = None
    languages: tuple[str, ...] = ("en",)
    units: Units = field(default_factory=Units)
    emergency: tuple[EmergencyNumber, ...] = ()
    contacts: tuple[Contact, ...] = ()
    policy: Tightening = field(default_factory=Tightening)
    house_rules: tuple[str, ...] = ()
    look: Look = field(default_factory=Look)
    shelf: Shelf = field(default_factory=Shelf)
    private_names: tuple[str, ...] = ()
    note: str | None = None

    @property
    def title(self) -> str:
        """The name at the head of its pages."""
        return self.short_name or self.name

    @property
    def poison_centre(self) -> EmergencyNumber | None:
        """Whom to ask about poison."""
        return next((each for each in self.emergency if each.of == POISON_CENTRE), None)

    @property
    def smallest_room(self) -> Room | None:
        """The smallest room that pages may show: what fills it fills the others less."""
        shown = (each for each in self.rooms if not each.private)
        return min(shown, key=lambda each: each.volume, default=None)

    @property
    def secrets(self) -> tuple[str, ...]:
        """Words that may stand on no page; private rooms are left out by their id."""
        people = (
            text
            for each in self.contacts
            if each.private
            for text in (each.name, each.reach)
            if text is not None
        )
        return tuple(dict.fromkeys((*self.private_names, *people)))

    @property
    def for_pages(self) -> Studio:
        """The studio without anything private in it."""
        private = {each.id for each in self.rooms if each.private}
        levels = tuple(
            replace(rule, rooms=tuple(each for each in rule.rooms if each not in private))
            for rule in self.policy.levels
            if not rule.rooms or set(rule.rooms) - private
        )
        return replace(
            self,
            rooms=tuple(each for each in self.rooms if not each.private),
            contacts=tuple(
                replace(each, name="", reach=None) if each.private else each for each in self.contacts
            ),
            policy=replace(self.policy, levels=levels),
            private_names=(),
            note=None,
        )
