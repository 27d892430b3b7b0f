"""A copy held against its list of digests: what is missing, altered or added, each by name."""

from __future__ import annotations

import hashlib
import re
import zlib
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from zipfile import BadZipFile, ZipFile

from mullbook.checks.input_rules import NO_FOLDER, NOT_WHOLE
from mullbook.text.problem import Place, Problem
from mullbook.workflow.swap import LISTING, Refused

SUMS = "SHA256SUMS"
LINE = re.compile(r"([0-9a-f]{64}) [ *](.+)")
OF_THE_SYSTEM = re.compile(
    r"(^|/)(\.DS_Store|Thumbs\.db|desktop\.ini|\._[^/]*)$"
    r"|^(\.Spotlight-V100|\.Trashes|\.fseventsd|\.Trash-\d+|System Volume Information|\$RECYCLE\.BIN)/"
)
"""What file managers and systems leave on a stick by themselves."""
BLOCK = 1 << 20


@dataclass(frozen=True, slots=True)
class Held:
    """A copy held against its list."""

    missing: tuple[str, ...]
    altered: tuple[str, ...]
    added: tuple[str, ...]
    listed: int
    left_by_system: int
    number: str
    """Digest of the list itself: to be compared with the one written down when it was packed."""

    @property
    def is_whole(self) -> bool:
        """Whether every listed file is there as it was packed, and nothing else is."""
        return not (self.missing or self.altered or self.added)


def digest(content: bytes) -> str:
    """SHA-256 in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def file_digest(path: Path) -> str:
    """SHA-256 of a file in hexadecimal, read in blocks."""
    running = hashlib.sha256()
    with path.open("rb") as file:
        while block := file.read(BLOCK):
            running.update(block)
    return running.hexdigest()


def sums_text(digests: Mapping[str, str]) -> str:
    """The list as `sha256sum -c` reads it, in order of path."""
    return "".join(f"{digests[path]}  {path}\n" for path in sorted(digests))


def read_sums(text: str, shown: str) -> dict[str, str]:
    """Digests by path from a list. Raises `Refused` for a line that is none."""
    found: dict[str, str] = {}
    for number, line in enumerate(text.splitlines(), 1):
        read = LINE.fullmatch(line)
        if read is None:
            raise Refused(_problem(f"Line {number} of {SUMS} is no line of a list of digests.", shown))
        found[read[2]] = read[1]
    if not found:
        raise Refused(_problem(f"{SUMS} is empty: it says nothing about this copy.", shown))
    return found


def verify(path: Path) -> Held:
    """Hold a stick, a folder or a .zip file, against its own list.

    Returns what was found. Raises `Refused` where there is nothing to hold, or no list to hold it against.
    """
    if path.is_dir():
        files = {each.relative_to(path).as_posix(): each for each in path.rglob("*") if not each.is_dir()}
        return _held(path, set(files), lambda name: _read(files[name]), lambda name: _digest(files[name]))
    if not path.is_file():
        problem = Problem(NO_FOLDER, "error", f"There is no {path}.", Place(str(path)), "Check the name.")
        raise Refused(problem)
    try:
        with ZipFile(path) as archive:
            return _held_zip(path, archive)
    except BadZipFile as error:
        raise Refused(_problem(f"This .zip file is torn: {error}.", str(path))) from None


def _held_zip(path: Path, archive: ZipFile) -> Held:
    names = [each.filename for each in archive.infolist() if not each.is_dir()]
    tops = {name.partition("/")[0] for name in names}
    top = f"{tops.pop()}/" if len(tops) == 1 else ""
    inside = {name.removeprefix(top): name for name in names}

    def read(name: str) -> bytes | None:
        try:
            return archive.read(inside[name])
        except (BadZipFile, zlib.error, EOFError, NotImplementedError, OSError, ValueError):
            return None  # torn within: altered, whatever it was

    def digest_of(name: str) -> str | None:
        content = read(name)
        return None if content is None else digest(content)

    return _held(path, set(inside), read, digest_of)


def _read(path: Path) -> bytes | None:
    return path.read_bytes() if path.is_file() else None


def _digest(path: Path) -> str | None:
    return file_digest(path) if path.is_file() else None


def _held(
    path: Path,
    there: set[str],
    read: Callable[[str], bytes | None],
    digest_of: Callable[[str], str | None],
) -> Held:
    list_of_digests = read(SUMS) if SUMS in there else None
    if list_of_digests is None:
        hint = "Name the folder that holds START-HERE.html, or get a fresh copy."
        raise Refused(_problem(f"There is no {SUMS} here to hold this copy against.", str(path), hint))
    wanted = read_sums(list_of_digests.decode("utf-8", errors="replace"), str(path))
    others = sorted(there - set(wanted) - {SUMS})
    of_system = [name for name in others if OF_THE_SYSTEM.search(name) or name == LISTING]
    return Held(
        missing=tuple(sorted(set(wanted) - there)),
        altered=tuple(name for name in sorted(set(wanted) & there) if digest_of(name) != wanted[name]),
        added=tuple(name for name in others if name not in of_system),
        listed=len(wanted),
        left_by_system=len(of_system),
        number=digest(list_of_digests),
    )


def held_problems(held: Held, shown: str) -> Iterator[Problem]:
    """One problem for each file that is not as it was packed."""
    for names, words, hint in (
        (held.missing, "is missing", "Copy it again from where this copy came from."),
        (held.altered, "is not as it was packed", "Do not rely on it: copy it again."),
        (held.added, "was not packed", "It is no part of this edition: find out who put it there."),
    ):
        for name in names:
            yield Problem(NOT_WHOLE, "error", f"{name} {words}.", Place(f"{shown}/{name}"), hint)


def _problem(message: str, shown: str, hint: str = "Get a fresh copy.") -> Problem:
    return Problem(NOT_WHOLE, "error", message, Place(shown), hint)
