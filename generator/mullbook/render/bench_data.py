"""Figures that the tools in the page reckon with, as small as can be: empty keys are left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.derive.results import Derived, DerivedPigment, DustLimit, Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.facts import Dose, Reaction, Target
from mullbook.model.recipes import CURDLERS, CURDLES_FROM, GLYCOLS, System
from mullbook.model.values import BASES, Quantity
from mullbook.render.numbers import authored, worked_out
from mullbook.render.words import BASIS_WORDS, place_name

Record = dict[str, Any]

REACTS_FROM = 0.01
"""Share from which a constituent counts as reacting; common practice."""
VERDICT_LETTERS = {"suits": "s", "test-first": "t", "unsuitable": "u"}
GRADE_LETTERS = {"documented": "d", "chemically-expected": "c", "folklore": "f"}
BY_CLASS = "k"
"""Grade of a verdict that the entry does not give and its chemistry class does."""
NOTHING = "-"
ANY_DUST = "the threshold for any dust"


def bench_data(catalogue: Catalogue, derived: Derived) -> Record:
    """Everything the workbench, the washing timer and the room reckon with.

    Parameters: `catalogue` and what was `derived` from it. Returns plain data: ranges as
    `[low, high, basis]`, basis and levels as places in `bases` and `levels`, suitability as two letters a
    binder in the order of `binders`.
    """
    limits = Limits(catalogue)
    return {
        "checked": catalogue.latest_check or "",
        "edition": catalogue.classification.edition,
        "bases": [BASIS_WORDS[each] for each in BASES],
        "levels": [[each.id, each.name, each.means] for each in catalogue.policy.levels],
        "amounts": [[each.most and authored(each.most), each.words] for each in catalogue.policy.amounts],
        "places": _places(catalogue, derived),
        "pigments": [
            _pigment(catalogue, each, derived.pigments[each.id], limits) for each in catalogue.pigments
        ],
        "limit_kinds": [list(each) for each in limits.kinds],
        "drivers": list(limits.drivers),
        "binders": [_binder(catalogue, derived, each) for each in catalogue.binders],
        "additives": [_additive(catalogue, derived, each) for each in catalogue.additives],
        "systems": [_system(each) for each in catalogue.systems],
        "reactions": list(_reactions(catalogue, derived)),
    }


def known(**values: Any) -> Record:
    """The values that there are; nought stays.

    >>> known(density=3.2, oil=None, bulk=[], index=0)
    {'density': 3.2, 'index': 0}
    """
    return {key: value for key, value in values.items() if value is not None and value not in ([], {}, "")}


def ends(quantity: Quantity | None) -> list[Any] | None:
    """A quantity as `[low, high, basis]`; None where an end is open or nothing is known."""
    if quantity is None or quantity.range is None:
        return None
    found = quantity.range
    return [authored(found.low), authored(found.high), BASES.index(quantity.basis)]


def level(catalogue: Catalogue, level_id: str) -> int:
    """Place of a level in the policy, mildest first."""
    return next(place for place, each in enumerate(catalogue.policy.levels) if each.id == level_id)


def _places(catalogue: Catalogue, derived: Derived) -> dict[str, str]:
    found = {each.jurisdiction for one in derived.pigments.values() for each in one.safety.dust_limits}
    return {each: place_name(catalogue, each) for each in sorted(found)}


class Limits:
    """Limits on dusts, each as its value, the place of its kind and of what drives it, and whether it is
    remembered: a few kinds and substances stand behind hundreds."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self.kinds: dict[tuple[str, str, str], int] = {}
        """Fraction, jurisdiction and list, with their places."""
        self.drivers: dict[str, int] = {}

    def packed(self, limit: DustLimit) -> list[Any]:
        """One limit."""
        own = limit.reckoned == limit.value
        driver = self._catalogue.substance[limit.driver].name if own else ANY_DUST
        kind = (limit.fraction, limit.jurisdiction, limit.list)
        return [
            worked_out(limit.reckoned),
            self.kinds.setdefault(kind, len(self.kinds)),
            self.drivers.setdefault(driver, len(self.drivers)),
            int(limit.remembered),
        ]


