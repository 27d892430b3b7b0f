"""Questions about a found stone as they are written on the command line: read, judged, told."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterable, Iterator, Mapping

from mullbook.checks.input_rules import BAD_INPUT, NOT_FOUND
from mullbook.derive.stone import judge
from mullbook.derive.stone_results import Density, Observations, StoneTable
from mullbook.derive.stone_table import stone_table
from mullbook.model.catalogue import Catalogue
from mullbook.model.stones import StoneCheck, StoneTest, StoneValue
from mullbook.render.stone_text import stone_json, stone_text
from mullbook.science.powder import hydrostatic_density
from mullbook.science.stone import weighing_uncertainty
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import fold, nearest
from mullbook.workflow.swap import Refused

EXAMPLE = "mullbook stone streak=yellow hardness=nail air=52.3 water=38.1 acid=none magnet=no"
NUMBER = re.compile(r"(?:(?:about|c\.|~)\s*)?([+-]?\d+(?:[.,]\d*)?|[.,]\d+)\s*([a-zµ°/³0-9]*)", re.IGNORECASE)
PARTED = re.compile(r"\.\.+|\bto\b|(?<=\d)\s*[-–]\s*(?=[\d.,])")
WEIGHINGS: dict[str, tuple[str, ...]] = {
    "air": ("mass_in_air", "in_air", "dry", "weight_in_air"),
    "water": ("mass_in_water", "in_water", "hung", "weight_in_water"),
    "temperature": ("t", "temp", "water_temperature"),
    "balance": ("readability", "error", "mass_error", "scale"),
}
"""What is written of a weighing in water, with further names for each."""
DEFAULTS = {"temperature": 20.0, "balance": 0.1}
ROOT_3 = math.sqrt(3)


def stone_answer(catalogue: Catalogue, pairs: Iterable[str], *, as_json: bool) -> str:
    """What a stone may be and hold. Raises `Refused` with every problem of the question."""
    table = stone_table(catalogue)
    if table is None:
        raise Refused(_problem(NOT_FOUND, "This catalogue has no stone check.", "entries/rulesets holds it."))
    result = judge(table, read(table, pairs))
    if as_json:
        return json.dumps(stone_json(table.check, result), ensure_ascii=False, indent=2)
    return stone_text(table.check, result)


def read(table: StoneTable, pairs: Iterable[str]) -> Observations:
    """Read `name=value` pairs as observations, forgiving spelling, commas and units.

    Raises `Refused` with one problem for each pair that cannot be read.
    """
    problems: list[Problem] = []
    given: dict[str, str] = {}
    for pair in pairs:
        try:
            name, text = _pair(table.check, pair)
            if name in given:
                raise _Wrong(f"{name} is given twice: {given[name]} and {text}.")
            given[name] = text
        except _Wrong as wrong:
            problems.append(wrong.problem)
    answers: dict[str, str] = {}
    for test in table.check.tests:
        if test.kind != "number" and test.id in given:
            try:
                answers[test.id] = _answer(test, given[test.id])
            except _Wrong as wrong:
                problems.append(wrong.problem)
    try:
        density, notes = _density(table.check, given)
    except _Wrong as wrong:
        raise Refused(*problems, wrong.problem) from None
    if problems:
        raise Refused(*problems)
    return Observations(answers=answers, density=density, notes=notes)


class _Wrong(Exception):
    def __init__(self, message: str, hint: str | None = None, code: str = BAD_INPUT) -> None:
        super().__init__(message)
        self.problem = _problem(code, message, hint)


def _problem(code: str, message: str, hint: str | None = None) -> Problem:
    return Problem(code, "error", message, Place("command line"), hint=hint, example=EXAMPLE)


def _names(check: StoneCheck) -> dict[str, str]:
    """Every folded name of a test or weighing, with the id it stands for."""
    names = {fold(word): test.id for test in check.tests for word in (*test.also, test.name)}
    names |= {fold(word): name for name, words in WEIGHINGS.items() for word in words}
    # What is an id is never taken for another's second name.
    return {**names, **{fold(test.id): test.id for test in check.tests}, **{name: name for name in WEIGHINGS}}


def _pair(check: StoneCheck, pair: str) -> tuple[str, str]:
    name, equals, text = pair.partition("=")
    if not equals or not text.strip() or not name.strip():
        raise _Wrong(f"{pair!r} is not written as name=value.")
    names = _names(check)
    found = names.get(fold(name.strip()))
    if found is None:
        close = list(dict.fromkeys(names[each] for each in nearest(name.strip(), names)))
        asked = ", ".join((*(each.id for each in check.tests), *WEIGHINGS))
        hint = f"Did you mean {' or '.join(close)}?" if close else f"What can be told: {asked}."
        raise _Wrong(f"Nothing called {name.strip()} is asked of a stone.", hint, NOT_FOUND)
    return found, text.strip()


def _words(value: StoneValue) -> Iterator[str]:
    yield from (value.id, value.name, *value.also)


def _answer(test: StoneTest, text: str) -> str:
    words = {fold(word): each.id for each in reversed(test.values) for word in _words(each)}
    words |= {fold(each.id): each.id for each in test.values}
    if fold(text) in words:
        return words[fold(text)]
    numbered = [each for each in test.values if each.at_least is not None or each.below is not None]
    if numbered and NUMBER.match(text.strip()):
        return _by_number(test, numbered, text)
    close = list(dict.fromkeys(words[each] for each in nearest(text, words)))
    hint = f"Did you mean {' or '.join(close)}? " if close else ""
    raise _Wrong(
        f"{test.name} takes none called {text}.", f"{hint}It takes: {', '.join(test.ids)}.", NOT_FOUND
    )


def _by_number(test: StoneTest, values: Iterable[StoneValue], text: str) -> str:
    low, high = _range(test.name, text)
    held = [
        each
        for each in values
        if (each.at_least is None or high >= each.at_least) and (each.below is None or low < each.below)
    ]
    if len(held) != 1:
        names = ", ".join(each.id for each in held)
        raise _Wrong(f"{test.name} {text} lies in more than one step: {names}.", "Name the one it is.")
    return held[0].id


def _range(name: str, text: str) -> tuple[float, float]:
    found = [NUMBER.fullmatch(part.strip()) for part in PARTED.split(text.strip())]
    if not 1 <= len(found) <= 2 or any(each is None for each in found):
        raise _Wrong(f"{name} takes a number or a range, such as 3.4..3.6; {text} is neither.")
    numbers = [float(each[1].replace(",", ".")) for each in found if each is not None]
    if numbers[0] > numbers[-1]:
        raise _Wrong(f"{name} {text} runs backwards.", "Write the smaller number first.")
    return numbers[0], numbers[-1]


def _density(check: StoneCheck, given: Mapping[str, str]) -> tuple[Density | None, tuple[str, ...]]:
    test = next((each for each in check.tests if each.kind == "number"), None)
    if test is None:
        return None, ()
    stated = _stated(test, given[test.id]) if test.id in given else None
    weighed = _weighed(given)
    for each in (stated, weighed):
        if each is not None and not test.lowest <= each.value <= test.highest:
            raise _Wrong(
                f"A density of {each.value:.3g} g/cm³ is not one of a stone.",
                f"Between {test.lowest:g} and {test.highest:g} is what is looked for.",
            )
    if weighed is None or stated is None:
        return weighed or stated, ()
    apart = abs(weighed.value - stated.value) > 2 * math.hypot(weighed.uncertainty, stated.uncertainty)
    told = "they do not agree, weigh again" if apart else "they agree"
    return weighed, (f"The density stated beside the weighing is not counted a second time; {told}.",)


def _stated(test: StoneTest, text: str) -> Density:
    low, high = _range(test.name, text)
    if low < high:
        return Density(value=(low + high) / 2, uncertainty=(high - low) / 2 / ROOT_3, told="as stated")
    decimals = len(re.split(r"[.,]", text)[1]) if re.search(r"[.,]\d", text) else 0
    off = 0.5 * 10.0 ** -min(decimals, 2)
    return Density(value=low, uncertainty=off / ROOT_3, told="as stated, rounded as written")


def _weighed(given: Mapping[str, str]) -> Density | None:
    if "air" not in given and "water" not in given:
        return None
    for name, other in (("air", "water"), ("water", "air")):
        if name not in given:
            raise _Wrong(f"A weighing needs both: {name}= is missing beside {other}=.")
    values = dict(DEFAULTS)
    for name in WEIGHINGS:
        if name in given:
            low, high = _range(name, given[name])
            values[name] = (low + high) / 2
    if values["balance"] <= 0:
        raise _Wrong("balance= is how far one reading may be off, above 0 g.")
    try:
        weighing = values["air"], values["water"], values["temperature"]
        value = hydrostatic_density(*weighing)
        off = weighing_uncertainty(*weighing, values["balance"])
    except ValueError as error:
        raise _Wrong(f"The weighing cannot be: {error}.") from None
    return Density(value=value, uncertainty=off, told="weighed in air and in water")
