"""A rendered page without what only template writers need, and with a description of itself."""

from __future__ import annotations

import json
import re

from mullbook.render.text_index import front_and_body, plain

DESCRIBED = re.compile(r"^description:", re.MULTILINE)
LEAD = re.compile(r'<p class="lead">(.*?)</p>', re.DOTALL)
PARAGRAPH = re.compile(r"<p(?: class=\"sub\")?>(.*?)</p>", re.DOTALL)
HEADING = re.compile(r"<h1\b[^>]*>(.*?)</h1>", re.DOTALL)
LEAST, MOST = 40, 140
ENDS = re.compile(
    r"</li>(?=\s*(?:<li\b|</[uo]l>))"
    r"|</t[dh]>(?=\s*(?:<t[dh]\b|</tr>))"
    r"|</tr>(?=\s*(?:<tr\b|</t(?:body|head)>))"
    r"|</d[dt]>(?=\s*(?:<d[dt]\b|</div>|</dl>))"
    r"|</p>(?=\s*(?:<(?:p|div|[uod]l|table|h[1-6]|details|section)\b|</(?:div|section|details|dd|td|li)>))"
)
"""End tags that HTML lets out where these follow; the parser puts them there itself.
Source: HTML Living Standard, 13.1.2.4 Optional tags."""


def finished(written: str) -> str:
    """A page as it goes to the engine.

    Parameters: `written`, front matter and HTML as rendered. Indentation goes: on a stick it is a tenth of
    the site. A page that does not describe itself is described by its lead or its first paragraph.
    """
    page = "\n".join(line for each in written.splitlines() if (line := each.strip())) + "\n"
    # The text search drops these tags and would read the two words as one.
    page = page.replace("</dt><dd", "</dt> <dd")
    front, html = front_and_body(page)
    if not front or DESCRIBED.search(front):
        return page
    said = json.dumps(description_of(html), ensure_ascii=False)
    return f"---\n{front}\ndescription: {said}\n---\n{html}"


def open_ended(html: str) -> str:
    """A built page without the end tags that HTML lets out, a twentieth of what is on a stick.

    A browser makes the same of it, and a test holds it to that.

    >>> open_ended("<ul><li>umber</li><li><p>ochre</p></li></ul><p>earths</p><p>and <b>more</b></p>")
    '<ul><li>umber<li><p>ochre</ul><p>earths<p>and <b>more</b></p>'
    """
    return ENDS.sub("", html)


def description_of(html: str) -> str:
    """What a page is about, in its own words.

    >>> description_of("<h1>Umber</h1><p>A brown earth, darkened by the oxides of manganese.</p><p>-</p>")
    'Umber: A brown earth, darkened by the oxides of manganese.'
    """
    heading = HEADING.search(html)
    name = plain(f"<b>{heading[1]}</b>") if heading else ""
    lead = LEAD.search(html)
    texts = [plain(lead[1])] if lead else [plain(each[1]) for each in PARAGRAPH.finditer(html)]
    said = next((each for each in texts if len(each) >= LEAST), "") or plain(html)
    return shortened(f"{name}: {said}" if name and not said.startswith(name) else said or name)


def shortened(text: str) -> str:
    """Text cut at a word where it is longer than a description may be.

    >>> len(shortened("earth " * 99)) <= MOST
    True
    """
    return text if len(text) <= MOST else text[: MOST - 1].rsplit(" ", 1)[0].rstrip(",;:") + "…"
