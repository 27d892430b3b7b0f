"""What a page costs a reader: the scripts it brings, and what is seen first."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Site
from tests.browser.places import PAGES
from tests.browser.test_pages import path_of

KB = 1000
SCRIPTS_OF_AN_ENTRY = 60 * KB
ENTRIES = [
    place for place in PAGES if re.match("(pigments|substances|binders|additives|systems|sources)/", place)
]

LARGEST = """
() => new Promise((done) => {
  new PerformanceObserver((list) => {
    const last = list.getEntries().at(-1);
    const home = last.element && last.element.closest(".card, .page-head");
    done(home ? home.className : String(last.element && last.element.outerHTML));
  }).observe({ type: "largest-contentful-paint", buffered: true });
})
"""


def scripts(folder: Path, place: str) -> dict[str, int]:
    page = folder / place
    named = re.findall(r'<script src="([^"]+)"', page.read_text(encoding="utf-8"))
    return {name: (page.parent / name).resolve().stat().st_size for name in named}


@pytest.mark.parametrize("place", ENTRIES)
def test_an_entry_brings_few_scripts(page: Page, opened: Site, place: str) -> None:
    """Those that stand on the page and those that they ask for."""
    path = path_of(opened, place)
    page.goto(opened.url(path))
    page.wait_for_load_state("networkidle")
    asked = page.evaluate("[...document.scripts].map(one => one.src).filter(Boolean)")
    late = {name: Path(name.removeprefix("file://")).stat().st_size for name in asked}
    standing = {
        str((opened.folder / path).parent / name): size for name, size in scripts(opened.folder, path).items()
    }
    weights = {Path(name).name: size for name, size in {**standing, **late}.items()}
    allowed = SCRIPTS_OF_AN_ENTRY if not path.startswith("systems/") else 4 * SCRIPTS_OF_AN_ENTRY
    assert sum(weights.values()) <= allowed, weights


def test_what_is_seen_first_is_the_bench_card(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    where = page.evaluate(LARGEST)
    assert "card" in where.split(), where
