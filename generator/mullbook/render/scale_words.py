"""How a batch is ground at a size, in words and lines."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.scale_results import Blade, Scale, Way
from mullbook.render.words import number, range_text, result_text

WAY_NAMES = {"slab": "Slab", "jar": "Blade in a jar", "drum": "Blade in a pail or drum"}
TOO_FAST = "few machines turn so small a blade so fast: mull it instead"


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
    return f"{words} of {number(way.pigment)} g pigment, {volume_text(way.volume)} of paste"


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
    yield f"a hand drill of 3000 rpm brings it to {result_text(blade.drill)} only"


def speed_text(blade: Blade) -> str:
    """Turns of the blade, and whether a machine does them."""
    if blade.speed.result is None:
        return blade.speed.not_derivable or "not derivable"
    text = range_text(blade.speed.result, "rpm", 2)
    return f"{text} ({TOO_FAST})" if blade.too_fast else text
