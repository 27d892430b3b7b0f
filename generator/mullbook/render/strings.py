"""What stands on paper, sentence by sentence, in one language: nothing falls back to another unseen."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from mullbook.model.catalogue import Catalogue
from mullbook.render.words import sentence

SLOT = re.compile(r"\{([a-z]+)\}")
NUMBER = re.compile(r"(?<=\d)\.(?=\d)")
NAMED = (
    "levels",
    "actions",
    "waste",
    "persons",
    "places",
    "fractions",
    "elements",
    "situations",
    "hues",
    "families",
    "statements",
    "reasons",
    "sentences",
)
"""Sections whose English is what the program itself says; in that order, where two say the same."""
NAMES = tuple(f"{each}." for each in NAMED[:-1])
FREE = ("value", "driver", "said")
"""Slots that hold a number, an entry's name or a studio's own words; all others the program says itself."""
ENGLISH = "en"
MARK = "[en]"
WORDY_UNIT = "units.g/100g"
"""The unit with a word in it."""


@dataclass(frozen=True)
class Strings:
    """The words of one language.

    `texts` holds them by `section.key`; `english` is what a missing one falls back to, marked, and None for
    English as it is written. `lacking` collects the keys that were asked for and missing.
    """

    language: str
    name: str
    texts: Mapping[str, str]
    english: Strings | None = None
    lacking: dict[str, None] = field(default_factory=dict)

    @property
    def foreign(self) -> bool:
        """Whether this is another language than that of the entries."""
        return self.language != ENGLISH

    def with_comma(self) -> Strings:
        """The same with a decimal comma, for those who write one in English too."""
        texts = {**self.texts, "common.decimal-mark": ","}
        return replace(self, texts=texts, english=self.english or self, lacking={})

    def say(self, key: str, **values: str) -> str:
        """The words behind a key with the values put in; English, marked and remembered, where it is missing.

        Raises `KeyError` for a key that English does not have either: that is a fault of the program.

        >>> Strings("en", "English", {"common.checked": "checked {date}"}).say("common.checked", date="2026")
        'checked 2026'
        """
        text = self.texts.get(key)
        if text is not None:
            return filled(text, values)
        if self.english is None:
            raise KeyError(key)
        self.lacking[key] = None
        return f"{self.english.say(key, **values)} {MARK}"

    def statement(self, code: str) -> str:
        """The text of a hazard or precautionary statement; nothing where no ruleset has it."""
        key = f"statements.{code}"
        return self.say(key) if self.knows(key) else ""

    def knows(self, key: str) -> bool:
        """Whether English has the key, so that it can be said."""
        return key in (self.english or self).texts

    def figure(self, text: str) -> str:
        """A printed number with the decimal mark and the units of the language."""
        mark = self.texts.get("common.decimal-mark", ".")
        text = text if mark == "." else NUMBER.sub(mark, text)
        own = self.texts.get(WORDY_UNIT)
        return text.replace(self.english.texts[WORDY_UNIT], own) if self.english and own else text

    def retell(self, text: str) -> str:
        """A sentence that the program says in English, told in this language.

        What no key knows comes from an entry: it stays as it is, with a mark behind it.
        """
        if self.english is None or not text:
            return text
        told = self._told(text)
        if told is None:
            return f"{text} {MARK}" if self.foreign else text
        return told

    def sentence(self, text: str) -> str:
        """The same as a whole sentence: its mark stays the last of it."""
        told = self.retell(text)
        return f"{sentence(text)} {MARK}" if told.endswith(MARK) else sentence(told)

    def term(self, text: str) -> str:
        """A name inside a sentence: told in this language where it is one of the program's, else kept."""
        if self.english is None:
            return text
        told = self._term(text)
        return self.figure(text) if told is None else told

    def _term(self, text: str) -> str | None:
        told = self._told(text)
        if told is None and ", " in text:
            parts = [self._told(each) for each in text.split(", ")]
            told = ", ".join(each for each in parts if each) if all(parts) else None
        return told

    def _told(self, text: str) -> str | None:
        """The sentence in this language, or None: it is the program's only where all its parts are."""
        assert self.english is not None
        key = self.english.keys_by_text.get(text)
        if key is not None:
            return self.say(key)
        for key, pattern in self.english.patterns:
            found = pattern.fullmatch(text)
            values = self._parts(found.groupdict()) if found else None
            if values is not None:
                return self.say(key, **values)
        return None

    def _parts(self, found: Mapping[str, str]) -> dict[str, str] | None:
        """The parts of a sentence in this language; None where one of them is not the program's."""
        parts = {
            slot: self.figure(value) if slot in FREE else self._term(value) for slot, value in found.items()
        }
        return (
            {slot: part for slot, part in parts.items() if part is not None}
            if None not in parts.values()
            else None
        )

    @cached_property
    def keys_by_text(self) -> dict[str, str]:
        """What the program says to the key it stands under."""
        found: dict[str, str] = {}
        for section in NAMED:
            for key, text in self.texts.items():
                if key.startswith(f"{section}.") and not SLOT.search(text):
                    found.setdefault(text, key)
        return found

    @cached_property
    def patterns(self) -> list[tuple[str, re.Pattern[str]]]:
        """Sentences with slots as patterns, those with most words of their own first."""
        held = [
            (key, text)
            for key, text in self.texts.items()
            if key.startswith("reasons.") and SLOT.search(text)
        ]
        held.sort(key=lambda pair: (-len(SLOT.sub("", pair[1])), pair[0]))
        return [(key, _pattern(text)) for key, text in held]


