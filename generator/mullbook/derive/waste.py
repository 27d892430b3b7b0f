"""What rinse water, wipes and leavings may hold of each element, beside the levels of a leaching test."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from mullbook.derive.composition import element_share
from mullbook.derive.results import Advised, Drain, Part, Screened
from mullbook.derive.verdict import ELEMENT_NAMES
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Input, Range, Working
from mullbook.model.values.advice import Advice, LeachingLevel, Placed
from mullbook.science.registry import evaluate
from mullbook.science.waste import OWN_EXTRACT_BELOW

PER_KG = 1e6
WASTES = ("residue", "paint", "rinse", "wipes")
"""Kinds of waste: the dried paint, the paint as it is, the rinse water, wipes with paint in them."""
WATCHED = ("Pb", "Cd", "Hg", "As", "Sb", "Se", "Cr", "Co", "Ni", "Mn", "Ba", "Cu", "Zn", "Ag", "U", "V")
"""Elements whose content in waste is worked out and shown."""


def drain(
    catalogue: Catalogue, found: tuple[Part, ...], dry_part: float, solids: float | None = None
) -> Drain | None:
    """What waste of a paint may hold.

    Parameters: `found`, the parts of a powder or of a whole batch; `dry_part`, what their shares are
    multiplied with to be shares of the dried paint; `solids`, the mass fraction of the paint that stays
    when it dries, that of the advice where None.
    """
    advice = catalogue.advice
    if advice is None:
        return None
    stays = advice.dregs.solids if solids is None else solids
    shares = {each: min(1.0, element_share(found, each) * dry_part) for each in WATCHED}
    dried = {each: share * PER_KG for each, share in shares.items() if share > 0}
    bare = [part.name for part in found if not part.elements and part.share.high > 0]
    return Drain(
        contents={each: content * stays for each, content in dried.items()},
        screens=tuple(_screens(catalogue, advice, dried, stays)),
        words=tuple(placed(advice.waste, found, classified=False)),
        clear_water=advice.dregs.clear_water,
        assumptions=advice.dregs.assumptions,
        not_known=f"the elements in {', '.join(bare)}" if bare else "",
    )


def _screens(
    catalogue: Catalogue, advice: Advice, dried: dict[str, float], solids: float
) -> Iterator[Screened]:
    for table in catalogue.leaching:
        for row in table.rows:
            if row.element in dried:
                for waste in WASTES:
                    yield _screened(
                        advice, row, waste, source=table.source, dried=dried[row.element], solids=solids
                    )


def _screened(
    advice: Advice, row: LeachingLevel, waste: str, *, source: str, dried: float, solids: float
) -> Screened:
    """One element in one kind of waste. Below half a per cent of solids the waste is its own extract."""
    dregs = advice.dregs
    part, held = {
        "residue": (1.0, dried),
        "paint": (solids, dried),
        "rinse": (solids * dregs.rinse / 1000, dried),
        "wipes": (1.0, dried * solids * dregs.wipe),
    }[waste]
    is_liquid = part < OWN_EXTRACT_BELOW
    whole = held * part
    working = _leach(row, source, whole if is_liquid else held, part, own_extract=is_liquid)
    return Screened(
        element=row.element,
        name=ELEMENT_NAMES.get(row.element, row.element),
        number=row.number,
        waste=waste,
        content=whole,
        level=row.level,
        working=working,
    )


def _leach(row: LeachingLevel, source: str, total: float, solids: float, *, own_extract: bool) -> Working:
    note = "in the whole of the liquid" if own_extract else "in the solid part"
    return evaluate(
        "leach_screen",
        {
            "total": Input("total", "mg/kg", Range.of(total), basis="calculated", note=note),
            "regulated_level": Input(
                "regulated_level", "mg/l", Range.of(row.level), source, "published", row.number
            ),
            "solids_fraction": Input("solids_fraction", "fraction", Range.of(solids)),
            # All of it leaches, so it is the same sum whether it sits in the solid or in the liquid.
            "liquid_concentration": 0.0,
        },
    )


def placed(rows: Iterable[Placed], found: tuple[Part, ...], *, classified: bool) -> Iterator[Advised]:
    """The sentences of each place that apply to something with these parts."""
    for row in rows:
        held = [each for each in row.elements if element_share(found, each) >= row.share > 0]
        if (
            row.when == "always"
            or (row.when == "classified" and classified)
            or (row.when == "holds" and held)
        ):
            yield Advised(
                words=row.words,
                because=", ".join(ELEMENT_NAMES.get(each, each) for each in held),
                place=row.place,
                source=row.source,
                at=row.at,
                basis=row.basis,
                note=row.note,
            )
