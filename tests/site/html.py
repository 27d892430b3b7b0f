"""The references and anchors of one built page."""

from __future__ import annotations

from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit


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

    def __post_init__(self) -> None:
        super().__init__()
        self.text = self.path.read_text(encoding="utf-8")
        self.feed(self.text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
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
