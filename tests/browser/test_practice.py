"""Faults, studio tests, the chooser of a way of painting, and compatibility by medium, in Chromium."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import DESK, PHONE, Site
from tests.browser.test_pages import AXE_OPTIONS, SMALL_TARGETS

NEW_PAGES = (
    "faults/chalking.html",
    "studio-tests/index.html",
    "studio-tests/density-cup.html",
    "compatibility/sulfur.html",
    "systems/distemper.html",
    "systems/fresco-limewash.html",
)
BROKEN = re.compile(r"NaN|undefined|Infinity|\[object|null")
PHONE_ONLY = pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
DESK_ONLY = pytest.mark.parametrize("width", [DESK], indirect=True, ids=["1280px"])
SYSTEMS = (
    "acrylic-dispersion", "casein", "distemper", "egg-tempera", "encaustic", "fresco-limewash", "gouache",
    "ink", "oil", "silicate", "watercolour",
)  # fmt: skip


def binder_grams(opened: Site, pigment: str, binder: str) -> dict[str, Any]:
    found = next(each for each in opened.pigments if each["id"] == pigment)
    return next(each["binder_g_per_100g"] for each in found["derived"]["binders"] if each["binder"] == binder)


@pytest.mark.parametrize("place", NEW_PAGES)
def test_a_page_fits_and_is_accessible(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    page.wait_for_load_state("networkidle")
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    assert not BROKEN.search(page.locator("#content").inner_text())
    found = Axe().run(page, options=AXE_OPTIONS).response["violations"]
    assert [(each["id"], each["nodes"][0]["html"]) for each in found] == []


@PHONE_ONLY
@pytest.mark.parametrize("place", ["faults.html", "faults/chalking.html", "systems/distemper.html"])
def test_thumbs_hit_what_is_chosen(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    assert page.evaluate(SMALL_TARGETS, ["#content .doors, #content .do-it, #content form", 44]) == []


@DESK_ONLY
def test_what_is_seen_leads_to_what_to_add(page: Page, opened: Site) -> None:
    page.goto(opened.url("faults.html"))
    page.get_by_role("link", name=re.compile("The dry paint powders when rubbed")).first.click()
    expect(page.locator("h1")).to_have_text("The dry paint powders when rubbed")
    page.get_by_role("link", name="Work out what to add, on the workbench").first.click()
    expect(page.locator("#wb-wrong")).to_have_value("chalks")
    expect(page.locator("#wb-have")).to_be_visible()


@DESK_ONLY
@pytest.mark.parametrize("system", SYSTEMS)
def test_a_way_of_painting_is_worked_out_for_the_pigment_chosen(
    page: Page, opened: Site, system: str
) -> None:
    page.goto(opened.url(f"systems/{system}.html?p=synthetic-red-iron-oxide&m=40"))
    answer = page.locator("#sn-answer")
    expect(answer).to_contain_text("Synthetic red iron oxide")
    first = answer.inner_text()
    assert not BROKEN.search(first)
    page.locator("#sn-pigment").select_option("ultramarine")
    expect(answer).to_contain_text("Ultramarine")
    assert answer.inner_text() != first
    if system != "silicate":
        assert re.search(r"\d\sg", answer.inner_text())


@DESK_ONLY
@pytest.mark.parametrize(
    ("system", "binder", "pigment"),
    [
        ("oil", "linseed-oil", "yellow-ochre"),
        ("oil", "linseed-oil", "raw-umber"),
        ("encaustic", "beeswax-damar", "yellow-ochre"),
        ("egg-tempera", "egg-yolk", "raw-umber"),
        ("casein", "casein", "yellow-ochre"),
    ],
)
def test_the_chooser_gives_what_the_book_gives(
    page: Page, opened: Site, system: str, binder: str, pigment: str
) -> None:
    """The grams of 100 g of pigment are those of the published catalogue, to two figures."""
    page.goto(opened.url(f"systems/{system}.html?p={pigment}&m=100"))
    printed = page.locator("#sn-answer tbody td.n b").first.inner_text()
    low, high = (float(each) for each in re.findall(r"[\d.]+", printed))
    known = binder_grams(opened, pigment, binder)
    assert low == pytest.approx(known["low"], rel=0.05)
    assert high == pytest.approx(known["high"], rel=0.05)


@DESK_ONLY
def test_a_field_without_a_number_says_so(page: Page, opened: Site) -> None:
    page.goto(opened.url("systems/oil.html"))
    page.locator("#sn-mass").fill("a little")
    expect(page.locator("#sn-mass-words")).to_be_visible()
    expect(page.locator("#sn-answer")).to_contain_text("Write how much pigment")


@DESK_ONLY
def test_what_stays_shut_is_no_offer(page: Page, opened: Site) -> None:
    page.goto(opened.url("systems/oil.html?p=vermilion"))
    expect(page.locator("#sn-answer")).to_contain_text("It is to stay shut")


def test_without_scripts_a_few_pigments_stand_in_a_table(browser: Browser, opened: Site) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(opened.url("systems/distemper.html"))
    assert not page.locator("#system-numbers").is_visible()
    assert page.locator("#numbers-table tbody tr").first.is_visible()
    context.close()


@DESK_ONLY
def test_one_medium_at_a_time_with_its_reasons(page: Page, opened: Site) -> None:
    page.goto(opened.url("compatibility.html"))
    table = page.locator("#cp-chem")
    expect(table.locator("thead th:visible")).to_have_count(10)
    page.locator("#cp-medium").select_option("sulfur")
    expect(table.locator("thead th:visible")).to_have_count(2)
    lead = table.locator("#r-lead-whites")
    expect(lead).to_contain_text("unsuitable")
    expect(lead).to_contain_text("lead sulfide")
    first, last = table.locator("tbody tr:visible").first, table.locator("tbody tr:visible").last
    expect(first).to_contain_text("unsuitable")
    expect(last).to_contain_text("suits")
    page.wait_for_timeout(500)
    assert "medium=sulfur" in page.url
    page.reload()
    expect(page.locator("#cp-medium")).to_have_value("sulfur")
    page.locator("#cp-medium").select_option("")
    expect(table.locator("thead th:visible")).to_have_count(10)


@DESK_ONLY
def test_both_sides_of_a_dispute_stand_on_the_page(page: Page, opened: Site) -> None:
    page.goto(opened.url("compatibility/sulfur.html"))
    lead = page.locator("#lead-whites")
    expect(lead).to_contain_text("sure to evolve the deadly sulfide")
    expect(lead).to_contain_text("never happens in practice")
    expect(lead.locator(".voices li")).to_have_count(2)


@DESK_ONLY
def test_a_binder_no_entry_speaks_of_is_answered_by_class(page: Page, opened: Site) -> None:
    page.goto(opened.url("compatibility.html?p=prussian-blue"))
    cell = page.get_by_role("button", name=re.compile("Prussian blue in Casein with lime"))
    expect(cell).to_have_attribute("aria-label", re.compile("unsuitable, by chemistry class"))
    cell.click()
    expect(page.locator("#cp-words")).to_contain_text("by chemistry class, chemically expected")
    expect(page.locator("#cp-words a", has_text="Prussian blues")).to_be_visible()


@DESK_ONLY
def test_a_result_sheet_prints_alone(page: Page, opened: Site) -> None:
    page.goto(opened.url("studio-tests/ph-test.html"))
    page.emulate_media(media="print")
    assert page.locator(".result-sheet").is_visible()
    assert not page.locator("#steps").is_visible()
    height = page.locator(".result-sheet").evaluate("each => each.getBoundingClientRect().height")
    assert height < 1000, "taller than the text of an A4 page at 96 dots to the inch"


def test_every_sheet_fits_one_page(browser: Browser, opened: Site) -> None:
    context = browser.new_context(viewport={"width": 700, "height": 1000}, offline=True)
    page = context.new_page()
    page.emulate_media(media="print")
    tall = {}
    for path in sorted((opened.folder / "studio-tests").glob("*.html")):
        if path.stem != "index":
            page.goto(path.as_uri())
            tall[path.stem] = page.locator(".result-sheet").evaluate("each => each.scrollHeight")
    assert len(tall) >= 20
    assert {name: height for name, height in tall.items() if height > 1000} == {}
    context.close()


def test_the_data_tell_which_verdicts_are_by_class(opened: Site) -> None:
    text = (opened.folder / "data" / "compatibility.js").read_text(encoding="utf-8")
    known = json.loads(text[text.index("{") : text.rindex("}") + 1])
    assert len(known["classes"]) >= 50 and len(known["attacks"]) == 9
    assert len(known["by_class"]) >= 215
