"""What holds for every kind of page: quiet, self-contained, within the screen, and open to everybody."""

from __future__ import annotations

import re

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page

from tests.browser.conftest import DESK, HEIGHTS, PHONE, Site
from tests.browser.places import PAGES

axe = Axe()
# Preloading would have axe ask for the stylesheets again, which a page from disk may not do.
LONG = ("identifiers.html", "compare.html", "compatibility.html")
"""Tables of a thousand rows: tables in the dark are looked at on shorter pages."""
AXE_OPTIONS = {"resultTypes": ["violations"], "preload": False}

NAVIGATION = "nav, .head, .skip, .md-search"

SMALL_TARGETS = """
([scope, least]) => {
  const inSentence = (node) => {
    const around = node.closest("p, li, td, dd, figcaption");
    return node.tagName === "A" && around && around.innerText.trim() !== node.innerText.trim();
  };
  const targets = document.querySelectorAll(`${scope} :is(a[href], button, input, select, summary)`);
  return [...targets]
    .filter((node) => node.checkVisibility() && !inSentence(node))
    .map((node) => [(node.closest("label") || node).getBoundingClientRect(), node])
    .filter(([box]) => box.width > 0 && (box.width < least - 0.5 || box.height < least - 0.5))
    .map(([box, node]) => `${box.width.toFixed()} x ${box.height.toFixed()}: ${node.outerHTML.slice(0, 99)}`);
}
"""


def path_of(opened: Site, place: str) -> str:
    """A folder stands for the first page in it."""
    if not place.endswith("/"):
        return place
    first = min((opened.folder / place).glob("*.html"))
    return place + first.name


@pytest.mark.parametrize("place", PAGES)
def test_opens_without_error_or_request(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(path_of(opened, place)))
    page.wait_for_load_state("networkidle")
    assert page.locator("h1").count() == 1


@pytest.mark.parametrize(
    ("place", "scheme"),
    [
        (place, scheme)
        for place in PAGES
        for scheme in ("light", "dark")
        if not (place in LONG and scheme == "dark")
    ],
)
def test_axe_finds_nothing(page: Page, opened: Site, place: str, scheme: str) -> None:
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
    page.goto(opened.url(path_of(opened, place)))
    found = axe.run(page, options=AXE_OPTIONS).response["violations"]
    told = [
        f"{violation['id']}: {violation['help']} at {[node['target'] for node in violation['nodes'][:4]]}"
        for violation in found
    ]
    assert told == []


@pytest.mark.parametrize("place", PAGES)
def test_nothing_scrolls_sideways(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(path_of(opened, place)))
    wide = page.evaluate("document.documentElement.scrollWidth")
    assert wide <= page.evaluate("document.documentElement.clientWidth")


@pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
@pytest.mark.parametrize(
    ("place", "scope"), [("find.html", "#content"), ("pigments/raw-umber.html", ".bench")]
)
def test_thumbs_hit_every_target(page: Page, opened: Site, place: str, scope: str) -> None:
    page.goto(opened.url(place))
    page.wait_for_selector(scope)
    assert page.evaluate(SMALL_TARGETS, [scope, 44]) == []


@pytest.mark.parametrize("place", ["pigments/raw-umber.html", "compare.html"])
def test_print_leaves_the_navigation_out(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    page.emulate_media(media="print")
    shown = page.locator(NAVIGATION).evaluate_all(
        "nodes => nodes.filter(node => node.checkVisibility()).map(node => node.className)"
    )
    assert shown == []
    assert page.locator("h1:visible, .card-title:visible").count() == 1, "the sheet says what it is about"


ALONE = "[...document.querySelectorAll('.card ~ *, .foot')].forEach(node => node.remove())"


@pytest.mark.parametrize("width", [DESK], indirect=True, ids=["1280px"])
@pytest.mark.parametrize("paper", ["A4", "Letter", "A5", "A6"])
def test_a_bench_card_prints_on_one_sheet(page: Page, opened: Site, paper: str) -> None:
    over = []
    for place in ("pigments/raw-umber", "pigments/lead-white", "pigments/vermilion", "binders/acrylic-gel"):
        page.goto(opened.url(f"{place}.html"))
        page.evaluate(ALONE)
        sheets = len(re.findall(rb"/Type\s*/Page\b", page.pdf(format=paper)))
        if sheets != 1:
            over.append(f"{place} takes {sheets} sheets of {paper}")
    assert over == []


def test_print_hides_workings_and_keeps_the_verdict(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    page.emulate_media(media="print")
    shown = "all => all.filter(one => one.checkVisibility()).length"
    assert page.locator("details.working").evaluate_all(shown) == 0
    assert page.locator(".verdict.first .word").is_visible()
    assert page.locator(".verdict.first .shape").is_visible()


def test_the_card_answers_in_order(page: Page, opened: Site) -> None:
    """What it is, the verdicts, who must not, what to do first, how much, when to stop, where it goes."""
    page.goto(opened.url("pigments/raw-umber.html"))
    order = ["h1", ".verdicts", ".who", ".do", ".start", ".stop", ".bench > .verdict", ".wrong"]
    tops = [page.locator(each).first.evaluate("node => node.getBoundingClientRect().top") for each in order]
    if page.viewport_size and page.viewport_size["width"] == PHONE:
        assert tops == sorted(tops)
    places = page.evaluate(
        "names => names.map(name => [...document.querySelectorAll('*')]"
        ".indexOf(document.querySelector(name)))",
        order,
    )
    assert places == sorted(places)
    first = page.locator(".verdict.first").bounding_box()
    assert first is not None
    assert first["y"] < HEIGHTS[PHONE] / 2, "the verdict stands on the first screen"


def test_raw_umber_says_how_much_gel(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    start = page.locator(".start li").filter(has_text="acrylic gel for 20 g of pigment")
    assert start.count() == 1
    assert start.locator(".fig").inner_text().replace("\N{NO-BREAK SPACE}", " ").endswith(" g")
    assert "Crystalline silica" in page.locator(".verdict.first .why").inner_text()[:40]


@pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
def test_without_scripts_every_fact_is_there(browser: Browser, opened: Site, width: int) -> None:
    context = browser.new_context(
        java_script_enabled=False, offline=True, viewport={"width": width, "height": HEIGHTS[width]}
    )
    page = context.new_page()
    page.goto(opened.url("pigments/raw-umber.html"))
    for part in (
        ".verdict.first .word",
        ".who li",
        ".do li",
        ".start li",
        ".stop",
        ".wrong dd",
        "table.figs td",
    ):
        assert page.locator(part).first.is_visible(), part
    fold = page.locator("details.row").first
    fold.locator("summary").click()
    assert fold.locator("p").first.is_visible(), "workings unfold without a script"
    assert page.locator(".seek").is_hidden(), "what needs a script is not offered"
    page.goto(opened.url("find.html"))
    assert page.get_by_role("link", name="all names and numbers").is_visible()
    context.close()
