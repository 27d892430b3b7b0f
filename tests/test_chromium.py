"""The browser that the browser tests run in: one that starts, or none, and then that is said."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.browser import chromium


def browser(folder: Path, says: str) -> Path:
    """A program that answers as a browser would when it is asked for its version."""
    folder.mkdir(parents=True, exist_ok=True)
    made = folder / "chromium"
    made.write_text(f"#!/bin/sh\n{says}\n")
    made.chmod(0o755)
    return made


@pytest.fixture
def bare(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A machine where nothing is installed and nothing was fetched."""
    monkeypatch.delenv("MULLBOOK_CHROMIUM", raising=False)
    monkeypatch.setattr(chromium, "FETCHED", tmp_path / "fetched")
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    return tmp_path


def test_an_installed_browser_is_taken(bare: Path) -> None:
    assert chromium.find() is None
    made = browser(bare / "bin", "echo Chromium 1")
    assert chromium.find() == made


def test_a_browser_that_does_not_start_is_none(bare: Path) -> None:
    """As one does that was fetched onto a machine without its libraries, or a stub that wants a store."""
    browser(bare / "bin", "echo please install it >&2; exit 1")
    fetched = browser(bare / "fetched" / "chromium-1" / "chrome-linux", "exit 127")
    fetched.rename(fetched.with_name("chrome"))
    assert chromium.find() is None


def test_a_fetched_browser_stands_in_for_a_stub(bare: Path) -> None:
    browser(bare / "bin", "exit 1")
    made = browser(bare / "fetched" / "chromium-1" / "chrome-linux", "echo Chromium 1")
    fetched = made.rename(made.with_name("chrome"))
    assert chromium.find() == fetched


def test_without_any_it_is_said(
    bare: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(chromium, "fetch", lambda: None)
    chromium.main()
    assert "No Chromium: the browser tests will not run." in capsys.readouterr().out
