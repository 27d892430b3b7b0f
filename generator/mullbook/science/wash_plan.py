"""A whole washing: jars, rounds, waits and pours; where each size of each mineral ends; water and time."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.model.values.washing import Cut, Fraction, Mineral, Plan, Step, Washing
from mullbook.science.levigation import (
    retained_water,
    shares_by_jar,
    wash_conductivity,
    washes_needed,
)
from mullbook.science.media import medium
from mullbook.science.paint import above_nought
from mullbook.science.settling import (
    FRONT_ABOVE,
    FRONT_WORDS,
    GRAVITY,
    HINDERED_FROM,
    settling_size,
    settling_time,
)

STOKES_TO = 60.0
"""Size (um) above which drag takes more than a few per cent off Stokes' velocity of quartz."""
BROWNIAN_BELOW = 1.0
"""Size (um) below which heat motion and the least current keep grains up."""
BY_HAND_FROM = 20 / 60
"""Wait (min) that a hand with a clock can keep."""
STILL_TO = 240.0
"""Wait (min) after which the warmth of a room has stirred most jars."""
MOST_CUTS, MOST_ROUNDS, MOST_MINERALS = 6, 20, 12


def plan(asked: Washing) -> Plan:
    """Work a washing out.

    Parameters: `asked`. Returns the plan. Raises `ValueError` in words where it cannot be: above 0.1
    solids nothing parts by size.

    >>> found = plan(Washing(density=2.65, cuts=(45, 20), solids=0.004))
    >>> [round(each.minutes, 2) for each in found.cuts], round(sum(each.share for each in found.fractions), 9)
    ([0.92, 4.64], 1.0)
    """
    cuts, minerals = _checked(asked)
    retained = retained_water(asked.kept, asked.depth)
    waits = tuple(_minutes(asked, size, asked.density) for size in cuts)
    found = tuple(_cut(asked, size, wait, minerals) for size, wait in zip(cuts, waits, strict=True))
    steps = tuple(_steps(asked, cuts, waits, retained))
    grams = asked.solids * asked.volume * 1000 * asked.density
    settle = settling_time(
        asked.settle, asked.depth, min(each.density for each in minerals), asked.temperature
    )
    washes, readings, target = _washes(asked, retained)
    changes = washes or 0.0
    return Plan(
        grams=grams,
        retained=retained,
        cuts=found,
        steps=steps,
        fractions=tuple(_fractions(asked, minerals, found, grams, retained)),
        settle_minutes=settle,
        washes=washes,
        readings=readings,
        target=target,
        litres=sum(each.litres_in for each in steps) + changes * asked.volume * (1 - retained),
        minutes=sum(each.minutes for each in steps) + (1 + changes) * settle,
        limits=tuple(_limits(asked, cuts, waits)),
    )


def _checked(asked: Washing) -> tuple[tuple[float, ...], tuple[Mineral, ...]]:
    """Return the cuts from coarse to fine and the minerals, or say what is wrong with them."""
    for value, name in (
        (asked.density, "density"),
        (asked.depth, "depth"),
        (asked.volume, "volume"),
        (asked.solids, "the solids"),
        (asked.settle, "the size to settle"),
    ):
        above_nought(value, name)
    if asked.solids > FRONT_ABOVE:
        raise ValueError(f"a slurry with more than {FRONT_ABOVE:g} solids by volume {FRONT_WORDS}: thin it")
    cuts = tuple(sorted(set(asked.cuts), reverse=True))
    if not 0 < len(cuts) <= MOST_CUTS:
        raise ValueError(f"one to {MOST_CUTS} sizes can be cut at")
    if not 1 <= asked.rounds <= MOST_ROUNDS:
        raise ValueError(f"one to {MOST_ROUNDS} rounds can be planned")
    minerals = asked.minerals or (Mineral("earth", asked.density),)
    if len(minerals) > MOST_MINERALS:
        raise ValueError(f"at most {MOST_MINERALS} minerals can be followed")
    for each in minerals:
        above_nought(each.density, "density")
    return cuts, minerals


