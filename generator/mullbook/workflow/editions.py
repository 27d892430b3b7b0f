"""A studio's own edition: the book, the studio's own entries, its overrides, its rules and its register."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from mullbook import load
from mullbook.checks.input_rules import NO_FOLDER
from mullbook.checks.own_rules import private_in, private_in_studio, private_words, studio_problems
from mullbook.checks.schema import Schemas, check_shape, load_schemas
from mullbook.checks.studio import NOTHING_BELOW, TAKEN_ID
from mullbook.model.catalogue import Catalogue
from mullbook.model.samples import Sample
from mullbook.model.studio import Shelf, Studio
from mullbook.text.merging import Merged, merged
from mullbook.text.problem import Place, Problem, mistake
from mullbook.text.suggest import nearest
from mullbook.text.yaml_text import Document, read_file
from mullbook.workflow.checking import (
    Checked,
    Loaded,
    catalogue_of,
    check_document,
    check_entries,
    gathered,
)
from mullbook.workflow.folders import Roots, entry_files, stray_files
from mullbook.workflow.loosening import Overridden, loosened
from mullbook.workflow.registers import Register, read_register

STUDIO, ENTRIES, OVERRIDES = "studio.yaml", "entries", "overrides"
OF_THE_BOOK = ("ruleset", "vocabulary", "source")
"""Kinds that an override may not change: rules are tightened in studio.yaml, the rest is quoted."""
Key = tuple[str, str]


@dataclass(frozen=True)
class Edition:
    """What a studio adds to the book. The catalogue with all of it stands in `Loaded`."""

    folder: Path
    studio: Studio
    register: Register
    own: frozenset[Key] = frozenset()
    """Kind and id of the studio's own entries."""
    changed: Mapping[Key, tuple[str, ...]] = field(default_factory=dict)
    """Kind and id of the book's entries that an override changes, with the keys it gives."""


def edition_at(folder: Path, roots: Roots) -> Loaded:
    """The checked edition of the studio in a folder, as everything else works with it.

    Returns what was loaded; its `edition` holds the studio and its register, its `catalogue` the book with
    the studio's entries, overrides and rules, its `problems` everything wrong with any of it.
    """
    return check_edition(replace(roots, studio=folder))


def check_edition(roots: Roots) -> Loaded:
    """Read and check the book and a studio's folder together. Never raises on bad files."""
    assert roots.studio is not None
    schemas = load_schemas(roots.schema)
    document, studio, problems = read_studio(roots.studio, schemas)
    core = check_entries(roots.entries, schemas)
    own = check_entries(roots.studio / ENTRIES, schemas)
    held = {(str(each.kind), each.path.stem): each for each in core}
    problems += [*_strays(roots.studio), *_taken(own, held)]
    own = [each for each in own if (str(each.kind), each.path.stem) not in held]
    overrides = list(_overrides(roots.studio / OVERRIDES, held, problems))
    laid = {(each.kind, each.id): _laid_over(each, held[each.kind, each.id], schemas) for each in overrides}
    loaded = gathered([*(laid.get(key, each) for key, each in held.items()), *own], roots)
    texts = (*loaded.documents, *(each.over for each in overrides), *([document] if document else ()))
    problems = [*_pointed(loaded.problems, laid), *problems]
    loaded = replace(loaded, documents=texts, problems=tuple(problems))
    if studio is None or document is None or not loaded.catalogue.policies:
        return loaded
    book = replace(catalogue_of(core), at_place=studio.jurisdiction)
    return _finished(roots, loaded, _Parts(document, studio, book, own, overrides, schemas))


@dataclass(frozen=True)
class _Parts:
    document: Document
    studio: Studio
    book: Catalogue
    own: list[Checked]
    overrides: list[Overridden]
    schemas: Schemas


def read_studio(folder: Path, schemas: Schemas) -> tuple[Document | None, Studio | None, list[Problem]]:
    """The studio.yaml of a folder: as read, as a record where it is sound, and what is wrong with it."""
    path = folder / STUDIO
    if not path.is_file():
        hint = "`mullbook new studio FOLDER` writes one to fill in"
        return None, None, [mistake(NO_FOLDER, f"there is no {STUDIO} here", Place(str(folder)), hint)]
    document = read_file(path)
    problems = [*document.problems, *check_shape(document, "studio", schemas)]
    if document.data is None or problems:
        return document, None, problems
    return document, load.build(Studio, document.data), problems


def _strays(folder: Path) -> Iterator[Problem]:
    for each in (ENTRIES, OVERRIDES):
        if (folder / each).is_dir():
            yield from stray_files(folder / each)


def _taken(own: Iterable[Checked], held: Mapping[Key, Checked]) -> Iterator[Problem]:
    for each in own:
        key = (str(each.kind), each.path.stem)
        if key in held:
            hint = f"write only what differs into {OVERRIDES}/{each.path.parent.name}/{each.path.name}"
            message = f"the book has an entry {each.path.stem} of this kind already"
            place, below = each.document.place(("id",)), held[key].document.place(("id",))
            yield mistake(TAKEN_ID, message, place, hint, related=(below,))
        elif each.kind == "ruleset":
            yield _no_ruleset(Place(str(each.path)))


