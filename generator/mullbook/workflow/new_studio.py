"""A folder for a studio's own edition, begun: files with notes in them, never written over others."""

from __future__ import annotations

from pathlib import Path

from mullbook.checks.input_rules import BAD_INPUT, THERE_ALREADY
from mullbook.text.problem import Place, mistake
from mullbook.workflow.editions import ENTRIES, OVERRIDES
from mullbook.workflow.folders import Roots
from mullbook.workflow.swap import Refused

STARTERS = "new-studio"


def new_studio(folder: Path, roots: Roots) -> list[Path]:
    """Begin a studio's folder outside the book's. Returns the files written.

    Raises `Refused` where one of them is there already, or where the folder lies inside the book's: then
    nothing was written. Raises `OSError` where the folder cannot be made.
    """
    book = roots.entries.resolve().parent
    if folder.resolve().is_relative_to(book):
        hint = "name one beside it or elsewhere, such as ../my-studio"
        message = "a studio's folder is kept outside the book's own"
        raise Refused(mistake(BAD_INPUT, message, Place(str(folder)), hint))
    starters = sorted((roots.templates / "templates" / STARTERS).iterdir())
    there = [folder / each.name for each in starters if (folder / each.name).exists()]
    if there:
        hint = "nothing was written: name another folder, or move the file away"
        raise Refused(
            *(mistake(THERE_ALREADY, "this file is there already", Place(str(each)), hint) for each in there)
        )
    for each in (ENTRIES, OVERRIDES):
        (folder / each).mkdir(parents=True, exist_ok=True)
    written = []
    for starter in starters:
        target = folder / starter.name
        with target.open("xb") as file:
            file.write(starter.read_bytes())
        written.append(target)
    return written
