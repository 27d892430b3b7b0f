"""A few pages of the book for a class: links to what is not handed out become plain text."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from mullbook.model.course import Course
from mullbook.render.course_text import Asked
from mullbook.render.pocket import SHAPES, lean_style
from mullbook.render.stick import Edition

INDEX, ANSWERS = "index.html", "answers.html"
ALWAYS = ("levels.html",)
"""Pages that every handout holds: the words on every card are explained there."""
NOT_ALONE = ("index", "find", "compare", "compatibility", "downloads", "pocket", "hues", "pigments/index")
"""Pages that lead to the whole book and say little without it."""
ASSETS = ("assets/stylesheets/site.css", "assets/javascripts/dates.js")
TITLE = re.compile(r'^title: *"?(.*?)"?$', re.MULTILINE)
ANCHOR = re.compile(r'<a\b(?P<before>[^>]*?)\shref="(?P<to>[^"]*)"[^>]*>(?P<inner>.*?)</a>', re.DOTALL)
LOADED = re.compile(r'<(?:script|img)\b[^>]*?\ssrc="(?P<to>[^"#?:]+)"')


@dataclass(frozen=True, slots=True)
class Leaf:
    """One page of the book without its frame."""

    title: str
    body: Markup
    tool: bool
    prefs: bool


def leaf(markdown: str) -> Leaf:
    """A generated page as its title, its HTML and what it wants loaded.

    >>> leaf('---\\ntitle: "Raw umber"\\ntool: true\\n---\\n<h1>Raw umber</h1>\\n').title
    'Raw umber'
    """
    _, front, body = markdown.split("---\n", 2)
    title = TITLE.search(front)
    wants = set(re.findall(r"^(tool|prefs): true$", front, re.MULTILINE))
    return Leaf(title[1] if title else "", Markup(body), "tool" in wants, "prefs" in wants)


def without_dead_links(page: str, body: str, kept: frozenset[str]) -> str:
    """The HTML of a page where what leads to a page that is not kept is plain text.

    Parameters: `page`, its path; `kept`, paths of all files there are. Links within the page and into the
    network stay.

    >>> without_dead_links("a/x.html", 'See <a href="../b/y.html#z">that <b>one</b></a>.', frozenset())
    'See that <b>one</b>.'
    """

    def kept_or_plain(found: re.Match[str]) -> str:
        to = found["to"]
        path = to.partition("#")[0].partition("?")[0]
        target = posixpath.normpath(posixpath.join(posixpath.dirname(page), path))
        alive = not path or re.match(r"[a-z]+:", to) or target in kept
        return found[0] if alive else found["inner"]

    return ANCHOR.sub(kept_or_plain, body)


def loads(page: str, body: str) -> set[str]:
    """Files that a page loads, by path from the root.

    >>> loads("safety/x.html", '<script src="../data/bench.js"></script>')
    {'data/bench.js'}
    """
    here = posixpath.dirname(page)
    return {posixpath.normpath(posixpath.join(here, each["to"])) for each in LOADED.finditer(body)}


class Handout:
    """Writes the pages of one course."""

    def __init__(self, templates: Path, course: Course, book: Edition, asked: Sequence[Asked]) -> None:
        self.templates = templates
        self.environment = Environment(
            loader=FileSystemLoader(templates / "templates" / "course"),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        shapes = (templates / SHAPES).read_text("utf-8")
        self.environment.globals.update(
            course=course,
            book=book,
            asked=asked,
            shapes=Markup(self.environment.from_string(shapes).render(page=None)),
        )

    def pages(self, chosen: Mapping[str, str], prints: Sequence[tuple[str, str]]) -> dict[str, str]:
        """The chosen pages and a first page that leads to them, by path.

        Parameters: `chosen`, generated Markdown by path of the page; `prints`, address and words of PDFs.
        """
        leaves = {page: leaf(text) for page, text in chosen.items()}
        kept = frozenset({INDEX, *leaves})
        listed = [(page, each.title) for page, each in leaves.items()]
        first = self._part("index.html.j2", pages=listed, prints=prints)
        start = Leaf("Start", Markup(first), tool=False, prefs=False)
        return {page: self._framed(page, each, kept) for page, each in {INDEX: start, **leaves}.items()}

    def answers(self) -> str:
        """The answer sheet as a page that loads nothing."""
        style = (self.templates / "pages" / ASSETS[0]).read_text("utf-8")
        return self._part("answers.html.j2", style=Markup(lean_style(style)))

    def _framed(self, page: str, each: Leaf, kept: frozenset[str]) -> str:
        body = each.body
        if page != INDEX:
            body = Markup(without_dead_links(page, each.body, kept))
        alive = Leaf(each.title, body, each.tool, each.prefs)
        return self._part("page.html.j2", leaf=alive, title=each.title, up="../" * page.count("/"))

    def _part(self, name: str, **context: Any) -> str:
        return self.environment.get_template(name).render(**context)


def wanted_assets(pages: Mapping[str, str]) -> set[str]:
    """Files that the pages of a handout load, by path from its root."""
    found = set(ASSETS)
    for page, text in pages.items():
        found |= loads(page, text)
        found |= {
            posixpath.normpath(posixpath.join(posixpath.dirname(page), each))
            for each in re.findall(r'<link rel="stylesheet" href="([^"]+)"', text)
        }
    return found
