"""The handout and the answer sheet of a course on paper."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from mullbook.model.course import Course
from mullbook.render.course_text import Asked
from mullbook.render.papers import MARGIN, PAPERS, PUNCH
from mullbook.render.stick import Edition
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import Roots
from mullbook.workflow.print_asked import Asked as Paper
from mullbook.workflow.print_room import PrintRoom
from mullbook.workflow.printing import Setting, common_data, compiled, with_codes, words_of

TEMPLATE, CARD = "course.typ", "card.typ"
HANDOUT_PDF, ANSWERS_PDF = "handout.pdf", "answers.pdf"
LINES = {"binder": 5, "settling": 4, "room": 4, "finish": 4, "limit": 3, "level": 4, "student": 5}
USUAL_LINES = 3
"""Lines to write an answer on."""
NOTE = (
    "A draft from a reference book, not a regulatory classification. Local law, your technician and the"
    " supplier's data sheet come first. Nobody of 12 and under handles any of these powders."
)
FOR_TEACHERS = (
    "For the teacher: keep it out of the handout. Worked out by the formulas of the book from the figures"
    " that each question gives. A rounding in the third figure is no mistake."
)


def course_pdfs(
    loaded: Loaded, roots: Roots, course: Course, questions: Sequence[Asked], book: Edition
) -> dict[str, bytes]:
    """The handout (questions with room to write, then the bench card of each pigment) and the answers.

    Returns PDF by file name; no answers where nothing is asked.
    """
    found = {HANDOUT_PDF: _pdf(loaded, roots, _view(course, questions, book, answers=False), course)}
    if questions:
        found[ANSWERS_PDF] = _pdf(loaded, roots, _view(course, questions, book, answers=True), course)
    return found


def _view(course: Course, questions: Sequence[Asked], book: Edition, *, answers: bool) -> dict[str, Any]:
    seed = f"seed {course.seed}" if answers else None
    return {
        "title": f"Answers: {course.title}" if answers else course.title,
        "sub": " · ".join(each for each in (course.school_class, course.date, seed) if each),
        "words": "" if answers else course.words or "",
        "note": FOR_TEACHERS if answers else NOTE,
        "answers": answers,
        "foot": f"Taken from {book.name} {book.version} · {book.edition} · checked {book.checked}",
        "asked": [_asked(each) for each in questions],
        "cards": 0 if answers else len(course.pigments),
    }


def _asked(each: Asked) -> dict[str, Any]:
    return {
        "number": each.number,
        "question": each.question,
        "lines": each.lines,
        "answer": each.answer,
        "way": each.way,
        "room": LINES.get(each.kind, USUAL_LINES),
    }


def _pdf(loaded: Loaded, roots: Roots, view: dict[str, Any], course: Course) -> bytes:
    room = PrintRoom(loaded, roots, Paper())
    paper, half = PAPERS["A4"], PAPERS["A4"].height / 2
    larger = half / PAPERS["A6"].width
    words = words_of(CARD, ["card"], room.strings, roots)
    data = {
        **common_data(words, room.strings, roots, date=room.date, title=view["title"]),
        "page": {"width": paper.width, "height": paper.height},
        "grid": {"width": half, "height": paper.width, "columns": 1, "rows": 1},
        "margins": {"punch": PUNCH, "edge": MARGIN},
        "text": {"most": round(9 * larger, 2), "least": 4, "foot": round(5.5 * larger**0.7, 2)},
        "code": {"size": round(16.5 * larger**0.7, 1)},
        "poison": room.house.poison_centre,
        "sheets": [],
        "view": view,
    }
    pigments = [loaded.catalogue.pigment[each] for each in course.pigments[: view["cards"]]]
    cards = with_codes([room.cards.card(each) for each in pigments])
    pdf, _ = compiled(Setting(TEMPLATE, data, tuple(cards)), roots)
    return pdf
