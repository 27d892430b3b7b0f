"""Papers and grids: where on a sheet each card, label or lid stands, in millimetres."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

MARGIN = 10.0
"""What printers are not asked to print on, mm."""
PUNCH = 12.0
"""Free for a hole punch on the bound side, mm."""
FEED = 5.0
"""Edge of a label sheet that no word comes into, mm; a label that ends there keeps its words inside."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper, upright, in millimetres."""

    name: str
    width: float
    height: float

    @property
    def turned(self) -> Paper:
        """The same lying on its side."""
        return Paper(self.name, self.height, self.width)


PAPERS = {
    each.name: each
    for each in (
        Paper("A3", 297, 420),
        Paper("A4", 210, 297),
        Paper("A5", 148, 210),
        Paper("A6", 105, 148),
        Paper("Letter", 215.9, 279.4),
    )
}
"""Papers by name. Source: ISO 216; Letter is 8.5 by 11 inches."""
UPS = (1, 2, 4)


@dataclass(frozen=True, slots=True)
class Grid:
    """Equal places on a sheet, row by row."""

    paper: Paper
    columns: int
    rows: int
    width: float
    height: float
    left: float = 0.0
    top: float = 0.0
    gap: float = 0.0
    """Between columns; rows touch."""
    gap_down: float = 0.0

    @property
    def count(self) -> int:
        """Places on one sheet."""
        return self.columns * self.rows

    def place(self, number: int) -> tuple[float, float]:
        """Left and top of a place, counted from 0 at the top left, mm.

        >>> LABEL_SHEETS["A4"]["21-up"].place(4)
        (73.25, 53.25)
        """
        row, column = divmod(number, self.columns)
        return (
            round(self.left + column * (self.width + self.gap), 3),
            round(self.top + row * (self.height + self.gap_down), 3),
        )

    @property
    def right(self) -> float:
        """What is left over on the right, mm."""
        return self.paper.width - self.left - self.columns * self.width - (self.columns - 1) * self.gap

    @property
    def bottom(self) -> float:
        """What is left over below, mm."""
        return self.paper.height - self.top - self.rows * self.height - (self.rows - 1) * self.gap_down


def centred(
    paper: Paper,
    across: tuple[int, float],
    down: tuple[int, float],
    gap: float = 0.0,
    gap_down: float = 0.0,
) -> Grid:
    """A grid in the middle of a paper: how many and how wide, how many and how high (mm)."""
    (columns, width), (rows, height) = across, down
    left = (paper.width - columns * width - (columns - 1) * gap) / 2
    top = (paper.height - rows * height - (rows - 1) * gap_down) / 2
    return Grid(paper, columns, rows, width, height, round(left, 3), round(top, 3), gap, gap_down)


def card_grid(paper: Paper, up: int) -> Grid:
    """Cards on a paper, edge to edge: 1, 2 side by side on the turned paper, or 4.

    >>> grid = card_grid(PAPERS["A4"], 4)
    >>> grid.width, grid.height, grid.place(3)
    (105.0, 148.5, (105.0, 148.5))
    """
    sheet = paper.turned if up == 2 else paper
    columns, rows = {1: (1, 1), 2: (2, 1), 4: (2, 2)}[up]
    return Grid(sheet, columns, rows, sheet.width / columns, sheet.height / rows)


_A4, _LETTER = PAPERS["A4"], PAPERS["Letter"]
LABEL_SHEETS: dict[str, dict[str, Grid]] = {
    "A4": {
        "21-up": centred(_A4, (3, 63.5), (7, 38.1), 2.5),
        "24-up": centred(_A4, (3, 70), (8, 37)),
        "65-up": centred(_A4, (5, 38.1), (13, 21.2), 2.5),
        "8-up": centred(_A4, (2, 99.1), (4, 67.7), 2.5),
    },
    "Letter": {
        "30-up": centred(_LETTER, (3, 66.7), (10, 25.4), 3.1),
        "10-up": centred(_LETTER, (2, 101.6), (5, 50.8), 4.8),
    },
}
"""Label sheets in common use, by their dimensions; the grid stands in the middle of its sheet."""
SHEET_PAPER = {name: paper for paper, sheets in LABEL_SHEETS.items() for name in sheets}


def packed(paper: Paper, width: float, height: float, gap: float = 4.0) -> Grid:
    """As many places of one size as fit inside the margins of a paper, in the middle of it.

    Raises `ValueError` where not even one fits.
    """
    columns = math.floor((paper.width - 2 * MARGIN + gap) / (width + gap))
    rows = math.floor((paper.height - 2 * MARGIN + gap) / (height + gap))
    if columns < 1 or rows < 1:
        raise ValueError(f"{width:g} x {height:g} mm does not fit on {paper.name}")
    return centred(paper, (columns, width), (rows, height), gap, gap)


def sheets(count: int, per_sheet: int, start: int = 1) -> Iterator[list[tuple[int, int]]]:
    """Pairs of item and place, sheet by sheet; the first item goes to place `start`, counted from 1.

    >>> list(sheets(3, 2, start=2))
    [[(0, 1)], [(1, 0), (2, 1)]]
    """
    held: list[tuple[int, int]] = []
    for item in range(count):
        place = (start - 1 + item) % per_sheet
        if held and place == 0:
            yield held
            held = []
        held.append((item, place))
    if held:
        yield held


def insets(grid: Grid, number: int, inner: float) -> tuple[float, float, float, float]:
    """How far words stay from the left, top, right and bottom edge of a place, mm.

    At least `inner`; more where the place ends at the edge of the sheet.
    """
    row, column = divmod(number, grid.columns)
    left = inner if column else max(inner, FEED - grid.left)
    top = inner if row else max(inner, FEED - grid.top)
    right = inner if column < grid.columns - 1 else max(inner, FEED - grid.right)
    bottom = inner if row < grid.rows - 1 else max(inner, FEED - grid.bottom)
    return left, top, right, bottom


MILLIMETRES_PER_POINT = 25.4 / 72
"""A typographic point. Source: the point of page description languages, 1/72 inch."""
