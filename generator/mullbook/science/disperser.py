"""A high-speed disperser: how fast the edge of its blade runs, and how blade, pot and charge go together."""

from __future__ import annotations

import math

from mullbook.science.paint import above_nought

BLADE_TO_VESSEL = 1 / 3
"""Diameter of the blade over that of the vessel."""


def tip_speed(diameter: float, speed: float) -> float:
    """Speed of the edge of a blade: `pi D n`.

    Parameters: `diameter` (mm) of the blade; `speed` (rpm). Returns m/s.

    >>> round(tip_speed(50, 7600), 1)
    19.9
    """
    above_nought(diameter, "diameter")
    return math.pi * diameter / 1000 * speed / 60


def speed_for_tip(diameter: float, tip_speed: float) -> float:
    """Turns of a blade that give its edge a speed: `v/(pi D)`.

    Parameters: `diameter` (mm) of the blade; `tip_speed` (m/s). Returns rpm.

    >>> round(speed_for_tip(50, 20))
    7639
    """
    above_nought(diameter, "diameter")
    return tip_speed / (math.pi * diameter / 1000) * 60


def blade_diameter(vessel_diameter: float, ratio: float = BLADE_TO_VESSEL) -> float:
    """Blade for a vessel: a third of its diameter.

    Parameters: `vessel_diameter` (mm); `ratio`, blade to vessel. Returns mm.

    >>> blade_diameter(150)
    50.0
    """
    above_nought(vessel_diameter, "vessel diameter")
    return vessel_diameter * ratio


def blade_clearance(diameter: float, diameters: float = 1.0) -> float:
    """Height of a blade above the bottom: half to one of its own diameters.

    Parameters: `diameter` (mm) of the blade; `diameters`, how many of them. Returns mm.

    >>> blade_clearance(50, 0.5)
    25.0
    """
    above_nought(diameter, "diameter")
    return diameter * diameters


def vessel_for_charge(volume: float, blades_deep: float, ratio: float = BLADE_TO_VESSEL) -> float:
    """Vessel in which a charge stands so many blades deep: the cube root of `4 V/(pi n r)`.

    Parameters: `volume` (ml) of the charge; `blades_deep`, its height in blade diameters; `ratio`, blade to
    vessel. Returns its diameter in mm.

    >>> round(vessel_for_charge(1000, 1.5))
    137
    >>> round(fill_height(1000, 136.6) / blade_diameter(136.6), 2)
    1.5
    """
    above_nought(volume, "volume")
    above_nought(blades_deep, "blades deep")
    return math.cbrt(4 * volume * 1000 / (math.pi * blades_deep * ratio))


def fill_height(volume: float, vessel_diameter: float) -> float:
    """Height at which a charge stands in an upright round vessel: `V/(pi D^2/4)`.

    Parameters: `volume` (ml); `vessel_diameter` (mm). Returns mm.

    >>> round(fill_height(1000, 120), 1)
    88.4
    """
    above_nought(vessel_diameter, "vessel diameter")
    return volume * 1000 / (math.pi / 4 * vessel_diameter**2)
