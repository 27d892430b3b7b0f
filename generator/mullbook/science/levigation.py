"""Washing an earth: what goes over at each pour, which dense grains go along, when the salts are out."""

from __future__ import annotations

import math
from collections.abc import Sequence

from mullbook.science.paint import above_nought
from mullbook.science.settling import settling_size, settling_time, settling_velocity

MOST_WASHES = 50
"""Changes of water beyond which another way is looked for."""


def retained_water(kept: float, depth: float) -> float:
    """Part of the water that stays behind at a pour: `kept/(kept + depth)`, in a straight-sided vessel.

    Parameters: `kept` (cm), height left standing; `depth` (cm), height poured off. Returns a fraction.
    Raises `ValueError` unless something is poured off.

    >>> retained_water(2.5, 10)
    0.2
    """
    above_nought(depth, "depth")
    if kept < 0:
        raise ValueError("the height left standing must not be below 0")
    return kept / (kept + depth)


def poured_share(
    size: float,
    time: float,
    depth: float,
    density: float,
    temperature: float,
    *,
    retained: float = 0.2,
    rounds: float = 1,
    solids_fraction: float = 0.0,
) -> float:
    """Part of the grains of one size that have gone over with the water after some rounds.

    Grains begin evenly spread. In the time they fall `v t`; what is still above the spout, `1 - v t/depth`
    of the height poured, goes over, and of the whole `1 - retained` is poured:
    `1 - (1 - (1 - retained) max(0, 1 - v t/depth))^rounds`.

    Parameters: `size` (um); `time` (min) of standing; `depth` (cm) down to the spout; `density` (g/cm3);
    `temperature` (C); `retained`, part of the water left behind; `rounds` of filling up, stirring, standing
    and pouring; `solids_fraction` by volume. Returns a fraction. Raises `ValueError` as settling does.

    >>> round(poured_share(10, 4.64, 10, 2.65, 20), 3), poured_share(20, 4.65, 10, 2.65, 20)
    (0.6, 0.0)
    >>> round(poured_share(10, 4.64, 10, 2.65, 20, rounds=3), 3)
    0.936
    """
    if time < 0:
        raise ValueError("time must not be below 0")
    above_nought(depth, "depth")
    _check_retained(retained)
    if rounds < 0:
        raise ValueError("the rounds must not be below 0")
    velocity = settling_velocity(size, density, temperature, solids_fraction=solids_fraction)
    over = (1 - retained) * max(0.0, 1 - velocity * time * 60 / (depth / 100))
    return float(1 - (1 - over) ** rounds)


def _check_retained(retained: float) -> None:
    if not 0 <= retained < 1:
        raise ValueError("the part of the water left behind must be at least 0 and below 1")


def equal_settling(size: float, density: float, other_density: float, temperature: float) -> float:
    """Size of grains of another density that sink just as fast.

    Parameters: `size` (um) of grains of `density` (g/cm3); `other_density` (g/cm3); `temperature` (C) of
    the water. Returns um. Raises `ValueError` for grains that do not sink.

    >>> round(equal_settling(45, 2.65, 5.26, 20), 1)
    28.0
    """
    time = settling_time(size, 1, density, temperature)
    return settling_size(time, 1, other_density, temperature)


def wash_conductivity(conductivity: float, wash_water: float, retained: float, washes: float) -> float:
    """Conductivity after some changes of water: `wash + (first - wash) retained^washes`.

    It holds for salts that are dissolved from the start; gypsum goes on dissolving and falls more slowly.

    Parameters: `conductivity` (mS/cm) of the water over the settled earth; `wash_water` (mS/cm);
    `retained`, part of the water left behind at each change; `washes`. Returns mS/cm. Raises `ValueError`.

    >>> round(wash_conductivity(1.8, 0.3, 0.2, 2), 3)
    0.36
    """
    _check_retained(retained)
    if min(conductivity, wash_water, washes) < 0:
        raise ValueError("conductivities and washes must not be below 0")
    return float(wash_water + (conductivity - wash_water) * retained**washes)


def washes_needed(conductivity: float, wash_water: float, retained: float, target: float) -> float:
    """Least number of changes of water after which the conductivity is down to a target.

    Parameters: as for `wash_conductivity`; `target` (mS/cm). Returns a whole number. Raises `ValueError`
    where the target is not above that of the wash water, which can only be come near to.

    >>> washes_needed(1.8, 0.3, 0.2, 0.4), washes_needed(0.35, 0.3, 0.2, 0.4)
    (2.0, 0.0)
    """
    _check_retained(retained)
    if min(conductivity, wash_water) < 0:
        raise ValueError("a conductivity must not be below 0")
    if conductivity <= target:
        return 0.0
    if target <= wash_water:
        raise ValueError(
            "washing only comes near to the conductivity of the wash water: set the target above it"
        )
    if retained == 0:
        return 1.0
    exact = math.log((target - wash_water) / (conductivity - wash_water)) / math.log(retained)
    found = float(max(0, math.ceil(exact - 1e-9)))
    if found > MOST_WASHES:
        raise ValueError(f"more than {MOST_WASHES} washes: leave less water behind at each")
    return found


def kept_share(kept: float, charged: float) -> float:
    """Yield of a washing: dry mass kept over dry mass charged.

    Parameters: `kept` and `charged` (g). Returns a fraction. Raises `ValueError` where more is kept.

    >>> kept_share(150, 300)
    0.5
    """
    above_nought(charged, "the charge")
    if kept > charged:
        raise ValueError("more was kept than went in: dry it longer and weigh again")
    return kept / charged


def shares_by_jar(
    size: float,
    density: float,
    waits: Sequence[float],
    depth: float,
    temperature: float,
    *,
    retained: float,
    rounds: int,
    solids_fraction: float,
) -> tuple[float, ...]:
    """Where the grains of one size end: part left in each jar of a cascade, and last what goes over all.

    In each round the first jar is filled up, stirred, left to stand and poured into the second, that into
    the third, and so on; what was left behind takes part in the next round.

    Parameters: `waits` (min), one a jar, rising; the others as for `poured_share`. Returns fractions that
    add up to 1.

    >>> parts = shares_by_jar(10, 2.65, (0.93, 18.6), 10, 20, retained=0.2, rounds=3, solids_fraction=0)
    >>> [round(each, 3) for each in parts]
    [0.014, 0.986, 0.0]
    """
    over = [
        poured_share(
            size, wait, depth, density, temperature, retained=retained, solids_fraction=solids_fraction
        )
        for wait in waits
    ]
    held = [1.0] + [0.0] * len(waits)
    for _ in range(rounds):
        for jar, part in enumerate(over):
            poured = held[jar] * part
            held[jar] -= poured
            held[jar + 1] += poured
    return tuple(held)
