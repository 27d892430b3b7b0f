"""Tables of a pigment: the cells agree with the workings, with each other and with printed washing times."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

import pytest

from mullbook.derive.bench import all_tables, film_share
from mullbook.derive.paint import paint_of
from mullbook.derive.results import BinderStart
from mullbook.derive.table_results import PaintRow, Tables
from mullbook.derive.tables import DEPTH, SIZES, TEMPERATURES, aims, tables_of, washing
from mullbook.model.entities import Pigment
from mullbook.model.facts import Physical, Target
from mullbook.model.values import Quantity, Range
from mullbook.science.paint import pvc
from mullbook.workflow import Loaded, Roots, check
from tests.conftest import ROOT
from tests.corpus.cases import GOOD
from tests.science.oracles import cases, number

MINUTES = {"s": 1 / 60, "min": 1.0, "h": 60.0}


@pytest.fixture(scope="module")
def loaded() -> Loaded:
    return check(Roots(GOOD, ROOT / "schema", ROOT / "site_templates"))


@pytest.fixture(scope="module")
def tables(loaded: Loaded) -> dict[str, Tables]:
    return all_tables(loaded.catalogue, loaded.derived)


def pairs(loaded: Loaded, tables: dict[str, Tables]) -> Iterator[tuple[str, PaintRow, BinderStart]]:
    for name, found in tables.items():
        starts = {each.binder: each for each in loaded.derived.pigments[name].paint.binders}
        yield from ((name, row, starts[row.binder]) for row in found.rows)


def of_density(density: float) -> Quantity:
    return Quantity(unit="g/cm3", basis="published", value=density)


@pytest.mark.parametrize("row", cases("washing_times"))
def test_washing_times_as_a_maker_reads_them(row: dict[str, str]) -> None:
    density = number(row, "density")
    found = washing(of_density(density), Range.of(density))
    assert found is not None and found.depth == DEPTH == 10
    cell = found.minutes[SIZES.index(number(row, "size"))][TEMPERATURES.index(20)]
    assert cell.middle == pytest.approx(number(row, "time") * MINUTES[row["unit"]], rel=0.07)


def test_cold_water_holds_grains_up_a_third_longer() -> None:
    """Common practice: times at 10 C are 1.3 times those at 20 C."""
    found = washing(of_density(2.65), Range.of(2.65))
    assert found is not None
    for at_10, at_20, at_25 in found.minutes:
        assert at_10.middle / at_20.middle == pytest.approx(1.3, rel=0.05)
        assert at_25.middle < at_20.middle


def test_the_working_shown_is_that_of_its_cell() -> None:
    found = washing(of_density(3.2), Range.of(3.2))
    assert found is not None and found.working.result is not None
    cell = found.minutes[SIZES.index(20)][TEMPERATURES.index(20)]
    assert found.working.result.middle == pytest.approx(cell.middle, rel=1e-12)


def test_a_range_of_density_gives_a_range_of_times() -> None:
    found = washing(of_density(3), Range(2.6, 4))
    assert found is not None
    assert all(cell.low < cell.high for line in found.minutes for cell in line)


def test_what_does_not_sink_has_no_washing_table() -> None:
    assert washing(of_density(0.9), Range.of(0.9)) is None


def test_rows_agree_with_the_workings(loaded: Loaded) -> None:
    own_targets = all_tables(replace(loaded.catalogue, systems=()), loaded.derived)
    compared = 0
    for name, row, start in pairs(loaded, own_targets):
        if start.pvc == row.pvc and start.mass and start.mass.result and row.grams:
            compared += 1
            assert row.grams.low == pytest.approx(start.mass.result.low, rel=1e-12), (name, row)
            assert row.grams.high == pytest.approx(start.mass.result.high, rel=1e-12), (name, row)
            assert row.start == pytest.approx(start.start, rel=1e-12), (name, row)
    assert compared >= 2


def test_weighed_as_told_the_pvc_comes_back(loaded: Loaded, tables: dict[str, Tables]) -> None:
    binders = loaded.catalogue.binder
    for name, row, _ in pairs(loaded, tables):
        density = loaded.derived.pigments[name].paint.density
        solids, dry = binders[row.binder].solids, binders[row.binder].density_dry
        assert density and density.range and solids and solids.range and dry and dry.range and row.start
        stays = row.start * solids.range.middle / dry.range.middle
        assert pvc(100 / density.range.middle, stays) == pytest.approx(row.pvc.middle, rel=1e-9)


def test_parts_by_volume_are_parts_by_weight_times_the_densities(
    loaded: Loaded, tables: dict[str, Tables]
) -> None:
    row = next(row for row in tables["invented-ochre"].rows if row.binder == "invented-acrylic")
    wet = loaded.catalogue.binder["invented-acrylic"].density_wet
    assert row.loose and row.by_weight and wet and wet.value
    assert row.loose.low == pytest.approx(row.by_weight.low * 0.6 / wet.value)
    assert row.loose.high == pytest.approx(row.by_weight.high * 0.6 / wet.value)
    assert row.tapped is None


def test_finishes_come_from_the_systems_that_use_a_binder(loaded: Loaded, tables: dict[str, Tables]) -> None:
    found = {row.finish: row for row in tables["invented-ochre"].rows if row.binder == "invented-acrylic"}
    assert list(found) == ["satin", "matt"]
    assert found["satin"].reduced == Range(0.6, 0.85) and found["satin"].words == "satin"
    assert found["matt"].words == "matt but bound"
    critical = found["matt"].critical
    assert critical and found["matt"].pvc == Range(0.85 * critical.low, critical.high)


def test_past_the_critical_volume_the_film_is_porous(loaded: Loaded) -> None:
    catalogue = replace(loaded.catalogue, systems=())
    rows = all_tables(catalogue, loaded.derived)["invented-ochre"].rows
    gum = next(row for row in rows if row.binder == "invented-gum-water")
    assert gum.reduced and gum.reduced.high > 1
    assert gum.words.endswith("to porous")


def test_several_ways_of_painting_name_themselves(loaded: Loaded) -> None:
    satin = next(each for each in loaded.catalogue.systems if each.id == "invented-tube-acrylic")
    thin = Quantity(unit="fraction", basis="published", low=0.5, high=0.6)
    lean = Target(by="pvc", why="a test", range=thin)
    other = replace(satin, id="invented-wash", name="Invented wash", targets=(lean,))
    catalogue = replace(loaded.catalogue, systems=(satin, other))
    assert [each.finish for each in aims(catalogue)["invented-acrylic"]] == [
        "invented tube acrylic, satin",
        "invented tube acrylic, matt",
        "invented wash",
    ]


def test_without_a_rub_out_there_is_no_lambda(loaded: Loaded) -> None:
    ochre = loaded.catalogue.pigment["invented-ochre"]
    unknown = replace(ochre, physical=replace(ochre.physical, oil_absorption=None))
    rows = table_of(loaded, unknown).rows
    assert {row.binder for row in rows} <= {"invented-gum-water", "invented-acrylic"}
    assert all(row.reduced is None and not row.words for row in rows)


def test_without_a_density_nothing_is_derived(loaded: Loaded) -> None:
    found = table_of(loaded, Pigment(id="x", name="X", physical=Physical()))
    assert found == Tables(not_derivable="Not derivable because the density is not known.")


def test_a_binder_without_solids_gives_no_grams(loaded: Loaded) -> None:
    bare = tuple(replace(each, solids=None) for each in loaded.catalogue.binders)
    catalogue = replace(loaded.catalogue, binders=bare)
    rows = all_tables(catalogue, loaded.derived)["invented-ochre"].rows
    assert rows and all(row.grams is None and row.loose is None for row in rows)


def test_what_stays_of_a_binder_as_film(loaded: Loaded) -> None:
    binders = loaded.catalogue.binder
    film = film_share(binders["invented-acrylic"])
    assert film and film.is_point
    assert film.middle == pytest.approx(0.5 * 1.05 / 1.13)
    assert film_share(binders["invented-lime"]) is None


def table_of(loaded: Loaded, pigment: Pigment) -> Tables:
    catalogue = loaded.catalogue
    paint = paint_of(catalogue, pigment, ())
    return tables_of(pigment, paint, catalogue.binder, aims(catalogue))
