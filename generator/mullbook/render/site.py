"""Every generated file of the site: pages as Markdown that carries HTML blocks, data as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from mullbook.derive.audit_results import StudioPages
from mullbook.derive.results import Derived
from mullbook.derive.table_results import Bench
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import Attack
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
from mullbook.render.tools import TOOL_PAGES
from mullbook.render.words import PICTOGRAM_NAMES

NAVIGATION = (
    ("Mullbook", "index.md"),
    ("Find", "find.md"),
    ("Pigments", "hues.md"),
    ("Levels", "levels.md"),
    ("Safety", "safety/index.md"),
    ("Binders", "binders/index.md"),
    ("Systems", "systems/index.md"),
    ("Workbench", "workbench.md"),
    ("Compare", "compare.md"),
    ("Methods", "methods.md"),
    ("Sources", "sources/index.md"),
    ("Glossary", "glossary.md"),
    ("Downloads", "downloads.md"),
)
"""Header links in order; entry pages stay out of it, so that a page does not grow with the catalogue."""

OTHER_PAGES = (
    "additives/index.md",
    "substances/index.md",
    "pigments/index.md",
    "recipes/index.md",
    "guides/index.md",
    "questions/index.md",
    "binder-comparison.md",
    "your-lot.md",
    "oil-figures.md",
    "faults.md",
    "studio-tests/index.md",
    "identifiers.md",
    "samples/index.md",
    "calcining.md",
    "worked-stone.md",
    "rules.md",
    "print.md",
    "publishing.md",
    "safety/statements.md",
    "safety/limits.md",
    "safety/waste.md",
    "safety/people.md",
    "safety/room-dust.md",
    "safety/rulesets.md",
    "safety/not-known.md",
    "studio-edition.md",
)

PICTOGRAMS = tuple(f"assets/pictograms/{code}.svg" for code in PICTOGRAM_NAMES)
"""Drawings of the pictograms, which pages point to."""


def site_files(
    catalogue: Catalogue,
    derived: Derived,
    templates: Path,
    schema: Path,
    *,
    formulas: Sequence[FormulaCard],
    examples: Mapping[str, Working],
    rules: Sequence[Any],
    bench: Bench,
    studio: StudioPages | None = None,
) -> dict[str, str | bytes]:
    """Render the whole site.

    Parameters: the catalogue and what was derived; `templates`, the folder site_templates/; `schema`, the
    folder of JSON Schemas; `formulas`, `examples` and `rules` for the pages that explain them; `bench`, the
    tables and batch sheets; `studio`, whose edition it is.
    Returns content by path from the site's root.
    """
    data = data_files(catalogue, derived, schema, bench.stone)
    entries = entry_pages(catalogue)
    listed = [path.replace(".md", ".html") for _, path in NAVIGATION]
    others = [path.replace(".md", ".html") for path in (*OTHER_PAGES, *TOOL_PAGES, *(STUDIO_PAGES if studio else ()))]
    harm = Harm(catalogue, derived)
    statements = {statement_page(code): code for code in harm.statements}
    media = media_pages(catalogue)
    site = Site(
        catalogue=catalogue,
        derived=derived,
        links=Links([*entries, *listed, *others, *statements, *media, *PICTOGRAMS, *data], **_left_out(studio)),
        formulas=tuple(formulas),
        examples=examples,
        rules=tuple(rules),
        data=tuple(data),
        bench=bench,
        studio=studio,
    )
    pages = Pages(site, templates / "templates")
    files: dict[str, str | bytes] = {
        page.replace(".html", ".md"): pages.entry(kind, each, page) for page, (kind, each) in entries.items()
    }
    for page in (*listed, *others):
        files[page.replace(".html", ".md")] = pages.index(page)
    for page, code in statements.items():
        files[page.replace(".html", ".md")] = pages.statement(code, page)
    files.update((page.replace(".html", ".md"), pages.medium(each, page)) for page, each in media.items())
    files[POCKET] = pocket(pages, templates)
    if studio is not None:
        files |= studio_files(studio, templates)
    return {**files, **data}


def media_pages(catalogue: Catalogue) -> dict[str, Attack]:
    """Page of each attack on a pigment, with the attack."""
    book = catalogue.vocabulary("chemistry")
    return {medium_page(each.id): each for each in (book.attacks if book else ())}


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
        ("sample", catalogue.samples),
        ("fault", catalogue.faults),
        ("studio-test", catalogue.studio_tests),
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
