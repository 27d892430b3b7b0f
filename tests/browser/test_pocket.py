"""The book in one file: opened from disk with no network, as a phone in flight mode opens it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import HEIGHTS, PHONE, Account, Site
from tests.browser.test_pages import AXE_OPTIONS, SMALL_TARGETS

MEGABYTE = 1_000_000
MOST_BYTES, AT_PIGMENTS = 4 * MEGABYTE, 160
ROWS = "#find-results a.find-row"


@pytest.fixture
def alone(site: Path, tmp_path: Path) -> Path:
    """The file by itself, as it comes by messenger."""
    copied = tmp_path / "pocket.html"
    copied.write_bytes((site / "pocket.html").read_bytes())
    return copied


@pytest.fixture
def pocket(browser: Browser, alone: Path) -> Iterator[Page]:
    context = browser.new_context(
        viewport={"width": PHONE, "height": HEIGHTS[PHONE]}, offline=True, has_touch=True
    )
    context.set_default_timeout(10_000)
    page, account = context.new_page(), Account()
    account.listen(page)
    page.goto(alone.as_uri())
    yield page
    assert account.requests_out == []
    assert account.errors == []
    context.close()


def test_it_stays_small(opened: Site) -> None:
    size = (opened.folder / "pocket.html").stat().st_size
    assert size <= MOST_BYTES * max(1, len(opened.pigments) / AT_PIGMENTS)


def test_it_loads_nothing(opened: Site) -> None:
    text = (opened.folder / "pocket.html").read_text(encoding="utf-8")
    assert not re.search(r"<(?:link|img|iframe|script)\b[^>]*\b(?:src|href)=", text)
    assert "@import" not in text
    assert not re.search(r"url\((?!#|data:)", text)


def test_a_jar_is_found_and_its_card_opens(pocket: Page) -> None:
    expect(pocket.locator(ROWS).first).to_be_visible()
    pocket.locator("#find-box").fill("pbr7 raw umbr")
    pocket.locator("#find-box").fill("raw umbr")
    pocket.locator(ROWS).first.tap()
    expect(pocket.locator("#pigment-raw-umber .verdict.first .word")).to_be_visible()
    assert not pocket.locator("#find-box").is_visible()
    pocket.go_back()
    expect(pocket.locator("#find-box")).to_be_visible()


def test_every_pigment_binder_and_additive_has_its_card(opened: Site, pocket: Page) -> None:
    ids = set(pocket.locator(".leaf:has(.card)").evaluate_all("all => all.map(one => one.id)"))
    for kind in ("pigments", "binders", "additives"):
        assert {f"{kind[:-1]}-{each['id']}" for each in opened.catalogue[kind]} <= ids


def test_ids_stand_once_and_links_lead_somewhere(pocket: Page) -> None:
    twice = pocket.evaluate(
        "[...document.querySelectorAll('[id]')].map(n => n.id).filter((id, n, all) => all.indexOf(id) !== n)"
    )
    lost = pocket.evaluate(
        "[...document.querySelectorAll('a[href]')].map(a => a.getAttribute('href'))"
        ".filter(to => !to.startsWith('#') || !document.getElementById(to.slice(1)))"
    )
    assert twice == []
    assert lost == []


def test_the_workbench_and_the_timer_work(pocket: Page) -> None:
    pocket.get_by_role("link", name="Workbench").tap()
    pocket.locator("#wb-mass").fill("30")
    expect(pocket.locator("#wb-result")).to_contain_text("Raw umber in Acrylic gel")
    expect(pocket.locator("#wb-result tbody")).to_contain_text(re.compile(r"30\s?g"))
    pocket.get_by_role("link", name="Washing").tap()
    expect(pocket.locator("#ws-answer .big")).to_be_visible()
    pocket.locator("#ws-add").tap()
    pocket.get_by_role("button", name="Start pour 1").tap()
    expect(pocket.locator(".pour .how")).to_contain_text("ends")


def test_cautions_stand_in_it(pocket: Page) -> None:
    pocket.get_by_role("link", name="Cautions").tap()
    expect(pocket.locator("#cautions")).to_contain_text("Leave it shut")


@pytest.mark.parametrize("leaf", ["find", "pigment-raw-umber", "workbench-leaf", "washing-leaf", "cautions"])
def test_a_leaf_is_open_to_everybody(pocket: Page, leaf: str) -> None:
    pocket.evaluate(f"location.hash = '#{leaf}'")
    expect(pocket.locator(f"#{leaf}")).to_be_visible()
    # The file as a whole once; then each leaf alone, for the two hundred cards beside it are the same.
    within = None if leaf == "find" else f"#{leaf}"
    found = Axe().run(pocket, context=within, options=AXE_OPTIONS).response["violations"]
    assert [(each["id"], [node["target"] for node in each["nodes"][:3]]) for each in found] == []
    assert pocket.evaluate(SMALL_TARGETS, [f"#{leaf}", 44]) == []
    assert pocket.evaluate("document.documentElement.scrollWidth") <= PHONE


def test_cards_open_without_scripts(browser: Browser, alone: Path) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(alone.as_uri())
    page.locator("noscript a[href='#pigment-azurite']").click()
    expect(page.locator("#pigment-azurite .verdict.first")).to_be_visible()
    context.close()
