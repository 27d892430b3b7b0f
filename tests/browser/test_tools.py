"""The tools in the page: worked by key and by thumb, answering in words, remembering."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import DESK, PHONE, TABLET, Site
from tests.browser.test_pages import AXE_OPTIONS, SMALL_TARGETS

TOOLS = {
    "workbench.html": "#workbench",
    "stone-check.html": "#stone",
    "washing.html": "#washing",
    "room-tool.html": "#room",
    "hiding.html": "#hiding",
    "compatibility.html": "#compat",
}
WITH_NUMBERS = ("workbench.html", "washing.html", "room-tool.html")
BAD = {
    "letters": "some",
    "negative": "-3",
    "far too much": "1e9",
    "two marks": "1.000,5",
    "pasted page": "<b onmouseover=alert(1)>5</b>",
    "unit with it": "20 g",
}
BROKEN = re.compile(r"NaN|undefined|Infinity|\[object|null")
ONE_WIDTH = pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
ALL_WIDTHS = pytest.mark.parametrize(
    "width", [PHONE, TABLET, DESK], indirect=True, ids=["360px", "768px", "1280px"]
)

UMBER = (
    "workbench.html?p=raw-umber:1&fix=tubes:5&tube=37:100&loss=8&sys=acrylic-dispersion&b=acrylic-gel"
    "&aim=finish:satin&v=propylene-glycol-water:loose:0.5&d=polyacrylate-dispersant:1.5:active-on-pigment"
    "&add=defoamer:0.2:product-on-total"
)


def said(page: Page) -> str:
    return page.locator("#content").inner_text()


def field(page: Page, name: str) -> str:
    return page.locator(f"#{name}").input_value()


@ALL_WIDTHS
@pytest.mark.parametrize("place", [*TOOLS, "compare.html?ids=raw-umber,azurite"])
def test_a_tool_opens_whole(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    page.wait_for_load_state("networkidle")
    assert page.evaluate("document.documentElement.scrollWidth <= document.documentElement.clientWidth")
    assert not BROKEN.search(said(page))


@ONE_WIDTH
@pytest.mark.parametrize("place", [*TOOLS, "compare.html?ids=raw-umber,azurite"])
def test_thumbs_hit_every_target(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert page.evaluate(SMALL_TARGETS, ["#content", 44]) == []


@pytest.mark.parametrize("place", TOOLS)
def test_without_scripts_a_tool_says_so(browser: Browser, opened: Site, place: str) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(opened.url(place))
    assert page.locator("noscript").first.inner_text().strip()
    assert not page.locator(TOOLS[place]).is_visible()
    context.close()


@ONE_WIDTH
@pytest.mark.parametrize("place", WITH_NUMBERS)
@pytest.mark.parametrize("bad", BAD)
def test_bad_input_gets_words_at_the_field(page: Page, opened: Site, place: str, bad: str) -> None:
    page.goto(opened.url(place))
    fields = page.locator(f"{TOOLS[place]} input[data-number]:visible")
    for number in range(fields.count()):
        box = fields.nth(number)
        before, name = box.input_value(), box.get_attribute("id")
        box.fill(BAD[bad])
        words = page.locator(f"#{name}-words")
        expect(words).to_be_visible()
        assert len(words.inner_text()) > 20
        assert box.get_attribute("aria-invalid") == "true"
        assert not BROKEN.search(said(page)), name
        box.fill(before)
        expect(words).to_be_hidden()
    assert page.locator("#content b[onmouseover]").count() == 0


@ONE_WIDTH
@pytest.mark.parametrize("place", WITH_NUMBERS)
def test_an_empty_field_is_asked_for(page: Page, opened: Site, place: str) -> None:
    page.goto(opened.url(place))
    fields = page.locator(f"{TOOLS[place]} input[data-number]:visible:not([data-optional])")
    for number in range(fields.count()):
        before = fields.nth(number).input_value()
        fields.nth(number).fill("")
        expect(page.locator(f"#{fields.nth(number).get_attribute('id')}-words")).to_have_text(
            "Write a number here."
        )
        fields.nth(number).fill(before)
    assert not BROKEN.search(said(page))


@ONE_WIDTH
def test_a_comma_before_decimals_is_read(page: Page, opened: Site) -> None:
    page.goto(opened.url("washing.html"))
    page.locator("#ws-density").fill("2,65")
    expect(page.locator("#ws-answer .big")).to_contain_text("55")
    page.locator("#ws-size").fill("1,000")
    expect(page.locator("#ws-size-words")).to_contain_text("1000 or 1.000")


@ONE_WIDTH
@pytest.mark.parametrize("size", ["325 mesh", "No. 325", "#325", "45"])
def test_water_in_fahrenheit_and_grains_in_mesh_are_read(page: Page, opened: Site, size: str) -> None:
    page.goto(opened.url("washing.html"))
    celsius = page.locator("#ws-answer").inner_text()
    page.locator("#ws-temperature").fill("68 F")
    page.locator("#ws-size").fill(size)
    expect(page.locator("#ws-answer")).to_have_text(re.compile("larger than 45 µm.*55"))
    assert page.locator("#ws-answer").inner_text() == celsius
    page.locator("#ws-temperature").fill("200 F")
    expect(page.locator("#ws-temperature-words")).to_contain_text("At most 50")
    page.locator("#ws-size").fill("326 mesh")
    expect(page.locator("#ws-size-words")).to_be_visible()


def test_a_pour_runs_on_behind_a_locked_screen(page: Page, opened: Site) -> None:
    page.clock.install()
    page.goto(opened.url("washing.html"))
    page.locator("#ws-add").click()
    page.get_by_role("button", name="Start pour 1").click()
    expect(page.locator(".pour .how")).to_contain_text("ends")
    page.reload()
    page.clock.fast_forward(20_000)
    expect(page.locator(".pour .left")).to_have_text(re.compile(r"^00:3\d$"))
    page.clock.fast_forward(60_000)
    expect(page.locator(".pour .left")).to_have_text("Pour now")
    expect(page.locator("#ws-now")).to_contain_text("Pour off now")
    assert page.title().startswith("Pour now")
    page.get_by_role("button", name="Remove pour 1").click()
    assert page.locator(".pour").count() == 0


@ONE_WIDTH
def test_the_usual_series_and_a_sieve(page: Page, opened: Site) -> None:
    page.goto(opened.url("washing.html"))
    page.locator("#ws-series").tap()
    assert page.locator(".pour").count() == 4
    page.locator("#ws-mesh").select_option("200")
    assert field(page, "ws-size") == "75"
    page.locator("#ws-minutes").fill("4.64")
    expect(page.locator("#ws-answer")).to_contain_text("larger than 20 µm")
    page.locator("#ws-load").fill("900")
    expect(page.locator("#ws-answer")).to_contain_text("settles as a front, not by size")


def test_a_room_is_never_an_allowance(page: Page, opened: Site) -> None:
    page.goto(opened.url("room-tool.html?p=raw-umber&dust=3000&room=60&air=6"))
    answer = page.locator("#rm-answer")
    expect(answer).to_contain_text("This little fills the whole room; at your face far less does.")
    expect(answer).to_contain_text("the air has been changed")
    words = answer.inner_text().lower()
    assert "you may" not in words
    assert "safe" not in words
    page.locator("#rm-limit").select_option("own")
    page.locator("#rm-own").fill("0.05")
    page.locator("#rm-volume").fill("40")
    expect(answer.locator(".big").first).to_have_text(re.compile(r"^2\smg$"))


def test_the_chosen_binder_comes_first_on_a_pigments_page(page: Page, opened: Site) -> None:
    page.goto(opened.url("pigments/raw-umber.html"))
    everything = page.locator(".card .start li:visible").count()
    page.locator(".prefs summary").click()
    page.locator("#prefs-binder").select_option("linseed-oil")
    page.locator("#prefs-place").select_option("EU")
    page.locator("#prefs-room").fill("30")
    page.locator("#prefs-room").press("Tab")
    mine = page.locator(".card .start li.mine")
    expect(mine.first).to_contain_text("linseed oil for 20 g of pigment")
    expect(mine.last).to_contain_text("your 30 m³ room")
    page.reload()
    expect(page.locator(".card .start li.mine").first).to_contain_text("linseed oil")
    page.locator(".prefs summary").click()
    page.locator("#prefs-binder").select_option("")
    page.locator("#prefs-place").select_option("")
    assert page.locator(".card .start li:visible").count() == everything
    page.locator("#prefs-room").fill("-1")
    page.locator("#prefs-room").press("Tab")
    expect(page.locator("#prefs-room-words")).to_be_visible()


def test_a_tap_tells_why(page: Page, opened: Site) -> None:
    page.goto(opened.url("compatibility.html?p=azurite"))
    page.get_by_role("button", name=re.compile("Azurite in Acrylic gel")).click()
    words = page.locator("#cp-words")
    expect(words).to_be_visible()
    assert len(words.inner_text()) > 40
    page.locator("#cp-one").select_option("azurite")
    expect(page.locator("#cp-count")).to_contain_text("on record")


def test_two_to_six_stand_side_by_side(page: Page, opened: Site) -> None:
    page.goto(opened.url("compare.html?ids=raw-umber,azurite,no-such"))
    side = page.locator("table.side")
    assert side.locator("thead th").count() == 3
    for one in ("vermilion", "chalk", "zinc-white", "titanium-white"):
        page.locator("#compare-pick").select_option(one)
    assert side.locator("thead th").count() == 7
    assert page.locator("#compare-pick").is_disabled()
    assert "ids=raw-umber,azurite,vermilion,chalk,zinc-white,titanium-white" in page.url
    page.get_by_role("button", name="Take Azurite away").click()
    assert side.locator("thead th").count() == 6


@ONE_WIDTH
def test_two_stand_whole_beside_each_other_on_a_phone(page: Page, opened: Site) -> None:
    """And what nobody knows of either is said once, not in a row of dashes."""
    page.goto(opened.url("compare.html?ids=raw-umber,azurite"))
    side = page.locator("table.side")
    ends = side.locator("thead th").evaluate_all("all => all.map(one => one.getBoundingClientRect().right)")
    assert max(ends) <= PHONE
    for row in side.locator("tbody tr").all():
        assert {cell.strip() for cell in row.locator("td").all_text_contents()} != {"—"}
    expect(page.locator("#side-by-side")).to_contain_text("Not known of any of them: ")


@ONE_WIDTH
@pytest.mark.parametrize("name", ["read", "number"])
def test_helpers_refuse_in_words(page: Page, opened: Site, name: str) -> None:
    page.goto(opened.url("workbench.html"))
    ask: dict[str, Callable[[], object]] = {
        "read": lambda: page.evaluate(
            "['', 'x', '1e999', '--1', '.', ',', '1..2', '\\u221e'].map(t => MULLBOOK_TOOLS.read(t).words)"
        ),
        "number": lambda: page.evaluate("[NaN, Infinity, null, undefined].map(n => MULLBOOK_PAGE.number(n))"),
    }
    answers = ask[name]()
    assert isinstance(answers, list)
    assert all(isinstance(each, str) and len(each) > 10 for each in answers)


@ONE_WIDTH
def test_hiding_words_are_those_of_the_book(page: Page, opened: Site) -> None:
    from mullbook.render import charts
    from mullbook.science.methods import optics

    page.goto(opened.url("hiding.html"))
    assert [end for end, _ in optics.HIDING] == [charts.GLASSY, charts.SEMI_OPAQUE]
    expect(page.locator("#hd-answer .big")).to_have_text("hides")
    page.locator("#hd-one").select_option("chalk")
    page.locator("#hd-binder").select_option("linseed-oil")
    expect(page.locator("#hd-answer .big")).to_contain_text(re.compile("glassy|semi-opaque"))


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("place", [*TOOLS, "compare.html?ids=raw-umber,azurite"])
def test_a_tool_is_open_to_everybody(page: Page, opened: Site, place: str, scheme: str) -> None:
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")  # type: ignore[arg-type]
    page.goto(opened.url(place))
    # The long table of all pigments is judged with the other pages.
    page.locator("#all ~ .scroll").evaluate_all("all => all.forEach(one => one.remove())")
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    found = Axe().run(page, options=AXE_OPTIONS).response["violations"]
    assert [(each["id"], [node["target"] for node in each["nodes"][:3]]) for each in found] == []
