"""The history of a register: every change with its day and who made it, only ever added to."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any

from mullbook.checks.studio import HISTORY
from mullbook.model.register import Change, Listed
from mullbook.render.audit_text import change_data
from mullbook.text.problem import Place, Problem, Span

NAME = "register-history.jsonl"
ADDED, CHANGED, REMOVED = "added", "changed", "removed"
Cells = dict[str, str]


def read_history(path: Path) -> tuple[tuple[Change, ...], tuple[Problem, ...]]:
    """Every change ever written down, and a warning for each line that cannot be read."""
    if not path.is_file():
        return (), ()
    changes: list[Change] = []
    problems: list[Problem] = []
    for number, line in enumerate(path.read_text("utf-8", errors="replace").splitlines(), 1):
        if not line.strip():
            continue
        change = _change(line)
        if change is None:
            place = Place(str(path), Span(number, 1, number, len(line) + 1))
            hint = "It is left as it is. Compare it with the last copy of the folder."
            message = "This line of the history cannot be read; the changes in it are not counted."
            problems.append(Problem(HISTORY, "warning", message, place, hint))
        else:
            changes.append(change)
    return tuple(changes), tuple(problems)


def _change(line: str) -> Change | None:
    try:
        data = json.loads(line)
        cells = {str(name): (str(old), str(new)) for name, (old, new) in data["cells"].items()}
        return Change(
            date=str(data["date"]),
            who=str(data["who"]),
            jar=str(data["jar"]),
            what=str(data["what"]),
            cells=cells,
        )
    except (ValueError, KeyError, TypeError, AttributeError):
        return None


def replayed(changes: Iterable[Change]) -> dict[str, Cells]:
    """What the register held when the last change was written down: cells by column, by jar."""
    held: dict[str, Cells] = {}
    for each in changes:
        if each.what == REMOVED:
            held.pop(each.jar, None)
            continue
        cells = held.setdefault(each.jar, {})
        for name, (_, new) in each.cells.items():
            if new:
                cells[name] = new
            else:
                cells.pop(name, None)
    return held


def rows_by_key(jars: Iterable[Listed]) -> dict[str, Cells]:
    """Cells of each row that are not empty, by its jar; a second jar of one number goes by its row too."""
    held: dict[str, Cells] = {}
    for each in jars:
        key = each.key if each.key not in held else f"{each.key} (row {each.row})"
        held[key] = {name: cell for name, cell in each.cells.items() if cell}
    return held


def differences(
    before: Mapping[str, Cells], after: Mapping[str, Cells], day: str, who: str
) -> Iterator[Change]:
    """What changed from one state to another, jar by jar: removed, then changed and added as they stand."""
    for key, cells in before.items():
        if key not in after:
            gone = {name: (old, "") for name, old in cells.items()}
            yield Change(date=day, who=who, jar=key, what=REMOVED, cells=gone)
    for key, cells in after.items():
        old = before.get(key, {})
        names = dict.fromkeys((*old, *cells))
        differing = {
            name: (old.get(name, ""), cells.get(name, ""))
            for name in names
            if old.get(name, "") != cells.get(name, "")
        }
        if key not in before or differing:
            what = CHANGED if key in before else ADDED
            yield Change(date=day, who=who, jar=key, what=what, cells=differing)


def append(path: Path, changes: Iterable[Change]) -> int:
    """Write changes behind what is there, in one go and onto the disk. Returns how many. Raises `OSError`."""
    lines = [_line(each) for each in changes]
    if not lines:
        return 0
    torn = path.is_file() and path.stat().st_size > 0 and not path.read_bytes().endswith(b"\n")
    content = ("\n" if torn else "") + "".join(lines)
    handle = os.open(path, os.O_WRONLY | os.O_APPEND | os.O_CREAT, 0o644)
    try:
        os.write(handle, content.encode("utf-8"))
        os.fsync(handle)
    finally:
        os.close(handle)
    return len(lines)


def _line(change: Change) -> str:
    data: dict[str, Any] = change_data(change)
    return json.dumps(data, ensure_ascii=False, separators=(", ", ": ")) + "\n"
