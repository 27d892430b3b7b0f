"""Two verdicts on one thing held against each other: everything in which the second is milder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from mullbook.derive.results import Because, FoundClass, Safety, Verdict
from mullbook.derive.verdict import ACTION_ORDER
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Substance
from mullbook.model.values import HazardClass, Limit
from mullbook.science.mixture import severity

STATUS_ORDER = ("classified", "not-known", "searched-none-found")
"""Strictest first: what nobody searched counts as hazardous."""
UNLIMITED = float("inf")


@dataclass(frozen=True, slots=True)
class Milder:
    """One verdict that came out milder."""

    what: str
    before: str
    after: str


def milder_verdicts(catalogue: Catalogue, before: Safety, after: Safety) -> Iterator[Milder]:
    """Every verdict on a powder or product that is milder after than before.

    Compared are levels by amount, wet paint, heating, sanding, spraying, waste, persons, status, classes,
    statements, notices, limits, first aid and what heat or acid may set free.
    Parameters: `catalogue`, for the words of its policy; `before` and `after`, derived in one way.
    """
    yield from _levels(catalogue, before, after)
    for what, one, other in (
        ("heating", before.heating, after.heating),
        ("sanding", before.sanding, after.sanding),
        ("spraying", before.spraying, after.spraying),
    ):
        yield from _action(catalogue, what, one, other)
    yield from _waste(catalogue, before.waste, after.waste)
    yield from _lost(
        "who it is not for",
        (_person(catalogue, each.id) for each in before.not_for),
        (_person(catalogue, each.id) for each in after.not_for),
    )
    yield from _status(before, after)
    yield from _classes((*before.classes, *before.elsewhere), (*after.classes, *after.elsewhere))
    yield from _lost("hazard statements", before.statements, after.statements)
    yield from _lost("notices", _notices(before), _notices(after))
    yield from _dust_limits(before, after)
    yield from _lost("first aid", before.first_aid, after.first_aid)
    yield from _lost(
        "what may be set free",
        (each.words for each in before.beside.set_free),
        (each.words for each in after.beside.set_free),
    )


def _levels(catalogue: Catalogue, before: Safety, after: Safety) -> Iterator[Milder]:
    for amount in catalogue.policy.amounts:
        if amount.id in before.dry:
            words = f"level of the dry powder, {amount.words}"
            yield from _level(catalogue, words, before.dry[amount.id], after.dry.get(amount.id))
    yield from _level(catalogue, "level of the wet paint", before.wet, after.wet)


def _level(
    catalogue: Catalogue, what: str, before: Verdict | None, after: Verdict | None
) -> Iterator[Milder]:
    policy = catalogue.policy
    if before is None:
        return
    if after is None:
        yield Milder(what, policy.words(before.level).name, "none")
    elif policy.rank(after.level) < policy.rank(before.level):
        yield Milder(what, policy.words(before.level).name, policy.words(after.level).name)


def _action(
    catalogue: Catalogue, what: str, before: Because | None, after: Because | None
) -> Iterator[Milder]:
    if before is not None and after is not None:
        order = ACTION_ORDER.index
        if order(after.id) > order(before.id):
            names = catalogue.policy.actions
            yield Milder(what, names[before.id].name, names[after.id].name)


def _waste(catalogue: Catalogue, before: Because | None, after: Because | None) -> Iterator[Milder]:
    routes = list(catalogue.policy.waste)
    if before is not None and after is not None and routes.index(after.id) > routes.index(before.id):
        names = catalogue.policy.waste
        yield Milder("waste", names[before.id].name, names[after.id].name)


def _person(catalogue: Catalogue, person: str) -> str:
    return next((each.name for each in catalogue.policy.persons if each.id == person), person)


def _status(before: Safety, after: Safety) -> Iterator[Milder]:
    order = STATUS_ORDER.index
    if order(after.status) > order(before.status):
        yield Milder("hazard status", before.status.replace("-", " "), after.status.replace("-", " "))


def _classes(
    before: Iterable[FoundClass | HazardClass], after: Iterable[FoundClass | HazardClass]
) -> Iterator[Milder]:
    """Classes by place; one of the same kind that is as severe or more takes the place of another."""
    held = list(after)
    for each in before:
        same = [other for other in held if (other.hazard, other.place) == (each.hazard, each.place)]
        if any(severity(other.category) <= severity(each.category) for other in same):
            continue
        named = f"{each.statement}, {each.hazard.replace('-', ' ')} {each.category} ({each.place})"
        left = ", ".join(f"{other.statement} {other.category}" for other in same) or "none"
        yield Milder("hazard class", named, left)


def _notices(safety: Safety) -> list[str]:
    return [each.code or each.text for each in safety.supplements]


def _dust_limits(before: Safety, after: Safety) -> Iterator[Milder]:
    held = {(each.jurisdiction, each.list, each.fraction): each.value for each in after.dust_limits}
    for limit in before.dust_limits:
        value = held.get((limit.jurisdiction, limit.list, limit.fraction), UNLIMITED)
        if value > limit.value * (1 + 1e-9):
            what = f"limit on this dust, {_list(limit.jurisdiction, limit.list)}, {limit.fraction}"
            yield Milder(what, f"{limit.value:.3g} mg/m³", _figure(value))


def _list(place: str, name: str) -> str:
    return name if name.startswith(place) else f"{place} {name}"


def _figure(value: float) -> str:
    return "none" if value == UNLIMITED else f"{value:.3g} mg/m³"


def _lost(what: str, before: Iterable[str], after: Iterable[str]) -> Iterator[Milder]:
    left = set(after)
    lost = [each for each in dict.fromkeys(before) if each not in left]
    if lost:
        yield Milder(what, ", ".join(lost), "left out")


def milder_substance(before: Catalogue, after: Catalogue, substance: str) -> Iterator[Milder]:
    """What of a substance's own classes, limits and traits is milder in one catalogue than in another.

    Counts for substances in no jar as well, and for what groups lend.
    """
    old, new = before.substance[substance], after.substance.get(substance)
    if new is None:
        yield Milder("substance", old.name, "left out")
        return
    yield from _classes(before.classes_of(old), after.classes_of(new))
    yield from _limits(before.limits_of(old), after.limits_of(new))
    for what, one, other in (
        ("traits", old.traits, new.traits),
        ("groups", old.member_of, new.member_of),
        ("statements", _statements(old), _statements(new)),
        ("IARC group", _iarc(old), _iarc(new)),
    ):
        yield from _lost(what, one, other)
    order = STATUS_ORDER.index
    if order(new.hazards.status) > order(old.hazards.status):
        yield Milder("hazard status", old.hazards.status, new.hazards.status)
    if old.heating is not None and (
        new.heating is None or ACTION_ORDER.index(new.heating.action) > ACTION_ORDER.index(old.heating.action)
    ):
        yield Milder("heating", old.heating.action, new.heating.action if new.heating else "not known")


def _statements(substance: Substance) -> list[str]:
    return [each.statement for each in substance.hazards.classes]


def _iarc(substance: Substance) -> list[str]:
    return [substance.iarc.group] if substance.iarc else []


def _limits(before: Iterable[Limit], after: Iterable[Limit]) -> Iterator[Milder]:
    held: dict[tuple[Any, ...], float] = {}
    for each in after:
        held[_name(each)] = min(held.get(_name(each), UNLIMITED), _value(each))
    for each in before:
        value = held.get(_name(each), UNLIMITED)
        if value > _value(each):
            what = f"limit, {_list(each.jurisdiction, each.list)} {each.type}, {each.fraction}"
            yield Milder(what, _figure(_value(each)), _figure(value))


def _name(limit: Limit) -> tuple[Any, ...]:
    return limit.jurisdiction, limit.list, limit.type, limit.fraction, limit.expressed_as


def _value(limit: Limit) -> float:
    low, high = limit.value.ends
    return low if low is not None else high if high is not None else UNLIMITED


CARED = {
    "warnings": "published warnings",
    "testing_a_lot": "tests of a stocked lot",
    "allergens": "allergens",
    "not_for": "who it is not for",
    "limits": "limits",
}
"""Fields of an entry that no verdict is worked out from, but that people rely on."""


def milder_fields(before: Any, after: Any) -> Iterator[Milder]:
    """What an entry itself said for care and no longer says; a review put off counts."""
    for field, what in CARED.items():
        old, new = getattr(before, field, ()), getattr(after, field, ())
        if isinstance(before, Substance) and field == "limits":
            continue
        yield from _lost(what, map(_words, old), map(_words, new))
    due, moved = getattr(before, "review_by", None), getattr(after, "review_by", None)
    if due and (moved is None or moved > due):
        yield Milder("review", f"due {due}", f"due {moved}" if moved else "never")


def _words(value: Any) -> str:
    if isinstance(value, str):
        return value
    for name in ("words", "name", "person", "scope", "list"):
        if isinstance(getattr(value, name, None), str):
            return str(getattr(value, name))
    return str(value)
