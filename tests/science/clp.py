"""The rulesets of the entries, and components to try them on."""

from __future__ import annotations

from pathlib import Path

from mullbook.load import entity
from mullbook.model.values import HazardClass
from mullbook.model.values.hazard import SpecificLimit
from mullbook.model.values.ruleset import Classification, Component
from mullbook.text.yaml_text import read_file

SKIN, EYE = "skin-corrosion-irritation", "eye-damage-irritation"
ORAL = "acute-toxicity-oral"


def _rules(name: str) -> Classification:
    document = read_file(Path(__file__).parents[2] / "entries" / "rulesets" / f"{name}.yaml")
    assert not document.problems
    rules = entity("ruleset", document.data or {})
    assert isinstance(rules, Classification)
    return rules


RULES = _rules("eu-clp")
US_RULES = _rules("us-hcs")


def hazard(
    name: str,
    category: str,
    statement: str,
    *,
    m_factor: float | None = None,
    metal: str | None = None,
    at_least: float | None = None,
    lesser: tuple[SpecificLimit, ...] = (),
    basis: str = "published",
    place: str = "EU",
) -> HazardClass:
    """A class of a component."""
    return HazardClass(
        hazard=name,
        category=category,
        statement=statement,
        place=place,
        standing="harmonised" if basis == "published" else "from-memory",
        basis=basis,
        m_factor=m_factor,
        metal_basis=metal is not None,
        as_element=metal,
        specific_limit=None if at_least is None else SpecificLimit(at_least),
        lesser_categories=lesser,
    )


def component(name: str, share: float, *classes: HazardClass, **more: object) -> Component:
    """A component of a mixture."""
    return Component(name=name, share=share, classes=classes, **more)  # type: ignore[arg-type]
