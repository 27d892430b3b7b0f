"""Every generated file of the site: pages as Markdown that carries HTML blocks, data as they are."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from operator import methodcaller
from pathlib import Path
from typing import Any

from mullbook.derive.audit_results import StudioPages
from mullbook.derive.results import Derived
from mullbook.derive.table_results import Bench
from mullbook.model.catalogue import Catalogue
from mullbook.model.studio import Studio
from mullbook.model.values import FormulaCard, Working
from mullbook.render.data_files import data_files
from mullbook.render.harm import Harm
from mullbook.render.links import Links, medium_page, page_of, statement_page
from mullbook.render.pages import Pages, Site
from mullbook.render.pocket import POCKET, pocket
from mullbook.render.published import VERSION
from mullbook.render.studio import NAVIGATION as STUDIO_NAVIGATION
from mullbook.render.studio import NOT_HERE, studio_files, studio_line
from mullbook.render.studio import PAGES as STUDIO_PAGES
from mullbook.render.text_index import index_files
from mullbook.render.tools import TOOL_PAGES
from mullbook.render.words import PICTOGRAM_NAMES

NAVIGATION = (
    ("Mullbook", "index.md"),
    ("Find", "find.md"),
    ("Pigments", "hues.md"),
    ("Safety", "safety/index.md"),
    ("Guides", "guides/index.md"),
    ("Stone check", "stone-check.md"),
    ("Binders", "binders/index.md"),
    ("Systems", "systems/index.md"),
    ("Workbench", "workbench.md"),
    ("Faults", "faults.md"),
    ("Print room", "print.md"),
)
"""Header links in order; entry pages stay out of it, so that a page does not grow with the catalogue."""

FOOTER = (
    ("Questions", "questions/index.md"),
    ("Levels", "levels.md"),
    ("Compare", "compare.md"),
    ("Studio tests", "studio-tests/index.md"),
    ("Methods", "methods.md"),
    ("Sources", "sources/index.md"),
    ("Glossary", "glossary.md"),
    ("A studio's own edition", "studio-edition.md"),
    ("Downloads", "downloads.md"),
)
"""Links at the foot of every page, in order."""

OTHER_PAGES = (
    "additives/index.md",
    "substances/index.md",
    "pigments/index.md",
    "recipes/index.md",
    "binder-comparison.md",
    "your-lot.md",
    "oil-figures.md",
    "identifiers.md",
    "samples/index.md",
    "calcining.md",
    "worked-stone.md",
    "rules.md",
    "publishing.md",
    "safety/statements.md",
    "safety/limits.md",
    "safety/waste.md",
    "safety/people.md",
    "safety/room-dust.md",
    "safety/rulesets.md",
    "safety/not-known.md",
)

PICTOGRAMS = tuple(f"assets/pictograms/{code}.svg" for code in PICTOGRAM_NAMES)
"""Drawings of the pictograms, which pages point to."""


def site_files(
    catalogue: Catalogue,
    derived: Derived,
    templates: Path,
    schema: Path,
    **explained: Any,
) -> dict[str, str | bytes]:
    """Render the whole site.

    Parameters: the catalogue and what was derived; `templates`, the folder site_templates/; `schema`, the
    folder of JSON Schemas; `explained`, as for `pages_of`. Returns content by path from the site's root.
    """
    data = data_files(catalogue, derived, schema, explained["bench"].stone)
    pages, makers = pages_of(catalogue, derived, templates, data, **explained)
    files: dict[str, str | bytes] = {
        page.replace(".html", ".md"): make(pages) for page, make in makers.items()
    }
    files |= index_files(files)
    files[POCKET] = pocket(pages, templates)
    if explained.get("studio") is not None:
        files |= studio_files(explained["studio"], templates)
    return {**files, **data}


def pages_of(
    catalogue: Catalogue,
    derived: Derived,
    templates: Path,
    data: Iterable[str],
    *,
    formulas: Sequence[FormulaCard],
    examples: Mapping[str, Working],
    rules: Sequence[Any],
    bench: Bench,
    studio: StudioPages | None = None,
) -> tuple[Pages, dict[str, Callable[[Pages], str]]]:
    """What renders pages, and for each page how.

    Parameters: `data`, the paths of the data files; `formulas`, `examples` and `rules` for the pages that
    explain them; `bench`, the tables and batch sheets; `studio`, whose edition it is.
    """
    harm = Harm(catalogue, derived)
    chemistry = catalogue.vocabulary("chemistry")
    makers: dict[str, Callable[[Pages], str]] = {
        page: methodcaller("entry", kind, each, page) for page, (kind, each) in entry_pages(catalogue).items()
    }
    own = STUDIO_PAGES if studio is not None else ()
    for path in (*(listed for _, listed in (*NAVIGATION, *FOOTER)), *OTHER_PAGES, *TOOL_PAGES, *own):
        page = path.replace(".md", ".html")
        makers[page] = methodcaller("index", page)
    for code in harm.statements:
        makers[statement_page(code)] = methodcaller("statement", code, statement_page(code))
    for attack in chemistry.attacks if chemistry else ():
        page = medium_page(attack.id)
        makers[page] = methodcaller("medium", attack, page)
    site = Site(
        catalogue=catalogue,
        derived=derived,
        links=Links([*makers, *PICTOGRAMS, *data], **_left_out(studio)),
        formulas=tuple(formulas),
        examples=examples,
        rules=tuple(rules),
        data=tuple(data),
        bench=bench,
        studio=studio,
    )
    return Pages(site, templates / "templates"), makers


def _left_out(studio: StudioPages | None) -> dict[str, Any]:
    """Pages of the book that an edition does not show, and where links to them lead instead."""
    if studio is None:
        return {}
    return {"left_out": {page_of("pigment", each) for each in studio.left_out}, "instead": NOT_HERE}


def navigation(studio: bool) -> tuple[tuple[str, str], ...]:
    """Header links of the book, or of a studio's edition."""
    return (NAVIGATION[0], *STUDIO_NAVIGATION, *NAVIGATION[1:]) if studio else NAVIGATION


def entry_pages(catalogue: Catalogue) -> dict[str, tuple[str, Any]]:
    """Page of each entry that has one, with its kind."""
    kinds: tuple[tuple[str, Sequence[Any]], ...] = (
        ("pigment", catalogue.pigments),
        ("substance", catalogue.substances),
        ("binder", catalogue.binders),
        ("additive", catalogue.additives),
        ("system", catalogue.systems),
        ("recipe", catalogue.recipes),
        ("guide", catalogue.guides),
        ("question", catalogue.questions),
        ("fault", catalogue.faults),
        ("studio-test", catalogue.studio_tests),
        ("sample", catalogue.samples),
        ("source", catalogue.sources),
    )
    return {page_of(kind, each.id): (kind, each) for kind, held in kinds for each in held}


def edition_line(catalogue: Catalogue, studio: Studio | None = None) -> dict[str, str]:
    """What head and foot of every page say of the edition, in one of a studio of that too."""
    return {
        **(studio_line(studio) if studio else {}),
        "version": VERSION,
        "edition": catalogue.classification.edition,
        "checked": catalogue.latest_check or "not known",
    }
