"""What can be wrong with a file before it is read as YAML: its place, size, encoding, characters."""

from __future__ import annotations

import os
import re
import stat
from pathlib import Path
from typing import NamedTuple

from mullbook.text.problem import Place, Problem, Span, mistake

LARGEST = 1_000_000
MOST_PROBLEMS = 100
LINE_BREAK = re.compile(r"\r\n|\r|\n")
# Control characters, characters nobody can see, and line ends that only YAML counts as such:
# with these in a file, an editor's line numbers and ours would part.
UNSEEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\xad\u200b\u200e\u200f\u2028-\u202e\u2060-\u206f"
    "\ud800-\udfff\ufeff\ufffe\uffff]"
)
TAB = re.compile("\t+")
INDENT_TRAP = re.compile("(?:^|(?<=[\r\n]))[ ]*([\t\xa0\u1680\u2000-\u200a\u202f\u205f\u3000]+)")


class Screened(NamedTuple):
    """Text fit for the YAML reader (None if reading it would mislead), and what was found on the way."""

    text: str | None
    problems: list[Problem]


def file_bytes(path: str, root: Path | None) -> bytes | Problem:
    """The bytes of a file, or why it is not to be read. A link may not lead out of `root`."""
    try:
        if leads_outside(path, root):
            return _file_problem("MB101", path, "this link leads out of its folder", "put the file here")
        state = os.stat(path)
        if not stat.S_ISREG(state.st_mode):
            what = "a folder" if stat.S_ISDIR(state.st_mode) else "a device or a pipe"
            return _file_problem("MB101", path, f"this is {what}, not a file", "name a file")
        return too_large(path, state.st_size) if state.st_size > LARGEST else Path(path).read_bytes()
    except (OSError, ValueError) as error:
        return _file_problem("MB101", path, *_why_not(error))


def _why_not(error: Exception) -> tuple[str, str]:
    if isinstance(error, FileNotFoundError):
        return "there is no such file", "check the name and the folder"
    if isinstance(error, PermissionError):
        return "this file may not be read", "check who may read it"
    return "this file cannot be opened", "check the name and the disk"


def leads_outside(path: str, root: Path | None) -> bool:
    """Whether the file, with all links followed, lies outside `root` (default: the file's own folder)."""
    if root is None and not os.path.islink(path):
        return False
    home = os.path.realpath(root if root is not None else os.path.dirname(path) or ".")
    return os.path.commonpath([home, os.path.realpath(path)]) != home


def too_large(path: str, size: int) -> Problem:
    """The problem of a file that no entry can be."""
    return _file_problem(
        "MB102",
        path,
        f"the file is too large: {size / 1_000_000:.1f} MB, where at most 1 MB is read",
        "one entry to a file; pictures and tables do not go into entries",
    )


def decoded(raw: bytes, path: str) -> str | Problem:
    """The text of a UTF-8 file, or the problem of one that is not."""
    if raw.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _file_problem("MB103", path, "the file is saved as UTF-16", "save it as UTF-8")
    if b"\x00" in raw:
        return _file_problem("MB103", path, "this is not a text file", "save it as plain text, UTF-8")
    try:
        return raw.decode("utf-8")
    except UnicodeDecodeError as error:
        before = raw[: error.start].decode("utf-8").removeprefix("\ufeff")
        return mistake(
            "MB103",
            "the file is not saved as UTF-8: here stands a byte that is no letter in it",
            Place(path, span_at(before, len(before))),
            "in your editor choose 'save with encoding: UTF-8', then look at the accented letters",
        )


def screen(text: str, path: str) -> Screened:
    """Find what the YAML reader must not meet: too much text, tabs as indent, characters nobody sees."""
    if len(text) > LARGEST:
        return Screened(None, [too_large(path, len(text.encode("utf-8", "replace")))])
    if text.replace("\n", "").isprintable():  # all that is looked for below is not; ten times quicker
        return Screened(text, [])
    unseen = [_unseen(text, match, path) for match in _first(UNSEEN, text)]
    traps = [_indent_trap(text, match, path) for match in _first(INDENT_TRAP, text)]
    tabs = [_tab(text, match, path) for match in _first(TAB, text) if _stands_after_text(text, match.start())]
    problems = (unseen + traps + tabs)[:MOST_PROBLEMS]
    if traps:
        return Screened(None, problems)
    # One space for each, so that every later place stays right.
    return Screened(UNSEEN.sub(" ", text).replace("\t", " ") if problems else text, problems)


def span_at(text: str, index: int, length: int = 0) -> Span:
    """The span of `length` characters of one line, starting at a character index."""
    line, start = 1, 0
    for match in LINE_BREAK.finditer(text, 0, index):
        line, start = line + 1, match.end()
    column = index - start + 1
    return Span(line, column, line, column + length)


def _first(pattern: re.Pattern[str], text: str) -> list[re.Match[str]]:
    return [match for match, _ in zip(pattern.finditer(text), range(MOST_PROBLEMS), strict=False)]


def _unseen(text: str, match: re.Match[str], path: str) -> Problem:
    return mistake(
        "MB104",
        f"a character that cannot be seen stands here (U+{ord(match[0]):04X})",
        Place(path, span_at(text, match.start(), 1)),
        "delete it; it often comes along when text is pasted from a PDF or a web page",
    )


def _indent_trap(text: str, match: re.Match[str], path: str) -> Problem:
    what = "a tab" if "\t" in match[1] else "a space that is no plain space"
    return mistake(
        "MB105",
        f"the line begins with {what}",
        Place(path, span_at(text, match.start(1), len(match[1]))),
        "indent with plain spaces, two for each step",
    )


def _stands_after_text(text: str, index: int) -> bool:
    """Whether something other than blanks stands before an index on its line."""
    start = max(text.rfind("\n", 0, index), text.rfind("\r", 0, index)) + 1
    return bool(text[start:index].strip())


def _tab(text: str, match: re.Match[str], path: str) -> Problem:
    return mistake(
        "MB105",
        "a tab stands here",
        Place(path, span_at(text, match.start(), len(match[0]))),
        "put a plain space in its place",
    )


def _file_problem(code: str, path: str, message: str, hint: str) -> Problem:
    """The problem of a whole file; of one that was opened, at its first sign."""
    return mistake(code, message, Place(path, None if code == "MB101" else Span(1, 1, 1, 1)), hint)
