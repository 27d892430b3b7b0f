"""The EU ruleset of the entries, and components to try it on."""

from __future__ import annotations

from pathlib import Path

from mullbook.load import entity
from mullbook.model.values import HazardClass
from mullbook.model.values.hazard import SpecificLimit
from mullbook.model.values.ruleset import Classification, Component, Precedence
from mullbook.text.yaml_text import read_file

SKIN, EYE = "skin-corrosion-irritation", "eye-damage-irritation"
ORAL = "acute-toxicity-oral"


def _rules() -> Classification:
    document = read_file(Path(__file__).parents[2] / "entries" / "rulesets" / "eu-clp.yaml")
    assert not document.problems
    rules = entity("ruleset", document.data)
    assert isinstance(rules, Classification)
    return rules


RULES = _rules()

US_PRECEDENCE = (
    Precedence(kind="pictogram", present="GHS06", drops="GHS07", for_reasons=(ORAL,)),
    *(rule for rule in RULES.precedence if rule.present != "GHS06"),
)
"""29 CFR 1910.1200, Appendix C, C.2.1: the skull drops the exclamation mark only for acute toxicity."""


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
) -> HazardClass:
    """A class of a component."""
    return HazardClass(
        hazard=name,
        category=category,
        statement=statement,
        place="EU",
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
