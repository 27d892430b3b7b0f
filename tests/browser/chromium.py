"""Finds a Chromium for the browser tests, or tries to fetch one: ``python -m tests.browser.chromium``."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from functools import cache
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
FETCHED = Path(__file__).resolve().parents[2] / ".cache" / "browsers"
FETCH_SECONDS, START_SECONDS = 600, 60


def find() -> Path | None:
    """The browser to test in: the one MULLBOOK_CHROMIUM names, an installed one, or a fetched one."""
    named = os.environ.get("MULLBOOK_CHROMIUM")
    if named:
        path = shutil.which(named)
        if path is None:
            raise SystemExit(f"MULLBOOK_CHROMIUM names {named}, which cannot be run")
        return Path(path)
    installed = map(Path, filter(None, map(shutil.which, NAMES)))
    return next(filter(_starts, installed), None) or _fetched()


def _fetched() -> Path | None:
    patterns = ("chromium-*/chrome-linux*/chrome", "chromium-*/chrome-mac*/*.app/Contents/MacOS/*")
    found = (path for pattern in patterns for path in sorted(FETCHED.glob(pattern)))
    return next(filter(_starts, found), None)


@cache
def _starts(path: Path) -> bool:
    """Whether it runs here: a fetched one may lack libraries of the system, an installed one be a stub."""
    try:
        asked = subprocess.run([path, "--version"], capture_output=True, timeout=START_SECONDS, check=False)
    except (OSError, subprocess.TimeoutExpired):
        return False
    return asked.returncode == 0


def fetch() -> Path | None:
    """Ask playwright for its own Chromium; a machine without network simply gets none."""
    environment = {
        "PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT": "20000",
        **os.environ,
        "PLAYWRIGHT_BROWSERS_PATH": str(FETCHED),
    }
    command = [sys.executable, "-m", "playwright", "install", "chromium"]
    try:
        subprocess.run(command, env=environment, capture_output=True, timeout=FETCH_SECONDS, check=False)
    except subprocess.TimeoutExpired:
        return None
    return _fetched()


def main() -> None:
    found = find()
    if found is None:
        print("No Chromium is installed; asking for one of our own in .cache/browsers ...", flush=True)
        found = fetch()
    print(f"Browser tests use {found}." if found else "No Chromium: the browser tests will not run.")


if __name__ == "__main__":
    main()
