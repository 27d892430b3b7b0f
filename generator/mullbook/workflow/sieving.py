"""A nest of sieves as it is written on the command line: read, worked out, told."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import asdict

from mullbook.checks.input_rules import BAD_INPUT
from mullbook.science.fineness import standard_opening
from mullbook.science.methods.fineness import sieve_words
from mullbook.science.sieving import sieve_loss, sieve_rows
from mullbook.text.problem import Place, Problem
from mullbook.workflow.swap import Refused
from mullbook.workflow.washing import amount, sizes

EXAMPLE = "mullbook sieve 150um=2.1 200mesh=8.4 45um=12 pan=76.7 --charged 100"


def sieve_answer(weighed: Sequence[str], charged: str | None, *, as_json: bool) -> str:
    """What lies on each sieve, above it and passes, and the loss, as text or JSON. Raises `Refused`.

    Parameters: `weighed`, such as `45um=12` or `325mesh=12`, and `pan=77`; `charged` (g), put on the nest.
    """
    from mullbook.render.wash_text import sieve_text

    nest, pan = _read(weighed)
    openings = sorted(nest, reverse=True)
    try:
        rows = sieve_rows(openings, [nest[each] for each in openings], pan)
        put_on = amount("--charged", charged, "") if charged else None
        loss = sieve_loss(put_on, (*nest.values(), pan)) if put_on else None
    except ValueError as error:
        raise _refuse(f"{str(error)[0].upper()}{str(error)[1:]}.") from None
    if as_json:
        data = {"rows": [asdict(each) for each in rows], "loss": loss, "charged_g": put_on}
        return json.dumps(data, ensure_ascii=False, indent=2)
    return sieve_text(rows, loss, [_name(each) for each in openings])


def _refuse(message: str, hint: str | None = None) -> Refused:
    place = Place("command line")
    return Refused(Problem(BAD_INPUT, "error", message, place, hint=hint, example=EXAMPLE))


def _read(weighed: Sequence[str]) -> tuple[dict[float, float], float]:
    nest: dict[float, float] = {}
    pan = 0.0
    for text in weighed:
        name, equals, mass = text.partition("=")
        if not equals:
            raise _refuse(f"{text!r} is not written as sieve=grams.")
        grams = amount(name, mass.removesuffix("g"), "")
        if name.strip().lower() == "pan":
            pan += grams
            continue
        opening = _standard(_size(name))
        if opening in nest:
            raise _refuse(f"The sieve of {opening:g} µm is given twice.")
        nest[opening] = grams
    return nest, pan


def _size(name: str) -> float:
    try:
        return sizes(name, name)[0]
    except Refused:
        hint = "Name a sieve by its opening, 45um, or its number, 325mesh; what passed all is pan."
        raise _refuse(f"There is no sieve called {name}.", hint) from None


def _standard(opening: float) -> float:
    """The opening of the standard sieve that is meant; an old opening counts as today's."""
    try:
        return float(standard_opening(opening=opening))
    except ValueError as error:
        raise _refuse(f"{str(error)[0].upper()}{str(error)[1:]}.") from None


def _name(opening: float) -> str:
    mesh = sieve_words(opening).split(" of ASTM")[0]
    return f"{opening:g} µm {mesh}" if mesh.startswith("No.") else f"{opening:g} µm"
