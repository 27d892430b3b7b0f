"""The washing plan of the page is Python's: the same jars, waits, grams and washes, asked in Chromium."""

from __future__ import annotations

import dataclasses
import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from mullbook.model.values.washing import Grains, Mineral, Washing
from mullbook.science import levigation, sieving
from mullbook.science.wash_plan import plan
from tests.browser.test_formulas import SEED, near
from tests.conftest import ROOT

FOLDER = ROOT / "site_templates" / "pages" / "assets" / "javascripts"
PLANS, COUNT = 300, 1000
REFUSED = "refused"
JUDGE = """
window.told = {};
/* A thousandth of a unit (g, min, µm) is the least that is compared to the last figures. */
const close = (a, b) => a === b || (a == null && b == null) || (typeof a === "number" && typeof b === "number"
  && Math.abs(a - b) <= 1e-9 * Math.max(Math.abs(a), Math.abs(b), 1e-3));
const same = (a, b) => b && typeof b === "object"
  ? a && typeof a === "object" && Object.keys(a).length === Object.keys(b).length
    && Object.keys(b).every((key) => same(a[key], b[key]))
  : close(a, b);
for (const [name, asked] of Object.entries(VECTORS)) {
  const wrong = [];
  for (const [given, answer] of asked) {
    let found;
    try { found = MULLBOOK_LEVIGATION[name](...given); }
    catch (error) { found = error instanceof RangeError ? "refused" : String(error); }
    if (!same(found, answer)) wrong.push({ given, answer, found });
  }
  told[name] = { asked: asked.length, wrong: wrong.length, first: wrong[0] || null };
}
"""

Question = tuple[list[Any], Callable[[], Any]]


def grains(rng: random.Random) -> Grains:
    return Grains(shares=tuple(rng.choice([0.0, rng.uniform(0.05, 1)]) for _ in range(3)))


def washing(rng: random.Random) -> Washing:
    minerals = tuple(
        Mineral(f"m{each}", rng.uniform(0.9, 8), rng.choice([None, rng.random()]))
        for each in range(rng.randint(0, 3))
    )
    return Washing(
        density=rng.uniform(1.2, 8),
        cuts=tuple(near(rng, 0.5, 300) for _ in range(rng.randint(1, 4))),
        depth=near(rng, 2, 60),
        kept=rng.choice([0.0, rng.uniform(0.2, 8)]),
        volume=near(rng, 0.2, 40),
        temperature=rng.uniform(0, 50),
        solids=rng.choice([near(rng, 0.001, 0.1), near(rng, 0.001, 0.2)]),
        minerals=minerals,
        grains=grains(rng),
        rounds=rng.randint(1, 6),
        conductivity=rng.choice([None, rng.uniform(0.1, 6)]),
        wash_water=rng.uniform(0, 0.6),
        target=rng.choice([None, rng.uniform(0.1, 1.2)]),
        settle=near(rng, 0.5, 5),
    )


def make_plan(rng: random.Random) -> Question:
    asked = washing(rng)
    return [dataclasses.asdict(asked)], lambda: dataclasses.asdict(plan(asked))


def make_poured(rng: random.Random) -> Question:
    values = [
        near(rng, 0.5, 300),
        near(rng, 0.01, 2000),
        near(rng, 2, 50),
        rng.uniform(0.9, 8),
        rng.uniform(0, 50),
    ]
    rest = {
        "retained": rng.uniform(0, 0.9),
        "rounds": rng.randint(1, 8),
        "solids_fraction": rng.uniform(0, 0.1),
    }
    return [*values, rest], lambda: levigation.poured_share(*values, **rest)  # type: ignore[arg-type]


def plainly(
    function: Callable[..., Any], *ranges: tuple[float, float]
) -> Callable[[random.Random], Question]:
    def make(rng: random.Random) -> Question:
        values = [rng.uniform(*each) for each in ranges]
        return [*values], lambda: function(*values)

    return make


