"""Pages while entries are edited: at once that of the edited entry, then, by a second process, all others."""

from __future__ import annotations

import atexit
import sys
from collections.abc import Collection, Mapping
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from mullbook.checks.schema import Schemas, load_schemas
from mullbook.text.yaml_text import read_file
from mullbook.workflow import kept, making, site
from mullbook.workflow.checking import Checked, Loaded, check, check_document, gathered
from mullbook.workflow.folders import Roots, entry_files
from mullbook.workflow.kept import Made
from mullbook.workflow.swap import Refused

if TYPE_CHECKING:
    from subprocess import Popen

    from mullbook.derive.results import Derived

MOST_AT_ONCE = 8
"""With more entries edited at once, making everything takes hardly longer."""
MAKE_ALL = (
    "import os, sys; from pathlib import Path; from mullbook.workflow import Roots, made; "
    "hasattr(os, 'nice') and os.nice(5); made(Roots(*map(Path, sys.argv[1:])))"
)


class Live:
    """What was read, derived and made so far in one run of `serve`."""

    def __init__(self) -> None:
        self.watched: tuple[Path, ...] = ()
        self._digests: Mapping[str, str] = {}
        self._made: Made | None = None
        self._standing: Mapping[str, str | bytes] = {}
        self._read: dict[Path, tuple[str, Checked]] = {}
        self._derived: Derived | None = None
        self._schemas: Schemas | None = None
        self._helper: Popen[bytes] | None = None
        atexit.register(self.stop)

    def pages(self, roots: Roots) -> tuple[Made, Collection[str]]:
        """What the entries make as they stand now, and which files of it are not yet in the site.

        What leans on an edited entry may follow a little later. Raises `Refused` with all problems where
        there are errors.
        """
        if not self.watched:
            self.watched = (kept.folder_of(roots), *([roots.studio] if roots.studio else []))
            self.watched[0].mkdir(parents=True, exist_ok=True)
        digests = kept.input_digests(roots)
        edited = {name for name in {*digests, *self._digests} if digests.get(name) != self._digests.get(name)}
        read = ((str(path), each) for path, (_, each) in self._read.items())
        entries = {(each.kind or "", each.path.stem) for name, each in read if name in edited}
        only_entries = len(entries) == len(edited) and edited <= digests.keys()
        whole = kept.recall(roots, kept.key_of(digests))
        if self._made is None or not only_entries or len(edited) > MOST_AT_ONCE:
            made = self._everything(roots, digests, whole)
        elif whole is not None:
            made = whole
        elif edited:
            made = self._few(roots, digests, entries, self._made)
            self._have_the_rest_made(roots)
        else:
            made = self._made
        if self._made is None or not only_entries or made.edition != self._made.edition:
            self._standing = {}  # what surrounds every page may have changed
        self._made, self._digests = made, digests
        return made, {path for path, each in made.files.items() if self._standing.get(path) != each}

    def finish(self, built: Path, templates: Path) -> None:
        """Note what stands in the site now."""
        self._standing = self._made.files if self._made else {}

    def stop(self) -> None:
        """End what runs beside."""
        if self._helper is not None and self._helper.poll() is None:
            self._helper.kill()
            self._helper.wait()

    def _everything(self, roots: Roots, digests: Mapping[str, str], whole: Made | None) -> Made:
        """What is kept, or all made anew; either way entries are read, for the edits to come."""
        self._schemas = None
        self._read.clear()
        loaded = self._check(roots, digests)
        if whole is None:
            whole = making.made_of(loaded, roots)
            kept.keep(roots, kept.key_of(digests), whole)
        self._derived = None if loaded.errors else loaded.derived
        return whole

    def _check(self, roots: Roots, digests: Mapping[str, str]) -> Loaded:
        """Read what was edited; what all entries say together is always looked at again."""
        if roots.studio is not None:
            return check(roots)
        schemas = self._schemas = self._schemas or load_schemas(roots.schema)
        files = entry_files(roots.entries)
        for kind, path in files:
            digest = digests.get(str(path), "")
            if path not in self._read or self._read[path][0] != digest:
                document = read_file(path, roots.entries)
                self._read[path] = digest, check_document(kind, path, document, schemas)
        return gathered([self._read[path][1] for _, path in files], roots)

    def _few(
        self, roots: Roots, digests: Mapping[str, str], entries: Collection[tuple[str, str]], last: Made
    ) -> Made:
        """The last pages, with those of the edited entries made anew."""
        from mullbook.derive.catalogue import derive

        loaded = self._check(roots, digests)
        if loaded.errors:
            raise Refused(*loaded.problems, texts=loaded.texts)
        self._derived = derive(loaded.catalogue, _without(self._derived, {name for _, name in entries}))
        few = site.few_pages(loaded, self._derived, roots, entries, last.files)
        return replace(last, files={**last.files, **few}, report=making.report_of(loaded))

    def _have_the_rest_made(self, roots: Roots) -> None:
        """Start the program once more, to keep what everything makes; `serve` watches for it."""
        from subprocess import Popen  # a check, which passes by here, starts nothing

        self.stop()
        folders = [roots.entries, roots.schema, roots.templates, *([roots.studio] if roots.studio else [])]
        self._helper = Popen([sys.executable, "-c", MAKE_ALL, *map(str, folders)])


def _without(derived: Derived | None, names: Collection[str]) -> Derived | None:
    """What was derived, but for that of a few entries."""
    return derived and replace(
        derived,
        pigments={name: each for name, each in derived.pigments.items() if name not in names},
        substances={name: each for name, each in derived.substances.items() if name not in names},
        products={name: each for name, each in derived.products.items() if name not in names},
    )
