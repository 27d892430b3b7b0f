"""Numbers, units and ids as they are printed."""

from __future__ import annotations

import math
import re

from markupsafe import Markup, escape

from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Quantity, Range, Working

MARKS: dict[str, str] = {
    "g/cm3": "g/cm³",
    "g/100g": "g per 100 g",
    "um": "µm",
    "m2/g": "m²/g",
    "m2/l": "m²/l",
    "m2": "m²",
    "m3": "m³",
    "A3": "Å³",
    "mg/m3": "mg/m³",
    "C": "°C",
    "Mohs": "on Mohs' scale",
    "index": "",
    "number": "",
    "text": "",
    "fraction": "%",
    "percent": "%",
    "pH": "",
}
"""How a unit is written behind its number; others are written as they are."""

BASIS_WORDS = {
    "published": "published",
    "dataset": "dataset",
    "calculated": "calculated",
    "common-practice": "common practice",
    "from-memory": "from memory",
    "measured": "measured by you",
}
VERDICT_WORDS = {"suits": "suits", "test-first": "test first", "unsuitable": "unsuitable"}
GRADE_WORDS = {
    "documented": "documented",
    "chemically-expected": "chemically expected",
    "folklore": "folklore",
}
HAZARD_NAMES = {
    "acute-toxicity-oral": "acute toxicity, swallowed",
    "acute-toxicity-dermal": "acute toxicity, through the skin",
    "acute-toxicity-inhalation": "acute toxicity, breathed in",
    "skin-corrosion-irritation": "skin corrosion or irritation",
    "eye-damage-irritation": "eye damage or irritation",
    "stot-single": "damage to organs, single exposure",
    "stot-repeated": "damage to organs, repeated exposure",
    "aspiration": "aspiration hazard",
    "aquatic-acute": "harm to water life, acute",
    "aquatic-chronic": "harm to water life, long-lasting",
}
"""Hazard classes whose id does not read as words."""

PICTOGRAM_NAMES = {
    "GHS01": "exploding bomb",
    "GHS02": "flame",
    "GHS03": "flame over circle",
    "GHS04": "gas cylinder",
    "GHS05": "corrosion",
    "GHS06": "skull and crossbones",
    "GHS07": "exclamation mark",
    "GHS08": "health hazard",
    "GHS09": "environment",
}
"""Official names of the GHS pictograms."""


def number(value: float, figures: int = 3) -> str:
    """A number to a few significant figures, without exponent or trailing zeros.

    >>> number(0.32748), number(1234.5), number(55.0), number(0.0001234)
    ('0.327', '1230', '55', '0.000123')
    """
    if value == 0:
        return "0"
    digits = figures - 1 - math.floor(math.log10(abs(value)))
    text = f"{round(value, digits):.{max(digits, 0)}f}"
    return (text.rstrip("0").rstrip(".") if "." in text else text).replace("-", "−")


def exact(value: float) -> str:
    """A number as its author wrote it.

    >>> exact(3.0), exact(2.6486)
    ('3', '2.6486')
    """
    return f"{value:.12g}".replace("-", "−")


def with_unit(text: str, unit: str) -> str:
    r"""A printed number with the mark of its unit.

    >>> with_unit("3.2", "g/cm3"), with_unit("1.55", "index")
    ('3.2\xa0g/cm³', '1.55')
    """
    mark = MARKS.get(unit, unit)
    if unit == "pH":
        return f"pH {text}"
    return f"{text}\N{NO-BREAK SPACE}{mark}" if mark else text


def unit_mark(unit: str) -> str:
    """A unit as it is written on a form.

    >>> unit_mark("um"), unit_mark("C"), unit_mark("g")
    ('µm', '°C', 'g')
    """
    return MARKS.get(unit, unit)


def range_text(found: Range, unit: str, figures: int = 3) -> str:
    r"""A range that was worked out, rounded; fractions are printed as percentages.

    >>> range_text(Range(0.24, 0.31), "fraction")
    '24–31\xa0%'
    """
    scale = 100 if unit == "fraction" else 1
    low, high = number(found.low * scale, figures), number(found.high * scale, figures)
    return with_unit(low if low == high else f"{low}–{high}", unit)


def quantity_text(quantity: Quantity) -> str:
    r"""A quantity as its entry states it.

    >>> quantity_text(Quantity(unit="fraction", basis="published", max=0.175))
    'at most 17.5\xa0%'
    """
    scale = 100 if quantity.unit == "fraction" else 1
    low, high = quantity.ends
    if low is not None and high is not None:
        text = exact(low * scale) if low == high else f"{exact(low * scale)}–{exact(high * scale)}"
    elif low is not None:
        text = f"at least {exact(low * scale)}"
    else:
        text = f"at most {exact((high or 0) * scale)}"
    return with_unit(text, quantity.unit)


