"""How hard a text is to read, by the Flesch-Kincaid grade level.

`0.39 x words per sentence + 11.8 x syllables per word - 15.59`, the form in which the formula is printed in
public (J. P. Kincaid and others for the US Navy, 1975). Syllables are counted as groups of vowels, a silent
e left out; that is a rule of thumb and may be off by one in a word.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

WORD = re.compile(r"[A-Za-z0-9][A-Za-z0-9'’.,%°/-]*")


def sentences(text: str) -> list[str]:
    """The sentences of a text, cut at full stops, question and exclamation marks.

    >>> sentences("Stir it. Wait 2.5 min; look again.")
    ['Stir it.', 'Wait 2.5 min; look again.']
    """
    return [each for each in re.split(r"(?<=[.!?])\s+", text.strip()) if WORD.search(each)]


def syllables(word: str) -> int:
    """Syllables of a word, at least one.

    >>> [syllables(each) for each in ("stir", "binder", "pigment", "levigation", "rinse", "table", "20")]
    [1, 2, 2, 4, 1, 2, 1]
    """
    letters = re.sub(r"[^a-z]", "", word.lower())
    count = len(re.findall(r"[aeiouy]+", letters))
    if count > 1 and re.search(r"[^l]e$", letters):
        count -= 1
    if count > 1 and re.search(r"[^td]ed$", letters):
        count -= 1
    return max(count, 1)


def grade(held: Iterable[str]) -> float:
    """The Flesch-Kincaid grade of some sentences; a school year, so that 10 is about sixteen years of age.

    >>> round(grade(["The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."]), 1)
    11.3
    """
    texts = list(held)
    words = [word for text in texts for word in WORD.findall(text)]
    return 0.39 * len(words) / len(texts) + 11.8 * sum(map(syllables, words)) / len(words) - 15.59
