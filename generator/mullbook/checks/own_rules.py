"""The rules of a studio held against the book: names lead somewhere, nothing is milder, colours read."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping

from mullbook.checks.days import day_of
from mullbook.checks.studio import CONTRAST, MILDER_RULE, NOT_OF_THE_STUDIO, PRIVATE
from mullbook.checks.style import TAG
from mullbook.model.catalogue import Catalogue
from mullbook.model.studio import LevelRule, Studio
from mullbook.science.contrast import STRICT, TEXT, contrast
from mullbook.text.problem import Place, Problem, mistake
from mullbook.text.suggest import nearest
from mullbook.text.yaml_text import Document, Pointer

INK, SOFT, SHEET, PAPER = "#1d1b18", "#575046", "#fdfbf6", "#f3efe7"
"""Colours of the pages that a studio's own stand beside."""
A_YEAR = 366
DAYS = ("issued", "review_by")


def studio_problems(
    document: Document, studio: Studio, catalogue: Catalogue, levels: Mapping[str, str]
) -> Iterator[Problem]:
    """Everything wrong with studio.yaml beyond its shape.

    Parameters: `document` and the `studio` read from it; `catalogue`, the book; `levels`, the level of each
    pigment's dry powder up to the smallest amount, by the book alone.
    """
    yield from _plain_text(document)
    yield from _same_rooms(document, studio)
    yield from _days(document, studio)
    for index, rule in enumerate(studio.policy.levels):
        yield from _rule(
            document, ("policy", "levels", index), rule, studio=studio, catalogue=catalogue, levels=levels
        )
    yield from _caps(document, studio, catalogue)
    yield from _amounts(document, studio, catalogue)
    yield from _look(document, studio)


def _plain_text(document: Document) -> Iterator[Problem]:
    for pointer, value in document.values:
        if isinstance(value, str) and TAG.search(value):
            hint = "these are plain words; the pages put the form to them"
            yield mistake("MB901", "this text holds HTML or a script", document.place(pointer), hint)


def _same_rooms(document: Document, studio: Studio) -> Iterator[Problem]:
    seen: dict[str, int] = {}
    for index, room in enumerate(studio.rooms):
        for name in {room.id, room.name.casefold()}:
            first = seen.setdefault(name, index)
            if first != index:
                place = document.place(("rooms", index, "id"))
                related = (document.place(("rooms", first, "id")),)
                message = f"two rooms go under the name {name}"
                yield mistake(
                    NOT_OF_THE_STUDIO, message, place, "each room has one of its own", related=related
                )


def _days(document: Document, studio: Studio) -> Iterator[Problem]:
    given = {day: getattr(studio, day) for day in DAYS if getattr(studio, day) is not None}
    read = {day: day_of(text) for day, text in given.items()}
    for day, found in read.items():
        if found is None:
            message = f"there is no day {given[day]} in the calendar"
            yield mistake("MB707", message, document.place((day,)), "look at the day and the month")
    issued, due = read.get("issued"), read.get("review_by")
    if issued and due and not 0 < (due - issued).days <= A_YEAR:
        message = f"the review is due on {due}, which is not within a year after {issued}"
        yield mistake("MB703", message, document.place(("review_by",)), "look at the edition once a year")


def _rule(
    document: Document,
    at: Pointer,
    rule: LevelRule,
    *,
    studio: Studio,
    catalogue: Catalogue,
    levels: Mapping[str, str],
) -> Iterator[Problem]:
    rooms = [each.id for each in studio.rooms]
    families = {each.family for each in catalogue.pigments}
    for key, names, known in (
        ("pigments", rule.pigments, catalogue.pigment),
        ("rooms", rule.rooms, rooms),
        ("families", rule.families, families),
    ):
        for index, name in enumerate(names):
            if name not in known:
                yield _no_such(document.place((*at, key, index)), key, name, known)
    policy = catalogue.policy
    for index, pigment in enumerate(rule.pigments):
        level = levels.get(pigment)
        if level is not None and policy.rank(rule.at_least) < policy.rank(level) and not rule.rooms:
            name, own, asked = catalogue.pigment[pigment].name, policy.words(level).name, rule.at_least
            message = (
                f"the book already asks {own} for {name}, which is stricter than {policy.words(asked).name}"
            )
            hint = "a rule of a studio can only tighten: take the pigment out of it, or ask for more"
            yield mistake(MILDER_RULE, message, document.place((*at, "pigments", index)), hint)


def _no_such(place: Place, key: str, name: str, known: Iterable[str]) -> Problem:
    close = nearest(name, known)
    what = {"families": "family"}.get(key, key.removesuffix("s"))
    hint = f"did you mean {' or '.join(close)}?" if close else None
    return mistake(NOT_OF_THE_STUDIO, f"there is no {what} called {name}", place, hint)


