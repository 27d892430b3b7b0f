"""The stone check in the page: answers as the command does, hazards first, usable in gloves."""

from __future__ import annotations

import json
import random
import re
from collections.abc import Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped]
from playwright.sync_api import Browser, Page, expect

from mullbook.derive.stone import judge
from mullbook.derive.stone_results import Density, Observations, StoneTable
from mullbook.render.stone_text import stone_json
from mullbook.science.powder import hydrostatic_density
from mullbook.science.stone import weighing_uncertainty
from tests.browser.conftest import PHONE, Site
from tests.browser.test_pages import AXE_OPTIONS, SMALL_TARGETS

SEED, COUNT, TOLERANCE = 20261125, 400, 1e-9
PAGE = "stone-check.html"
YELLOW = f"{PAGE}?streak=yellow&hardness=nail&acid=none&magnet=no&air=52.3&water=38.1&t=20&b=0.1"
ONE_WIDTH = pytest.mark.parametrize("width", [PHONE], indirect=True, ids=["360px"])
CLEARED = re.compile(
    r"\b(is safe|harmless|non-toxic|cleared)\b|(?<!not )(?<!ever )(?<!Nothing is )ruled out", re.IGNORECASE
)
ASK = """(seen) => {
  const { hazards, fits, next, unknown } = MULLBOOK_STONES.judge(MULLBOOK_STONE, seen);
  return JSON.stringify({ unknown, next,
    hazards: hazards.map(({ behind, ...rest }) => (
      { ...rest, behind: behind.map(({ page, ...one }) => one) })),
    fits: fits.map(({ candidate, share, counted }) => ({ id: candidate.id, share, counted })) });
}"""


def questions(stones: StoneTable) -> Iterator[Observations]:
    rng = random.Random(SEED)
    yield Observations()
    for _ in range(COUNT):
        often = rng.random()
        tests = [each for each in stones.check.tests if each.kind != "number" and rng.random() < often]
        density = Density(value=rng.uniform(1, 10), uncertainty=10 ** rng.uniform(-3, -0.3))
        yield Observations(
            answers={each.id: rng.choice(each.ids) for each in tests},
            density=density if rng.random() < 0.6 else None,
        )


def as_asked(seen: Observations) -> dict[str, Any]:
    density = {"value": seen.density.value, "uncertainty": seen.density.uncertainty} if seen.density else None
    return {"answers": dict(seen.answers), "density": density}


def as_told(stones: StoneTable, seen: Observations) -> dict[str, Any]:
    """Python's answer in the shape of the page's."""
    found = stone_json(stones.check, judge(stones, seen))
    order = [each.id for each in stones.check.tests]
    always = {each.id: each.always for each in stones.check.hazards}
    return {
        "unknown": found["unknown_bits"],
        "next": found["next"],
        "hazards": [
            {
                **{
                    key: hazard[key]
                    for key in ("id", "name", "status", "less_likely", "share", "because", "do")
                },
                "always": always[hazard["id"]],
                "before": hazard["share_before"],
                "behind": [
                    {
                        "id": one["id"],
                        "name": one["name"],
                        "share": one["share"],
                        "say": one["may_hold"] or "",
                    }
                    for one in hazard["behind"]
                ],
            }
            for hazard in found["hazards"]
        ],
        "fits": [
            {
                "id": fit["id"],
                "share": fit["share"],
                "counted": [
                    {"test": test, **fit["counted"][test]} for test in order if test in fit["counted"]
                ],
            }
            for fit in found["fits"]
        ],
    }


def without_scores(answer: Any) -> Any:
    """The page also keeps the natural logarithm behind each bit."""
    for fit in answer["fits"]:
        for each in fit["counted"]:
            each.pop("score", None)
    return answer


def differences(one: Any, other: Any, where: str = "") -> Iterator[str]:
    if isinstance(one, dict) and isinstance(other, dict):
        for key in sorted(one.keys() | other.keys()):
            yield from differences(one.get(key), other.get(key), f"{where}.{key}")
    elif isinstance(one, list) and isinstance(other, list):
        if len(one) != len(other):
            yield f"{where}: {len(one)} and {len(other)}"
        for place, (left, right) in enumerate(zip(one, other, strict=False)):
            yield from differences(left, right, f"{where}[{place}]")
    elif isinstance(one, float | int) and isinstance(other, float | int) and not isinstance(one, bool):
        if abs(one - other) > TOLERANCE * max(1.0, abs(one)):
            yield f"{where}: {one} and {other}"
    elif one != other:
        yield f"{where}: {one} and {other}"


@ONE_WIDTH
def test_the_page_answers_as_the_command_does(page: Page, opened: Site, stones: StoneTable) -> None:
    page.goto(opened.url(PAGE))
    asked = list(questions(stones))
    assert len(asked) >= 300
    for seen in asked:
        told = without_scores(json.loads(page.evaluate(ASK, as_asked(seen))))
        apart = list(differences(told, as_told(stones, seen)))
        assert apart == [], (as_asked(seen), apart[:5])


