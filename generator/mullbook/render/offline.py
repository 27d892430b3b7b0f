"""The service worker of a site served over HTTPS: the edition's files, and the script that keeps them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from pathlib import Path

WORKER = "sw.js"
KEEPER = "assets/javascripts/keeper.js"
NOT_KEPT = (".map", ".sqlite", ".csv", ".gz", ".xml", ".zip", ".conf", ".txt")
"""Endings of files that no page needs: whoever downloads them has a network."""
DIGITS = 12


def write_worker(site: Path, edition: Mapping[str, str]) -> None:
    """Write the service worker of a built site.

    Parameters: `site`, the folder; `edition` with `version` and `checked`. The same files give the same
    worker.
    Raises `OSError` where the folder cannot be read or written.
    """
    files = {path: _digest((site / path).read_bytes()) for path in kept_files(site)}
    book = {
        "version": edition["version"],
        "checked": edition["checked"],
        "digest": _digest(json.dumps(files).encode()),
        "files": files,
    }
    script = (site / KEEPER).read_text(encoding="utf-8")
    (site / WORKER).write_text(f"const BOOK = {json.dumps(book)};\n{script}", encoding="utf-8")


def kept_files(site: Path) -> list[str]:
    """Files of a built site that a page may ask for, by path from its root."""
    found = (path.relative_to(site).as_posix() for path in site.rglob("*") if path.is_file())
    return sorted(
        path
        for path in found
        if not path.endswith(NOT_KEPT) and path not in (WORKER, KEEPER) and not path.startswith(".")
    )


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:DIGITS]