def _pigment(catalogue: Catalogue, entry: Pigment, found: DerivedPigment, limits: Limits) -> Record:
    physical, safety = entry.physical, found.safety
    index = entry.colour_index
    dry = [safety.dry[each.id].level for each in catalogue.policy.amounts if each.id in safety.dry]
    return known(
        id=entry.id,
        name=entry.name,
        hue=entry.hue,
        ci=list(index.names) if index else None,
        hex=found.hex,
        density=ends(found.paint.density),
        oil=ends(physical.oil_absorption),
        grind=ends(physical.oil_to_grind),
        loose=ends(physical.bulk_density_loose),
        tapped=ends(physical.bulk_density_tapped),
        ph=ends(physical.slurry_ph),
        size=ends(physical.particle_size),
        n=ends(physical.refractive_index),
        dry=[level(catalogue, each) for each in dry],
        wet=level(catalogue, safety.wet.level) if safety.wet else None,
        suits=_suits(catalogue, entry, found),
        curdles=_curdles(found),
        metal=int(entry.family == "metal") or None,
        limits=[limits.packed(each) for each in safety.dust_limits],
    )


def _curdles(found: DerivedPigment) -> dict[str, float]:
    """Constituents that make a dispersion curdle, each with the most there may be of it."""
    return {
        each.substance: worked_out(each.share.high)
        for each in found.parts
        if each.substance in CURDLERS and each.share.high >= CURDLES_FROM
    }


def _suits(catalogue: Catalogue, entry: Pigment, found: DerivedPigment) -> str:
    held = {each.binder: each for each in entry.suitability}
    by_class = found.chemistry.binders
    return "".join(
        VERDICT_LETTERS[held[binder.id].verdict] + GRADE_LETTERS[held[binder.id].grade]
        if binder.id in held
        else VERDICT_LETTERS[by_class[binder.id].verdict] + BY_CLASS
        if binder.id in by_class
        else NOTHING * 2
        for binder in catalogue.binders
    )


def _product_level(catalogue: Catalogue, derived: Derived, product: Binder | Additive) -> int | None:
    wet = derived.products[product.id].wet
    return level(catalogue, wet.level) if wet else None


def _target(target: Target) -> Record:
    return known(
        by=target.by,
        finish=target.finish,
        range=ends(target.range),
        usual=ends(target.without_rub_out),
        why=target.why if target.by == "none" else None,
    )


def _binder(catalogue: Catalogue, derived: Derived, entry: Binder) -> Record:
    return known(
        id=entry.id,
        name=entry.name,
        kind=entry.kind,
        solids=ends(entry.solids),
        wet=ends(entry.density_wet),
        dry=ends(entry.density_dry),
        index=ends(entry.binder_index),
        n=ends(entry.refractive_index),
        ph=ends(entry.ph),
        stop=entry.stop_test,
        level=_product_level(catalogue, derived, entry),
        target=_target(entry.target),
    )


def _dose(dose: Dose | None) -> Record | None:
    if dose is None:
        return None
    low, high = dose.range.ends
    return known(low=low, high=high, of=dose.of, when=dose.when)


def _glycol(entry: Additive) -> list[float] | None:
    shares = [each.share.ends for each in entry.constituents if each.substance in GLYCOLS]
    if not shares:
        return None
    low = sum(0.0 if low is None else low for low, _ in shares)
    return [min(1.0, low), min(1.0, sum(1.0 if high is None else high for _, high in shares))]


def _additive(catalogue: Catalogue, derived: Derived, entry: Additive) -> Record:
    return known(
        id=entry.id,
        name=entry.name,
        role=entry.role,
        density=ends(entry.density),
        active=ends(entry.active),
        stays=entry.stays_in_film,
        glycol=_glycol(entry),
        doses=[_dose(each) for each in entry.doses],
        ceiling=_dose(entry.ceiling),
        works=ends(entry.works_at_ph),
        level=_product_level(catalogue, derived, entry),
    )


def _system(entry: System) -> Record:
    return known(
        id=entry.id,
        name=entry.name,
        kind=entry.kind,
        binders=list(entry.binders),
        targets=[_target(each) for each in entry.targets],
    )


def _reactions(catalogue: Catalogue, derived: Derived) -> Iterator[Record]:
    listed = catalogue.vocabulary("reactions")
    for each in listed.reactions if listed else ():
        sides = reacting(derived, each.one), reacting(derived, each.other)
        if all(sides):
            yield known(
                one=sides[0], other=sides[1], media=list(each.media), effect=each.effect, grade=_grade(each)
            )


def _grade(reaction: Reaction) -> str:
    return reaction.grade.replace("-", " ")


def reacting(derived: Derived, wanted: Iterable[str]) -> list[str]:
    """Ids of the pigments that hold one of the substances, or a member of one of the groups."""
    asked = set(wanted)
    return [each.id for each in derived.pigments.values() if any(_reacts(part, asked) for part in each.parts)]


def _reacts(part: Part, asked: set[str]) -> bool:
    return part.share.high >= REACTS_FROM and bool({part.substance, *part.groups} & asked)
