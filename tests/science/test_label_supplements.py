"""Supplemental statements: allergens below their limit, lead in paint, data sheets on request."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import Classification, Component
from mullbook.science.label import label, notices, supplements
from mullbook.science.mixture import mixture_classes
from tests.science.clp import ORAL, RULES, US_RULES, component, hazard

ALLERGY = "May produce an allergic reaction"
BIT = hazard("skin-sensitisation", "1", "H317", at_least=0.0005)
MIT = hazard("skin-sensitisation", "1A", "H317", at_least=0.000015)
COBALT = hazard("skin-sensitisation", "1", "H317")
STRONG = hazard("skin-sensitisation", "1A", "H317")
AIRWAYS = hazard("respiratory-sensitisation", "1B", "H334")


def told(*components: Component, rules: Classification = RULES) -> list[tuple[str | None, str]]:
    """Statements on named components, without those on data sheets."""
    found = notices(components, mixture_classes(components, rules), rules)
    return [(each.code, each.text) for each in found if each.code != "EUH210"]


@pytest.mark.parametrize(
    ("share", "of", "named"),
    [
        pytest.param(0.00005, BIT, True, id="a tenth of 0.05 %"),
        pytest.param(0.000049, BIT, False, id="below a tenth of 0.05 %"),
        pytest.param(0.0000015, MIT, True, id="a tenth of 0.0015 %"),
        pytest.param(0.0000014, MIT, False, id="below a tenth of 0.0015 %"),
        pytest.param(0.001, COBALT, True, id="category 1 without a limit of its own"),
        pytest.param(0.0009, COBALT, False, id="category 1 below 0.1 %"),
        pytest.param(0.0001, STRONG, True, id="category 1A without a limit of its own"),
        pytest.param(0.00009, STRONG, False, id="category 1A below 0.01 %"),
        pytest.param(0.001, AIRWAYS, True, id="the airways"),
    ],
)
def test_elicitation(share: float, of: object, named: bool) -> None:
    """CLP, Annex I, Table 3.4.6, and Annex II 2.8."""
    part = component("the part", share, of)  # type: ignore[arg-type]
    expected = [("EUH208", f"Contains the part. {ALLERGY}")] if named else []
    assert told(part, component("water", 0.9)) == expected


def test_a_high_limit_of_its_own_never_raises_the_elicitation_limit() -> None:
    """The editions differ for limits above 0.1 %; the lower figure counts."""
    mild = hazard("skin-sensitisation", "1", "H317", at_least=0.05)
    assert told(component("mild", 0.001, mild)) == [("EUH208", f"Contains mild. {ALLERGY}")]


def test_several_allergens_are_each_named_once() -> None:
    both = component("both", 0.002, COBALT, AIRWAYS)
    assert [text for _, text in told(component("bit", 0.0001, BIT), both)] == [
        f"Contains bit. {ALLERGY}",
        f"Contains both. {ALLERGY}",
    ]


def test_a_mixture_that_is_classified_names_the_other_allergens_only() -> None:
    """CLP, Annex II 2.8, second paragraph."""
    found = told(component("cobalt", 0.02, COBALT), component("bit", 0.0001, BIT))
    assert found == [(None, "Contains bit"), (None, "Contains cobalt")]


@pytest.mark.parametrize(
    ("share", "volume", "expected"),
    [
        (0.003, None, ["EUH201"]),
        (0.003, 125.0, ["EUH201"]),
        (0.003, 124.0, ["EUH201A"]),
        (0.0015, None, []),
        (0.0016, None, ["EUH201"]),
    ],
)
def test_lead_in_paint(share: float, volume: float | None, expected: list[str]) -> None:
    """CLP, Annex II 2.1: more than 0.15 % of the whole as lead; a pack under 125 ml may say it shorter."""
    part = component("lead", share, elements={"Pb": 1.0})
    assert [each.code for each in supplements([part], RULES, volume)] == expected


def test_lead_counts_as_the_metal_over_all_parts() -> None:
    white = component("basic lead carbonate", 0.0012, elements={"Pb": 0.8014})
    drier = component("drier", 0.002, elements={"Pb": 0.4})
    (found,) = supplements([white, drier], RULES)
    assert (
        found.text
        == "Contains lead. Should not be used on surfaces liable to be chewed or sucked by children"
    )
    assert found.why == "Pb 0.001762, asked for above 0.15 % (Annex II 2.1)"


def test_a_lead_compound_of_unknown_content_counts_as_all_lead() -> None:
    part = component("lead compound", 0.002, hazard("reproductive-toxicity", "1A", "H360Df", metal="Pb"))
    assert [each.code for each in supplements([part], RULES)] == ["EUH201"]


def test_annulled_statements_are_kept_but_never_asked_for() -> None:
    """Titanium dioxide, EU: annulled on 23 November 2022 (T-279/20, T-283/20, T-288/20)."""
    rows = {row.code: row.annulled for row in RULES.supplements}
    assert rows["EUH211"] == rows["EUH212"] == "2022-11-23"
    white = component("titanium dioxide", 0.5, elements={"Ti": 0.6})
    assert label([white], [], RULES).supplements == ()


@pytest.mark.parametrize(
    ("of", "share", "asked"),
    [
        (hazard("carcinogenicity", "2", "H351"), 0.001, True),
        (hazard("carcinogenicity", "2", "H351"), 0.0009, False),
        (hazard("reproductive-toxicity", "1A", "H360"), 0.001, True),
        (hazard("reproductive-toxicity", "2", "H361"), 0.02, True),
        (hazard(ORAL, "4", "H302"), 0.01, True),
        (hazard(ORAL, "4", "H302"), 0.009, False),
        (MIT, 0.0000015, True),
    ],
)
def test_data_sheet_on_request(of: object, share: float, asked: bool) -> None:
    """CLP, Annex II 2.10: for mixtures that are not classified at all."""
    parts = [component("part", share, of), component("water", 0.9)]  # type: ignore[arg-type]
    assert not mixture_classes(parts, RULES)
    codes = [each.code for each in notices(parts, [], RULES)]
    assert codes.count("EUH210") == int(asked)


def test_a_classified_mixture_needs_no_request() -> None:
    parts = [component("part", 0.02, hazard("carcinogenicity", "2", "H351"))]
    assert list(notices(parts, mixture_classes(parts, RULES), RULES)) == []


def test_what_stands_on_memory_alone_is_marked() -> None:
    remembered = component("part", 0.002, hazard("skin-sensitisation", "1", "H317", basis="from-memory"))
    assert [each.remembered for each in notices([remembered], [], RULES)] == [True, True]


def test_the_us_has_no_such_statements() -> None:
    parts = [component("bit", 0.0001, BIT), component("lead", 0.01, elements={"Pb": 1.0})]
    drafted = label(parts, mixture_classes(parts, US_RULES), US_RULES)
    assert drafted.supplements == ()
    assert drafted.not_judged == ("skin-sensitisation",)


def test_unknown_acute_toxicity_is_on_the_label() -> None:
    parts = [component("earth", 0.02, known=False), component("water", 0.98)]
    assert label(parts, [], RULES).unknown == (
        "2 % of the mixture consists of components of unknown acute toxicity"
    )
    assert label([component("earth", 0.009, known=False)], [], RULES).unknown is None
