"""Charts drawn when the site is built: dust against known amounts, hiding by kind of binder, grain sizes.

A chart has one line a mark, so that words keep their size and never meet on a phone; across runs a
logarithmic scale in percent of the width.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from mullbook.derive.results import DerivedPigment
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Limit, Quantity
from mullbook.render.words import number, room_volume, said

LINE = 23
"""Height of a line, px."""
LATE = 50.0
"""Percent of the width from which words stand left of their mark."""
LETTER = 2.35
"""Percent of the width of a phone that a letter takes."""
THIN = 1.2
"""Least width of a bar, percent."""
GLASSY, SEMI_OPAQUE = 0.005, 0.03
"""Contrast below which a pale pigment reads glassy, and semi-opaque."""
SUGAR = (("a grain of sugar", 0.5), ("a pinch", 300.0), ("a lump of sugar", 4000.0))
"""Amounts one knows by sight, mg; rough, common practice."""
SIEVES = ((100, 150.0), (200, 75.0), (325, 45.0))
"""ASTM E11 sieves and their openings, um."""
RESPIRABLE = 4.0
"""Size of which half reaches the deep lung, um; EN 481, from memory."""
LIGHT = (0.4, 0.7)
"""Wavelengths of light, um."""


@dataclass(frozen=True, slots=True)
class Mark:
    """One line of a chart: a stretch of the scale, its words, and whether it is what the page is about."""

    low: float
    high: float
    words: str
    ours: bool = False


@dataclass(frozen=True, slots=True)
class Scale:
    """A logarithmic scale between two powers of ten, with its ticks."""

    low: int
    high: int
    ticks: Sequence[tuple[float, str]]

    def at(self, value: float) -> float:
        """Place of a value in percent of the width; what lies outside stands at the edge."""
        if value <= 0:
            return 0.0
        place = 100 * (math.log10(value) - self.low) / (self.high - self.low)
        return round(min(100.0, max(0.0, place)), 1)


MILLIGRAMS = Scale(
    -2, 4, ((0.01, "0.01"), (0.1, "0.1"), (1, "1"), (10, "10"), (100, "100"), (1000, "1 g"), (10000, "10 g"))
)
CONTRAST = Scale(-4, 0, ((0.0001, "0"), (GLASSY, "0.005"), (SEMI_OPAQUE, "0.03"), (0.3, "0.3")))
MICROMETRES = Scale(-2, 3, ((0.01, "0.01"), (0.1, "0.1"), (1, "1"), (10, "10"), (100, "100"), (1000, "1 mm")))


def drawn(scale: Scale, marks: Sequence[Mark]) -> Markup:
    """A chart as SVG whose words are read out as they stand. Parameters: `scale`, `marks` from the top."""
    foot = LINE * len(marks)
    lines = "".join(_line(scale, mark, LINE * place) for place, mark in enumerate(marks))
    return Markup(
        f'<div><svg class="chart" width="100%" height="{foot + 28}">{lines}'
        f'<path d="M0 {foot + 4}h3000"/>{"".join(_ticks(scale, foot))}</svg></div>'
    )


def _line(scale: Scale, mark: Mark, top: int) -> str:
    low, high = scale.at(mark.low), scale.at(mark.high)
    width = max(high - low, THIN)
    place = _beside(low, low + width, len(mark.words) * LETTER + 2)
    drawn_line = (
        f'<rect x="{min(low, 100 - THIN):g}%" y="{top + 4}" width="{round(width, 1):g}%" height="13"/>'
        f'<text {place} y="{top + 15}">{escape(mark.words)}</text>'
    )
    return f'<g class="ours">{drawn_line}</g>' if mark.ours else drawn_line


def _beside(low: float, high: float, need: float) -> str:
    """Where words stand that need a part of the width: beside their bar, or over it for want of room."""
    left, right = low >= need, 100 - high >= need
    if right and (low <= LATE or not left):
        return f'x="{round(high, 1):g}%" dx="6"'
    if left:
        return f'x="{low:g}%" dx="-6" class="end"'
    return 'x="0" class="over"' if low > 100 - high else 'x="100%" class="over end"'


def _ticks(scale: Scale, foot: int) -> Iterator[str]:
    for value, words in scale.ticks:
        place = scale.at(value)
        side = "" if place < 6 else ' class="end"' if place > 94 else ' class="mid"'
        yield f'<text{side} x="{place:g}%" y="{foot + 22}">{words}</text>'


class Charts:
    """The charts of one catalogue."""

    def __init__(self, catalogue: Catalogue) -> None:
        self.catalogue = catalogue
        self.room = room_volume(catalogue)

    def limit_ladder(self) -> Markup:
        """Milligrams that fill the reckoned room to known limits, beside amounts one knows by sight."""
        dust = self.catalogue.policy.unlisted_dust
        general = [
            self._fills(limit, f"any dust, {words}")
            for limit, words in ((dust.respirable, "the finest part"), (dust.inhalable, "all breathed in"))
        ]
        return self._ladder([*self._known(), *general])

    def dust_ladder(self, found: DerivedPigment) -> Markup | None:
        """The same with one pigment's dust, or None where no limit is known for it."""
        limit = found.safety.shown_limit
        if limit is None:
            return None
        return self._ladder([self._fills(limit.reckoned, "this dust", ours=True), *self._known()])

    def _fills(self, limit: float, name: str, *, ours: bool = False) -> Mark:
        """The milligrams that fill the room to a limit."""
        mass = limit * self.room
        return Mark(mass, mass, f"{name}: {_mass(mass)}", ours=ours)

    def _ladder(self, marks: Sequence[Mark]) -> Markup:
        rows = sorted((*marks, *self._sugar()), key=lambda mark: mark.low)
        return drawn(MILLIGRAMS, rows)

    def _sugar(self) -> Iterable[Mark]:
        return (Mark(mass, mass, f"{name}: about {_mass(mass)}") for name, mass in SUGAR)

    def _known(self) -> Iterator[Mark]:
        for substance, name in (("quartz", "quartz, fine"), ("lead-compounds", "lead, as metal")):
            limits = [
                each.value.range.high
                for each in self._limits(substance)
                if each.type == "twa"
                and each.jurisdiction == self.catalogue.classification.jurisdiction
                and each.value.range
            ]
            if limits:
                yield self._fills(min(limits), name)

    def _limits(self, substance: str) -> tuple[Limit, ...]:
        entry = self.catalogue.substance.get(substance)
        return self.catalogue.limits_of(entry) if entry else ()

    def hiding(self, found: DerivedPigment) -> Markup | None:
        """How well a pale pigment hides, one line a kind of binder, the best first; None without indices."""
        kinds: dict[str, list[float]] = {}
        for binder, working in found.optics:
            if working.result is not None:
                held = kinds.setdefault(self.catalogue.binder[binder].kind, [])
                held += [working.result.low, working.result.high]
        if not kinds:
            return None
        rows = [Mark(min(held), max(held), said(kind), ours=True) for kind, held in kinds.items()]
        rows.sort(key=lambda mark: (-mark.high, mark.words))
        return drawn(CONTRAST, rows)

    def size_ruler(self, size: Quantity | None = None) -> Markup:
        """Grain sizes from a sieve to below the length of light, with one pigment's grains where known."""
        rows = [Mark(opening, opening, f"sieve No. {mesh}: {number(opening)} µm") for mesh, opening in SIEVES]
        rows.append(Mark(RESPIRABLE, RESPIRABLE, f"half to the lung: {number(RESPIRABLE)} µm"))
        rows.append(Mark(*LIGHT, "light waves: 0.4 to 0.7 µm"))
        if size is not None and size.range is not None:
            low, high = size.range.low, size.range.high
            span = number(low, 2) if low == high else f"{number(low, 2)}–{number(high, 2)}"
            rows.append(Mark(low, high, f"these grains: {span} µm", ours=True))
        rows.sort(key=lambda mark: -mark.high)
        return drawn(MICROMETRES, rows)


def _mass(milligrams: float) -> str:
    """Milligrams in words, grams from a thousand on.

    >>> _mass(6.0), _mass(4000.0)
    ('6 mg', '4 g')
    """
    return f"{number(milligrams / 1000, 2)} g" if milligrams >= 1000 else f"{number(milligrams, 2)} mg"
