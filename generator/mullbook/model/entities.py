"""The things the catalogue knows, each a frozen record with the field names its entry uses."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import ClassVar

from mullbook.model.calcination import Calcination
from mullbook.model.chemistry import Attack, ChemistryClass, Medium
from mullbook.model.facts import (
    ActsOn,
    Allergen,
    Cell,
    Colour,
    ColourIndex,
    Constituent,
    Dose,
    FalseFriend,
    Fastness,
    FieldTests,
    Handling,
    Heating,
    Iarc,
    Item,
    NotFor,
    Number,
    Physical,
    Reaction,
    Suitability,
    Target,
    Term,
    Warned,
)
from mullbook.model.values import HazardClass, Hazards, Limit, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Entity:
    """What every entry has."""

    kind_name: ClassVar[str] = "entity"
    id: str
    name: str
    aliases: tuple[str, ...] = ()
    summary: str | None = None
    checked: str | None = None
    review_by: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pigment(Entity):
    """A pigment or filler as it comes in a jar."""

    kind_name: ClassVar[str] = "pigment"
    colour_index: ColourIndex | None = None
    cas: tuple[Number, ...] = ()
    hue: str = "grey"
    family: str = "unknown"
    constituents: tuple[Constituent, ...] = ()
    physical: Physical = field(default_factory=Physical)
    colour: Colour | None = None
    fastness: tuple[Fastness, ...] = ()
    declared_hazards: tuple[HazardClass, ...] = ()
    suitability: tuple[Suitability, ...] = ()
    handling: Handling = field(default_factory=Handling)
    false_friends: tuple[FalseFriend, ...] = ()
    testing_a_lot: tuple[str, ...] = ()
    warnings: tuple[Warned, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Substance(Entity):
    """A compound, mineral, element, mixture, or a group that lends its classes and limits to members."""

    kind_name: ClassVar[str] = "substance"
    kind: str = "compound"
    formula: str | None = None
    formula_note: str | None = None
    cas: tuple[Number, ...] = ()
    ec: tuple[Number, ...] = ()
    member_of: tuple[str, ...] = ()
    cell: Cell | None = None
    density: Quantity | None = None
    refractive_index: Quantity | None = None
    traits: tuple[str, ...] = ()
    hazards: Hazards = field(default_factory=lambda: Hazards(status="not-known"))
    limits: tuple[Limit, ...] = ()
    limits_searched: tuple[str, ...] = ()
    iarc: Iarc | None = None
    heating: Heating | None = None
    calcines: tuple[Calcination, ...] = ()
    field_tests: FieldTests | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Binder(Entity):
    """What holds the pigment when dry."""

    kind_name: ClassVar[str] = "binder"
    kind: str
    constituents: tuple[Constituent, ...] = ()
    solids: Quantity | None = None
    density_wet: Quantity | None = None
    density_dry: Quantity | None = None
    refractive_index: Quantity | None = None
    ph: Quantity | None = None
    film_forming_temperature: Quantity | None = None
    binder_index: Quantity | None = None
    target: Target
    allergens: tuple[Allergen, ...] = ()
    acts_on: tuple[ActsOn, ...] = ()
    hazards: Hazards | None = None
    """What is known of the whole product beyond its constituents; None where nothing was said."""
    limits: tuple[Limit, ...] = ()
    not_for: tuple[NotFor, ...] = ()
    stop_test: str | None = None
    shelf_life: str | None = None
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Additive(Entity):
    """Vehicle, dispersant, defoamer, humectant, thickener, preservative or pH adjuster."""

    kind_name: ClassVar[str] = "additive"
    role: str
    constituents: tuple[Constituent, ...] = ()
    active: Quantity | None = None
    density: Quantity | None = None
    doses: tuple[Dose, ...] = ()
    ceiling: Dose | None = None
    stays_in_film: str = "yes"
    works_at_ph: Quantity | None = None
    """pH between which a preservative or thickener does its work."""
    hazards: Hazards | None = None
    """What is known of the whole product beyond its constituents; None where nothing was said."""
    limits: tuple[Limit, ...] = ()
    not_for: tuple[NotFor, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """A published source that was opened, and how much of it."""

    kind_name: ClassVar[str] = "source"
    id: str
    title: str
    kind: str
    authors: tuple[str, ...] = ()
    year: int | None = None
    publisher: str | None = None
    edition: str | None = None
    url: str | None = None
    doi: str | None = None
    isbn: str | None = None
    licence: str | None = None
    read_as: str
    read: str
    checked: str | None = None

    @property
    def name(self) -> str:
        """The title, so that sources list like other entries."""
        return self.title


@dataclass(frozen=True, slots=True, kw_only=True)
class Vocabulary:
    """Glossary terms or the words of one controlled list."""

    kind_name: ClassVar[str] = "vocabulary"
    id: str
    kind: str
    name: str | None = None
    terms: tuple[Term, ...] = ()
    items: tuple[Item, ...] = ()
    reactions: tuple[Reaction, ...] = ()
    attacks: tuple[Attack, ...] = ()
    media: tuple[Medium, ...] = ()
    classes: tuple[ChemistryClass, ...] = ()
