"""Tables of one pigment: every binder and finish side by side, and how long its grains take to sink.

A table holds many cells, so they are reckoned by the formulas' plain functions at the ends of the ranges;
the workings stand beside the numbers on the bench card.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from mullbook.derive.paint import RUB_OUT, given
from mullbook.derive.results import BinderStart, Paint
from mullbook.derive.table_results import PaintRow, Tables, Washing
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Binder, Pigment
from mullbook.model.facts import Target
from mullbook.model.recipes import System
from mullbook.model.values import Quantity, Range
from mullbook.science.methods.paint import finish
from mullbook.science.paint import binder_for_pvc
from mullbook.science.registry import evaluate
from mullbook.science.settling import settling_time

SIZES = (75.0, 45.0, 20.0, 10.0, 5.0, 2.0, 1.0)
"""Grain sizes of the washing table, um: three sieves, and what no sieve holds back."""
TEMPERATURES = (10.0, 20.0, 25.0)
DEPTH = 10.0
SHOWN_SIZE, SHOWN_TEMPERATURE = 20.0, 20.0
"""The cell whose working is shown in full."""
POROUS = "porous"
"""Words for a reduced PVC above 1 where the way of painting asks for it."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What one binder is brought to: a finish, and how it is stated."""

    finish: str
    target: Target


@dataclass(frozen=True, slots=True)
class _Of:
    """What the rows of one pigment share."""

    pigment: Pigment
    paint: Paint
    density: Range


def aims(catalogue: Catalogue) -> dict[str, tuple[Aim, ...]]:
    """What to aim at with each binder: the targets of the systems that use it, else its own."""
    return {each.id: tuple(_aims(catalogue, each)) for each in catalogue.binders}


def _aims(catalogue: Catalogue, binder: Binder) -> Iterator[Aim]:
    if binder.target.by == "oil-to-grind":
        yield Aim(binder.target.finish or "paste", binder.target)
        return
    users = [each for each in catalogue.systems if binder.id in each.binders]
    found: dict[tuple[str, Range | None], list[str]] = {}
    targets: dict[tuple[str, Range | None], Target] = {}
    for system in users:
        for target in system.targets:
            if target.range:
                same = target.by, target.range.range
                targets.setdefault(same, target)
                found.setdefault(same, []).append(_finish_name(system, target, alone=len(users) == 1))
    yield from (Aim("; ".join(names), targets[same]) for same, names in found.items())
    if not found and binder.target.range:
        yield Aim(binder.target.finish or "start", binder.target)


def _finish_name(system: System, target: Target, *, alone: bool) -> str:
    """The finish; where several ways of painting use the binder, the way."""
    if alone:
        return target.finish or system.name
    several = sum(1 for each in system.targets if each.range) > 1
    return f"{system.name.lower()}, {target.finish}" if several else system.name.lower()


def tables_of(
    pigment: Pigment, paint: Paint, binders: Mapping[str, Binder], aimed: Mapping[str, tuple[Aim, ...]]
) -> Tables:
    """The tables of one pigment.

    Parameters: `pigment`; `paint`, its numbers as derived; `binders` by id; `aimed`, from `aims`. Never
    raises on bad data: what cannot be worked out is left out, with the reason where nothing is left.
    """
    density = paint.density.range if paint.density else None
    if density is None or density.low <= 0:
        return Tables(not_derivable="Not derivable because the density is not known.")
    of = _Of(pigment, paint, density)
    rows = tuple(
        row
        for start in paint.binders
        for aim in aimed.get(start.binder, ())
        if (row := _row(of, start, aim, binders[start.binder])) is not None
    )
    return Tables(rows=rows, bound=paint.critical_from != RUB_OUT, washing=washing(paint.density, density))


