"""Audits from the command line: a register looked at on one day, its changes kept, its tables in and out."""

from __future__ import annotations

import json
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from pathlib import Path

from mullbook.checks.schema import load_schemas
from mullbook.checks.studio import NO_SHEET
from mullbook.derive.audit import audit
from mullbook.derive.audit_results import Audit
from mullbook.model.register import Change, Table
from mullbook.text.problem import Place, Problem, mistake
from mullbook.workflow.checking import Loaded
from mullbook.workflow.editions import Edition
from mullbook.workflow.folders import Roots
from mullbook.workflow.history import NAME, append, differences, read_history, replayed, rows_by_key
from mullbook.workflow.registers import Register, register_of
from mullbook.workflow.sheets import read_sheet
from mullbook.workflow.sheets_out import csv_bytes, spreadsheet_bytes, swapped, write_whole, yaml_bytes
from mullbook.workflow.swap import Refused

OUT = (".csv", ".xlsx", ".json")


@dataclass(frozen=True)
class Audited:
    """An audit with what was found on the way to it."""

    found: Audit
    problems: tuple[Problem, ...]
    texts: Mapping[str, str] = field(default_factory=dict)
    recorded: int = 0
    """How many changes were written into the history."""


def audit_of(loaded: Loaded, today: date, *, since: str | None = None, who: str | None = None) -> Audited:
    """Audit the register of an edition.

    Parameters: `loaded`, an edition whose entries are sound; `today`; `since`, from which day changes are
    asked for; `who` looks: the changes since the last look are then written into the history.
    Raises `Refused` for what was loaded without a studio.
    """
    edition = edition_of(loaded)
    changes, problems = read_history(edition.folder / NAME)
    new = tuple(_new_changes(edition.register, changes, today, who or "not said"))
    recorded = append(edition.folder / NAME, new) if who is not None else 0
    found = audit(
        loaded.catalogue,
        loaded.derived,
        edition.studio,
        edition.register.jars,
        today,
        since=since,
        changes=(*changes, *new),
    )
    history = edition.folder / NAME
    texts = {str(history): history.read_text("utf-8", errors="replace")} if problems else {}
    return Audited(found, problems, texts, recorded)


def edition_of(loaded: Loaded) -> Edition:
    """The studio of what was loaded. Raises `Refused` where there is none."""
    if loaded.edition is None:
        hint = "Name the folder of the studio."
        place = Place("command line")
        raise Refused(
            Problem("MB004", "error", "An audit is of a studio's register.", place, hint, "--studio FOLDER")
        )
    return loaded.edition


def _new_changes(register: Register, changes: Iterable[Change], today: date, who: str) -> Iterable[Change]:
    return differences(replayed(changes), rows_by_key(register.jars), today.isoformat(), who)


def sound(loaded: Loaded) -> Loaded:
    """What was loaded with the mistakes of its register set apart: they stop a build, but no audit.

    Returns it without them, so that what follows from the entries can be worked out.
    """
    if loaded.edition is None:
        return loaded
    of_register = set(loaded.edition.register.problems)
    return replace(loaded, problems=tuple(each for each in loaded.problems if each not in of_register))


def write_audit(loaded: Loaded, found: Audit, path: Path, decimal: str | None) -> None:
    """Write an audit as .csv, .xlsx or .json. Raises `Refused` for another ending, `OSError`."""
    from mullbook.render.audit_text import audit_data, audit_sheets, audit_table

    edition = edition_of(loaded)
    catalogue, studio, register = loaded.catalogue, edition.studio, edition.register.table
    ending = path.suffix.lower()
    if ending == ".json":
        text = json.dumps(audit_data(catalogue, studio, found), ensure_ascii=False, indent=2) + "\n"
        write_whole(path, text.encode())
    elif ending == ".xlsx":
        write_whole(path, spreadsheet_bytes(audit_sheets(catalogue, register, found)))
    elif ending == ".csv":
        comma = (decimal or studio.units.decimal) == "comma"
        same = decimal in (None, studio.units.decimal)
        table = audit_table(catalogue, register if same else swapped(register), found)
        write_whole(path, csv_bytes(_with_marks(table, comma=comma), semicolon=comma))
    else:
        raise Refused(_no_ending(path, OUT))


def _with_marks(table: Table, *, comma: bool) -> Table:
    """The figures that the audit adds, in the decimal mark asked for."""
    from mullbook.render.audit_text import ADDED

    if not comma:
        return table
    start = len(table.header) - next(
        (place for place, name in enumerate(reversed(table.header), 1) if name == ADDED[0]), 0
    )
    rows = tuple(
        (*row[:start], *(cell.replace(".", ",") if _is_figure(cell) else cell for cell in row[start:]))
        for row in table.rows
    )
    return Table(table.header, rows)


def _is_figure(cell: str) -> bool:
    try:
        float(cell)
    except ValueError:
        return False
    return True


def _no_ending(path: Path, endings: Iterable[str]) -> Problem:
    message = f"nothing is written into a file such as {path.name}"
    return mistake(NO_SHEET, message, Place(str(path)), f"the file ends in {', '.join(endings)}")


def give_out(loaded: Loaded, path: Path, decimal: str | None) -> int:
    """Copy the register into a .csv, .yaml or .xlsx file.

    Returns how many jars. Raises `Refused` for another ending, `OSError`.
    """
    edition = edition_of(loaded)
    table = edition.register.table
    own = edition.studio.units.decimal
    write_whole(path, _written(table if decimal in (None, own) else swapped(table), path, decimal or own))
    return len(table.rows)


def _written(table: Table, path: Path, decimal: str) -> bytes:
    ending = path.suffix.lower()
    if ending == ".csv":
        return csv_bytes(table, semicolon=decimal == "comma")
    if ending == ".yaml":
        return yaml_bytes(table)
    if ending == ".xlsx":
        return spreadsheet_bytes([("Register", table if decimal == "point" else swapped(table))])
    raise Refused(_no_ending(path, (".csv", ".yaml", ".xlsx")))


def take_in(
    loaded: Loaded, roots: Roots, path: Path, *, decimal: str | None, who: str, today: date
) -> tuple[int, tuple[Problem, ...]]:
    """Put an edited copy in the place of the register, and what it changes into the history.

    Parameters: `path`, a .csv, .yaml or .xlsx file; `decimal`, its mark before decimals where that is not the
    studio's own. Returns how many changes there were, and warnings. Raises `Refused` with every problem where
    a row is not whole: then nothing was changed.
    """
    edition = edition_of(loaded)
    own = edition.studio.units.decimal
    schemas = load_schemas(roots.schema)
    sheet = read_sheet(path, schemas)
    mark = "point" if path.suffix.lower() == ".xlsx" else decimal or own
    if mark != own:
        sheet = replace(sheet, table=swapped(sheet.table))
    new = register_of(sheet, str(path), edition.studio, loaded.catalogue, schemas, decimal=own)
    errors = [each for each in new.problems if each.severity == "error"]
    if errors:
        raise Refused(*errors, texts={new.path: new.text})
    changes, _ = read_history(edition.folder / NAME)
    target = edition.folder / edition.studio.shelf.register
    write_whole(target, _written(sheet.table, target, own))
    return append(edition.folder / NAME, _new_changes(new, changes, today, who)), new.problems
