"""Formulas of sieves and grind gauges."""

from __future__ import annotations

from collections.abc import Mapping

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import fineness
from mullbook.science.formula import Formula, Inputs, Plain, number_text, plain_text, range_words

_TABLES = "ASTM E11 and ISO 3310-1, openings as in the tables of the fluids library 1.3.1"
_SCALE = "Hegman scale, 0 to 8 over 4 thousandths of an inch, as an encyclopaedia's article tabulates it"
_CONVENTION = ParameterCard(
    "convention",
    "text",
    "inch: a block 4 thousandths of an inch deep, 101.6 µm; metric: a block 100 µm deep",
    "inch",
    shape="text",
    choices=tuple(fineness.MICROMETRES_PER_HEGMAN),
)


def sieve_words(opening: float) -> str:
    """Return what a standard opening is called in each standard.

    >>> sieve_words(45), sieve_words(100)
    ('No. 325 of ASTM E11; 45 µm of ISO 3310-1', '100 µm of ISO 3310-1; not in ASTM E11')
    """
    mesh = next((number for number, size in fineness.E11.items() if size == opening), None)
    iso = f"{number_text(opening)} µm of ISO 3310-1"
    if mesh is None:
        return f"{iso}; not in ASTM E11"
    return f"No. {number_text(mesh)} of ASTM E11" + (f"; {iso}" if opening in fineness.ISO_3310_1 else "")


def _sieve_words(result: Range, inputs: Inputs) -> str:
    words = [sieve_words(each) for each in sorted({result.low, result.high})]
    asked = inputs["opening"]
    if isinstance(asked, Range) and asked.is_point and asked.low != result.low:
        words.append(f"{number_text(asked.low)} µm is the opening of an older table")
    return "; ".join(words)


def _sieve_steps(point: Mapping[str, Plain]) -> str:
    mesh = point["mesh"]
    return (
        f"No. {plain_text(mesh)}" if mesh is not None else f"the sieve of {plain_text(point['opening'])} µm"
    )


def _number_words(result: Range, _: Inputs) -> str:
    return "; ".join(
        sieve_words(fineness.opening_of_mesh(each)) for each in sorted({result.low, result.high})
    )


def _depth_words(_: Range, inputs: Inputs) -> str:
    hegman = inputs["hegman"]
    assert isinstance(hegman, Range)
    both = [
        range_words(
            Range(
                fineness.depth_of_hegman(hegman.high, convention),
                fineness.depth_of_hegman(hegman.low, convention),
            )
        )
        for convention in fineness.MICROMETRES_PER_HEGMAN
    ]
    return f"{both[0]} µm on a block of 101.6 µm (4 mil), {both[1]} µm on a block of 100 µm"


def _hegman_words(_: Range, inputs: Inputs) -> str:
    depth = inputs["depth"]
    assert isinstance(depth, Range)
    told = [
        range_words(Range(max(0.0, 8 - depth.high / unit), max(0.0, 8 - depth.low / unit)))
        for unit in fineness.MICROMETRES_PER_HEGMAN.values()
    ]
    return f"{told[0]} on a block of 101.6 µm (4 mil), {told[1]} on a block of 100 µm"


SIEVE = Formula(
    FormulaCard(
        id="sieve",
        title="Opening of a sieve",
        statement="opening of the standard sieve with this number, or with this opening in an older table",
        parameters=(
            ParameterCard("mesh", "number", "number on the rim, ASTM E11", low=0, optional=True),
            ParameterCard("opening", "um", "or the opening on the rim", low=0, optional=True),
        ),
        unit="um",
        source=_TABLES,
        validity="20 µm to 5.6 mm; an opening within 3 % of today's counts as its older value",
        example=(("mesh", "325"),),
        caution="Mesh counts of sieve cloth without a standard's name on the rim can mean other openings.",
    ),
    fineness.standard_opening,
    _sieve_steps,
    reading=_sieve_words,
)


SIEVE_NUMBER = Formula(
    FormulaCard(
        id="sieve_number",
        title="Number of a sieve",
        statement="number of the ASTM E11 sieve with this opening, or with this opening in an older table",
        parameters=(ParameterCard("opening", "um", "opening of the sieve", low=0),),
        unit="number",
        source=_TABLES,
        validity="20 µm to 5.6 mm; an opening within 3 % of today's counts as its older value",
        example=(("opening", "75"),),
    ),
    fineness.mesh_of_opening,
    "the sieve of {opening} µm",
    reading=_number_words,
)

GRIND_GAUGE = Formula(
    FormulaCard(
        id="grind_gauge",
        title="Grind gauge: size at a Hegman reading",
        statement="size = 12.7 µm × (8 \N{MINUS SIGN} H), on a block of 100 µm 12.5 µm × that",
        parameters=(
            ParameterCard("hegman", "number", "Hegman reading, 8 the finest", low=0, high=8),
            _CONVENTION,
        ),
        unit="um",
        source=_SCALE,
        validity="not for flakes; reads the coarsest grains, not the mean",
        example=(("hegman", "5"),),
        caution="The two blocks differ by 1.6 %: say which one was read. Other scales run the other way.",
    ),
    fineness.depth_of_hegman,
    lambda point: (
        f"{number_text(fineness.MICROMETRES_PER_HEGMAN[str(point['convention'])])}"
        f" × (8 \N{MINUS SIGN} {point['hegman']:g})"
    ),
    reading=_depth_words,
)

HEGMAN = Formula(
    FormulaCard(
        id="hegman",
        title="Grind gauge: Hegman reading of a size",
        statement="H = 8 \N{MINUS SIGN} size/12.7 µm, or 8 \N{MINUS SIGN} size/12.5 µm on a block of 100 µm",
        parameters=(ParameterCard("depth", "um", "size at which specks begin", low=0), _CONVENTION),
        unit="number",
        source=_SCALE,
        validity="to the depth of the groove; not for flakes",
        example=(("depth", "25"), ("convention", "metric")),
    ),
    fineness.hegman_of_depth,
    lambda point: (
        f"8 \N{MINUS SIGN} {point['depth']:g}"
        f"/{number_text(fineness.MICROMETRES_PER_HEGMAN[str(point['convention'])])}"
    ),
    reading=_hegman_words,
)

FORMULAS = (SIEVE, SIEVE_NUMBER, GRIND_GAUGE, HEGMAN)
