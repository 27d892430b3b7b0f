"""From a recipe and the catalogue to what the batch arithmetic needs, with every uncertain figure named."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from mullbook.derive.batch_parts import WATER_DENSITY, Knobs, Part
from mullbook.derive.composition import share_range
from mullbook.derive.paint import blended_density
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.facts import Target
from mullbook.model.recipes import GLYCOLS, Dosed, Recipe
from mullbook.model.values import Quantity, Range
from mullbook.science.batch import Dose, Impossible, Material, Spec
from mullbook.science.paint import cpvc, cpvc_in_dispersion

WITHOUT_TARGET = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """A recipe made ready for the arithmetic."""

    recipe: Recipe
    knobs: Knobs
    pigments: tuple[tuple[Part, float], ...]
    vehicle: Part | None
    binder: Part | None
    doses: tuple[tuple[Part, Dosed, str], ...]
    has_dispersant: bool
    aim: str
    target: str | None
    binder_index: str | None
    fallback: str | None
    """PVC to start from where the critical PVC is not known."""

    def critical(
        self, values: Mapping[str, float], spec_pigments: tuple[tuple[Material, float], ...]
    ) -> float | None:
        """Critical PVC of the pigments together in this binder, a fraction; None where it is not known."""
        shares = [(each, share) for each, share in spec_pigments]
        if any(each.oil_absorption is None for each, _ in shares):
            return None
        oil = sum((each.oil_absorption or 0.0) * share for each, share in shares)
        density = 1 / sum(share / each.density for each, share in shares)
        in_oil = cpvc(oil, density)
        return cpvc_in_dispersion(in_oil, values[self.binder_index]) if self.binder_index else in_oil

    def spec(self, values: Mapping[str, float]) -> Spec:
        """The batch for one gram of pigment, figures at given values. Raises `Impossible`."""
        pigments = tuple((part.at(values), share) for part, share in self.pigments)
        vehicle, let_down = self.recipe.paste.vehicle, self.recipe.let_down
        doses = tuple(
            Dose(material=part.at(values), percent=values[percent], of=dosed.of)
            for part, dosed, percent in self.doses
        )
        return Spec(
            pigments=pigments,
            vehicle=self.vehicle.at(values) if self.vehicle else None,
            vehicle_by=vehicle.by if vehicle else "weight",
            vehicle_ratio=self._vehicle_ratio(values),
            dispersant=doses[0] if self.has_dispersant else None,
            binder=self.binder.at(values) if self.binder else None,
            aim="ratio" if self.aim == "ratio" else "pvc",
            target=self._target(values, pigments),
            ratio_by=let_down.ratio.measured_by if let_down and let_down.ratio else "volume",
            additions=doses[1:] if self.has_dispersant else doses,
        )

    def _vehicle_ratio(self, values: Mapping[str, float]) -> float:
        vehicle = self.recipe.paste.vehicle
        if vehicle is None:
            return 0.0
        amount = values["vehicle"]
        return amount / 100 if vehicle.by == "weight" else amount

    def _target(self, values: Mapping[str, float], pigments: tuple[tuple[Material, float], ...]) -> float:
        if self.target is None:
            return 0.0
        value = values[self.target]
        if self.aim != "lambda":
            return value
        critical = self.critical(values, pigments)
        if critical is None and self.fallback is not None:
            return values[self.fallback]
        if critical is None:
            raise Impossible(
                "the target is a part of the critical PVC, and the rub-out oil absorption of the pigments is"
                " not known: measure it, or give the target as a PVC",
                "let_down.by",
            )
        pvc = value * critical
        if pvc >= 1:
            raise Impossible(
                "a PVC of 100 % and more leaves no binder", "let_down.target", nearest=1 / critical
            )
        return pvc


def plan(catalogue: Catalogue, recipe: Recipe) -> Plan:
    """Gather every figure a recipe needs. What is missing is listed in `knobs.missing`, never guessed."""
    knobs = Knobs()
    pigments = _pigments(catalogue, recipe, knobs)
    aim, target = _aim(catalogue, recipe, knobs)
    vehicle = recipe.paste.vehicle
    if vehicle is not None:
        unit = "g per 100 g of pigment" if vehicle.by == "weight" else "ml per ml of powder"
        knobs.put("vehicle", "vehicle", "number", vehicle.amount.range, unit)
    dosed = [each for each in (recipe.paste.dispersant, *recipe.additions) if each]
    binder = catalogue.binder.get(recipe.let_down.binder) if recipe.let_down else None
    if recipe.let_down and binder is None:
        knobs.missing.append(f"there is no binder called {recipe.let_down.binder}")
    return Plan(
        recipe=recipe,
        knobs=knobs,
        pigments=pigments,
        vehicle=_additive(catalogue, vehicle.additive, "vehicle", knobs) if vehicle else None,
        binder=_binder(binder, knobs) if binder else None,
        doses=tuple(_dose(catalogue, each, place, knobs) for place, each in enumerate(dosed)),
        has_dispersant=recipe.paste.dispersant is not None,
        aim=aim,
        target=target,
        binder_index=knobs.take("binder index", binder.binder_index, "binder index", needed=False)
        if binder
        else None,
        fallback=knobs.take("fallback", _usual_pvc(catalogue, recipe, binder), "usual PVC", needed=False),
    )


def _pigments(catalogue: Catalogue, recipe: Recipe, knobs: Knobs) -> tuple[tuple[Part, float], ...]:
    parts = [
        share_range(each.share).middle if each.share else each.part if each.part is not None else 1.0
        for each in recipe.pigments
    ]
    total = sum(parts) or 1.0
    vehicle = recipe.paste.vehicle
    by_volume = vehicle is not None and vehicle.by == "volume-to-pigment"
    packing = vehicle.packing if vehicle else None
    found = []
    for each, part in zip(recipe.pigments, parts, strict=True):
        pigment = catalogue.pigment.get(each.pigment)
        if pigment is None:
            knobs.missing.append(f"there is no pigment called {each.pigment}")
            continue
        found.append((_pigment(catalogue, pigment, packing if by_volume else None, knobs), part / total))
    return tuple(found)


def _pigment(catalogue: Catalogue, pigment: Pigment, packing: str | None, knobs: Knobs) -> Part:
    from mullbook.derive.composition import parts as constituents

    name, physical = pigment.name, pigment.physical
    density = physical.density or blended_density(catalogue, constituents(catalogue, pigment.constituents))
    bulk = physical.bulk_density_tapped if packing == "tapped" else physical.bulk_density_loose
    return Part(
        id=pigment.id,
        role="pigment",
        density=knobs.take(f"{pigment.id} density", density, f"density of {name}"),
        bulk=knobs.take(f"{pigment.id} bulk", bulk, f"density of the {packing} powder of {name}")
        if packing
        else None,
        oil_absorption=knobs.take(
            f"{pigment.id} oil", physical.oil_absorption, f"rub-out oil absorption of {name}", needed=False
        ),
    )


def _binder(binder: Binder, knobs: Knobs) -> Part:
    # Where all of it stays, wet and dry density are one figure and must not range apart.
    whole = binder.solids is not None and binder.solids.ends == (1, 1)
    return Part(
        id=binder.id,
        role="binder",
        density=knobs.take(f"{binder.id} wet density", binder.density_wet, f"density of {binder.name}"),
        stays=knobs.take(f"{binder.id} solids", binder.solids, f"solids of {binder.name}"),
        stays_density=None
        if whole
        else knobs.take(f"{binder.id} dry density", binder.density_dry, f"dry density of {binder.name}"),
    )


def _additive(catalogue: Catalogue, additive_id: str, role: str, knobs: Knobs) -> Part:
    additive = catalogue.additive.get(additive_id)
    if additive is None:
        knobs.missing.append(f"there is no additive called {additive_id}")
        return Part(id=additive_id, role=role, density=None)
    active = knobs.take(f"{additive_id} active", additive.active, f"active content of {additive.name}", False)
    return Part(
        id=additive_id,
        role=role,
        density=knobs.take(f"{additive_id} density", additive.density, f"density of {additive.name}", False)
        or knobs.put(
            f"{additive_id} density",
            f"density of {additive.name}",
            "g/cm3",
            WATER_DENSITY,
            "not known: taken as that of water",
        ),
        stays=active if additive.stays_in_film == "yes" else None,
        active=active,
        glycol=_glycol(additive, knobs),
        volatile=additive.stays_in_film != "yes",
    )


def _glycol(additive: Additive, knobs: Knobs) -> str | None:
    shares = [share_range(each.share) for each in additive.constituents if each.substance in GLYCOLS]
    if not shares:
        return None
    whole = Range(min(1.0, sum(each.low for each in shares)), min(1.0, sum(each.high for each in shares)))
    return knobs.put(f"{additive.id} glycol", f"glycol in {additive.name}", "fraction", whole)


def _dose(catalogue: Catalogue, dosed: Dosed, place: int, knobs: Knobs) -> tuple[Part, Dosed, str]:
    additive = catalogue.additive.get(dosed.additive)
    role = additive.role if additive else "additive"
    name = knobs.put(
        f"dose {place} {dosed.additive}", f"dose of {dosed.additive}", "percent", dosed.dose.range, dosed.of
    )
    return _additive(catalogue, dosed.additive, role, knobs), dosed, name


def targets_of(catalogue: Catalogue, recipe: Recipe) -> tuple[Target, ...]:
    """What the recipe's system aims at, by finish."""
    system = catalogue.system.get(recipe.system)
    return system.targets if system else ()


