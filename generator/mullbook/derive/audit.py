"""A register held against the book: levels, red list, what is due, what of which element is in the house."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from datetime import date, timedelta
from typing import Any

from mullbook.derive.audit_results import (
    DUE_SOON,
    MISSING,
    NEVER,
    OLD,
    OVERDUE,
    Audit,
    Audited,
    ElementTotal,
    LevelTotal,
    Place,
)
from mullbook.derive.composition import element_share, group_share
from mullbook.derive.results import Derived, Part
from mullbook.derive.rooms import room_floor
from mullbook.derive.verdict import ELEMENT_NAMES
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.register import Change, Jar, Listed
from mullbook.model.studio import Studio, Tightening
from mullbook.model.values import Range

SHUT = "leave-it-shut"
UNKNOWN_FAMILY = "unknown"
RED_ELEMENTS = (("Pb", "lead"), ("As", "arsenic"), ("Hg", "mercury"), ("Cd", "cadmium powder"))
CHROMATES = "chromium-vi-compounds"
RED_SHARE = 0.001
"""Share from which an element puts a jar on the red list; that of the policy's own rules."""
SOON = 31
"""Days before a review from which it counts as due soon."""
MONTH = 365.25 / 12
YEAR = 365.25
NOWHERE, NO_CUPBOARD = "no room given", "no cupboard given"


def audit(
    catalogue: Catalogue,
    derived: Derived,
    studio: Studio,
    jars: Iterable[Listed],
    today: date,
    *,
    since: str | None = None,
    changes: Iterable[Change] = (),
) -> Audit:
    """Look at every jar of a register on one day. No jar is left out, however broken its row.

    Parameters: `catalogue` as the studio keeps it and what was `derived` from it; `jars`, rows led to
    their entries; `today`; `since`, the day from which `changes` were asked for.
    """
    held = tuple(_audited(catalogue, derived, studio, each, today) for each in jars)
    return Audit(
        today=today.isoformat(),
        jars=held,
        places=tuple(_places(studio, held)),
        elements=tuple(_element_totals(held)),
        levels=tuple(_level_totals(catalogue, held)),
        not_weighed=tuple(each.listed.key for each in held if each.jar.grams is None),
        not_reckoned=_not_reckoned(derived, held),
        since=since,
        changes=tuple(each for each in changes if since is None or each.date >= since),
    )


def _audited(catalogue: Catalogue, derived: Derived, studio: Studio, listed: Listed, today: date) -> Audited:
    thing = _thing(catalogue, listed)
    parts = _parts(derived, thing)
    level, because = _level(catalogue, derived, studio, listed, thing)
    known = thing is not None and getattr(thing, "family", "") != UNKNOWN_FAMILY
    due = review_day(listed.jar, studio.policy)
    return Audited(
        listed=listed,
        name=thing.name if thing is not None else listed.jar.pigment or "not said",
        level=level,
        because=because,
        is_known=known,
        cas=tuple(each.number for each in thing.cas) if isinstance(thing, Pigment) else (),
        red=tuple(_red(parts, thing, level, known=known)),
        review_due=due.isoformat() if due else None,
        review=_review(due, today),
        sheet=_sheet(listed.jar, studio.policy, today),
        elements=grams_of_elements(parts, listed.jar.grams),
    )


def _thing(catalogue: Catalogue, listed: Listed) -> Any:
    kinds: dict[str, Mapping[str, Any]] = {
        "pigment": catalogue.pigment,
        "binder": catalogue.binder,
        "additive": catalogue.additive,
    }
    return kinds.get(listed.kind or "", {}).get(listed.entry or "")


def _parts(derived: Derived, thing: Any) -> tuple[Part, ...]:
    return derived.pigments[thing.id].parts if isinstance(thing, Pigment) else ()


def _level(
    catalogue: Catalogue, derived: Derived, studio: Studio, listed: Listed, thing: Any
) -> tuple[str, str]:
    """Level at the amount in the jar; where that is not known, the one for any amount."""
    policy, grams = catalogue.policy, listed.jar.grams
    if isinstance(thing, Pigment):
        found = derived.pigments[thing.id]
        amount = policy.amount(grams) if grams is not None else policy.amounts[-1]
        verdict = found.safety.dry[amount.id]
        level, why = verdict.level, "; ".join(verdict.reasons)
        floor = room_floor(catalogue, studio, listed.room, thing, found)
        if floor is not None and policy.rank(floor.at_least) > policy.rank(level):
            return floor.at_least, f"a rule of this studio for the room: {floor.because}"
        return level, why
    if isinstance(thing, Binder | Additive):
        wet = derived.products[thing.id].wet
        return (wet.level, "; ".join(wet.reasons)) if wet else (policy.wet_paint.not_known, "not known")
    return SHUT, "nobody knows what is in it"


