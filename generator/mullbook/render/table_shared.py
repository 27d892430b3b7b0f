"""Published tables of what many records say alike: it stands there once, and they keep its row."""

from __future__ import annotations

from mullbook.render.tables import Column, Table, text

FIRST_AID = Table(
    "first_aid",
    "If it goes wrong: what to do, the same for many pigments",
    "first_aid",
    (
        Column("id", ("id",), "Number of the row", "integer"),
        text("lines", "What to do, for each way it got in"),
    ),
)
MIXTURE_RULES = Table(
    "mixture_rules",
    "Rules that give a mixture its hazard class, the same for many",
    "mixture_rules",
    (
        Column("id", ("id",), "Number of the row", "integer"),
        text("rule", "From how much on, and where that stands"),
    ),
)
