"""The folders a catalogue is made from, and what in them is an entry."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from mullbook import load
from mullbook.checks.identity import STRAY
from mullbook.checks.input_rules import NO_FOLDER
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest

ENDING = ".yaml"
JUNK = ("Thumbs.db", "desktop.ini")
"""Files that file managers leave behind; hidden files are passed over as well."""


REVIEW = "REVIEW.csv"
"""Record of the second reading of every entry; kept beside the entries, no entry itself."""


@dataclass(frozen=True)
class Roots:
    """The folders a catalogue is made from."""

    entries: Path
    schema: Path
    templates: Path
    studio: Path | None = None
    """The folder of the studio whose edition is wanted, or None for the book itself."""

    @classmethod
    def at(cls, root: Path, studio: Path | None = None) -> Roots:
        """The usual folders below a project's root, as seen from where the command runs."""
        here = Path.cwd()
        if root.is_absolute() and root.is_relative_to(here):
            root = root.relative_to(here)
        return cls(root / "entries", root / "schema", root / "site_templates", studio)


def missing_folders(roots: Roots) -> list[Problem]:
    """A problem for each folder without which nothing can be checked."""
    return [
        Problem(
            NO_FOLDER,
            "error",
            f"There {what} here.",
            Place(str(folder)),
            hint="Go into the folder that holds entries/ and schema/, or name it after --root.",
        )
        for what, folder, pattern in (
            ("is no folder with entries", roots.entries, "*"),
            ("are no schemas", roots.schema, "*.schema.json"),
        )
        if not folder.is_dir() or not any(folder.glob(pattern))
    ]


def entry_files(entries: Path) -> list[tuple[str, Path]]:
    """Kind and path of every entry below a folder, in path order within each kind."""
    return [
        (kind, path)
        for folder, kind in load.FOLDERS.items()
        for path in _inside(entries / folder)
        if path.suffix == ENDING and (path.is_symlink() or not path.is_dir())
    ]


def stray_files(entries: Path) -> Iterator[Problem]:
    """A problem for each thing among the entries that nobody would read, so that none is lost unseen."""
    for path in _inside(entries):
        if not path.is_dir():
            yield _stray(
                path, "A file stands here, where only folders of entries belong.", list(load.FOLDERS)
            )
        elif path.name not in load.FOLDERS:
            close = nearest(path.name, load.FOLDERS)
            hint = (
                f"Did you mean {' or '.join(close)}?"
                if close
                else f"The folders are {', '.join(load.FOLDERS)}."
            )
            yield Problem(
                STRAY.code,
                STRAY.severity,
                f"No kind of entry is kept in {path.name}.",
                Place(str(path)),
                hint,
            )
        else:
            yield from _strays_in(path)


def _strays_in(folder: Path) -> Iterator[Problem]:
    for path in _inside(folder):
        if path.is_dir() and not path.is_symlink():
            yield _stray(path, "A folder inside a folder of entries is not read.", [folder.name])
        elif path.suffix != ENDING:
            yield _stray(
                path, f"A file is read as an entry only when its name ends in {ENDING}.", [folder.name]
            )


def _stray(path: Path, message: str, folders: list[str]) -> Problem:
    hint = f"Entries are files such as {folders[0]}/raw-umber{ENDING}. Rename this or move it away."
    return Problem(STRAY.code, STRAY.severity, message, Place(str(path)), hint)


def _inside(folder: Path) -> list[Path]:
    """What stands in a folder, in order of name; nothing where there is no such folder."""
    if not folder.is_dir():
        return []
    names = sorted(os.listdir(folder))
    return [folder / name for name in names if not name.startswith(".") and name not in (*JUNK, REVIEW)]
