"""Questions of a course: the same each time, about what was chosen, answered as the registry answers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mullbook import workflow
from mullbook.derive.course import BOUNDS, SHUT, exercises
from mullbook.derive.course_results import KINDS, LABEL_PARTS, Exercise
from mullbook.derive.draw import Draw
from mullbook.model.course import Course
from mullbook.model.values import Range
from mullbook.render.course_text import Asked, asked
from mullbook.science.paint import binder_for_pvc
from mullbook.science.registry import as_json, evaluate
from mullbook.workflow.batches import read_bench_file
from mullbook.workflow.checking import Loaded
from tests.conftest import ROOT

BINDERS = ("acrylic-gel", "linseed-oil", "gum-arabic-solution")
EARTHS = ("raw-umber", "yellow-ochre", "burnt-sienna", "chalk", "lead-white", "orpiment", "ultramarine")


@pytest.fixture(scope="module")
def book(loaded: Loaded) -> Loaded:
    return loaded


@pytest.fixture(scope="module")
def earths() -> Course:
    return Course(title="Earths", pigments=EARTHS, ask=100, seed=7)


@pytest.fixture(scope="module")
def drawn(book: Loaded, earths: Course) -> tuple[Exercise, ...]:
    return exercises(book.catalogue, book.derived, earths, BINDERS)


@pytest.fixture(scope="module")
def every_pigment(book: Loaded) -> tuple[Exercise, ...]:
    course = Course(title="All", pigments=tuple(book.catalogue.pigment), ask=100_000, seed=3)
    return exercises(book.catalogue, book.derived, course, BINDERS)


@pytest.fixture(scope="module")
def every_answer(book: Loaded, every_pigment: tuple[Exercise, ...]) -> tuple[Asked, ...]:
    return asked(book.catalogue, book.derived, every_pigment)


def test_the_same_file_and_seed_draw_the_same_questions(
    book: Loaded, earths: Course, drawn: tuple[Exercise, ...]
) -> None:
    assert exercises(book.catalogue, book.derived, earths, BINDERS) == drawn
    other = exercises(book.catalogue, book.derived, replace(earths, seed=8), BINDERS)
    assert other != drawn
    assert [each.kind for each in other[:9]] == [each.kind for each in drawn[:9]] == list(KINDS)


def test_the_order_of_the_pigments_in_the_file_does_not_matter(
    book: Loaded, earths: Course, drawn: tuple[Exercise, ...]
) -> None:
    turned = replace(earths, pigments=EARTHS[::-1])
    assert exercises(book.catalogue, book.derived, turned, BINDERS) == drawn


def test_asking_for_fewer_questions_gives_the_first_of_them(
    book: Loaded, earths: Course, drawn: tuple[Exercise, ...]
) -> None:
    for ask in (0, 1, 8):
        few = exercises(book.catalogue, book.derived, replace(earths, ask=ask), BINDERS)
        assert few == drawn[:ask]


def test_only_the_kinds_and_pigments_asked_for_are_drawn(book: Loaded, earths: Course) -> None:
    course = replace(earths, kinds=("binder", "limit"), pigments=("chalk", "raw-umber"))
    drawn = exercises(book.catalogue, book.derived, course, BINDERS)
    assert {each.kind for each in drawn} == {"binder", "limit"}
    assert {pigment for each in drawn for pigment in each.about} == {"chalk", "raw-umber"}


def test_no_question_is_asked_twice(drawn: tuple[Exercise, ...]) -> None:
    assert len({(each.kind, each.about) for each in drawn}) == len(drawn)


def test_every_kind_is_drawn_from_the_book(every_pigment: tuple[Exercise, ...]) -> None:
    assert {each.kind for each in every_pigment} == set(KINDS)


def test_a_number_is_what_the_registry_gives_for_the_figures_of_the_question(
    every_pigment: tuple[Exercise, ...],
) -> None:
    numbers = [
        each.working
        for each in every_pigment
        if each.working is not None and each.kind in ("binder", "settling", "room", "finish")
    ]
    assert len(numbers) > 300
    for working in numbers:
        inputs = {each.name: each.value for each in working.inputs if each.value is not None}
        assert all(value.is_point for value in inputs.values() if isinstance(value, Range))
        again = evaluate(working.formula, inputs)
        assert as_json(again)["result"] == as_json(working)["result"]
        assert working.result is not None and working.result.is_point


def test_grams_of_binder_are_those_of_the_definition_of_pvc(every_pigment: tuple[Exercise, ...]) -> None:
    """Independent of the registry: from the answer back to the PVC that was asked about."""
    for each in every_pigment:
        if each.kind != "binder":
            continue
        assert each.working is not None and each.working.result is not None
        given = {item.name: item.value.low for item in each.working.inputs if isinstance(item.value, Range)}
        pigment = given["pigment_mass"] / given["density"]
        binder = each.working.result.low * given["binder_solids"] / given["binder_solids_density"]
        assert pigment / (pigment + binder) == pytest.approx(given["pvc"])
        assert each.working.result.low == pytest.approx(binder_for_pvc(**given))


def test_the_pvc_asked_about_lies_where_the_binder_is_used(
    book: Loaded, every_pigment: tuple[Exercise, ...]
) -> None:
    for each in every_pigment:
        if each.kind == "binder" and each.working is not None:
            starts = {start.binder: start for start in book.derived.pigments[each.about[0]].paint.binders}
            start = starts[str(each.binder)]
            pvc = next(item.value for item in each.working.inputs if item.name == "pvc")
            assert isinstance(pvc, Range) and start.pvc is not None and start.verdict != "unsuitable"
            assert start.pvc.low - 0.001 <= pvc.low <= start.pvc.high + 0.001


def test_a_jar_that_stays_shut_gives_no_quantity(book: Loaded, every_pigment: tuple[Exercise, ...]) -> None:
    shut = {
        each
        for each, found in book.derived.pigments.items()
        if found.safety.dry and found.safety.dry["bench"].level == SHUT
    }
    assert shut
    for each in every_pigment:
        if each.kind in ("binder", "settling", "finish"):
            assert not shut & set(each.about)


def test_limits_levels_and_milder_pigments_are_those_of_the_book(
    book: Loaded, every_pigment: tuple[Exercise, ...]
) -> None:
    for each in every_pigment:
        safety = book.derived.pigments[each.about[0]].safety
        if each.kind == "limit":
            assert each.limit == safety.shown_limit and each.limit is not None
        if each.kind == "level":
            assert each.verdict == safety.dry[str(each.amount)]
        if each.kind == "milder":
            assert each.milder == safety.milder != ()


def test_a_student_is_barred_by_the_book_and_by_nothing_else(
    book: Loaded, every_pigment: tuple[Exercise, ...]
) -> None:
    for each in every_pigment:
        for pigment, because in each.barred:
            barring = {found.id for found in book.derived.pigments[pigment].safety.not_for}
            assert (because is not None) == bool(barring & {"student-unsupervised", "under-18"})


def test_a_faulty_label_lacks_what_the_answer_names(
    every_pigment: tuple[Exercise, ...], every_answer: tuple[Asked, ...]
) -> None:
    for each, words in zip(every_pigment, every_answer, strict=True):
        if each.kind != "label":
            continue
        assert len(each.left_out) == 2 and set(each.left_out) < set(LABEL_PARTS)
        assert len(words.way) == 2 and all(words.way)
        assert not set(words.way) & set(words.lines)
        assert len(words.lines) + 2 in (7, 8)


def test_a_finish_that_is_asked_for_is_not_near_a_bound(every_pigment: tuple[Exercise, ...]) -> None:
    for each in every_pigment:
        if each.kind == "finish":
            assert each.working is not None and each.working.result is not None
            assert min(abs(each.working.result.low - bound) for bound in BOUNDS) > 0.02
            assert " to " not in each.working.reading


def test_every_question_has_an_answer_and_a_way_to_it(every_answer: tuple[Asked, ...]) -> None:
    for each in every_answer:
        assert each.question.endswith(("?", ".", ")"))
        assert each.answer.endswith(".") or each.kind in ("binder", "settling")
        assert each.way and all(each.way)
        assert each.pages
        said = " ".join((each.question, *each.lines, each.answer, *each.way))
        assert "None" not in said.replace("None of them", "") and "not derivable" not in said


FORBIDDEN = ("is safe", "are safe", "safe to", "harmless", "non-toxic", "conforms to")


def test_no_answer_calls_anything_safe(every_answer: tuple[Asked, ...]) -> None:
    for each in every_answer:
        said = " ".join((each.question, *each.lines, each.answer, *each.way)).lower()
        assert not [words for words in FORBIDDEN if words in said]


@given(st.integers(0, 999_999), st.lists(st.text("abc", min_size=1), unique=True, min_size=1, max_size=9))
@settings(max_examples=50)
def test_a_shuffle_keeps_all_and_forgets_the_order_given(seed: int, names: list[str]) -> None:
    shuffled = Draw(seed).shuffled(names)
    assert sorted(shuffled) == sorted(names)
    assert Draw(seed).shuffled(names[::-1]) == shuffled


def test_choices_are_spread_evenly() -> None:
    counts = [0] * 5
    for seed in range(5000):
        counts[Draw(seed).number(5, "x")] += 1
    assert all(900 < count < 1100 for count in counts)


def test_choices_stay_the_same_from_version_to_version() -> None:
    """Printed sheets and their answers may be years apart."""
    assert [Draw(7, "binder/raw-umber").number(1000, str(each)) for each in range(4)] == GOLDEN


GOLDEN = [761, 455, 583, 852]


def test_the_example_on_the_publishing_page_works(book: Loaded) -> None:
    roots = workflow.Roots.at(ROOT)
    course = read_bench_file(roots.templates / "templates" / "examples" / "course.yaml", "course", roots)
    assert set(course.pigments) <= set(book.catalogue.pigment)
    assert len(exercises(book.catalogue, book.derived, course, BINDERS)) == course.ask
