"""The same answers for a terminal: a card, a working."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance
from mullbook.model.values import Input, Range, Working
from mullbook.render.card import Card, State, pigment_card, product_card
from mullbook.render.words import BASIS_WORDS, exact, quantity_text, range_text, said


def working_text(working: Working) -> str:
    """A working in lines: the result, what it means, how it was reached, from what."""
    return "\n".join(_working_lines(working))


def _working_lines(working: Working) -> Iterator[str]:
    if working.result is None:
        yield f"{working.title}: {working.not_derivable}"
    else:
        yield f"{working.title}: {range_text(working.result, working.unit, 4)}"
    if working.reading:
        yield f"  {working.reading}"
    yield f"  {working.statement}"
    if working.steps:
        yield f"  {working.steps}"
    for each in working.inputs:
        if each.value is not None:
            yield f"  {said(each.name)}: {input_text(each)}"
    for assumption in working.assumptions:
        yield f"  taken: {assumption}"
    yield f"  source: {working.source}"


def input_text(given: Input) -> str:
    """The value of an input with its unit."""
    if isinstance(given.value, Range):
        return range_text(given.value, given.unit, 4)
    if isinstance(given.value, tuple):
        return ", ".join(
            range_text(each, given.unit) if isinstance(each, Range) else exact(each) for each in given.value
        )
    return str(given.value)


def card_text(catalogue: Catalogue, derived: Derived, thing: Any) -> str:
    """What is known of one thing, in lines: first the verdicts, then the numbers."""
    if isinstance(thing, Pigment):
        return "\n".join(_card_lines(pigment_card(catalogue, derived, thing)))
    if isinstance(thing, Binder | Additive):
        return "\n".join(_card_lines(product_card(catalogue, derived, thing)))
    return "\n".join(_substance_lines(thing))


def _card_lines(card: Card) -> Iterator[str]:
    yield f"{card.name} ({card.id}), {card.what}"
    for state in card.states:
        yield _state_line(state)
        if state.amounts:
            yield "    " + "; ".join(f"{words}: {name}" for words, name in state.amounts)
    for name, because in card.not_for:
        yield f"  Not for {name}: {because}"
    if card.milder:
        yield "  Milder, of like hue: " + ", ".join(each.name for each in card.milder)
    for step in card.do:
        yield f"  - {step}"
    for figure, binder, amount in card.start:
        yield f"  {figure}  {binder}{amount}"
    for figure, words in card.also:
        yield f"  {figure}  {words}"
    if card.stop_test:
        yield f"  Stop test: {card.stop_test}"
    if card.waste:
        yield _state_line(card.waste)
    for situation, text in card.wrong:
        yield f"  {situation}: {text}"
    yield f"  {card.edition}. Checked {card.checked}, review by {card.review_by}."
    yield (
        "  Draft, not a regulatory classification: the supplier's data sheet, local law and an occupational"
        " hygienist come first."
    )


def _state_line(state: State) -> str:
    means = f"{state.means} " if state.means else ""
    return f"  {state.state}: {state.word.upper()}. {means}{state.why}"


def _substance_lines(substance: Substance) -> Iterator[str]:
    yield f"{substance.name} ({substance.id})"
    if substance.formula:
        yield f"  {substance.formula}"
    yield f"  hazards: {said(substance.hazards.status)}"
    for each in substance.hazards.classes:
        yield f"    {each.statement} {said(each.hazard)} {each.category} ({each.place}, {each.standing})"
    for limit in substance.limits:
        counted = f" as {limit.expressed_as}" if limit.expressed_as else ""
        yield (
            f"  {limit.jurisdiction} {limit.list} {limit.type}, {limit.fraction}:"
            f" {quantity_text(limit.value)}{counted} ({BASIS_WORDS[limit.value.basis]})"
        )
