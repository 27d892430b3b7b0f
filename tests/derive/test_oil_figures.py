"""Three kinds of oil figure, never mixed up: taken from the project's own entries."""

from __future__ import annotations

import pytest

from mullbook.derive.oil_figures import MOST, oil_figures
from mullbook.derive.table_results import OilFigures
from mullbook.science.dosing import per_100
from mullbook.workflow import Loaded


@pytest.fixture(scope="module")
def found(loaded: Loaded) -> OilFigures:
    return oil_figures(loaded.catalogue, loaded.derived)


def test_a_per_cent_of_paste_is_turned_as_its_entry_turned_it(found: OilFigures) -> None:
    """Older tables print oil as per cent of the paste; the entries hold it per 100 g, and both agree."""
    assert 3 <= len(found.pastes) <= MOST
    for row in found.pastes:
        assert row.printed.range and row.working.result
        assert row.printed.as_printed == f"{row.percent:g} % of the paste"
        assert row.working.result.middle == pytest.approx(per_100(row.percent))
        assert row.printed.range.middle == pytest.approx(row.working.result.middle, abs=0.06)


def test_lamp_black_at_72_per_cent(found: OilFigures) -> None:
    lamp = next(row for row in found.pastes if row.pigment == "lamp-black")
    assert lamp.percent == 72
    assert lamp.working.result and lamp.working.result.middle == pytest.approx(257, abs=0.2)


def test_rub_out_and_grind_stand_apart(found: OilFigures) -> None:
    assert 3 <= len(found.both) <= MOST
    for row in found.both:
        assert (row.critical.formula, row.paste.formula) == ("cpvc", "pvc_of_grind")
        oil = {each.name: each.value for each in row.critical.inputs}
        assert oil["oil_absorption"] == row.rub_out.range
        oil = {each.name: each.value for each in row.paste.inputs}
        assert oil["oil_to_grind"] == row.grind.range


def test_those_furthest_apart_come_first(found: OilFigures) -> None:
    def apart(index: int) -> float:
        row = found.both[index]
        assert row.grind.range and row.rub_out.range
        return row.grind.range.middle / row.rub_out.range.middle

    ratios = [apart(index) for index in range(len(found.both))]
    assert ratios == sorted(ratios, reverse=True)
