"""The registry: every card is whole, every working tells itself, and what is wrong is said in words."""

from __future__ import annotations

import itertools
import json
import re
import subprocess
import sys

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import UNITS, Input, Range, Working
from mullbook.science.registry import (
    FORMULAS,
    BadInput,
    Formula,
    UnknownFormula,
    as_json,
    evaluate,
    parse_inputs,
)

ALL = [pytest.param(formula, id=name) for name, formula in FORMULAS.items()]
TABLES = {"sieve", "sieve_number"}
"""Formulas that look a table up: between its rows there is nothing."""
FORBIDDEN = re.compile(r"is safe|are safe|safe to|harmless|non-toxic|conforms to", re.IGNORECASE)


def worked_example(formula: Formula) -> Working:
    """Work the card's own example out, as the command line would."""
    pairs = [f"{name}={value}" for name, value in formula.card.example]
    return evaluate(formula.card.id, parse_inputs(formula.card.id, pairs))


@pytest.mark.parametrize("formula", ALL)
def test_every_card_is_whole(formula: Formula) -> None:
    card = formula.card
    assert card.unit in UNITS
    assert card.title
    assert card.statement
    assert card.source
    assert card.validity
    names = [parameter.name for parameter in card.parameters]
    assert len(names) == len(set(names))
    assert all(parameter.unit in UNITS and parameter.meaning for parameter in card.parameters)
    assert set(formula.turns) <= set(names)
    assert set(dict(card.example)) <= set(names)
    assert not FORBIDDEN.search(" ".join((card.title, card.statement, card.validity, card.caution)))


@pytest.mark.parametrize("formula", ALL)
def test_every_example_works_out(formula: Formula) -> None:
    working = worked_example(formula)
    assert working.result is not None
    assert working.unit == formula.card.unit
    assert "=" in working.steps
    assert "{" not in working.steps
    assert working.source == formula.card.source
    assert [item.name for item in working.inputs] == [item.name for item in formula.card.parameters]
    assert not FORBIDDEN.search(" ".join((working.steps, working.reading, *working.assumptions)))
    assert json.loads(json.dumps(as_json(working)))["formula"] == formula.card.id


@pytest.mark.parametrize("formula", ALL)
def test_without_inputs_nothing_is_guessed(formula: Formula) -> None:
    working = evaluate(formula.card.id, {})
    assert working.result is None
    assert re.fullmatch(r"Not derivable because .+ (is|are) not known\.", str(working.not_derivable))
    assert as_json(working)["result"] == {"not_derivable": working.not_derivable}


@pytest.mark.parametrize("formula", ALL)
@given(data=st.data())
def test_a_range_holds_every_point_in_it(formula: Formula, data: st.DataObject) -> None:
    """Widen each number of the example by up to a fifth and try points inside."""
    inputs = parse_inputs(formula.card.id, [f"{name}={value}" for name, value in formula.card.example])
    widened = {
        name: _widened(value, data.draw(st.floats(1, 1.2))) if isinstance(value, Range) else value
        for name, value in inputs.items()
    }
    wide = evaluate(formula.card.id, widened)
    if wide.result is None:
        return
    point = {
        name: data.draw(st.floats(value.low, value.high)) if isinstance(value, Range) else value
        for name, value in widened.items()
    }
    inner = evaluate(formula.card.id, point).result
    if inner is None and formula.card.id in TABLES:
        return
    assert inner is not None
    slack = 1e-9 * max(1, abs(wide.result.high))
    assert wide.result.low - slack <= inner.low <= inner.high <= wide.result.high + slack


def _widened(value: Range, factor: float) -> Range:
    high = value.high * factor
    return Range(value.low / factor, min(high, 1.0) if value.high <= 1 else high)


def test_a_point_is_told_with_its_numbers() -> None:
    working = evaluate("cpvc", {"oil_absorption": 60, "density": 3.2})
    assert working.steps == "1/(1 + 60 × 3.2/(100 × 0.935)) = 0.3275"
    assert working.assumptions[0] == "oil density taken as 0.935 g/cm3"
    assert working.result is not None
    assert working.result.is_point


def test_a_range_is_told_at_both_ends() -> None:
    working = evaluate("cpvc", {"oil_absorption": Range(50, 70), "density": Range(3.0, 3.4)})
    assert working.steps == (
        "from 1/(1 + 70 × 3.4/(100 × 0.935)) = 0.2821 to 1/(1 + 50 × 3/(100 × 0.935)) = 0.384"
    )