def result_text(working: Working, figures: int = 2) -> str:
    """The result of a working, or why there is none."""
    if working.result is None:
        return working.not_derivable or "not derivable"
    return range_text(working.result, working.unit, figures)


def said(name: str) -> str:
    """An id or parameter name as it is said.

    >>> said("oil_to_grind"), said("natural-earth"), said("cpvc")
    ('oil to grind', 'natural earth', 'CPVC')
    """
    return name.upper() if name in ("pvc", "cpvc") else name.replace("_", " ").replace("-", " ")


def in_sentence(name: str) -> str:
    """A name as it stands inside a sentence; one that starts with a symbol or initials stays as it is.

    >>> in_sentence("Acrylic gel"), in_sentence("PVC glue")
    ('acrylic gel', 'PVC glue')
    """
    return name[:1].lower() + name[1:] if name[1:2].islower() else name


def place_name(catalogue: Catalogue, place: str) -> str:
    """The name of a jurisdiction; several stand with commas between."""
    lists = catalogue.vocabulary("lists")
    names = {each.id: each.name for each in lists.items} if lists else {}
    return ", ".join(names.get(each, each) for each in place.split(", "))


EXAMPLE_ROOM = 60.0
"""Volume, m3, of the room that pages reckon with until a studio names its own."""


def room_volume(catalogue: Catalogue) -> float:
    """Volume of the room that pages reckon with, m3."""
    return EXAMPLE_ROOM if catalogue.room is None else catalogue.room.volume


def room_name(catalogue: Catalogue) -> str:
    """The room that pages reckon with, by volume or, in a studio's edition, by name."""
    size = f"{room_volume(catalogue):g} m³"
    if catalogue.room is None:
        return f"a room of {size}"
    return f"the {in_sentence(catalogue.room.name)} ({size})"


def list_name(catalogue: Catalogue, place: str, name: str) -> str:
    """A list with its place before it, unless its own name says it already."""
    return name if name.startswith(place) else f"{place_name(catalogue, place)}, {name}"


def hazard_name(hazard: str) -> str:
    """A hazard class in words.

    >>> hazard_name("stot-repeated"), hazard_name("skin-sensitisation")
    ('damage to organs, repeated exposure', 'skin sensitisation')
    """
    return HAZARD_NAMES.get(hazard) or said(hazard)


def same_optics(optics: tuple[tuple[str, Working], ...], catalogue: Catalogue) -> list[tuple[str, Working]]:
    """Binders whose contrast was worked out from the same figures, named together, with that working."""
    held: dict[str, tuple[list[str], Working]] = {}
    for binder, working in optics:
        if working.result is not None:
            names, _ = held.setdefault(working.steps, ([], working))
            names.append(in_sentence(catalogue.binder[binder].name))
    return [(", ".join(names), working) for names, working in held.values()]


def index_steps(steps: str) -> str:
    """The refractive indices of a binder in the working of a contrast; the formula and the index of the
    pigment, which stand beside it, do the rest.

    >>> index_steps("from (((1.9/1.5)² − 1)/((1.9/1.5)² + 2))² = 0.03 to (((2/1.4)² − 1)/(...))² = 0.07")
    'n 1.4–1.5'
    >>> index_steps("((1.5² − 1)/(1.5² + 2))²")
    '((1.5² − 1)/(1.5² + 2))²'
    """
    indices = sorted(dict.fromkeys(re.findall(r"\(\(\([0-9.]+/([0-9.]+)\)²", steps)))
    return f"n {'–'.join(indices)}" if indices else steps


def statement_text(catalogue: Catalogue, code: str) -> str:
    """The text of a hazard or precautionary statement in the first ruleset that has it, else its code."""
    tables = catalogue.classifications
    return next((each.text for table in tables for each in table.statements if each.code == code), code)


def formula_html(formula: str) -> Markup:
    """A chemical formula with its numbers set low.

    >>> formula_html("Fe2O3")
    Markup('Fe<sub>2</sub>O<sub>3</sub>')
    """
    return Markup(re.sub(r"(?<=[A-Za-z)\]])(\d+)", r"<sub>\1</sub>", str(escape(formula))))


def slug(words: str) -> str:
    """Words as an anchor.

    >>> slug("Agent on weight of pigment (AOWP)")
    'agent-on-weight-of-pigment-aowp'
    """
    return re.sub(r"[^\w]+", "-", words.lower()).strip("-")


def sentence(text: str) -> str:
    """Words as a sentence: capital first, full stop last.

    >>> sentence("quartz in the dust")
    'Quartz in the dust.'
    """
    text = text.strip()
    return text if not text else text[0].upper() + text[1:] + ("" if text[-1] in ".!?" else ".")
