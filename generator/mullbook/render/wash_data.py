"""Figures that the washing plan in the page reckons with, and the words it shares with the command line."""

from __future__ import annotations

from typing import Any

from mullbook.model.catalogue import Catalogue
from mullbook.model.values.washing import Mineral
from mullbook.model.washing import mineral, minerals_of
from mullbook.render.numbers import authored
from mullbook.render.wash_text import FRONT, LIMIT_WORDS, NOT_DRY

WASHED = ("natural-earth", "mineral")
"""Families of what comes out of the ground."""
MINERAL_KINDS = ("mineral",)


def wash_data(catalogue: Catalogue) -> dict[str, Any]:
    """Minerals of each earth as `[name, density, share]`, minerals that may be followed beside, and words."""
    earths = {
        each.id: [_row(one) for one in found]
        for each in catalogue.pigments
        if each.family in WASHED and (found := minerals_of(catalogue, each))
    }
    others = [
        [grains.name, authored(grains.density)]
        for each in catalogue.substances
        if each.kind in MINERAL_KINDS and (grains := mineral(each)) is not None
    ]
    words = {"limits": LIMIT_WORDS, "front": FRONT, "not_dry": NOT_DRY}
    return {"earths": earths, "minerals": sorted(others), **words}


def _row(found: Mineral) -> list[Any]:
    return [found.name, authored(found.density), round(found.share or 0.0, 4)]
