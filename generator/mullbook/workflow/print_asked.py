"""What was asked of the print room: papers, sheets and names as people write them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from mullbook.checks.input_rules import BAD_INPUT, NOT_FOUND
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.recipes import Recipe
from mullbook.render.papers import LABEL_SHEETS, PAPERS, SHEET_PAPER, UPS, Grid, Paper, card_grid, packed
from mullbook.render.print_kinds import ALSO_CALLED, BY_ID, Printable
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.workflow.batches import find_recipe
from mullbook.workflow.folders import Roots
from mullbook.workflow.printing import Fit
from mullbook.workflow.questions import called, find
from mullbook.workflow.swap import Refused

JARS = (Pigment, Binder, Additive)
LIDS = (40.0, 63.0)
"""Lids of jars, mm across."""
WRAPS = (80.0, 88.0)
"""Round tubes of about 37 ml, mm."""
GLUE = 8.0
"""Strip of a wrap that goes under its other end, mm."""
WRAP_HIGH = 60.0
MOST_OFFSET = 10.0
MOST_COPIES = 500
MOST_WORDS = 8
"""Words that one name on the command line may have."""
LARGEST = "8-up"
USUAL_SHEET = {"A4": "21-up", "Letter": "30-up"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Everything that options may say."""

    paper: str | None = None
    up: int = 1
    sheet: str | None = None
    start: int = 1
    offset_x: float = 0.0
    offset_y: float = 0.0
    copies: int = 1
    diameter: float = 50.0
    round: float = 85.0
    tiles: bool = False
    language: str = "en"
    also: str | None = None
    scale: str | None = None
    jurisdiction: str | None = None
    batch: str | None = None
    made: str | None = None
    check_by: str | None = None
    signed_by: str | None = None
    signed_on: str | None = None
    today: str | None = None
    """The day that reviews are judged by; None for the day of printing."""
    packed_late: str | None = None
    """The day since which a review is overdue of the stick that the print goes on; every page says so."""


def refuse(
    message: str, hint: str | None = None, example: str | None = None, code: str = BAD_INPUT
) -> Refused:
    """A problem with the question, ready to be raised."""
    return Refused(Problem(code, "error", message, Place("command line"), hint=hint, example=example))


def _hint(close: Sequence[str], known: Iterable[str]) -> str:
    return f"Did you mean {' or '.join(close)}?" if close else f"There are: {', '.join(known)}."


def printable(what: str) -> Printable:
    """The thing to print that goes under a word. Raises `Refused`.

    >>> printable("Labels").id, printable("label").id, printable("sample log").id
    ('labels', 'labels', 'sample-log')
    """
    word = what.strip().lower().replace(" ", "-").replace("_", "-")
    found = BY_ID.get(ALSO_CALLED.get(word, word))
    if found is None:
        close = nearest(word, [*BY_ID, *ALSO_CALLED])
        raise refuse(f"Nothing called {what} can be printed.", _hint(close, BY_ID), code=NOT_FOUND)
    return found


def pdf_path(to: Path | None, kind: Printable) -> Path:
    """The file to write; `.pdf` is put behind a name without an ending. Raises `Refused`."""
    if to is None:
        raise refuse("Say where it goes: --to FILE.", example=kind.command)
    if to.is_dir():
        raise refuse(f"{to} is a folder, and one file is written.", example=f"--to {to / f'{kind.id}.pdf'}")
    if to.suffix.lower() not in ("", ".pdf"):
        raise refuse(f"{to.name} is no PDF: its name ends in {to.suffix}.", example=f"--to {to.stem}.pdf")
    return to if to.suffix else to.with_name(f"{to.name}.pdf")


def paper_for(kind: Printable, asked: Asked) -> Paper:
    """The paper that was asked for, or the usual one. Raises `Refused`."""
    if asked.paper is None:
        return PAPERS[kind.papers[0]]
    by_name = {name.lower(): paper for name, paper in PAPERS.items()}
    found = by_name.get(asked.paper.strip().lower())
    if found is None:
        close = nearest(asked.paper, PAPERS)
        raise refuse(f"No paper called {asked.paper} is known.", _hint(close, kind.papers))
    if found.name not in kind.papers:
        message = f"{kind.title} is not set for {found.name}."
        raise refuse(message, f"It is set for {', '.join(kind.papers)}.")
    return found


def cards_on(paper: Paper, up: int) -> Grid:
    """Cards on a paper. Raises `Refused` where so many do not go on it."""
    if up not in UPS:
        raise refuse(f"--up takes 1, 2 or 4; {up} is none of them.")
    if up > 1 and paper.name not in ("A4", "Letter"):
        hint = "Cut it from a larger one: --paper A4 --up 4."
        raise refuse(f"{paper.name} takes one card a sheet.", hint)
    return card_grid(paper, up)


