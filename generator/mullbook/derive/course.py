"""Questions for a class, drawn from the catalogue and answered by the formulas of the book."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import zip_longest

from mullbook.derive.course_results import KINDS, LABEL_PARTS, Exercise
from mullbook.derive.draw import Draw
from mullbook.derive.results import Because, BinderStart, Derived, Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.course import Course
from mullbook.model.values import Input, Quantity, Range
from mullbook.science.registry import evaluate

SHUT = "leave-it-shut"
STUDENT = ("student-unsupervised", "under-18")
MASSES = (10.0, 20.0, 25.0, 40.0, 50.0)
"""Grams of pigment asked about: what one slab takes."""
SIZES = (2.0, 5.0, 10.0, 20.0, 40.0)
DEPTHS = (5.0, 8.0, 10.0, 15.0)
ROOMS = (60.0, 90.0, 120.0, 150.0, 180.0, 240.0)
TEMPERATURE = 20.0
JARS_AT_ONCE = 4
"""Jars in one question on who may open what."""
LEFT_OUT = 2
"""Parts a faulty label lacks."""
KNOWN_FINISH = (0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5, 0.55, 0.6)
"""PVCs asked about; those near enough to a bound between two finishes are passed over."""
BOUNDS = (0.6, 0.85, 1.0)


@dataclass(frozen=True)
class Class:
    """All that questions are made of."""

    catalogue: Catalogue
    derived: Derived
    course: Course
    binders: tuple[str, ...]
    draw: Draw

    def safety(self, pigment: str) -> Safety:
        """What is derived about the harm of a pigment."""
        return self.derived.pigments[pigment].safety

    def level(self, pigment: str) -> str:
        """Level of a pigment's dry powder, up to the smallest amount."""
        return self.safety(pigment).dry["bench"].level


def exercises(
    catalogue: Catalogue, derived: Derived, course: Course, binders: tuple[str, ...]
) -> tuple[Exercise, ...]:
    """The questions of a course: the kinds take turns, so that few questions still cover much.

    Parameters: `course`, whose pigments are all in the catalogue; `binders`, ids of those asked about where
    the course names none.
    Returns up to `course.ask` questions, the same for the same catalogue, course and seed; fewer where the
    data give no more.
    """
    chosen = tuple(each for each in course.binders or binders if each in catalogue.binder)
    about = Class(catalogue, derived, course, chosen, Draw(course.seed))
    kinds = [each for each in KINDS if each in (course.kinds or KINDS)]
    turns = zip_longest(*(_of_kind(about, kind) for kind in kinds))
    drawn = (each for turn in turns for each in turn if each is not None)
    return tuple(each for _, each in zip(range(course.ask), drawn, strict=False))


def _of_kind(about: Class, kind: str) -> Iterator[Exercise]:
    if kind == "student":
        yield from _student(about)
        return
    order = about.draw.about(kind)
    for pigment in order.shuffled(about.course.pigments):
        made = MAKERS[kind](about, pigment, order.about(pigment))
        if made is not None:
            yield made


def _limit(about: Class, pigment: str, _: Draw) -> Exercise | None:
    limit = about.safety(pigment).shown_limit
    if limit is None:
        return None
    return Exercise(kind="limit", about=(pigment,), limit=limit, working=limit.working)


