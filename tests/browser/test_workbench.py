"""The workbench in the page: a batch from the fields, the address and the lot, in the reader's own units."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import Site
from tests.browser.test_tools import BROKEN, ONE_WIDTH, UMBER, field, said


def test_an_address_brings_a_batch_back(page: Page, opened: Site) -> None:
    page.goto(opened.url(UMBER))
    sheet = page.locator("#wb-result")
    expect(sheet.locator("h2")).to_have_text("Raw umber in Acrylic gel")
    expect(sheet).to_contain_text("5 full and 0 ml over")
    assert field(page, "wb-tubes") == "5"
    assert field(page, "wb-dpercent") == "1.5"
    page.locator("#wb-tubes").fill("10")
    expect(sheet).to_contain_text("10 full and 0 ml over")
    page.wait_for_function("location.search.includes('fix=tubes%3A10')")
    page.reload()
    expect(sheet).to_contain_text("10 full and 0 ml over")


@ONE_WIDTH
def test_an_address_cannot_bring_in_markup(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html?p=<img src=x onerror=alert(1)>:1&fix=mass:NaN&b=no-such&aim=pvc:x"))
    expect(page.locator("#wb-result")).to_be_visible()
    assert page.locator("#content img").count() == 0
    assert not BROKEN.search(page.locator("#wb-result").inner_text())


def test_a_batch_by_keyboard_alone(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html"))
    page.locator("#wb-p1").focus()
    page.keyboard.type("Yellow ochre")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.id") == "wb-more"
    assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid"
    page.keyboard.press("Enter")
    assert page.evaluate("document.activeElement.id") == "wb-p2"
    page.keyboard.type("Chalk")
    expect(page.locator("#wb-result h2")).to_contain_text("Yellow ochre, Chalk")
    for _ in range(60):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement.textContent") == "Print the batch sheet":
            break
    assert page.evaluate("document.activeElement.textContent") == "Print the batch sheet"


@ONE_WIDTH
def test_a_batch_by_thumb(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html"))
    page.locator("#wb-more").tap()
    page.locator("#wb-p2").select_option("chalk")
    expect(page.locator("#wb-result h2")).to_contain_text("Chalk")
    page.locator("#wb-less").tap()
    expect(page.locator("#wb-result h2")).not_to_contain_text("Chalk")


def test_the_strictest_level_and_the_way_to_the_classes(page: Page, opened: Site) -> None:
    page.goto(
        opened.url("workbench.html?p=chalk:9,cadmium-red:1&fix=mass:20&sys=oil&b=linseed-oil&aim=pvc:0.4")
    )
    line = page.locator(".levels-line")
    expect(line).to_contain_text("Paste only")
    expect(line.locator(".shape").first).to_be_visible()
    expect(line).to_contain_text("mullbook label")
    assert not re.search(r"\bH3\d\d\b|EUH", page.locator("#wb-result").inner_text())


def test_own_figures_are_remembered_by_lot(page: Page, opened: Site) -> None:
    page.goto(opened.url(UMBER))
    expect(page.locator("[data-warning=no-rub-out]")).to_be_visible()
    page.locator("summary", has_text="My own figures").click()
    page.locator("#wb-lot-raw-umber-name").fill("A 12")
    page.locator("#wb-lot-raw-umber-oil").fill("42")
    page.get_by_role("button", name="Remember this lot").click()
    expect(page.locator("#wb-result")).to_contain_text("Raw umber: lot A 12")
    expect(page.locator("#wb-result")).to_contain_text("Critical PVC here")
    assert page.locator("[data-warning=no-rub-out]").count() == 0
    page.reload()
    expect(page.locator("#wb-result")).to_contain_text("Raw umber: lot A 12")
    page.locator("summary", has_text="My own figures").click()
    page.locator("#wb-lot-raw-umber").select_option("")
    expect(page.locator("[data-warning=no-rub-out]")).to_be_visible()


@ONE_WIDTH
def test_bad_figures_in_the_folds_get_words_as_they_are_typed(page: Page, opened: Site) -> None:
    """Lots, prices and what was weighed stand behind folds; they answer like the rest."""
    page.goto(opened.url("workbench.html"))
    page.locator("details.fold").evaluate_all("all => all.forEach(one => { one.open = true; })")
    for name in ("wb-lot-raw-umber-oil", "wb-price-raw-umber", "wb-have-raw-umber", "wb-wanted"):
        page.locator(f"#{name}").fill("some")
        expect(page.locator(f"#{name}-words")).to_be_visible()
        page.locator(f"#{name}").fill("")
        expect(page.locator(f"#{name}-words")).to_be_hidden()
    assert not BROKEN.search(said(page))


@ONE_WIDTH
@pytest.mark.parametrize("fault", ["faults/chalking.html", "faults/foam.html", "faults/too-thin.html"])
def test_a_fault_leads_to_its_own_question_on_the_workbench(page: Page, opened: Site, fault: str) -> None:
    page.goto(opened.url(fault))
    asked = page.locator(".do-it a.button").first
    wanted = re.search(r"wrong=([a-z-]+)", asked.get_attribute("href") or "")
    asked.tap()
    assert wanted
    expect(page.locator("#wb-wrong")).to_have_value(wanted[1])
    expect(page.locator("#wb-wrong")).to_be_visible()
    page.locator("#wb-have-raw-umber").fill("20")
    page.locator("#wb-have-acrylic-gel").fill("60")
    expect(page.locator("#wb-mend p").first).not_to_be_empty()
    assert not BROKEN.search(page.locator("#wb-mend").inner_text())


@ONE_WIDTH
def test_what_is_spoiled_is_said_before_anything_is_weighed(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html?wrong=smells"))
    expect(page.locator("#wb-mend")).to_contain_text("Discard")


def test_another_limit_outlives_a_change_of_units(page: Page, opened: Site) -> None:
    page.goto(opened.url("room-tool.html?p=raw-umber"))
    page.locator("#rm-limit").select_option("own")
    page.locator(".prefs summary").click()
    page.locator("#prefs-comma").select_option("true")
    expect(page.locator("#rm-limit")).to_have_value("own")
    expect(page.locator("#rm-own")).to_have_value("0,1")


def test_what_was_weighed_gives_what_to_add(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html?p=zinc-white:1&fix=mass:10&sys=oil&b=linseed-oil&aim=pvc:0.4"))
    page.locator("summary", has_text="I have weighed already").click()
    page.locator("#wb-have-zinc-white").fill("20")
    page.locator("#wb-have-linseed-oil").fill("2,5")
    expect(page.locator("#wb-mend .add")).to_contain_text("Linseed oil")
    page.locator("#wb-wrong").select_option("chalks")
    expect(page.locator("#wb-mend")).to_contain_text("Then PVC 40 %")
    page.locator("#wb-wrong").select_option("insipid")
    expect(page.locator("#wb-mend")).to_contain_text("No addition does it")


@ONE_WIDTH
def test_prices_make_a_cost(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html?p=zinc-white:1&fix=mass:100&sys=oil&b=linseed-oil&aim=pvc:0.4"))
    page.locator("summary", has_text="Prices").click()
    page.locator("#wb-price-zinc-white").fill("20")
    expect(page.locator("#wb-result")).to_contain_text("2 (1 of 2 priced)")


def test_the_batch_sheet_prints_without_the_fields(page: Page, opened: Site) -> None:
    page.goto(opened.url(UMBER))
    page.emulate_media(media="print")
    assert not page.locator("#workbench").is_visible()
    assert page.locator("#wb-result table").is_visible()
    assert page.locator(".write-in").is_visible()


def test_units_follow_what_is_chosen(page: Page, opened: Site) -> None:
    page.goto(opened.url("workbench.html?p=zinc-white:1&fix=mass:56.699&sys=oil&b=linseed-oil&aim=pvc:0.4"))
    page.locator(".prefs summary").click()
    page.locator("#prefs-mass").select_option("oz")
    page.locator("#prefs-comma").select_option("true")
    assert field(page, "wb-mass") == "2"
    expect(page.locator("#wb-result tbody")).to_contain_text(re.compile(r"0,\d+\s?oz"))
    page.reload()
    assert field(page, "wb-mass") == "2"
    expect(page.locator(".prefs summary")).to_contain_text("oz")
