"""A washing worked out for an entry: the plan, its workings, and what of the earth matters in the water."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.composition import element_share, parts
from mullbook.derive.earth_results import Waits
from mullbook.derive.paint import given
from mullbook.derive.verdict import ELEMENT_NAMES
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.values import Input, Quantity, Range, Working
from mullbook.model.values.washing import Washing, WashSheet
from mullbook.science.registry import evaluate
from mullbook.science.wash_plan import plan

IN_WATER = ("Pb", "Cd", "Hg", "As", "Sb", "Se", "Cr", "Co", "Ni", "Mn", "Ba", "Cu", "V", "U")
"""Elements for whose sake the wash water is collected."""
FROM_SHARE = 0.001
SLOW_SALTS = ("gypsum",)
ACID_SALTS = ("jarosite", "pyrite")
SWELLING = ("montmorillonite",)
LAKE = "lake"
WAITS_FOR = {"Quartz, clay": 2.65, "Green earth, sienna": 3.3, "Goethite": 4.2, "Haematite": 5.2}
"""Densities that the table of waits is for, g/cm3."""
WAITS_OF = (75, 45, 20, 10, 5, 2, 1)
"""Sizes, um."""


def wash_sheet(
    catalogue: Catalogue,
    pigment: Pigment | None,
    asked: Washing,
    *,
    timed_by: str,
    density: Quantity | Range,
    level: str | None = None,
) -> WashSheet:
    """A washing worked out for an entry or for a density alone.

    Parameters: `asked`; `timed_by`, what the density that counts is of; `density`, that density with its
    range; `level`, of the dry powder, in words. Raises `ValueError` in words where there is no plan.
    """
    made = plan(asked)
    rho = given("density", density) if isinstance(density, Quantity) else Input("density", "g/cm3", density)
    salts = None
    if asked.conductivity is not None:
        inputs = {"conductivity": asked.conductivity, "wash_water": asked.wash_water}
        salts = evaluate("washes", {**inputs, "retained": made.retained, "target": made.target})
    return WashSheet(
        name=pigment.name if pigment else "an earth",
        pigment=pigment.id if pigment else None,
        timed_by=timed_by,
        asked=asked,
        plan=made,
        waits=tuple(_wait(asked, cut.size, rho) for cut in made.cuts),
        salts=salts,
        level=level,
        minds=tuple(_minds(catalogue, pigment)),
    )


def waits() -> tuple[Waits, ...]:
    """The waits for 10 cm of still, dilute water at 20 °C: what one looks up before there is a plan."""
    return tuple(
        Waits(
            size=size,
            times=tuple(
                evaluate("settling_time", {"size": size, "depth": 10, "density": density, "temperature": 20})
                for density in WAITS_FOR.values()
            ),
        )
        for size in WAITS_OF
    )


def _wait(asked: Washing, size: float, density: Input | None) -> Working:
    return evaluate(
        "settling_time",
        {
            "size": size,
            "depth": asked.depth,
            "density": density,
            "temperature": asked.temperature,
            "solids_fraction": asked.solids,
        },
    )


def _minds(catalogue: Catalogue, pigment: Pigment | None) -> Iterator[str]:
    found = parts(catalogue, pigment.constituents) if pigment else ()
    held = {part.substance for part in found if part.share.high >= FROM_SHARE}
    poisons = [each for each in IN_WATER if element_share(found, each) >= FROM_SHARE]
    if poisons:
        names = ", ".join(ELEMENT_NAMES.get(each, each) for each in poisons)
        yield f"This earth holds {names}: collect all the wash water and ask. Clear is not clean."
    else:
        yield "Keep the wash water off soil and out of drains until you know its salts. Clear is not clean."
    if held.intersection(SLOW_SALTS):
        yield "Gypsum goes on dissolving: the conductivity falls more slowly than reckoned here."
    if held.intersection(ACID_SALTS):
        yield "Acid salts: wear gloves and goggles, and take the pH of the water as well."
    if pigment and pigment.family == LAKE:
        yield "A lake may dissolve a little: stop where the water stays coloured after a night's rest."
    if held.intersection(SWELLING):
        yield "Swelling clay stays up for days: pour it off, or it thickens the paste and cracks the paint."
    yield (
        "The finest part is the most easily breathed once it is dry: where the paint is made with water,"
        " keep it as a damp paste under water."
    )
