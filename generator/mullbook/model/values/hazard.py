"""Hazard classes and exposure limits as published."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.model.values.quantity import Evidence, Quantity


@dataclass(frozen=True, slots=True)
class SpecificLimit:
    """A concentration from which a class applies instead of the generic cut-off."""

    at_least: float
    category: str | None = None
    statement: str | None = None
    below: float | None = None
    """Share from which the next, more severe limit takes over."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HazardClass(Evidence):
    """One class with its category and statement, where it holds and who said so."""

    hazard: str
    """Class id, such as `carcinogenicity` (the key `class` in an entry)."""
    category: str
    statement: str
    place: str
    standing: str
    route: str | None = None
    m_factor: float | None = None
    estimate: float | None = None
    """Acute toxicity estimate stated beside the class: mg/kg by mouth or skin, mg/l of dust."""
    metal_basis: bool = False
    as_element: str | None = None
    specific_limit: SpecificLimit | None = None
    lesser_categories: tuple[SpecificLimit, ...] = ()
    """Lower categories that the source gives below the specific limit."""
    also_marked: str | None = None
    excepts: tuple[str, ...] = ()
    """In a group: members the list leaves out of this class (the key `except` in an entry)."""

    @property
    def remembered(self) -> bool:
        """Whether no opened source stands behind this class."""
        return self.basis == "from-memory"


@dataclass(frozen=True, slots=True)
class Hazards:
    """What was searched for a thing's classes, when, and what was found."""

    status: str
    searched: tuple[str, ...] = ()
    checked: str | None = None
    classes: tuple[HazardClass, ...] = ()
    note: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One published workplace limit for airborne exposure."""

    jurisdiction: str
    list: str
    type: str
    averaging: str | None = None
    fraction: str
    value: Quantity
    expressed_as: str | None = None
    scope: str | None = None
    in_force: str | None = None
    checked: str | None = None
    excepts: tuple[str, ...] = ()
    """In a group: members the list leaves out of this limit."""
    note: str | None = None
