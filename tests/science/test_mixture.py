"""Classes of mixtures, against published worked examples and the wording of EU CLP, Annex I."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values.hazard import SpecificLimit
from mullbook.model.values.ruleset import Component
from mullbook.science.acute import ate_mix, unknown_acute_toxicity
from mullbook.science.mixture import mixture_classes
from tests.science.clp import EYE, ORAL, RULES, SKIN, component, hazard
from tests.science.oracles import cases, number

WATER = component("water", 0.5)


def found(*components: Component) -> list[tuple[str, str, str]]:
    """Classes of a mixture without their words."""
    return [(each.hazard, each.category, each.statement) for each in mixture_classes(components, RULES)]


def numbers(row: dict[str, str], column: str) -> list[float]:
    """Return the numbers in one cell."""
    return [float(part) for part in row[column].split()]


@pytest.mark.parametrize("row", cases("ate_mix"))
def test_estimates_of_the_published_examples(row: dict[str, str]) -> None:
    estimate = ate_mix(numbers(row, "shares"), numbers(row, "estimates"))
    assert estimate == pytest.approx(number(row, "estimate"), rel=1e-3)


@pytest.mark.parametrize("row", cases("ate_mix"))
def test_categories_of_the_published_examples(row: dict[str, str]) -> None:
    components = [
        component(f"ingredient {place}", share, hazard(ORAL, "4", "H302"), acute_estimates={ORAL: estimate})
        for place, (share, estimate) in enumerate(
            zip(numbers(row, "shares"), numbers(row, "estimates"), strict=True)
        )
    ]
    assert [category for _, category, _ in found(*components)] == row["category"].split()


def test_a_category_alone_counts_by_its_converted_estimate() -> None:
    """CLP, Annex I, table 3.1.2: category 3 by mouth counts as 100 mg/kg; a third of it makes 300."""
    toxic = hazard(ORAL, "3", "H301")
    assert found(component("toxic", 0.34, toxic), WATER) == [(ORAL, "3", "H301")]
    assert found(component("toxic", 0.30, toxic), WATER) == [(ORAL, "4", "H302")]
    assert found(component("toxic", 0.0009, toxic), WATER) == []


def test_an_unknown_part_makes_the_estimate_stricter_and_is_stated() -> None:
    """CLP, Annex I 3.1.3.6.2: more than a tenth unknown corrects the sum; from 1 % on it is stated."""
    toxic = component("toxic", 0.04, hazard(ORAL, "3", "H301"))
    earth = component("unknown earth", 0.5, known=False)
    assert found(toxic, WATER) == []
    assert found(toxic, earth) == [(ORAL, "4", "H302")]
    assert unknown_acute_toxicity([toxic, earth], RULES) == (
        "50 % of the mixture consists of components of unknown acute toxicity"
    )
    assert unknown_acute_toxicity([toxic, WATER], RULES) is None


def test_a_thickener_below_the_cut_off_does_not_count() -> None:
    """ECHA helpdesk, seminar of 2012-03-05, case 1: 0.8 % of an irritant is not taken into account."""
    assert (
        found(component("surfactant", 0.092), component("thickener", 0.008, hazard(SKIN, "2", "H315"))) == []
    )


@pytest.mark.parametrize(
    ("share", "expected"),
    [(0.0009, []), (0.001, ["1A"]), (0.5, ["1A"])],
)
def test_a_carcinogen_counts_from_a_tenth_of_a_per_cent(share: float, expected: list[str]) -> None:
    """CLP, Annex I, table 3.6.2."""
    quartz = component("quartz", share, hazard("carcinogenicity", "1A", "H350i"))
    assert [category for _, category, _ in found(quartz)] == expected


def test_carcinogens_do_not_add_up() -> None:
    parts = [component(f"part {n}", 0.0009, hazard("carcinogenicity", "1B", "H350")) for n in range(5)]
    assert found(*parts) == []


def test_the_component_keeps_its_own_statement() -> None:
    quartz = component("quartz", 0.01, hazard("carcinogenicity", "1A", "H350i"))
    assert found(quartz) == [("carcinogenicity", "1A", "H350i")]


@pytest.mark.parametrize(
    ("share", "expected"),
    [(0.009, []), (0.01, [("stot-repeated", "2", "H373")]), (0.10, [("stot-repeated", "1", "H372")])],
)
def test_organ_damage_falls_by_a_category_below_a_tenth(
    share: float, expected: list[tuple[str, str, str]]
) -> None:
    """CLP, Annex I, table 3.9.4; only the most severe category stays."""
    assert found(component("toxic", share, hazard("stot-repeated", "1", "H372"))) == expected


def test_a_specific_limit_stands_in_place_of_the_cut_off() -> None:
    strict = hazard("carcinogenicity", "1B", "H350", at_least=0.0001)
    mild = hazard("carcinogenicity", "1B", "H350", at_least=0.05)
    assert found(component("strict", 0.0002, strict)) == [("carcinogenicity", "1B", "H350")]
    assert found(component("mild", 0.04, mild)) == []
    (only,) = mixture_classes([component("strict", 0.0002, strict)], RULES)
    assert only.rule == "specific limit 0.01 % of strict"


def test_stated_lesser_categories_stand_in_place_of_the_generic_ones() -> None:
    """Cadmium sulfide in Annex VI: organ damage 1 from 10 %, 2 from 0.1 %."""
    lesser = (SpecificLimit(0.001, "2", "H373"),)
    cadmium = hazard("stot-repeated", "1", "H372", at_least=0.10, lesser=lesser)
    assert found(component("cadmium sulfide", 0.002, cadmium)) == [("stot-repeated", "2", "H373")]
    assert found(component("cadmium sulfide", 0.2, cadmium)) == [("stot-repeated", "1", "H372")]
    assert found(component("cadmium sulfide", 0.0009, cadmium)) == []


def test_note_1_counts_the_metal() -> None:
    """CLP, Annex VI, note 1: the share is that of the metal. 0.37 % lead carbonate holds 0.29 % lead."""
    lead = hazard("reproductive-toxicity", "1A", "H360Df", metal="Pb")
    elements = {"Pb": 0.775}
    assert found(component("lead carbonate", 0.0037, lead, elements=elements)) == []
    assert found(component("lead carbonate", 0.0039, lead, elements=elements)) == [
        ("reproductive-toxicity", "1A", "H360Df")
    ]
    (unknown,) = mixture_classes([component("lead compound", 0.0037, lead)], RULES)
    assert "content of Pb not known, taken as all of it" in unknown.figures


def test_effects_of_their_own_stay_beside_a_more_severe_category() -> None:
    both = component(
        "lead compound",
        0.1,
        hazard("reproductive-toxicity", "1A", "H360"),
        hazard("reproductive-toxicity", "lactation", "H362"),
    )
    assert [statement for _, _, statement in found(both)] == ["H360", "H362"]


def test_irritants_add_up_with_corrosives_ten_fold() -> None:
    """CLP, Annex I, table 3.2.3: 10 x category 1 + category 2 from 10 %."""
    corrosive = component("corrosive", 0.01, hazard(SKIN, "1B", "H314"))
    irritant = component("irritant", 0.01, hazard(SKIN, "2", "H315"))
    assert (SKIN, "2", "H315") in found(corrosive)
    assert found(irritant) == []
    assert (SKIN, "1B", "H314") in found(component("corrosive", 0.05, hazard(SKIN, "1B", "H314")))
    assert (SKIN, "1", "H314") in found(component("corrosive", 0.05, hazard(SKIN, "1", "H314")))


def test_corrosives_of_unlike_parts_take_the_milder_part() -> None:
    """CLP, Annex I, table 3.2.3, note: 1A and 1B together from 5 % give 1B."""
    strong = component("strong", 0.03, hazard(SKIN, "1A", "H314"))
    weaker = component("weaker", 0.03, hazard(SKIN, "1B", "H314"))
    assert (SKIN, "1B", "H314") in found(strong, weaker)


def test_a_corrosive_with_limits_of_its_own_is_not_judged_by_the_generic_ones() -> None:
    """Hydrogen peroxide in Annex VI, from memory: 1A from 70 %, 1B from 50 %, irritant from 35 %."""
    lesser = (SpecificLimit(0.5, "1B", "H314"), SpecificLimit(0.35, "2", "H315"))
    peroxide = hazard(SKIN, "1A", "H314", at_least=0.7, lesser=lesser)
    skin = [category for name, category, _ in found(component("peroxide", 0.4, peroxide)) if name == SKIN]
    assert skin == ["2"]
    assert (SKIN, "1B", "H314") in found(component("peroxide", 0.6, peroxide))
    assert SKIN not in [name for name, _, _ in found(component("peroxide", 0.3, peroxide))]


def test_a_component_counts_once_for_the_eye() -> None:
    """CLP, Annex I, table 3.3.3: skin corrosives count for the eye; one that has both classes counts once."""
    both = component("lime", 0.02, hazard(SKIN, "1B", "H314"), hazard(EYE, "1", "H318"))
    assert (EYE, "1", "H318") not in found(both)
    assert (EYE, "2", "H319") in found(both)


def test_a_limit_of_its_own_scales_a_share_in_a_sum() -> None:
    """At its own limit a component fills the whole sum; half of it fills half."""
    strong = hazard(EYE, "2", "H319", at_least=0.02)
    plain = hazard(EYE, "2", "H319")
    assert found(component("strong", 0.02, strong)) == [(EYE, "2", "H319")]
    assert found(component("strong", 0.01, strong)) == []
    assert found(component("strong", 0.01, strong), component("plain", 0.05, plain)) == [(EYE, "2", "H319")]


def test_m_factors_weigh_what_harms_water() -> None:
    """CLP, Annex I, tables 4.1.1 and 4.1.2: share times M from 25 %; ten times that for one category less."""
    chronic = hazard("aquatic-chronic", "1", "H410", m_factor=10)
    assert found(component("copper", 0.025, chronic)) == [("aquatic-chronic", "1", "H410")]
    assert found(component("copper", 0.0025, chronic)) == [("aquatic-chronic", "2", "H411")]
    assert found(component("copper", 0.00009, chronic)) == []


def test_what_stands_on_memory_alone_is_marked() -> None:
    remembered = hazard("carcinogenicity", "2", "H351", basis="from-memory")
    sure = hazard("carcinogenicity", "2", "H351")
    (only,) = mixture_classes([component("one", 0.1, remembered)], RULES)
    assert only.remembered
    (both,) = mixture_classes([component("one", 0.1, remembered), component("two", 0.1, sure)], RULES)
    assert not both.remembered


def test_a_sum_that_memory_alone_completes_is_marked() -> None:
    irritants = [
        component("known", 0.08, hazard(SKIN, "2", "H315")),
        component("remembered", 0.05, hazard(SKIN, "2", "H315", basis="from-memory")),
    ]
    (only,) = mixture_classes(irritants, RULES)
    assert only.remembered
    assert only.figures == "known 0.08 + remembered 0.05 = 0.13, limit 0.1"


def test_shares_that_reach_the_limit_only_but_for_binary_fractions_count() -> None:
    parts = [component(name, 0.1 / 3, hazard(SKIN, "2", "H315")) for name in "abc"]
    assert found(*parts) == [(SKIN, "2", "H315")]


KINDS = [
    hazard("carcinogenicity", "1A", "H350"),
    hazard("carcinogenicity", "2", "H351"),
    hazard("stot-repeated", "1", "H372"),
    hazard(SKIN, "1B", "H314"),
    hazard(SKIN, "2", "H315"),
    hazard(EYE, "1", "H318"),
    hazard(ORAL, "3", "H301"),
    hazard(ORAL, "4", "H302"),
    hazard("aquatic-chronic", "1", "H410", m_factor=10),
]

mixtures = st.lists(
    st.tuples(st.floats(0, 1), st.lists(st.sampled_from(KINDS), max_size=3)), min_size=1, max_size=5
).map(lambda parts: [component(f"part {n}", share, *classes) for n, (share, classes) in enumerate(parts)])


@given(mixtures, st.randoms())
def test_the_order_of_components_does_not_matter(parts: list[Component], order: object) -> None:
    shuffled = list(parts)
    order.shuffle(shuffled)  # type: ignore[attr-defined]
    assert mixture_classes(shuffled, RULES) == mixture_classes(parts, RULES)


@given(mixtures, st.floats(0.01, 1))
def test_thinning_a_mixture_never_makes_it_worse(parts: list[Component], factor: float) -> None:
    thinned = [component(part.name, part.share * factor, *part.classes) for part in parts]
    whole = {name: category for name, category, _ in found(*parts)}
    for name, category, _ in found(*thinned):
        assert name in whole
        assert category[0] >= whole[name][0]


@given(mixtures)
def test_every_class_names_its_rule_and_figures(parts: list[Component]) -> None:
    for each in mixture_classes(parts, RULES):
        assert each.rule
        assert each.figures
        assert each.places == ("EU",)