@ONE_WIDTH
def test_a_weighing_is_worked_out_alike(page: Page, opened: Site) -> None:
    page.goto(opened.url(PAGE))
    rng = random.Random(SEED)
    for _ in range(300):
        air, density = rng.uniform(5, 500), rng.uniform(1.2, 9)
        asked = [air, air - air / density, rng.uniform(1, 45), rng.uniform(0.01, 1)]
        told = page.evaluate("(asked) => MULLBOOK_STONES.weighing(...asked)", asked)
        assert told["value"] == pytest.approx(hydrostatic_density(*asked[:3]), rel=TOLERANCE)
        assert told["uncertainty"] == pytest.approx(weighing_uncertainty(*asked), rel=TOLERANCE)


def test_hazards_stand_first_and_none_is_missing(page: Page, opened: Site, stones: StoneTable) -> None:
    page.goto(opened.url(YELLOW))
    rows = page.locator("#st-hazards > li")
    expect(rows).to_have_count(len(stones.check.hazards))
    expect(rows.first).to_contain_text("Arsenic: points to it")
    expect(page.locator("#st-fits > li").first).to_contain_text("Orpiment")
    assert page.evaluate(
        "document.getElementById('st-hazards').compareDocumentPosition(document.getElementById('st-fits'))"
        " & Node.DOCUMENT_POSITION_FOLLOWING"
    )
    assert not CLEARED.search(page.locator("#content").inner_text())


@ONE_WIDTH
def test_a_thumb_answers_and_the_answer_follows(page: Page, opened: Site) -> None:
    page.goto(opened.url(PAGE))
    bar = page.locator("#st-pointed")
    expect(bar).to_contain_text("Quartz. Nothing is ruled out.")
    page.locator("#test-habit > summary").tap()
    page.locator("#test-habit .pick", has_text="fibres or fine needles").tap()
    expect(page.locator("#told-habit")).to_have_text("fibres or fine needles")
    expect(bar).to_contain_text("Asbestos")
    expect(bar).to_be_in_viewport()
    bar.tap()
    expect(page.locator("#hazards")).to_be_in_viewport()


@ONE_WIDTH
def test_the_address_brings_it_back(page: Page, opened: Site) -> None:
    page.goto(opened.url(PAGE))
    page.locator("#test-streak .pick", has_text="pink").tap()
    page.locator("#test-density > summary").tap()
    page.locator("#st-density").fill("3,05")
    page.wait_for_function("location.search.includes('density') && location.search.includes('streak=pink')")
    before = page.locator("#st-fits").inner_text()
    page.reload()
    expect(page.locator("#told-streak")).to_have_text("pink")
    assert page.locator("#st-fits").inner_text() == before
    page.locator("#st-again").tap()
    expect(page.locator("#told-streak")).to_have_text("")


@ONE_WIDTH
def test_a_weighing_that_cannot_be_says_so_and_counts_nothing(page: Page, opened: Site) -> None:
    page.goto(opened.url(f"{PAGE}?air=5&water=9"))
    expect(page.locator("#st-weighing")).to_contain_text("not the weighing of a stone")
    expect(page.locator("#st-seen")).to_contain_text("everything is open")
    page.goto(opened.url(f"{PAGE}?air=5"))
    expect(page.locator("#st-weighing")).to_contain_text("Both weighings are needed")


@ONE_WIDTH
def test_every_target_is_large_enough_for_a_glove(page: Page, opened: Site) -> None:
    page.goto(opened.url(YELLOW))
    page.locator("details").evaluate_all("all => all.forEach(one => { one.open = true; })")
    assert page.evaluate(SMALL_TARGETS, ["#content", 44]) == []
    low = page.locator(".pick").evaluate_all(
        "all => Math.min(...all.map(one => one.getBoundingClientRect().height))"
    )
    assert low >= 48


def test_axe_finds_nothing(page: Page, opened: Site) -> None:
    page.goto(opened.url(YELLOW))
    page.locator("details.ask").evaluate_all("all => all.forEach(one => { one.open = true; })")
    found = Axe().run(page, options=AXE_OPTIONS).response["violations"]
    assert [(each["id"], each["nodes"][0]["html"][:120]) for each in found] == []


def test_what_is_printed_is_the_result(page: Page, opened: Site) -> None:
    page.goto(opened.url(YELLOW))
    page.emulate_media(media="print")
    expect(page.locator("#st-hazards")).to_be_visible()
    expect(page.locator("#st-seen")).to_contain_text("Streak: yellow")
    expect(page.locator("#stone")).to_be_hidden()
    expect(page.locator("#st-bar")).to_be_hidden()
    expect(page.locator("#handling")).to_be_visible()


def test_without_scripts_the_handling_and_the_list_are_there(browser: Browser, opened: Site) -> None:
    context = browser.new_context(java_script_enabled=False, offline=True)
    page = context.new_page()
    page.goto(opened.url(PAGE))
    assert "mullbook stone" in page.locator("noscript").first.inner_text()
    expect(page.locator("#handling")).to_be_visible()
    assert page.locator(".stone-list", has_text="Orpiment").count() == 1
    assert not page.locator("#stone").is_visible()
    context.close()
