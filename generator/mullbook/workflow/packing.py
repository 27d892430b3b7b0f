"""The stick: site, prints and data in one folder or .zip file, with digests and a way to check them."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date
from pathlib import Path, PurePosixPath
from typing import Any
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from mullbook import load
from mullbook.checks.input_rules import NOT_OURS, OVERDUE
from mullbook.derive.audit import audit
from mullbook.derive.audit_results import OVERDUE as AUDIT_OVERDUE
from mullbook.render.stick import BANNER_MARK, CHECK, Edition, Overdue, check_page, start_pages, with_banner
from mullbook.text.problem import Place, Problem
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import ENDING, Roots
from mullbook.workflow.site import finish_site
from mullbook.workflow.stick import SUMS, file_digest, sums_text
from mullbook.workflow.studio_pages import public_words
from mullbook.workflow.swap import LISTING, NotBuilt, Refused, being_written

SITE, PRINT = "site", "print"
Tick = Callable[[str, int], None]
RULES, STUDIO, JAR = "ruleset", "studio", "jar"
PAPER_OF = {"poster": "A4", "cards": "A5"}
NAME_OF = {"poster": "poster", "cards": "bench-cards"}
NOT_ON_A_STICK = frozenset('<>:"|?*\\')
"""Signs that the file system of a stick refuses in a name."""
EARLIEST = 1980
"""The first year a .zip file can date its files with."""


def overdue(loaded: Loaded, today: date) -> tuple[Overdue, ...]:
    """What was to be reviewed before `today`: entries, rules on safety, and in an edition its jars.

    Returns the longest overdue first.
    """
    catalogue = loaded.catalogue
    rules: tuple[Any, ...] = (
        *catalogue.policies,
        *catalogue.classifications,
        *catalogue.advices,
        *catalogue.respirators,
        *catalogue.leaching,
        *catalogue.stone_checks,
    )
    dated: list[tuple[str, Any]] = [
        *((each.kind_name, each) for each in catalogue.things),
        *((RULES, each) for each in rules),
    ]
    found = [
        Overdue(kind, each.id, each.name, str(due))
        for kind, each in dated
        if (due := getattr(each, "review_by", None)) and str(due) < today.isoformat()
    ]
    return tuple(
        sorted([*found, *_of_studio(loaded, today)], key=lambda each: (each.due, each.kind, each.id))
    )


def _of_studio(loaded: Loaded, today: date) -> Iterator[Overdue]:
    if loaded.edition is None:
        return
    studio = loaded.edition.studio
    if studio.review_by and studio.review_by < today.isoformat():
        yield Overdue(STUDIO, studio.title, studio.title, studio.review_by)
    looked_at = audit(loaded.catalogue, loaded.derived, studio, loaded.edition.register.jars, today)
    for each in looked_at.jars:
        if each.review == AUDIT_OVERDUE and each.review_due:
            yield Overdue(JAR, each.listed.key, public_words(each, studio), each.review_due)


def refuse_overdue(loaded: Loaded, roots: Roots, late: tuple[Overdue, ...]) -> None:
    """Raise `Refused` with one problem for each review that is overdue."""
    hint = "Look it up again and move the dates on; or pack with --overdue-anyway."
    problems = [
        Problem(
            OVERDUE,
            "error",
            f"The review of {each.name} was due on {each.due}.",
            _place(loaded, roots, each),
            hint,
        )
        for each in late
    ]
    if problems:
        raise Refused(*problems, texts=loaded.texts)


def _place(loaded: Loaded, roots: Roots, late: Overdue) -> Place:
    """Where the date stands."""
    if late.kind in (STUDIO, JAR):
        return Place(str(roots.studio or roots.entries))
    folder = next(folder for folder, kind in load.FOLDERS.items() if kind == late.kind)
    name = f"{folder}/{late.id}{ENDING}"
    document = next(
        (each for each in loaded.documents if Path(each.path).as_posix().endswith(f"/{name}")), None
    )
    return document.place(("review_by",)) if document else Place(str(roots.entries / name))


@dataclass(frozen=True)
class Prints:
    """What is printed for a stick."""

    kinds: tuple[str, ...]
    """Of `poster` and `cards`."""
    today: date
    """The day that reviews are judged by."""
    late: str | None = None
    """The day since which any review of the stick is overdue: every page of a print says so."""


def print_into(folder: Path, loaded: Loaded, roots: Roots, prints: Prints, tick: Tick) -> None:
    """Print what goes on every stick into its folder.

    Parameters: `prints`; `tick`, told of each card.
    """
    from mullbook.workflow.print_asked import Asked, printable
    from mullbook.workflow.print_room import PrintRoom
    from mullbook.workflow.printing import write_whole

    today = prints.today.isoformat()
    for kind in prints.kinds:
        paper = PAPER_OF[kind]
        room = PrintRoom(loaded, roots, Asked(paper=paper, today=today, packed_late=prints.late))
        write_whole(
            folder / PRINT / f"{NAME_OF[kind]}-{paper.lower()}.pdf", room.print(printable(kind), (), tick).pdf
        )


@dataclass(frozen=True)
class Packed:
    """What was packed."""

    files: int
    megabytes: float
    number: str
    """Digest of the list of digests."""


def finish_stick(folder: Path, edition: Edition, templates: Path) -> Packed:
    """Make a folder that holds `site/`, and `print/` where there is one, into a stick.

    Parameters: `folder`; `edition`, what is said of it; `templates`, the folder site_templates/.
    Writes the pages that start and check it, and its list of digests. Returns what was packed. Raises
    `NotBuilt` for names that a stick cannot hold apart, `OSError` where the folder cannot be written.
    """
    if edition.overdue:
        _mark_pages(folder / SITE, edition, templates)
    prints = sorted(each.name for each in (folder / PRINT).glob("*.pdf"))
    for name, text in start_pages(templates, edition, prints).items():
        _write(folder / name, text)
    refuse_clashes(_files(folder))
    digests = {name: file_digest(folder / name) for name in _files(folder)}
    sized = {name: (each, (folder / name).stat().st_size) for name, each in digests.items()}
    _write(folder / CHECK, check_page(templates, edition, sized))
    digests[CHECK] = file_digest(folder / CHECK)
    _write(folder / SUMS, sums_text(digests))
    size = sum(each.stat().st_size for each in folder.rglob("*") if each.is_file())
    return Packed(len(digests) + 1, size / 1e6, file_digest(folder / SUMS))


def _mark_pages(site: Path, edition: Edition, templates: Path) -> None:
    for path in sorted(site.rglob("*.html")):
        marked = with_banner(path.read_text("utf-8"), edition.overdue_words)
        if BANNER_MARK not in marked:
            raise NotBuilt(f"{path.name} has no place for the note that reviews are overdue.")
        _write(path, marked)
    finish_site(site, templates, {"version": edition.version, "checked": edition.checked})


def refuse_clashes(names: list[str]) -> None:
    """Raise `NotBuilt` for names that differ only in capitals, or that a stick refuses."""
    lowered: dict[str, str] = {}
    for name in names:
        other = lowered.setdefault(name.casefold(), name)
        if other != name:
            raise NotBuilt(f"A stick cannot tell {other} from {name}.")
        if NOT_ON_A_STICK & set(name) or any(part.endswith((" ", ".")) for part in PurePosixPath(name).parts):
            raise NotBuilt(f"A stick cannot hold a file called {name}.")


def _files(folder: Path) -> list[str]:
    """Files of a stick but for the lists of them, by path from its root."""
    found = (each.relative_to(folder).as_posix() for each in folder.rglob("*") if not each.is_dir())
    return sorted(name for name in found if name not in (SUMS, LISTING))


def _write(path: Path, text: str) -> None:
    path.write_bytes(text.encode("utf-8"))


def refuse_foreign_zip(target: Path) -> None:
    """Raise `Refused` where a .zip file that is no stick would be replaced."""
    if not target.exists():
        return
    try:
        with ZipFile(target) as archive:
            if any(name.endswith(f"/{SUMS}") for name in archive.namelist()):
                return
    except Exception:  # whatever it is, it is not ours to replace
        pass
    hint = "Nothing was changed. Name a new file."
    raise Refused(
        Problem(NOT_OURS, "error", "This file was not packed by Mullbook.", Place(str(target)), hint)
    )


def zip_stick(folder: Path, target: Path, top: str, day: str) -> None:
    """Write a stick as a .zip file beside `target`, then swap it in: never a torn one.

    Parameters: `top`, the folder all files stand in; `day`, the date all files bear, so that the same stick
    gives the same bytes.
    """
    for leftover in _leftovers(target):
        leftover.unlink(missing_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{target.name}-new-{os.getpid()}-", dir=target.parent)
    new = Path(name)
    try:
        with os.fdopen(handle, "wb") as file, ZipFile(file, "w", ZIP_DEFLATED, compresslevel=9) as archive:
            for path in sorted(each for each in folder.rglob("*") if each.is_file()):
                member = path.relative_to(folder).as_posix()
                archive.writestr(_dated(f"{top}/{member}", day), path.read_bytes(), ZIP_DEFLATED, 9)
        new.chmod(0o644)
        new.replace(target)
    except BaseException:
        new.unlink(missing_ok=True)
        raise


def _dated(name: str, day: str) -> ZipInfo:
    when = date.fromisoformat(day)
    info = ZipInfo(name, (max(when.year, EARLIEST), when.month, when.day, 0, 0, 0))
    info.external_attr = 0o644 << 16
    info.create_system = 3
    return info


def _leftovers(target: Path) -> Iterator[Path]:
    """What killed runs left beside a .zip file; a run that is still at it keeps its own."""
    for each in target.parent.glob(f".{target.name}-new-*"):
        if not being_written(each):
            yield each
