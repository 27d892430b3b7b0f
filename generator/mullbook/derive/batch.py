"""The sheet of one batch: what to weigh, what it comes to, and what to mind."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from mullbook.derive.batch_figures import figures, spread
from mullbook.derive.batch_inputs import Plan, plan
from mullbook.derive.batch_results import Line, Sheet
from mullbook.derive.batch_warnings import warnings
from mullbook.model.catalogue import Catalogue
from mullbook.model.recipes import Recipe
from mullbook.science.batch import (
    Impossible,
    Material,
    Totals,
    mass_for_volume,
    solve,
    totals,
    vehicle_mass,
)
from mullbook.science.formula import number_text

DROP_ML = 0.05
"""One drop of a watery liquid; common practice. Drops stand beside grams, never alone."""
DROPS_BELOW = 1.0
POWDER_FROM = 1.25
"""Density, g/cm3, from which a small addition is a powder and is not told in drops; common practice."""
ROLES_IN_DROPS = ("defoamer", "preservative", "ph-adjuster", "wetting-agent", "dispersant")


def batch(catalogue: Catalogue, recipe: Recipe, scale: float = 1.0) -> Sheet:
    """Work out a batch.

    Parameters: `catalogue`; `recipe`; `scale`, a factor on everything. Returns the sheet; where something is
    missing or the aim cannot be met the sheet says so in words. Never raises on bad recipes.
    """
    made = plan(catalogue, recipe)
    missing = tuple(f"Not derivable because {each}." for each in made.knobs.missing)
    if missing:
        return Sheet(recipe=recipe, missing=missing)
    try:
        return _worked_out(catalogue, made, scale)
    except Impossible as error:
        words = f"Not derivable because {error}."
        return Sheet(recipe=recipe, missing=(words,), field_name=error.field_name, nearest=error.nearest)
    except ValueError as error:
        return Sheet(recipe=recipe, missing=(f"Not derivable because {error}.",))


def _worked_out(catalogue: Catalogue, made: Plan, scale: float) -> Sheet:
    values = made.knobs.middles
    spec = made.spec(values)
    mass = pigment_mass(made, values) * scale
    if mass <= 0:
        raise Impossible("the batch holds no pigment", "fixed")
    grams = solve(spec, mass)
    found = totals(spec.materials, grams)
    recipe = made.recipe
    yielded = found.volume * (1 - (recipe.loss.middle if recipe.loss else 0.0) / 100)
    tubes, left_over = _tubes(recipe, yielded)
    cost = _cost(recipe, spec.materials, grams)
    sheet = Sheet(
        recipe=recipe,
        pigment_mass=mass,
        lines=_lines(catalogue, made, grams, scale),
        figures=figures(catalogue, made, grams, yielded),
        inputs=tuple(made.knobs.ranges.values()),
        tubes=tubes,
        left_over=left_over,
        cost=cost,
        currency=recipe.prices.currency if recipe.prices and cost is not None else None,
    )
    return replace(sheet, warnings=warnings(catalogue, made, grams, found, _reduced(made, values, found)))


def pigment_mass(made: Plan, values: Mapping[str, float]) -> float:
    """Grams of pigment together that what is fixed asks for.

    A volume or a number of tubes is what is left after the loss on slab and knife.
    """
    fixed, recipe = made.recipe.fixed, made.recipe
    if fixed.kind == "pigment-mass":
        return fixed.mass.middle if fixed.mass else 0.0
    wanted = fixed.volume.middle if fixed.volume else 0.0
    if fixed.kind == "tubes":
        if recipe.tube is None or fixed.count is None:
            raise Impossible("a number of tubes needs the tube's volume", "tube")
        wanted = fixed.count * tube_volume(recipe)
    kept = 1 - (recipe.loss.middle if recipe.loss else 0.0) / 100
    if kept <= 0:
        raise Impossible("everything is lost on the slab", "loss")
    return mass_for_volume(made.spec(values), wanted / kept)


def tube_volume(recipe: Recipe) -> float:
    """What goes into one tube, ml: its volume times how full it is filled."""
    if recipe.tube is None:
        return 0.0
    return recipe.tube.volume.middle * (recipe.tube.fill.middle / 100 if recipe.tube.fill else 1.0)


def _tubes(recipe: Recipe, yielded: float) -> tuple[int | None, float | None]:
    one = tube_volume(recipe)
    if one <= 0:
        return None, None
    # A batch solved for whole tubes must not lose one to the last binary digit.
    full = int(yielded / one + 1e-9)
    return full, max(0.0, yielded - full * one)


def _cost(recipe: Recipe, materials: tuple[Material, ...], grams: Mapping[str, float]) -> float | None:
    if recipe.prices is None:
        return None
    density = {each.id: each.density for each in materials}
    total = 0.0
    for price in recipe.prices.items:
        mass = grams.get(price.item, 0.0)
        total += price.price * (
            mass / 1000 if price.per == "kg" else mass / density.get(price.item, 1.0) / 1000
        )
    return total


def _lines(catalogue: Catalogue, made: Plan, grams: Mapping[str, float], scale: float) -> tuple[Line, ...]:
    names = {each.id: each.name for each in catalogue.things}
    spec = made.spec(made.knobs.middles)
    stages = {dosed.additive: getattr(dosed, "stage", "paste") for _, dosed, _ in made.doses}
    lines = []
    for material in {each.id: each for each in spec.materials}.values():
        mass = grams[material.id]
        volume = mass / material.density
        liquid = material.density < POWDER_FROM and material.role in ROLES_IN_DROPS
        small = liquid and volume < DROPS_BELOW
        lines.append(
            Line(
                id=material.id,
                name=names.get(material.id, material.id),
                kind=material.role,
                stage="let-down" if material.role == "binder" else stages.get(material.id, "paste"),
                grams=mass,
                range=spread(made, _mass_of(made, material.id, scale)),
                millilitres=volume,
                drops=max(1, round(volume / DROP_ML)) if small else None,
                steps=_steps(material, made, grams),
            )
        )
    return tuple(lines)


def _mass_of(made: Plan, name: str, scale: float) -> Callable[[Mapping[str, float]], float]:
    return lambda values: solve(made.spec(values), pigment_mass(made, values) * scale)[name]


def _steps(material: Material, made: Plan, grams: Mapping[str, float]) -> str:
    """How one mass came about, in numbers."""
    mass, powder = number_text(grams[material.id]), sum(grams[part.id] for part, _ in made.pigments)
    values = made.knobs.middles
    spec = made.spec(values)
    if material.role == "pigment":
        share = next(share for part, share in made.pigments if part.id == material.id)
        return f"{number_text(powder)} g of pigment × {number_text(share)} = {mass} g"
    if material.role == "vehicle":
        return f"{number_text(powder)} g × {number_text(vehicle_mass(spec))} g of vehicle per g = {mass} g"
    if material.role == "binder":
        if spec.aim == "ratio":
            return f"{number_text(spec.target)} parts to one of paste by {spec.ratio_by} = {mass} g"
        return (
            f"the binder film that brings the PVC to {number_text(100 * spec.target)} %,"
            f" solids {number_text(material.stays)}, dry {number_text(material.stays_density or 0)} g/cm3,"
            f" = {mass} g"
        )
    dose = next(each for each in spec.doses if each.material.id == material.id)
    return f"{number_text(dose.percent)} % {dose.of.replace('-', ' ')} = {mass} g"


def _reduced(made: Plan, values: Mapping[str, float], found: Totals) -> float | None:
    critical = made.critical(values, made.spec(values).pigments)
    return found.pvc / critical if critical else None
