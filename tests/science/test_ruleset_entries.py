"""The rulesets on the real entries: group exclusions, metal contents, limits that were confirmed."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from mullbook import workflow
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Limit
from mullbook.model.values.ruleset import Component
from mullbook.science.chemistry import element_fractions
from mullbook.science.label import label
from mullbook.science.mixture import mixture_classes
from tests.science.clp import RULES
from tests.science.oracles import cases, number

ROOT = Path(__file__).parents[2]


@cache
def entries() -> Catalogue:
    """Every entry of the project."""
    return workflow.check_path(workflow.Roots.at(ROOT), None).catalogue


def held(name: str, share: float, place: str = "EU") -> Component:
    """A substance of the entries at a share, with the classes of one place."""
    substance = entries().substance[name]
    classes = tuple(each for each in entries().classes_of(substance) if each.place == place)
    elements = dict(element_fractions(substance.formula)) if substance.formula else {}
    return Component(name=name, share=share, classes=classes, elements=elements)


def statements(*components: Component) -> set[str]:
    """Hazard statements of a mixture."""
    return {each.statement for each in mixture_classes(components, RULES)}


@pytest.mark.parametrize(
    ("member", "group", "place"),
    [
        ("mercuric-sulfide", "mercury-compounds", "EU"),
        ("mercuric-sulfide", "mercury-compounds", "AU"),
        ("cadmium-sulfide", "cadmium-compounds", "EU"),
        ("arsenic-trioxide", "arsenic-compounds", "EU"),
        ("basic-lead-carbonate", "lead-compounds", "AU"),
    ],
)
def test_what_a_group_entry_excepts_gets_none_of_it(member: str, group: str, place: str) -> None:
    substance = entries().substance[member]
    assert group in substance.member_of
    lent = {id(each) for each in entries().substance[group].hazards.classes if each.place == place}
    assert not lent & {id(each) for each in entries().classes_of(substance)}


@pytest.mark.parametrize("member", ["mercuric-sulfide", "barium-sulfate", "iron-ferrocyanide"])
def test_what_is_excepted_by_name_has_no_eu_class(member: str) -> None:
    """Annex VI, Table 3: silence, not clearance; the verdict does not rest on it."""
    assert held(member, 1.0).classes == ()


def test_a_lead_compound_gets_the_group_classes_of_the_eu() -> None:
    assert {each.statement for each in held("basic-lead-carbonate", 1).classes} == {
        "H302", "H332", "H360Df", "H373", "H400", "H410",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("share", "statement", "given"),
    [
        (0.00374, "H360Df", False),
        (0.00375, "H360Df", True),
        (0.00623, "H373", False),
        (0.00625, "H373", True),
    ],
)
def test_note_1_counts_lead_not_the_compound(share: float, statement: str, given: bool) -> None:
    """2 PbCO3 Pb(OH)2 holds 80.14 % lead: 0.3 % and 0.5 % lead are 0.3744 % and 0.6239 % of it."""
    white = held("basic-lead-carbonate", share)
    assert white.elements["Pb"] == pytest.approx(0.8014, abs=1e-4)
    assert (statement in statements(white)) == given


def test_biocides_of_a_paint_are_named_below_their_limits() -> None:
    paint = [held("benzisothiazolinone", 0.0001), held("methylisothiazolinone", 0.000005)]
    drafted = label(paint, mixture_classes(paint, RULES), RULES)
    assert drafted.statements == ()
    named = [each.text for each in drafted.supplements if each.code == "EUH208"]
    assert [text.split(".")[0] for text in named] == [
        "Contains benzisothiazolinone",
        "Contains methylisothiazolinone",
    ]


def test_lead_white_paint_says_so() -> None:
    paint = [held("basic-lead-carbonate", 0.6), held("linseed-oil-glycerides", 0.4)]
    drafted = label(paint, mixture_classes(paint, RULES), RULES, volume=40)
    assert [each.code for each in drafted.supplements] == ["EUH201A"]
    assert drafted.signal_word == "Danger"
    assert len(drafted.precautions) == 6


def limit(name: str, of: str, jurisdiction: str, fraction: str) -> Limit:
    """The one 8-hour limit of a list and fraction."""
    (only,) = [
        each
        for each in entries().substance[name].limits
        if (each.list, each.jurisdiction, each.fraction, each.type) == (of, jurisdiction, fraction, "twa")
    ]
    return only


@pytest.mark.parametrize("row", cases("confirmed_limits"))
def test_limits_that_were_confirmed(row: dict[str, str]) -> None:
    found = limit(row["substance"], row["list"], row["jurisdiction"], row["fraction"])
    assert found.value.value == number(row, "value")
    assert found.value.source == row["cited"]
    assert (found.in_force or "") == row["in_force"]


def test_a_limit_not_yet_in_force_is_the_stricter_one() -> None:
    """Cadmium: 0.004 mg/m3 until 11 July 2027, 0.001 from then on; the pages reckon with 0.001."""
    found = limit("cadmium-compounds", "EU binding OELV", "EU", "inhalable")
    assert found.note is not None
    assert "0.004" in found.note
