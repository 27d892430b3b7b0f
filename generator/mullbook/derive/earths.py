"""From stone to paint, for the pages: the fire, every sample, and one of them from the ground to the tube."""

from __future__ import annotations

import math
from dataclasses import replace

from mullbook.derive.batch import batch
from mullbook.derive.calcining import calcining, loss_of, reddening_share
from mullbook.derive.composition import parts
from mullbook.derive.earth_results import Earths, SampleShown, WorkedStone
from mullbook.derive.label_draft import label_draft
from mullbook.derive.lots import with_lots
from mullbook.derive.paint import paint_of
from mullbook.derive.results import Derived
from mullbook.derive.samples import as_lot, shown
from mullbook.derive.washing import waits
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.samples import Sample
from mullbook.model.values import Working


def earths_of(catalogue: Catalogue, derived: Derived) -> Earths:
    """All that the pages from stone to paint show. Never raises on bad data."""
    samples = {each.id: shown(catalogue, each) for each in catalogue.samples}
    told = (_worked(catalogue, derived, each, samples[each.id]) for each in catalogue.samples)
    return Earths(
        calcining=calcining(catalogue, derived),
        waits=waits(),
        samples=samples,
        worked=next((each for each in told if each is not None), None),
    )


def _worked(catalogue: Catalogue, derived: Derived, sample: Sample, found: SampleShown) -> WorkedStone | None:
    """A sample followed to the tube, where its log goes so far."""
    pigment = catalogue.pigment.get(sample.becomes or "")
    recipe = catalogue.recipe.get(sample.recipe or "")
    lot = as_lot(sample)
    if pigment is None or recipe is None or recipe.let_down is None or lot is None or found.washing is None:
        return None
    measured = with_lots(catalogue, [lot])
    own = measured.pigment[pigment.id]
    paint = paint_of(measured, own, parts(measured, own.constituents))
    start = next((each for each in paint.binders if each.binder == recipe.let_down.binder), None)
    sheet = batch(measured, recipe)
    safety = derived.pigments[pigment.id].safety
    if start is None or sheet.missing:
        return None
    few = replace(measured, pigments=(own,))
    return WorkedStone(
        shown=found,
        charges=_charges(sample, sheet.pigment_mass),
        paint=paint,
        start=start,
        batch=sheet,
        label=label_draft(few, derived, sheet),
        fired=_fired(catalogue, pigment),
        dry=safety.dry,
        waste=safety.waste,
    )


def _charges(sample: Sample, wanted: float) -> int:
    """How often the jars are charged for the pigment of the batch."""
    done = sample.processing
    kept = done.yields.middle if done and done.yields else 0.0
    return math.ceil(wanted / kept) if kept else 0


def _fired(catalogue: Catalogue, pigment: Pigment) -> Working | None:
    goethite, share = catalogue.substance.get("goethite"), reddening_share(catalogue, pigment)
    if goethite is None or share is None or not goethite.calcines:
        return None
    return loss_of(goethite, goethite.calcines[0], share)
