"""Every generated file of the site: pages as Markdown that carries HTML blocks, data as they are."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import FormulaCard, Working
from mullbook.render.data_files import data_files
from mullbook.render.links import Links, page_of
from mullbook.render.pages import Pages, Site
from mullbook.render.published import VERSION

NAVIGATION = (
    ("Mullbook", "index.md"),
    ("Find", "find.md"),
    ("Pigments by hue", "hues.md"),
    ("Levels", "levels.md"),
    ("Binders", "binders/index.md"),
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
    "identifiers.md",
    "rules.md",
)


def site_files(
    catalogue: Catalogue,
    derived: Derived,
    templates: Path,
    schema: Path,
    formulas: Sequence[FormulaCard],
    examples: Mapping[str, Working],
    rules: Sequence[Any],
) -> dict[str, str | bytes]:
    """Render the whole site.

    Parameters: the catalogue and what was derived; `templates`, the folder site_templates/; `schema`, the
    folder of JSON Schemas; `formulas`, `examples` and `rules` for the pages that explain them.
    Returns content by path from the site's root.
    """
    data = data_files(catalogue, derived, schema)
    entries = {
        page_of(kind, each.id): (kind, each)
        for kind, held in (
            ("pigment", catalogue.pigments),
            ("substance", catalogue.substances),
            ("binder", catalogue.binders),
            ("additive", catalogue.additives),
            ("source", catalogue.sources),
        )
        for each in held
    }
    listed = [path.replace(".md", ".html") for _, path in NAVIGATION]
    others = [path.replace(".md", ".html") for path in OTHER_PAGES]
    site = Site(
        catalogue=catalogue,
        derived=derived,
        links=Links([*entries, *listed, *others, *data]),
        formulas=tuple(formulas),
        examples=examples,
        rules=tuple(rules),
        data=tuple(data),
    )
    pages = Pages(site, templates / "templates")
    files: dict[str, str | bytes] = {
        page.replace(".html", ".md"): pages.entry(kind, each, page) for page, (kind, each) in entries.items()
    }
    for page in (*listed, *others):
        files[page.replace(".html", ".md")] = pages.index(page)
    return {**files, **data}


def edition_line(catalogue: Catalogue) -> dict[str, str]:
    """What the footer of every page says of the edition."""
    return {
        "version": VERSION,
        "edition": catalogue.classification.edition,
        "checked": catalogue.latest_check or "not known",
    }


