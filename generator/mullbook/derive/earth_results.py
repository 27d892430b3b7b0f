"""What is worked out on the way from stone to paint: the fire, a sample, one stone from ground to tube."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.derive.batch_results import Sheet
from mullbook.derive.results import Because, BinderStart, LabelDraft, Paint, Verdict
from mullbook.derive.stone_results import StoneResult
from mullbook.model.calcination import Calcination
from mullbook.model.samples import Sample
from mullbook.model.values import Working
from mullbook.model.values.washing import SieveRow, WashSheet


@dataclass(frozen=True, slots=True, kw_only=True)
class Fired:
    """One change of one substance in the fire, with the mass it loses."""

    substance: str
    name: str
    action: str | None
    """What may be done with heat, by the substance's own entry."""
    step: Calcination
    loss: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class FiredEarth:
    """An earth of which a constituent changes in the fire: the mass lost for that alone."""

    pigment: str
    name: str
    heating: str
    """The action for heating the whole powder."""
    because: str
    constituent: str
    loss: Working


@dataclass(frozen=True, slots=True, kw_only=True)
class Unheated:
    """What must not be heated, and why."""

    kind: str
    id: str
    name: str
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Calcining:
    """The page on heat."""

    fired: tuple[Fired, ...] = ()
    earths: tuple[FiredEarth, ...] = ()
    stones: tuple[Unheated, ...] = ()
    """Minerals, compounds and groups that are not heated."""
    powders: tuple[Unheated, ...] = ()
    """Earths and minerals of the catalogue whose powder is not heated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waits:
    """How long grains of some densities take to sink, for one size."""

    size: float
    """Micrometres."""
    times: tuple[Working, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleShown:
    """A sample as it may be seen, with what follows from its log."""

    sample: Sample
    check: StoneResult | None = None
    """What its readings leave open, where the catalogue has a stone check."""
    washing: WashSheet | None = None
    salts: Working | None = None
    sieve: tuple[SieveRow, ...] = ()
    loss: Working | None = None
    yields: Working | None = None
    """Part of the charge that was kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedStone:
    """One stone followed from the ground to the tube; each figure from its log or worked out from it."""

    shown: SampleShown
    charges: int
    """Times the jars were charged to wash all of the sample that was washed."""
    paint: Paint
    """Paint numbers by the figures measured on the sample."""
    start: BinderStart
    """Those with the binder of the recipe."""
    batch: Sheet
    label: LabelDraft | None
    fired: Working | None
    """Mass the earth would lose if its goethite were burnt red."""
    dry: Mapping[str, Verdict] = field(default_factory=dict)
    waste: Because | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Earths:
    """All of it."""

    calcining: Calcining = Calcining()
    waits: tuple[Waits, ...] = ()
    """The waits for 10 cm of water at 20 °C, by size and density."""
    samples: Mapping[str, SampleShown] = field(default_factory=dict)
    worked: WorkedStone | None = None