def make_rows(rng: random.Random) -> Question:
    openings = rng.sample([500, 300, 150, 75, 63, 45, 38, 20], rng.randint(1, 6))
    masses, pan = (
        [rng.choice([0.0, near(rng, 0.1, 80)]) for _ in openings],
        rng.choice([0.0, near(rng, 0.1, 80)]),
    )
    return [openings, masses, pan], lambda: [
        dataclasses.asdict(row) for row in sieving.sieve_rows(openings, masses, pan)
    ]


def make_loss(rng: random.Random) -> Question:
    weighed = [near(rng, 0.5, 40) for _ in range(rng.randint(1, 5))]
    charged = sum(weighed) * rng.uniform(0.9, 1.3)
    return [charged, weighed], lambda: sieving.sieve_loss(charged, weighed)


def make_above(rng: random.Random) -> Question:
    held, size = grains(rng), near(rng, 0.1, 800)
    return [dataclasses.asdict(held), size], lambda: held.above(size)


MAKERS: dict[str, Callable[[random.Random], Question]] = {
    "plan": make_plan,
    "poured_share": make_poured,
    "equal_settling": plainly(levigation.equal_settling, (0.5, 200), (1.1, 8), (1.1, 8), (0, 50)),
    "wash_conductivity": plainly(levigation.wash_conductivity, (0, 6), (0, 1), (0, 0.99), (0, 20)),
    "washes_needed": plainly(levigation.washes_needed, (0, 6), (0, 1), (0, 0.99), (0, 2)),
    "retained_water": plainly(levigation.retained_water, (0, 20), (-1, 50)),
    "grains_above": make_above,
    "sieve_rows": make_rows,
    "sieve_loss": make_loss,
}


def vectors(name: str) -> Iterator[tuple[list[Any], Any]]:
    """Questions with Python's answers, refusals among them."""
    rng = random.Random(f"{SEED} {name}")
    left = PLANS if name == "plan" else COUNT
    while left:
        try:
            given, ask = MAKERS[name](rng)
        except ValueError:
            continue  # grains of nothing are no question
        try:
            answer = ask()
        except ValueError:
            answer = REFUSED
        left -= 1
        yield given, answer


@pytest.fixture(scope="module")
def held() -> dict[str, list[tuple[list[Any], Any]]]:
    return {name: list(vectors(name)) for name in MAKERS}


@pytest.fixture(scope="module")
def sheet(
    browser: Browser,
    held: dict[str, list[tuple[list[Any], Any]]],
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Page]:
    """A page from disk that has asked every question."""
    folder = tmp_path_factory.mktemp("levigation")
    (folder / "vectors.js").write_text(f"const VECTORS = {json.dumps(held)};\n{JUDGE}", encoding="utf-8")
    for name in ("formulas", "levigation"):
        (folder / f"{name}.js").write_bytes((FOLDER / f"{name}.js").read_bytes())
    scripts = "".join(f'<script src="{name}.js"></script>' for name in ("formulas", "levigation", "vectors"))
    (folder / "index.html").write_text(f"<!doctype html><title>vectors</title>{scripts}", encoding="utf-8")
    context = browser.new_context(offline=True)
    opened = context.new_page()
    opened.goto((folder / "index.html").as_uri())
    yield opened
    context.close()


@pytest.mark.parametrize("name", MAKERS)
def test_the_browser_plans_as_python_does(sheet: Page, name: str) -> None:
    found = sheet.evaluate(f"told[{name!r}]")
    assert found["wrong"] == 0, f"{found['wrong']} of {found['asked']} differ, first {found['first']}"


def test_everything_the_script_offers_is_asked(sheet: Page) -> None:
    assert set(sheet.evaluate("Object.keys(MULLBOOK_LEVIGATION)")) - {"GUESS"} == set(MAKERS)


def test_the_guess_at_the_grains_is_the_same(sheet: Page) -> None:
    told = sheet.evaluate("MULLBOOK_LEVIGATION.GUESS")
    assert {key: tuple(value) for key, value in told.items()} == dataclasses.asdict(Grains())


def test_most_questions_have_answers(held: dict[str, list[tuple[list[Any], Any]]]) -> None:
    for name, asked in held.items():
        assert sum(answer != REFUSED for _, answer in asked) > len(asked) / 4, name
