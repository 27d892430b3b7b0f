"""Building beside the last good result and swapping only when the new one is whole."""

from __future__ import annotations

import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from mullbook.checks.input_rules import NOT_OURS
from mullbook.text.problem import Place, Problem

LISTING = ".mullbook-files"
"""Written into every result: the files a run wrote, so that the next one knows what is not its own."""
LEFT_BEHIND = (".DS_Store", "Thumbs.db", "desktop.ini")
"""Written by file managers, missed by nobody."""
MOST_NAMED = 3


class NotBuilt(Exception):
    """The site was not built, for the reason given in words."""


class Refused(Exception):
    """What was asked for is not done; `problems` say why, in words; `texts` holds the files they are in."""

    def __init__(self, *problems: Problem, texts: Mapping[str, str] | None = None) -> None:
        super().__init__(problems[0].message)
        self.problems = problems
        self.texts = texts or {}


@contextmanager
def built_beside(target: Path) -> Iterator[Path]:
    """Give an empty folder beside `target`; when the block ends well, it takes the target's place.

    When the block fails, or the program is killed in it, the target stays as it was. What a killed
    run left behind is cleared by the next one. Raises `Refused` when the target holds files that no
    run wrote.
    """
    shown, target = target, target.resolve()
    old = target.with_name(f".{target.name}-last")
    if old.exists() and not target.exists():
        old.rename(target)
    _refuse_foreign(target, shown)
    target.parent.mkdir(parents=True, exist_ok=True)
    for leftover in target.parent.glob(f".{target.name}-new-*"):
        if not being_written(leftover):
            shutil.rmtree(leftover, ignore_errors=True)
    new = Path(tempfile.mkdtemp(prefix=f".{target.name}-new-{os.getpid()}-", dir=target.parent))
    try:
        yield new
        (new / LISTING).write_text("\n".join(_files(new)) + "\n", encoding="utf-8")
        new.chmod(0o755)
        _swap(new, target, old)
    except BaseException:
        shutil.rmtree(new, ignore_errors=True)
        raise


def being_written(folder: Path) -> bool:
    """Whether another run is still at it; its process number stands in the folder's name."""
    number = folder.name.rsplit("-", 2)[-2]
    # Elsewhere than on POSIX the question itself would end the process asked about.
    if os.name != "posix" or not number.isdigit() or int(number) == os.getpid():
        return False
    try:
        os.kill(int(number), 0)
    except ProcessLookupError:
        return False
    except PermissionError:
        return True
    return True


def _swap(new: Path, target: Path, old: Path) -> None:
    shutil.rmtree(old, ignore_errors=True)
    if target.exists():
        target.rename(old)
    try:
        new.rename(target)
    except OSError:
        if old.exists():
            old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


def _refuse_foreign(target: Path, shown: Path) -> None:
    foreign = _foreign_files(target) if target.is_dir() else []
    if foreign:
        named = ", ".join(foreign[:MOST_NAMED]) + (", ..." if len(foreign) > MOST_NAMED else "")
        message = f"This folder holds what no run of Mullbook wrote: {named}."
    elif target.exists() and not target.is_dir():
        message = "This is a file, where a folder is to be written."
    else:
        return
    hint = "Nothing was changed. A run replaces its folder whole: name a new or an empty one."
    raise Refused(Problem(NOT_OURS, "error", message, Place(str(shown)), hint))


def _foreign_files(target: Path) -> list[str]:
    """Files that would be lost if the folder were replaced."""
    found = _files(target)
    if LISTING in found:
        return sorted(set(found) - set((target / LISTING).read_text("utf-8").splitlines()) - {LISTING})
    return [] if _is_plain_build(target) else found


def _is_plain_build(target: Path) -> bool:
    """Whether `mkdocs build`, which empties its folder itself, made this."""
    return all((target / each).is_file() for each in ("data/catalogue.json", "sitemap.xml", "index.html"))


def _files(folder: Path) -> list[str]:
    found = (path for path in folder.rglob("*") if path.is_symlink() or not path.is_dir())
    return sorted(path.relative_to(folder).as_posix() for path in found if path.name not in LEFT_BEHIND)
