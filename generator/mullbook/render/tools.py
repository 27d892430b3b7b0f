"""Pages that work something out in the browser, and the figures that an entry's page hands to its script."""

from __future__ import annotations

from typing import Any

from mullbook.derive.results import BinderStart, Derived, DerivedPigment, DustLimit
from mullbook.model.catalogue import Catalogue
from mullbook.render.bench_data import ANY_DUST
from mullbook.render.card import SHUT
from mullbook.render.numbers import worked_out
from mullbook.render.words import in_sentence, list_name, place_name

TOOLS = (
    ("workbench.html", "Workbench"),
    ("washing.html", "Washing"),
    ("sieving.html", "Sieves"),
    ("stone-check.html", "Stone check"),
    ("room-tool.html", "Room dust"),
    ("hiding.html", "Hiding and strength"),
    ("compatibility.html", "Compatibility"),
    ("compare.html", "Compare"),
)
"""Pages with a tool, in the order in which they are offered."""

TOOL_PAGES = ("washing.md", "sieving.md", "room-tool.md", "hiding.md", "compatibility.md")
"""Those of them that no header link leads to."""


def yours(catalogue: Catalogue, found: DerivedPigment) -> dict[str, Any]:
    """What the page of a pigment needs to follow the binder, room and place chosen on a device.

    Returns `starts`, for each binder in the order of the catalogue the grams per 100 g of pigment with their
    range, or the verdict where it is unsuitable, or nothing where none can be
    worked out; `limits`, for each place the strictest limit on this dust with its list, fraction and driver;
    `shut` where a start is not to be read at all.
    """
    limits: dict[str, DustLimit] = {}
    for limit in found.safety.dust_limits:
        limits.setdefault(limit.jurisdiction, limit)
    return {
        "starts": [_start(each) for each in found.paint.binders],
        "limits": {place: _limit(catalogue, limit) for place, limit in limits.items()},
        **({"shut": 1} if found.safety.dry["bench"].level == SHUT else {}),
    }


def yours_names(catalogue: Catalogue, derived: Derived) -> dict[str, Any]:
    """What `yours` is of, the same for every page: binders in their order, places, each with its name."""
    found = {each.jurisdiction for one in derived.pigments.values() for each in one.safety.dust_limits}
    return {
        "binders": [[each.id, in_sentence(each.name)] for each in catalogue.binders],
        "places": [[place, place_name(catalogue, place)] for place in sorted(found)],
    }


def _start(start: BinderStart) -> Any:
    if start.verdict == "unsuitable":
        return start.verdict
    if start.start is None or start.mass is None or start.mass.result is None:
        return 0
    return [worked_out(each) for each in (start.start, start.mass.result.low, start.mass.result.high)]


def _limit(catalogue: Catalogue, limit: DustLimit) -> list[Any]:
    own = limit.reckoned == limit.value
    driver = in_sentence(catalogue.substance[limit.driver].name) if own else ANY_DUST
    remembered = ", from memory, not confirmed" if limit.remembered else ""
    words = f"{list_name(catalogue, limit.jurisdiction, limit.list)}{remembered}"
    return [worked_out(limit.reckoned), words, limit.fraction, driver]
