"""What is derived for each entry: numbers with their working, verdicts with their reasons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.model.values import HazardClass, Quantity, Range, Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One constituent with its share as a closed range, what it belongs to and what it holds."""

    substance: str
    name: str
    role: str
    share: Range
    groups: tuple[str, ...] = ()
    elements: Mapping[str, float] = field(default_factory=dict)
    """Mass fraction of each element in the substance; empty when its formula is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BinderStart:
    """Where to start with one binder."""

    binder: str
    verdict: str | None = None
    grade: str | None = None
    mechanism: str | None = None
    pvc: Range | None = None
    critical: Working | None = None
    """Critical pigment volume in this binder, or why there is none."""
    reduced: Working | None = None
    pvc_working: Working | None = None
    mass: Working | None = None
    """Grams of binder as supplied per 100 g of pigment."""
    start: float | None = None
    """The mass at the middle of every input, g per 100 g of pigment."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Paint:
    """The paint numbers of a pigment."""

    density: Quantity | None
    critical: Working
    critical_from: str | None
    """`rub-out`, `grind-quantity` (then the result is a lower bound) or None."""
    binders: tuple[BinderStart, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundClass:
    """A class of the powder with the rule and figures that gave it."""

    hazard: str
    category: str
    statement: str
    text: str
    place: str
    why: str
    remembered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DustLimit:
    """A workplace limit turned into milligrams of this dust per cubic metre."""

    value: float
    on_inhalable_scale: float
    fraction: str
    jurisdiction: str
    list: str
    driver: str
    remembered: bool
    working: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A control level with the reasons that led to it, strongest first."""

    level: str
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Because:
    """An action, a waste route or a person, with the reason."""

    id: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Safety:
    """Everything derived about harm; silence is never an empty field but `not-known`."""

    status: str
    searched: tuple[str, ...] = ()
    limits_searched: tuple[str, ...] = ()
    unknown_share: float = 0.0
    classes: tuple[FoundClass, ...] = ()
    elsewhere: tuple[FoundClass, ...] = ()
    declared: tuple[HazardClass, ...] = ()
    statements: tuple[str, ...] = ()
    """Hazard statement codes after precedence."""
    signal_word: str | None = None
    pictograms: tuple[str, ...] = ()
    dust_limits: tuple[DustLimit, ...] = ()
    shown_limit: DustLimit | None = None
    ruling_limit: DustLimit | None = None
    limit_status: str = "not-known"
    room: Working | None = None
    dry: Mapping[str, Verdict] = field(default_factory=dict)
    wet: Verdict | None = None
    heating: Because | None = None
    sanding: Because | None = None
    spraying: Because | None = None
    waste: Because | None = None
    not_for: tuple[Because, ...] = ()
    milder: tuple[str, ...] = ()
    first_aid: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class DerivedPigment:
    """All that is derived for one pigment."""

    id: str
    parts: tuple[Part, ...]
    paint: Paint
    safety: Safety
    hex: str | None = None
    optics: tuple[tuple[str, Working], ...] = ()
    """Binder id and scattering contrast in it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DerivedSubstance:
    """Numbers worked out from a substance's formula and cell."""

    id: str
    molar_mass: Working | None = None
    cell_density: Working | None = None
    elements: tuple[Working, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Derived:
    """The derived catalogue."""

    pigments: Mapping[str, DerivedPigment]
    substances: Mapping[str, DerivedSubstance]
    products: Mapping[str, Safety]
    """Safety of binders and additives by id."""
    used_by: Mapping[str, tuple[str, ...]]
    """Source id to the ids of the entries that cite it."""
