"""What follows from a sample's log: its washing, its sieves, its yield; and its figures as a lot."""

from __future__ import annotations

from mullbook.derive.earth_results import SampleShown
from mullbook.derive.stone import judge
from mullbook.derive.stone_results import Observations, StoneResult
from mullbook.derive.stone_table import stone_table
from mullbook.derive.washing import wash_sheet
from mullbook.model.benches import Lot
from mullbook.model.catalogue import Catalogue
from mullbook.model.recipes import Measure
from mullbook.model.samples import Sample
from mullbook.model.values import Range, Working
from mullbook.model.values.washing import Grains, Washing, WashSheet
from mullbook.model.washing import minerals_of
from mullbook.science.registry import evaluate
from mullbook.science.sieving import sieve_rows


def shown(catalogue: Catalogue, sample: Sample) -> SampleShown:
    """A sample as it may be seen: without what is private, and with what its log gives. Never raises."""
    sieved = sample.sieved
    return SampleShown(
        sample=sample.public,
        check=_check(catalogue, sample),
        washing=_washing(catalogue, sample),
        salts=_salts(sample),
        sieve=sieve_rows(
            [each.opening.middle for each in sieved.on],
            [each.mass.middle for each in sieved.on],
            sieved.pan.middle,
        )
        if sieved
        else (),
        loss=evaluate(
            "sieve_loss",
            {
                "charged": sieved.charged.middle,
                "weighed": (*(each.mass.middle for each in sieved.on), sieved.pan.middle),
            },
        )
        if sieved
        else None,
        yields=_yield(sample),
    )


def as_lot(sample: Sample) -> Lot | None:
    """The figures measured on a sample, as a lot of the pigment it becomes."""
    measured = sample.measured
    if sample.becomes is None:
        return None
    return Lot(
        pigment=sample.becomes,
        lot=sample.id,
        measured=sample.checked,
        oil_absorption=measured.oil_absorption,
        bulk_density_loose=measured.bulk_density_loose,
        bulk_density_tapped=measured.bulk_density_tapped,
        density=measured.density,
        slurry_ph=measured.slurry_ph,
    )


def _check(catalogue: Catalogue, sample: Sample) -> StoneResult | None:
    table = stone_table(catalogue) if sample.observed else None
    if table is None:
        return None
    known = {each.id: {value.id for value in each.values} for each in table.check.tests}
    answers = {each.test: each.answer for each in sample.observed if each.answer in known.get(each.test, ())}
    return judge(table, Observations(answers=answers))


def _washing(catalogue: Catalogue, sample: Sample) -> WashSheet | None:
    done, density = sample.processing, sample.measured.density
    pigment = catalogue.pigment.get(sample.becomes or "")
    if done is None or density is None:
        return None
    defaults = Washing(density=density.middle, cuts=done.cuts)
    volume = _middle(done.volume, defaults.volume)
    solids = done.charge.middle / density.middle / 1000 / volume if done.charge else defaults.solids
    shaken = sample.shaken
    asked = Washing(
        density=density.middle,
        cuts=done.cuts,
        depth=_middle(done.depth, defaults.depth),
        kept=_middle(done.left, defaults.kept),
        volume=volume,
        temperature=_middle(done.temperature, defaults.temperature),
        solids=solids,
        minerals=minerals_of(catalogue, pigment) if pigment else (),
        grains=Grains(shares=(shaken.clay, shaken.silt, shaken.sand)) if shaken else defaults.grains,
        rounds=done.rounds or defaults.rounds,
        conductivity=done.conductivity_before.middle if done.conductivity_before else None,
        wash_water=_middle(done.wash_water, defaults.wash_water),
    )
    try:
        return wash_sheet(catalogue, pigment, asked, timed_by="the density measured", density=density.range)
    except ValueError:
        return None


def _middle(measure: Measure | None, otherwise: float) -> float:
    return measure.middle if measure else otherwise


def _salts(sample: Sample) -> Working | None:
    """Conductivity that the washes done ought to have led to."""
    done = sample.processing
    if done is None or done.washes is None or not (done.conductivity_before and done.wash_water):
        return None
    depth, left = _middle(done.depth, 10.0), _middle(done.left, 2.5)
    return evaluate(
        "wash_conductivity",
        {
            "conductivity": done.conductivity_before.middle,
            "wash_water": done.wash_water.middle,
            "retained": evaluate("retained_water", {"kept": left, "depth": depth}).result,
            "washes": float(done.washes),
        },
    )


def _yield(sample: Sample) -> Working | None:
    done = sample.processing
    if done is None or done.yields is None or done.charge is None:
        return None
    return evaluate("kept_share", {"kept": Range.of(done.yields.middle), "charged": done.charge.middle})
