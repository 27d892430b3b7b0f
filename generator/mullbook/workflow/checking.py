"""Load, schema, entry rules, catalogue rules: all problems of a run at once."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mullbook import load
from mullbook.checks.context import CatalogueContext, EntryContext
from mullbook.checks.input_rules import CRASH, NO_ENTRIES, NO_FOLDER
from mullbook.checks.rules import CATALOGUE_RULES, ENTRY_RULES, PLAIN_RULES
from mullbook.checks.schema import Schemas, load_schemas
from mullbook.checks.style import SCHEMA_LINE
from mullbook.checks.unfilled import check_filled
from mullbook.model.catalogue import Catalogue
from mullbook.text.problem import Place, Problem
from mullbook.text.yaml_text import Document, read_file
from mullbook.workflow.folders import ENDING, Roots, entry_files, missing_folders, stray_files

if TYPE_CHECKING:
    from mullbook.derive.results import Derived
    from mullbook.workflow.editions import Edition

OWN_FAULTS = (CRASH, "MB213")
"""Codes of problems that are the program's own."""


@dataclass(frozen=True)
class Loaded:
    """Everything a run of the checks learned."""

    documents: tuple[Document, ...] = ()
    catalogue: Catalogue = field(default_factory=Catalogue)
    problems: tuple[Problem, ...] = ()
    count: int = 0
    """How many entries were asked about."""
    edition: Edition | None = None
    """The studio whose edition this is, where it is one."""

    @property
    def errors(self) -> tuple[Problem, ...]:
        """The problems that stop a build."""
        return tuple(each for each in self.problems if each.severity == "error")

    @property
    def exit_code(self) -> int:
        """0 clean, 1 problems in the input, 2 a fault of the program."""
        return 2 if any(each.code in OWN_FAULTS for each in self.problems) else 1 if self.errors else 0

    @property
    def texts(self) -> Mapping[str, str]:
        """Text of each file by path, for reports that show the line."""
        return {each.path: each.text for each in self.documents}

    @cached_property
    def derived(self) -> Derived:
        """What follows from the entries. Raises `ValueError` where errors stand in the way."""
        from mullbook.derive.catalogue import derive  # a check alone needs no formulas

        if self.errors:
            raise ValueError("nothing follows from a catalogue with errors")
        return derive(self.catalogue)


@dataclass(frozen=True)
class Checked:
    """One file after its own checks. `entity` is there when text and shape are sound."""

    kind: str | None
    path: Path
    document: Document
    entity: Any = None
    problems: tuple[Problem, ...] = ()


def check(roots: Roots) -> Loaded:
    """Read and check a whole catalogue; problems of every step, all at once.

    Parameters: `roots`, the folders. Returns what was learned. Never raises on bad entries.
    """
    missing = missing_folders(roots)
    if missing:
        return Loaded(problems=tuple(missing))
    if roots.studio is not None:
        from mullbook.workflow.editions import check_edition  # only a studio needs its rules

        return check_edition(roots)
    return gathered(check_entries(roots.entries, load_schemas(roots.schema)), roots)


def check_entries(entries: Path, schemas: Schemas) -> list[Checked]:
    """Every entry below a folder after its own checks."""
    with _without_collector():
        return [_check_file(kind, path, schemas, entries) for kind, path in entry_files(entries)]


def catalogue_of(checked: Iterable[Checked]) -> Catalogue:
    """The catalogue that the sound entries make."""
    return load.catalogue(each.entity for each in checked if _goes_under_its_name(each))


def gathered(checked: Sequence[Checked], roots: Roots) -> Loaded:
    """What entries make together, with the problems of each and of all."""
    catalogue = catalogue_of(checked)
    problems = [*stray_files(roots.entries), *(problem for each in checked for problem in each.problems)]
    if checked:
        problems += _guarded(CATALOGUE_RULES, _context(catalogue, checked, roots), Place(str(roots.entries)))
    else:
        problems.append(_no_entries(roots.entries))
    documents = tuple(each.document for each in checked)
    return Loaded(documents, catalogue, tuple(problems), len(checked))


