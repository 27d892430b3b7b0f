"""How fast grains sink in still water or air, when, and which have sunk: one drag law, solved either way.

Grains are round and sizes are diameters. The drag goes over to Stokes' law for fine grains without a seam.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from mullbook.science.media import FLUIDS, Medium, medium
from mullbook.science.paint import above_nought

GRAVITY = 9.80665
"""Standard gravity (m/s2)."""
BOLTZMANN = 1.380649e-23

HINDERED_FROM = 0.005
"""Share of solids by volume from which grains hinder each other."""
FRONT_ABOVE = 0.1
"""Share of solids by volume above which a slurry settles as a front."""
FRONT_WORDS = "settles as a front, not by size"
STATES = ("dispersed", "flocculated")

BROWNIAN_EXPONENT = 5.6
CREEPING_EXPONENT = 4.48
FAST_EXPONENT = 2.39
PECLET = 1e8
"""Péclet number about which hindered settling goes from the Brownian exponent to the other."""

LEAST_SIZE, LARGEST_SIZE = 1e-3, 5000.0
"""Sizes (um) among which the inverse looks."""


def drag_over_stokes(reynolds: float) -> float:
    """Drag on a sphere over the drag by Stokes' law; goes to 1 for slow grains.

    Parameters: `reynolds`, Reynolds number of the grain, to 200 000. Returns a plain number.

    Source: N.-S. Cheng, Powder Technology 189 (2009) 395-398.

    >>> round(drag_over_stokes(1e-6), 6), round(drag_over_stokes(100), 2)
    (1.0, 4.59)
    """
    slow = (1 + 0.27 * reynolds) ** 0.43
    fast = -0.47 * reynolds / 24 * math.expm1(-0.04 * reynolds**0.38)
    return float(slow + fast)


def slip(size: float, free_path: float) -> float:
    """Cunningham's slip correction: how much faster a grain falls between the molecules of a gas.

    Parameters: `size` (m); `free_path` (m), nought for a liquid. Returns a plain number, 1 or more.

    Source: C. N. Davies, Proc. Phys. Soc. 57 (1945) 259-270.

    >>> slip(1e-6, 0.0), round(slip(1e-6, 65e-9), 2)
    (1.0, 1.16)
    """
    if free_path == 0:
        return 1.0
    knudsen = 2 * free_path / size
    return 1 + knudsen * (1.257 + 0.4 * math.exp(-1.1 / knudsen))


def free_velocity(size: float, density: float, fluid: Medium) -> float:
    """Terminal velocity of one grain alone.

    Parameters: `size` (um); `density` (g/cm3) of the grain; `fluid`. Returns m/s. Raises `ValueError` for a
    grain that does not sink or sinks too fast for the drag law.
    """
    above_nought(size, "size")
    heavier = density * 1000 - fluid.density
    if heavier <= 0:
        raise ValueError(f"a grain of {density:g} g/cm3 does not sink in {fluid.name}")
    metres = size * 1e-6
    kinematic = fluid.viscosity / fluid.density
    stokes = GRAVITY * heavier * metres**2 / (18 * fluid.viscosity) * slip(metres, fluid.free_path)
    wanted = stokes * metres / kinematic
    if wanted > 1e9:
        raise ValueError(f"a grain of {size:g} um sinks too fast for the drag law")
    return _reynolds(wanted) * kinematic / metres


def _reynolds(stokes: float) -> float:
    """Return the Reynolds number whose drag balances the weight that Stokes' law meets at `stokes`."""
    if stokes == 0:
        return 0.0
    return _rising_root(lambda r: math.log(r * drag_over_stokes(r) / stokes), stokes / 3000, stokes)


def exponent(size: float, velocity: float, fluid: Medium) -> float:
    """Exponent of hindered settling, by regime: 5.6 for Brownian grains, 4.48 creeping, 2.39 fast.

    Parameters: `size` (um); `velocity` (m/s) of the grain alone; `fluid`. Returns a plain number. Between
    the Brownian and the other branch, about a Péclet number of 1e8, it goes over without a jump.

    Source: T. A. Brzinski and D. J. Durian, arXiv:1710.09314 (5.6 and 4.48); J. F. Richardson and
    W. N. Zaki, 1954 (4.45 Re^-0.1 down to 2.39; from memory, not confirmed).
    """
    metres = size * 1e-6
    reynolds = velocity * metres * fluid.density / fluid.viscosity
    falling = 4.45 * reynolds**-0.1 if reynolds > 0 else CREEPING_EXPONENT
    inertial = min(CREEPING_EXPONENT, max(FAST_EXPONENT, falling))
    mobility = slip(metres, fluid.free_path) / (3 * math.pi * fluid.viscosity * metres)
    peclet = velocity * metres / (BOLTZMANN * fluid.temperature * mobility)
    return float(inertial + (BROWNIAN_EXPONENT - inertial) / (1 + peclet / PECLET))


