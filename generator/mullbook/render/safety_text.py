"""What is derived about harm, for a terminal and as plain data."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.derive.results import Advised, Because, Drain, FoundClass, Safety, Verdict
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance
from mullbook.model.values import Limit, Working
from mullbook.render.words import (
    BASIS_WORDS,
    PICTOGRAM_NAMES,
    hazard_name,
    in_sentence,
    list_name,
    number,
    place_name,
    quantity_text,
    range_text,
    sentence,
    with_unit,
)

Room = Iterable[tuple[str, Working]]
NOT_KNOWN = "Not known: treat as hazardous."
NONE_FOUND = "No class was found in the lists searched. That is not a promise: it tells only what they say."
DRAFT = (
    "Draft, not a regulatory classification. Local law, the supplier's current data sheet, an occupational"
    " hygienist, a physician and a licensed waste carrier come first."
)
WASTE_NAMES = {
    "residue": "dried paint",
    "paint": "wet paint",
    "rinse": "rinse water",
    "wipes": "wipes",
}
SET_FREE = {"heat": "Heat sets free", "acid": "Acid sets free", "alkali": "Alkali sets free"}


def safety_text(
    catalogue: Catalogue, thing: Pigment | Binder | Additive, safety: Safety, room: Room = ()
) -> str:
    """All that is derived about harm, in lines: verdicts first, then what they rest on."""
    return "\n".join(_lines(catalogue, thing, safety, room))


def _lines(
    catalogue: Catalogue, thing: Pigment | Binder | Additive, safety: Safety, room: Room
) -> Iterator[str]:
    yield f"{thing.name} ({thing.id}), {place_name(catalogue, catalogue.place)}"
    for amount in catalogue.policy.amounts if safety.dry else ():
        yield _verdict_line(catalogue, f"Dry powder, {amount.words}", safety.dry[amount.id])
    if safety.wet is not None:
        yield _verdict_line(catalogue, "Wet paint" if safety.dry else "As supplied", safety.wet)
    for name, found in (
        ("Heating", safety.heating),
        ("Sanding", safety.sanding),
        ("Spraying", safety.spraying),
    ):
        if found is not None:
            yield f"  {name}: {catalogue.policy.actions[found.id].name.upper()}. {sentence(found.because)}"
    for each in safety.not_for:
        yield f"  Not for {_person(catalogue, each.id)}: {each.because}"
    yield from _class_lines(catalogue, safety)
    yield from _limit_lines(catalogue, safety)
    yield from _room_lines(room)
    yield from _beside_lines(catalogue, thing, safety)
    yield from _waste_lines(catalogue, safety.waste, safety.beside.drain)
    for line in safety.first_aid:
        yield f"  {line}"
    rules = catalogue.label_rules
    yield f"  {rules.edition}. Rules checked {rules.checked}; entry checked {thing.checked or 'not known'}."
    yield from _place_lines(catalogue)
    yield f"  {DRAFT}"


def _verdict_line(catalogue: Catalogue, state: str, found: Verdict) -> str:
    level = catalogue.policy.words(found.level)
    why = " ".join(sentence(each) for each in found.reasons)
    return f"  {state}: {level.name.upper()}. {why}"


def _person(catalogue: Catalogue, person: str) -> str:
    return next((each.name for each in catalogue.policy.persons if each.id == person), person)


def _class_lines(catalogue: Catalogue, safety: Safety) -> Iterator[str]:
    if safety.status == "not-known":
        yield f"  {NOT_KNOWN}"
    elif safety.status == "searched-none-found":
        yield f"  {NONE_FOUND} Searched: {', '.join(safety.searched) or 'none in common'}."
    marks = [
        *([safety.signal_word] if safety.signal_word else []),
        *(f"{each} {PICTOGRAM_NAMES[each]}" for each in safety.pictograms),
    ]
    if marks:
        yield f"  Label elements: {', '.join(marks)}"
    yield from class_lines(catalogue, (*safety.classes, *safety.elsewhere))
    for notice in safety.supplements:
        yield f"  {notice.code or 'Name it'}: {notice.text} ({notice.why})"
    if safety.label is not None:
        for each in safety.label.not_judged:
            yield f"  Not judged by the rules that were read: {hazard_name(each)}"


def class_lines(catalogue: Catalogue, classes: Iterable[FoundClass]) -> Iterator[str]:
    """One line a class: statement, class, place, and what gave it."""
    for each in classes:
        memory = ", from memory, not confirmed" if each.remembered else ""
        yield (
            f"  {each.statement} {each.text} ({hazard_name(each.hazard)} {each.category},"
            f" {place_name(catalogue, each.place)}{memory}): {each.why}"
        )


def _limit_lines(catalogue: Catalogue, safety: Safety) -> Iterator[str]:
    if not safety.dry:
        return
    if not safety.dust_limits:
        found = "none in the lists searched" if safety.limit_status == "searched-none-found" else "not known"
        yield f"  Limit on this dust: {found}."
    for limit in safety.dust_limits:
        mark = " *" if limit == safety.shown_limit else ""
        memory = ", from memory, not confirmed" if limit.remembered else ""
        driver = in_sentence(catalogue.substance[limit.driver].name)
        yield (
            f"  Limit on this dust: {with_unit(number(limit.value, 2), 'mg/m3')} {limit.fraction},"
            f" {list_name(catalogue, limit.jurisdiction, limit.list)}, set by {driver}{memory}{mark}:"
            f" {limit.working.steps}"
        )


def _room_lines(room: Room) -> Iterator[str]:
    for label, working in room:
        if working.result is None:
            yield f"  {sentence(label)} {working.not_derivable}"
        else:
            yield (
                f"  {range_text(working.result, working.unit, 2)} {label}: {working.reading}"
                f" ({working.steps})"
            )


def _beside_lines(catalogue: Catalogue, thing: Pigment | Binder | Additive, safety: Safety) -> Iterator[str]:
    beside = safety.beside
    if beside.combustible is not None:
        yield f"  Fire: {beside.combustible.words}{_because(beside.combustible)}"
    for each in beside.set_free:
        yield f"  {SET_FREE[each.when]} {each.words}{_because(each)}"
    for frequency in beside.frequency:
        yield f"  {sentence(frequency.words)}"
    for line in beside.take_home:
        yield f"  {line}"
    for watched in beside.surveillance:
        if watched.place in catalogue.law_places:
            yield f"  {place_name(catalogue, watched.place or '')}: {watched.words}{_because(watched)}"
    yield from _respirator_lines(catalogue, safety)
    for part in thing.constituents:
        substance = catalogue.substance.get(part.substance)
        if substance is not None and substance.iarc is not None:
            yield f"  IARC group {substance.iarc.group}: {substance.iarc.scope}"
        if substance is not None and substance.hazards.note:
            yield f"  Said of {in_sentence(substance.name)}: {substance.hazards.note}"


def _respirator_lines(catalogue: Catalogue, safety: Safety) -> Iterator[str]:
    """Last of all controls, only for powders, and only as classes."""
    if catalogue.advice is None or not safety.dry:
        return
    breathing = catalogue.advice.breathing
    yield f"  Last: {breathing.last}"
    for table in catalogue.respirators:
        rows = ", ".join(f"{row.facepiece} {row.factor:g}" for row in table.rows[:3])
        yield f"  Assigned protection factors ({table.jurisdiction}, {table.at}): {rows}"
    for line in (*breathing.needs, *breathing.not_against, breathing.not_for):
        yield f"    {line}"


def _because(advised: Advised) -> str:
    memory = ", from memory, not confirmed" if advised.remembered else ""
    return f" ({advised.because}{memory})" if advised.because else (f" ({memory[2:]})" if memory else "")


def _waste_lines(catalogue: Catalogue, waste: Because | None, drain: Drain | None) -> Iterator[str]:
    if waste is not None:
        words = catalogue.policy.waste[waste.id]
        yield f"  Waste: {words.name.upper()}. {words.means} {sentence(waste.because)}"
    yield from drain_lines(catalogue, drain)


def drain_lines(catalogue: Catalogue, drain: Drain | None) -> Iterator[str]:
    """What waste may hold of each element, what each place asks for, and that clear is not clean."""
    if drain is None:
        return
    if drain.contents:
        held = ", ".join(f"{each} {number(content, 2)} mg/kg" for each, content in drain.contents.items())
        yield f"  Wet paint may hold at most: {held}"
    for each in drain.screens:
        extract = each.working.result
        amount = number(extract.high, 2) if extract else "?"
        yield (
            f"    {each.name} in {WASTE_NAMES[each.waste]}: extract at most {amount} mg/l beside"
            f" {number(each.level)} mg/l ({each.number}): {each.working.reading.partition(': ')[2]}"
        )
    for words in drain.words:
        if words.place in catalogue.law_places:
            yield f"  {place_name(catalogue, words.place or '')}: {words.words}"
    yield f"  {drain.clear_water}"
    if drain.not_known:
        yield f"  Not known: {drain.not_known}"


def _place_lines(catalogue: Catalogue) -> Iterator[str]:
    """What of the place was not read."""
    if catalogue.label_rules.jurisdiction in catalogue.law_places:
        return
    yield (
        f"  No classification rules of {place_name(catalogue, catalogue.place)} were read: those of the"
        f" {place_name(catalogue, catalogue.label_rules.jurisdiction)} are shown."
    )
    if catalogue.place == "UK":
        yield "  Great Britain keeps a list of its own: check the GB list, for titanium dioxide too."


def substance_safety_text(catalogue: Catalogue, substance: Substance) -> str:
    """What lists say of a substance, in lines."""
    return "\n".join(_substance_lines(catalogue, substance))


def _substance_lines(catalogue: Catalogue, substance: Substance) -> Iterator[str]:
    yield f"{substance.name} ({substance.id}), as published"
    classes = catalogue.classes_of(substance)
    if not classes:
        known = substance.hazards.status == "searched-none-found"
        searched = f" Searched: {', '.join(substance.hazards.searched)}." if known else ""
        yield f"  {NONE_FOUND if known else NOT_KNOWN}{searched}"
    for each in classes:
        memory = ", from memory, not confirmed" if each.remembered else ""
        yield (
            f"  {each.statement} {hazard_name(each.hazard)} {each.category}"
            f" ({place_name(catalogue, each.place)}, {each.standing.replace('-', ' ')}{memory})"
        )
    if substance.iarc is not None:
        yield f"  IARC group {substance.iarc.group}: {substance.iarc.scope}"
    yield from (_published_limit(catalogue, limit) for limit in catalogue.limits_of(substance))
    if substance.heating is not None:
        action = catalogue.policy.actions[substance.heating.action].name.upper()
        yield f"  Heating: {action}. {sentence(substance.heating.because)}"
    if substance.hazards.note:
        yield f"  {substance.hazards.note}"
    yield f"  Checked {substance.hazards.checked or 'not known'}. {DRAFT}"


def _published_limit(catalogue: Catalogue, limit: Limit) -> str:
    counted = f" as {limit.expressed_as}" if limit.expressed_as else ""
    return (
        f"  {list_name(catalogue, limit.jurisdiction, limit.list)} {limit.type.upper()}, {limit.fraction}:"
        f" {quantity_text(limit.value)}{counted} ({BASIS_WORDS[limit.value.basis]})"
    )
