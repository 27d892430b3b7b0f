"""What a plain YAML scalar means here: JSON's constants and numbers are typed, all else is text.

PyYAML's own rules turn the Colour Index number 15850:1 into 951001 and `no` into false.
"""

from __future__ import annotations

import math
import re

Scalar = str | int | float | bool | None

CONSTANTS: dict[str, bool | None] = {"true": True, "false": False, "null": None, "": None}
JSON_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]*)(\.[0-9]+)?([eE][+-]?[0-9]+)?")
NOT_FINITE = re.compile(r"[-+]?(?:\.(?:inf|Inf|INF|nan|NaN|NAN)|NaN|Infinity)")
NUMBER_BEGINS = frozenset("-+.0123456789NI")
# Beyond 15 digits a whole number no longer survives a reader of the published JSON that holds doubles.
MOST_DIGITS = 15


class NotFiniteError(ValueError):
    """The scalar stands for infinity or for not-a-number."""


class TooLargeError(ValueError):
    """The number cannot be held exactly, or is so large or small that it becomes infinite or zero."""


def plain_value(text: str) -> Scalar:
    """The value of an unquoted scalar.

    Parameters: text, as written. Returns true, false, null, a number, or the text itself.
    Raises NotFiniteError, TooLargeError.

    >>> plain_value("15850:1"), plain_value("5e-3"), plain_value("no"), plain_value("true")
    ('15850:1', 0.005, 'no', True)
    """
    if text in CONSTANTS:
        return CONSTANTS[text]
    if text[0] not in NUMBER_BEGINS:
        return text
    match = JSON_NUMBER.fullmatch(text)
    if match:
        return _number(text, whole=match[1] is None and match[2] is None)
    if NOT_FINITE.fullmatch(text):
        raise NotFiniteError(text)
    return text


def _number(text: str, whole: bool) -> int | float:
    if whole:
        if len(text.lstrip("-")) > MOST_DIGITS:
            raise TooLargeError(text)
        return int(text)
    number = float(text)
    mantissa = re.split("[eE]", text)[0]
    if math.isinf(number) or (number == 0 and mantissa.strip("-0.")):
        raise TooLargeError(text)
    return number
