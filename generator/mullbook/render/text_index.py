"""The words of all pages, cut by headings, for the search in their text."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from html import unescape
from typing import Any, NamedTuple

SCRIPT = "search/search_index.js"
"""A page from disk may load scripts but fetch nothing, so a script is the index."""
FRONT = re.compile(r"---\n(.*?)\n---\n(.*)", re.DOTALL)
TITLE = re.compile(r"^title: (.+)$", re.MULTILINE)
TAGS = re.compile(r"^tags: (\[.*\])$", re.MULTILINE)
LEFT_OUT = re.compile(r"^search: \{exclude: true\}$", re.MULTILINE)
HEADING = re.compile(r'<h[1-6]([^>]*\bid="([^"]+)"[^>]*)>(.*?)</h[1-6]>', re.DOTALL)
UNHEARD = re.compile(
    r'<(script|style|svg|select|template|noscript|h1)\b.*?</\1>|<span class="swatch.*?</span>', re.DOTALL
)
EXCLUDED = re.compile(r'<([a-z]+)\b[^>]*(?:\bdata-search-exclude\b|class="working")[^>]*>')
KNOWN = "published|dataset|calculated|common practice|from memory|documented|chemically expected|folklore"
CITED = re.compile(
    rf'<a (?:href="#_\d+"|class="src" href="[^"]*")>.*?</a>|<i(?: class="[a-z-]+")?>(?:{KNOWN})</i>'
)
"""A fact's source and how well it is known stand everywhere, and nobody looks for pages by them."""
INLINE = re.compile(r"</?(?:a|abbr|b|code|em|i|span|strong|sub|sup|small|wbr)\b[^>]*>")
TAG = re.compile(r"<[^>]*>")
MARK = "data-search-exclude"


class Part(NamedTuple):
    """A stretch of a page from one heading to the next; the first has no place and no heading."""

    place: str
    heading: str
    text: str


class Text(NamedTuple):
    """The text of one page."""

    page: str
    title: str
    codes: str
    parts: tuple[Part, ...]


def index_files(pages: Mapping[str, object]) -> dict[str, str]:
    """The index as a script for the pages.

    Parameters: `pages`, content by path; what is no page is passed over.
    """
    rows = [
        [each.page, each.title, each.codes, [list(part) for part in each.parts]] for each in texts_of(pages)
    ]
    return {SCRIPT: f"window.MULLBOOK_TEXT={_compact(rows)};\n"}


def texts_of(pages: Mapping[str, object]) -> Iterator[Text]:
    """The text of every page that does not keep itself out."""
    for path, content in pages.items():
        if not (path.endswith(".md") and isinstance(content, str)):
            continue
        front, html = front_and_body(content)
        if LEFT_OUT.search(front):
            continue
        tags = TAGS.search(front)
        parts = tuple(part for part in parts_of(html) if part.text or part.heading)
        codes = " ".join(json.loads(tags[1])) if tags else ""
        yield Text(path.replace(".md", ".html"), title_of(front), codes, parts)


def front_and_body(content: str) -> tuple[str, str]:
    """What stands above a page, and the page."""
    found = FRONT.fullmatch(content)
    return (found[1], found[2]) if found else ("", content)


def title_of(front: str) -> str:
    """The title a page gives itself."""
    found = TITLE.search(front)
    said = found[1] if found else ""
    return str(json.loads(said)) if said.startswith('"') else said


def parts_of(html: str) -> Iterator[Part]:
    """A page cut at its headings, without those that are marked to be left out.

    >>> page = '<h1>Umber</h1><p>Brown.</p><h2 id="a" data-search-exclude>A</h2><p>x</p><h2 id="b">B</h2>y'
    >>> [tuple(each) for each in parts_of(page)]
    [('', '', 'Brown.'), ('b', 'B', 'y')]
    """
    headings = list(HEADING.finditer(html))
    ends = [*(each.start() for each in headings), len(html)]
    yield Part("", "", plain(html[: ends[0]]))
    for heading, end in zip(headings, ends[1:], strict=True):
        if MARK not in heading[1]:
            yield Part(heading[2], plain(heading[3]), plain(html[heading.end() : end]))


def plain(html: str) -> str:
    """The words of a piece of HTML, without what is marked to be left out.

    >>> plain('<nav data-search-exclude>x</nav><p>SiO<sub>2</sub> &amp; water</p><p>y</p>')
    'SiO2 & water y'
    """
    html = UNHEARD.sub(" ", without_excluded(CITED.sub("", html)))
    return " ".join(unescape(TAG.sub(" ", INLINE.sub("", html))).split())


def without_excluded(html: str) -> str:
    """HTML without the elements that are marked to be left out, whatever is nested in them.

    >>> without_excluded('a<div data-search-exclude>b<div>c</div>d</div>e')
    'ae'
    """
    while found := EXCLUDED.search(html):
        depth, end = 0, len(html)  # an element cut off by the next heading goes to the end
        for tag in re.finditer(rf"<(/?){found[1]}\b[^>]*>", html[found.start() :]):
            depth += -1 if tag[1] else 1
            if depth == 0:
                end = found.start() + tag.end()
                break
        html = html[: found.start()] + html[end:]
    return html


def _compact(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, separators=(",", ":")).replace("</", "<\\/")
