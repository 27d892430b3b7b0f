"""The plain data of a sound file, read without noting where anything stands.

Hundreds of files are read for each one that holds a mistake, and places are half the cost of reading. What
is out of the ordinary gives None; the slow reader then says what and where it is.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import Any

from yaml import YAMLError
from yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    StreamEndEvent,
)

from mullbook.text import events
from mullbook.text.scalars import plain_value


class NotPlain(Exception):
    """Something stands here that the slow reader has to look at."""


def quick_data(text: str) -> dict[str, Any] | None:
    """The top-level mapping of a file that nothing is wrong with, else None.

    >>> quick_data("hue: red\\nlab: [1, 2.5]\\n"), quick_data("hue: red\\nhue: blue\\n")
    ({'hue': 'red', 'lab': [1, 2.5]}, None)
    """
    loader = None
    try:
        loader = events.LOADER(text)
        return _file(loader.get_event)
    except (YAMLError, NotPlain, ValueError):
        return None
    finally:
        if loader is not None:
            loader.dispose()


def _file(following: Callable[[], Any]) -> dict[str, Any]:
    following()  # the start of the stream
    document = following()
    if type(document) is not DocumentStartEvent or document.version or document.tags:
        raise NotPlain
    event = following()
    if type(event) is not MappingStartEvent or event.anchor is not None or event.tag is not None:
        raise NotPlain
    data = _mapping(following, events.MOST_DEPTH - 1)
    following()  # the end of the document
    if type(following()) is not StreamEndEvent:
        raise NotPlain
    return data


def _mapping(following: Callable[[], Any], deeper: int) -> dict[str, Any]:
    data: dict[str, Any] = {}
    while type(event := following()) is not MappingEndEvent:
        if type(event) is not ScalarEvent or event.anchor is not None or event.tag is not None:
            raise NotPlain
        key = event.value
        if key in data or not (event.style or _is_key(key)):
            raise NotPlain
        data[key] = _value(following(), following, deeper)
    return data


def _value(event: Any, following: Callable[[], Any], deeper: int) -> Any:
    kind = type(event)
    if kind is AliasEvent or event.anchor is not None or event.tag is not None:
        raise NotPlain
    if kind is ScalarEvent:
        return event.value if event.style else plain_value(event.value)
    if deeper == 0:
        raise NotPlain
    if kind is MappingStartEvent:
        return _mapping(following, deeper - 1)
    items = []
    while type(event := following()) is not SequenceEndEvent:
        items.append(_value(event, following, deeper - 1))
    return items


@cache  # a few dozen keys make up thousands of lines
def _is_key(key: str) -> bool:
    try:
        return key not in {"", "<<"} and isinstance(plain_value(key), str)
    except ValueError:
        return False