def _level(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    dry = about.safety(pigment).dry
    amounts = [each.id for each in about.catalogue.policy.amounts if each.id in dry]
    if not amounts:
        return None
    amount = draw.pick(amounts)
    return Exercise(kind="level", about=(pigment,), amount=amount, verdict=dry[amount])


def _binder(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    found = about.derived.pigments[pigment]
    density = _single("density", found.paint.density)
    starts = [each for each in found.paint.binders if _can_be_asked(about, each)]
    if about.level(pigment) == SHUT or density is None or not starts:
        return None
    start = draw.pick(starts, "binder")
    binder = about.catalogue.binder[start.binder]
    assert start.pvc is not None
    inputs = {
        "pigment_mass": Input("pigment_mass", "g", Range.of(draw.pick(MASSES, "mass"))),
        "density": density,
        "pvc": Input("pvc", "fraction", Range.of(_within(start.pvc, draw))),
        "binder_solids": _single("binder_solids", binder.solids),
        "binder_solids_density": _single("binder_solids_density", binder.density_dry),
    }
    working = evaluate("binder_for_pvc", inputs)
    return Exercise(kind="binder", about=(pigment,), binder=start.binder, working=working)


def _can_be_asked(about: Class, start: BinderStart) -> bool:
    binder = about.catalogue.binder[start.binder]
    known = binder.solids and binder.solids.range and binder.density_dry and binder.density_dry.range
    fits = start.binder in about.binders and start.verdict != "unsuitable"
    return bool(fits and known and start.pvc is not None and start.pvc.low > 0 and start.pvc.high < 1)


def _within(pvc: Range, draw: Draw) -> float:
    """A whole percentage within a range, or its middle where there is none."""
    low, high = math.ceil(pvc.low * 100), math.floor(pvc.high * 100)
    if low > high:
        return round(pvc.middle, 3)
    return (low + draw.number(high - low + 1, "pvc")) / 100


def _single(name: str, quantity: Quantity | None) -> Input | None:
    """A quantity as the one figure a question gives: the middle of its range, to three figures."""
    if quantity is None or quantity.range is None:
        return None
    middle = float(f"{quantity.range.middle:.3g}")
    note = None if quantity.range.is_point else "middle of the range in the book"
    return Input(name, quantity.unit, Range.of(middle), quantity.source, quantity.basis, note)


def _settling(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    density = _single("density", about.derived.pigments[pigment].paint.density)
    if about.level(pigment) == SHUT or density is None or not isinstance(density.value, Range):
        return None
    if density.value.low <= 1:
        return None
    inputs = {
        "size": Input("size", "um", Range.of(draw.pick(SIZES, "size"))),
        "depth": Input("depth", "cm", Range.of(draw.pick(DEPTHS, "depth"))),
        "density": density,
        "temperature": Input("temperature", "C", Range.of(TEMPERATURE)),
    }
    working = evaluate("settling_time", inputs)
    return Exercise(kind="settling", about=(pigment,), working=working) if working.result else None


def _room(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    limit = about.safety(pigment).shown_limit
    if limit is None:
        return None
    given = Input(
        "limit", "mg/m3", Range.of(float(f"{limit.value:.2g}")), note=f"{limit.list}, on this dust, rounded"
    )
    room = Input("room_volume", "m3", Range.of(draw.pick(ROOMS)))
    working = evaluate("dust_budget", {"limit": given, "room_volume": room})
    return Exercise(kind="room", about=(pigment,), working=working, limit=limit)


def _finish(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    paint = about.derived.pigments[pigment].paint
    critical = paint.critical.result
    if about.level(pigment) == SHUT or paint.critical_from != "rub-out" or critical is None:
        return None
    cpvc = round(critical.middle, 2)
    asked = [each for each in KNOWN_FINISH if all(abs(each / cpvc - bound) > 0.02 for bound in BOUNDS)]
    if not asked:
        return None
    pvc = Input("pvc", "fraction", Range.of(draw.pick(asked)))
    known = Input(
        "cpvc", "fraction", Range.of(cpvc), basis="calculated", note="middle of the range in the book"
    )
    working = evaluate("reduced_pvc", {"pvc": pvc, "cpvc": known})
    return Exercise(kind="finish", about=(pigment,), working=working)


def _label(about: Class, pigment: str, draw: Draw) -> Exercise | None:
    held = [each for each in LABEL_PARTS if each != "hazards" or about.safety(pigment).statements]
    may_lack = [each for each in held if each != "name" and (each != "waste" or about.safety(pigment).waste)]
    lacking = draw.shuffled(may_lack)[:LEFT_OUT]
    return Exercise(kind="label", about=(pigment,), left_out=tuple(each for each in held if each in lacking))


def _milder(about: Class, pigment: str, _: Draw) -> Exercise | None:
    milder = about.safety(pigment).milder
    return Exercise(kind="milder", about=(pigment,), milder=milder) if milder else None


def _student(about: Class) -> Iterator[Exercise]:
    """Jars in groups, each jar once."""
    jars = about.draw.about("student").shuffled(about.course.pigments)
    for start in range(0, len(jars), JARS_AT_ONCE):
        group = jars[start : start + JARS_AT_ONCE]
        if len(group) > 1:
            barred = tuple((each, _bars_students(about.safety(each))) for each in group)
            yield Exercise(kind="student", about=tuple(group), barred=barred)


def _bars_students(safety: Safety) -> Because | None:
    found = {each.id: each for each in safety.not_for}
    return next((found[each] for each in STUDENT if each in found), None)


MAKERS: dict[str, Callable[[Class, str, Draw], Exercise | None]] = {
    "limit": _limit,
    "level": _level,
    "binder": _binder,
    "settling": _settling,
    "room": _room,
    "finish": _finish,
    "label": _label,
    "milder": _milder,
}
"""Kind of question about one pigment to what makes it."""
