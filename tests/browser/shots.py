"""Pictures of the key states, to be looked at: ``python -m tests.browser.shots`` after a build."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.browser import chromium
from tests.browser.conftest import CHROMIUM_ARGS, DESK, HEIGHTS, PHONE, TABLET
from tests.conftest import ROOT

FOLDER = ROOT / ".cache" / "shots"
BATCH = (
    "workbench.html?p=raw-umber:1&fix=tubes:5&sys=acrylic-dispersion&b=acrylic-gel&aim=finish:satin"
    "&v=propylene-glycol-water:loose:0.5&d=polyacrylate-dispersant:1.5:active-on-pigment"
)


@dataclass(frozen=True)
class Shot:
    """One state: the page, the width, and what is done before the picture is taken."""

    name: str
    place: str
    width: int = PHONE
    dark: bool = False
    paper: bool = False
    before: Callable[[Page], object] | None = None


def search(page: Page) -> None:
    page.locator("#find-box").fill("raw umbr")


def to_sheet(page: Page) -> None:
    page.locator("#wb-result").scroll_into_view_if_needed()
    page.evaluate("document.getElementById('wb-result').scrollIntoView()")


def start_pour(page: Page) -> None:
    page.locator("#ws-series").click()
    page.get_by_role("button", name="Start pour 1").click()
    page.evaluate("document.getElementById('ws-answer').scrollIntoView()")


def spoil(page: Page) -> None:
    page.locator("#wb-mass").fill("1e9")
    page.locator("#wb-loss").fill("a little")
    page.locator("#wb-mass").scroll_into_view_if_needed()
    page.wait_for_timeout(300)


def search_text(page: Page) -> None:
    page.locator("#text-query").fill("manganese umber")


def narrow(page: Page) -> None:
    page.locator(".filters > summary").click()
    page.locator("#find-person").select_option("under-18")


def tap_cell(page: Page) -> None:
    page.locator(".cell").first.click()


SHOTS = (
    Shot("01-home", "index.html", DESK),
    Shot("02-find-misspelt", "find.html", before=search),
    Shot("03-bench-card", "pigments/raw-umber.html"),
    Shot("04-bench-card-dark", "pigments/vermilion.html", dark=True),
    Shot("05-bench-card-paper", "pigments/raw-umber.html", DESK, paper=True),
    Shot("06-workbench", "workbench.html", TABLET),
    Shot("07-batch-sheet", BATCH, before=to_sheet),
    Shot("08-words-at-the-field", "workbench.html", before=spoil),
    Shot("09-washing-pour", "washing.html", before=start_pour),
    Shot("10-room-dust", "room-tool.html?p=raw-umber&dust=3000", TABLET, dark=True),
    Shot("11-compatibility", "compatibility.html?hue=blue", TABLET, before=tap_cell),
    Shot("12-pocket-card", "pocket.html#pigment-azurite"),
    Shot("13-text-search", "glossary.html?q=manganese", DESK, before=search_text),
    Shot("14-find-narrowed", "find.html", before=narrow),
    Shot("15-guides", "guides/index.html"),
    Shot("16-question", "questions/rinse-water.html"),
    Shot("17-stone-check", "stone-check.html", TABLET),
    Shot("18-faults", "faults.html", dark=True),
    Shot("19-print-room", "print.html", DESK),
    Shot("20-worked-stone", "worked-stone.html"),
)


def take(page: Page, shot: Shot, site: Path) -> Path:
    """Open a state and take its picture."""
    name, mark, rest = shot.place.partition("?" if "?" in shot.place else "#")
    page.emulate_media(
        media="print" if shot.paper else "screen", color_scheme="dark" if shot.dark else "light"
    )
    page.goto((site / name).as_uri() + mark + rest)
    page.wait_for_load_state("networkidle")
    if shot.before:
        shot.before(page)
        page.wait_for_timeout(300)
    path = FOLDER / f"{shot.name}.png"
    page.screenshot(path=path)
    return path


def main() -> None:
    site, browser_path = ROOT / "site", chromium.find()
    if browser_path is None or not (site / "index.html").is_file():
        sys.exit("Pictures need a Chromium and a built site: make site")
    FOLDER.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=browser_path, args=CHROMIUM_ARGS)
        for shot in SHOTS:
            size = {"width": shot.width, "height": HEIGHTS[shot.width]}
            context = browser.new_context(viewport=size, offline=True)  # type: ignore[arg-type]
            print(take(context.new_page(), shot, site))
            context.close()
        browser.close()


if __name__ == "__main__":
    main()
