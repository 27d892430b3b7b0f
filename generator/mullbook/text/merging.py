"""One entry laid over another: plain data merged by stated rules, with the place of every value kept.

The rules, in the order in which they are tried:

- `key: null` takes the key out.
- `key: {add: [...]}` puts items behind those of the list below; one that names the same thing as an item
  already there (`binder`, `substance`, `against`, `name`) takes its place.
- A fact, which is a group with `basis` or `unit`, takes the place of the fact below whole: no value may come
  to stand beside somebody else's source.
- A group over a group goes key by key.
- Anything else takes the place of what was there.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from mullbook.text.problem import Place
from mullbook.text.yaml_text import Document, Pointer

ADD = "add"
FACT_KEYS = ("basis", "unit")
NAMED_BY = ("binder", "substance", "against", "person", "name")
"""Keys by which an added item is held to be the same as one that is there."""

Origin = tuple[Document, Pointer]


@dataclass(frozen=True)
class Merged(Document):
    """An entry with another laid over it; a place is in whichever file the value came from."""

    origins: Mapping[Pointer, Origin] = field(default_factory=dict)
    over: Document | None = None

    def place(self, pointer: Pointer, key: bool = False) -> Place:
        """The place of a value in the file it came from; of the nearest parent where there is none."""
        pointer = tuple(pointer)
        for length in range(len(pointer), -1, -1):
            origin = self.origins.get(pointer[:length])
            if origin is not None:
                document, start = origin
                return document.place((*start, *pointer[length:]), key)
        return Place(self.path)

    def came_from(self, pointer: Pointer) -> Document | None:
        """The file a value came from."""
        found = (self.origins.get(pointer[:length]) for length in range(len(pointer), -1, -1))
        return next((each[0] for each in found if each is not None), None)


def merged(base: Document, over: Document, *, without: str | None = None) -> Merged:
    r"""Lay one entry over another.

    Parameters: `base`, the entry below; `over`, part of an entry; `without`, a key of `over` to leave out.
    Returns the merged entry under the path of `base`, each value with the place it came from.

    >>> from mullbook.text.yaml_text import read_text
    >>> below = read_text("id: a\nhue: red\naliases: [b]\n", "a.yaml")
    >>> both = merged(below, read_text("hue: brown\naliases: {add: [c]}\n", "over.yaml"))
    >>> both.data
    {'id': 'a', 'hue': 'brown', 'aliases': ['b', 'c']}
    >>> str(both.place(("hue",))), str(both.place(("aliases", 0))), str(both.place(("aliases", 1)))
    ('over.yaml:1:6', 'a.yaml:3:11', 'over.yaml:2:17')
    """
    laid = {key: value for key, value in (over.data or {}).items() if key != without}
    layers = _Layers(base, over)
    data = layers.group(base.data or {}, laid, (), (), ())
    return Merged(path=base.path, text=base.text, data=data, origins=layers.origins, over=over)


class _Layers:
    """The two files while one is laid over the other."""

    def __init__(self, base: Document, over: Document) -> None:
        self.base, self.over = base, over
        self.origins: dict[Pointer, Origin] = {}

    def value(self, below: Any, above: Any, at: Pointer, base_at: Pointer, over_at: Pointer) -> Any:
        if isinstance(above, dict):
            if set(above) == {ADD} and isinstance(above[ADD], list) and isinstance(below, list | None):
                return self.longer(below or [], above[ADD], at, base_at, (*over_at, ADD))
            if isinstance(below, dict) and not _is_fact(below) and not _is_fact(above):
                return self.group(below, above, at, base_at, over_at)
        self.origins[at] = (self.over, over_at)
        return above

    def group(
        self, below: dict[str, Any], above: dict[str, Any], at: Pointer, base_at: Pointer, over_at: Pointer
    ) -> dict[str, Any]:
        self.origins[at] = (self.over, over_at)
        made: dict[str, Any] = {}
        for key in dict.fromkeys((*below, *above)):
            here, under, over = (*at, key), (*base_at, key), (*over_at, key)
            if key not in above:
                self.origins[here] = (self.base, under)
                made[key] = below[key]
            elif above[key] is not None:
                made[key] = self.value(below.get(key), above[key], here, under, over)
        return made

    def longer(
        self, below: list[Any], added: list[Any], at: Pointer, base_at: Pointer, over_at: Pointer
    ) -> list[Any]:
        self.origins[at] = (self.over, over_at[:-1])
        made = list(below)
        for index in range(len(below)):
            self.origins[*at, index] = (self.base, (*base_at, index))
        for index, item in enumerate(added):
            place = next((each for each, old in enumerate(made) if _is_same(old, item)), len(made))
            made[place : place + 1] = [item]
            self.origins[*at, place] = (self.over, (*over_at, index))
        return made


def _is_fact(value: dict[str, Any]) -> bool:
    return any(key in value for key in FACT_KEYS)


def _is_same(old: Any, new: Any) -> bool:
    if not (isinstance(old, dict) and isinstance(new, dict)):
        return bool(old == new)
    key = next((each for each in NAMED_BY if each in new), None)
    return key is not None and old.get(key) == new[key]
