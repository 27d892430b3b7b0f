"""What the last builds made, kept under the digest of all that went into them."""

from __future__ import annotations

import base64
import hashlib
import json
import os
import tempfile
import time
import zlib
from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from mullbook.workflow.folders import Roots

KEPT = Path(".cache") / "pages"
"""Where it is kept, below the project; ignored by git, and may be deleted at any time."""
MOST_KEPT = 4
ENDING, PART = ".made", ".part"
HOUR = 3600
LIBRARIES = ("coloraide", "jinja2", "jsonschema-rs", "markupsafe", "molmass", "pyyaml", "segno", "typst")
"""What the content of pages may depend on beside our own code."""
OWN_CODE = Path(__file__).resolve().parent.parent
NOT_READ = (".pyc",)


@dataclass(frozen=True, slots=True)
class Made:
    """What comes of a catalogue: content by path, the edition, and the report of what is amiss with it."""

    files: Mapping[str, str | bytes]
    edition: Mapping[str, str]
    report: str = ""

    @property
    def stamp(self) -> int:
        """Seconds from 1970 to the day of the edition."""
        day = self.edition["checked"]
        known = datetime.fromisoformat(day) if day[:1].isdigit() else datetime(1970, 1, 1)
        return int(known.replace(tzinfo=UTC).timestamp())


def input_digests(roots: Roots) -> dict[str, str]:
    """Digest of every file that pages are made of, by name: entries, schemas, templates, a studio's own
    edition, and the program itself.
    """
    folders = [roots.entries, roots.schema, roots.templates, OWN_CODE]
    folders += [roots.studio] if roots.studio else []
    return {name: digest for folder in folders for name, digest in _digests(folder)}


def _digests(folder: Path) -> Iterator[tuple[str, str]]:
    met: set[str] = set()
    for base, inside, names in os.walk(folder, followlinks=True):  # entries may be links to folders elsewhere
        met.add(os.path.realpath(base))
        inside[:] = sorted(
            each
            for each in inside
            if not each.startswith((".", "__pycache__")) and os.path.realpath(f"{base}/{each}") not in met
        )
        for name in sorted(names):
            if not name.endswith(NOT_READ):
                yield os.path.join(base, name), _digest(Path(base, name))


def _digest(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError as error:  # a link that leads nowhere; reading the entries will say so in words
        return f"not read: {error.errno}"


def key_of(digests: Mapping[str, str]) -> str:
    """The name under which what comes of these inputs is kept."""
    import platform  # a check keeps nothing, and need not load these
    import sqlite3

    # The database holds the mark of the SQLite that wrote it.
    machine = [platform.python_version(), sqlite3.sqlite_version]
    parts = [*machine, *(f"{name} {_version(name)}" for name in LIBRARIES)]
    parts += [f"{digest} {name}" for name, digest in digests.items()]
    return hashlib.sha256("\n".join(parts).encode()).hexdigest()


def _version(library: str) -> str:
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version(library)
    except PackageNotFoundError:
        return "none"


def folder_of(roots: Roots) -> Path:
    """The folder for what is kept."""
    return roots.entries.absolute().parent / KEPT


def recall(roots: Roots, key: str) -> Made | None:
    """What was made of these inputs before; None if it is not there or not whole."""
    try:
        digest, packed = (folder_of(roots) / f"{key}{ENDING}").read_bytes().split(b"\n", 1)
        if hashlib.sha256(key.encode() + packed).hexdigest().encode() != digest:
            return None
        held = json.loads(zlib.decompress(packed))
    except (OSError, ValueError, zlib.error):
        return None
    files = {**held["text"], **{path: base64.b64decode(each) for path, each in held["bytes"].items()}}
    return Made({path: files[path] for path in held["order"]}, held["edition"], held["report"])


def keep(roots: Roots, key: str, made: Made) -> None:
    """Keep what was made; a folder that cannot be written costs nothing but the time of the next build."""
    held: dict[str, Any] = {
        "text": {path: each for path, each in made.files.items() if isinstance(each, str)},
        "bytes": {
            path: base64.b64encode(each).decode()
            for path, each in made.files.items()
            if isinstance(each, bytes)
        },
        "order": list(made.files),
        "edition": dict(made.edition),
        "report": made.report,
    }
    packed = zlib.compress(json.dumps(held, ensure_ascii=False).encode(), 1)
    digest = hashlib.sha256(key.encode() + packed).hexdigest().encode()
    with suppress(OSError):
        _write(folder_of(roots), f"{key}{ENDING}", digest + b"\n" + packed)


def _write(folder: Path, name: str, content: bytes) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    # Beside the folder, not in it: `serve` watches the folder for what is whole.
    handle, beside = tempfile.mkstemp(prefix="pages-", suffix=PART, dir=folder.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        os.replace(beside, folder / name)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise
    oldest_last = sorted(folder.glob(f"*{ENDING}"), key=lambda each: each.stat().st_mtime_ns, reverse=True)
    parts = folder.parent.glob(f"pages-*{PART}")
    killed = [each for each in parts if time.time() - each.stat().st_mtime > HOUR]
    for each in (*oldest_last[MOST_KEPT:], *killed):
        each.unlink(missing_ok=True)
