"""How long a reader waits, in a real browser that opens the site from disk."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.browser import chromium
from tests.browser.conftest import CHROMIUM_ARGS, DESK, HEIGHTS

OPENED = ("pigments/raw-umber.html", "pigments/lead-white.html", "index.html")
TIMES = 3
FIRST_PAINT = """() => new Promise((done) => {
  new PerformanceObserver((list) => {
    const painted = list.getEntriesByName("first-contentful-paint");
    if (painted.length) done(painted[0].startTime / 1000);
  }).observe({ type: "paint", buffered: true });
})"""
LARGEST_PAINT = """() => new Promise((done) => {
  new PerformanceObserver((list) => done(list.getEntries().at(-1).startTime / 1000))
    .observe({ type: "largest-contentful-paint", buffered: true });
})"""
FIRST_ANSWER = """async () => {
  const begun = performance.now();
  document.querySelector(".seek").open = true;
  while (!document.getElementById("text-query")) await new Promise((done) => setTimeout(done, 5));
  const box = document.getElementById("text-query");
  box.value = "manganese";
  box.dispatchEvent(new Event("input"));
  if (!document.querySelector(".text-search li")) throw new Error("nothing was found");
  return (performance.now() - begun) / 1000;
}"""
KEYSTROKE = """  async () => {
  const rows = window.MULLBOOK_FIND.rows, many = [];
  for (let copy = 0; many.filter(({ kind }) => kind === "pigment").length < 3000; copy++)
    rows.forEach((row) => many.push({ ...row, id: row.id + copy, name: row.name + " " + copy }));
  window.MULLBOOK_FIND.rows = many;
  const old = document.getElementById("find-box"), fresh = old.cloneNode();
  old.replaceWith(fresh);
  const script = document.createElement("script");
  script.src = "assets/javascripts/find.js";
  document.body.append(script);
  await new Promise((done) => { script.onload = done; });
  const box = fresh, times = [];
  const asked = ["u", "um", "umb", "umber", "raw umbr", "pr 101", "77491", "zinc wite", "xqzj"];
  for (const words of asked) {
    const tries = [0, 1, 2].map(() => {
      box.value = words;
      const begun = performance.now();
      box.dispatchEvent(new Event("input"));
      document.getElementById("find-results").getBoundingClientRect();
      return performance.now() - begun;
    });
    times.push(Math.min(...tries));
  }
  return times.sort((a, b) => a - b)[Math.floor(times.length / 2)];
}"""
"""The rows of the book many times over, until 3000 are pigments; the typical key of nine questions, ms."""


def waits(site: Path) -> Iterator[tuple[str, float, float, str]]:
    """What is waited for, how long, at most how long, and the unit. Nothing without a browser."""
    found = chromium.find()
    if found is None:
        return
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=str(found), args=CHROMIUM_ARGS)

        def best(place: str, script: str) -> float:
            def once() -> float:
                size = {"width": DESK, "height": HEIGHTS[DESK]}
                context = browser.new_context(viewport=size, offline=True)  # type: ignore[arg-type]
                page: Page = context.new_page()
                page.goto((site / place).as_uri())
                try:
                    return float(page.evaluate(script))
                finally:
                    context.close()

            return min(once() for _ in range(TIMES))

        yield from rows(best)
        browser.close()


def rows(best: Callable[[str, str], float]) -> Iterator[tuple[str, float, float, str]]:
    """Each wait with its budget; `best` opens a page and runs a script there."""
    for place in OPENED:
        yield f"first paint of {place}", best(place, FIRST_PAINT), 1, "s"
    yield "largest paint of pigments/raw-umber.html", best(OPENED[0], LARGEST_PAINT), 1, "s"
    yield "first answer of the text search", best(OPENED[0], FIRST_ANSWER), 0.5, "s"
    yield "Find, a key at 3000 pigments", best("find.html", KEYSTROKE), 50, "ms"