def _caps(document: Document, studio: Studio, catalogue: Catalogue) -> Iterator[Problem]:
    caps, dust = studio.policy.dust_caps, catalogue.policy.unlisted_dust
    if caps is None:
        return
    for fraction, own, book in (
        ("inhalable", caps.inhalable, dust.inhalable),
        ("respirable", caps.respirable, dust.respirable),
    ):
        if own is not None and own > book:
            message = f"the book's threshold for {fraction} dust is {book:g} mg/m³; {own:g} would be milder"
            place = document.place(("policy", "dust_caps", fraction))
            yield mistake(MILDER_RULE, message, place, "a cap of a studio can only be lower")


def _amounts(document: Document, studio: Studio, catalogue: Catalogue) -> Iterator[Problem]:
    caps = studio.policy.amounts
    if caps is None:
        return
    book = {each.id: each.most for each in catalogue.policy.amounts}
    for amount, own in (("bench", caps.bench), ("batch", caps.batch)):
        most = book.get(amount)
        if own is not None and most is not None and own > most:
            message = f"the book's {amount} amount ends at {most:g} g; {own:g} g would be milder"
            place = document.place(("policy", "amounts", amount))
            yield mistake(MILDER_RULE, message, place, "an amount of a studio can only be smaller")
    bench, batch = caps.bench or book.get("bench"), caps.batch or book.get("batch")
    if bench is not None and batch is not None and bench > batch:
        message = f"a bench amount of {bench:g} g is more than a batch of {batch:g} g"
        hint = "a batch is at least as much as a bench amount"
        yield mistake(MILDER_RULE, message, document.place(("policy", "amounts")), hint)


def _look(document: Document, studio: Studio) -> Iterator[Problem]:
    accent, paper = studio.look.accent, studio.look.paper
    pairs = []
    if accent is not None:
        grounds = (("the page", paper or PAPER), ("the sheet", SHEET))
        pairs += [("accent", accent, what, ground, TEXT) for what, ground in grounds]
    if paper is not None:
        pairs += [("paper", paper, "the ink", INK, STRICT), ("paper", paper, "pale words", SOFT, TEXT)]
    for key, colour, what, other, least in pairs:
        found = contrast(colour, other)
        if found < least:
            message = (
                f"{key} {colour} against {what} has a contrast of {found:.1f}, where {least:g} is the least"
            )
            hint = "choose a darker accent" if key == "accent" else "choose a paler paper"
            yield mistake(CONTRAST, message, document.place(("look", key)), hint)


def private_words(studio: Studio) -> re.Pattern[str] | None:
    """What finds the words that may stand on no page, or None where there are none."""
    words = sorted(studio.secrets, key=len, reverse=True)
    if not words:
        return None
    return re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, words)) + r")(?!\w)", re.IGNORECASE)


def private_in(document: Document, pattern: re.Pattern[str], hidden: Iterable[str]) -> Iterator[Problem]:
    """A problem for each text of an entry that names something private, where pages would show it.

    Parameters: `document`, an entry; `pattern` of the private words; `hidden`, texts that pages leave out.
    """
    left_out = set(hidden)
    for pointer, value in document.values:
        if isinstance(value, str) and value not in left_out and pattern.search(value):
            yield _private(document.place(pointer))


def _private(place: Place) -> Problem:
    hint = "pages show this text: say it without the name, or take the name out of the private ones"
    return mistake(PRIVATE, "this text holds a word that studio.yaml keeps private", place, hint)


def private_in_studio(document: Document, pattern: re.Pattern[str], shown: Studio) -> Iterator[Problem]:
    """The same for what pages show of studio.yaml. Parameters: `shown`, the studio as pages have it."""
    keys: list[Pointer] = [("name",), ("short_name",), ("about",), ("edition",), ("answers_for_it",)]
    keys += [("house_rules", index) for index, _ in enumerate(shown.house_rules)]
    keys += [("policy", "levels", index, "because") for index, _ in enumerate(shown.policy.levels)]
    for pointer in keys:
        value = _at(document.data, pointer)
        if isinstance(value, str) and pattern.search(value):
            yield _private(document.place(pointer))
    for index, room in enumerate((document.data or {}).get("rooms", ())):
        if not room.get("private"):
            for key in ("name", "note"):
                if isinstance(room.get(key), str) and pattern.search(room[key]):
                    yield _private(document.place(("rooms", index, key)))


def _at(data: object, pointer: Pointer) -> object:
    for step in pointer:
        if isinstance(data, dict):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data
