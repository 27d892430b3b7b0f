"""A batch sheet as lines of text, as CSV and as plain data; and what to add to a batch as weighed."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from typing import Any

from mullbook.derive.batch_results import Correction, Figure, Line, Sheet
from mullbook.derive.scale_results import Scale
from mullbook.model.values import Range
from mullbook.render.scale_words import scale_text
from mullbook.render.words import number, range_text, with_unit

DRAFT = "Start numbers. The stop test decides; weigh, write down, keep a retained sample."


def sheet_text(sheet: Sheet, scale: Scale | None = None) -> str:
    """The sheet in lines: what to weigh by stage, what it comes to, what to mind.

    With `scale`, how the paste is ground follows where the batch is too large for the slab.
    """
    text = "\n".join(_sheet_lines(sheet))
    return f"{text}\n{scale_text(scale)}" if scale and scale.beyond_slab and not sheet.missing else text


def _sheet_lines(sheet: Sheet) -> Iterator[str]:
    invented = " (invented)" if sheet.recipe.invented else ""
    yield f"{sheet.recipe.name}{invented}"
    if sheet.missing:
        yield from (f"  {each}" for each in sheet.missing)
        if sheet.nearest is not None:
            yield f"  The nearest that can be done: {number(sheet.nearest)}."
        return
    for stage in dict.fromkeys(each.stage for each in sheet.lines):
        yield f"  {stage.capitalize()}"
        yield from (_weighed(each) for each in sheet.lines if each.stage == stage)
    yield "  Comes to"
    yield from (f"    {each.name}: {figure_text(each)}" for each in sheet.figures)
    if sheet.tubes is not None:
        tubes = f"{sheet.tubes} full {'tube' if sheet.tubes == 1 else 'tubes'}"
        yield f"    {tubes} and {number(sheet.left_over or 0, 2)} ml over"
    if sheet.cost is not None:
        yield f"    cost of what is priced: {sheet.cost:.2f} {sheet.currency}"
    yield from (f"  Mind: {each.words} ({each.because})" for each in sheet.warnings)
    yield f"  {DRAFT}"


def _weighed(line: Line) -> str:
    drops = f", about {line.drops} drops" if line.drops else ""
    ends = range_text(line.range, "g", 2)
    spread = f", {ends} as figures range" if "–" in ends else ""
    amount = f"{number(line.grams)} g ({number(line.millilitres, 2)} ml{drops}{spread})"
    return f"    {line.name}: {amount}\n      {line.steps}"


def figure_text(figure: Figure) -> str:
    """One figure with its range and words, or why there is none."""
    if figure.value is None:
        return figure.not_derivable or "not derivable"
    shown = range_text(Range.of(figure.value), figure.unit)
    spread = range_text(figure.range, figure.unit, 2) if figure.range else ""
    text = f"{shown} ({spread})" if "–" in spread else shown
    return f"{text}, {figure.words}" if figure.words else text


def sheet_data(sheet: Sheet) -> dict[str, Any]:
    """The sheet as plain data, ready to be written as JSON."""
    return {
        "recipe": sheet.recipe.id,
        "name": sheet.recipe.name,
        "invented": sheet.recipe.invented,
        "not_derivable": list(sheet.missing),
        "field": sheet.field_name,
        "nearest": sheet.nearest,
        "pigment_mass": sheet.pigment_mass,
        "lines": [
            {
                "id": each.id,
                "name": each.name,
                "stage": each.stage,
                "g": each.grams,
                "low": each.range.low,
                "high": each.range.high,
                "ml": each.millilitres,
                "drops": each.drops,
                "working": each.steps,
            }
            for each in sheet.lines
        ],
        "figures": {each.id: _figure_data(each) for each in sheet.figures},
        "full_tubes": sheet.tubes,
        "left_over_ml": sheet.left_over,
        "cost": sheet.cost,
        "currency": sheet.currency,
        "warnings": [
            {"id": each.id, "words": each.words, "because": each.because} for each in sheet.warnings
        ],
    }


def _figure_data(figure: Figure) -> dict[str, Any]:
    if figure.value is None:
        return {"name": figure.name, "not_derivable": figure.not_derivable}
    spread = figure.range or Range.of(figure.value)
    return {
        "name": figure.name,
        "value": figure.value,
        "low": spread.low,
        "high": spread.high,
        "unit": figure.unit,
        "words": figure.words,
    }


def sheet_csv(sheet: Sheet, semicolon: bool = False) -> str:
    """What to weigh as CSV, one row a line; with semicolons and decimal commas where asked."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";" if semicolon else ",", lineterminator="\r\n")
    writer.writerow(["stage", "item", "id", "mass_g", "low_g", "high_g", "volume_ml", "drops"])
    for each in sheet.lines:
        figures = (each.grams, each.range.low, each.range.high, each.millilitres)
        texts = [f"{value:.4g}".replace(".", "," if semicolon else ".") for value in figures]
        writer.writerow([each.stage, each.name, each.id, *texts, each.drops or ""])
    return out.getvalue()


def corrections_text(found: Sequence[Correction]) -> str:
    """What to add, symptom by symptom."""
    return "\n".join(line for each in found for line in _correction_lines(each))


def _correction_lines(found: Correction) -> Iterator[str]:
    yield f"{found.symptom.replace('-', ' ').capitalize()}: {found.words}"
    for item, grams in found.add.items():
        yield f"  add {with_unit(number(grams), 'g')} {item.replace('-', ' ')}"
    if found.because:
        yield f"  {found.because}"
    if found.pvc is not None:
        critical = f", {number(found.reduced, 2)} of the critical PVC" if found.reduced else ""
        yield f"  then PVC {range_text(Range.of(found.pvc), 'fraction')}{critical}"


def corrections_data(found: Sequence[Correction]) -> list[dict[str, Any]]:
    """What to add as plain data."""
    return [
        {
            "symptom": each.symptom,
            "words": each.words,
            "add_g": dict(each.add),
            "because": each.because,
            "pvc": each.pvc,
            "lambda": each.reduced,
            "discard": each.discard,
        }
        for each in found
    ]
