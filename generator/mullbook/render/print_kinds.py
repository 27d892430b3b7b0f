"""What can be printed: one list for the command line and for the page that says so."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.render.papers import LABEL_SHEETS


@dataclass(frozen=True, slots=True, kw_only=True)
class Printable:
    """One thing that can be printed."""

    id: str
    title: str
    says: str
    """What is on it and what it is for."""
    takes: str
    """What names it wants, in words; empty where none."""
    papers: tuple[str, ...]
    """Papers it can be set for, the usual one first."""
    example: str

    @property
    def command(self) -> str:
        """The command that prints it."""
        return f"mullbook print {self.example}"


PAGES = ("A4", "Letter", "A5")
LABELS = ("A4", "Letter")
PRINTABLE: tuple[Printable, ...] = (
    Printable(
        id="card",
        title="Bench card",
        says="Two sides: verdicts in front, numbers, first aid and waste behind. 1, 2 or 4 to a sheet.",
        takes="pigments, binders or additives",
        papers=("A6", "A5", "A4", "Letter"),
        example="card raw umber --paper A5 --to card.pdf",
    ),
    Printable(
        id="cards",
        title="All bench cards",
        says="The cards of every pigment, or with --studio of all that is on the shelf, in one file.",
        takes="",
        papers=("A6", "A5", "A4", "Letter"),
        example="cards --paper A4 --up 4 --to cards.pdf",
    ),
    Printable(
        id="poster",
        title="Wall poster",
        says="Eleven rules in under 120 words, room for numbers and dates; --tiles for two small sheets.",
        takes="",
        papers=("A3", "A4", "Letter"),
        example="poster --tiles --paper A4 --to poster.pdf",
    ),
    Printable(
        id="labels",
        title="Labels",
        says="For jars of a pigment or tubes of a batch, on sheets by their dimensions; drafts till signed.",
        takes="pigments, binders, additives or recipes",
        papers=LABELS,
        example="labels raw umber --sheet 21-up --start 4 --to labels.pdf",
    ),
    Printable(
        id="lid",
        title="Jar lids",
        says="Round, 40 to 63 mm: shape and word first, seen from above.",
        takes="pigments, binders, additives or recipes",
        papers=LABELS,
        example="lid raw umber --diameter 50 --to lids.pdf",
    ),
    Printable(
        id="wrap",
        title="Tube wraps",
        says="Once round a tube, 80 to 88 mm, with a strip for glue.",
        takes="recipes, pigments, binders or additives",
        papers=LABELS,
        example="wrap raw-umber-satin-tubes --round 85 --to wraps.pdf",
    ),
    Printable(
        id="batch",
        title="Batch sheet",
        says="What to weigh, what it comes to, what to mind, and room to write what happened.",
        takes="one recipe, as file or id",
        papers=PAGES,
        example="batch raw-umber-satin-tubes --scale 2 --to batch.pdf",
    ),
    Printable(
        id="drawdown",
        title="Drawdown card",
        says="Over black and white, the retained standard beside the sample.",
        takes="",
        papers=("A5", "A4", "Letter"),
        example="drawdown --to drawdown.pdf",
    ),
    Printable(
        id="sample-log",
        title="Sample log",
        says="Blank lines for what was gathered, where, and what the field tests showed.",
        takes="",
        papers=("A4", "Letter"),
        example="sample-log --to log.pdf",
    ),
    Printable(
        id="washing",
        title="Washing plan",
        says="Settling times of a pigment, and lines for each wash.",
        takes="one pigment, or none",
        papers=PAGES,
        example="washing yellow ochre --to washing.pdf",
    ),
    Printable(
        id="form",
        title="Blank entry form",
        says="The fields of an entry in the order of its file, to be filled in by hand.",
        takes="a kind, such as pigment",
        papers=("A4", "Letter"),
        example="form pigment --to form.pdf",
    ),
    Printable(
        id="sign-off",
        title="Sign-off sheet",
        says="What was looked at, what was found, and who answers for it.",
        takes="pigments, binders or additives; with --studio the whole register",
        papers=PAGES,
        example="sign-off raw umber lead white --to sign-off.pdf",
    ),
)
PRINT_ROOM = {"kinds": PRINTABLE, "sheets": LABEL_SHEETS}
"""What the page on printing lists."""
BY_ID = {each.id: each for each in PRINTABLE}
ALSO_CALLED = {"label": "labels", "lids": "lid", "wraps": "wrap", "log": "sample-log", "signoff": "sign-off"}
"""Words that mean one of them."""
