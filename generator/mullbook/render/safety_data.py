"""What is derived about harm, and a label draft, as plain data ready to be written as JSON."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from mullbook.derive.results import (
    Advised,
    Because,
    Drain,
    DustLimit,
    FoundClass,
    LabelDraft,
    Named,
    Safety,
    Verdict,
)
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Working
from mullbook.model.values.labelling import Label, NoticeFound
from mullbook.render.safety_text import DRAFT

Record = dict[str, Any]


def safety_data(
    catalogue: Catalogue, entry: str, safety: Safety, room: Iterable[tuple[str, Working]] = ()
) -> Record:
    """Everything derived about harm of one entry."""
    beside = safety.beside
    return {
        "id": entry,
        "place": catalogue.place,
        "edition": catalogue.label_rules.edition,
        "draft": DRAFT,
        "hazard_status": safety.status,
        "lists_searched": list(safety.searched),
        "control_level": {
            "dry_powder": {amount: _verdict(found) for amount, found in safety.dry.items()},
            "wet": _verdict(safety.wet),
        },
        "actions": {
            "heating": _because(safety.heating),
            "sanding": _because(safety.sanding),
            "spraying": _because(safety.spraying),
        },
        "not_for": [_because(each) for each in safety.not_for],
        "milder": list(safety.milder),
        "classes": [_class(each) for each in (*safety.classes, *safety.elsewhere)],
        "label": label_data(safety.label),
        "dust_limits": [_limit(each) for each in safety.dust_limits],
        "dust_limit_status": safety.limit_status,
        "room": [{"what": what, **_working(working)} for what, working in room],
        "combustible_dust": _advised(beside.combustible),
        "set_free": [{"when": each.when, **(_advised(each) or {})} for each in beside.set_free],
        "frequency": [_advised(each) for each in beside.frequency],
        "take_home": list(beside.take_home),
        "surveillance": [_advised(each) for each in beside.surveillance],
        "waste": _because(safety.waste),
        "drain": drain_data(beside.drain),
        "first_aid": list(safety.first_aid),
    }


def draft_data(draft: LabelDraft) -> Record:
    """The draft of a label."""
    return {
        "recipe": draft.recipe,
        "name": draft.name,
        "system": draft.system,
        "place": draft.place,
        "edition": draft.edition,
        "draft": DRAFT,
        "not_derivable": list(draft.missing),
        "batch": draft.batch,
        "made": draft.made,
        "check_by": draft.check_by,
        "volume_ml": draft.volume,
        "pigments": [_named(each) for each in draft.pigments],
        "binder": _named(draft.binder) if draft.binder else None,
        "preservatives": [_named(each) for each in draft.preservatives],
        "allergens": [_named(each) for each in draft.allergens],
        "label": label_data(draft.label),
        "classes": [_class(each) for each in draft.classes],
        "elsewhere": [_class(each) for each in draft.elsewhere],
        "level": _verdict(draft.level),
        "not_for": [_because(each) for each in draft.not_for],
        "lines": list(draft.lines),
        "for_sale": [_advised(each) for each in draft.sale],
        "never_on_a_label": list(draft.never),
        "waste": _because(draft.waste),
        "drain": drain_data(draft.drain),
        "not_known": list(draft.not_known),
    }


def label_data(label: Label | None) -> Record | None:
    """Draft label elements."""
    if label is None:
        return None
    return {
        "signal_word": label.signal_word,
        "pictograms": list(label.pictograms),
        "statements": list(label.statements),
        "supplements": [_notice(each) for each in label.supplements],
        "precautions": list(label.precautions),
        "unknown_acute_toxicity": label.unknown,
        "not_judged": list(label.not_judged),
    }


def drain_data(drain: Drain | None) -> Record | None:
    """What waste may hold."""
    if drain is None:
        return None
    return {
        "mg_per_kg_wet_paint": dict(drain.contents),
        "screens": [
            {
                "element": each.element,
                "waste": each.waste,
                "content_mg_per_kg": each.content,
                "level_mg_per_l": each.level,
                "number": each.number,
                "may_exceed": each.may_exceed,
                **_working(each.working),
            }
            for each in drain.screens
        ],
        "words": [_advised(each) for each in drain.words],
        "clear_water": drain.clear_water,
        "assumptions": list(drain.assumptions),
        "not_known": drain.not_known or None,
    }


def _verdict(found: Verdict | None) -> Record | None:
    return None if found is None else {"level": found.level, "reasons": list(found.reasons)}


def _because(found: Because | None) -> Record | None:
    return None if found is None else {"id": found.id, "because": found.because}


def _class(found: FoundClass) -> Record:
    return {
        "class": found.hazard,
        "category": found.category,
        "statement": found.statement,
        "text": found.text,
        "place": found.place,
        "why": found.why,
        "remembered": found.remembered,
    }


def _notice(found: NoticeFound) -> Record:
    return {"code": found.code, "text": found.text, "why": found.why, "remembered": found.remembered}


def _named(found: Named) -> Record:
    return {"name": found.name, "also": found.also}


def _advised(found: Advised | None) -> Record | None:
    if found is None:
        return None
    return {
        "words": found.words,
        "because": found.because,
        "place": found.place,
        "source": found.source,
        "basis": found.basis,
    }


def _limit(limit: DustLimit) -> Record:
    return {
        "value": limit.value,
        "unit": "mg/m3",
        "fraction": limit.fraction,
        "jurisdiction": limit.jurisdiction,
        "list": limit.list,
        "driver": limit.driver,
        "remembered": limit.remembered,
        "working": limit.working.steps,
    }


def _working(working: Working) -> Record:
    result = working.result
    return {
        "low": result.low if result else None,
        "high": result.high if result else None,
        "unit": working.unit,
        "words": working.reading,
        "working": working.steps,
        "not_derivable": working.not_derivable,
    }
