"""Formulas of settling: velocity, time and size, in water to wash earths and in air."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import settling
from mullbook.science.formula import Formula, Inputs, Turn, number_text
from mullbook.science.media import FLUIDS, medium

AT_BEST = "at best: the air of a room is never still"
ROUND = "the grains are round, and the walls of the jar are far off"

_SIZE = ParameterCard("size", "um", "diameter of the grains", low=0, high=settling.LARGEST_SIZE)
_DEPTH = ParameterCard("depth", "cm", "height the grains sink through", low=0)
_AROUND = (
    ParameterCard("density", "g/cm3", "density of the grains themselves, without air", low=0),
    ParameterCard("temperature", "C", "temperature of the water or air", low=0, high=50),
    ParameterCard(
        "solids_fraction",
        "fraction",
        "part by volume of all solids in the slurry, not by mass",
        0.0,
        low=0,
        high=0.5,
    ),
    ParameterCard("fluid", "text", "what they sink in", FLUIDS[0], shape="text", choices=FLUIDS),
    ParameterCard(
        "state",
        "text",
        "whether each grain sinks by itself or in flocs",
        settling.STATES[0],
        shape="text",
        choices=settling.STATES,
    ),
)
_LAW = (
    "drag: N.-S. Cheng, Powder Technology 189 (2009) 395; crowding: T. A. Brzinski and D. J. Durian,"
    " arXiv:1710.09314, fast grains J. F. Richardson and W. N. Zaki, 1954, from memory; water: IAPWS R12-08"
    " and G. S. Kell, J. Chem. Eng. Data 20 (1975) 97; slip: C. N. Davies, Proc. Phys. Soc. 57 (1945) 259"
)
_VALID = (
    "still water or air of 0 to 50 °C at one atmosphere; crowding counts from 0.005 solids by volume;"
    " above 0.1, or in flocs, a slurry settles as a front, not by size"
)

_CLOCK = (("s", 1.0, "min", 60, 60), ("min", 60.0, "h", 60, 48), ("h", 3600.0, "d", 24, math.inf))
"""Smaller unit, its seconds, larger unit, how many make one, how many before the next."""


def duration(minutes: float) -> str:
    """Return a time as one would say it.

    >>> duration(0.7415), duration(4.64), duration(463.7), duration(18000)
    ('44.5 s', '4 min 38 s', '7 h 44 min', '12 d 12 h')
    """
    seconds = minutes * 60
    if seconds < 59.95:
        return f"{number_text(seconds, 3)} s"
    for unit, small, large, length, most in _CLOCK:
        whole, rest = divmod(round(seconds / small), length)
        if whole < most:
            return f"{whole} {large} {rest} {unit}" if rest else f"{whole} {large}"
    raise AssertionError(seconds)


def _durations(minutes: Range) -> str:
    low, high = duration(minutes.low), duration(minutes.high)
    return low if low == high else f"{low} to {high}"


def _caveats(words: str, inputs: Inputs) -> str:
    """Add to a reading what the fluid and the solids ask to be said."""
    solids = inputs["solids_fraction"]
    assert isinstance(solids, Range)
    if solids.high > settling.FRONT_ABOVE:
        words = f"{words}; above {settling.FRONT_ABOVE:g} solids a slurry {settling.FRONT_WORDS}"
    return f"{words}; {AT_BEST}" if inputs["fluid"] == "air" else words


def _time_for_10_cm(result: Range, inputs: Inputs) -> str:
    if result.low == 0:
        return ""
    times = Range(0.1 / result.high / 60, 0.1 / result.low / 60)
    return _caveats(f"10 cm in {_durations(times)}", inputs)


def _time(result: Range, inputs: Inputs) -> str:
    return _caveats(_durations(result), inputs)


def _size_sunk(result: Range, inputs: Inputs) -> str:
    return _caveats(f"grains larger than {number_text(result.high, 3)} µm have sunk", inputs)


def _fall(point: Mapping[str, Any], size: Any) -> str:
    """Tell the velocity of a grain: Stokes' law and what changes it."""
    around = medium(point["fluid"], point["temperature"])
    density, solids = point["density"], point["solids_fraction"]
    alone = settling.free_velocity(size, density, around)
    reynolds = alone * size * 1e-6 * around.density / around.viscosity
    drag, slip = settling.drag_over_stokes(reynolds), settling.slip(size * 1e-6, around.free_path)
    told = (
        f"9.807 × ({number_text(density)} \N{MINUS SIGN} {number_text(around.density / 1000)}) g/cm3"
        f" × ({number_text(size)} µm)²/(18 × {number_text(around.viscosity * 1000)} mPa s)"
        f"/{number_text(drag, 5)} for drag at Re {number_text(reynolds, 2)}"
    )
    if slip > 1:
        told += f" × {number_text(slip)} for slip"
    if solids >= settling.HINDERED_FROM:
        power = settling.exponent(size, alone, around)
        told += f" × (1 \N{MINUS SIGN} {number_text(solids)})^{number_text(power, 3)} for crowding"
    return told


