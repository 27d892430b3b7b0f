"""Samples, the fire and the worked stone: nothing private leaves, every figure is worked out from entries."""

from __future__ import annotations

import re
from dataclasses import replace
from html import unescape
from typing import Any

import pytest

from mullbook import workflow
from mullbook.derive.batch import batch
from mullbook.derive.earth_results import Earths
from mullbook.derive.earths import earths_of
from mullbook.derive.lots import with_lots
from mullbook.derive.samples import as_lot, shown
from mullbook.model.samples import Sample
from mullbook.science.wash_plan import plan
from mullbook.workflow.checking import Loaded
from tests.conftest import ROOT

ROOTS = workflow.Roots.at(ROOT)
PRIVATE = ("Third gate on the lane", "A. Nobody, owner of the bank")
FORBIDDEN = re.compile(r"\b(is safe|are safe|safe to|harmless|non-toxic|conforms to)\b", re.IGNORECASE)
PAGES = (
    "samples/hl-07.md",
    "samples/index.md",
    "calcining.md",
    "worked-stone.md",
    "sieving.md",
    "washing.md",
)


@pytest.fixture(scope="module")
def earths(loaded: Loaded) -> Earths:
    return earths_of(loaded.catalogue, loaded.derived)


@pytest.fixture(scope="module")
def sample(loaded: Loaded) -> Sample:
    return next(each for each in loaded.catalogue.samples if each.id == "hl-07")


def text_of(content: str | bytes) -> str:
    return content.decode("utf-8", "replace") if isinstance(content, bytes) else content


def test_the_private_words_are_in_the_log(sample: Sample) -> None:
    """Otherwise the next test would prove nothing."""
    assert sample.found.private
    assert str(sample.found.place).startswith(PRIVATE[0])
    assert str(sample.found.permission.who).startswith(PRIVATE[1])


def test_no_page_and_no_file_holds_what_is_private(files: dict[str, str | bytes]) -> None:
    for path, content in files.items():
        found = [each for each in PRIVATE if each in text_of(content)]
        assert not found, f"{path} holds {found}"


def test_private_is_what_stands_where_nothing_is_said(sample: Sample) -> None:
    assert sample.public.found.place is None
    assert sample.public.found.permission.who is None
    opened = replace(sample, found=replace(sample.found, private=False))
    assert opened.public == opened


def test_samples_are_in_no_published_list(files: dict[str, str | bytes]) -> None:
    for path in ("data/catalogue.json", "data/find.js", "data/bench.js", "data/earths.js"):
        assert "hl-07" not in text_of(files[path]).replace("hl-07-satin-tubes", "")


@pytest.mark.parametrize("path", PAGES)
def test_pages_say_nothing_is_safe(files: dict[str, str | bytes], path: str) -> None:
    assert not FORBIDDEN.search(text_of(files[path]))


def test_goethite_loses_a_tenth(earths: Earths) -> None:
    loss = {(each.substance, each.step.name): each.loss.result for each in earths.calcining.fired}
    found = loss["goethite", "hematite"]
    assert found is not None
    assert found.middle == pytest.approx(0.1014, abs=1e-4)


def test_every_step_of_the_fire_is_worked_out_and_has_its_evidence(earths: Earths) -> None:
    assert len(earths.calcining.fired) > 8
    for each in earths.calcining.fired:
        assert each.loss.result is not None, each.name
        assert each.step.source or each.step.basis == "common-practice", each.name
        assert each.step.temperature is None or each.step.temperature.basis != "from-memory"


def test_the_waits_to_look_up_are_those_of_stokes_and_of_the_drag_law(earths: Earths) -> None:
    """By hand: Stokes' law at 1.002 mPa s, a drag law above; to one unit in the last figure shown."""
    minutes = {each.size: [wait.result.middle for wait in each.times if wait.result] for each in earths.waits}
    for size, wanted in {
        75: (21 / 60, 15 / 60, 11 / 60, 9 / 60),
        45: (56 / 60, 41 / 60, 30 / 60, 23 / 60),
        20: (4.7, 3.3, 2.4, 1.8),
        10: (19, 13, 10, 7),
        5: (74, 53, 38, 29),
        2: (7.7 * 60, 5.5 * 60, 4.0 * 60, 3.0 * 60),
    }.items():
        assert minutes[size] == pytest.approx(wanted, rel=0.07), size