def test_an_input_keeps_its_source() -> None:
    density = Input("density", "g/cm3", Range(3.2, 3.2), source="gardner-1911", basis="published")
    working = evaluate("cpvc", {"oil_absorption": 60, "density": density})
    assert working.inputs[1] == density
    told = as_json(working)["inputs"]
    assert isinstance(told, dict)
    assert told["density"] == {"value": 3.2, "unit": "g/cm3", "source": "gardner-1911", "basis": "published"}


def test_an_input_in_another_unit_is_refused() -> None:
    with pytest.raises(BadInput, match=r"density is wanted in g/cm3, but mg/l was given"):
        evaluate("cpvc", {"oil_absorption": 60, "density": Input("density", "mg/l", Range(1, 2))})


def test_an_input_that_is_not_known_gives_not_derivable() -> None:
    unknown = Input("density", "g/cm3", None)
    working = evaluate("cpvc", {"oil_absorption": 60, "density": unknown})
    assert working.not_derivable == "Not derivable because density is not known."
    both = evaluate("cpvc", {})
    assert both.not_derivable == "Not derivable because oil absorption and density are not known."


@pytest.mark.parametrize(
    ("formula", "inputs", "words"),
    [
        (
            "cpvc",
            {"oil_absorption": 60, "density": -3.2},
            "density must be at least 0 g/cm3, but −3.2 was given",
        ),
        ("cpvc", {"oil_absorption": 60, "density": 0}, "density must be above 0"),
        ("reduced_pvc", {"pvc": 26, "cpvc": 0.5}, "a fraction, not a percentage: 0.26 for 26 %"),
        ("molar_mass", {"formula": "Xx2"}, "'Xx' is not the symbol of an element"),
        ("blend_density", {"shares": (1.0,), "densities": (1.0, 2.0)}, "the lists do not match"),
    ],
)
def test_values_out_of_bounds_give_words_and_no_number(
    formula: str, inputs: dict[str, float | str | tuple[float, ...]], words: str
) -> None:
    working = evaluate(formula, inputs)
    assert working.result is None
    assert words in str(working.not_derivable)


def test_an_unknown_formula_names_the_known_ones() -> None:
    with pytest.raises(UnknownFormula, match="There is no formula called 'cvpc'") as caught:
        evaluate("cvpc", {})
    assert "cpvc" in caught.value.candidates
    assert isinstance(caught.value, KeyError)


def test_an_unknown_parameter_names_the_known_ones() -> None:
    with pytest.raises(BadInput, match="cpvc has no parameter called 'oil'") as caught:
        evaluate("cpvc", {"oil": 3})
    assert caught.value.candidates == ("oil_absorption", "density", "oil_density")


@pytest.mark.parametrize(
    ("formula", "pairs", "expected"),
    [
        ("cpvc", ["oil_absorption=20..24"], {"oil_absorption": Range(20, 24)}),
        ("cpvc", ["density=3,2"], {"density": Range(3.2, 3.2)}),
        ("cpvc", ["density=3,0..3,4"], {"density": Range(3.0, 3.4)}),
        ("cpvc", ["oil-absorption = 1e2"], {"oil_absorption": Range(100, 100)}),
        ("volume_solids", ["masses=10,20,5"], {"masses": (10.0, 20.0, 5.0)}),
        ("volume_solids", ["masses=10,5;20"], {"masses": (10.5, 20.0)}),
        ("volume_solids", ["masses=10..12,20"], {"masses": (Range(10, 12), 20.0)}),
        ("mass_fraction", ["formula=PbCO3", "element=Pb"], {"formula": "PbCO3", "element": "Pb"}),
        ("limit_on_pigment", ["fraction=inhalable"], {"fraction": "inhalable"}),
    ],
)
def test_inputs_as_they_are_typed(formula: str, pairs: list[str], expected: dict[str, object]) -> None:
    assert parse_inputs(formula, pairs) == expected


