"""What is derived for each entry: numbers with their working, verdicts with their reasons."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.derive.practice_results import Chemistry, Worked
from mullbook.model.values import HazardClass, Quantity, Range, Working
from mullbook.model.values.labelling import Label, NoticeFound


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
    """PVC to critical PVC, where the PVC was stated and not itself reckoned from a lambda."""
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
    rule: str = ""
    """The rule by itself, as it stands in `why` behind the figures; empty where none gave the class."""
    remembered: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DustLimit:
    """A workplace limit turned into milligrams of this dust per cubic metre."""

    value: float
    reckoned: float
    """What rooms are reckoned with: `value`, or the threshold for any dust where that is lower. A mild limit
    of a minor part says nothing for the rest."""
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
class Advised:
    """A piece of advice with what brought it about and where it stands."""

    words: str
    because: str = ""
    place: str | None = None
    source: str | None = None
    at: str | None = None
    basis: str = "common-practice"
    note: str | None = None

    @property
    def remembered(self) -> bool:
        """Whether no opened source stands behind it."""
        return self.basis == "from-memory"


@dataclass(frozen=True, slots=True, kw_only=True)
class SetFree(Advised):
    """What heat, acid or alkali may set free."""

    when: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Screened:
    """One element in one kind of waste, beside the level of a leaching test."""

    element: str
    name: str
    number: str
    waste: str
    """`residue`, `paint`, `rinse` or `wipes`."""
    content: float
    """mg of the element per kg of that waste, at the most."""
    level: float
    working: Working

    @property
    def may_exceed(self) -> bool:
        """Whether the extract may reach the level."""
        return self.working.result is None or self.working.result.high >= self.level


@dataclass(frozen=True, slots=True, kw_only=True)
class Drain:
    """What waste of one powder or paint may hold, and what each place asks for."""

    contents: Mapping[str, float] = field(default_factory=dict)
    """Element to mg per kg of the wet paint, at the most."""
    screens: tuple[Screened, ...] = ()
    words: tuple[Advised, ...] = ()
    clear_water: str = ""
    assumptions: tuple[str, ...] = ()
    not_known: str = ""
    """What of the composition no formula shows."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What stands beside the verdicts of a powder or product."""

    tip: Working | None = None
    tip_note: str = ""
    combustible: Advised | None = None
    combustible_do: tuple[str, ...] = ()
    set_free: tuple[SetFree, ...] = ()
    frequency: tuple[Advised, ...] = ()
    take_home: tuple[str, ...] = ()
    surveillance: tuple[Advised, ...] = ()
    drain: Drain | None = None


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
    label: Label | None = None
    """Draft label of the place whose rules were read; its supplements name allergens and lead."""
    beside: Beside = field(default_factory=Beside)

    @property
    def hazards(self) -> frozenset[str]:
        """Ids of the hazard classes, of the studio's own places and of others."""
        return frozenset(each.hazard for each in (*self.classes, *self.elsewhere))

    @property
    def supplements(self) -> tuple[NoticeFound, ...]:
        """Supplemental statements (EUH) with what gave them."""
        return self.label.supplements if self.label else ()


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
    chemistry: Chemistry = field(default_factory=Chemistry)


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
    worked: Mapping[str, tuple[Worked, ...]] = field(default_factory=dict)
    """Faults and studio tests by id: the numbers worked out for them."""
    figures: Mapping[str, Mapping[str, Worked]] = field(default_factory=dict)
    """Guides and questions by kind and id, each with its worked numbers by their own ids."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Named:
    """One thing named on a label, with what else is said of it."""

    name: str
    also: str = ""
    entry: str = ""
    """Id of the entry that `also` tells of, where another language has words of its own for it."""
    bought: bool = False
    """Whether it came with what was bought."""
    own_words: bool = False
    """Whether the name is what an entry says of it, and no name of a thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelDraft:
    """The draft of a label for a jar or tube of one batch; never a regulatory classification."""

    recipe: str
    name: str
    system: str
    place: str
    edition: str
    checked: str
    weighed: tuple[str, ...] = ()
    """Ids of what goes into it."""
    batch: str | None = None
    made: str | None = None
    check_by: str | None = None
    volume: float | None = None
    """What goes into one jar or tube, ml."""
    pigments: tuple[Named, ...] = ()
    binder: Named | None = None
    preservatives: tuple[Named, ...] = ()
    allergens: tuple[Named, ...] = ()
    label: Label | None = None
    classes: tuple[FoundClass, ...] = ()
    elsewhere: tuple[FoundClass, ...] = ()
    """Classes that other places list in addition."""
    as_dust: tuple[FoundClass, ...] = ()
    """Those of them that act only as dust: not of the wet paint, but of the sanded one."""
    not_for: tuple[Because, ...] = ()
    sanding: Because | None = None
    heating: Because | None = None
    spraying: Because | None = None
    level: Verdict | None = None
    lines: tuple[str, ...] = ()
    sale: tuple[Advised, ...] = ()
    never: tuple[str, ...] = ()
    waste: Because | None = None
    drain: Drain | None = None
    not_known: tuple[str, ...] = ()
    """What is not known of what went in, in words."""
    missing: tuple[str, ...] = ()
    """Why there is no draft, where the batch itself could not be worked out."""
