"""From a course file to a handout and its answer sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from mullbook.checks.input_rules import NOT_FOUND
from mullbook.derive.course import exercises
from mullbook.model.catalogue import Catalogue
from mullbook.model.course import Course
from mullbook.render.card import SHOWN_BINDERS
from mullbook.render.course_site import ALWAYS, ANSWERS, NOT_ALONE, Handout, wanted_assets
from mullbook.render.course_text import Asked, asked
from mullbook.render.links import page_of
from mullbook.render.site import edition_line
from mullbook.render.stick import Edition
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.workflow.batches import read_bench_file
from mullbook.workflow.checking import Loaded
from mullbook.workflow.course_print import HANDOUT_PDF, course_pdfs
from mullbook.workflow.folders import Roots
from mullbook.workflow.swap import Refused

HANDOUT = "handout"


@dataclass(frozen=True)
class Made:
    """A course made: its files by path, and what was drawn."""

    course: Course
    asked: tuple[Asked, ...]
    files: dict[str, str | bytes]


def read_course(path: Path, roots: Roots, loaded: Loaded, site: Mapping[str, object]) -> Course:
    """Read a course file and make sure that all it names is there.

    Parameters: `site`, generated files of the site by path. Raises `Refused` with everything that is wrong.
    """
    course: Course = read_bench_file(path, "course", roots)
    problems = list(_unknown(course, loaded.catalogue, site, Place(str(path))))
    if problems:
        raise Refused(*problems)
    return course


def _unknown(
    course: Course, catalogue: Catalogue, site: Mapping[str, object], place: Place
) -> Iterator[Problem]:
    pages = {path.removesuffix(".md") for path in site if path.endswith(".md")}
    named = (
        ("pigment", course.pigments, set(catalogue.pigment)),
        ("binder", course.binders, set(catalogue.binder)),
        ("guide", course.guides, _ids(pages, "guides/")),
        ("question", course.questions, _ids(pages, "questions/")),
        ("page", course.pages, pages),
    )
    for what, names, known in named:
        for name in names:
            if what == "page" and name in NOT_ALONE:
                message = f"The page {name} leads to the whole book: it says little in a handout."
                yield Problem(NOT_FOUND, "error", message, place, "Leave it out.")
            elif name not in known:
                close = nearest(name, known)
                hint = f"Did you mean {' or '.join(close)}?" if close else None
                yield Problem(NOT_FOUND, "error", f"There is no {what} called {name}.", place, hint)


def _ids(pages: set[str], folder: str) -> set[str]:
    return {page.removeprefix(folder) for page in pages if page.startswith(folder)} - {"index"}


def questions_of(loaded: Loaded, course: Course) -> tuple[Asked, ...]:
    """The questions of a course, with their answers, in words."""
    drawn = exercises(loaded.catalogue, loaded.derived, course, SHOWN_BINDERS)
    return asked(loaded.catalogue, loaded.derived, drawn)


def make_course(loaded: Loaded, roots: Roots, course: Course, site: Mapping[str, str | bytes]) -> Made:
    """The handout as a few pages of the site, and the answer sheet beside it.

    Parameters: `site`, generated files of the whole site by path.
    """
    line = edition_line(loaded.catalogue)
    book = Edition("Mullbook", line["version"], line["edition"], line["checked"])
    questions = questions_of(loaded, course)
    handout = Handout(roots.templates, course, book, questions)
    chosen = {page: str(site[_source(page)]) for page in _pages(course, questions)}
    pages = handout.pages(chosen, [(HANDOUT_PDF, "Questions with room to write, and the bench cards")])
    files: dict[str, str | bytes] = {f"{HANDOUT}/{path}": text for path, text in pages.items()}
    for name, pdf in course_pdfs(loaded, roots, course, questions, book).items():
        files[f"{HANDOUT}/{name}" if name == HANDOUT_PDF else name] = pdf
    for path in sorted(wanted_assets(pages)):
        files[f"{HANDOUT}/{path}"] = (
            site[path] if path in site else (roots.templates / "pages" / path).read_bytes()
        )
    if questions:
        files[ANSWERS] = handout.answers()
    return Made(course, questions, files)


def _source(page: str) -> str:
    return page.replace(".html", ".md")


def _pages(course: Course, questions: tuple[Asked, ...]) -> list[str]:
    """Pages of a handout in order: pigments, what is asked about, then what the teacher named."""
    pigments = [page_of("pigment", each) for each in course.pigments]
    asked_about = [page for each in questions for page, _ in each.pages]
    named = [
        *(page_of("binder", each) for each in course.binders),
        *(page_of("guide", each) for each in course.guides),
        *(page_of("question", each) for each in course.questions),
        *(f"{each}.html" for each in course.pages),
    ]
    return list(dict.fromkeys([*pigments, *asked_about, *named, *ALWAYS]))