def _time_steps(point: Mapping[str, Any]) -> str:
    depth, size = point["depth"], point["size"]
    velocity = depth / 100 / settling.settling_time(**point) / 60
    told = f"{number_text(depth)} cm/({number_text(velocity)} m/s)"
    return f"{told}, the velocity being {_fall(point, size)}; in minutes"


def _size_steps(point: Mapping[str, Any]) -> str:
    depth, time = point["depth"], point["time"]
    velocity = number_text(depth / 100 / (time * 60))
    told = _fall(point, settling.settling_size(**point))
    return f"{number_text(depth)} cm/{number_text(time)} min is {velocity} m/s, which is {told}; the size"


def _turn_in_air(function: Callable[..., float]) -> Turn:
    """Return where a result in air turns round in temperature: slip grows with it, and so does viscosity."""

    def turn(point: Mapping[str, Any]) -> float:
        def slope(temperature: float) -> float:
            near = (function(**{**point, "temperature": temperature + step}) for step in (-0.02, 0.02))
            return float(-next(near) + next(near))

        low, high = 0.02, 49.98
        if point["fluid"] != "air" or slope(low) * slope(high) >= 0:
            return math.nan
        rising = slope(low) > 0
        for _ in range(30):
            middle = (low + high) / 2
            low, high = (middle, high) if (slope(middle) > 0) == rising else (low, middle)
        return (low + high) / 2

    return turn


SETTLING_VELOCITY = Formula(
    FormulaCard(
        id="settling_velocity",
        title="Velocity of sinking grains",
        statement=(
            "velocity = g × (density \N{MINUS SIGN} density of the fluid) × size²/(18 × viscosity)"
            "/drag factor × slip × (1 \N{MINUS SIGN} solids)^n"
        ),
        parameters=(_SIZE, *_AROUND),
        unit="m/s",
        source=_LAW,
        validity=_VALID,
        example=(("size", "45"), ("density", "2.65"), ("temperature", "20")),
        caution=(
            "Grains below about 1 µm are kept up by heat motion and the least current: they sink more slowly"
            " than this, or not at all."
        ),
    ),
    settling.settling_velocity,
    lambda point: _fall(point, point["size"]),
    turns={"temperature": _turn_in_air(settling.settling_velocity)},
    reading=_time_for_10_cm,
    assumptions=(ROUND,),
)

SETTLING_TIME = Formula(
    FormulaCard(
        id="settling_time",
        title="Time in which grains have sunk",
        statement="time = depth/velocity of sinking",
        parameters=(_SIZE, _DEPTH, *_AROUND),
        unit="min",
        source=_LAW,
        validity=_VALID,
        example=(("size", "20"), ("depth", "10"), ("density", "2.65"), ("temperature", "20")),
        caution=(
            "Washing sorts by size and weight: a dense grain sinks with a larger light one. What stays up"
            " longest is the dustiest part once dried: keep it as a damp paste."
        ),
    ),
    settling.settling_time,
    _time_steps,
    turns={"temperature": _turn_in_air(settling.settling_time)},
    reading=_time,
    assumptions=(ROUND,),
)

SETTLING_SIZE = Formula(
    FormulaCard(
        id="settling_size",
        title="Size of the grains that have sunk",
        statement="the size whose velocity of sinking is depth/time",
        parameters=(ParameterCard("time", "min", "time of standing still", low=0), _DEPTH, *_AROUND),
        unit="um",
        source=_LAW,
        validity=f"{_VALID}; the exact inverse of `settling_time`",
        example=(("time", "5"), ("depth", "10"), ("density", "2.65"), ("temperature", "20")),
        caution="Finer grains that began near the bottom have sunk too: wash again to part them well.",
    ),
    settling.settling_size,
    _size_steps,
    turns={"temperature": _turn_in_air(settling.settling_size)},
    reading=_size_sunk,
    assumptions=(ROUND,),
)

FORMULAS = (SETTLING_VELOCITY, SETTLING_TIME, SETTLING_SIZE)
