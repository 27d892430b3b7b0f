"""Questions of safety from the command line: one thing in one place and room, and the label of a batch."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from mullbook.checks.input_rules import BAD_INPUT
from mullbook.derive.batch_results import Sheet
from mullbook.derive.catalogue import derive
from mullbook.derive.composition import parts
from mullbook.derive.label_draft import label_draft
from mullbook.derive.paint import paint_of
from mullbook.derive.results import Derived, LabelDraft, Safety
from mullbook.derive.room import room_workings
from mullbook.derive.safety import powder_safety, product_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.values import Working
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.workflow.swap import Refused

PLACES = ("EU", "UK", "US", "US-CA", "AU")


@dataclass(frozen=True, slots=True)
class Asked:
    """What was asked about the surroundings: the place, the room, the air."""

    jurisdiction: str | None = None
    room: float | None = None
    air_changes: float | None = None


def asked(jurisdiction: str | None, room: str | None = None, air_changes: str | None = None) -> Asked:
    """The surroundings as they were written. Raises `Refused` with what is wrong with them."""
    place = _place(jurisdiction)
    numbers = []
    for option, text, unit in (("--room", room, "m³"), ("--air-changes", air_changes, "an hour")):
        value = _positive(text)
        if text is not None and value is None:
            message = f"{option} takes a number above 0, {unit}; {text} is none."
            raise Refused(_wrong(message, example=f"{option} 40"))
        numbers.append(value)
    return Asked(place, *numbers)


def _wrong(message: str, hint: str | None = None, example: str | None = None) -> Problem:
    return Problem(BAD_INPUT, "error", message, Place("command line"), hint=hint, example=example)


def _place(jurisdiction: str | None) -> str | None:
    if jurisdiction is None or jurisdiction.upper() in PLACES:
        return jurisdiction.upper() if jurisdiction else None
    close = nearest(jurisdiction, PLACES)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"The places are {', '.join(PLACES)}."
    message = f"No list of a place called {jurisdiction} was read."
    raise Refused(_wrong(message, hint))


def _positive(text: str | None) -> float | None:
    try:
        value = float((text or "").replace(",", "."))
    except ValueError:
        return None
    return value if 0 < value < 1e9 else None


def at_place(catalogue: Catalogue, place: str | None) -> Catalogue:
    """The catalogue as seen from a place; the place of the rules in force where None."""
    return catalogue if place is None else replace(catalogue, at_place=place)


def safety_of(catalogue: Catalogue, thing: Any) -> Safety:
    """All that is derived about harm of one pigment, binder or additive, at the catalogue's place."""
    if isinstance(thing, Pigment):
        found = parts(catalogue, thing.constituents)
        return powder_safety(catalogue, thing, found, paint_of(catalogue, thing, found).density)
    return product_safety(catalogue, thing)


def safety_answer(
    catalogue: Catalogue, derived: Derived, things: Sequence[Any], asked: Asked, *, as_json: bool
) -> str:
    """What is known of the harm of everything that goes under a name, as text or as JSON.

    Parameters: `derived`, for the milder pigments; `things`, entries; `asked`, place, room and air.
    """
    from mullbook.render.safety_data import safety_data
    from mullbook.render.safety_text import safety_text, substance_safety_text

    here = at_place(catalogue, asked.jurisdiction)
    texts: list[str] = []
    records: list[Any] = []
    jars = [each for each in things if not isinstance(each, Substance)]
    for thing in jars or things:
        if isinstance(thing, Substance):
            texts.append(substance_safety_text(here, thing))
            records.append({"id": thing.id, "text": texts[-1].splitlines()})
            continue
        safety = safety_of(here, thing)
        if isinstance(thing, Pigment):
            safety = replace(safety, milder=derived.pigments[thing.id].safety.milder)
        room = _in_the_room(here, safety, asked)
        texts.append(safety_text(here, thing, safety, room))
        records.append(safety_data(here, thing.id, safety, room))
    return json.dumps(records, ensure_ascii=False, indent=2) if as_json else "\n\n".join(texts)


def _in_the_room(here: Catalogue, safety: Safety, asked: Asked) -> tuple[tuple[str, Working], ...]:
    """The powder in the room asked about, else in the studio's smallest."""
    if not safety.dry:
        return ()
    if asked.room is None and here.room is not None:
        return room_workings(safety, here.room.volume, asked.air_changes or here.room.air_changes)
    return room_workings(safety, asked.room, asked.air_changes)


def label_of(catalogue: Catalogue, sheet: Sheet, place: str | None) -> tuple[Catalogue, LabelDraft]:
    """The label draft of a batch, with the catalogue as seen from its place."""
    here = at_place(catalogue, place)
    wanted = {each.pigment for each in sheet.recipe.pigments}
    few = replace(here, pigments=tuple(each for each in here.pigments if each.id in wanted))
    return here, label_draft(here, derive(few), sheet)


def label_answer(here: Catalogue, draft: LabelDraft, *, as_json: bool) -> str:
    """A label draft as text or as JSON."""
    from mullbook.render.label_text import label_text
    from mullbook.render.safety_data import draft_data

    return json.dumps(draft_data(draft), ensure_ascii=False, indent=2) if as_json else label_text(here, draft)