def _row(of: _Of, start: BinderStart, aim: Aim, binder: Binder) -> PaintRow | None:
    critical = start.critical.result if start.critical else None
    known = critical if of.paint.critical_from == RUB_OUT else None
    pvc, reduced = _aimed_at(aim.target, start, known)
    if pvc is None or not 0 < pvc.low <= pvc.high < 1:
        return None
    ground = start.pvc_working is not None and start.pvc_working.formula == "pvc_of_grind"
    grams, at_middle = _grams(of.density, pvc, binder)
    if ground:
        grams, at_middle = (start.mass.result if start.mass else None), start.start
    physical = of.pigment.physical
    return PaintRow(
        binder=start.binder,
        finish=aim.finish,
        verdict=start.verdict,
        pvc=pvc,
        critical=critical,
        reduced=reduced,
        words=_words(reduced) if reduced and not ground else "",
        grams=grams,
        start=at_middle,
        loose=_by_volume(grams, physical.bulk_density_loose, binder),
        tapped=_by_volume(grams, physical.bulk_density_tapped, binder),
    )


def _aimed_at(
    target: Target, start: BinderStart, critical: Range | None
) -> tuple[Range | None, Range | None]:
    """PVC aimed at and its part of the critical one, where that is known."""
    if target.by == "oil-to-grind":
        pvc = start.pvc
    elif target.by == "lambda" and critical is None:
        pvc = target.without_rub_out.range if target.without_rub_out else None
    else:
        pvc = target.range.range if target.range else None
    if pvc is None or critical is None:
        return pvc, None
    if target.by == "lambda":
        return Range(pvc.low * critical.low, pvc.high * critical.high), pvc
    if start.pvc_working is not None and start.pvc_working.formula == "pvc_for_reduced":
        return pvc, next(
            (each.value for each in start.pvc_working.inputs if isinstance(each.value, Range)), None
        )
    return pvc, Range(pvc.low / critical.high, pvc.high / critical.low)


def _words(reduced: Range) -> str:
    """Finish to be expected: past the critical PVC the film is porous, which such a way of painting wants."""
    # A range that ends where the next finish begins does not reach into it.
    top = reduced.high if reduced.is_point else reduced.high * (1 - 1e-9)
    low, high = (finish(end) if end <= 1 else POROUS for end in (reduced.low, top))
    return low if low == high else f"{low} to {high}"


def _grams(density: Range, pvc: Range, binder: Binder) -> tuple[Range | None, float | None]:
    """Binder as supplied per 100 g of pigment: it falls with density, PVC and solids, rises with its own."""
    solids = binder.solids.range if binder.solids else None
    dry = binder.density_dry.range if binder.density_dry else None
    if solids is None or dry is None or min(solids.low, dry.low) <= 0:
        return None, None
    low = binder_for_pvc(100, density.high, pvc.high, solids.high, dry.low)
    high = binder_for_pvc(100, density.low, pvc.low, solids.low, dry.high)
    return Range(low, high), binder_for_pvc(100, density.middle, pvc.middle, solids.middle, dry.middle)


def _by_volume(grams: Range | None, bulk: Quantity | None, binder: Binder) -> Range | None:
    """Parts of binder to one of powder by volume: `grams/wet density/(100/bulk density)`."""
    powder = bulk.range if bulk else None
    wet = binder.density_wet.range if binder.density_wet else None
    if grams is None or powder is None or wet is None:
        return None
    return Range(grams.low * powder.low / wet.high / 100, grams.high * powder.high / wet.low / 100)


def washing(stated: Quantity | None, density: Range) -> Washing | None:
    """Washing times of grains of a density in still water with few solids; None where they do not sink."""
    try:
        minutes = tuple(
            tuple(
                Range(
                    settling_time(size, DEPTH, density.high, temperature),
                    settling_time(size, DEPTH, density.low, temperature),
                )
                for temperature in TEMPERATURES
            )
            for size in SIZES
        )
    except ValueError:
        return None
    shown = evaluate(
        "settling_time",
        {
            "size": SHOWN_SIZE,
            "depth": DEPTH,
            "density": given("density", stated),
            "temperature": SHOWN_TEMPERATURE,
        },
    )
    return Washing(depth=DEPTH, sizes=SIZES, temperatures=TEMPERATURES, minutes=minutes, working=shown)
