"""Whether two colours can be told apart on a page."""

from __future__ import annotations

TEXT = 4.5
"""Least contrast of running text. Source: WCAG 2.2, success criterion 1.4.3."""
STRICT = 7.0
"""Least contrast where a page must be read from afar. Source: WCAG 2.2, success criterion 1.4.6."""
STEPS = 20


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours, from 1 to 21.

    Formula: (L1 + 0.05) / (L2 + 0.05) with the relative luminances, the higher first.
    Parameters: `one`, `other` as `#rrggbb`. Returns the ratio.
    Source: WCAG 2.2, definition of contrast ratio.

    >>> round(contrast("#000000", "#ffffff"), 2), round(contrast("#777777", "#ffffff"), 2)
    (21.0, 4.48)
    """
    light, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def lightened(colour: str, ground: str, least: float = TEXT) -> str:
    """A colour mixed with white until it stands out on a dark ground.

    Parameters: `colour`, `ground` as `#rrggbb`; `least`, the contrast wanted. Returns `#rrggbb`; white where
    nothing less does.

    >>> contrast(lightened("#2f5d50", "#171614"), "#171614") >= TEXT
    True
    """
    parts = _parts(colour)
    for step in range(STEPS + 1):
        mixed = [round(255 * (each + (1 - each) * step / STEPS)) for each in parts]
        made = "#" + "".join(f"{each:02x}" for each in mixed)
        if contrast(made, ground) >= least:
            return made
    return "#ffffff"


def _parts(colour: str) -> tuple[float, ...]:
    return tuple(int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5))


def _luminance(colour: str) -> float:
    red, green, blue = (
        each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in _parts(colour)
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
