"""The draft of a label in lines, in the order in which a label is read."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.results import LabelDraft, Named
from mullbook.model.catalogue import Catalogue
from mullbook.render.safety_text import DRAFT, class_lines, drain_lines
from mullbook.render.words import (
    PICTOGRAM_NAMES,
    hazard_name,
    in_sentence,
    number,
    place_name,
    sentence,
)

SLOT = "____"
ARTWORK = "Use the official artwork of the pictograms (UNECE), not a drawing of ours."


def label_text(catalogue: Catalogue, draft: LabelDraft) -> str:
    """A label draft in lines; slots stay open for whoever made the batch."""
    return "\n".join(_lines(catalogue, draft))


def _lines(catalogue: Catalogue, draft: LabelDraft) -> Iterator[str]:
    yield "DRAFT, NOT A REGULATORY CLASSIFICATION"
    yield draft.name
    if draft.missing:
        yield from (f"  {each}" for each in draft.missing)
        return
    yield f"  {sentence(draft.system)}"
    yield from _named_lines(draft)
    yield (
        f"  Batch {draft.batch or SLOT}. Made {draft.made or SLOT}, look at it by {draft.check_by or SLOT}."
        f" {_volume(draft)}"
    )
    yield f"  Maker: name, address, telephone {SLOT}"
    yield from _element_lines(catalogue, draft)
    yield from (f"  {each}" for each in draft.lines)
    yield from _advice_lines(catalogue, draft)
    yield from _behind_lines(catalogue, draft)


def _volume(draft: LabelDraft) -> str:
    return f"{number(draft.volume, 2)} ml." if draft.volume else f"Volume {SLOT}."


def _named_lines(draft: LabelDraft) -> Iterator[str]:
    for each in draft.pigments:
        yield f"  Pigment: {_said(each)}"
    if draft.binder is not None:
        yield f"  Binder: {_said(draft.binder)}"
    for each in draft.preservatives:
        yield f"  Preserved with: {_said(each)}"
    if not draft.preservatives:
        yield f"  Preservative: none added; what the binder holds as bought is on its data sheet: {SLOT}"
    for each in draft.allergens:
        yield f"  Contains, for those who react to it: {_said(each)}"


def _said(named: Named) -> str:
    return f"{named.name} ({named.also})" if named.also else named.name


def _element_lines(catalogue: Catalogue, draft: LabelDraft) -> Iterator[str]:
    label = draft.label
    if label is None:
        return
    if label.signal_word:
        yield f"  {label.signal_word.upper()}"
    if label.pictograms:
        names = ", ".join(f"{each} {PICTOGRAM_NAMES[each]}" for each in label.pictograms)
        yield f"  Pictograms: {names}. {ARTWORK}"
    for code in label.statements:
        yield f"  {_text(catalogue, code)} ({code})"
    for notice in label.supplements:
        yield f"  {notice.text}{f' ({notice.code})' if notice.code else ''}"
    for code in label.precautions:
        yield f"  {_text(catalogue, code)} ({code})"
    if label.unknown:
        yield f"  {sentence(label.unknown)}"
    for each in draft.as_dust:
        place = place_name(catalogue, each.place)
        yield f"  Dried and sanded it is dust again: {in_sentence(each.text)} ({place})"
    for each in draft.elsewhere:
        yield f"  Listed in {place_name(catalogue, each.place)}: {in_sentence(each.text)} ({each.statement})"
    if not (label.statements or draft.elsewhere or draft.as_dust):
        yield (
            "  No class was found for this mixture by the rules that were read. That is not a promise: it"
            " tells only what the lists and rules say."
        )


def _text(catalogue: Catalogue, code: str) -> str:
    tables = (catalogue.label_rules, *catalogue.classifications)
    return next((each.text for table in tables for each in table.statements if each.code == code), code)


def _advice_lines(catalogue: Catalogue, draft: LabelDraft) -> Iterator[str]:
    persons = {each.id: each.name for each in catalogue.policy.persons}
    for name in dict.fromkeys(persons.get(each.id, each.id) for each in draft.not_for):
        yield f"  Not for {name}."
    if draft.level is not None:
        words = catalogue.policy.words(draft.level.level)
        yield f"  Wet paint: {words.name}. {' '.join(sentence(each) for each in draft.level.reasons)}"
    for name, action in (
        ("Heating", draft.heating),
        ("Sanding", draft.sanding),
        ("Spraying", draft.spraying),
    ):
        if action is not None:
            yield f"  {name}: {catalogue.policy.actions[action.id].name}. {sentence(action.because)}"
    if draft.waste is not None:
        waste = catalogue.policy.waste[draft.waste.id]
        yield f"  Waste: {waste.name}. {waste.means}"


def _behind_lines(catalogue: Catalogue, draft: LabelDraft) -> Iterator[str]:
    """What does not go on the jar but belongs to the draft."""
    place = place_name(catalogue, draft.place)
    yield f"Behind the draft ({place}; {draft.edition}; rules checked {draft.checked})"
    if catalogue.label_rules.jurisdiction not in catalogue.law_places:
        rules = place_name(catalogue, catalogue.label_rules.jurisdiction)
        yield f"  No labelling rules of {place} were read: those of the {rules} are shown."
    yield from class_lines(catalogue, draft.classes)
    if draft.elsewhere:
        yield "  Other places list in addition:"
        yield from class_lines(catalogue, draft.elsewhere)
    if draft.label is not None and draft.label.not_judged:
        names = ", ".join(hazard_name(each) for each in draft.label.not_judged)
        yield f"  Not judged, because the rules for it were not read: {names}"
    yield from (f"  Not known: {each}." for each in draft.not_known)
    yield from drain_lines(catalogue, draft.drain)
    yield f"Before a sale ({place})"
    for each in draft.sale:
        memory = " (from memory, not confirmed)" if each.remembered else ""
        yield f"  {each.words}{memory}"
    yield from (f"  Never on the label: {each}" for each in draft.never)
    yield f"  {DRAFT}"
