"""The words of a language, read from its file and held against English."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from mullbook.checks.input_rules import NOT_FOUND, WORDS_DIFFER, WORDS_LACKING
from mullbook.checks.schema import check_shape, load_schemas
from mullbook.model.catalogue import Catalogue
from mullbook.render.strings import ENGLISH, Strings, english, misfilled, missing, unknown
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.text.yaml_text import Document, read_file
from mullbook.workflow.folders import ENDING, Roots
from mullbook.workflow.swap import Refused

MOST_SHOWN = 3
"""Keys named in one report; `mullbook words` lists all of them."""


def folder_of(roots: Roots) -> Path:
    """Where the languages are kept."""
    return roots.templates / "strings"


def languages(roots: Roots) -> list[str]:
    """Codes of the languages there are."""
    return sorted(path.stem for path in folder_of(roots).glob(f"*{ENDING}"))


def strings_of(language: str, catalogue: Catalogue, roots: Roots) -> Strings:
    """The words of a language. Raises `Refused` for one nobody wrote, or whose file is not well formed."""
    language = language.strip()
    known = languages(roots)
    if language not in known:
        raise Refused(_no_language(language, known))
    own = english(_texts(_read(ENGLISH, roots)), catalogue)
    if language == ENGLISH:
        return own
    document = _read(language, roots)
    made = Strings(language, str((document.data or {})["name"]), _texts(document), own)
    wrong = list(_misfilled(document, made))
    if wrong:
        raise Refused(*wrong, texts={document.path: document.text})
    return made


def _no_language(language: str, known: list[str]) -> Problem:
    close = nearest(language, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else f"There are {', '.join(known)}."
    return Problem(NOT_FOUND, "error", f"There are no words in {language}.", Place("command line"), hint)


def _read(language: str, roots: Roots) -> Document:
    document = read_file(folder_of(roots) / f"{language}{ENDING}")
    problems = [*document.problems, *check_shape(document, "strings", load_schemas(roots.schema))]
    if document.data is None or any(each.severity == "error" for each in problems):
        raise Refused(*problems, texts={document.path: document.text})
    return document


def _texts(document: Document) -> dict[str, str]:
    held: Mapping[str, object] = document.data or {}
    return {
        f"{section}.{key}": str(text)
        for section, texts in held.items()
        if section != "from" and isinstance(texts, dict)
        for key, text in texts.items()
    }


def _misfilled(document: Document, made: Strings) -> Iterator[Problem]:
    """Words whose slots are not the English ones: a figure would be lost on paper."""
    for key, slots in misfilled(made):
        section, _, name = key.partition(".")
        wanted = " and ".join(f"{{{each}}}" for each in slots) or "no braces"
        message = f"`{name}` must hold {wanted}, as the English does."
        yield Problem(WORDS_DIFFER, "error", message, document.place((section, name)))


def words_report(strings: Strings) -> str:
    """What a language still lacks, as lines to fill in."""
    lacking, needless = missing(strings), unknown(strings)
    lines: list[str] = []
    for section in dict.fromkeys(key.partition(".")[0] for key in lacking):
        lines.append(f"{section}:")
        held = [key for key in lacking if key.startswith(f"{section}.")]
        lines += [f"  {_key(key.partition('.')[2])}: {_quoted(_english(strings, key))}" for key in held]
    lines += [f"# not used, or no longer: {key}" for key in needless]
    return "\n".join(lines or [f"# {strings.name} has all {len(strings.texts)} sentences."])


def _english(made: Strings, key: str) -> str:
    assert made.english is not None
    return made.english.texts[key]


def _key(name: str) -> str:
    return name if name.replace("-", "").isalnum() and not name[0].isdigit() else _quoted(name)


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def lacking_problem(strings: Strings, keys: Iterable[str], roots: Roots) -> Problem | None:
    """A warning for words that a language has none for, printed in English and marked; None where all are."""
    lacking = list(keys)
    if not lacking:
        return None
    named = ", ".join(lacking[:MOST_SHOWN]) + (", ..." if len(lacking) > MOST_SHOWN else "")
    stand = "sentence stands" if len(lacking) == 1 else "sentences stand"
    message = f"{len(lacking)} {stand} on paper in English, marked [en]: {named}."
    place = Place(str(folder_of(roots) / f"{strings.language}{ENDING}"))
    hint = f"`mullbook words {strings.language}` lists what is missing, ready to be filled in."
    return Problem(WORDS_LACKING, "warning", message, place, hint)
