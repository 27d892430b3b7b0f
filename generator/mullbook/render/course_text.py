"""The questions of a course in words, each with its answer and the way to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from mullbook.derive.course_results import LABEL_PARTS, Exercise
from mullbook.derive.results import Derived, Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.values import Working
from mullbook.render.card import pigment_line
from mullbook.render.links import page_of
from mullbook.render.text import input_text
from mullbook.render.words import in_sentence, place_name, range_text, said, sentence, statement_text

BY_DEFAULT = "by default"
"""Note of a figure nobody gave; the formula says already what it took."""
MADE_UP = "The studio, its lot and its dates are invented."
LOT = "Lot HLM 14"
DATES = "Filled 2026-09-14, look at it again by 2027-09-14"
KEEPER = "Studio at Harrow Lane Mill, technician: ext. 14"
PART_NAMES = {
    "name": "what it is",
    "level": "the level of the dry powder",
    "hazards": "the signal word and hazard statements",
    "not-for": "who it is not for",
    "lot": "the lot",
    "dates": "the day it was filled and the day to look at it again",
    "keeper": "who keeps it and how to reach them",
    "waste": "where its waste goes",
}


@dataclass(frozen=True, slots=True)
class Asked:
    """One question as it is printed."""

    number: int
    kind: str
    question: str
    lines: tuple[str, ...]
    """What the question shows: jars, or the lines of a label."""
    answer: str
    way: tuple[str, ...]
    """How the answer is reached, and where it stands."""
    pages: tuple[tuple[str, str], ...]
    """Page and name of each entry to look it up in."""


def asked(catalogue: Catalogue, derived: Derived, exercises: Iterable[Exercise]) -> tuple[Asked, ...]:
    """The questions in words, numbered.

    Parameters: the catalogue and what was derived; `exercises`, from the same catalogue.
    """
    words = Words(catalogue, derived)
    return tuple(words.asked(number, each) for number, each in enumerate(exercises, 1))


class Words:
    """Puts one question after the other into words."""

    def __init__(self, catalogue: Catalogue, derived: Derived) -> None:
        self.catalogue = catalogue
        self.derived = derived
        self._say: dict[str, Callable[[Exercise], tuple[str, tuple[str, ...], str, tuple[str, ...]]]] = {
            "limit": self._limit,
            "level": self._level,
            "binder": self._binder,
            "settling": self._settling,
            "room": self._room,
            "finish": self._finish,
            "student": self._student,
            "label": self._label,
            "milder": self._milder,
        }

    def asked(self, number: int, exercise: Exercise) -> Asked:
        """One question as it is printed."""
        question, lines, answer, way = self._say[exercise.kind](exercise)
        pages = [(page_of("pigment", each), self._name(each)) for each in exercise.about]
        if exercise.binder:
            pages.append((page_of("binder", exercise.binder), self.catalogue.binder[exercise.binder].name))
        return Asked(number, exercise.kind, question, lines, answer, way, tuple(pages))

    def _pigment(self, exercise: Exercise) -> Pigment:
        return self.catalogue.pigment[exercise.about[0]]

    def _name(self, pigment: str) -> str:
        return self.catalogue.pigment[pigment].name

    def _called(self, exercise: Exercise) -> str:
        return in_sentence(self._pigment(exercise).name)

    def _safety(self, exercise: Exercise) -> Safety:
        return self.derived.pigments[exercise.about[0]].safety

    def _limit(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        limit = each.limit
        assert limit is not None
        driver = in_sentence(self.catalogue.substance[limit.driver].name)
        place = place_name(self.catalogue, limit.jurisdiction)
        question = (
            f"Look up the limit on the dust of {self._called(each)}. How many milligrams may a cubic metre"
            " hold at the most, in which fraction of the dust, and which part of the pigment sets it?"
        )
        memory = " It is from memory and not confirmed." if limit.remembered else ""
        answer = (
            f"{_few(limit.value)} mg/m³, {limit.fraction}, set by {driver} ({place}: {limit.list}).{memory}"
        )
        return question, (), answer, _way(limit.working)

    def _level(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        assert each.verdict is not None
        policy = self.catalogue.policy
        amount = next(found.words for found in policy.amounts if found.id == each.amount)
        level = policy.words(each.verdict.level)
        question = (
            f"You want to handle {self._called(each)} as a dry powder, {amount}. Name the level,"
            " say what it asks of you, and give the reason."
        )
        return question, (), f"{level.name}. {level.means}", tuple(map(sentence, each.verdict.reasons))

    def _binder(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        working = each.working
        assert working is not None and each.binder is not None
        given = _given(working)
        question = (
            f"How many grams of {in_sentence(self.catalogue.binder[each.binder].name)} as it is supplied go"
            f" with {given['pigment_mass']} of {self._called(each)} at a PVC of {given['pvc']}?"
            f" Take: density of the pigment {given['density']}, solids of the binder"
            f" {given['binder_solids']}, density of the dry binder {given['binder_solids_density']}."
        )
        return question, (), _result(working), _way(working)

    def _settling(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        working = each.working
        assert working is not None
        given = _given(working)
        question = (
            f"{self._pigment(each).name} is stirred into water of {given['temperature']}. After how many"
            f" minutes have all grains of {given['size']} and more sunk through {given['depth']}?"
            f" Its density is {given['density']}; take the grains as round and few."
            " Use the washing timer, or the law."
        )
        return question, (), _result(working), _way(working)

    def _room(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        working = each.working
        assert working is not None
        given = _given(working)
        question = (
            f"The limit on the dust of {self._called(each)} is {given['limit']}. How many milligrams of it"
            f" fill a room of {given['room_volume']} to that limit? Is this an allowance?"
        )
        return question, (), f"{_result(working)}. No: {working.reading}.", _way(working)

    def _finish(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        working = each.working
        assert working is not None
        given = _given(working)
        question = (
            f"An oil paint of {self._called(each)} has a PVC of {given['pvc']}. Its critical PVC in oil is"
            f" {given['cpvc']}. Work out the reduced PVC and say how the film looks."
        )
        return question, (), f"{_result(working)}: {working.reading}.", _way(working)

    def _student(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        question = (
            "Which of these jars of dry powder may a student open without a trained adult beside them?"
            " For the others, say what bars it."
        )
        free = [self._name(pigment) for pigment, because in each.barred if because is None]
        level = self.catalogue.policy.words
        way = tuple(
            f"{self._name(pigment)}: {level(self.derived.pigments[pigment].safety.dry['bench'].level).name}; "
            + (
                f"barred, because {because.because}."
                if because
                else "not barred, with what its level asks for."
            )
            for pigment, because in each.barred
        )
        answer = f"{', '.join(free)}; nobody of 12 and under opens any." if free else "None of them."
        return question, tuple(self._name(pigment) for pigment in each.about), answer, way

    def _label(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        lines = {part: self._line(part, each) for part in LABEL_PARTS}
        shown = tuple(text for part, text in lines.items() if text and part not in each.left_out)
        question = f"This label is on a jar in the studio. What is missing on it? ({MADE_UP})"
        answer = " and ".join(PART_NAMES[part] for part in each.left_out)
        return question, shown, sentence(answer), tuple(lines[part] for part in each.left_out)

    def _line(self, part: str, each: Exercise) -> str:
        pigment, safety = self._pigment(each), self._safety(each)
        policy = self.catalogue.policy
        level = policy.words(safety.dry["bench"].level)
        codes = [statement_text(self.catalogue, code) for code in safety.statements]
        persons = {person.id: person.name for person in policy.persons}
        lines = {
            "name": f"{pigment.name} · {pigment_line(pigment)}",
            "level": f"Dry powder: {level.name.upper()}. {level.means}",
            "hazards": ". ".join([*([safety.signal_word] if safety.signal_word else []), *codes]),
            "not-for": "Not for: " + ", ".join(persons.get(found.id, found.id) for found in safety.not_for),
            "lot": LOT,
            "dates": DATES,
            "keeper": KEEPER,
            "waste": f"Waste: {policy.waste[safety.waste.id].name}" if safety.waste else "",
        }
        return lines[part]

    def _milder(self, each: Exercise) -> tuple[str, tuple[str, ...], str, tuple[str, ...]]:
        level = self.catalogue.policy.words
        question = (
            f"Do without {self._called(each)}: name a pigment of like hue that stands at a milder level."
        )
        own = level(self._safety(each).dry["bench"].level).name
        way = tuple(
            f"{self._name(other)}: {level(self.derived.pigments[other].safety.dry['bench'].level).name},"
            f" where {self._called(each)} stands at {own}."
            for other in each.milder
        )
        return question, (), f"{' or '.join(self._name(other) for other in each.milder)}.", way


def _given(working: Working) -> dict[str, str]:
    return {each.name: input_text(each) for each in working.inputs if each.value is not None}


def _few(value: float) -> str:
    return f"{value:.2g}" if value < 100 else f"{value:.0f}"


def _result(working: Working) -> str:
    return range_text(working.result, working.unit, 3) if working.result else str(working.not_derivable)


def _way(working: Working) -> tuple[str, ...]:
    """The way to a number: what it says, the figures put in, what was taken, whose figures they are."""
    taken = tuple(f"Taken: {sentence(each)}" for each in working.assumptions if " taken as " not in each)
    figures = tuple(
        f"{sentence(said(each.name)).removesuffix('.')} {input_text(each)}: {each.note}."
        for each in working.inputs
        if each.note and each.note != BY_DEFAULT and each.value is not None
    )
    return (working.statement, working.steps, *figures, *taken)
