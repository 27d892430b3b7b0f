"""A Chromium that may read nothing but the site's files, and an account of what each page tried."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Request, sync_playwright

from tests.browser import chromium

HERE = Path(__file__).parent
PHONE, TABLET, DESK = 360, 768, 1280
HEIGHTS = {PHONE: 740, TABLET: 1024, DESK: 900}
LOCAL = ("file:", "data:", "blob:", "about:")
# Root has no user namespace to put the sandbox in; the rest keeps the browser from calling home.
CHROMIUM_ARGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-dev-shm-usage",
]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    here = [item for item in items if item.path.is_relative_to(HERE)]
    absent = bool(here) and chromium.find() is None
    for item in here:
        item.add_marker(pytest.mark.browser)
        if absent:
            item.add_marker(pytest.mark.skip(reason="no Chromium"))


@dataclass
class Account:
    """What the pages of one test logged, threw and asked for."""

    errors: list[str] = field(default_factory=list)
    requests_out: list[str] = field(default_factory=list)

    def listen(self, page: Page) -> None:
        page.on("console", lambda said: self.errors.append(said.text) if said.type == "error" else None)
        page.on("pageerror", lambda error: self.errors.append(str(error)))
        page.on("requestfailed", self._failed)
        page.on("request", lambda request: self._note(request.url))

    def _failed(self, request: Request) -> None:
        """Note what is missing; what the browser gave up because the page was left is not."""
        if request.failure != "net::ERR_ABORTED":
            self.errors.append(f"could not load {request.url}")

    def _note(self, url: str) -> None:
        if not url.startswith(LOCAL):
            self.requests_out.append(url)


@dataclass(frozen=True)
class Site:
    """The built site as a browser sees it from disk."""

    folder: Path
    catalogue: dict[str, Any]

    def url(self, path: str) -> str:
        page, mark, query = path.partition("?")
        return (self.folder / page).as_uri() + mark + query

    @property
    def pigments(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.catalogue["pigments"]
        return found

    def named(self, colour_index: str) -> set[str]:
        """Ids of the pigments that carry a Colour Index name."""
        return {pigment["id"] for pigment in self.pigments if colour_index in pigment["colour_index"]}


@pytest.fixture(scope="session")
def opened(site: Path) -> Site:
    return Site(site, json.loads((site / "data" / "catalogue.json").read_text(encoding="utf-8")))


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    path = chromium.find()
    if path is None:
        pytest.skip("no Chromium")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=path, args=CHROMIUM_ARGS)
        yield started
        started.close()


@pytest.fixture(params=[PHONE, DESK], ids=["360px", "1280px"])
def width(request: pytest.FixtureRequest) -> int:
    chosen: int = request.param
    return chosen


@pytest.fixture
def account() -> Account:
    return Account()


@pytest.fixture
def context(browser: Browser, width: int) -> Iterator[BrowserContext]:
    made = browser.new_context(
        viewport={"width": width, "height": HEIGHTS[width]}, offline=True, has_touch=width == PHONE
    )
    made.set_default_timeout(10_000)
    yield made
    made.close()


@pytest.fixture
def page(context: BrowserContext, account: Account) -> Iterator[Page]:
    """A page without network; a test fails when what it did logged an error or asked for anything else."""
    made = context.new_page()
    account.listen(made)
    yield made
    assert account.requests_out == [], "requests left the site"
    assert account.errors == [], "the page logged errors"