def label_grid(asked: Asked) -> Grid:
    """The label sheet by its name, the number on it, or the dimensions of a label. Raises `Refused`.

    >>> label_grid(Asked(sheet="63.5 x 38.1")).count, label_grid(Asked(sheet="30")).paper.name
    (21, 'Letter')
    """
    if asked.sheet is None:
        paper = paper_for(BY_ID["labels"], asked).name
        return LABEL_SHEETS[paper][USUAL_SHEET[paper]]
    word = asked.sheet.strip().lower().replace(" ", "").replace(",", ".").replace("×", "x").removesuffix("mm")
    for sheets in LABEL_SHEETS.values():
        for name, grid in sheets.items():
            if word in (name, name.replace("-", ""), name.removesuffix("-up"), f"{grid.width}x{grid.height}"):
                return grid
    sizes = [
        f"{name} ({grid.width:g} x {grid.height:g})"
        for each in LABEL_SHEETS.values()
        for name, grid in each.items()
    ]
    raise refuse(f"No label sheet {asked.sheet} is known.", _hint(nearest(word, SHEET_PAPER), sizes))


def lid_grid(paper: Paper, diameter: float) -> Grid:
    """Round places on a paper. Raises `Refused`."""
    _between("--diameter", diameter, LIDS)
    return packed(paper, diameter, diameter)


def wrap_grid(paper: Paper, around: float) -> Grid:
    """Places of wraps with their strip for glue. Raises `Refused`."""
    _between("--round", around, WRAPS)
    return packed(paper, around + GLUE, WRAP_HIGH)


def _between(option: str, value: float, ends: tuple[float, float]) -> None:
    if not ends[0] <= value <= ends[1]:
        raise refuse(f"{option} takes {ends[0]:g} to {ends[1]:g} mm; {value:g} is outside.")


def checked_places(grid: Grid, asked: Asked) -> None:
    """Raise `Refused` for a start, an offset or a number of copies that no sheet has."""
    if not 1 <= asked.start <= grid.count:
        raise refuse(f"--start takes 1 to {grid.count} on this sheet; {asked.start} is outside.")
    for option, value in (("--offset-x", asked.offset_x), ("--offset-y", asked.offset_y)):
        if abs(value) > MOST_OFFSET:
            raise refuse(f"{option} takes -{MOST_OFFSET:g} to {MOST_OFFSET:g} mm; {value:g} is outside.")
    if not 1 <= asked.copies <= MOST_COPIES:
        raise refuse(f"--copies takes 1 to {MOST_COPIES}; {asked.copies} is outside.")


Lookup = Callable[[str], Any]


def jar_of(catalogue: Catalogue, words: str) -> Any:
    """The pigment, binder or additive that goes under a name, or None."""
    by_id = catalogue.pigment.get(words) or catalogue.binder.get(words) or catalogue.additive.get(words)
    return by_id or next((each for each in called(catalogue, words) if isinstance(each, JARS)), None)


def jar_or_recipe(catalogue: Catalogue, roots: Roots, words: str) -> Any:
    """The recipe of a file or id, else the jar that goes under a name, or None."""
    if words in catalogue.recipe or Path(words).is_file():
        recipe: Recipe = find_recipe(words, catalogue, roots)
        return recipe
    return jar_of(catalogue, words)


def things(words: Sequence[str], lookup: Lookup, missing: Callable[[str], Refused]) -> list[Any]:
    """What names on the command line mean; a name may be several words long. Raises what `missing` gives.

    >>> shelf = {"raw umber": 1, "lead white": 2, "raw": 3}
    >>> things(["raw", "umber", "lead white"], shelf.get, KeyError)
    [1, 2]
    """
    found, at = [], 0
    while at < len(words):
        for end in range(min(len(words), at + MOST_WORDS), at, -1):
            one = lookup(" ".join(words[at:end]))
            if one is not None:
                found.append(one)
                at = end
                break
        else:
            raise missing(" ".join(words[at:]))
    return found


def nothing_called(catalogue: Catalogue, kind: Printable) -> Callable[[str], Refused]:
    """What to say of a name that nothing printable goes under."""

    def missing(words: str) -> Refused:
        found = find(catalogue, words)
        if isinstance(found, Problem):
            recipes = nearest(words, catalogue.recipe) if "recipe" in kind.takes else []
            hint = f"Did you mean {' or '.join(recipes)}?" if recipes and not found.hint else found.hint
            return refuse(found.message, hint, code=NOT_FOUND)
        what = found[0].kind_name
        return refuse(
            f"{found[0].name} is a {what}: {kind.title.lower()} takes {kind.takes}.", code=NOT_FOUND
        )

    return missing


def left_out(fits: Iterable[Fit], asked: Asked) -> Iterable[str]:
    """Labels that had no room for all, each once."""
    larger = "" if asked.sheet == LARGEST else f" A larger sheet: --sheet {LARGEST}."
    held = {each.name[0]: each.left_out for each in fits if each.left_out}
    for name, count in held.items():
        what = "sentence" if count == 1 else "sentences"
        yield f"{name}: {count} {what} found no room, and the label says so.{larger}"
