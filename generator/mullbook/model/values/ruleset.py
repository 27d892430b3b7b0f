"""The rules of one jurisdiction for classifying and labelling mixtures, and what they give."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.labelling import Notice, Precaution, PrecautionChoice, Supplement
from mullbook.model.values.quantity import Evidence, Range


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """The class a rule gives the mixture."""

    hazard: str
    category: str
    statement: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One part of a weighted sum: which classes it counts, and how heavily."""

    hazard: str
    categories: tuple[str, ...]
    weight: float = 1.0
    m_factor: bool = False
    """Whether each share is multiplied by the component's own M-factor."""
    statements: tuple[str, ...] = ()
    """Only classes with one of these statements count, where any is named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class MixtureRule(Evidence):
    """A mixture rule: `any` one component of a class at a cut-off, or the `sum` of weighted shares."""

    counts: str
    at_least: float
    gives: Outcome
    hazard: str | None = None
    category: str | None = None
    terms: tuple[Term, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class NonAdditive(Evidence):
    """A part that does not add up with others and gives a class by itself from its share on.

    The part is an acid of a pH up to `acid_up_to`, a base from `base_from` on, or one of `hazard` and
    `categories` that is marked as not adding up.
    """

    at_least: float
    gives: Outcome
    hazard: str | None = None
    categories: tuple[str, ...] = ()
    acid_up_to: float | None = None
    base_from: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ExtremePh(Evidence):
    """What a mixture as a whole gives by its pH, where no test says otherwise."""

    acid_up_to: float
    base_from: float
    gives: tuple[Outcome, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedFrom(Evidence):
    """Share from which a class is taken into account in sums (generic cut-off)."""

    hazard: str
    categories: tuple[str, ...]
    at_least: float
    divide_by_m: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PointEstimate:
    """Acute toxicity estimate to reckon with where only the category is known."""

    hazard: str
    category: str
    estimate: float
    unit: str
    form: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcuteBand:
    """Highest acute toxicity estimate of a category; the lower end is that of the stricter one."""

    hazard: str
    category: str
    up_to: float
    statement: str
    unit: str
    form: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class AcuteToxicity(Evidence):
    """How acute toxicity adds up, by estimates."""

    point_estimates: tuple[PointEstimate, ...]
    bands: tuple[AcuteBand, ...]
    unknown_above: float = 0.1
    """Share of unknown acute toxicity above which the sum is corrected for it."""
    unknown_stated_from: float = 0.01
    """Share of unknown acute toxicity from which it is stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelElement:
    """Pictogram and signal word that a class and category ask for."""

    hazard: str
    category: str
    pictogram: str | None
    signal_word: str | None
    statement: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Precedence:
    """One label element that drops another.

    `kind` is `pictogram`, `statement` or `signal-word`. `for_reasons` limits the dropping to what those
    classes ask for; `because_of` lets it act only where `present` stands for one of those classes.
    """

    kind: str
    present: str
    drops: str
    for_reasons: tuple[str, ...] = ()
    because_of: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement(Evidence):
    """A hazard or precautionary statement with its text."""

    code: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstAid(Evidence):
    """One line for when it goes wrong; without `hazards` it holds for everything."""

    situation: str
    text: str
    statements: tuple[str, ...] = ()
    hazards: tuple[str, ...] = ()
    unless: tuple[str, ...] = ()
    """Classes for which it would be wrong."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadFrom:
    """One part of the rules and the text it was read from."""

    part: str
    source: str
    edition: str
    at: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Classification:
    """A ruleset for classifying and labelling, as its entry states it."""

    id: str
    name: str
    jurisdiction: str
    edition: str
    source: str
    checked: str
    mixture_rules: tuple[MixtureRule, ...]
    statements: tuple[Statement, ...]
    elements: tuple[LabelElement, ...]
    counted_from: tuple[CountedFrom, ...] = ()
    acute_toxicity: AcuteToxicity | None = None
    precedence: tuple[Precedence, ...] = ()
    first_aid: tuple[FirstAid, ...] = ()
    read_from: tuple[ReadFrom, ...] = ()
    not_judged: tuple[str, ...] = ()
    """Classes whose rules were not read: for them silence says nothing."""
    non_additive: tuple[NonAdditive, ...] = ()
    extreme_ph: ExtremePh | None = None
    notices: tuple[Notice, ...] = ()
    supplements: tuple[Supplement, ...] = ()
    precautions: tuple[Precaution, ...] = ()
    precaution_choice: PrecautionChoice | None = None
    review_by: str | None = None
    at: str | None = None
    note: str | None = None
    summary: str | None = None

    def cut_off(self, hazard: HazardClass) -> float:
        """Share from which a class is taken into account in sums; nought where the ruleset names none."""
        limits = [
            row.at_least / ((hazard.m_factor or 1.0) if row.divide_by_m else 1.0)
            for row in self.counted_from
            if row.hazard == hazard.hazard and hazard.category in row.categories
        ]
        return min(limits, default=0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Component:
    """One component of a mixture: its share by mass, its classes, and the elements in it."""

    name: str
    share: float
    classes: tuple[HazardClass, ...] = ()
    elements: Mapping[str, float] = field(default_factory=dict)
    """Mass fraction of each element, for classes that count the metal."""
    acute_estimates: Mapping[str, float] = field(default_factory=dict)
    """Acute toxicity estimates of its own, by class id, where known."""
    known: bool = True
    """Whether it is known what classes the component has."""
    ph: Range | None = None
    adds_up: bool = True
    """False for an acid, base or the like that corrodes at shares too small to add up with others."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClassFound:
    """A class of the mixture, with the rule and the figures that gave it."""

    hazard: str
    category: str
    statement: str
    rule: str
    figures: str
    remembered: bool = False
    """Whether the classes that gave it stand on memory alone."""
    places: tuple[str, ...] = ()
    """Where the classes that gave it hold."""
