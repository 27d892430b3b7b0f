"""Sentences of guides and questions as HTML: figures filled in, words of the trade led to the glossary."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial

from markupsafe import Markup

from mullbook.derive.practice_results import Worked
from mullbook.model.guides import PageLink
from mullbook.model.marks import pieces
from mullbook.render.bench_words import time_text
from mullbook.render.links import Links
from mullbook.render.words import range_text, slug

GLOSSARY = "glossary.html"


def prose(link: Callable[..., str], text: str, figures: Mapping[str, Worked]) -> Markup:
    """A statement as HTML.

    Parameters: `link`, which makes the address of a page from here; `text`, with its marks; `figures`, the
    worked numbers of the page by id. Returns escaped HTML; a mark that leads nowhere shows its words.
    """
    return Markup("").join(_piece(link, each.words, each.figure, each.term, figures) for each in pieces(text))


def _piece(
    link: Callable[..., str],
    words: str,
    figure: str | None,
    term: str | None,
    figures: Mapping[str, Worked],
) -> Markup:
    if figure is not None:
        found = figures.get(figure)
        if found is None:
            return Markup("<b>?</b>")
        return Markup('<a class="fig" href="#fig-{}">{}</a>').format(figure, figure_text(found))
    if term is not None:
        return Markup('<a href="{}">{}</a>').format(link(GLOSSARY, slug(term)), words)
    return Markup("{}").format(words)


def figure_text(found: Worked) -> str:
    """A worked number in a sentence: two figures, three from 100 up; a time as it is read off a clock."""
    result, unit = found.working.result, found.working.unit
    if result is None:
        return found.working.not_derivable or ""
    scale = 100 if unit == "fraction" else 1
    figures = 3 if result.high * scale >= 100 else 2
    return time_text(result) if unit == "min" else range_text(result, unit, figures)


def page_link(links: Links, page: str, to: PageLink) -> Markup:
    """A link to another page of the site; only the words where there is no such page.

    Parameters: `links`, the pages there are; `page`, the one it stands on; `to`, where it leads.
    """
    target, _, anchor = to.page.partition("#")
    if target not in links:
        return Markup('<span class="unlinked">{}</span>').format(to.words)
    return Markup('<a href="{}">{}</a>').format(links.to(target, page, anchor), to.words)


def helpers(links: Links, page: str, link: Callable[..., str]) -> dict[str, Callable[..., Markup]]:
    """What the templates of guides and questions use, bound to the page they are on."""
    return {"prose": partial(prose, link), "page_link": partial(page_link, links, page)}
