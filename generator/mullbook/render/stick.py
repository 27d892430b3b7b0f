"""Pages that stand at the root of a stick: where to start, what it is, whether it is whole."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

START, START_TEXT, EDITION_TEXT, CHECK = "START-HERE.html", "START-HERE.txt", "EDITION.txt", "verify.html"
BANNER_MARK = 'class="packed-late"'
NAMED = 3
"""Overdue reviews that the note on every page names."""


@dataclass(frozen=True, slots=True)
class Overdue:
    """One entry or set of rules whose review is overdue."""

    kind: str
    id: str
    name: str
    due: str

    @property
    def words(self) -> str:
        """Its name and the day it was due.

        >>> Overdue("pigment", "ochre", "Ochre", "2025-01-31").words
        'Ochre (due 2025-01-31)'
        """
        return f"{self.name} (due {self.due})"


@dataclass(frozen=True, slots=True)
class Edition:
    """What is said of a stick."""

    name: str
    version: str
    edition: str
    checked: str
    """The newest day anything was checked: the date of the edition."""
    overdue: tuple[Overdue, ...] = ()

    @property
    def top(self) -> str:
        """The folder that a .zip file of it unpacks into.

        >>> Edition("Mullbook", "0.1.0", "EU", "2026-11-25").top
        'mullbook-0.1.0-2026-11-25'
        """
        return f"mullbook-{self.version}-{self.checked}"

    @property
    def overdue_words(self) -> str:
        """The note on every page when reviews were overdue; empty when none was.

        >>> late = Overdue("pigment", "ochre", "Ochre", "2025-01-31")
        >>> Edition("Mullbook", "0.1.0", "EU", "2026-11-25", (late,)).overdue_words
        'Packed although a safety review was overdue: Ochre (due 2025-01-31). Ask before you rely on it.'
        """
        if not self.overdue:
            return ""
        count = len(self.overdue)
        what = "a safety review was" if count == 1 else f"{count} safety reviews were"
        more = f" and {count - NAMED} more" if count > NAMED else ""
        named = ", ".join(each.words for each in self.overdue[:NAMED])
        return f"Packed although {what} overdue: {named}{more}. Ask before you rely on it."


def start_pages(templates: Path, edition: Edition, prints: Sequence[str]) -> dict[str, str]:
    """Where to start and which edition this is, as a page and as text.

    Parameters: `templates`, the folder site_templates/; `prints`, names of PDF files. Returns text by path.
    """
    context = {"book": edition, "prints": [(name, print_name(name)) for name in prints]}
    return {
        START: _render(templates, "start.html.j2", context),
        START_TEXT: _for_notepad(_render(templates, "start.txt.j2", context)),
        EDITION_TEXT: _for_notepad(_render(templates, "edition.txt.j2", context)),
    }


def check_page(templates: Path, edition: Edition, files: Mapping[str, tuple[str, int]]) -> str:
    """The page that holds a picked folder against the list it carries.

    Parameters: `files`, digest and size by path. Returns a page that loads nothing.
    """
    rows = [[path, *files[path]] for path in sorted(files)]
    # "</script" in a name would end the script early.
    data = json.dumps(rows, ensure_ascii=False, separators=(",", ":")).replace("</", "<\\/")
    script = (templates / "templates" / "stick" / "verify.js").read_text("utf-8")
    context = {"book": edition, "count": len(rows), "rows": Markup(data), "script": Markup(script)}
    return _render(templates, "verify.html.j2", context)


def print_name(file: str) -> str:
    """What a PDF file is, in words.

    >>> print_name("bench-cards-a6.pdf")
    'Bench cards, A6'
    """
    *words, size = file.removesuffix(".pdf").split("-")
    said = " ".join(words or [size]).capitalize()
    return f"{said}, {size.upper() if len(size) == 2 else size.capitalize()}" if words else said


def with_banner(page: str, words: str) -> str:
    """A page with a note on top: behind its header where it has one, else at the start of its body.

    >>> with_banner("<body><header>A</header>B</body>", "Mind <this>.")
    '<body><header>A</header><p class="packed-late" role="note">Mind &lt;this&gt;.</p>B</body>'
    """
    note = f'<p {BANNER_MARK} role="note">{escape(words)}</p>'
    place = re.search(r"</header>", page) or re.search(r"<body[^>]*>", page)
    return f"{page[: place.end()]}{note}{page[place.end() :]}" if place else page


def _render(templates: Path, name: str, context: Mapping[str, object]) -> str:
    environment = Environment(
        loader=FileSystemLoader(templates / "templates" / "stick"),
        autoescape=name.endswith(".html.j2"),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    return environment.get_template(name).render(context)


def _for_notepad(text: str) -> str:
    """Text with the line ends that every editor shows as such."""
    return text.replace("\r\n", "\n").replace("\n", "\r\n")
