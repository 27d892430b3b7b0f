"""What was to be looked at again before the day it is printed: a page can ask the clock, paper cannot."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.model.catalogue import Catalogue
from mullbook.render.strings import Strings


class Reviews:
    """Tells for things on paper whether a review is overdue, and remembers what was."""

    def __init__(self, catalogue: Catalogue, strings: Strings, today: str, packed: str | None = None) -> None:
        self.catalogue, self.strings, self.today = catalogue, strings, today
        self.packed = packed
        """The day since which a review of the stick is overdue that the print goes on."""
        self.found: dict[str, str] = {}
        """Day by which it was due, by what was printed."""

    def late(self, name: str, *things: Any, key: str = "common.overdue") -> str:
        """The note on whatever rests on these things; empty where no review is overdue.

        Their own reviews count, those of the substances they are made of, and those of the rules behind the
        verdicts.
        """
        due = self.since(*things)
        if due is None:
            return ""
        self.found[name] = due
        return self.strings.say(key, date=due)

    def notes(self) -> Iterator[str]:
        """What was printed although its review is overdue, each once."""
        for name, due in self.found.items():
            yield f"{name}: its review, or one behind it, was due on {due}, and the print says so."

    def since(self, *things: Any) -> str | None:
        """The earliest day gone by on which one of them was due, or None."""
        dates = (getattr(each, "review_by", None) for each in self._behind(things))
        late = [each for each in dates if each and each < self.today]
        return min([*late, *([self.packed] if self.packed else [])], default=None)

    def _behind(self, things: Iterable[Any]) -> Iterator[Any]:
        yield from self.catalogue.policies
        yield from self.catalogue.classifications
        yield from self.catalogue.advices
        for thing in things:
            yield thing
            for part in getattr(thing, "constituents", ()):
                yield from self._substance(part.substance)

    def _substance(self, name: str) -> Iterator[Any]:
        substance = self.catalogue.substance.get(name)
        if substance is not None:
            yield substance
            yield from filter(None, (self.catalogue.substance.get(each) for each in substance.member_of))
