"""A nest of sieves: what lies on each, what passes it, what was lost on the way."""

from __future__ import annotations

from collections.abc import Sequence

from mullbook.model.values.washing import Grains, SieveRow


def sieve_rows(openings: Sequence[float], masses: Sequence[float], pan: float = 0.0) -> tuple[SieveRow, ...]:
    """What lies on each sieve of a nest, from the coarsest down, and last in the pan.

    Parameters: `openings` (um), in any order; `masses` (g) in the same order; `pan` (g). Returns one row a
    sieve and one for the pan. Raises `ValueError` for lists that do not match or hold nothing.

    >>> [round(each.passing, 3) for each in sieve_rows((150, 45), (10, 30), 60)]
    [0.9, 0.6, 0.0]
    """
    if len(openings) != len(masses):
        raise ValueError("each sieve has one mass")
    if len(set(openings)) != len(openings) or min(openings, default=1.0) <= 0:
        raise ValueError("each sieve has an opening of its own, above 0")
    if min((*masses, pan)) < 0:
        raise ValueError("a mass must not be below 0")
    whole = sum(masses) + pan
    if whole <= 0:
        raise ValueError("nothing was weighed")
    rows, above = [], 0.0
    for opening, mass in sorted(zip(openings, masses, strict=True), reverse=True):
        above += mass / whole
        rows.append(SieveRow(opening, mass, mass / whole, above, max(0.0, 1 - above)))
    return (*rows, SieveRow(None, pan, pan / whole, 1.0, 0.0))


def percent_passing(openings: Sequence[float], masses: Sequence[float], pan: float, opening: float) -> float:
    """Part by mass that passes one sieve of a nest.

    Parameters: `openings` (um) and `masses` (g) of the nest; `pan` (g); `opening` (um) of the sieve asked
    about, one of the nest. Returns a fraction. Raises `ValueError` for another opening.

    >>> round(percent_passing((150, 75, 45), (2, 8, 12), 78, 75), 3)
    0.9
    """
    for row in sieve_rows(openings, masses, pan):
        if row.opening == opening:
            return row.passing
    raise ValueError(f"no sieve of {opening:g} um is in the nest")


def sieve_loss(charged: float, weighed: Sequence[float]) -> float:
    """Part of what was put on the nest that was not found again.

    Parameters: `charged` (g), put on; `weighed` (g), all that was found, the pan as well. Returns a
    fraction. Raises `ValueError` where more was found than was put on.

    >>> round(sieve_loss(100, (2, 8, 12, 77)), 3)
    0.01
    """
    if charged <= 0:
        raise ValueError("what was put on the nest must be above 0")
    lost = 1 - sum(weighed) / charged
    if lost < -1e-9:
        raise ValueError("more was found than was put on: weigh again, dry")
    return max(0.0, lost)


def expected_on(openings: Sequence[float], grains: Grains, charged: float) -> tuple[SieveRow, ...]:
    """What a stated guess at the grains would leave on each sieve.

    Parameters: `openings` (um); `grains`; `charged` (g). Returns rows as `sieve_rows` does.

    >>> [round(each.mass, 1) for each in expected_on((63, 2), Grains(), 100)]
    [20.0, 50.0, 30.0]
    """
    descending = sorted(openings, reverse=True)
    above = [grains.above(each) for each in descending]
    masses = [charged * (one - before) for one, before in zip(above, [0.0, *above], strict=False)]
    return sieve_rows(descending, masses, charged * (1 - above[-1]) if above else charged)
