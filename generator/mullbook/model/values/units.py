"""The one closed table of units: what an entry, a formula or a page may be measured in."""

UNITS: dict[str, str] = {
    "fraction": "part of one",
    "percent": "per cent",
    "index": "refractive index",
    "g": "grams",
    "kg": "kilograms",
    "mg": "milligrams",
    "ml": "millilitres",
    "l": "litres",
    "m3": "cubic metres",
    "A3": "cubic ångströms",
    "um": "micrometres",
    "mm": "millimetres",
    "cm": "centimetres",
    "m": "metres",
    "s": "seconds",
    "min": "minutes",
    "h": "hours",
    "d": "days",
    "1/h": "per hour",
    "C": "degrees Celsius",
    "pH": "pH",
    "g/cm3": "grams per cubic centimetre",
    "g/100g": "grams per 100 grams",
    "g/mol": "grams per mole",
    "m2/g": "square metres per gram",
    "m2/l": "square metres per litre",
    "m/s": "metres per second",
    "rpm": "turns per minute",
    "mg/m3": "milligrams per cubic metre of air",
    "mg/kg": "milligrams per kilogram",
    "mg/l": "milligrams per litre",
    "ppm": "parts per million",
    "mS/cm": "millisiemens per centimetre",
    "Mohs": "Mohs hardness",
    "text": "words",
    "number": "plain number",
}


def unit_words(unit: str) -> str:
    """Return the words for a unit of the closed table.

    Parameters: `unit`, a symbol of `UNITS`. Raises `KeyError` for any other.

    >>> unit_words("g/cm3")
    'grams per cubic centimetre'
    """
    return UNITS[unit]