@contextmanager
def _without_collector() -> Iterator[None]:
    """Read without looking for cycles: hundreds of thousands of records are made and none is dropped,
    so that looking for what could be freed takes a third of a check and frees nothing."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


def _goes_under_its_name(checked: Checked) -> bool:
    """Whether an entry can be told from others; two files with one id cannot both stand for it."""
    return checked.entity is not None and checked.entity.id == checked.path.stem


def _context(catalogue: Catalogue, checked: Iterable[Checked], roots: Roots) -> CatalogueContext:
    named = {(str(each.kind), each.path.stem): each for each in checked}
    return CatalogueContext(
        catalogue=catalogue,
        documents={key: each.document for key, each in named.items()},
        unsound=frozenset(key for key, each in named.items() if not _goes_under_its_name(each)),
        folder=str(roots.entries),
    )


def _no_entries(folder: Path) -> Problem:
    hint = f"An entry is a file such as pigments/raw-umber{ENDING}; an empty book tells nobody anything."
    return Problem(NO_ENTRIES, "error", "There are no entries here.", Place(str(folder)), hint)


def kind_of(path: Path, text: str) -> str | None:
    """The kind of entry a file holds: from its folder, or else from the schema its first line names."""
    line = SCHEMA_LINE.match(text)
    return load.FOLDERS.get(path.absolute().parent.name) or (line["kind"] if line else None)


def _check_file(kind: str | None, path: Path, schemas: Schemas, root: Path | None) -> Checked:
    """Text, shape and entry rules of one file; a link may not lead out of `root`."""
    return check_document(kind, path, read_file(path, root), schemas)


def check_document(kind: str | None, path: Path, document: Document, schemas: Schemas) -> Checked:
    """Text, shape and entry rules of one entry as read."""
    problems = list(document.problems)
    kind = kind or kind_of(path, document.text)
    if document.data is None:
        return Checked(kind, path, document, None, tuple(problems))
    if kind is None:
        return Checked(kind, path, document, None, (*problems, _no_kind(document)))
    problems += check_filled(document, kind, schemas)
    if problems:
        also = _of_single_values(EntryContext(kind, document, None, path), problems)
        return Checked(kind, path, document, None, (*problems, *also))
    try:
        entity = load.entity(kind, document.data)
    except Exception as error:  # the schema let something through that the model does not hold
        return Checked(
            kind, path, document, None, (_crash("reading the entry", error, Place(document.path)),)
        )
    context = EntryContext(kind=kind, document=document, entity=entity, file=path)
    return Checked(kind, path, document, entity, tuple(_guarded(ENTRY_RULES, context, Place(document.path))))


def _of_single_values(context: EntryContext, told: Iterable[Problem]) -> Iterator[Problem]:
    """What rules on single values find in an entry of unsound shape, but for the lines already told."""
    lines = {each.place.span.line for each in told if each.place.span}
    for rule in PLAIN_RULES:
        try:
            found = list(rule.check(context))
        except Exception:  # a value of a shape the rule does not know has been told as such
            continue
        yield from (each for each in found if each.place.span and each.place.span.line not in lines)


def _no_kind(document: Document) -> Problem:
    return Problem(
        "MB212",
        "error",
        "It cannot be told what kind of entry this is.",
        document.place(()),
        hint="It stands in none of the folders for entries, and its first line names no schema.",
        example="# yaml-language-server: $schema=../../schema/pigment.schema.json",
    )


def _guarded(rules: Iterable[Any], context: Any, place: Place) -> list[Problem]:
    """Run rules; a crash in one becomes a problem that names the rule, and the rest still run."""
    found: list[Problem] = []
    for rule in rules:
        try:
            found += rule.check(context)
        except Exception as error:  # a rule must never take the others down with it
            found.append(_crash(f"rule {rule.code}", error, place))
    return found


def _crash(doing: str, error: Exception, place: Place) -> Problem:
    message = f"Mullbook broke here, at {doing} ({type(error).__name__}); the fault is the program's."
    return Problem(CRASH, "error", message, place, hint="Report it, with this file.")


def check_path(roots: Roots, path: Path | None) -> Loaded:
    """Check everything, and report only what concerns `path` where one is given.

    A file or folder outside the entries is read on its own: text, shape and entry rules only.
    """
    if path is None:
        return check(roots)
    if not (path.exists() or path.is_symlink()):
        hint = "Check the name, and the folder you are in."
        return Loaded(problems=(Problem(NO_FOLDER, "error", f"There is no {path}.", Place(str(path)), hint),))
    wanted, entries = _real(path), roots.entries.resolve()
    homes = [entries, *([roots.studio.resolve()] if roots.studio else [])]
    if any(home.is_relative_to(wanted) for home in homes):
        return check(roots)
    if not any(wanted.is_relative_to(home) for home in homes):
        return _check_outside(roots, path)
    loaded = check(roots)
    return replace(
        loaded,
        problems=tuple(each for each in loaded.problems if _concerns(each, wanted)),
        count=sum(_real(Path(each.path)).is_relative_to(wanted) for each in loaded.documents),
    )


def _real(path: Path) -> Path:
    """The path without links in its folders, but for the link it may be itself."""
    return path.parent.resolve() / path.name if path.is_symlink() else path.resolve()


def _concerns(problem: Problem, wanted: Path) -> bool:
    return any(_real(Path(each.path)).is_relative_to(wanted) for each in (problem.place, *problem.related))


def _check_outside(roots: Roots, path: Path) -> Loaded:
    missing = [each for each in missing_folders(roots) if each.place.path == str(roots.schema)]
    if missing:
        return Loaded(problems=tuple(missing))
    files = (
        sorted(each for each in path.rglob(f"*{ENDING}") if not each.is_dir()) if path.is_dir() else [path]
    )
    schemas = load_schemas(roots.schema)
    checked = [_check_file(None, each, schemas, path if path.is_dir() else None) for each in files]
    problems = [problem for each in checked for problem in each.problems]
    if not files:
        problems.append(_no_entries(path))
    return Loaded(tuple(each.document for each in checked), Catalogue(), tuple(problems), len(files))
