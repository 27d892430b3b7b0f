"""Load, schema, entry rules, derive, catalogue rules: all problems of a run at once."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from mullbook import load
from mullbook.checks.context import CatalogueContext, EntryContext
from mullbook.checks.input_rules import CRASH, NO_FOLDER
from mullbook.checks.rules import CATALOGUE_RULES, ENTRY_RULES
from mullbook.checks.schema import Schemas, check_shape, load_schemas
from mullbook.derive.catalogue import derive
from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.text.problem import Place, Problem
from mullbook.text.yaml_text import Document, read_file


@dataclass(frozen=True)
class Roots:
    """The folders a catalogue is made from."""

    entries: Path
    schema: Path
    templates: Path

    @classmethod
    def at(cls, root: Path) -> Roots:
        """The usual folders below a project's root."""
        return cls(root / "entries", root / "schema", root / "site_templates")


@dataclass(frozen=True)
class Loaded:
    """Everything a run of the checks learned."""

    documents: tuple[Document, ...] = ()
    catalogue: Catalogue = field(default_factory=Catalogue)
    derived: Derived | None = None
    problems: tuple[Problem, ...] = ()

    @property
    def errors(self) -> tuple[Problem, ...]:
        """The problems that stop a build."""
        return tuple(each for each in self.problems if each.severity == "error")

    @property
    def texts(self) -> Mapping[str, str]:
        """Text of each file by path, for reports that show the line."""
        return {each.path: each.text for each in self.documents}


def entry_files(entries: Path) -> list[tuple[str, Path]]:
    """Kind and path of every entry below a folder, in path order."""
    return [
        (kind, path) for folder, kind in load.FOLDERS.items() for path in sorted((entries / folder).glob("*.y*ml"))
    ]


def kind_of(path: Path) -> str | None:
    """The kind of entry a file holds, from the folder it stands in."""
    return load.FOLDERS.get(path.parent.name)


def check(roots: Roots) -> Loaded:
    """Read, check and derive a whole catalogue; problems of every step, all at once.

    Parameters: `roots`, the folders. Returns what was learned; `derived` is None where errors
    keep the catalogue from being built. Never raises on bad entries.
    """
    schemas = load_schemas(roots.schema)
    checked = [_check_file(kind, path, schemas) for kind, path in entry_files(roots.entries)]
    documents = tuple(document for document, _, _ in checked)
    problems = [problem for _, _, found in checked for problem in found]
    if any(each.severity == "error" for each in problems):
        return Loaded(documents=documents, problems=tuple(problems))
    catalogue = load.catalogue(entity for _, entity, _ in checked)
    derived = derive(catalogue)
    places = {(kind, document.data["id"]): document for (document, _, _), (kind, _) in _with_kinds(checked, roots)}
    context = CatalogueContext(catalogue=catalogue, derived=derived, documents=places)
    problems += _guarded(CATALOGUE_RULES, context, Place(str(roots.entries)))
    return Loaded(documents=documents, catalogue=catalogue, derived=derived, problems=tuple(problems))


def _with_kinds(checked: list[Any], roots: Roots) -> Iterator[Any]:
    return zip(checked, entry_files(roots.entries), strict=True)


def check_file(path: Path, schemas: Schemas) -> tuple[Document, list[Problem]]:
    """Check one file on its own: text, shape and entry rules."""
    document, _, problems = _check_file(kind_of(path), path, schemas)
    return document, problems


def _check_file(kind: str | None, path: Path, schemas: Schemas) -> tuple[Document, Any, list[Problem]]:
    document = read_file(path)
    problems = list(document.problems)
    if document.data is None or kind is None:
        return document, None, problems
    problems += check_shape(document, kind, schemas)
    if any(each.severity == "error" for each in problems):
        return document, None, problems
    entity = load.entity(kind, document.data)
    context = EntryContext(kind=kind, document=document, entity=entity, file=path)
    problems += _guarded(ENTRY_RULES, context, Place(document.path))
    return document, entity, problems


def _guarded(rules: Iterable[Any], context: Any, place: Place) -> list[Problem]:
    """Run rules; a crash in one becomes a problem that names the rule, and the rest still run."""
    found: list[Problem] = []
    for rule in rules:
        try:
            found += rule.check(context)
        except Exception as error:  # a rule must never take the others down with it
            found.append(
                Problem(CRASH, "error", f"The rule {rule.code} broke on this: {type(error).__name__}.", place)
            )
    return found


def check_path(roots: Roots, path: Path | None) -> Loaded:
    """Check everything, and report only what lies below `path` where one is given.

    A file or folder outside the entries is read on its own: text, shape and entry rules only.
    """
    if path is None:
        return check(roots)
    wanted = path.resolve()
    if not path.exists():
        return Loaded(problems=(Problem(NO_FOLDER, "error", f"There is no {path}.", Place(str(path))),))
    if wanted.is_relative_to(roots.entries.resolve()):
        loaded = check(roots)
        below = [each for each in loaded.problems if Path(each.place.path).resolve().is_relative_to(wanted)]
        return replace(loaded, problems=tuple(below))
    schemas = load_schemas(roots.schema)
    files = [path] if path.is_file() else sorted(each for each in path.rglob("*.y*ml") if each.is_file())
    checked = [_check_file(kind_of(each), each, schemas) for each in files]
    return Loaded(
        documents=tuple(document for document, _, _ in checked),
        problems=tuple(problem for _, _, found in checked for problem in found),
    )
