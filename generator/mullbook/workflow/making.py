"""All that a catalogue makes, taken from what is kept where nothing has changed since."""

from __future__ import annotations

import sys
from collections.abc import Collection, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Protocol

from mullbook.text.report import as_text
from mullbook.workflow import kept, site
from mullbook.workflow.checking import Loaded, check
from mullbook.workflow.folders import Roots
from mullbook.workflow.kept import Made
from mullbook.workflow.swap import NotBuilt, Refused


class Maker(Protocol):
    """What gives the pages of one build after another."""

    def pages(self, roots: Roots) -> tuple[Made, Collection[str]]:
        """What the entries make, and which files of it are not yet in the site. Raises `Refused`."""


class Once:
    """Makes everything, for one build."""

    watched: tuple[Path, ...] = ()
    made: Made | None = None

    def pages(self, roots: Roots) -> tuple[Made, Collection[str]]:
        """What the entries make, and which files of it are not yet in the site. Raises `Refused`."""
        self.made = made(roots)
        return self.made, self.made.files.keys()

    def finish(self, built: Path, templates: Path) -> None:
        """Write what is made of a built site as a whole."""
        if self.made is not None:
            site.finish_site(built, templates, self.made.edition)


def made(roots: Roots) -> Made:
    """Every generated file, the edition and the report of a catalogue.

    A catalogue that was made before, by the same program, is not read again. Raises `Refused` with all
    problems where there are errors.
    """
    digests = kept.input_digests(roots)
    key = kept.key_of(digests)
    found = kept.recall(roots, key)
    if found is not None:
        return found
    fresh = made_of(check(roots), roots)
    # An entry saved while pages were made is in some of them and not in others.
    if kept.input_digests(roots) == digests:
        kept.keep(roots, key, fresh)
    return fresh


def made_of(loaded: Loaded, roots: Roots) -> Made:
    """The same, of entries that were read and checked. Raises `Refused`."""
    from mullbook.render.site import edition_line

    if loaded.errors:
        raise Refused(*loaded.problems, texts=loaded.texts)
    studio = loaded.edition.studio if loaded.edition else None
    return Made(site.site_files(loaded, roots), edition_line(loaded.catalogue, studio), report_of(loaded))


def report_of(loaded: Loaded) -> str:
    """What is amiss, in words; empty where nothing is."""
    return as_text(loaded.problems, loaded.texts) if loaded.problems else ""


def reported(maker: Maker, roots: Roots) -> tuple[Made, Collection[str]] | None:
    """What a maker gives, with what is amiss told on the way; None where errors stand in the way of it."""
    try:
        found = maker.pages(roots)
    except Refused as refused:
        print(as_text(refused.problems, refused.texts), file=sys.stderr)
        return None
    print(found[0].report, end="", file=sys.stderr)
    return found


def parted(files: Mapping[str, str | bytes]) -> dict[str, tuple[str, str]]:
    """What stands above each page, and the HTML of it as lean as a browser takes it.

    The marks for the text search have done their work, and end tags that HTML lets out are left out.
    """
    from mullbook.render.lean import open_ended
    from mullbook.render.text_index import MARK, front_and_body

    pages = {path: front_and_body(str(page)) for path, page in files.items() if path.endswith(".md")}
    return {
        path: (f"---\n{front}\n---\n", open_ended(body.replace(f" {MARK}", "")))
        for path, (front, body) in pages.items()
    }


@contextmanager
def in_words(logger: str, *faults: type[Exception]) -> Iterator[None]:
    """Show the warnings of an engine, and turn its faults into `NotBuilt`."""
    import logging

    warnings = logging.StreamHandler()
    warnings.setLevel(logging.WARNING)
    logging.getLogger(logger).addHandler(warnings)
    try:
        yield
    except faults as error:
        raise NotBuilt(str(error)) from error
    finally:
        logging.getLogger(logger).removeHandler(warnings)