def test_practice_on_the_pages_of_sieve_water_and_fire_stands_in_a_guide(
    loaded: Loaded, files: dict[str, str | bytes]
) -> None:
    """So that the rule counts it: no sentence of practice of these pages is written into a template."""
    guide = loaded.catalogue.guide["crush-sieve-wash"]
    held = {part.id: part.statements for part in guide.parts}
    for page, part in (("sieving.md", "balance"), ("washing.md", "limits"), ("calcining.md", "burn")):
        assert len(held[part]) >= 5
        shown = unescape(text_of(files[page]))
        assert [each.say for each in held[part] if each.say not in shown] == [], page
    lot = unescape(text_of(files["your-lot.md"]))
    for part in loaded.catalogue.guide["measure-a-lot"].parts:
        assert [each.say for each in part.steps if each.say not in lot] == [], part.id


def test_no_more_practice_is_written_into_templates() -> None:
    """What stands there cannot be counted. These four are legends of the figures beside them."""
    templates = (ROOT / "site_templates" / "templates").glob("*.j2")
    held = {each.name for each in templates if "m.basis('common-practice')" in each.read_text("utf-8")}
    assert held <= {"studio-test.md.j2", "recipe.md.j2", "binder-comparison.md.j2", "oil-figures.md.j2"}


def test_what_must_not_be_heated_is_listed_and_never_reckoned(loaded: Loaded, earths: Earths) -> None:
    refused = {
        each.id for each in loaded.catalogue.substances if each.heating and each.heating.action == "no"
    }
    assert refused
    assert not refused & {each.substance for each in earths.calcining.fired}
    listed = {each.id for each in earths.calcining.stones}
    for poison in ("mercuric-sulfide", "arsenic-trisulfide", "lead-carbonate"):
        assert poison in listed
    assert {"orpiment", "vermilion", "cinnabar"} & {each.id for each in earths.calcining.powders}


def test_no_earth_is_offered_to_the_fire_against_its_own_verdict(loaded: Loaded, earths: Earths) -> None:
    for each in earths.calcining.earths:
        heating = loaded.derived.pigments[each.pigment].safety.heating
        assert each.heating == (heating.id if heating else "not-known")


def test_the_worked_stone_is_worked_out_from_its_log(loaded: Loaded, earths: Earths, sample: Sample) -> None:
    worked = earths.worked
    assert worked is not None
    assert worked.shown.washing is not None
    assert worked.shown.washing.plan == plan(worked.shown.washing.asked)
    lot = as_lot(sample)
    assert lot is not None
    measured = with_lots(loaded.catalogue, [lot])
    assert worked.batch == batch(measured, measured.recipe["hl-07-satin-tubes"])
    assert worked.batch.tubes and worked.batch.tubes > 0
    assert worked.paint.critical.result is not None
    assert worked.start.critical is not None and worked.start.critical.result is not None
    assert worked.start.critical.result.high < worked.paint.critical.result.high
    assert worked.label is not None and not worked.label.missing


def test_the_log_and_the_plan_agree_within_what_clings_to_the_jars(earths: Earths) -> None:
    found = earths.samples["hl-07"]
    assert found.washing is not None and found.yields is not None and found.yields.result is not None
    planned = found.washing.plan.fractions[-1].share
    assert planned * 0.8 < found.yields.result.middle <= planned


def test_a_changed_log_changes_the_page(loaded: Loaded, sample: Sample) -> None:
    """No figure of the tour is typed in."""
    assert sample.processing is not None and sample.processing.depth is not None
    deeper = replace(sample.processing.depth, value=24.0)
    other = shown(loaded.catalogue, replace(sample, processing=replace(sample.processing, depth=deeper)))
    before = shown(loaded.catalogue, sample)
    assert other.washing is not None and before.washing is not None
    assert other.washing.plan.minutes > before.washing.plan.minutes


def test_the_tour_begins_with_a_summary(files: dict[str, str | bytes]) -> None:
    text = text_of(files["worked-stone.md"])
    headings = re.findall(r'<h2 id="([a-z]+)"', text)
    assert headings[:2] == ["summary", "ground"]
    assert headings[2:11] == ["check", "sieve", "wash", "measure", "pvc", "batch", "tubes", "label", "clean"]
    assert text.count('<details class="working">') > 8


def test_a_sample_that_goes_nowhere_still_has_its_page(loaded: Loaded, sample: Sample) -> None:
    bare: Any = replace(
        sample, processing=None, sieved=None, shaken=None, becomes=None, recipe=None, lab_reports=()
    )
    catalogue = replace(loaded.catalogue, samples=(bare,))
    found = earths_of(catalogue, loaded.derived)
    assert found.worked is None
    assert found.samples["hl-07"].washing is None
