"""Links between pages: relative, checked while they are written."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Iterable

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Source

FOLDERS = {
    "pigment": "pigments",
    "substance": "substances",
    "binder": "binders",
    "additive": "additives",
    "system": "systems",
    "recipe": "recipes",
    "guide": "guides",
    "question": "questions",
    "sample": "samples",
    "fault": "faults",
    "studio-test": "studio-tests",
    "source": "sources",
}
"""Kind of entry to the folder its pages stand in."""


class DeadLink(KeyError):
    """A page links to one that is not there: a fault of the templates or of the rules on links."""


class Links:
    """The pages there are, and the way from one to another."""

    def __init__(self, pages: Iterable[str], left_out: Iterable[str] = (), instead: str = "") -> None:
        self._pages = frozenset(pages)
        self._left_out, self._instead = frozenset(left_out), instead

    def __contains__(self, page: str) -> bool:
        """Whether there is such a page."""
        return page in self._pages

    def leaves_out(self, page: str) -> bool:
        """Whether this edition leaves out a page that the book has."""
        return page in self._left_out

    def to(self, target: str, start: str, anchor: str = "") -> str:
        """The relative address of `target` seen from `start`, both from the site's root.

        Raises `DeadLink` for a target that is not there.

        >>> Links(["index.html", "pigments/raw-umber.html"]).to("index.html", "pigments/raw-umber.html")
        '../index.html'
        """
        if target in self._left_out:
            target, anchor = self._instead, ""
        if target not in self._pages:
            raise DeadLink(f"{start} links to {target}, which is not there")
        here = posixpath.dirname(start)
        address = posixpath.relpath(target, here) if here else target
        return f"{address}#{anchor}" if anchor else address


def page_of(kind: str, entry: str) -> str:
    """The page of an entry.

    >>> page_of("pigment", "raw-umber")
    'pigments/raw-umber.html'
    """
    return f"{FOLDERS[kind]}/{entry}.html"


def statement_page(code: str) -> str:
    """The page of a hazard statement.

    >>> statement_page("H350i")
    'statements/H350i.html'
    """
    return f"statements/{code}.html"


def medium_page(attack: str) -> str:
    """The page of what one attack does to each class of pigment.

    >>> medium_page("lime")
    'compatibility/lime.html'
    """
    return f"compatibility/{attack}.html"


CAPITALS = re.compile(
    r"astm|atp\d+|cci|cfr|cgs|cib|cicad\d+|cleapss|clp|coshh|crc|ecetoc|eh40|eur|gc|ghs|hcis|hse|hsg\d+|iarc|ic\d+"
    r"|iso|lrd|niosh|nsead|nsw|nyu|oehha|osha|pvc|sshade|tr\d+|usbm|usgs|usp|uta|vi|who"
)
"""Parts of source ids that are said in capitals."""


def short_name(source: Source) -> str:
    """A source as it is named in running text: its authors and year, else what its id says.

    >>> from mullbook.model.entities import Source
    >>> book = {"title": "T", "kind": "book", "read_as": "part", "read": "a scan"}
    >>> short_name(Source(id="painting", authors=("R. J. Gettens", "G. L. Stout"), year=1942, **book))
    'Gettens and Stout 1942'
    >>> short_name(Source(id="clp-annex-vi-atp17", **book))
    'CLP annex VI ATP17'
    """
    if not source.authors:
        words = [each.upper() if CAPITALS.fullmatch(each) else each for each in source.id.split("-")]
        return " ".join([words[0][:1].upper() + words[0][1:], *words[1:]])
    names = [each.split(" and ")[0].split()[-1] for each in source.authors]
    said = " and ".join(names) if len(names) < 3 else f"{names[0]} and others"
    return f"{said} {source.year}" if source.year else said


class Cited:
    """The sources one page has named so far, each with a number, so that its address stands there once."""

    def __init__(self, catalogue: Catalogue) -> None:
        self._catalogue = catalogue
        self._numbers: dict[str, int] = {}
        self._said: set[str] = set()
        self._searched: set[str] = set()

    def anchor(self, source: str) -> str:
        """Where the source stands in the page's own list; naming it puts it there."""
        return f"_{self._numbers.setdefault(source, len(self._numbers) + 1)}"

    def label(self, source: str) -> str:
        """The source in a few words."""
        known = self._catalogue.source.get(source)
        return short_name(known) if known else source

    def searched(self, source: str) -> str:
        """A list that was searched, in a few words; the page leads to it there and then."""
        self._searched.add(source)
        return self.label(source)

    def was_searched(self, source: str) -> bool:
        """Whether the page has named the source as a list that was searched."""
        return source in self._searched

    @property
    def sources(self) -> list[Source]:
        """Those named so far, in the order of their numbers."""
        return [self._catalogue.source[each] for each in self._numbers if each in self._catalogue.source]

    def first(self, words: str) -> bool:
        """Whether the page says this for the first time: a formula or a note stands there once."""
        new = words not in self._said
        self._said.add(words)
        return new
