"""The built site obeys the security policy that is written for it: no page of any kind is stopped."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from mullbook.render.publishing import HEADERS, KEEPING, Policies
from mullbook.workflow.publishing import read_policies

TELL = """
  globalThis.stopped = [];
  addEventListener("securitypolicyviolation", (event) =>
    stopped.push([event.violatedDirective, event.blockedURI, event.sample].join(" ")));
"""


class Sender(SimpleHTTPRequestHandler):
    """Serves a site with the headers of its settings."""

    policies: Policies

    def end_headers(self) -> None:
        path = self.path.partition("?")[0].lstrip("/") or "index.html"
        self.send_header("Content-Security-Policy", self.policies.own.get(path, self.policies.common))
        self.send_header("Cache-Control", KEEPING)
        for name, value in HEADERS:
            self.send_header(name, value)
        super().end_headers()

    def do_GET(self) -> None:
        if self.path == "/favicon.ico":  # asked for by the browser, not by a page
            self.send_response(204)
            self.end_headers()
        else:
            super().do_GET()

    def log_message(self, format: str, *args: object) -> None:  # what a server says is no matter of a test
        pass


@pytest.fixture(scope="module")
def address(site: Path) -> Iterator[str]:
    sender = type("SenderOfSite", (Sender,), {"policies": read_policies(site)})
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(sender, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}"
    server.shutdown()
    server.server_close()


@pytest.fixture(scope="module")
def reading(browser: Browser) -> Iterator[BrowserContext]:
    context = browser.new_context(viewport={"width": 1280, "height": 900})
    context.add_init_script(TELL)
    yield context
    context.close()


@pytest.fixture
def opened_page(reading: BrowserContext, address: str) -> Iterator[Page]:
    page = reading.new_page()
    errors: list[str] = []
    page.on("console", lambda said: errors.append(said.text) if said.type == "error" else None)
    page.on("pageerror", lambda error: errors.append(str(error)))
    page.on(
        "request",
        lambda asked: None if asked.url.startswith((address, "data:", "blob:")) else errors.append(asked.url),
    )
    yield page
    assert page.evaluate("stopped") == []
    assert errors == []
    page.close()


def kinds(site: Path) -> list[str]:
    """One page of each kind: the first of every folder, and each that stands at the root."""
    found: dict[str, str] = {}
    for path in sorted(site.rglob("*.html")):
        name = path.relative_to(site).as_posix()
        found.setdefault(name.partition("/")[0] if "/" in name else name, name)
    return sorted(found.values())


def test_no_page_of_any_kind_is_stopped(opened_page: Page, address: str, site: Path) -> None:
    assert len(kinds(site)) > 25
    for name in kinds(site):
        opened_page.goto(f"{address}/{name}")
        opened_page.wait_for_load_state("load")
        assert opened_page.evaluate("stopped") == [], name


def test_swatches_keep_their_colour(opened_page: Page, address: str) -> None:
    opened_page.goto(f"{address}/pigments/raw-umber.html")
    colour = opened_page.locator(".swatch").first.evaluate("(it) => getComputedStyle(it).backgroundColor")
    assert colour == "rgb(57, 40, 28)"


def test_find_and_the_text_search_work(opened_page: Page, address: str) -> None:
    opened_page.goto(f"{address}/find.html")
    opened_page.fill("#find-box", "umbr")
    opened_page.locator(".find-row").first.wait_for()
    opened_page.goto(f"{address}/pigments/raw-umber.html?q=quartz")
    opened_page.locator(".text-hit a").first.wait_for(state="attached")


@pytest.mark.parametrize("name", ["workbench.html", "washing.html", "room-tool.html", "pocket.html"])
def test_the_tools_work(opened_page: Page, address: str, name: str) -> None:
    opened_page.goto(f"{address}/{name}")
    for box in opened_page.locator("input[type=number]:visible, input[inputmode=decimal]:visible").all()[:3]:
        box.fill("25")
    opened_page.wait_for_timeout(200)


def test_the_book_is_kept_on_the_device(opened_page: Page, address: str) -> None:
    opened_page.goto(f"{address}/levels.html?offline=yes")
    assert opened_page.evaluate("navigator.serviceWorker.ready.then((it) => it.active !== null)")


def test_a_script_slipped_into_a_page_does_not_run(reading: BrowserContext, address: str) -> None:
    page = reading.new_page()
    page.goto(f"{address}/levels.html")
    page.evaluate(
        "() => { const made = document.createElement('script'); made.textContent = 'globalThis.ran = 1';"
        " document.body.append(made); document.body.insertAdjacentHTML('beforeend',"
        " '<img src=x onerror=\"globalThis.ran = 2\">'); }"
    )
    page.wait_for_timeout(300)
    assert page.evaluate("globalThis.ran") is None
    assert len(page.evaluate("stopped")) >= 1
    page.close()
