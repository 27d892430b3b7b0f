"""The parts that entries are made of: facts in words, numbers, constituents, doses, tests."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values import Evidence, Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact(Evidence):
    """Words with their evidence."""

    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Observed(Fact):
    """What is observed, in words and as values of the closed list that the stone check asks for."""

    any_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Number(Evidence):
    """A registry number (CAS, EC) with its evidence."""

    number: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ColourIndex(Evidence):
    """Colour Index generic names and constitution numbers."""

    names: tuple[str, ...] = ()
    numbers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Constituent:
    """One substance in a pigment, binder or additive, with its share by mass."""

    substance: str
    share: Quantity
    role: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Physical:
    """Measured properties of a powder."""

    density: Quantity | None = None
    bulk_density_loose: Quantity | None = None
    bulk_density_tapped: Quantity | None = None
    oil_absorption: Quantity | None = None
    oil_to_grind: Quantity | None = None
    refractive_index: Quantity | None = None
    particle_size: Quantity | None = None
    specific_surface: Quantity | None = None
    slurry_ph: Quantity | None = None
    water_wetting: Fact | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour(Evidence):
    """Colour of the dry powder: measured as CIELAB, or described in words."""

    kind: str
    lab: tuple[float, ...] = ()
    illuminant: str | None = None
    observer: str | None = None
    of: str = "dry powder"
    words: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fastness(Evidence):
    """How the colour stands against one influence, on a named scale or in words."""

    against: str
    value: str
    scale: str = "in-words"
    medium: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Suitability(Evidence):
    """Whether a pigment lives in a binder, how good the evidence is, and why."""

    binder: str
    verdict: str
    grade: str
    mechanism: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Handling:
    """Short working notes."""

    wetting: str | None = None
    notes: tuple[str, ...] = ()
    stop_test: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FalseFriend:
    """Something sold or known under a name that misleads."""

    name: str
    why: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Warned(Evidence):
    """A published warning about some lots."""

    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Heating(Evidence):
    """What may be done with heat, and why."""

    action: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """Unit cell of a crystal."""

    system: str
    volume: Quantity
    z: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Iarc(Evidence):
    """IARC evaluation as published."""

    group: str
    scope: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldTests:
    """What a mineral shows under simple tests."""

    mineral: str | None = None
    """Name of the mineral, where the entry is named after the compound."""
    streak: Observed | None = None
    colour: Observed | None = None
    lustre: Observed | None = None
    habit: Observed | None = None
    feel: Observed | None = None
    acid: Observed | None = None
    magnet: Observed | None = None
    smell: Observed | None = None
    slurry: Observed | None = None
    salts: Observed | None = None
    heat: Fact | None = None
    hardness: Quantity | None = None
    density: Quantity | None = None
    """Of pieces as they are found, where it differs from that of the pure substance."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """How the starting pigment volume for a binder is found."""

    by: str
    why: str
    finish: str | None = None
    range: Quantity | None = None
    without_rub_out: Quantity | None = None
    """PVC to start from where the pigment's rub-out oil absorption is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Allergen(Evidence):
    """An allergen by name."""

    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ActsOn(Evidence):
    """What a binder does to some pigments."""

    on: str
    effect: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NotFor:
    """A person this is not for, with the reason."""

    person: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """How much of an additive, and of what it is a percentage."""

    range: Quantity
    of: str
    when: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One glossary term."""

    term: str
    means: str
    see: tuple[str, ...] = ()
    page: str | None = None
    """A page of the site that tells more, from its root."""
    source: str | None = None
    at: str | None = None
    basis: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One word of a controlled list."""

    id: str
    name: str
    order: float | None = None
    means: str | None = None
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Reaction(Evidence):
    """Two kinds of pigment that harm each other in some media.

    `one` and `other` name substances or groups; `media` names kinds of system, all where empty.
    """

    one: tuple[str, ...]
    other: tuple[str, ...]
    effect: str
    grade: str
    media: tuple[str, ...] = ()