@pytest.mark.parametrize(
    ("formula", "pair", "words"),
    [
        ("cpvc", "density", "'density' is not written as name=value"),
        ("cpvc", "density=", "is not written as name=value"),
        ("cpvc", "densty=3", "cpvc has no parameter called 'densty'"),
        ("cpvc", "density=heavy", "'heavy' is not a number"),
        ("cpvc", "density=3.2 g/cm3", "without the unit"),
        ("cpvc", "density=3,2,1", "'3,2,1' is not a number"),
        ("cpvc", "density=nan", "'nan' is not a number"),
        ("cpvc", "density=1_0", "'1_0' is not a number"),
        ("cpvc", "density=1e999", "'1e999' is not a number"),
        ("cpvc", "density=4..3", "runs backwards"),
        ("cpvc", "density=3..", "'' is not a number"),
        ("cpvc", "density=-1", "Density must be at least 0 g/cm3"),
        ("reduced_pvc", "pvc=26", "0.26 for 26 %"),
        ("volume_solids", "masses=10;20g", "'20g' is not a number. Write a list of numbers in g"),
        ("limit_on_pigment", "fraction=fume", "fraction is one of inhalable, respirable, total"),
    ],
)
def test_wrong_inputs_are_named_in_words(formula: str, pair: str, words: str) -> None:
    with pytest.raises(BadInput) as caught:
        parse_inputs(formula, [pair])
    assert words in caught.value.message


def test_ranges_in_lists_propagate() -> None:
    working = evaluate(
        "cpvc_of_blend",
        {"shares": (1.0, 1.0), "oil_absorptions": (Range(12, 16), Range(55, 63)), "densities": (5.65, 2.94)},
    )
    ends = [
        evaluate(
            "cpvc_of_blend",
            {"shares": (1.0, 1.0), "oil_absorptions": absorptions, "densities": (5.65, 2.94)},
        ).result
        for absorptions in ((16.0, 63.0), (12.0, 55.0))
    ]
    assert all(end is not None for end in ends)
    assert working.result == Range(ends[0].low, ends[1].low)  # type: ignore[union-attr]
    told = as_json(working)["inputs"]
    assert isinstance(told, dict)
    assert told["oil_absorptions"]["value"] == [{"low": 12, "high": 16}, {"low": 55, "high": 63}]


def test_too_many_ranges_are_refused_in_words() -> None:
    many = tuple(Range(1, 2) for _ in range(13))
    assert "more than 12 ranges" in str(evaluate("wet_film", {"spreading_rate": many}).not_derivable)


def test_the_registry_loads_at_once() -> None:
    clock = "import time; t = time.process_time()"
    code = f"{clock}; import mullbook.science.registry; print(time.process_time() - t)"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=_path()
    )
    assert float(done.stdout) < 0.2


def test_an_input_given_twice_is_refused() -> None:
    with pytest.raises(BadInput, match="density is given twice"):
        parse_inputs("cpvc", ["density=3", "density=4"])


@pytest.mark.parametrize(
    ("reduced", "words"),
    [
        (0.3, "glossy"),
        (0.6, "satin"),
        (0.85, "matt but bound"),
        (1.0, "matt but bound"),
        (1.01, "under-bound: chalks"),
        (Range(0.5, 1.2), "glossy to under-bound: chalks"),
    ],
)
def test_the_words_for_a_reduced_pvc(reduced: float | Range, words: str) -> None:
    """Common practice: below 0.6 glossy, to 0.85 satin, to 1 matt but bound, above it chalks."""
    assert evaluate("reduced_pvc", {"pvc": Range.of(reduced).times(0.4), "cpvc": 0.4}).reading == words
    if Range.of(reduced).high * 0.4 < 1:
        assert evaluate("pvc_for_reduced", {"reduced_pvc": reduced, "cpvc": 0.4}).reading == words


def test_a_working_paste_gives_a_bound_and_not_a_cpvc() -> None:
    working = evaluate("pvc_of_grind", {"oil_to_grind": 59, "density": 2.94})
    assert working.reading.startswith("critical PVC at least 0.35")


def test_asking_for_the_registry_loads_no_slow_library() -> None:
    code = "import sys, mullbook.science.registry; print(*(sys.modules.keys() & {'molmass', 'coloraide'}))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=_path()
    )
    assert done.stdout.strip() == ""


def _path() -> dict[str, str]:
    return {"PYTHONPATH": ":".join(entry for entry in sys.path if entry)}


def test_no_two_formulas_share_a_title() -> None:
    titles = [formula.card.title for formula in FORMULAS.values()]
    assert all(first != second for first, second in itertools.combinations(titles, 2))
