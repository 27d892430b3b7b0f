"""What a batch comes to: volumes, solids, critical PVC, glycol, preservative, each with its range."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace

from mullbook.derive.batch_inputs import WITHOUT_TARGET, Plan, targets_of
from mullbook.derive.batch_results import Figure
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Range
from mullbook.science.batch import Totals, totals
from mullbook.science.formula import number_text
from mullbook.science.methods.paint import finish

COAT_MICROMETRES = 60.0
"""Wet coat the coverage is told for; a brushed coat, common practice."""
NOT_COATED = ("watercolour", "ink", "encaustic")
"""Systems whose paint is not laid in coats of a stated thickness."""
MEANT_POROUS = "porous, as this paint is meant to be"
Outcome = Callable[[Mapping[str, float]], float]


def spread(made: Plan, of: Outcome) -> Range:
    """Range of an outcome over all uncertain figures.

    Each figure is moved alone to see which way it pushes; the outcome is then taken with all figures at the
    ends that push it down, and with all at the ends that push it up. Exact where the outcome rises or falls
    throughout in each figure.
    """
    middles = made.knobs.middles
    here = of(middles)
    low, high = dict(middles), dict(middles)
    for name, each in made.knobs.ranges.items():
        if not isinstance(each.value, Range) or each.value.is_point:
            continue
        try:
            rises = of({**middles, name: each.value.high}) >= of({**middles, name: each.value.low})
        except ValueError:
            continue
        low[name], high[name] = (
            (each.value.low, each.value.high) if rises else (each.value.high, each.value.low)
        )
    ends = [here]
    for corner in (low, high):
        try:
            ends.append(of(corner))
        except ValueError:
            continue
    return Range(min(ends), max(ends))


def figures(
    catalogue: Catalogue, made: Plan, grams: Mapping[str, float], yielded: float
) -> tuple[Figure, ...]:
    """What the weighed amounts come to, each with the range that the uncertain figures leave."""

    def at(values: Mapping[str, float]) -> Totals:
        return totals(made.spec(values).materials, grams)

    middles = made.knobs.middles
    found = at(middles)
    rows = [
        _figure(made, "mass", "mass", "g", lambda v: at(v).mass),
        _figure(made, "volume", "volume as made, without air", "ml", lambda v: at(v).volume),
        Figure(id="yield", name="volume left after slab and knife", unit="ml", value=yielded),
        _figure(made, "pvc", "pigment volume concentration of the film", "fraction", lambda v: at(v).pvc),
        *_critical_figures(catalogue, made, at),
        _figure(made, "weight_solids", "solids by weight", "fraction", lambda v: at(v).weight_solids),
        _figure(made, "volume_solids", "solids by volume", "fraction", lambda v: at(v).volume_solids),
        _figure(made, "wet_density", "density wet", "g/cm3", lambda v: at(v).wet_density),
        _figure(made, "dry_density", "density of the dry film", "g/cm3", lambda v: at(v).dry_density),
    ]
    if found.glycol_of_paint > 0:
        rows += _glycol_figures(made, at, found)
    rows += _preservatives(catalogue, made, grams, found)
    system = catalogue.system.get(made.recipe.system)
    if system is None or system.kind not in NOT_COATED:
        rows.append(_coverage(yielded))
    return tuple(rows)


def _coverage(yielded: float) -> Figure:
    square_metres = yielded / COAT_MICROMETRES
    return Figure(
        id="coverage",
        name=f"covers in one coat, {COAT_MICROMETRES:.0f} µm wet",
        unit="m2",
        value=square_metres,
        steps=f"{number_text(yielded)} ml / {COAT_MICROMETRES:.0f} µm = {number_text(square_metres)} m2",
    )


def _figure(made: Plan, name: str, words: str, unit: str, of: Outcome) -> Figure:
    return Figure(id=name, name=words, unit=unit, value=of(made.knobs.middles), range=spread(made, of))


def _critical_figures(
    catalogue: Catalogue, made: Plan, at: Callable[[Mapping[str, float]], Totals]
) -> list[Figure]:
    """Critical PVC and reduced PVC, or why the system has none."""
    system = catalogue.system.get(made.recipe.system)
    if system and system.targets and all(each.by == WITHOUT_TARGET for each in system.targets):
        reason = system.targets[0].why.rstrip(".")
        why = f"Not applicable because {reason[0].lower()}{reason[1:]}."
        return [Figure(id="lambda", name="PVC to critical PVC (lambda)", unit="number", not_derivable=why)]

    def critical(values: Mapping[str, float]) -> float:
        found = made.critical(values, made.spec(values).pigments)
        if found is None:
            raise ValueError("the rub-out oil absorption of the pigments is not known")
        return found

    try:
        edge = _figure(made, "cpvc", "critical PVC in this binder, an estimate", "fraction", critical)
        ratio = _figure(
            made, "lambda", "PVC to critical PVC (lambda)", "number", lambda v: at(v).pvc / critical(v)
        )
    except ValueError as error:
        words = f"Not derivable because {error}."
        return [Figure(id="lambda", name="PVC to critical PVC (lambda)", unit="number", not_derivable=words)]
    middles = made.knobs.middles
    return [edge, replace(ratio, words=_finish(catalogue, made, at(middles).pvc, ratio.value or 0.0))]


def _finish(catalogue: Catalogue, made: Plan, pvc: float, reduced: float) -> str:
    """Words for a lambda. Past 1, a paint that lies within what its system aims at is not under-bound."""
    let_down = made.recipe.let_down
    wanted = let_down.finish if let_down else None
    for target in targets_of(catalogue, made.recipe):
        ends = target.range.range if target.range else None
        value = reduced if target.by == "lambda" else pvc
        if reduced > 1 and ends and wanted in (None, target.finish) and ends.low <= value <= ends.high + 1e-9:
            return MEANT_POROUS
    return finish(reduced)


def _glycol_figures(made: Plan, at: Callable[[Mapping[str, float]], Totals], found: Totals) -> list[Figure]:
    rows = [
        _figure(
            made, "glycol_of_paint", "glycol in the wet paint, by volume", "fraction",
            lambda v: at(v).glycol_volume_of_paint,
        )
    ]  # fmt: skip
    if found.glycol_of_wet_binder is not None:
        rows.append(
            _figure(
                made, "glycol_of_wet_binder", "glycol on the binder as supplied, by weight", "fraction",
                lambda v: at(v).glycol_of_wet_binder or 0.0,
            )
        )  # fmt: skip
        rows.append(
            _figure(
                made, "glycol_of_dry_binder", "glycol on the dry binder, by weight", "fraction",
                lambda v: at(v).glycol_of_dry_binder or 0.0,
            )
        )  # fmt: skip
    return rows


def _preservatives(
    catalogue: Catalogue, made: Plan, grams: Mapping[str, float], found: Totals
) -> list[Figure]:
    """Active preservative in the wet paint, ppm by weight."""
    spec = made.spec(made.knobs.middles)
    rows = []
    for dose in spec.doses:
        if dose.material.role == "preservative":
            active = grams[dose.material.id] * dose.material.active
            name = catalogue.additive[dose.material.id].name
            rows.append(
                Figure(
                    id=f"active_{dose.material.id}",
                    name=f"active of {name} in the paint",
                    unit="ppm",
                    value=1e6 * active / found.mass,
                    steps=f"{number_text(active)} g in {number_text(found.mass)} g",
                )
            )
    return rows
