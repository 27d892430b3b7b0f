"""Weighing out: doses and what they are of, percentages of paste, parts by volume, mixing, tubes."""

from __future__ import annotations

import math
from collections.abc import Sequence

from mullbook.science.paint import above_nought, between_nought_and_one, parts, same_length

BASES = ("active-on-pigment", "product-on-pigment", "product-on-total", "active-on-total", "on-binder")
"""What a dose in per cent may be of."""


def dose(
    percent: float,
    basis: str,
    *,
    active: float | None = None,
    pigment_mass: float | None = None,
    total_mass: float | None = None,
    binder_mass: float | None = None,
) -> float:
    """Product to weigh for a dose in per cent of something.

    Parameters: `percent`; `basis`, one of `BASES` (on binder: product on binder as supplied); `active`,
    fraction by mass of the product; the mass (g) the basis asks for. Returns g of product.
    Raises `ValueError` where what the basis asks for is not known.

    >>> dose(2, "active-on-pigment", active=0.4, pigment_mass=80)
    4.0
    >>> round(dose(2, "product-on-total", total_mass=135), 3)
    2.7
    """
    if basis not in BASES:
        raise ValueError(f"a dose is {', '.join(BASES[:-1])} or {BASES[-1]}, not {basis!r}")
    asked = {"pigment": pigment_mass, "total": total_mass, "binder": binder_mass}
    thing = basis.rpartition("-")[2]
    mass = asked[thing]
    if mass is None:
        raise ValueError(f"the mass of {'the whole' if thing == 'total' else thing} is not known")
    if not basis.startswith("active"):
        return percent / 100 * mass
    if active is None:
        raise ValueError("the active content of the product is not known")
    above_nought(active, "active content")
    return percent / 100 * mass / active


def per_100(percent_of_paste: float) -> float:
    """Liquid per 100 g of pigment from liquid in per cent of the paste: `100 p/(100 - p)`.

    Parameters: `percent_of_paste`, by mass, below 100. Returns g/100g. Raises `ValueError` outside 0 to 100.

    >>> round(per_100(72))
    257
    """
    if not 0 <= percent_of_paste < 100:
        raise ValueError("percent of paste must be at least 0 and below 100")
    return 100 * percent_of_paste / (100 - percent_of_paste)


def percent_of_paste(per_100: float) -> float:
    """Liquid in per cent of the paste from liquid per 100 g of pigment: the inverse of `per_100`.

    Parameters: `per_100` (g/100g), not below 0. Returns per cent. Raises `ValueError` below 0.

    >>> percent_of_paste(100)
    50.0
    """
    if per_100 < 0:
        raise ValueError("liquid per 100 g of pigment must not be below 0")
    return 100 * per_100 / (100 + per_100)


def parts_by_volume(
    pigment_mass: float, bulk_density: float, binder_mass: float, binder_density: float
) -> float:
    """Parts of powder, with its air, to one part of binder, by volume.

    `(pigment mass/bulk density)/(binder mass/binder density)`

    Parameters: `pigment_mass` and `binder_mass` (g); `bulk_density` (g/cm3) of the powder as it lies, loose
    or tapped; `binder_density` (g/cm3) as supplied. Returns a plain number. Raises `ValueError` for
    densities or a binder that are not above nought.

    >>> round(parts_by_volume(100, 0.6, 150, 1.05), 3)
    1.167
    """
    for number, name in (
        (bulk_density, "bulk density"),
        (binder_mass, "binder mass"),
        (binder_density, "binder density"),
    ):
        above_nought(number, name)
    return pigment_mass / bulk_density * binder_density / binder_mass


def mix_by_mass(masses: Sequence[float], shares: Sequence[float]) -> float:
    """Share of one thing in a mix of several that hold it: `sum(m w)/sum(m)`.

    Parameters: `masses` (g); `shares`, fraction by mass of the thing in each. Returns a fraction.
    Raises `ValueError` where the lists do not match or weigh nothing.

    >>> mix_by_mass([30, 70], [0.5, 0])
    0.15
    """
    same_length(masses, shares)
    return sum(mass * share for mass, share in zip(parts(masses), shares, strict=True)) / sum(masses)


def mass_to_add(mass: float, share: float, target: float, added_share: float = 0.0) -> float:
    """What to add to a mix to bring the share of one thing to a target: `m (w - t)/(t - a)`.

    Parameters: `mass` (g) there is; `share`, `target` and `added_share`, fractions by mass of the thing in
    the mix, as wanted and in what is added. Returns g, never below 0. Raises `ValueError` where no amount
    can do it.

    >>> round(mass_to_add(100, 0.5, 0.4), 6)
    25.0
    """
    if share == target:
        return 0.0
    if not min(share, added_share) < target < max(share, added_share):
        raise ValueError(
            f"no amount with a share of {added_share:g} brings {share:g} to {target:g}: "
            "the target must lie between the two"
        )
    return mass * (share - target) / (target - added_share)


def full_tubes(volume: float, loss: float, tube_volume: float) -> float:
    """Number of tubes that a batch fills: the whole part of `volume (1 - loss)/tube volume`.

    Parameters: `volume` (ml) of the batch; `loss`, fraction left on slab, knife and pot; `tube_volume` (ml)
    that goes into one tube. Returns a whole number. Raises `ValueError` for a tube that holds nothing.

    >>> full_tubes(225, 0.08, 37)
    5.0
    """
    return float(math.floor(_yield(volume, loss) / _tube(tube_volume) + 1e-9))


def tube_remainder(volume: float, loss: float, tube_volume: float) -> float:
    """What is left of a batch when its full tubes are filled.

    Parameters: as for `full_tubes`. Returns ml.

    >>> round(tube_remainder(225, 0.08, 37), 6)
    22.0
    """
    filled = full_tubes(volume, loss, tube_volume) * tube_volume
    return max(0.0, _yield(volume, loss) - filled)


def _yield(volume: float, loss: float) -> float:
    if loss:
        between_nought_and_one(loss, "loss")
    return volume * (1 - loss)


def _tube(tube_volume: float) -> float:
    above_nought(tube_volume, "tube volume")
    return tube_volume
