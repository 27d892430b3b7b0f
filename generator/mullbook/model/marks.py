"""Marks inside a sentence: `{batch}` stands for a figure, `[PVC]` or `[words|PVC]` for a glossary term."""

from __future__ import annotations

import re
from dataclasses import dataclass

MARK = re.compile(r"\{(?P<figure>[^{}]*)\}|\[(?:(?P<shown>[^\[\]|]*)\|)?(?P<term>[^\[\]|]*)\]")


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of plain words, or one mark with the words it shows."""

    words: str
    figure: str | None = None
    term: str | None = None


def pieces(text: str) -> tuple[Piece, ...]:
    """A sentence cut at its marks.

    Parameters: `text`, a statement as its entry has it. Returns its pieces in order.

    >>> [each.figure or each.term or each.words for each in pieces("Aim at {pvc} of [full|CPVC].")]
    ['Aim at ', 'pvc', ' of ', 'CPVC', '.']
    """
    found: list[Piece] = []
    start = 0
    for mark in MARK.finditer(text):
        if mark.start() > start:
            found.append(Piece(text[start : mark.start()]))
        if mark["figure"] is not None:
            found.append(Piece("", figure=mark["figure"]))
        else:
            found.append(Piece(mark["shown"] or mark["term"], term=mark["term"]))
        start = mark.end()
    if start < len(text):
        found.append(Piece(text[start:]))
    return tuple(found)


def plain(text: str, figure: str = "0") -> str:
    """A sentence without marks, as it is read; each figure reads as the words given for it.

    >>> plain("Aim at {pvc} of the [critical volume|CPVC].", "5 %")
    'Aim at 5 % of the critical volume.'
    """
    return "".join(figure if each.figure is not None else each.words for each in pieces(text))
