"""Plain values: units, ranges, quantities, hazards, limits, shares, rules and workings.

Nothing here reads a file or knows of YAML; every class is frozen.
"""

from mullbook.model.values.hazard import HazardClass, Hazards, Limit
from mullbook.model.values.quantity import BASES, MEASURED, Evidence, Quantity, Range
from mullbook.model.values.units import UNITS, unit_words
from mullbook.model.values.working import FormulaCard, Input, ParameterCard, Working

__all__ = [
    "BASES",
    "MEASURED",
    "UNITS",
    "Evidence",
    "FormulaCard",
    "HazardClass",
    "Hazards",
    "Input",
    "Limit",
    "ParameterCard",
    "Quantity",
    "Range",
    "Working",
    "unit_words",
]
