"""Advice beside the verdicts, kept as data: what heat and acid set free, how often, for sale, for drains."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values.quantity import Evidence


@dataclass(frozen=True, slots=True, kw_only=True)
class Tip(Evidence):
    """What one careless tip of the jar is taken to raise: a scenario, never a measurement."""

    amount: float
    """Powder that is tipped, g."""
    dustiness_low: float
    dustiness_high: float
    """Part of it that becomes dust in the air, mg/kg."""
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Combustible(Evidence):
    """Dust that can burn in the air: known by a trait, possible by a family."""

    trait: str
    families: tuple[str, ...]
    known: str
    possible: str
    other: str
    do: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GivesOff(Evidence):
    """What a constituent may set free. It fits a substance named, a group, or a formula that holds all of
    `holds` and nothing of `lacks`; `family` asks for a family of pigments besides.
    """

    when: str
    """`heat`, `acid` or `alkali`."""
    what: str
    substances: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    lacks: tuple[str, ...] = ()
    family: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Frequency(Evidence):
    """What work of some frequency asks for; with `elements`, only where one of them is held."""

    how_often: str
    asks: str
    elements: tuple[str, ...] = ()
    share: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Surveillance(Evidence):
    """Health surveillance that the law of a place asks for, and what brings it about."""

    place: str
    words: str
    elements: tuple[str, ...] = ()
    traits: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    groups: tuple[str, ...] = ()
    share: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed(Evidence):
    """A sentence that holds in one place, perhaps only for some things.

    `when` is `always`, `classified` (the thing has a class) or `holds` (it holds one of `elements`).
    """

    place: str
    words: str
    when: str = "always"
    elements: tuple[str, ...] = ()
    share: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Dregs:
    """The stated waste that element contents are reckoned for."""

    solids: float
    """Part by mass of the stated paint that stays when it dries."""
    rinse: float
    """Paint left in the rinse water, g per litre."""
    wipe: float
    """Part by mass of a wipe that is paint."""
    clear_water: str
    assumptions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Breathing:
    """What goes before a respirator, what it needs, and what it does not protect from."""

    last: str
    needs: tuple[str, ...]
    not_against: tuple[str, ...]
    not_for: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """The whole advice as its entry states it."""

    id: str
    name: str
    edition: str
    basis: str
    checked: str
    review_by: str
    why: str
    tip: Tip
    combustible: Combustible
    gives_off: tuple[GivesOff, ...]
    frequency: tuple[Frequency, ...]
    take_home: tuple[str, ...]
    surveillance: tuple[Surveillance, ...]
    breathing: Breathing
    dregs: Dregs
    waste: tuple[Placed, ...]
    sale: tuple[Placed, ...]
    never_on_a_label: tuple[str, ...]
    label_lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Respirator:
    """One class of respirator with the factor by which it is taken to thin the dust."""

    type: str
    facepiece: str
    factor: float
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RespiratorFactors:
    """Assigned protection factors of one jurisdiction."""

    id: str
    name: str
    jurisdiction: str
    edition: str
    source: str
    at: str
    checked: str
    review_by: str
    rows: tuple[Respirator, ...]
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeachingLevel:
    """The concentration of one element in an extract from which waste is hazardous, mg/l."""

    element: str
    number: str
    level: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LeachingLevels:
    """Levels of a leaching test of one jurisdiction."""

    id: str
    name: str
    jurisdiction: str
    edition: str
    source: str
    at: str
    checked: str
    review_by: str
    rows: tuple[LeachingLevel, ...]
    note: str | None = None
