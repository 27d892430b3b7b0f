"""Questions about washing and sieving as they are written on the command line: read, worked out, told."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import asdict, replace
from typing import Any

from mullbook.checks.input_rules import BAD_INPUT, NOT_FOUND
from mullbook.derive.composition import parts
from mullbook.derive.paint import blended_density
from mullbook.derive.washing import wash_sheet
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.values import Quantity, Range
from mullbook.model.values.washing import Grains, Mineral, Washing, WashSheet
from mullbook.model.washing import mineral, minerals_of
from mullbook.render.wash_text import NOT_DRY
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.workflow.questions import find
from mullbook.workflow.safety import safety_of
from mullbook.workflow.swap import Refused

SHUT = "leave-it-shut"
EXAMPLE = "mullbook wash yellow ochre --cut 45um,20um,5um --depth 10 --conductivity 1.8 --tap 0.3"
UNITS: dict[str, dict[str, Callable[[float], float]]] = {
    "um": {
        "": lambda n: n,
        "um": lambda n: n,
        "µm": lambda n: n,
        "μm": lambda n: n,
        "mm": lambda n: n * 1000,
    },
    "cm": {
        "": lambda n: n,
        "cm": lambda n: n,
        "mm": lambda n: n / 10,
        "m": lambda n: n * 100,
        "in": lambda n: n * 2.54,
    },
    "l": {"": lambda n: n, "l": lambda n: n, "ml": lambda n: n / 1000, "cl": lambda n: n / 100},
    "°C": {
        "": lambda n: n,
        "c": lambda n: n,
        "°c": lambda n: n,
        "f": lambda n: (n - 32) / 1.8,
        "°f": lambda n: (n - 32) / 1.8,
    },
    "mS/cm": {
        "": lambda n: n,
        "ms": lambda n: n,
        "ms/cm": lambda n: n,
        "us": lambda n: n / 1000,
        "us/cm": lambda n: n / 1000,
        "µs/cm": lambda n: n / 1000,
    },
    "g/cm³": {
        "": lambda n: n,
        "g/cm3": lambda n: n,
        "g/cm³": lambda n: n,
        "g/ml": lambda n: n,
        "kg/m3": lambda n: n / 1000,
    },
    "": {"": lambda n: n},
}
"""What may stand behind a number of each kind, and what it comes to."""
_NUMBER = re.compile(r"([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(.*)")
_MESH = re.compile(r"(?:no\.?|#|mesh)\s*(\d+)|(\d+)\s*mesh", re.IGNORECASE)


def refuse(message: str, hint: str | None = None, code: str = BAD_INPUT) -> Refused:
    """A problem with the question, ready to be raised."""
    return Refused(Problem(code, "error", message, Place("command line"), hint=hint, example=EXAMPLE))


def amount(option: str, text: str, unit: str) -> float:
    """A number as people write it, with or without its unit. Raises `Refused`.

    >>> amount("--depth", "100 mm", "cm"), amount("--temperature", "59F", "°C")
    (10.0, 15.0)
    """
    found = _NUMBER.fullmatch(text.strip())
    known = UNITS[unit]
    if found is None or found[2].strip().lower() not in known:
        written = ", ".join(each for each in known if each)
        hint = f"It may carry its unit: {written}." if written else None
        raise refuse(f"{option} takes a number{f' in {unit}' if unit else ''}; {text!r} is none.", hint)
    return known[found[2].strip().lower()](float(found[1].replace(",", ".")))


def sizes(option: str, text: str) -> tuple[float, ...]:
    """Sizes as they are written: micrometres, millimetres, or the number of a sieve. Raises `Refused`.

    >>> sizes("--cut", "45um,20um,5um"), sizes("--cut", "325 mesh; 2,5"), sizes("--cut", "no. 200")
    ((45.0, 20.0, 5.0), (45.0, 2.5), (75.0,))
    """
    from mullbook.science.fineness import opening_of_mesh

    listed = text.split(";") if ";" in text else text.split(",")
    found = []
    for each in (part.strip() for part in listed if part.strip()):
        mesh = _MESH.fullmatch(each)
        try:
            found.append(
                float(opening_of_mesh(float(mesh[1] or mesh[2]))) if mesh else amount(option, each, "um")
            )
        except ValueError as error:
            raise refuse(f"{option}: {error}.") from None
    if not found or min(found) <= 0:
        raise refuse(f"{option} takes sizes above 0, such as 45um,20um,5um; {text!r} holds none.")
    return tuple(found)


def grains_of(text: str | None) -> Grains:
    """Shares of sand, silt and clay from a shaken jar: `20,50,30`, or `sand 20, silt 50, clay 30`.

    >>> grains_of("sand 1, silt 2, clay 1").shares
    (1.0, 2.0, 1.0)
    """
    if text is None:
        return Grains()
    listed = [each.strip() for each in text.replace(";", ",").split(",") if each.strip()]
    named = {word: each for each in listed for word in ("sand", "silt", "clay") if word in each.lower()}
    order = [named.get(word) for word in ("clay", "silt", "sand")] if named else listed[::-1]
    if len(listed) != 3 or len([each for each in order if each]) != 3:
        raise refuse(
            f"--grains takes three parts, of sand, silt and clay; {text!r} has not those.",
            "Shake a jar of one part of earth and four of water, and measure the layers: --grains 20,50,30.",
        )
    values = [amount("--grains", re.sub(r"[^\d.,]", "", str(each)), "") for each in order]
    try:
        return Grains(shares=tuple(values))
    except ValueError as error:
        raise refuse(f"--grains: {error}.") from None


def solids_of(text: str, density: float) -> float:
    """Part by volume of the earth in the slurry: a fraction, per cent, or grams a litre. Raises `Refused`."""
    written = text.strip().lower().replace(" ", "")
    for ending, part in (("g/l", 1 / (1000 * density)), ("%", 0.01)):
        if written.endswith(ending):
            return amount("--solids", written.removesuffix(ending), "") * part
    value = amount("--solids", written, "")
    if value > 1:
        raise refuse("--solids is a part by volume, such as 0.02, or 2%, or grams a litre, such as 60g/l.")
    return value


def wash(catalogue: Catalogue, words: str, options: Mapping[str, Any]) -> WashSheet:
    """The washing that was asked for. Raises `Refused` with what is wrong with the question."""
    pigment = _pigment(catalogue, words) if words else None
    own = Range.of(amount("--density", options["density"], "g/cm³")) if options["density"] else None
    minerals = _minerals(catalogue, pigment, options["mineral"])
    density, timed_by = _timed(catalogue, pigment, own, minerals, options["by"])
    middle = (density.range or Range(0, 0)).middle if isinstance(density, Quantity) else density.middle
    if pigment is None and minerals:
        minerals = (Mineral("the earth", middle), *minerals)
    asked = Washing(density=middle, minerals=minerals, **_vessel(options, middle))
    level = _level(catalogue, pigment) if pigment else None
    name = catalogue.policy.words(level).name if level else None
    try:
        sheet = wash_sheet(catalogue, pigment, asked, timed_by=timed_by, density=density, level=name)
    except ValueError as error:
        raise refuse(f"No plan: {error}.") from None
    return replace(sheet, minds=(NOT_DRY[level], *sheet.minds)) if level in NOT_DRY else sheet


def _vessel(options: Mapping[str, Any], density: float) -> dict[str, Any]:
    """Everything of a washing that the options say."""
    read = {
        "depth": ("--depth", "cm"),
        "kept": ("--kept", "cm"),
        "volume": ("--volume", "l"),
        "temperature": ("--temperature", "°C"),
        "conductivity": ("--conductivity", "mS/cm"),
        "wash_water": ("--tap", "mS/cm"),
        "target": ("--target", "mS/cm"),
        "settle": ("--settle", "um"),
    }
    given = {
        name: amount(option, options[name], unit) for name, (option, unit) in read.items() if options[name]
    }
    if options["solids"]:
        given["solids"] = solids_of(options["solids"], density)
    if options["rounds"]:
        rounds = amount("--rounds", options["rounds"], "")
        if rounds != int(rounds):
            raise refuse("--rounds takes a whole number.")
        given["rounds"] = int(rounds)
    return {**given, "cuts": sizes("--cut", options["cut"]), "grains": grains_of(options["grains"])}


def _pigment(catalogue: Catalogue, words: str) -> Pigment:
    found = find(catalogue, words)
    if isinstance(found, Problem):
        raise Refused(found)
    pigments = [each for each in found if isinstance(each, Pigment)]
    if not pigments:
        raise refuse(f"{found[0].name} is no pigment.", "Give an earth, or only --density.", NOT_FOUND)
    return pigments[0]


def _minerals(catalogue: Catalogue, pigment: Pigment | None, named: Iterable[str]) -> tuple[Mineral, ...]:
    """The minerals followed: those of the entry, and those asked for by name."""
    minerals = list(minerals_of(catalogue, pigment)) if pigment else []
    for name in named:
        found = [each for each in catalogue.find(name) if isinstance(each, Substance)]
        grains = mineral(found[0]) if found else None
        if grains is None:
            close = nearest(name, [each.name for each in catalogue.substances if each.density])
            hint = f"Did you mean {' or '.join(close)}?" if close else None
            raise refuse(f"No mineral of known density goes under the name {name}.", hint, NOT_FOUND)
        if all(each.name != grains.name for each in minerals):
            minerals.append(grains)
    return tuple(minerals)


def _timed(
    catalogue: Catalogue,
    pigment: Pigment | None,
    own: Range | None,
    minerals: tuple[Mineral, ...],
    by: str | None,
) -> tuple[Quantity | Range, str]:
    """The density that the waits are for, and what it is of."""
    if by is not None and by.lower() not in ("earth", "lightest"):
        name = next(iter(nearest(by, [each.name for each in minerals], 1)), None)
        if name is None:
            names = ", ".join(each.name for each in minerals) or "none"
            raise refuse(f"{by} is none of the minerals followed.", f"They are: {names}.")
        return Range.of(next(each.density for each in minerals if each.name == name)), name
    if own is not None:
        return own, "the density given"
    if by == "lightest" and minerals:
        lightest = min(minerals, key=lambda each: each.density)
        return Range.of(lightest.density), lightest.name
    if pigment is None:
        raise refuse("Which earth? Name one of the catalogue, or give --density.")
    found = pigment.physical.density or blended_density(catalogue, parts(catalogue, pigment.constituents))
    if found is None or found.range is None:
        raise refuse(f"The density of {pigment.name} is not known.", "Measure it, and give --density.")
    return found, "the whole earth"


def _level(catalogue: Catalogue, pigment: Pigment) -> str | None:
    """Level of the dry powder. Raises `Refused` for what stays shut, and for what water sets on fire."""
    safety = safety_of(catalogue, pigment)
    if "water-reactive" in safety.hazards:
        raise refuse(f"{pigment.name} is never washed: water sets free a gas from it that burns.")
    dry = safety.dry
    level = next(iter(dry.values())).level if dry else None
    if level == SHUT:
        raise refuse(f"{pigment.name}: {NOT_DRY[SHUT]}", f"`mullbook show {pigment.id}` says why.")
    return level


def sheet_json(sheet: WashSheet) -> str:
    """A plan as JSON text; minutes, grams, litres, µm and mS/cm."""
    data = asdict(sheet)
    data["waits"] = [each.steps for each in sheet.waits]
    data["salts"] = sheet.salts.steps if sheet.salts else None
    return json.dumps(data, ensure_ascii=False, indent=2)
