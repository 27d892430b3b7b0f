"""Paint numbers of a pigment: critical PVC, and where to start with each binder."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace

from mullbook.derive.results import BinderStart, Paint, Part
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Binder, Pigment
from mullbook.model.values import Input, Quantity, Range, Working
from mullbook.science.paint import binder_for_pvc
from mullbook.science.registry import evaluate

RUB_OUT = "rub-out"
GRIND = "grind-quantity"
OIL_TARGET = Range(0.6, 0.85)
"""Reduced PVC aimed at in oil where no grind quantity is known; common practice for a satin film."""


def given(name: str, quantity: Quantity | None) -> Input | None:
    """A quantity as an input of a formula, with its source and basis, or None."""
    if quantity is None or quantity.range is None:
        return None
    return Input(name, quantity.unit, quantity.range, quantity.source, quantity.basis, quantity.note)


def carried(name: str, unit: str, value: Range, formula: str) -> Input:
    """A result of another formula as an input."""
    return Input(name, unit, value, basis="calculated", note=f"from {formula}")


def paint_of(catalogue: Catalogue, pigment: Pigment, parts: tuple[Part, ...]) -> Paint:
    """The paint numbers of one pigment, for every binder of the catalogue."""
    density = pigment.physical.density or blended_density(catalogue, parts)
    critical, critical_from = critical_pvc(pigment, density)
    found = Paint(density=density, critical=critical, critical_from=critical_from)
    starts = tuple(_start(pigment, binder, found) for binder in catalogue.binders)
    return replace(found, binders=starts)


def blended_density(catalogue: Catalogue, parts: tuple[Part, ...]) -> Quantity | None:
    """Density worked out from the constituents, where each has one; else None.

    The shares are taken at the middle of their ranges and scaled to one.
    """
    known = [(part, catalogue.substance.get(part.substance)) for part in parts]
    pairs = [
        (part.share.middle, substance.density.range.middle)
        for part, substance in known
        if substance and substance.density and substance.density.range
    ]
    if not pairs or len(pairs) < len(parts):
        return None
    total = sum(share for share, _ in pairs)
    working = evaluate(
        "blend_density",
        {"shares": tuple(share / total for share, _ in pairs), "densities": tuple(each for _, each in pairs)},
    )
    if working.result is None:
        return None
    note = f"Worked out from the constituents at the middle of their shares: {working.steps}"
    return Quantity(unit="g/cm3", basis="calculated", value=working.result.middle, note=note)


def critical_pvc(pigment: Pigment, density: Quantity | None) -> tuple[Working, str | None]:
    """Critical PVC from a rub-out; failing that, the PVC of the grind as a lower bound of it."""
    physical = pigment.physical
    rho = given("density", density)
    if physical.oil_absorption is None and physical.oil_to_grind is not None:
        working = evaluate(
            "pvc_of_grind", {"oil_to_grind": given("oil_to_grind", physical.oil_to_grind), "density": rho}
        )
        return working, GRIND if working.result else None
    working = evaluate(
        "cpvc", {"oil_absorption": given("oil_absorption", physical.oil_absorption), "density": rho}
    )
    return working, RUB_OUT if working.result else None


def _start(pigment: Pigment, binder: Binder, paint: Paint) -> BinderStart:
    suits = next((each for each in pigment.suitability if each.binder == binder.id), None)
    bare = BinderStart(
        binder=binder.id,
        verdict=suits.verdict if suits else None,
        grade=suits.grade if suits else None,
        mechanism=suits.mechanism if suits else None,
        critical=_critical_in(binder, paint),
    )
    if binder.target.by == "oil-to-grind" and pigment.physical.oil_to_grind is not None:
        return _from_grind(pigment, paint, bare)
    if binder.target.by == "lambda" and paint.critical_from != RUB_OUT and binder.target.without_rub_out:
        return _finished(binder, paint, bare, binder.target.without_rub_out)
    if binder.target.by in ("lambda", "oil-to-grind"):
        return _from_lambda(binder, paint, bare)
    if binder.target.by == "pvc" and binder.target.range is not None:
        return _finished(binder, paint, bare, binder.target.range)
    return bare


def _critical_in(binder: Binder, paint: Paint) -> Working:
    if binder.binder_index is None or paint.critical.result is None:
        return paint.critical
    return evaluate(
        "cpvc_in_dispersion",
        {
            "cpvc": carried("cpvc", "fraction", paint.critical.result, paint.critical.formula),
            "binder_index": given("binder_index", binder.binder_index),
        },
    )


def _from_grind(pigment: Pigment, paint: Paint, bare: BinderStart) -> BinderStart:
    oil = given("oil_to_grind", pigment.physical.oil_to_grind)
    paste = evaluate("pvc_of_grind", {"oil_to_grind": oil, "density": given("density", paint.density)})
    mass = Working(
        formula="oil_to_grind",
        title="Oil to grind",
        statement="grams of oil that grind 100 g of pigment to a stiff paste, as published",
        inputs=(oil,) if oil else (),
        unit="g",
        source=oil.source or "" if oil else "",
        result=oil.value if oil and isinstance(oil.value, Range) else None,
    )
    start = mass.result.middle if mass.result else None
    return replace(bare, pvc=paste.result, pvc_working=paste, mass=mass, start=start)


def _from_lambda(binder: Binder, paint: Paint, bare: BinderStart) -> BinderStart:
    target = given("reduced_pvc", binder.target.range) or Input(
        "reduced_pvc", "number", OIL_TARGET, basis="common-practice"
    )
    critical = bare.critical.result if bare.critical else None
    working = evaluate(
        "pvc_for_reduced",
        {
            "reduced_pvc": target,
            "cpvc": carried("cpvc", "fraction", critical, "cpvc_in_dispersion") if critical else None,
        },
    )
    return _finished(binder, paint, replace(bare, pvc=working.result, pvc_working=working))


def _finished(binder: Binder, paint: Paint, bare: BinderStart, stated: Quantity | None = None) -> BinderStart:
    """Add the reduced PVC and the grams of binder to a start whose PVC was stated or worked out."""
    start = bare if stated is None else replace(bare, pvc=stated.range)
    inputs = dict(_mass_inputs(binder, paint, start, stated))
    mass = evaluate("binder_for_pvc", inputs)
    critical = start.critical.result if start.critical and paint.critical_from == RUB_OUT else None
    # A PVC that was reckoned from a lambda has that lambda: dividing range by range would widen it.
    divided = stated is not None and start.pvc is not None and critical is not None
    reduced = evaluate("reduced_pvc", {"pvc": start.pvc, "cpvc": critical}) if divided else None
    return replace(start, mass=mass, reduced=reduced, start=_at_middles(inputs) if mass.result else None)


def _at_middles(inputs: Mapping[str, Input | None]) -> float:
    """Grams of binder with every figure at the middle of its range."""
    return binder_for_pvc(
        **{
            name: each.value.middle
            for name, each in inputs.items()
            if each is not None and isinstance(each.value, Range)
        }
    )


def _mass_inputs(
    binder: Binder, paint: Paint, start: BinderStart, stated: Quantity | None
) -> Iterator[tuple[str, Input | None]]:
    yield "pigment_mass", Input("pigment_mass", "g", Range(100, 100), note="per 100 g of pigment")
    yield "density", given("density", paint.density)
    if start.pvc_working is not None and start.pvc is not None:
        yield "pvc", carried("pvc", "fraction", start.pvc, start.pvc_working.formula)
    else:
        yield "pvc", given("pvc", stated)
    yield "binder_solids", given("binder_solids", binder.solids)
    yield "binder_solids_density", given("binder_solids_density", binder.density_dry)
