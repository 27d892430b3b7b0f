"""Molar masses, mass fractions of elements and densities of crystals from chemical formulas."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from mullbook.science.paint import above_nought

AVOGADRO_A3 = 0.602214076
"""Avogadro's number times one cubic ångström in cm3 (exact SI value)."""

_PLAIN = str.maketrans("₀₁₂₃₄₅₆₇₈₉·•⋅*[]{}", "0123456789....()()")
_SYMBOL = re.compile(r"[A-Z][a-z]*")
_ALLOWED = re.compile(r"[A-Za-z0-9.()]+")
_DECIMAL = re.compile(r"\d\.(?!\d+H2O)\d|\.\d+\.")


def molar_mass(formula: str) -> float:
    """Molar mass of a compound (g/mol).

    Parameters: `formula`, such as `PbCO3`, `CaSO4(H2O)2` or `CaSO4.2H2O`, with whole
    numbers of atoms. Raises `ValueError` in words where it is not a chemical formula.

    Source: standard atomic weights, as in the molmass library.

    >>> round(molar_mass("CaSO4.2H2O"), 2)
    172.17
    """
    return float(_parsed(formula).mass)


def element_fractions(formula: str) -> dict[str, float]:
    """Mass fraction of each element in a compound, by symbol.

    Parameters: `formula` as for `molar_mass`. Raises `ValueError` in words for a wrong formula.

    >>> {symbol: round(part, 3) for symbol, part in element_fractions("MnO2").items()}
    {'Mn': 0.632, 'O': 0.368}
    """
    return {symbol: float(item.fraction) for symbol, item in _parsed(formula).composition().items()}


def mass_fraction(formula: str, element: str) -> float:
    """Mass fraction of an element in a compound.

    Parameters: `formula` as for `molar_mass`; `element`, its symbol. Returns a fraction, nought where the
    element is absent. Raises `ValueError` in words for a wrong formula or symbol.

    >>> round(mass_fraction("2PbCO3.Pb(OH)2", "Pb"), 3)
    0.801
    """
    check_symbol(element)
    return element_fractions(formula).get(element, 0.0)


def crystal_density(formula: str, cell_volume: float, z: float) -> float:
    """Density of a crystal from its unit cell: `Z M/(N_A V)`.

    Parameters: `formula`; `cell_volume` (cubic ångströms); `z`, formula units in the cell.
    Returns g/cm3. Raises `ValueError` for a wrong formula or a volume that is not above nought.

    >>> round(crystal_density("TiO2", 4.594**2 * 2.958, 2), 3)
    4.249
    """
    above_nought(cell_volume, "cell volume")
    above_nought(z, "Z")
    return z * molar_mass(formula) / (AVOGADRO_A3 * cell_volume)


def calcination_loss(
    formula: str, product: str, parts: float = 1, product_parts: float = 1, share: float = 1
) -> float:
    """Part of its mass that a compound loses when heat turns it into another: `1 - n' M'/(n M)`.

    Parameters: `formula` of what is heated and `product` of what stays, as for `molar_mass`; `parts` and
    `product_parts`, how many of each the reaction has; `share` of the compound in what is heated. Returns a
    fraction; below 0 where the product is heavier, as when iron takes up oxygen. Raises `ValueError`.

    >>> round(calcination_loss("FeO(OH)", "Fe2O3", parts=2), 4)
    0.1014
    >>> round(calcination_loss("CaCO3", "CaO"), 4)
    0.4397
    """
    above_nought(parts, "parts")
    above_nought(product_parts, "product parts")
    return share * (1 - product_parts * molar_mass(product) / (parts * molar_mass(formula)))


def check_symbol(symbol: str) -> None:
    """Raise `ValueError` in words unless `symbol` is that of a chemical element."""
    from molmass import ELEMENTS

    if symbol not in {element.symbol for element in ELEMENTS}:
        raise ValueError(f"{symbol!r} is not the symbol of an element, such as Pb or Mn")


@lru_cache(maxsize=512)
def _parsed(formula: str) -> Any:
    """Return the formula as molmass reads it, its symbols having been checked.

    molmass also reads names of groups and of peptides, and takes a decimal point for the dot of a
    hydrate; here only elements count, and a dot between numbers must stand before water.
    """
    from molmass import Formula, FormulaError

    text = re.sub(r"\s+", "", formula).translate(_PLAIN)
    if not _ALLOWED.fullmatch(text) or not _SYMBOL.search(text):
        raise ValueError(f"{formula!r} is not a chemical formula, such as PbCO3 or CaSO4.2H2O")
    if _DECIMAL.search(text):
        raise ValueError(
            f"{formula!r} has a point between numbers: write whole numbers of atoms, "
            "and groups in parentheses, such as (SiO2)2(H2O)2"
        )
    for symbol in _SYMBOL.findall(text):
        check_symbol(symbol)
    try:
        parsed = Formula(text)
        parsed.mass  # noqa: B018  read lazily: a wrong formula shows itself only here
    except (FormulaError, ValueError) as error:
        raise ValueError(f"{formula!r} is not a chemical formula, such as PbCO3 or CaSO4.2H2O") from error
    return parsed
