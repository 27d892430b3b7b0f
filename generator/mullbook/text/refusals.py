"""What this catalogue's YAML does without, in words: one entry for each way a file can be refused."""

from __future__ import annotations

from typing import NamedTuple

from mullbook.text.problem import Place, Problem, Span, mistake, quoted


class Refusal(NamedTuple):
    """A code and its words; {} stands for the text found."""

    code: str
    message: str
    hint: str
    example: str | None = None


REFUSALS = {
    "twice": Refusal("MB107", "the key {} stands twice here", "keep one; further values go into a list"),
    "alias": Refusal(
        "MB108",
        "{} refers to another place in the file, which entries do not use",
        "write the value out; text that begins with * goes into quotes",
    ),
    "anchor": Refusal(
        "MB108",
        "{} marks a place to refer to, which entries do not use",
        "delete it; text that begins with & goes into quotes",
    ),
    "merge": Refusal(
        "MB109", "<< copies keys from elsewhere, which entries do not use", "write the keys out"
    ),
    "tag": Refusal(
        "MB110",
        "a word that begins with ! states a type, which entries do not use",
        "delete it; text that begins with an exclamation mark goes into quotes",
    ),
    "directive": Refusal("MB110", "a line that begins with % is not used in entries", "delete the line"),
    "not-finite": Refusal(
        "MB111",
        "{} is not a number that can be used",
        "leave the key out if the value is not known; text goes into quotes",
    ),
    "too-large": Refusal(
        "MB112",
        "the number {} is too large or too small to be kept exactly",
        "put it in quotes if it is a name and not an amount",
    ),
    "too-deep": Refusal(
        "MB113",
        "values are nested more than {} deep",
        "close the brackets, or look for lines that are indented too far",
    ),
    "empty": Refusal("MB114", "the file is empty", "write it, or delete the file", "id: caput-mortuum"),
    "second": Refusal("MB115", "a second document begins here", "one entry to a file; delete the line ---"),
    "no-mapping": Refusal(
        "MB116",
        "the file is not a list of keys with their values",
        "write lines such as `id:` and `name:` at the left edge",
        "id: caput-mortuum",
    ),
    "key-group": Refusal("MB117", "a key is a word, not a list or a group", "check the brackets and braces"),
    "key-empty": Refusal("MB117", "no key stands before the colon", "write the key", "hue: red"),
    "key-typed": Refusal("MB117", "the key {} is not a word", "put it in quotes if it really is a key"),
    "too-many": Refusal("MB118", "reading stops here, after {} problems", "put these right first"),
}


def refusal(name: str, path: str, span: Span, found: object = "", related: tuple[Place, ...] = ()) -> Problem:
    """The problem for one of `REFUSALS`; `found` is the text or number that the message names."""
    code, message, hint, example = REFUSALS[name]
    shown = str(found) if isinstance(found, int) else quoted(found)
    return mistake(code, message.format(shown), Place(path, span), hint, example=example, related=related)