def _usual_pvc(catalogue: Catalogue, recipe: Recipe, binder: Binder | None) -> Quantity | None:
    """PVC to start from where no rub-out is known: the system's for the finish, else the binder's."""
    finish = recipe.let_down.finish if recipe.let_down else None
    for each in targets_of(catalogue, recipe):
        if each.finish == finish and each.without_rub_out:
            return each.without_rub_out
    return binder.target.without_rub_out if binder else None


def _aim(catalogue: Catalogue, recipe: Recipe, knobs: Knobs) -> tuple[str, str | None]:
    """What is aimed at, `pvc`, `lambda` or `ratio`, and the name of its figure."""
    let_down = recipe.let_down
    if let_down is None:
        return "none", None
    if let_down.by == "ratio" and let_down.ratio is not None:
        parts = Range.of(let_down.ratio.binder / let_down.ratio.paste)
        return "ratio", knobs.put("target", "parts of binder to one of paste", "number", parts)
    if let_down.target is not None:
        unit = "number" if let_down.by == "lambda" else "fraction"
        return let_down.by, knobs.put("target", f"target {let_down.by}", unit, let_down.target.range)
    targets = targets_of(catalogue, recipe)
    if targets and all(each.by == WITHOUT_TARGET for each in targets):
        knobs.missing.append(f"{targets[0].why[0].lower()}{targets[0].why[1:].rstrip('.')}: give a ratio")
        return "pvc", None
    wanted = next((each for each in targets if each.finish == let_down.finish and each.range), None)
    if wanted is None or knobs.take("target", wanted.range, f"target for {let_down.finish}") is None:
        known = ", ".join(each.finish for each in targets if each.finish and each.range) or "none"
        knobs.missing.append(
            f"the system {recipe.system} names no target for the finish {let_down.finish} (it has: {known})"
        )
        return "pvc", None
    return wanted.by, "target"
