"""The numbers that guides and questions ask to have worked out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from mullbook.derive.composition import parts
from mullbook.derive.paint import blended_density, given
from mullbook.derive.practice_results import Worked
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.guides import Figure, Guide, Question, figures_of
from mullbook.model.values import Input, ParameterCard, Quantity, Range
from mullbook.science.formula import BadInput, Formula, Given, UnknownFormula
from mullbook.science.registry import evaluate, find, parse_inputs

REFERENCE = re.compile(r"(?P<kind>[a-z]+):(?P<entry>[a-z0-9-]+)(?::(?P<field>[a-z_]+))?")
FIELDS = {
    "pigment": ("density", "oil_absorption", "oil_to_grind", "bulk_density_loose", "bulk_density_tapped"),
    "binder": ("solids", "density_wet", "density_dry", "binder_index"),
    "additive": ("active", "density"),
    "substance": ("density",),
}
"""Numbers of an entry that a figure may start from, by kind."""


class BadFigure(ValueError):
    """A figure that cannot be worked out, and why, in words."""


def figures(catalogue: Catalogue) -> dict[str, dict[str, Worked]]:
    """The figures of each guide and question by kind and id, and by the figure's own id.

    One that cannot be worked out is left out: telling so is for the rules.
    """
    told: tuple[Guide | Question, ...] = (*catalogue.guides, *catalogue.questions)
    return {f"{each.kind_name}:{each.id}": dict(_worked(catalogue, each)) for each in told}


def _worked(catalogue: Catalogue, thing: Guide | Question) -> Iterator[tuple[str, Worked]]:
    found: dict[str, Worked] = {}
    for figure in figures_of(thing):
        try:
            found[figure.id] = worked_figure(catalogue, figure, found)
        except BadFigure:
            continue
    yield from found.items()


def worked_figure(catalogue: Catalogue, figure: Figure, known: Mapping[str, Worked]) -> Worked:
    """Work one figure out.

    Parameters: the catalogue, the figure, the figures before it by id.
    Returns it with its working. Raises `BadFigure` where there is no number.
    """
    reader = _Reader(catalogue, known)
    try:
        formula = find(figure.formula)
        inputs = {name: reader.read(formula, name, text) for name, text in figure.inputs.items()}
        working = evaluate(figure.formula, inputs)
    except (BadInput, UnknownFormula) as error:
        raise BadFigure(str(error)) from None
    if working.result is None:
        raise BadFigure(working.not_derivable or "There is no result.")
    return Worked(words=figure.words, working=working)


@dataclass(frozen=True)
class _Reader:
    """Reads inputs: as the command line takes them, or as references to entries and earlier figures."""

    catalogue: Catalogue
    known: Mapping[str, Worked]

    def read(self, formula: Formula, name: str, text: str) -> Given:
        parameter: ParameterCard = formula.parameter(name)
        listed = parameter.shape == "list"
        items = [each.strip() for each in re.split("[,;]", text)] if listed else [text]
        if not any(REFERENCE.fullmatch(each) for each in items):
            return parse_inputs(formula.card.id, [f"{name}={text}"])[name]
        if not listed:
            return self.referred(name, text)
        return tuple(self.item(formula, name, each) for each in items)

    def item(self, formula: Formula, name: str, text: str) -> Range:
        """One number of a list."""
        if REFERENCE.fullmatch(text):
            value = self.referred(name, text).value
        else:
            value = parse_inputs(formula.card.id, [f"{name}={text}"])[name]
        first = value[0] if isinstance(value, tuple) else value
        if not isinstance(first, Range | float | int):
            raise BadFigure("A list holds numbers only.")
        return Range.of(first)

    def referred(self, name: str, text: str) -> Input:
        """What a reference leads to, with where it comes from. Raises `BadFigure`."""
        match = REFERENCE.fullmatch(text)
        kind, entry, field = (match["kind"], match["entry"], match["field"]) if match else ("", text, None)
        if kind == "figure":
            return self.earlier(name, entry)
        if field not in FIELDS.get(kind, ()):
            names = ", ".join(f"{each}:ID:{field}" for each, fields in FIELDS.items() for field in fields)
            raise BadFigure(f"{text} leads to no number. What can be named: figure:ID, {names}.")
        holder = getattr(self.catalogue, kind).get(entry)
        if holder is None:
            raise BadFigure(f"There is no {kind} called {entry}.")
        found = given(name, self.quantity(holder, str(field)))
        if found is None:
            raise BadFigure(f"No closed range of {field} is on record for {entry}.")
        return Input(name, found.unit, found.value, found.source, found.basis, note=holder.name)

    def quantity(self, holder: Any, field: str) -> Quantity | None:
        """A number of an entry; the density of a pigment may follow from what it is made of."""
        found: Quantity | None = getattr(getattr(holder, "physical", holder), field)
        if found is None and isinstance(holder, Pigment) and field == "density":
            return blended_density(self.catalogue, parts(self.catalogue, holder.constituents))
        return found

    def earlier(self, name: str, figure: str) -> Input:
        """The result of a figure that stands before this one."""
        if figure not in self.known:
            raise BadFigure(f"There is no figure {figure} before this one.")
        found = self.known[figure]
        note = f"from {found.words}"
        return Input(name, found.working.unit, found.working.result, basis="calculated", note=note)
