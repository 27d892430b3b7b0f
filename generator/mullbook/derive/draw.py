"""Choices that look like chance and come out the same on every machine and in every version of Python."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TypeVar

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Draw:
    """A source of choices: the same seed and words give the same choice."""

    seed: int
    words: str = ""

    def about(self, *words: str) -> Draw:
        """The source for one thing."""
        return Draw(self.seed, "/".join((self.words, *words)))

    def number(self, below: int, *words: str) -> int:
        """A whole number from 0 up to, but not including, `below`.

        >>> Draw(7).number(10) == Draw(7).number(10)
        True
        """
        return int.from_bytes(self._digest(*words)[:8], "big") % below

    def pick(self, options: Sequence[T], *words: str) -> T:
        """One of the options. Raises `ZeroDivisionError` where there is none."""
        return options[self.number(len(options), *words)]

    def shuffled(self, options: Sequence[T], name: Callable[[T], str] = str) -> list[T]:
        """The options in another order.

        >>> sorted(Draw(7).shuffled(["a", "b", "c"]))
        ['a', 'b', 'c']
        """
        return sorted(options, key=lambda each: self._digest(name(each)))

    def _digest(self, *words: str) -> bytes:
        return hashlib.sha256("/".join((str(self.seed), self.words, *words)).encode()).digest()
