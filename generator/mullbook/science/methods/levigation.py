"""Formulas of washing and sieving: what goes over, what a dense grain takes along, salts, sieves."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from mullbook.model.values import FormulaCard, ParameterCard, Range
from mullbook.science import levigation, settling, sieving
from mullbook.science.formula import Formula, Inputs, number_text, numbers, plain_text, range_words
from mullbook.science.methods.settling import ROUND

_RETAINED = ParameterCard(
    "retained", "fraction", "part of the water left behind at each pour", 0.2, low=0, high=0.99
)
_CASCADE = (
    "stirred settling, as in the decanting of soils for particle sizes; velocity as for `settling_velocity`"
)
_DILUTION = "dilution: conductivity taken as proportional to the dissolved salts"


def _poured_steps(point: Mapping[str, Any]) -> str:
    velocity = settling.settling_velocity(
        point["size"], point["density"], point["temperature"], solids_fraction=point["solids_fraction"]
    )
    fallen, depth = number_text(velocity * point["time"] * 6000, 3), number_text(point["depth"])
    left = f"1 \N{MINUS SIGN} {number_text(point['retained'])}"
    over = f"({left}) × max(0, 1 \N{MINUS SIGN} {fallen}/{depth})"
    return (
        f"fallen {fallen} of {depth} cm; 1 \N{MINUS SIGN} (1 \N{MINUS SIGN} {over})"
        f"^{number_text(point['rounds'])}"
    )


def _equal_steps(point: Mapping[str, Any]) -> str:
    velocity = settling.settling_velocity(point["size"], point["density"], point["temperature"])
    return f"both sink {number_text(velocity)} m/s; the size"


def _wash_words(result: Range, inputs: Inputs) -> str:
    return f"{range_words(result)} changes of water: measure before each; the reading decides, not the count"


def _passing_steps(point: Mapping[str, Any]) -> str:
    nest = zip(point["openings"], point["masses"], strict=True)
    finer = [mass for opening, mass in nest if opening < point["opening"]]
    told = " + ".join(number_text(each) for each in (*finer, point["pan"]))
    return f"({told}) g/{number_text(sum(point['masses']) + point['pan'])} g"


RETAINED_WATER = Formula(
    FormulaCard(
        id="retained_water",
        title="Water left behind at a pour",
        statement="retained = height left standing/(height left standing + height poured off)",
        parameters=(
            ParameterCard("kept", "cm", "height of water and mud left below the spout or siphon", low=0),
            ParameterCard("depth", "cm", "height poured off", low=0),
        ),
        unit="fraction",
        source="straight-sided vessel; what the mud holds counts as water left behind",
        validity="jars and buckets with straight sides",
        example=(("kept", "2.5"), ("depth", "10")),
    ),
    levigation.retained_water,
    "{kept} cm/({kept} + {depth}) cm",
)

POURED_SHARE = Formula(
    FormulaCard(
        id="poured_share",
        title="Part of the grains that goes over",
        statement=(
            "share = 1 \N{MINUS SIGN} (1 \N{MINUS SIGN} (1 \N{MINUS SIGN} retained)"
            " × max(0, 1 \N{MINUS SIGN} v × time/depth))^rounds"
        ),
        parameters=(
            ParameterCard("size", "um", "diameter of the grains", low=0, high=settling.LARGEST_SIZE),
            ParameterCard("time", "min", "time of standing still", low=0),
            ParameterCard("depth", "cm", "height poured off", low=0),
            ParameterCard("density", "g/cm3", "density of the grains themselves", low=0),
            ParameterCard("temperature", "C", "temperature of the water", low=0, high=50),
            _RETAINED,
            ParameterCard("rounds", "number", "times it is filled up, stirred and poured", 1, low=0, high=50),
            ParameterCard(
                "solids_fraction", "fraction", "solids in the slurry, by volume", 0.0, low=0, high=0.1
            ),
        ),
        unit="fraction",
        source=_CASCADE,
        validity="grains evenly stirred up, still water, up to 0.1 solids by volume",
        example=(
            ("size", "10"),
            ("time", "4.64"),
            ("depth", "10"),
            ("density", "2.65"),
            ("temperature", "20"),
        ),
        caution="One pour never parts cleanly: fine grains that began low have sunk too. Hence the rounds.",
    ),
    levigation.poured_share,
    _poured_steps,
    assumptions=(ROUND,),
)

EQUAL_SETTLING = Formula(
    FormulaCard(
        id="equal_settling",
        title="Size of a dense grain that sinks as fast",
        statement="the size of the other mineral whose velocity of sinking is the same",
        parameters=(
            ParameterCard("size", "um", "diameter of the first grains", low=0, high=settling.LARGEST_SIZE),
            ParameterCard("density", "g/cm3", "their density", low=0),
            ParameterCard("other_density", "g/cm3", "density of the other mineral", low=0),
            ParameterCard("temperature", "C", "temperature of the water", 20, low=0, high=50),
        ),
        unit="um",
        source="drag law as for `settling_velocity`",
        validity="round grains, thin slurry",
        example=(("size", "45"), ("density", "2.65"), ("other_density", "5.26")),
        caution="A pour free of quartz above a size carries dense grains only up to this smaller one.",
    ),
    levigation.equal_settling,
    _equal_steps,
    assumptions=(ROUND,),
)

WASH_CONDUCTIVITY = Formula(
    FormulaCard(
        id="wash_conductivity",
        title="Conductivity after some washes",
        statement="conductivity = wash water + (first \N{MINUS SIGN} wash water) × retained^washes",
        parameters=(
            ParameterCard("conductivity", "mS/cm", "of the clear water over the settled earth", low=0),
            ParameterCard("wash_water", "mS/cm", "of the water it is washed with", low=0),
            _RETAINED,
            ParameterCard("washes", "number", "changes of water", low=0, high=50),
        ),
        unit="mS/cm",
        source=_DILUTION,
        validity="salts that dissolve at once; gypsum goes on dissolving and falls more slowly",
        example=(("conductivity", "1.8"), ("wash_water", "0.3"), ("washes", "2")),
    ),
    levigation.wash_conductivity,
    "{wash_water} + ({conductivity} \N{MINUS SIGN} {wash_water}) × {retained}^{washes}",
)

WASHES = Formula(
    FormulaCard(
        id="washes",
        title="Number of washes",
        statement=(
            "washes = ln((target \N{MINUS SIGN} wash water)/(first \N{MINUS SIGN} wash water))/ln(retained),"
            " rounded up"
        ),
        parameters=(
            ParameterCard("conductivity", "mS/cm", "of the clear water over the settled earth", low=0),
            ParameterCard("wash_water", "mS/cm", "of the water it is washed with", low=0),
            _RETAINED,
            ParameterCard("target", "mS/cm", "at which washing stops, above that of the wash water", low=0),
        ),
        unit="number",
        source=_DILUTION,
        validity="salts that dissolve at once; tap water never washes below itself",
        example=(("conductivity", "1.8"), ("wash_water", "0.3"), ("target", "0.4")),
    ),
    levigation.washes_needed,
    "ln(({target} \N{MINUS SIGN} {wash_water})"
    "/({conductivity} \N{MINUS SIGN} {wash_water}))/ln({retained}), rounded up",
    reading=_wash_words,
)

PERCENT_PASSING = Formula(
    FormulaCard(
        id="percent_passing",
        title="Part that passes a sieve",
        statement="passing = all that lay on finer sieves and in the pan/all that was weighed",
        parameters=(
            ParameterCard("openings", "um", "openings of the nest", shape="list", low=0),
            ParameterCard("masses", "g", "what lay on each, in the same order", shape="list", low=0),
            ParameterCard("pan", "g", "what lay in the pan", low=0),
            ParameterCard("opening", "um", "the sieve asked about", low=0),
        ),
        unit="fraction",
        source="sieve analysis; openings of ASTM E11 and ISO 3310-1 as under `sieve`",
        validity="sieves of one nest, washed or shaken to the end, weighed dry",
        example=(("openings", "150,75,45"), ("masses", "2,8,12"), ("pan", "78"), ("opening", "75")),
    ),
    sieving.percent_passing,
    _passing_steps,
)

SIEVE_LOSS = Formula(
    FormulaCard(
        id="sieve_loss",
        title="Loss in sieving",
        statement="loss = 1 \N{MINUS SIGN} all that was found/what was put on",
        parameters=(
            ParameterCard("charged", "g", "put on the nest, dry", low=0),
            ParameterCard("weighed", "g", "found on the sieves and in the pan", shape="list", low=0),
        ),
        unit="fraction",
        source="balance of masses",
        validity="both weighed dry; above 2 % weigh again, or look for the dust",
        example=(("charged", "100"), ("weighed", "2,8,12,77")),
    ),
    sieving.sieve_loss,
    lambda point: (
        f"1 \N{MINUS SIGN} {number_text(sum(numbers(point, 'weighed')))} g/{plain_text(point['charged'])} g"
    ),
)

KEPT_SHARE = Formula(
    FormulaCard(
        id="kept_share",
        title="Yield of a washing",
        statement="yield = what was kept, dry/what went in, dry",
        parameters=(
            ParameterCard("kept", "g", "dry mass of the fraction that was kept", low=0),
            ParameterCard("charged", "g", "dry mass of the earth that went in", low=0),
        ),
        unit="fraction",
        source="balance of masses",
        validity="both dried alike; salts that were washed out are lost with the water",
        example=(("kept", "150"), ("charged", "300")),
    ),
    levigation.kept_share,
    "{kept} g/{charged} g",
)

FORMULAS = (
    KEPT_SHARE,
    RETAINED_WATER,
    POURED_SHARE,
    EQUAL_SETTLING,
    WASHES,
    WASH_CONDUCTIVITY,
    PERCENT_PASSING,
    SIEVE_LOSS,
)
