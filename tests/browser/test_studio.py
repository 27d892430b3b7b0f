"""The edition of the invented studio in a browser: open to everybody, in its colours, with its rooms."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Page

from tests.browser.conftest import Site
from tests.browser.test_pages import AXE_OPTIONS

axe = Axe()
PAGES = (
    "index.html",
    "pigments/raw-umber.html",
    "pigments/mill-lane-ochre.html",
    "studio/shelf.html",
    "studio/house-rules.html",
    "studio/audit.html",
    "studio/sign-off.html",
    "studio/not-here.html",
    "studio-edition.html",
    "room-tool.html",
)


@pytest.fixture(scope="session")
def ours(edition: Path) -> Site:
    return Site(edition, json.loads((edition / "data" / "catalogue.json").read_text(encoding="utf-8")))


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("place", PAGES)
def test_axe_finds_nothing_and_nothing_scrolls_sideways(
    page: Page, ours: Site, place: str, scheme: str
) -> None:
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
    page.goto(ours.url(place))
    found = axe.run(page, options=AXE_OPTIONS).response["violations"]
    assert [f"{each['id']}: {each['help']}" for each in found] == []
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= page.evaluate("document.documentElement.clientWidth")


def test_the_tools_start_from_the_smallest_room(page: Page, ours: Site) -> None:
    page.goto(ours.url("room-tool.html"))
    assert page.locator("#rm-volume").input_value() == "38"
    assert page.locator("#rm-changes").input_value() == "6"
    page.get_by_role("link", name="Wet room").click()
    assert page.locator("#rm-volume").input_value() == "55"


def test_find_puts_the_shelf_first_among_equals(page: Page, ours: Site) -> None:
    page.goto(ours.url("find.html"))
    rows = page.locator(".find-row")
    rows.first.wait_for()
    assert "on our shelf" in rows.first.inner_text()
    page.locator("#find-box").fill("lead white")
    page.wait_for_timeout(300)
    assert "on our shelf" in page.locator(".find-row").first.inner_text()


def test_the_accent_is_the_studios(page: Page, ours: Site) -> None:
    page.emulate_media(color_scheme="light")
    page.goto(ours.url("index.html"))
    mark = page.evaluate("getComputedStyle(document.documentElement).getPropertyValue('--mark')")
    assert mark.strip() == "#2f5d50"