def settling_velocity(
    size: float,
    density: float,
    temperature: float,
    *,
    solids_fraction: float = 0.0,
    fluid: str = FLUIDS[0],
    state: str = STATES[0],
) -> float:
    """Velocity at which grains of one size sink: drag law, slip in air, `(1 - solids)^n` when crowded.

    Parameters: `size` (um); `density` (g/cm3) of the grains; `temperature` (C), 0 to 50; `solids_fraction`
    by volume; `fluid`, water or air; `state`, dispersed or flocculated. Returns m/s. Raises `ValueError`
    for grains that do not sink and for flocculated ones.

    >>> round(settling_velocity(2, 2.65, 20) * 1e6, 3)
    3.594
    >>> round(settling_velocity(2, 2.65, 20, solids_fraction=0.05) * 1e6, 3)
    2.697
    """
    if state == "flocculated":
        raise ValueError(f"a flocculated slurry {FRONT_WORDS}")
    if not 0 <= solids_fraction < 1:
        raise ValueError("solids fraction must be at least 0 and below 1")
    around = medium(fluid, temperature)
    alone = free_velocity(size, density, around)
    if solids_fraction < HINDERED_FROM:
        return alone
    return float(alone * (1 - solids_fraction) ** exponent(size, alone, around))


def settling_time(
    size: float,
    depth: float,
    density: float,
    temperature: float,
    *,
    solids_fraction: float = 0.0,
    fluid: str = FLUIDS[0],
    state: str = STATES[0],
) -> float:
    """Time in which grains of one size sink a depth: `depth/velocity`.

    Parameters: `depth` (cm); the others as for `settling_velocity`. Returns minutes. Raises as it does.

    >>> round(settling_time(20, 10, 2.65, 20), 2)
    4.64
    """
    above_nought(depth, "depth")
    velocity = settling_velocity(
        size, density, temperature, solids_fraction=solids_fraction, fluid=fluid, state=state
    )
    return depth / 100 / velocity / 60


def settling_size(
    time: float,
    depth: float,
    density: float,
    temperature: float,
    *,
    solids_fraction: float = 0.0,
    fluid: str = FLUIDS[0],
    state: str = STATES[0],
) -> float:
    """Size of the grains that just sink a depth in a time: the exact inverse of `settling_time`.

    Parameters: `time` (min); `depth` (cm); the others as for `settling_velocity`. Returns um: larger grains
    have sunk. Raises `ValueError` above 0.1 solids, where grains do not part by size, and where no grain
    between 0.001 and 5000 um sinks so.

    >>> round(settling_size(4.64, 10, 2.65, 20), 1)
    20.0
    """
    above_nought(time, "time")
    above_nought(depth, "depth")
    if solids_fraction > FRONT_ABOVE:
        raise ValueError(f"a slurry with more than {FRONT_ABOVE:g} solids by volume {FRONT_WORDS}")
    wanted = depth / 100 / (time * 60)

    def over(size: float) -> float:
        velocity = settling_velocity(
            size, density, temperature, solids_fraction=solids_fraction, fluid=fluid, state=state
        )
        return math.log(velocity / wanted)

    if over(LEAST_SIZE) > 0 or over(LARGEST_SIZE) < 0:
        raise ValueError(f"no grain between {LEAST_SIZE:g} and {LARGEST_SIZE:g} um sinks that fast or slow")
    return _rising_root(over, LEAST_SIZE, LARGEST_SIZE)


def _rising_root(over: Callable[[float], float], low: float, high: float) -> float:
    """Return where a function that rises with the logarithm of a number passes nought.

    False position between brackets (the Illinois rule), in the logarithm, to the last figures of a float.
    """
    under, above = over(low), over(high)
    if above <= 0:
        return high
    found, side = high, 0
    for _ in range(200):
        found = low * math.exp(math.log(high / low) * under / (under - above))
        height = over(found)
        if height == 0 or high / low - 1 < 4e-16 or abs(height) < 2e-16:
            break
        if height > 0:
            high, above = found, height
            under = under / 2 if side > 0 else under
            side = 1
        else:
            low, under = found, height
            above = above / 2 if side < 0 else above
            side = -1
    return found
