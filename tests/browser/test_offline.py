"""Kept on the device where a site is served; nothing is registered for a page from disk."""

from __future__ import annotations

import json
import re
import shutil
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from mullbook.render.offline import KEEPER, WORKER, kept_files, write_worker
from tests.browser.conftest import Site

PATIENCE = 60_000
FEW = ("index.html", "find.html", "pocket.html", "data/find.js", "data/bench.js", "pigments/raw-umber.html")
FOOT = ".foot [role=status]"


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: Any) -> None:
        """Say nothing."""


@pytest.fixture
def served(site: Path, tmp_path: Path) -> Iterator[tuple[Path, str, ThreadingHTTPServer]]:
    """A small copy of the site behind a server of this machine."""
    folder = tmp_path / "served"
    for name in FEW:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(site / name, folder / name)
    shutil.copytree(site / "assets", folder / "assets")
    write_worker(folder, {"version": "1", "checked": "2026-11-25"})
    server = ThreadingHTTPServer(("localhost", 0), partial(Quiet, directory=str(folder)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield folder, f"http://localhost:{server.server_address[1]}", server
    server.shutdown()
    server.server_close()


@pytest.fixture
def visitor(browser: Browser) -> Iterator[Page]:
    context: BrowserContext = browser.new_context()
    context.set_default_timeout(PATIENCE)
    yield context.new_page()
    context.close()


def test_the_edition_is_kept_and_read_without_the_server(
    served: tuple[Path, str, ThreadingHTTPServer], visitor: Page
) -> None:
    _, address, server = served
    visitor.goto(f"{address}/index.html?offline=yes")
    expect(visitor.locator(FOOT)).to_contain_text("edition 1 of 2026-11-25", timeout=PATIENCE)
    server.shutdown()
    server.server_close()
    visitor.context.set_offline(True)
    visitor.goto(f"{address}/pigments/raw-umber.html")
    expect(visitor.locator("h1")).to_have_text("Raw umber")
    expect(visitor.locator(".verdict.first .word")).to_be_visible()
    visitor.goto(f"{address}/")
    expect(visitor.locator("h1")).to_be_visible()


def test_a_newer_edition_is_told_and_loaded(
    served: tuple[Path, str, ThreadingHTTPServer], visitor: Page
) -> None:
    folder, address, _ = served
    visitor.goto(f"{address}/index.html?offline=yes")
    expect(visitor.locator(FOOT)).to_contain_text("edition 1", timeout=PATIENCE)
    page = folder / "index.html"
    page.write_text(page.read_text(encoding="utf-8").replace("<h1>", "<h1>Anew: "), encoding="utf-8")
    write_worker(folder, {"version": "2", "checked": "2027-01-31"})
    visitor.reload()
    expect(visitor.locator(FOOT)).to_contain_text(
        "A newer edition is there: 2 of 2027-01-31", timeout=PATIENCE
    )
    expect(visitor.locator("h1")).not_to_contain_text("Anew")
    visitor.get_by_role("button", name="Load it").click()
    expect(visitor.locator("h1")).to_contain_text("Anew", timeout=PATIENCE)
    assert visitor.evaluate("caches.keys().then(all => all.length)") == 1


def test_nothing_is_registered_unasked_or_from_disk(
    served: tuple[Path, str, ThreadingHTTPServer], opened: Site, visitor: Page
) -> None:
    for page in (f"{served[1]}/index.html", opened.url("index.html")):
        visitor.goto(page)
        visitor.wait_for_load_state("networkidle")
        assert visitor.locator(FOOT).count() == 0
    visitor.goto(f"{served[1]}/index.html")
    assert visitor.evaluate("navigator.serviceWorker.getRegistrations().then(all => all.length)") == 0


def test_the_worker_lists_what_pages_ask_for(site: Path) -> None:
    text = (site / WORKER).read_text(encoding="utf-8")
    found = re.match(r"const BOOK = (\{.*?\});\n", text)
    assert found
    book = json.loads(found[1])
    assert set(book["files"]) == set(kept_files(site))
    assert {"index.html", "pocket.html", "data/find.js", "pigments/raw-umber.html"} <= set(book["files"])
    assert WORKER not in book["files"]
    assert KEEPER not in book["files"]
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", book["checked"])
