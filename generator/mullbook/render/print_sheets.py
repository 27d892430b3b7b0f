"""Sheets on paper: poster, batch sheet, drawdown card, sample log, washing plan, blank forms, sign-off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from mullbook.derive.batch_results import Figure, Line, Sheet
from mullbook.derive.table_results import Tables
from mullbook.model.values.washing import WashSheet
from mullbook.render.batch_sheet import figure_text
from mullbook.render.print_card import CardMaker, Row
from mullbook.render.print_house import House
from mullbook.render.strings import Strings
from mullbook.render.words import number, range_text, sentence

POSTER_LINES = 11
LOG_ROWS, WASH_ROWS, SIGN_ROWS = 10, 8, 8
STAGES = ("paste", "let-down", "adjust")
MINUTES_SHOWN_AS_HOURS = 120.0


def poster_view(
    strings: Strings, house: House, version: str, second: Strings | None = None, late: str = ""
) -> Row:
    """The wall poster: what holds for everyone, in one language or two; `late`, that a review is overdue."""
    lines = [f"poster.line-{at}" for at in range(1, POSTER_LINES + 1)]
    numbers = (("poison-centre", house.poison_centre), ("emergency", house.emergency))
    others = (
        ("owner", house.owner or house.name),
        ("room", house.rooms[0][0] if len(house.rooms) == 1 else None),
        ("issued", house.issued),
        ("review", house.review_by),
        ("version", version),
    )
    return {
        "title": strings.say("poster.title"),
        "late": late,
        "second_title": second.say("poster.title") if second else None,
        "second_language": second.language if second else None,
        "lines": [(strings.say(each), second.say(each) if second else None) for each in lines],
        "numbers": [(strings.say(f"poster.{key}"), value) for key, value in numbers],
        "fields": [(strings.say(f"poster.{key}"), value) for key, value in others],
    }


def batch_view(sheet: Sheet, strings: Strings, code: str) -> Row:
    """The sheet of one batch: what to weigh, what it comes to, what to mind, and room to write."""
    recipe = sheet.recipe
    told = [strings.retell(each) for each in sheet.missing]
    stages = dict.fromkeys(each.stage for each in sheet.lines)
    return {
        "id": recipe.id,
        "name": recipe.name,
        "invented": strings.say("common.invented") if recipe.invented else "",
        "code": code,
        "missing": told,
        "stages": [
            {
                "name": _stage(stage, strings),
                "rows": [_line(each, strings) for each in sheet.lines if each.stage == stage],
            }
            for stage in stages
        ],
        "figures": [
            (sentence(strings.retell(each.name)).rstrip("."), _figure(each, strings))
            for each in sheet.figures
        ],
        "tubes": _tubes(sheet, strings),
        "warnings": [(strings.retell(each.words), strings.retell(each.because)) for each in sheet.warnings],
        "notes": [strings.retell(each) for each in recipe.notes],
    }


def _figure(figure: Figure, strings: Strings) -> str:
    """A figure of a batch, or the sentence that says why there is none."""
    if figure.value is None:
        return strings.retell(figure_text(figure))
    said = strings.figure(figure_text(replace(figure, words="")))
    return f"{said}, {strings.retell(figure.words)}" if figure.words else said


def _stage(stage: str, strings: Strings) -> str:
    key = f"batch.stage-{stage}"
    return strings.say(key) if strings.knows(key) else strings.retell(stage.capitalize())


def _line(line: Line, strings: Strings) -> tuple[str, ...]:
    ends = range_text(line.range, "g", 2)
    return (
        line.name,
        strings.figure(number(line.grams)),
        strings.figure(ends) if "–" in ends else "",
        strings.figure(number(line.millilitres, 2)),
        str(line.drops) if line.drops else "",
    )


def _tubes(sheet: Sheet, strings: Strings) -> str:
    if sheet.tubes is None:
        return ""
    rest = strings.figure(number(sheet.left_over or 0, 2))
    if sheet.tubes == 1:
        return strings.say("batch.tube", rest=rest)
    return strings.say("batch.tubes", tubes=str(sheet.tubes), rest=rest)


def washing_view(name: str, tables: Tables | None, strings: Strings) -> Row:
    """The form of a washing, with settling times where they follow from the density."""
    view: Row = {"name": name, "rows": [], "settling": "", "none": "", "plan": None, "blank": WASH_ROWS}
    washing = tables.washing if tables else None
    if washing is None:
        reason = strings.retell(tables.not_derivable) if tables and tables.not_derivable else ""
        return {**view, "none": strings.say("washing.no-figures", reason=reason) if reason else ""}
    column = _nearest(washing.temperatures, 20.0)
    rows = [
        (strings.figure(number(size)), _wait(row[column].high, strings))
        for size, row in zip(washing.sizes, washing.minutes, strict=True)
    ]
    depth, warm = number(washing.depth), number(washing.temperatures[column])
    return {**view, "rows": rows, "settling": strings.say("washing.settling", depth=depth, temperature=warm)}


def wash_view(sheet: WashSheet, minds: Iterable[str], level: str | None, strings: Strings) -> Row:
    """A washing worked out, as a list to tick off: what to add, how long to wait, what to pour where."""
    asked, plan = sheet.asked, sheet.plan
    jars = len(plan.cuts)
    figures = {
        "grams": plan.grams,
        "volume": asked.volume,
        "depth": asked.depth,
        "kept": asked.kept,
        "temperature": asked.temperature,
    }
    said = {name: strings.figure(number(value)) for name, value in figures.items()}
    steps = [
        (
            str(step.round),
            str(step.jar),
            strings.figure(number(step.litres_in, 2)) if step.litres_in else "",
            _wait(step.minutes, strings),
            strings.figure(number(step.litres_out, 2)),
            strings.say("washing.into-jar", jar=str(step.into))
            if step.into <= jars
            else strings.say("washing.bucket"),
        )
        for step in plan.steps
    ]
    return {
        **washing_view(sheet.name, None, strings),
        "plan": {
            "charge": strings.say("washing.charge", **said),
            "level": strings.say("washing.level", level=level) if level else "",
            "steps": steps,
            "bucket": strings.say("washing.bucket-stands", time=_wait(plan.settle_minutes, strings)),
            "minds": [strings.retell(each) for each in minds],
        },
    }


def _nearest(values: tuple[float, ...], wanted: float) -> int:
    return min(range(len(values)), key=lambda at: abs(values[at] - wanted))


def _wait(minutes: float, strings: Strings) -> str:
    """A waiting time: seconds, minutes or hours, whichever reads best."""
    if minutes < 1.5:
        figure, unit = minutes * 60, "s"
    elif minutes < MINUTES_SHOWN_AS_HOURS:
        figure, unit = minutes, strings.say("units.min")
    else:
        figure, unit = minutes / 60, strings.say("units.h")
    return f"{strings.figure(number(figure, 2))}\N{NO-BREAK SPACE}{unit}"


Schemas = Mapping[str, Mapping[str, Any]]


def form_view(kind: str, schemas: Schemas, strings: Strings) -> Row:
    """A blank entry with the fields in the order of the schema, those inside others one step in."""
    return {
        "kind": kind,
        "title": strings.say("form.title", kind=kind),
        "rows": [
            {**row, "words": strings.retell(row["words"])}
            for row in _fields(f"{kind}.schema.json", schemas[f"{kind}.schema.json"], schemas, 0)
        ],
    }


def _fields(file: str, schema: Mapping[str, Any], schemas: Schemas, depth: int) -> Iterator[Row]:
    required = set(schema.get("required", ()))
    for key, each in schema.get("properties", {}).items():
        inner_file, inner = _inner(file, each, schemas)
        nested = inner.get("properties", {})
        yield {
            "key": key,
            "depth": depth,
            "must": key in required,
            "words": _described(file, each, schemas),
            "writes": not nested,
        }
        if nested and depth == 0 and not set(nested) & EVIDENCE:
            yield from _fields(inner_file, inner, schemas, depth + 1)


EVIDENCE = {"basis", "value"}
"""Keys of a fact: it is one line with a place for its source, not a group of lines."""


def _inner(file: str, schema: Mapping[str, Any], schemas: Schemas) -> tuple[str, Mapping[str, Any]]:
    """The schema of a value, or of one item of a list, with its file; references followed."""
    *_, last = _chain(file, schema, schemas)
    return last


def _described(file: str, schema: Mapping[str, Any], schemas: Schemas) -> str:
    """What goes in, in the words nearest to the field."""
    told = (each.get("description") for _, each in _chain(file, schema, schemas))
    return next((words for words in told if words), "").replace("`", "")


def _chain(file: str, schema: Mapping[str, Any], schemas: Schemas) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """A schema and those it leads to, each with its file."""
    while True:
        yield file, schema
        if "$ref" in schema:
            target, _, pointer = schema["$ref"].partition("#")
            file = target or file
            found: Any = schemas[file]
            for step in filter(None, pointer.split("/")):
                found = found[step]
            schema = found
        elif "items" in schema:
            schema = schema["items"]
        else:
            return


def sign_off_view(jars: Iterable[tuple[str, Any]], cards: CardMaker) -> Row:
    """The sheet on which somebody answers for jars: number and entry of each, dates from the entry."""
    say = cards.say
    rows = [
        (
            f"{jar} · {each.name}" if jar else each.name,
            each.id,
            say("common.checked", date=each.checked or say("common.not-known")),
            cards.reviews.late(each.name, each)
            or (say("common.review-by", date=each.review_by) if each.review_by else ""),
        )
        for jar, each in jars
    ]
    return {"rows": rows, "blank": max(0, SIGN_ROWS - len(rows))}
