"""A whole washing and a nest of sieves in the page: from disk, by hand, as the command line reckons them."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Page, expect

from mullbook import workflow
from mullbook.render.wash_text import minutes_text
from mullbook.render.words import number
from mullbook.workflow import washing
from tests.browser.conftest import PHONE, Site
from tests.browser.test_pages import AXE_OPTIONS, SMALL_TARGETS
from tests.browser.test_tools import BAD, BROKEN
from tests.conftest import ROOT

ONE_WIDTH = pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
ASKED = (
    "washing.html?p=yellow-ochre&depth=12&t=16&load=60&cuts=45+20&kept=3&volume=5&rounds=3&cond=1.8&tap=0.3"
    "&sand=18&silt=52&clay=30"
)
OPTIONS = {
    "cut": "45,20",
    "depth": "12",
    "temperature": "16",
    "solids": "60g/l",
    "kept": "3",
    "volume": "5",
    "rounds": "3",
    "conductivity": "1.8",
    "wash_water": "0.3",
    "grains": "18,52,30",
    **dict.fromkeys(("density", "by", "target", "settle")),
    "mineral": (),
}


def test_the_page_plans_what_the_command_line_plans(page: Page, opened: Site) -> None:
    catalogue = workflow.check(workflow.Roots.at(ROOT)).catalogue
    plan = washing.wash(catalogue, "yellow ochre", OPTIONS).plan
    page.goto(opened.url(ASKED))
    sheet = page.locator("#wp-sheet")
    expect(sheet.locator("h2")).to_have_text("Washing plan: Yellow ochre")
    lines = sheet.locator(".jars li")
    assert lines.count() == len(plan.steps)
    for place, step in enumerate(plan.steps):
        expect(lines.nth(place)).to_contain_text(f"wait {minutes_text(step.minutes)}")
    for row, fraction in enumerate(plan.fractions):
        expect(sheet.locator("table").nth(1).locator("tbody tr").nth(row)).to_contain_text(
            number(fraction.grams)
        )
    expect(sheet).to_contain_text(", ".join(number(each, 2) for each in plan.readings))
    expect(sheet).to_contain_text(minutes_text(plan.minutes))
    assert not BROKEN.search(sheet.inner_text())


@ONE_WIDTH
def test_waits_go_among_the_pours_and_run(page: Page, opened: Site) -> None:
    page.clock.install()
    page.goto(opened.url(ASKED))
    page.get_by_role("button", name="Put the waits among the pours").tap()
    assert page.locator(".pour").count() == 6
    expect(page.locator(".pour").first).to_contain_text("round 1, jar 1")
    page.get_by_role("button", name=re.compile(r"Start pour 1, round 1, jar 1")).tap()
    page.clock.fast_forward(120_000)
    expect(page.locator(".pour .left").first).to_have_text("Pour now")
    page.reload()
    assert page.locator(".pour").count() == 6


@ONE_WIDTH
@pytest.mark.parametrize("bad", BAD)
def test_bad_input_gets_words_and_no_plan(page: Page, opened: Site, bad: str) -> None:
    page.goto(opened.url("washing.html"))
    fields = page.locator("#wash-plan input:visible")
    for place in range(fields.count()):
        box = fields.nth(place)
        before, name = box.input_value(), box.get_attribute("id")
        box.fill(BAD[bad])
        expect(page.locator(f"#{name}-words")).to_be_visible()
        assert not BROKEN.search(page.locator("#wp-sheet").inner_text()), name
        box.fill(before)
        expect(page.locator(f"#{name}-words")).to_be_hidden()


@ONE_WIDTH
def test_too_thick_or_in_flocks_there_is_no_plan(page: Page, opened: Site) -> None:
    page.goto(opened.url("washing.html"))
    page.locator("#ws-load").fill("600")
    expect(page.locator("#wp-sheet")).to_contain_text("settles as a front, not by size")
    page.locator("#ws-load").fill("")
    page.locator("#ws-state").select_option("flocculated")
    expect(page.locator("#wp-sheet")).to_contain_text("settles as a front, not by size")


@ONE_WIDTH
def test_limits_of_the_law_are_said(page: Page, opened: Site) -> None:
    page.goto(opened.url("washing.html"))
    page.locator("#wp-cuts").fill("75 0,5")
    sheet = page.locator("#wp-sheet")
    expect(sheet).to_contain_text("Stokes' law runs fast")
    expect(sheet).to_contain_text("heat motion")
    page.locator("#wp-mineral").select_option("hematite")
    expect(sheet.locator("table").first).to_contain_text("hematite")


@ONE_WIDTH
def test_the_plan_prints_without_the_fields(page: Page, opened: Site) -> None:
    page.goto(opened.url(ASKED))
    page.emulate_media(media="print")
    assert not page.locator("#wash-plan").is_visible()
    assert page.locator("#wp-sheet .jars").first.is_visible()


@ONE_WIDTH
def test_a_nest_adds_up(page: Page, opened: Site) -> None:
    page.goto(opened.url("sieving.html"))
    page.locator("#sv-charged").fill("200")
    sheet = page.locator("#sv-sheet")
    expect(sheet).to_contain_text("Lost: 1.2 %")
    page.locator("#sv-charged").fill("100")
    expect(sheet).to_contain_text("weigh again")
    page.locator("#sv-45").fill("-1")
    expect(page.locator("#sv-45-words")).to_be_visible()


@pytest.mark.parametrize(
    "place", [ASKED, "sieving.html", "worked-stone.html", "calcining.html", "samples/hl-07.html"]
)
def test_it_is_open_to_everybody(page: Page, opened: Site, place: str) -> None:
    page.emulate_media(reduced_motion="reduce")
    page.goto(opened.url(place))
    page.wait_for_load_state("networkidle")
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    found = Axe().run(page, options=AXE_OPTIONS).response["violations"]
    assert [(each["id"], [node["target"] for node in each["nodes"][:3]]) for each in found] == []


@ONE_WIDTH
@pytest.mark.parametrize("place", [ASKED, "sieving.html"])
def test_thumbs_hit_every_target(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    assert page.evaluate(SMALL_TARGETS, ["#content", 44]) == []


@ONE_WIDTH
def test_what_stays_shut_gets_no_plan_in_the_page_either(page: Page, opened: Site) -> None:
    page.goto(opened.url("washing.html?p=orpiment"))
    sheet = page.locator("#wp-sheet")
    expect(sheet).to_contain_text("It stays shut")
    expect(sheet.locator(".jars")).to_have_count(0)
    page.goto(opened.url("washing.html?p=lead-white"))
    expect(page.locator("#wp-sheet")).to_contain_text("for what is wet already")
