"""An audit for a terminal and for files: lines, tables, one record."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.derive.audit_results import Audit, Audited
from mullbook.model.catalogue import Catalogue
from mullbook.model.register import COLUMNS, Change, Table
from mullbook.model.studio import Studio
from mullbook.model.values import Range
from mullbook.render.audit_words import (
    LINES,
    QUARANTINE,
    RED_LIST,
    REVIEW_WORDS,
    SHEET_WORDS,
    SIGN_OFF,
    flags,
)
from mullbook.render.words import number

GRAM_FIGURES = 3
ADDED = (
    "entry",
    "level",
    "why",
    "red list",
    "review",
    "data sheet",
    "quarantine",
    "cas",
    "grams",
    "row",
)
"""Columns that an audit puts behind those of the register."""


def audit_text(catalogue: Catalogue, studio: Studio, found: Audit) -> str:
    """The whole audit in lines."""
    mark = "," if studio.units.decimal == "comma" else "."
    lines = [*_head(studio, found), *_rooms(catalogue, found, mark), *_lists(found)]
    lines += [*_totals(catalogue, found, mark), *_changes(found), *_sign_off()]
    return "\n".join(lines)


def _head(studio: Studio, found: Audit) -> Iterator[str]:
    yield f"Audit of {studio.name}, {found.today}"
    yield (
        f"{_jars(len(found.jars))}; {len(found.red)} on the red list, {len(found.reviews)} overdue or without"
        f" a review day, {len(found.sheets)} without a recent data sheet,"
        f" {len(found.quarantine)} in quarantine."
    )
    if found.broken:
        yield f"{_jars(len(found.broken))} in rows that could not be read whole: see the problems told above."


def _jars(count: int) -> str:
    return f"{count} jar" if count == 1 else f"{count} jars"


def _rooms(catalogue: Catalogue, found: Audit, mark: str) -> Iterator[str]:
    for place in found.places:
        yield ""
        yield f"{place.room}, {place.cupboard}: {_jars(len(place.jars))}"
        for each in place.jars:
            name = catalogue.policy.words(each.level).name
            flagged = f"  [{flags(each)}]" if flags(each) else ""
            yield f"  {each.listed.key}  {each.name}, {_amount(each, mark)}: {name.upper()}{flagged}"


def _amount(jar: Audited, mark: str) -> str:
    if jar.jar.quantity is None:
        return "amount not given"
    return f"{jar.jar.quantity:g}".replace(".", mark) + f" {jar.jar.unit or ''}".rstrip()


def _lists(found: Audit) -> Iterator[str]:
    yield ""
    yield f"Red list: {_jars(len(found.red))}. {RED_LIST}"
    for each in found.red:
        yield f"  {each.listed.key}  {each.name}: {', '.join(each.red)}"
    yield ""
    yield f"Overdue reviews: {_jars(len(found.reviews))}; due within a month: {len(found.soon)}"
    for each in (*found.reviews, *found.soon):
        when = f"{REVIEW_WORDS[each.review]} {each.review_due or ''}".rstrip()
        yield f"  {each.listed.key}  {each.name}: {when}"
    yield ""
    yield f"Data sheets to ask for: {_jars(len(found.sheets))}"
    for each in found.sheets:
        dated = each.jar.data_sheet_date or ""
        yield f"  {each.listed.key}  {each.name}: {SHEET_WORDS[each.sheet]} {dated}".rstrip()
    yield ""
    yield f"Quarantine: {_jars(len(found.quarantine))} that nobody knows"
    for each in found.quarantine:
        yield f"  {each.listed.key}  {each.name}"
    if found.quarantine:
        yield from (f"  {place}. {step}" for place, step in enumerate(QUARANTINE, 1))


def _totals(catalogue: Catalogue, found: Audit, mark: str) -> Iterator[str]:
    if not found.jars:
        return
    yield ""
    yield "By level"
    for level in found.levels:
        name = catalogue.policy.words(level.level).name
        weighed = grams_text(level.grams, mark) if level.unweighed < level.jars else ""
        more = f"{level.unweighed} not weighed" if level.unweighed else ""
        yield f"  {name}: {', '.join(filter(None, (_jars(level.jars), weighed, more)))}"
    yield ""
    yield "By element, worked out from formulas and shares" + ("" if found.elements else ": none")
    for each in found.elements:
        yield f"  {each.name} ({each.symbol}): {grams_text(each.grams, mark)} in {_jars(each.jars)}"
    if found.not_reckoned.high > 0:
        silent = grams_text(found.not_reckoned, mark)
        yield f"  of {silent} no formula shows what is in it: it may hold more of any of these"
    if found.not_weighed:
        yield f"  in no total, because no mass is given: {', '.join(found.not_weighed)}"


def grams_text(grams: Range | float, mark: str = ".") -> str:
    """A mass or a range of masses, in g or kg, to three figures.

    >>> grams_text(Range(12.34, 456.7)), grams_text(Range(1200, 1500), ","), grams_text(Range(0, 0.004))
    ('12.3–457 g', '1,2–1,5 kg', 'up to 0.004 g')
    """
    held = Range.of(grams)
    part, unit = (1000.0, "kg") if held.high >= 1000 else (1.0, "g")
    low, high = (number(each / part, GRAM_FIGURES).replace(".", mark) for each in (held.low, held.high))
    if held.low <= 0 < held.high:
        return f"up to {high} {unit}"
    return f"{high} {unit}" if low == high else f"{low}–{high} {unit}"


def _changes(found: Audit) -> Iterator[str]:
    if found.since is None:
        return
    yield ""
    yield f"Changes since {found.since}: {len(found.changes)}"
    for each in found.changes:
        yield f"  {change_words(each)}"


def change_words(change: Change) -> str:
    """One change in a line.

    >>> change_words(Change(date="2026-11-25", who="M.", jar="A", what="changed", cells={"lot": ("1", "2")}))
    '2026-11-25, M.: A changed: lot "1" -> "2"'
    """
    told = "; ".join(f'{name} "{old}" -> "{new}"' for name, (old, new) in change.cells.items())
    what = f"{change.what}: {told}" if change.what == "changed" else change.what
    return f"{change.date}, {change.who}: {change.jar} {what}"


def _sign_off() -> Iterator[str]:
    yield ""
    yield "To sign"
    yield from (f"  [ ] {each}" for each in SIGN_OFF)
    yield "  " + "    ".join(f"{each} ____________" for each in LINES)


def audit_table(catalogue: Catalogue, register: Table, found: Audit) -> Table:
    """The register with what the audit found behind each row, by room and cupboard.

    Every column of the register stays, also those of the keeper's own.
    """
    even = register.even
    elements = [each.symbol for each in found.elements]
    header = (*even.header, *ADDED, *(f"{symbol} g {end}" for symbol in elements for end in ("low", "high")))
    rows = [
        (*even.rows[jar.listed.row - 1], *_found(catalogue, jar), *_grams(jar, elements))
        for place in found.places
        for jar in place.jars
    ]
    return Table(header, tuple(rows))


def _found(catalogue: Catalogue, jar: Audited) -> tuple[str, ...]:
    return (
        jar.listed.entry or "",
        catalogue.policy.words(jar.level).name,
        jar.because,
        ", ".join(jar.red),
        REVIEW_WORDS[jar.review],
        SHEET_WORDS[jar.sheet],
        "" if jar.is_known else "quarantine",
        " ".join(jar.cas),
        "" if jar.jar.grams is None else f"{jar.jar.grams:g}",
        "" if jar.listed.is_whole else "not read whole",
    )


def _grams(jar: Audited, elements: Iterable[str]) -> tuple[str, ...]:
    cells: list[str] = []
    for symbol in elements:
        held = jar.elements.get(symbol)
        cells += [f"{held.low:.4g}", f"{held.high:.4g}"] if held else ["", ""]
    return tuple(cells)


def audit_sheets(catalogue: Catalogue, register: Table, found: Audit) -> list[tuple[str, Table]]:
    """The audit as the sheets of a spreadsheet: register, what was found, totals, changes, sign-off."""
    levels = tuple(
        (catalogue.policy.words(each.level).name, str(each.jars), f"{each.grams:g}", str(each.unweighed))
        for each in found.levels
    )
    elements = tuple(
        (each.name, each.symbol, f"{each.grams.low:.4g}", f"{each.grams.high:.4g}", str(each.jars))
        for each in found.elements
    )
    changes = tuple(
        (each.date, each.who, each.jar, each.what, name, old, new)
        for each in found.changes
        for name, (old, new) in (each.cells or {"": ("", "")}).items()
    )
    return [
        ("Register", register),
        ("Audit", audit_table(catalogue, register, found)),
        ("Levels", Table(("level", "jars", "grams", "not weighed"), levels)),
        ("Elements", Table(("element", "symbol", "grams low", "grams high", "jars"), elements)),
        ("Changes", Table(("date", "who", "jar", "what", "column", "before", "after"), changes)),
        ("Sign-off", sign_off_table(found)),
    ]


def sign_off_table(found: Audit) -> Table:
    """A row for each jar with room to sign."""
    rows = tuple((each.listed.key, each.name, flags(each), "", "", "") for each in found.jars)
    return Table(("jar", "what", "to see to", "there and shut", "looked at by", "day"), rows)


def audit_data(catalogue: Catalogue, studio: Studio, found: Audit) -> dict[str, Any]:
    """The audit as plain data, every cell of the register in it."""
    return {
        "studio": studio.name,
        "today": found.today,
        "since": found.since,
        "jars": [_jar_data(each) for place in found.places for each in place.jars],
        "red_list": [each.listed.key for each in found.red],
        "overdue": [each.listed.key for each in found.reviews],
        "data_sheets": [each.listed.key for each in found.sheets],
        "quarantine": {"jars": [each.listed.key for each in found.quarantine], "steps": list(QUARANTINE)},
        "levels": [
            {"level": each.level, "jars": each.jars, "grams": each.grams, "not_weighed": each.unweighed}
            for each in found.levels
        ],
        "elements": [
            {
                "symbol": each.symbol,
                "name": each.name,
                "grams": {"low": each.grams.low, "high": each.grams.high},
                "jars": each.jars,
            }
            for each in found.elements
        ],
        "not_reckoned_grams": {"low": found.not_reckoned.low, "high": found.not_reckoned.high},
        "not_weighed": list(found.not_weighed),
        "changes": [change_data(each) for each in found.changes],
        "to_sign": list(SIGN_OFF),
    }


def change_data(change: Change) -> dict[str, Any]:
    """One change as the history keeps it."""
    return {
        "date": change.date,
        "who": change.who,
        "jar": change.jar,
        "what": change.what,
        "cells": {name: list(pair) for name, pair in change.cells.items()},
    }


def _jar_data(jar: Audited) -> dict[str, Any]:
    return {
        "row": dict(jar.listed.cells),
        "extra_columns": [each for each in jar.listed.cells if each not in COLUMNS],
        "kind": jar.listed.kind,
        "entry": jar.listed.entry,
        "name": jar.name,
        "room": jar.listed.room,
        "level": jar.level,
        "because": jar.because,
        "cas": list(jar.cas),
        "red_list": list(jar.red),
        "review": jar.review or None,
        "review_due": jar.review_due,
        "data_sheet": jar.sheet or None,
        "known": jar.is_known,
        "grams": jar.jar.grams,
        "elements": {name: [each.low, each.high] for name, each in jar.elements.items()},
        "whole": jar.listed.is_whole,
    }