def filled(text: str, values: Mapping[str, str]) -> str:
    """Words with their slots filled; a slot nobody fills stays visible.

    >>> filled("limit {value} ({place})", {"value": "0.1"})
    'limit 0.1 ({place})'
    """
    return SLOT.sub(lambda found: values.get(found[1], found[0]), text)


def _pattern(text: str) -> re.Pattern[str]:
    """A sentence as a pattern; a name takes as much as it can, so that its own brackets stay with it."""
    parts = SLOT.split(text)
    return re.compile(
        "".join(
            f"(?P<{part}>.+{'' if part in FREE else '?'})" if at % 2 else re.escape(part)
            for at, part in enumerate(parts)
        )
    )


def english(own: Mapping[str, str], catalogue: Catalogue) -> Strings:
    """The English strings: those of the file, and the sections it leaves to the rulesets."""
    named = {**own, **dict(ruleset_texts(catalogue))}
    held = {text for key, text in named.items() if key.startswith(NAMES)}
    sentences = {f"sentences.{each}": each for each in _sentences(catalogue) if each not in held}
    return Strings(ENGLISH, "English", {**named, **sentences})


def ruleset_texts(catalogue: Catalogue) -> Iterator[tuple[str, str]]:
    """Names and statements of the rulesets by key."""
    policy = catalogue.policy
    lists = catalogue.vocabulary("lists")
    for code, text in _statements(catalogue).items():
        yield f"statements.{code}", text
    for each in policy.levels:
        yield f"levels.{each.id}", each.name
    for section, words in (("actions", policy.actions), ("waste", policy.waste)):
        for name, held in words.items():
            yield f"{section}.{name}", held.name
    for person in policy.persons:
        yield f"persons.{person.id}", person.name
    for place in lists.items if lists else ():
        if not place.means:
            yield f"places.{place.id}", place.name


def _statements(catalogue: Catalogue) -> dict[str, str]:
    texts: dict[str, str] = {}
    for table in (catalogue.classification, catalogue.label_rules, *catalogue.classifications):
        for each in table.statements:
            texts.setdefault(each.code, each.text)
    return texts


def _sentences(catalogue: Catalogue) -> Iterator[str]:
    """Longer sentences; each is its own key, so that one that was changed is missed elsewhere."""
    policy, advice = catalogue.policy, catalogue.advice
    yield from (each.means for each in policy.levels)
    for words in (policy.actions, policy.waste):
        yield from (each.means for each in words.values())
    yield from (each.because for each in policy.persons)
    yield from (each.because for each in policy.at_least)
    yield from (each.because for each in policy.heating if each.because)
    for steps in policy.before_opening.values():
        yield from steps
    for each in policy.before_opening_for:
        yield from each.steps
    yield from policy.before_opening_product
    yield from (each.text for each in catalogue.classification.first_aid)
    yield from advice.label_lines if advice else ()
    yield from (each.edition for each in (catalogue.classification, *catalogue.classifications))


def missing(strings: Strings) -> list[str]:
    """Every key of English that a language does not have."""
    known = strings.english.texts if strings.english else {}
    return [key for key in known if key not in strings.texts]


def unknown(strings: Strings) -> list[str]:
    """Keys of a language that English has not, or no longer."""
    known = strings.english.texts if strings.english else strings.texts
    return [key for key in strings.texts if key not in known]


def misfilled(strings: Strings) -> list[tuple[str, list[str]]]:
    """Keys whose slots are not those of English, with the slots that English has."""
    known = strings.english.texts if strings.english else {}
    return [
        (key, SLOT.findall(known[key]))
        for key, text in strings.texts.items()
        if key in known and sorted(SLOT.findall(text)) != sorted(SLOT.findall(known[key]))
    ]
