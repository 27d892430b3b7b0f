"""From the slab to the drum: how a larger batch is ground, in how many charges, with what blade."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from mullbook.derive.batch_results import Sheet
from mullbook.derive.batch_warnings import MULLED_AT_MOST, NOT_MULLED
from mullbook.derive.scale_results import Blade, Scale, Way
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Range
from mullbook.science.formula import number_text
from mullbook.science.registry import evaluate

CHARGE_AT_MOST = {"jar": 1000.0, "drum": 50_000.0}
"""Millilitres of paste in one charge; common practice for a bench machine and for a drum half full."""
MOST_CHARGES = 20
"""Charges above which a way of grinding is not worth naming."""
TIP_SPEED = Range(20, 26)
"""Speed of the blade's edge, m/s; common practice."""
BLADES_DEEP = Range(1, 2)
"""Height of the charge in blade diameters; common practice."""
CLEARANCE = Range(0.5, 1)
"""Height of the blade above the bottom in its own diameters; common practice."""
AFTER_LAST_POWDER = 20.0
"""Minutes under the blade once the last powder is in; common practice."""
DRILL_RPM = 3000.0
"""Turns of a hand drill; common practice."""
FASTEST_RPM = 10_000.0
"""Turns that few laboratory dispersers pass; common practice."""
OIL_KINDS = ("oil", "encaustic")
"""Systems without water in the paste."""

HEAT = "Stop the blade before the paste reaches 40 to 50 °C, and wait until it has cooled."
HEAT_IN_OIL = "No limit of warmth is on record for an oil paste: feel the pot, and stop when it grows hot."
STIRRED = (
    "Not applicable because this paint is stirred together, not ground: take pots that can be lifted and"
    " stirred, and keep to the weights."
)
STIFF_OIL = (
    "A stiff oil paste is too thick for a blade: it goes over rollers. The figures hold for one that flows."
)
POWDER = "Powder goes into the vortex in portions, from low down, while the blade runs slowly."
BINDER = "The binder never goes under the blade: it is stirred in slowly afterwards."


def scale_up(catalogue: Catalogue, sheet: Sheet, pigment_mass: float | None = None) -> Scale:
    """How the paste of a batch is ground at a size.

    Parameters: `catalogue`; `sheet`, the batch worked out; `pigment_mass` (g), the size wanted where it is
    not the sheet's own: everything grows in proportion. Returns the ways of grinding from the slab up, each
    with its charges; where nothing is ground, or the sheet could not be worked out, why not.
    """
    recipe = sheet.recipe
    if sheet.missing or sheet.pigment_mass <= 0:
        words = " ".join(sheet.missing) or "Not derivable because the batch holds no pigment."
        return Scale(recipe=recipe.id, pigment_mass=0.0, not_applicable=words)
    mass = pigment_mass or sheet.pigment_mass
    system = catalogue.system.get(recipe.system)
    kind = system.kind if system else recipe.system
    bare = Scale(recipe=recipe.id, pigment_mass=mass, beyond_slab=mass > MULLED_AT_MOST, keep=_keep(sheet))
    if kind in NOT_MULLED:
        return Scale(
            recipe=bare.recipe, pigment_mass=mass, beyond_slab=bare.beyond_slab, keep=bare.keep,
            not_applicable=STIRRED,
        )  # fmt: skip
    volume = _paste_volume(sheet) * mass / sheet.pigment_mass
    in_oil = kind in OIL_KINDS
    return Scale(
        recipe=recipe.id,
        pigment_mass=mass,
        paste_volume=volume,
        beyond_slab=bare.beyond_slab,
        ways=(ways := tuple(_ways(mass, volume))),
        keep=bare.keep,
        heat=HEAT_IN_OIL if in_oil else HEAT,
        notes=(*_too_small(volume, ways), *((STIFF_OIL, POWDER) if in_oil else (POWDER, BINDER))),
    )


def _too_small(volume: float, ways: Sequence[Way]) -> tuple[str, ...]:
    """Why no blade is named, where the charge is too small for one."""
    speed = blade_for(volume).speed.result
    if speed is None or any(each.blade for each in ways):
        return ()
    turns = number_text(speed.low, 2)
    return (
        f"A blade small enough for {number_text(volume, 2)} ml of paste would have to turn {turns} times a"
        " minute, and few machines do: mull it.",
    )


def _paste_volume(sheet: Sheet) -> float:
    """Millilitres under the blade: the paste; where it is dry powder only, the binder with it."""
    paste = [each for each in sheet.lines if each.stage == "paste"]
    if all(each.kind == "pigment" for each in paste):
        paste += [each for each in sheet.lines if each.kind == "binder"]
    return sum(each.millilitres for each in paste)


def _keep(sheet: Sheet) -> str:
    figures = {each.id: each for each in sheet.figures}
    pvc, reduced = figures.get("pvc"), figures.get("lambda")
    held = f"PVC {100 * pvc.value:.3g} %" if pvc and pvc.value is not None else "the PVC"
    if reduced and reduced.value is not None:
        held += f" and lambda {reduced.value:.3g}"
    return (
        f"Keep {held}: multiply every weight by the same number. Do not multiply spoons or parts, because"
        " powder packs closer in a large measure than in a small one."
    )


def _ways(mass: float, volume: float) -> Iterator[Way]:
    on_slab = math.ceil(mass / MULLED_AT_MOST - 1e-9)
    if on_slab <= MOST_CHARGES:
        yield Way(id="slab", charges=on_slab, pigment=mass / on_slab, volume=volume / on_slab)
    smaller = 0.0
    for size, most in CHARGE_AT_MOST.items():
        charges = math.ceil(volume / most - 1e-9)
        blade = blade_for(volume / charges)
        if charges <= MOST_CHARGES and volume > smaller and not blade.too_fast:
            yield Way(
                id=size,
                charges=charges,
                pigment=mass / charges,
                volume=volume / charges,
                minutes=charges * AFTER_LAST_POWDER,
                blade=blade,
            )
        smaller = most


def blade_for(volume: float) -> Blade:
    """The disperser for a charge of so many millilitres: the pot follows from it, the blade from the pot."""
    vessel = evaluate("vessel_for_charge", {"volume": volume, "blades_deep": BLADES_DEEP})
    middle = evaluate("vessel_for_charge", {"volume": volume, "blades_deep": BLADES_DEEP.middle})
    pot = middle.result.middle if middle.result else 0.0
    blade = evaluate("blade_diameter", {"vessel_diameter": pot})
    diameter = blade.result.middle if blade.result else 0.0
    speed = evaluate("speed_for_tip", {"diameter": diameter, "tip_speed": TIP_SPEED})
    return Blade(
        vessel=vessel,
        blade=blade,
        clearance=evaluate("blade_clearance", {"diameter": diameter, "diameters": CLEARANCE}),
        speed=speed,
        fill=evaluate("fill_height", {"volume": volume, "vessel_diameter": pot}),
        drill=evaluate("tip_speed", {"diameter": diameter, "speed": DRILL_RPM}),
        too_fast=speed.result is not None and speed.result.low > FASTEST_RPM,
    )
