"""What pages may know of a studio: everything private is left out here, before anything is rendered."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import replace
from datetime import date

from mullbook.checks.own_rules import private_words
from mullbook.derive.audit import audit
from mullbook.derive.audit_results import Audit, Audited, ShownJar, StudioPages
from mullbook.derive.catalogue import derive
from mullbook.derive.results import Derived
from mullbook.derive.rooms import in_rooms
from mullbook.model.catalogue import Catalogue, Listed
from mullbook.model.studio import ALWAYS_SHOWN, Studio
from mullbook.science.contrast import lightened
from mullbook.workflow.checking import Loaded
from mullbook.workflow.editions import Edition

DARK_GROUND = "#201f1c"
"""The sheet in dark surroundings, which an accent must stand out from too."""
ROOM = "room"


def shown(loaded: Loaded) -> tuple[Catalogue, Derived]:
    """What an edition lists, and what follows from it.

    For a studio that shows only its shelf the other pigments are left out of every list; entries for what
    nobody knows stay. What speaks of one left out still finds it by id.
    """
    edition, catalogue = loaded.edition, loaded.catalogue
    if edition is None or edition.studio.shelf.show != "only":
        return catalogue, loaded.derived
    kept = _on_shelf(edition) | set(ALWAYS_SHOWN)
    fewer = replace(
        catalogue,
        pigments=tuple(each for each in catalogue.pigments if each.id in kept),
        left_out=tuple(each for each in catalogue.pigments if each.id not in kept),
    )
    found = derive(fewer, replace(loaded.derived, used_by={}))
    return fewer, replace(found, pigments=Listed(found.pigments, loaded.derived.pigments))


def _on_shelf(edition: Edition) -> set[str]:
    held = {each.entry for each in edition.register.jars if each.kind == "pigment" and each.entry}
    return held | {entry for kind, entry in edition.own if kind == "pigment"}


def studio_pages(edition: Edition | None, catalogue: Catalogue, derived: Derived) -> StudioPages | None:
    """The studio as pages show it; None for the book itself.

    Parameters: `edition` as loaded; `catalogue` and `derived`, what is shown.
    """
    if edition is None:
        return None
    studio = edition.studio.for_pages
    day = date.fromisoformat(_today(catalogue, studio))
    found = audit(catalogue, derived, edition.studio, edition.register.jars, day)
    pattern = private_words(edition.studio)
    columns = tuple(each for each in studio.shelf.columns if each in edition.register.table.places)
    accent = studio.look.accent
    return StudioPages(
        studio=studio,
        columns=columns,
        jars=tuple(_shown(each, studio, columns, pattern) for each in found.jars),
        own=edition.own,
        changed=edition.changed,
        rooms={
            each.id: in_rooms(catalogue, studio, each, derived.pigments[each.id])
            for each in catalogue.pigments
        },
        audit=_totals_only(found),
        left_out=frozenset(each.id for each in catalogue.left_out),
        dark_accent=lightened(accent, DARK_GROUND) if accent else None,
    )


def _today(catalogue: Catalogue, studio: Studio) -> str:
    """The newest day that anything was checked or issued: two builds of one edition agree."""
    return max(catalogue.latest_check or "1970-01-01", studio.issued or "")


def _totals_only(found: Audit) -> Audit:
    return replace(found, jars=(), places=(), not_weighed=(), changes=(), since=None)


def _shown(jar: Audited, studio: Studio, columns: Iterable[str], pattern: re.Pattern[str] | None) -> ShownJar:
    rooms = {each.id: each.name for each in studio.rooms}
    cells = {each: jar.listed.cells.get(each, "").strip() for each in columns}
    if ROOM in cells:
        cells[ROOM] = rooms.get(jar.listed.room or "", "")
    if "review_due" in cells and not cells["review_due"]:
        cells["review_due"] = jar.review_due or ""
    safe = {name: "" if pattern and pattern.search(cell) else cell for name, cell in cells.items()}
    return ShownJar(
        cells=safe,
        name=public_name(jar),
        kind=jar.listed.kind,
        entry=jar.listed.entry,
        level=jar.level,
        red=jar.red,
        review=jar.review,
        sheet=jar.sheet,
        is_known=jar.is_known,
    )


def public_name(jar: Audited) -> str:
    """What is in a jar as pages say it: what somebody wrote on one that no entry knows may name a person."""
    return jar.name if jar.listed.entry is not None else "not known"


def public_words(jar: Audited, studio: Studio) -> str:
    """A jar in a few words that may leave the studio: its number, where pages show numbers, and its name."""
    pattern = private_words(studio)
    hidden = "jar" not in studio.shelf.columns or (pattern is not None and pattern.search(jar.listed.key))
    return f"a jar, {public_name(jar)}" if hidden else f"jar {jar.listed.key}, {public_name(jar)}"
