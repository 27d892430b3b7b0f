"""What a studio's edition gives to paper: its name, numbers and rooms, and what stands on its shelf."""

from __future__ import annotations

from typing import Any

from mullbook.render.print_house import NOBODY, House
from mullbook.render.strings import Strings
from mullbook.workflow.checking import Loaded


def house_of(loaded: Loaded) -> House:
    """Whose paper it is; nobody's for the book itself. Nothing private comes with it."""
    if loaded.edition is None:
        return NOBODY
    studio = loaded.edition.studio.for_pages
    poison = studio.poison_centre
    others = [each for each in studio.emergency if each is not poison]
    rooms = sorted((each.volume, each.name) for each in studio.rooms)
    return House(
        name=studio.title,
        owner=studio.answers_for_it,
        issued=studio.issued,
        review_by=studio.review_by,
        poison_centre=poison.number if poison else None,
        emergency=f"{others[0].name} {others[0].number}" if others else None,
        rooms=tuple((name, volume) for volume, name in rooms),
    )


def in_units(strings: Strings, loaded: Loaded) -> Strings:
    """The words with the decimal mark of the studio, where it writes a comma."""
    comma = loaded.edition is not None and loaded.edition.studio.units.decimal == "comma"
    return strings.with_comma() if comma else strings


def shelf_of(loaded: Loaded) -> list[tuple[str, Any]]:
    """Jars of the register with the entry that each leads to, in the order of the register."""
    if loaded.edition is None:
        return []
    catalogue = loaded.catalogue
    held = {each.id: each for each in (*catalogue.products, *catalogue.pigments)}
    return [(each.key, held[each.entry]) for each in loaded.edition.register.jars if each.entry in held]
