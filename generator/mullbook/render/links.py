"""Links between pages: relative, checked while they are written."""

from __future__ import annotations

import posixpath
from collections.abc import Iterable

FOLDERS = {
    "pigment": "pigments",
    "substance": "substances",
    "binder": "binders",
    "additive": "additives",
    "source": "sources",
}
"""Kind of entry to the folder its pages stand in."""


class DeadLink(KeyError):
    """A page links to one that is not there: a fault of the templates or of the rules on links."""


class Links:
    """The pages there are, and the way from one to another."""

    def __init__(self, pages: Iterable[str]) -> None:
        self._pages = frozenset(pages)

    def __contains__(self, page: str) -> bool:
        """Whether there is such a page."""
        return page in self._pages

    def to(self, target: str, start: str, anchor: str = "") -> str:
        """The relative address of `target` seen from `start`, both from the site's root.

        Raises `DeadLink` for a target that is not there.

        >>> Links(["index.html", "pigments/raw-umber.html"]).to("index.html", "pigments/raw-umber.html")
        '../index.html'
        """
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