def _no_ruleset(place: Place) -> Problem:
    hint = "what a studio asks beyond the book stands under `policy` in studio.yaml"
    return mistake(NOTHING_BELOW, "a studio has no rulesets of its own", place, hint)


def _overrides(folder: Path, held: Mapping[Key, Checked], problems: list[Problem]) -> Iterator[Overridden]:
    """Each override that has an entry below it; what is wrong with the others goes to `problems`."""
    for kind, path in entry_files(folder):
        document = read_file(path, folder)
        problems += document.problems
        below = held.get((kind, path.stem))
        if kind in OF_THE_BOOK:
            problems.append(_not_to_override(kind, document))
        elif below is None:
            close = nearest(path.stem, [name for each, name in held if each == kind])
            hint = (
                f"did you mean {' or '.join(close)}?" if close else "an entry of your own goes under entries/"
            )
            message = f"the book has no {kind} called {path.stem}"
            problems.append(mistake(NOTHING_BELOW, message, Place(document.path), hint))
        elif document.data is not None and not document.problems and below.document.data is not None:
            yield Overridden(kind, path.stem, below.document, document)


def _not_to_override(kind: str, document: Document) -> Problem:
    if kind == "ruleset":
        return _no_ruleset(Place(document.path))
    return mistake(NOTHING_BELOW, f"a {kind} of the book is quoted as it is", Place(document.path))


def _laid_over(override: Overridden, below: Checked, schemas: Schemas) -> Checked:
    return check_document(override.kind, below.path, merged(override.base, override.over), schemas)


def _pointed(problems: Iterable[Problem], laid: Mapping[Key, Checked]) -> Iterator[Problem]:
    """Problems that stand in an overridden entry of the book point to the override as well."""
    over = {each.document.path: each.document for each in laid.values()}
    for each in problems:
        document = over.get(each.place.path)
        if isinstance(document, Merged) and document.over is not None:
            yield replace(each, related=(*each.related, document.over.place(())))
        else:
            yield each


def _finished(roots: Roots, loaded: Loaded, parts: _Parts) -> Loaded:
    """The edition with the studio's rules and register, where what was read so far can bear it."""
    from mullbook.derive.tighten import tightened

    assert roots.studio is not None
    studio, problems = parts.studio, list(loaded.problems)
    problems += studio_problems(parts.document, studio, parts.book, _levels(parts.book, studio))
    problems += _private(parts)
    if not any(each.severity == "error" for each in problems):
        here = replace(loaded.catalogue, at_place=studio.jurisdiction)
        problems += loosened(parts.book, here, parts.overrides)
    if not any(each.severity == "error" for each in problems):
        loaded = replace(loaded, catalogue=tightened(loaded.catalogue, studio))
    register = _register(roots.studio, parts, loaded.catalogue)
    problems += register.problems
    edition = Edition(
        roots.studio,
        studio,
        register,
        own=frozenset((str(each.kind), each.path.stem) for each in parts.own),
        changed={(each.kind, each.id): tuple(each.over.data or {}) for each in parts.overrides},
    )
    told = Document(path=register.path, text=register.text, data=None)
    return replace(
        loaded,
        problems=tuple(problems),
        documents=(*loaded.documents, told),
        edition=edition,
    )


def _levels(book: Catalogue, studio: Studio) -> dict[str, str]:
    """Level by the book alone of each pigment that a rule of the studio names."""
    from mullbook.derive.safety import BENCH
    from mullbook.workflow.safety import safety_of

    named = {pigment for rule in studio.policy.levels for pigment in rule.pigments}
    held = (book.pigment[each] for each in sorted(named) if each in book.pigment)
    return {each.id: safety_of(book, each).dry[BENCH].level for each in held}


def _private(parts: _Parts) -> Iterator[Problem]:
    pattern = private_words(parts.studio)
    if pattern is None:
        return
    yield from private_in_studio(parts.document, pattern, parts.studio.for_pages)
    for checked in parts.own:
        yield from private_in(checked.document, pattern, _hidden(checked.entity))
    for override in parts.overrides:
        yield from private_in(override.over, pattern, ())


def _hidden(entity: object) -> tuple[str, ...]:
    """Texts of an entry that pages leave out."""
    if not isinstance(entity, Sample) or not entity.found.private:
        return ()
    return tuple(each for each in (entity.found.place, entity.found.permission.who) if each)


def _register(folder: Path, parts: _Parts, catalogue: Catalogue) -> Register:
    name = parts.studio.shelf.register
    path = folder / name
    if not path.exists() and name == Shelf().register:
        return Register(str(path))
    if not path.resolve().is_relative_to(folder.resolve()):
        where = parts.document.place(("shelf", "register"))
        problem = mistake("MB101", "the register must stand in the studio's own folder", where)
        return Register(str(path), problems=(problem,))
    return read_register(path, parts.studio, catalogue, parts.schemas)
