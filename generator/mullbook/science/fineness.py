"""Sieves and grind gauges: numbers on the rim or the block, and the size they stand for."""

from __future__ import annotations

from mullbook.science.formula import number_text

E11: dict[float, float] = {
    3.5: 5600, 4: 4750, 5: 4000, 6: 3350, 7: 2800, 8: 2360, 10: 2000, 12: 1700, 14: 1400, 16: 1180,
    18: 1000, 20: 850, 25: 710, 30: 600, 35: 500, 40: 425, 45: 355, 50: 300, 60: 250, 70: 212,
    80: 180, 100: 150, 120: 125, 140: 106, 170: 90, 200: 75, 230: 63, 270: 53, 325: 45, 400: 38,
    450: 32, 500: 25, 635: 20,
}  # fmt: skip
"""Openings (um) of the sieves of ASTM E11 by number, as in the tables of the fluids library 1.3.1."""

ISO_3310_1: tuple[float, ...] = (
    5600, 5000, 4750, 4500, 4000, 3550, 3350, 3150, 2800, 2500, 2360, 2240, 2000, 1800, 1700, 1600, 1400,
    1250, 1180, 1120, 1000, 900, 850, 800, 710, 630, 600, 560, 500, 450, 425, 400, 355, 315, 300, 280, 250,
    224, 212, 200, 180, 160, 150, 140, 125, 112, 106, 100, 90, 80, 75, 71, 63, 56, 53, 50, 45, 40, 38, 36,
    32, 25, 20,
)  # fmt: skip
"""Openings (um) of ISO 3310-1, from the same tables."""

OLD_WITHIN = 0.03
"""How far an opening of an older table may lie from today's: 44, 74 and 37 um are Nos. 325, 200, 400."""

MICROMETRES_PER_HEGMAN = {"inch": 12.7, "metric": 12.5}
"""Depth of one Hegman unit (um): on a block 4 thousandths of an inch deep, and on one of 100 um."""


def opening_of_mesh(mesh: float) -> float:
    """Opening of a sieve by its number.

    Parameters: `mesh`, number of ASTM E11. Returns um. Raises `ValueError`, with its neighbours, for a
    number that is none.

    Source: ASTM E11.

    >>> opening_of_mesh(325)
    45
    """
    if mesh in E11:
        return E11[mesh]
    raise ValueError(f"ASTM E11 has no No. {number_text(mesh)} sieve; there is {_neighbours_of_mesh(mesh)}")


def mesh_of_opening(opening: float) -> float:
    """Number of the ASTM E11 sieve that has an opening; old openings count as today's.

    Parameters: `opening` (um). Returns the number. Raises `ValueError`, with its neighbours, where E11 has
    none within 3 per cent.

    Source: ASTM E11.

    >>> mesh_of_opening(45), mesh_of_opening(44), mesh_of_opening(74)
    (325, 325, 200)
    """
    mesh = min(E11, key=lambda each: abs(E11[each] - opening))
    if _same(E11[mesh], opening):
        return mesh
    raise ValueError(
        f"ASTM E11 has no sieve of {number_text(opening)} um; there is {_neighbours_of_opening(opening)}"
    )


def standard_opening(mesh: float | None = None, opening: float | None = None) -> float:
    """Opening of a standard sieve, from its number or from an opening as it is written.

    Parameters: either `mesh`, number of ASTM E11, or `opening` (um) of ASTM E11 or ISO 3310-1. Returns um:
    an opening of an older table is given as today's. Raises `ValueError` for what is no sieve.

    Source: ASTM E11 and ISO 3310-1.

    >>> standard_opening(mesh=200), standard_opening(opening=37), standard_opening(opening=100)
    (75, 38, 100)
    """
    if mesh is not None and opening is not None:
        raise ValueError("a sieve is asked for by its mesh or by its opening, not by both")
    if mesh is not None:
        return opening_of_mesh(mesh)
    if opening is None:
        raise ValueError("the mesh and the opening are not known")
    known = sorted({*E11.values(), *ISO_3310_1}, key=lambda each: (abs(each - opening), each))
    nearest = known[0]
    if nearest == opening or (nearest in E11.values() and _same(nearest, opening)):
        return nearest
    by_number = min(E11.values(), key=lambda each: abs(each - opening))
    if _same(by_number, opening):
        return by_number
    raise ValueError(
        f"no sieve of ASTM E11 or ISO 3310-1 has {number_text(opening)} um; "
        f"there is {_neighbours_of_opening(opening)}"
    )


def depth_of_hegman(hegman: float, convention: str = "inch") -> float:
    """Depth of the groove at a Hegman reading: `12.7 (8 - H)` or, on a 100 um block, `12.5 (8 - H)`.

    Parameters: `hegman`, 0 to 8; `convention`, inch or metric. Returns um. Raises `ValueError` outside.

    >>> round(depth_of_hegman(5), 1), depth_of_hegman(5, "metric")
    (38.1, 37.5)
    """
    if not 0 <= hegman <= 8:
        raise ValueError("a Hegman reading lies between 0 and 8")
    return _unit(convention) * (8 - hegman)


def hegman_of_depth(depth: float, convention: str = "inch") -> float:
    """Hegman reading at a depth of the groove: the inverse of `depth_of_hegman`.

    Parameters: `depth` (um); `convention`, inch or metric. Returns the reading. Raises `ValueError` where
    the groove is not so deep.

    >>> round(hegman_of_depth(25.4), 6), hegman_of_depth(25, "metric")
    (6.0, 6.0)
    """
    unit = _unit(convention)
    if not 0 <= depth <= 8 * unit:
        raise ValueError(f"the groove of this gauge is {8 * unit:g} um deep at most")
    return 8 - depth / unit


def _unit(convention: str) -> float:
    if convention not in MICROMETRES_PER_HEGMAN:
        raise ValueError(f"the convention is inch or metric, not {convention!r}")
    return MICROMETRES_PER_HEGMAN[convention]


def _same(opening: float, other: float) -> bool:
    return abs(opening - other) <= OLD_WITHIN * opening


def _neighbours_of_mesh(mesh: float) -> str:
    finer = [each for each in E11 if each > mesh]
    coarser = [each for each in E11 if each < mesh]
    return _listed([*coarser[-1:], *finer[:1]])


def _neighbours_of_opening(opening: float) -> str:
    coarser = [mesh for mesh, size in E11.items() if size > opening]
    finer = [mesh for mesh, size in E11.items() if size < opening]
    return _listed([*coarser[-1:], *finer[:1]])


def _listed(numbers: list[float]) -> str:
    return " and ".join(f"No. {number_text(mesh)} ({number_text(E11[mesh])} um)" for mesh in numbers)