def _minutes(asked: Washing, size: float, density: float, solids: float | None = None) -> float:
    return settling_time(
        size,
        asked.depth,
        density,
        asked.temperature,
        solids_fraction=asked.solids if solids is None else solids,
    )


def _cut(asked: Washing, size: float, wait: float, minerals: tuple[Mineral, ...]) -> Cut:
    thin = _minutes(asked, size, asked.density, 0.0)
    water = medium("water", asked.temperature)
    heavier = asked.density * 1000 - water.density
    stokes = GRAVITY * heavier * (size * 1e-6) ** 2 / (18 * water.viscosity)
    sizes = tuple(
        settling_size(wait, asked.depth, each.density, asked.temperature, solids_fraction=asked.solids)
        for each in minerals
    )
    alone = shares_by_jar(
        size / 2,
        asked.density,
        (wait,),
        asked.depth,
        asked.temperature,
        retained=retained_water(asked.kept, asked.depth),
        rounds=asked.rounds,
        solids_fraction=asked.solids,
    )
    return Cut(size, wait, thin, asked.depth / 100 / stokes / 60 * wait / thin, sizes, alone[-1])


def _steps(
    asked: Washing, cuts: tuple[float, ...], waits: tuple[float, ...], retained: float
) -> Iterator[Step]:
    """Yield the rounds; a jar that has been poured into holds what was left in it and what came over."""
    poured, left = asked.volume * (1 - retained), asked.volume * retained
    for each in range(1, asked.rounds + 1):
        for jar, (size, wait) in enumerate(zip(cuts, waits, strict=True), start=1):
            fresh = asked.volume if jar == 1 else left
            water = fresh if each == 1 else poured if jar == 1 else 0.0
            yield Step(each, jar, water, wait, poured, jar + 1, size)


def _fractions(
    asked: Washing, minerals: tuple[Mineral, ...], cuts: tuple[Cut, ...], grams: float, retained: float
) -> Iterator[Fraction]:
    """Yield what ends in each jar. Where no shares are known, all minerals are taken as equal parts."""
    known = [0.0 if each.share is None else each.share for each in minerals]
    whole = sum(known)
    shares = [each / whole for each in known] if whole > 0 else [1 / len(minerals)] * len(minerals)
    waits = [each.minutes for each in cuts]
    held = [[0.0] * len(minerals) for _ in range(len(cuts) + 1)]
    for size, part in asked.grains.points:
        for place, mineral in enumerate(minerals):
            ends = shares_by_jar(
                size,
                mineral.density,
                waits,
                asked.depth,
                asked.temperature,
                retained=retained,
                rounds=asked.rounds,
                solids_fraction=asked.solids,
            )
            for jar, share in enumerate(ends):
                held[jar][place] += grams * shares[place] * part * share
    for jar, masses in enumerate(held):
        yield Fraction(
            jar + 1,
            sum(masses),
            sum(masses) / grams,
            tuple(
                (
                    mass,
                    cuts[jar].sizes[place] if jar < len(cuts) else 0.0,
                    cuts[jar - 1].sizes[place] if jar else None,
                )
                for place, mass in enumerate(masses)
            ),
        )


def _washes(asked: Washing, retained: float) -> tuple[float | None, tuple[float, ...], float | None]:
    """Return how many changes of water, the conductivity after each, and the target."""
    if asked.conductivity is None:
        return None, (), None
    target = asked.wash_water + 0.1 if asked.target is None else asked.target
    count = washes_needed(asked.conductivity, asked.wash_water, retained, target)
    readings = tuple(
        wash_conductivity(asked.conductivity, asked.wash_water, retained, each)
        for each in range(int(count) + 1)
    )
    return count, readings, target


def _limits(asked: Washing, cuts: tuple[float, ...], waits: tuple[float, ...]) -> Iterator[str]:
    if cuts[0] > STOKES_TO:
        yield "drag"
    if min(waits) < BY_HAND_FROM:
        yield "hand"
    if asked.solids >= HINDERED_FROM:
        yield "crowded"
    if max(waits) > STILL_TO:
        yield "still"
    if cuts[-1] < BROWNIAN_BELOW:
        yield "brownian"