def _red(parts: tuple[Part, ...], thing: Any, level: str, *, known: bool) -> Iterator[str]:
    if level == SHUT:
        yield "Leave it shut"
    for symbol, name in RED_ELEMENTS:
        if element_share(parts, symbol) >= RED_SHARE:
            yield name
    if group_share(parts, CHROMATES) >= RED_SHARE:
        yield "chromate"
    if not known:
        is_stone = getattr(thing, "id", "") == "unknown-stone"
        yield "unknown rock" if is_stone else "unknown powder"


def review_day(jar: Jar, policy: Tightening) -> date | None:
    """The day by which a jar is looked at again: the one given, else some months after it was opened."""
    if jar.review_due:
        return date.fromisoformat(jar.review_due)
    if jar.opened:
        return date.fromisoformat(jar.opened) + timedelta(days=round(policy.review_months * MONTH))
    return None


def _review(due: date | None, today: date) -> str:
    if due is None:
        return NEVER
    if due < today:
        return OVERDUE
    return DUE_SOON if (due - today).days <= SOON else ""


def _sheet(jar: Jar, policy: Tightening, today: date) -> str:
    if not jar.data_sheet_date:
        return MISSING
    age = (today - date.fromisoformat(jar.data_sheet_date)).days
    return OLD if age > policy.data_sheet_years * YEAR else ""


def grams_of_elements(parts: Iterable[Part], grams: float | None) -> dict[str, Range]:
    """Grams of each watched element in a powder of that mass.

    Formula: sum over the constituents of (mass x share x mass fraction in the formula), at the low and at the
    high end of each share; never more than the mass itself.
    Parameters: `parts` of the powder; `grams`, None where nobody weighed it. Returns ranges by symbol.
    """
    if grams is None:
        return {}
    held = list(parts)
    found: dict[str, Range] = {}
    for symbol in ELEMENT_NAMES:
        high = element_share(held, symbol)
        if high > 0:
            low = min(high, sum(each.share.low * each.elements.get(symbol, 0.0) for each in held))
            found[symbol] = Range(low * grams, high * grams)
    return found


def _element_totals(jars: tuple[Audited, ...]) -> Iterator[ElementTotal]:
    for symbol, name in ELEMENT_NAMES.items():
        held = [each.elements[symbol] for each in jars if symbol in each.elements]
        if held:
            total = Range(sum(each.low for each in held), sum(each.high for each in held))
            yield ElementTotal(symbol=symbol, name=name, grams=total, jars=len(held))


def _level_totals(catalogue: Catalogue, jars: tuple[Audited, ...]) -> Iterator[LevelTotal]:
    for level in reversed(catalogue.policy.levels):
        held = [each.jar.grams for each in jars if each.level == level.id]
        if held:
            weighed = [each for each in held if each is not None]
            yield LevelTotal(
                level=level.id, jars=len(held), grams=sum(weighed), unweighed=len(held) - len(weighed)
            )


def _not_reckoned(derived: Derived, jars: tuple[Audited, ...]) -> Range:
    """Grams of parts without a formula, and of jars that are no pigment of the book."""
    low = high = 0.0
    for each in jars:
        grams = each.jar.grams
        if grams is None or each.listed.kind in ("binder", "additive"):
            continue
        found = derived.pigments.get(each.listed.entry or "")
        silent = [part.share for part in found.parts if not part.elements] if found else [Range(1.0, 1.0)]
        most = min(1.0, sum(share.high for share in silent))
        low += grams * min(most, sum(share.low for share in silent))
        high += grams * most
    return Range(low, high)


def _places(studio: Studio, jars: tuple[Audited, ...]) -> Iterator[Place]:
    """Rooms in the order of the studio, cupboards by name; what stands nowhere comes first."""
    names = {each.id: each.name for each in studio.rooms}
    order = [None, *names]
    groups: dict[tuple[int, str, str], list[Audited]] = {}
    for each in jars:
        room = each.listed.room
        words = names.get(room or "", each.jar.room or NOWHERE)
        place = order.index(room) if room in order else 0
        groups.setdefault((place, words, each.jar.cupboard or NO_CUPBOARD), []).append(each)
    for key in sorted(groups):
        yield Place(room=key[1], cupboard=key[2], jars=tuple(groups[key]))
