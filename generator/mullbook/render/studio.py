"""What an edition of a studio adds to the site: its pages, its colours, its defaults for the tools."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

from mullbook.derive.audit_results import StudioPages
from mullbook.model.studio import Studio

PAGES = (
    "studio/shelf.md",
    "studio/house-rules.md",
    "studio/audit.md",
    "studio/sign-off.md",
    "studio/not-here.md",
)
"""Pages that stand in an edition only."""
NOT_HERE = "studio/not-here.html"
NAVIGATION = (("Our shelf", "studio/shelf.md"), ("House rules", "studio/house-rules.md"))
"""Links that an edition puts first into the header."""
LOOK = "assets/stylesheets/studio.css"
DEFAULTS = "data/studio.js"


def studio_files(studio: StudioPages, templates: Path) -> dict[str, str | bytes]:
    """Files of an edition that are no pages: its look, and what the tools take for granted."""
    styles = (templates / "templates" / "studio" / "studio.css").read_text("utf-8")
    return {LOOK: styles + _colours(studio), DEFAULTS: _defaults(studio)}


def _colours(studio: StudioPages) -> str:
    """The studio's colours over those of the book; in dark surroundings the accent made lighter."""
    look = studio.studio.look
    light = [f"--mark: {look.accent};"] if look.accent else []
    light += [f"--paper: {look.paper};"] if look.paper else []
    if not light:
        return ""
    css = f"@media (prefers-color-scheme: light) {{ html:root {{ {' '.join(light)} }} }}\n"
    if studio.dark_accent:
        css += f"@media (prefers-color-scheme: dark) {{ html:root {{ --mark: {studio.dark_accent}; }} }}\n"
    return css


def _defaults(studio: StudioPages) -> str:
    """What tools start from until something else is chosen on a device."""
    units, room = studio.studio.units, studio.studio.smallest_room
    found: dict[str, Any] = {
        "mass": units.mass,
        "volume": units.volume,
        "comma": units.decimal == "comma",
    }
    if room is not None:
        found["room"] = room.volume
        if room.air_changes is not None:
            found["changes"] = room.air_changes
    held = sorted(entry for kind, entry in studio.shelf if kind == "pigment")
    shelf = held if studio.studio.shelf.show != "all" else []
    return f"window.MULLBOOK_STUDIO = {_script(found)};\nwindow.MULLBOOK_SHELF = {_script(shelf)};\n"


def _script(value: object) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":"))


def studio_line(studio: Studio) -> dict[str, str]:
    """What the head and foot of every page of an edition say beside the book's own line."""
    who = studio.for_pages
    given = {
        "studio": who.name,
        "studio_title": who.title,
        "studio_edition": who.edition,
        "issued": who.issued,
        "review_by": who.review_by,
        "answers": who.answers_for_it,
    }
    return {name: value for name, value in given.items() if value}
