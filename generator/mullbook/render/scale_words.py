"""How a batch is ground at a size, in words and lines."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.scale_results import Blade, Scale, Way
from mullbook.render.words import number, range_text, result_text

WAY_NAMES = {"slab": "Slab", "jar": "Blade in a jar", "drum": "Blade in a pail or drum"}

SLOWEST_TIP = 20.0
"""Least tip speed at which a blade disperses, m/s; common practice."""


def scale_text(scale: Scale) -> str:
    """How the paste is ground, in lines: charges, blade, speed, time, warmth."""
    return "\n".join(_scale_lines(scale))


def _scale_lines(scale: Scale) -> Iterator[str]:
    yield "  Grinding a batch of this size (common practice)"
    if scale.not_applicable:
        yield f"    {scale.not_applicable}"
    for way in scale.ways:
        yield f"    {WAY_NAMES[way.id]}: {charges_text(way)}"
        if way.blade:
            yield from (f"      {line}" for line in blade_lines(way.blade))
        if way.minutes:
            yield f"      at least {number(way.minutes)} min after the last powder, all charges together"
    yield from (f"    {each}" for each in (scale.heat, *scale.notes, scale.keep) if each)


def charges_text(way: Way) -> str:
    """How many charges of how much.

    >>> charges_text(Way(id="slab", charges=2, pigment=75.0, volume=82.4))
    '2 charges of 75 g pigment, 82 ml of paste'
    """
    words = "1 charge" if way.charges == 1 else f"{way.charges} charges"
    return f"{words} of {mass_text(way.pigment)} pigment, {volume_text(way.volume)} of paste"


def mass_text(grams: float) -> str:
    """A mass in grams, or in kilograms from one up.

    >>> mass_text(54.14), mass_text(25000)
    ('54.1 g', '25 kg')
    """
    return f"{number(grams / 1000)} kg" if grams >= 1000 else f"{number(grams)} g"


def volume_text(millilitres: float) -> str:
    """A volume in millilitres, or in litres from one up.

    >>> volume_text(82.4), volume_text(27481)
    ('82 ml', '27 l')
    """
    if millilitres >= 1000:
        return f"{number(millilitres / 1000, 2)} l"
    return f"{number(millilitres, 2)} ml"


def blade_lines(blade: Blade) -> Iterator[str]:
    """Pot, blade and speed of one charge."""
    yield f"pot {result_text(blade.vessel)} wide, filled to {result_text(blade.fill)}"
    yield f"blade {result_text(blade.blade)}, {result_text(blade.clearance)} above the bottom"
    yield f"{speed_text(blade)} for 20 to 26 m/s at the edge"
    if weak_drill(blade):
        yield f"a hand drill of 3000 rpm brings it to {result_text(blade.drill)} only"


def weak_drill(blade: Blade) -> bool:
    """Whether a hand drill falls short of the speed."""
    return blade.drill.result is not None and blade.drill.result.high < SLOWEST_TIP


def speed_text(blade: Blade) -> str:
    """Turns of the blade."""
    if blade.speed.result is None:
        return blade.speed.not_derivable or "not derivable"
    return range_text(blade.speed.result, "rpm", 2)
