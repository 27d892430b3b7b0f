"""MB6xx: what a thing is made of adds up, and its formula agrees with the rest."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding
from mullbook.derive.composition import elements_of, share_range
from mullbook.model.values import Quantity
from mullbook.science.chemistry import crystal_density, element_fractions

ROUNDING = 1e-6
CELL_TOLERANCE = 0.06
"""A density from the unit cell may differ from a measured one by this part before it looks like a slip."""

GROUP_OF = {
    "Pb": "lead-compounds",
    "Cd": "cadmium-compounds",
    "Hg": "mercury-compounds",
    "As": "arsenic-compounds",
    "Mn": "manganese-compounds",
    "Co": "cobalt-compounds",
}
"""Elements whose compounds are listed together, and the entry that carries their classes and limits."""


def _shares_add_up(context: EntryContext) -> Iterator[Finding]:
    constituents = getattr(context.entity, "constituents", ())
    try:
        shares = [share_range(each.share) for each in constituents]
    except ValueError:  # a share that is no range has a rule of its own, and no sum
        return
    if not shares:
        return
    low, high = sum(each.low for each in shares), sum(each.high for each in shares)
    if low > 1 + ROUNDING:
        yield Finding(
            f"The least shares add up to {low:.3g}, more than the whole.",
            context.document.place(("constituents",), key=True),
            hint="Shares are fractions by mass, 0 to 1. Check the low ends.",
        )
    if high < 1 - ROUNDING:
        yield Finding(
            f"The largest shares add up to only {high:.3g}: part of it has no name.",
            context.document.place(("constituents",), key=True),
            hint="Add the missing part; if nobody knows what it is, name it not-known.",
            example="- {substance: not-known, share: {max: 0.2, unit: fraction, basis: ...}, role: impurity}",
        )


def _in_order(*quantities: Quantity) -> bool:
    """Whether no range runs backwards: one that does is told by its own rule."""
    ends = [each.ends for each in quantities]
    return all(low is None or high is None or low <= high for low, high in ends)


def _constituent_once(context: EntryContext) -> Iterator[Finding]:
    seen: dict[str, int] = {}
    for index, each in enumerate(getattr(context.entity, "constituents", ())):
        first = seen.setdefault(each.substance, index)
        if first != index:
            yield Finding(
                f"{each.substance} is listed twice.",
                context.document.place(("constituents", index, "substance")),
                hint="Give it one share.",
                related=(context.document.place(("constituents", first, "substance")),),
            )


def _formula_reads(context: EntryContext) -> Iterator[Finding]:
    formula = getattr(context.entity, "formula", None)
    if formula is None:
        return
    try:
        element_fractions(formula)
    except ValueError as error:
        yield Finding(
            f"The formula cannot be read: {error}.",
            context.document.place(("formula",)),
            hint="Its mass, its lead or manganese and its limits are worked out from it.",
            example='formula: "Al2Si2O5(OH)4"',
        )


def _cell_agrees(context: EntryContext) -> Iterator[Finding]:
    substance = context.entity
    cell, density = getattr(substance, "cell", None), getattr(substance, "density", None)
    if cell is None or density is None or substance.formula is None or not _in_order(cell.volume, density):
        return
    if cell.volume.range is None or density.range is None:
        return
    try:
        worked = crystal_density(substance.formula, cell.volume.range.middle, cell.z)
    except ValueError:
        return
    stated = density.range
    if not stated.low * (1 - CELL_TOLERANCE) <= worked <= stated.high * (1 + CELL_TOLERANCE):
        yield Finding(
            f"The unit cell gives {worked:.2f} g/cm3, the entry says {stated.middle:.2f}.",
            context.document.place(("density",), key=True),
            hint="Formula, cell volume, Z or density is wrong, or the cell is another phase's.",
            related=(context.document.place(("cell",), key=True),),
        )


def _group_named(context: CatalogueContext) -> Iterator[Finding]:
    known = context.catalogue.substance
    for substance in context.catalogue.substances:
        if substance.formula is None or substance.kind == "group":
            continue
        for element in elements_of(substance.formula):
            group = GROUP_OF.get(element)
            if group in known and group not in substance.member_of:
                yield Finding(
                    f"{substance.name} holds {element} but is no member of {group}.",
                    context.place("substance", substance.id, "formula"),
                    hint="Name the group: its limits and classes then count for this substance too.",
                    example=f"member_of: [{group}]",
                )


ENTRY = (
    Check(
        Rule(
            "MB601",
            "shares that cannot add up to one",
            "error",
            "An unnamed part of a powder is a hazard nobody looked for.",
            "0.3-0.5 goethite and 0.2-0.3 kaolinite, nothing else",
            "0.3-0.5 goethite, 0.2-0.5 kaolinite, 0-0.3 quartz",
        ),
        _shares_add_up,
    ),
    Check(
        Rule(
            "MB602",
            "constituent listed twice",
            "error",
            "Its share would be counted twice.",
            "quartz 0-0.1 and again quartz 0-0.3",
            "quartz 0-0.3",
        ),
        _constituent_once,
    ),
    Check(
        Rule(
            "MB603",
            "formula that cannot be read",
            "error",
            "Lead, mercury or manganese in it would be missed.",
            'formula: "Fe2O3 (hematite)"',
            'formula: "Fe2O3"',
        ),
        _formula_reads,
    ),
    Check(
        Rule(
            "MB604",
            "density against unit cell",
            "warning",
            "Two independent figures of one thing guard each other.",
            "hematite with a density of 3.2",
            "hematite with a density of 5.26",
        ),
        _cell_agrees,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB605",
            "compound of a listed element outside its group",
            "error",
            "Lists name elements with all their compounds; a compound left out would lose the limit.",
            'formula: "PbCO3" without member_of',
            'formula: "PbCO3", member_of: [lead-compounds]',
        ),
        _group_named,
    ),
)
