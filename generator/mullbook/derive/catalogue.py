"""From the catalogue to the derived catalogue."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from typing import Any

from mullbook.derive.chemistry import chemistry_of
from mullbook.derive.composition import elements_of, parts
from mullbook.derive.guides import figures
from mullbook.derive.paint import given, paint_of
from mullbook.derive.practice import worked
from mullbook.derive.results import Derived, DerivedPigment, DerivedSubstance
from mullbook.derive.safety import BENCH, powder_safety, product_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.values import Working
from mullbook.science.colour import colour_distance, lab_to_hex
from mullbook.science.registry import evaluate

LIKE_HUE = 40.0
"""Colour difference (CIEDE2000) up to which another pigment counts as of like hue."""
MOST_MILDER = 3
UNKNOWN, FILLER = "unknown", "filler"
NOT_HANDLED_DRY = ("paste-only", "leave-it-shut")
WATCHED = ("Pb", "Cd", "Hg", "As", "Sb", "Se", "Cr", "Co", "Ni", "Mn", "Ba", "Cu", "Zn", "U")
"""Elements whose share in a substance is worked out and shown."""


def derive(catalogue: Catalogue, known: Derived | None = None) -> Derived:
    """Work out everything that follows from the entries. Never raises on bad data: what cannot be
    worked out says why in its working.

    Parameters: `known`, what still holds of what was worked out before. With it, who uses which source is
    not looked up again.
    """
    held = known or Derived(pigments={}, substances={}, products={}, used_by={})
    pigments = {
        each.id: held.pigments.get(each.id) or _pigment(catalogue, each) for each in catalogue.pigments
    }
    if catalogue.policies:
        alike = _by_hue(catalogue, pigments)
        pigments = {
            each.id: replace(
                found := pigments[each.id],
                safety=replace(found.safety, milder=_milder(catalogue, each, found, alike.get(each.hue, []))),
            )
            for each in catalogue.pigments
        }
    return Derived(
        pigments=pigments,
        substances={
            each.id: held.substances.get(each.id) or _substance(each) for each in catalogue.substances
        },
        products={
            each.id: held.products.get(each.id) or product_safety(catalogue, each)
            for each in catalogue.products
        },
        used_by=held.used_by or _used_by(catalogue),
        worked=worked(catalogue),
        figures=figures(catalogue),
    )


def _pigment(catalogue: Catalogue, pigment: Pigment) -> DerivedPigment:
    found = parts(catalogue, pigment.constituents)
    paint = paint_of(catalogue, pigment, found)
    return DerivedPigment(
        id=pigment.id,
        parts=found,
        paint=paint,
        safety=powder_safety(catalogue, pigment, found, paint.density),
        hex=_hex(pigment),
        optics=tuple(_optics(catalogue, pigment)),
        chemistry=chemistry_of(catalogue, pigment, found),
    )


def _hex(pigment: Pigment) -> str | None:
    if pigment.colour is None or not pigment.colour.lab:
        return None
    lightness, a, b = pigment.colour.lab
    return lab_to_hex(lightness, a, b)[0]


def _optics(catalogue: Catalogue, pigment: Pigment) -> Iterator[tuple[str, Working]]:
    if pigment.physical.refractive_index is None:
        return
    for binder in catalogue.binders:
        if binder.refractive_index is not None:
            yield (
                binder.id,
                evaluate(
                    "scattering_contrast",
                    {
                        "n_pigment": given("n_pigment", pigment.physical.refractive_index),
                        "n_binder": given("n_binder", binder.refractive_index),
                    },
                ),
            )


def _by_hue(
    catalogue: Catalogue, pigments: dict[str, DerivedPigment]
) -> dict[str, list[tuple[int, Pigment]]]:
    """Pigments that may stand in for others, by hue, each with the rank of its level; mildest first."""
    found: dict[str, list[tuple[int, Pigment]]] = {}
    for each in catalogue.pigments:
        level = pigments[each.id].safety.dry[BENCH].level
        if level not in NOT_HANDLED_DRY:
            found.setdefault(each.hue, []).append((catalogue.policy.rank(level), each))
    return {hue: sorted(held, key=lambda pair: pair[0]) for hue, held in found.items()}


def _milder(
    catalogue: Catalogue, pigment: Pigment, found: DerivedPigment, alike: list[tuple[int, Pigment]]
) -> tuple[str, ...]:
    """Pigments of like hue whose powder has a milder level: mildest first, then nearest in colour.

    Nothing stands in for what nobody knows, a filler stands in for a filler alone, and what is itself not
    handled dry is no answer.
    """
    mine = catalogue.policy.rank(found.safety.dry[BENCH].level)
    if pigment.family == UNKNOWN:
        return ()
    near: list[tuple[int, float, str]] = []
    for rank, other in alike:
        if rank >= mine or (len(near) >= MOST_MILDER and rank > near[-1][0]):
            break  # those that follow are no milder than what was found
        if other.family == pigment.family or other.family not in (UNKNOWN, FILLER):
            distance = _distance(pigment, other)
            if distance is not None:
                near.append((rank, distance, other.id))
    return tuple(name for _, _, name in sorted(near)[:MOST_MILDER])


def _distance(one: Pigment, other: Pigment) -> float | None:
    """Colour difference of two of one hue where both were measured; where not, the greatest that counts."""
    if one.colour and other.colour and one.colour.lab and other.colour.lab:
        difference = colour_distance(_lab(one.colour.lab), _lab(other.colour.lab))
        return difference if difference <= LIKE_HUE else None
    return LIKE_HUE


def _lab(numbers: tuple[float, ...]) -> tuple[float, float, float]:
    lightness, a, b = numbers
    return lightness, a, b


def _substance(substance: Substance) -> DerivedSubstance:
    if substance.formula is None or not elements_of(substance.formula):
        return DerivedSubstance(id=substance.id)
    cell = substance.cell
    density = (
        evaluate(
            "crystal_density",
            {
                "formula": substance.formula,
                "cell_volume": given("cell_volume", cell.volume),
                "z": float(cell.z),
            },
        )
        if cell is not None
        else None
    )
    watched = [each for each in WATCHED if each in elements_of(substance.formula)]
    return DerivedSubstance(
        id=substance.id,
        molar_mass=evaluate("molar_mass", {"formula": substance.formula}),
        cell_density=density,
        elements=tuple(
            evaluate("mass_fraction", {"formula": substance.formula, "element": each}) for each in watched
        ),
    )


def _used_by(catalogue: Catalogue) -> dict[str, tuple[str, ...]]:
    users: dict[str, dict[str, None]] = {}
    held: tuple[Any, ...] = (
        *catalogue.things,
        *catalogue.vocabularies,
        *catalogue.faults,
        *catalogue.studio_tests,
        *catalogue.guides,
        *catalogue.questions,
        *catalogue.policies,
        *catalogue.classifications,
        *catalogue.advices,
        *catalogue.respirators,
        *catalogue.leaching,
        *catalogue.stone_checks,
    )
    for thing in held:
        for source in _sources(thing):
            users.setdefault(source, {})[thing.id] = None
    return {source: tuple(found) for source, found in sorted(users.items())}


def _sources(value: Any) -> Iterator[str]:
    """Every source id named anywhere inside a record."""
    if is_dataclass(value):
        for each in fields(value):
            inner = getattr(value, each.name)
            if each.name == "source" and isinstance(inner, str):
                yield inner
            elif each.name in ("searched", "limits_searched"):
                yield from inner
            else:
                yield from _sources(inner)
    elif isinstance(value, tuple):
        for each in value:
            yield from _sources(each)
    elif isinstance(value, dict):
        yield from _sources(tuple(value.values()))
