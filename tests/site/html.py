"""The references and anchors of one built page."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

VOID = frozenset(
    {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
)
CELL = frozenset({"td", "th", "tr", "tbody"})
BLOCKS = frozenset(
    ["p", "div", "ul", "ol", "dl", "table", "h1", "h2", "h3", "h4", "h5", "h6", "details", "section"]
)
ENDED_BY = {
    "p": BLOCKS | CELL | {"li", "dt", "dd"},
    "li": {"li"},
    "dt": {"dt", "dd"},
    "dd": {"dt", "dd"},
    "td": CELL,
    "th": CELL,
    "tr": {"tr", "tbody"},
}
"""Elements whose end tag a page may leave out, and what then ends them."""


@dataclass
class Reference:
    tag: str
    url: str
    line: int

    @property
    def leaves_the_site(self) -> bool:
        return bool(urlsplit(self.url).netloc)

    @property
    def path(self) -> str:
        return unquote(urlsplit(self.url).path)

    @property
    def anchor(self) -> str:
        return unquote(urlsplit(self.url).fragment)


@dataclass
class BuiltPage(HTMLParser):
    """What a page points to, and what can be pointed to in it."""

    path: Path
    references: list[Reference] = field(default_factory=list)
    loads: list[Reference] = field(default_factory=list)
    anchors: list[str] = field(default_factory=list)
    title: str = ""
    said: list[str] = field(default_factory=list)
    """What the page itself says: neither quoted nor script nor style."""
    _open: list[tuple[str, bool]] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__()
        self.text = self.path.read_text(encoding="utf-8")
        self.feed(self.text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        while self._open and tag in ENDED_BY.get(self._open[-1][0], ()):
            self._open.pop()
        if tag not in VOID:
            hidden = tag in ("script", "style", "head") or "data-quoted" in said
            self._open.append((tag, hidden or (bool(self._open) and self._open[-1][1])))
        if said.get("id"):
            self.anchors.append(said["id"] or "")
        for name in ("href", "src"):
            url = said.get(name)
            if url is None:
                continue
            reference = Reference(tag, url, self.getpos()[0])
            self.references.append(reference)
            if name == "src" or (tag == "link" and said.get("rel") != "canonical"):
                self.loads.append(reference)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.handle_starttag(tag, attrs)
        if tag not in VOID:
            self.handle_endtag(tag)

    def handle_endtag(self, tag: str) -> None:
        while self._open and self._open.pop()[0] != tag:
            pass

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1][0] == "title" and not self.title:
            self.title = data.strip()
        if not self._open or not self._open[-1][1]:
            self.said.append(data)

    @property
    def words(self) -> str:
        """All that the page says, in lower case, white space run together."""
        return " ".join("".join(self.said).lower().split())
