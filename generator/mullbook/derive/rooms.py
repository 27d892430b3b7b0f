"""A powder in each room of a studio: its level there, what fills the room, when its air has been changed."""

from __future__ import annotations

from mullbook.derive.audit_results import InRoom
from mullbook.derive.composition import element_share
from mullbook.derive.results import DerivedPigment, Verdict
from mullbook.derive.room import room_workings
from mullbook.derive.tighten import ELEMENT_SHARE
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.studio import LevelRule, Room, Studio

BENCH = "bench"


def rule_holds(rule: LevelRule, pigment: Pigment, found: DerivedPigment) -> bool:
    """Whether a rule of the studio names this powder, or every powder."""
    safety = found.safety
    return (
        rule.for_every_powder
        or pigment.id in rule.pigments
        or pigment.family in rule.families
        or any(each.hazard in rule.classes for each in (*safety.classes, *safety.elsewhere))
        or any(element_share(found.parts, each) >= ELEMENT_SHARE for each in rule.elements)
    )


def room_floor(
    catalogue: Catalogue, studio: Studio, room: str | None, pigment: Pigment, found: DerivedPigment
) -> LevelRule | None:
    """The strictest rule for one room that holds for this powder, or None."""
    rules = [
        rule
        for rule in studio.policy.levels
        if room is not None and room in rule.rooms and rule_holds(rule, pigment, found)
    ]
    return max(rules, key=lambda rule: catalogue.policy.rank(rule.at_least), default=None)


def in_rooms(
    catalogue: Catalogue, studio: Studio, pigment: Pigment, found: DerivedPigment
) -> tuple[InRoom, ...]:
    """The powder in each room, a bench amount of it.

    Parameters: `catalogue` as the studio keeps it; `studio`, whose rooms are gone through in their order.
    """
    return tuple(_in_room(catalogue, studio, each, pigment, found) for each in studio.rooms)


def _in_room(
    catalogue: Catalogue, studio: Studio, room: Room, pigment: Pigment, found: DerivedPigment
) -> InRoom:
    level = found.safety.dry[BENCH]
    floor = room_floor(catalogue, studio, room.id, pigment, found)
    stricter = floor is not None and catalogue.policy.rank(floor.at_least) > catalogue.policy.rank(
        level.level
    )
    if floor is not None and stricter:
        level = Verdict(level=floor.at_least, reasons=(f"a rule of this studio: {floor.because}",))
    workings = {each.formula: each for _, each in room_workings(found.safety, room.volume, room.air_changes)}
    return InRoom(
        room=room,
        level=level,
        own_rule=stricter,
        budget=workings.get("dust_budget"),
        clearing=workings.get("clearing_time"),
    )
