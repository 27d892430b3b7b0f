"""How well the numbers of an entry are known: evidence records counted by basis."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from typing import Any

from mullbook.model.values import BASES

SEPARATORS = re.compile(r"[\s:-]")


def by_basis(entry: Any) -> dict[str, int]:
    """Count the facts of an entry by how well they are known, best first, every basis named.

    Parameters: any entity. Returns basis to number of facts.
    """
    counted = Counter(_bases(entry))
    return {basis: counted.get(basis, 0) for basis in BASES}


def _bases(value: Any) -> Iterator[str]:
    if is_dataclass(value):
        for each in fields(value):
            inner = getattr(value, each.name)
            if each.name == "basis" and isinstance(inner, str):
                yield inner
            else:
                yield from _bases(inner)
    elif isinstance(value, tuple):
        for each in value:
            yield from _bases(each)


def codes(entry: Any) -> list[str]:
    """Codes of an entry for the text search, as printed and run together as someone types them.

    Parameters: a pigment or a substance. Returns such words as `PBr 7`, `PBr7`, `1309-37-1`, `1309371`.
    """
    index = getattr(entry, "colour_index", None)
    printed = (*(index.names if index else ()), *(each.number for each in entry.cas))
    return list(dict.fromkeys(word for code in printed for word in (code, SEPARATORS.sub("", code))))
