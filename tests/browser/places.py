"""One page of every kind the site has."""

from __future__ import annotations

PAGES = (
    "index.html",
    "find.html",
    "pigments/raw-umber.html",
    "substances/quartz.html",
    "binders/acrylic-gel.html",
    "additives/glycerin.html",
    "systems/oil.html",
    "systems/index.html",
    "guides/before-the-hammer.html",
    "guides/index.html",
    "questions/how-much-binder.html",
    "questions/index.html",
    "faults.html",
    "sources/",
    "methods.html",
    "glossary.html",
    "compare.html",
    "hues.html",
    "levels.html",
    "identifiers.html",
    "downloads.html",
)
