"""A studio's register: a table of jars as its keeper wrote it, and what each row says."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from mullbook.text.suggest import fold

COLUMNS = (
    "jar",
    "pigment",
    "lot",
    "room",
    "cupboard",
    "quantity",
    "unit",
    "data_sheet_date",
    "opened",
    "review_due",
    "owner",
    "disposal",
    "assessment",
    "price",
    "note",
)
"""Columns the program knows; all others are kept as they are."""
REQUIRED = ("jar", "pigment")
NUMBERS = ("quantity", "price")
"""Columns whose decimal mark follows the file."""
GRAMS = {"g": 1.0, "kg": 1000.0, "mg": 0.001, "oz": 28.349523125, "lb": 453.59237}
"""Grams in each unit of mass. Source: the international avoirdupois pound is 0.45359237 kg exactly."""


@dataclass(frozen=True, slots=True)
class Table:
    """A table as it was written: header and rows, each row as long as the header or longer."""

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    @property
    def places(self) -> dict[str, int]:
        """Known column to its place in a row; of two that mean the same the first counts.

        >>> Table(("Jar", "data sheet date", "shelf life"), ()).places
        {'jar': 0, 'data_sheet_date': 1}
        """
        found: dict[str, int] = {}
        for place, name in enumerate(self.header):
            known = known_column(name)
            if known is not None:
                found.setdefault(known, place)
        return found

    def by_column(self, row: tuple[str, ...]) -> Iterator[tuple[str, str]]:
        """Each cell of a row with its column's name; cells behind the last column go by their number."""
        for place, cell in enumerate(row):
            yield self.column(place), cell

    @property
    def even(self) -> Table:
        """The same with a name of its own for every column, and a column for every cell."""
        wide = max((len(row) for row in (self.header, *self.rows)), default=0)
        names: list[str] = []
        for place in range(wide):
            given = self.header[place] if place < len(self.header) else ""
            name = given if given.strip() and given not in names else f"{given} {place + 1}".strip()
            names.append(name if name not in ("", str(place + 1)) else f"column {place + 1}")
        return Table(tuple(names), tuple((*row, *[""] * (wide - len(row))) for row in self.rows))

    def column(self, place: int) -> str:
        """What a column is called in a history or a list: its known name, else the header's words."""
        if place >= len(self.header):
            return f"column {place + 1}"
        return known_column(self.header[place]) or self.header[place] or f"column {place + 1}"


def known_column(name: str) -> str | None:
    """The known column that a header means; case, spaces, hyphens and underscores do not matter.

    >>> known_column("Data sheet date"), known_column("shelf life")
    ('data_sheet_date', None)
    """
    return _KNOWN.get(fold(name.replace("_", " ")))


_KNOWN = {fold(each.replace("_", " ")): each for each in COLUMNS}


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """One row: what is in one jar. What could not be read is absent here and told as a problem."""

    jar: str = ""
    pigment: str = ""
    lot: str | None = None
    room: str | None = None
    cupboard: str | None = None
    quantity: float | None = None
    unit: str | None = None
    data_sheet_date: str | None = None
    opened: str | None = None
    review_due: str | None = None
    owner: str | None = None
    disposal: str | None = None
    assessment: str | None = None
    price: str | None = None
    note: str | None = None

    @property
    def grams(self) -> float | None:
        """Mass in g; None where it is not known or was given as a volume.

        >>> Jar(jar="A", pigment="raw-umber", quantity=1.5, unit="kg").grams
        1500.0
        """
        if self.quantity is None or self.unit not in GRAMS:
            return None
        return self.quantity * GRAMS[self.unit]


@dataclass(frozen=True, slots=True, kw_only=True)
class Listed:
    """A jar with the row it stands in, the entry that its words lead to, and whether its row is whole."""

    jar: Jar
    cells: Mapping[str, str]
    """Every cell of the row as written, by column."""
    row: int
    """Number of the row below the header, from 1."""
    kind: str | None = None
    entry: str | None = None
    room: str | None = None
    """Id of the room its words lead to."""
    is_whole: bool = True

    @property
    def key(self) -> str:
        """What a history names it by."""
        return self.jar.jar or f"row {self.row}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that changed in a register, as its history keeps it."""

    date: str
    who: str
    jar: str
    what: str
    """`added`, `changed` or `removed`."""
    cells: Mapping[str, tuple[str, str]]
    """Column to what stood there before and after; only those that differ."""
