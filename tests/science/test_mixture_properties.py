"""What must hold for any mixture: worse parts never make it better, and silence never helps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.model.values import Range
from mullbook.model.values.hazard import HazardClass
from mullbook.model.values.ruleset import Classification, Component
from mullbook.science.label import label
from mullbook.science.mixture import mixture_classes
from tests.science.clp import EYE, ORAL, RULES, SKIN, US_RULES, component, hazard

REPRO, REPEATED, CHRONIC = "reproductive-toxicity", "stot-repeated", "aquatic-chronic"
LADDERS = [
    [hazard("carcinogenicity", c, s) for c, s in (("2", "H351"), ("1B", "H350"), ("1A", "H350"))],
    [hazard("germ-cell-mutagenicity", c, s) for c, s in (("2", "H341"), ("1B", "H340"), ("1A", "H340"))],
    [hazard(REPRO, c, s) for c, s in (("2", "H361"), ("1B", "H360"), ("1A", "H360"))],
    [hazard(REPEATED, c, s) for c, s in (("2", "H373"), ("1", "H372"))],
    [hazard("stot-single", c, s) for c, s in (("2", "H371"), ("1", "H370"))],
    [hazard(SKIN, c, s) for c, s in (("2", "H315"), ("1C", "H314"), ("1B", "H314"), ("1A", "H314"))],
    [hazard(EYE, c, s) for c, s in (("2", "H319"), ("1", "H318"))],
    [hazard("skin-sensitisation", c, "H317") for c in ("1B", "1A")],
    [hazard(ORAL, c, s) for c, s in (("4", "H302"), ("3", "H301"), ("2", "H300"), ("1", "H300"))],
    [hazard(CHRONIC, c, s) for c, s in (("3", "H412"), ("2", "H411"), ("1", "H410"))],
]
"""Categories of a class, mildest first."""

CLASSES = [each for ladder in LADDERS for each in ladder] + [
    hazard(REPRO, "1A", "H360", metal="Pb"),
    hazard("skin-sensitisation", "1", "H317", at_least=0.0005),
    hazard(CHRONIC, "1", "H410", m_factor=10),
    hazard("carcinogenicity", "2", "H351", basis="from-memory"),
]

parts = st.builds(
    lambda share, classes, lead, known: Component(
        name="part", share=share, classes=tuple(classes), elements={"Pb": lead}, known=known
    ),
    st.floats(0, 1),
    st.lists(st.sampled_from(CLASSES), max_size=3, unique_by=lambda each: each.hazard),
    st.floats(0, 1),
    st.booleans(),
)
mixtures = st.lists(parts, max_size=4).map(
    lambda found: [replace(each, name=f"part {n}") for n, each in enumerate(found)]
)
both_places = pytest.mark.parametrize("rules", [RULES, US_RULES], ids=["EU", "US"])


def worst(components: list[Component], rules: Classification, ph: Range | None = None) -> dict[str, int]:
    """Most severe number of each class, 1 first; lactation and the third single-exposure class apart."""
    found: dict[str, int] = {}
    for each in mixture_classes(components, rules, ph):
        if each.category.isalpha() or (each.hazard, each.category) == ("stot-single", "3"):
            continue
        found[each.hazard] = min(int(each.category[0]), found.get(each.hazard, 9))
    return found


def assert_no_better(before: dict[str, int], after: dict[str, int]) -> None:
    for name, category in before.items():
        assert name in after
        assert after[name] <= category


@both_places
@given(mixture=mixtures, more=parts)
def test_another_part_never_lowers_a_class(
    rules: Classification, mixture: list[Component], more: Component
) -> None:
    assert_no_better(worst(mixture, rules), worst([*mixture, replace(more, name="more")], rules))


@both_places
@given(mixture=mixtures, share=st.floats(0, 1), ladder=st.sampled_from(LADDERS), data=st.data())
def test_a_worse_category_never_lowers_a_class(
    rules: Classification,
    mixture: list[Component],
    share: float,
    ladder: list[HazardClass],
    data: st.DataObject,
) -> None:
    place = data.draw(st.integers(0, len(ladder) - 2))
    mild, bad = component("it", share, ladder[place]), component("it", share, ladder[place + 1])
    assert_no_better(worst([*mixture, mild], rules), worst([*mixture, bad], rules))


@both_places
@given(mixture=mixtures, order=st.randoms())
def test_order_does_not_matter(rules: Classification, mixture: list[Component], order: object) -> None:
    shuffled = list(mixture)
    order.shuffle(shuffled)  # type: ignore[attr-defined]
    found = mixture_classes(mixture, rules)
    assert mixture_classes(shuffled, rules) == found
    assert label(shuffled, found, rules) == label(mixture, found, rules)


@both_places
@given(mixture=mixtures)
def test_not_knowing_a_part_never_helps(rules: Classification, mixture: list[Component]) -> None:
    blind = [replace(each, known=False) for each in mixture]
    assert_no_better(worst(mixture, rules), worst(blind, rules))


@both_places
@given(mixture=mixtures)
def test_not_knowing_the_metal_content_never_helps(rules: Classification, mixture: list[Component]) -> None:
    assert_no_better(worst(mixture, rules), worst([replace(each, elements={}) for each in mixture], rules))


@given(mixture=mixtures, ph=st.floats(0, 14))
def test_knowing_the_ph_never_lowers_a_class(mixture: list[Component], ph: float) -> None:
    assert_no_better(worst(mixture, RULES), worst(mixture, RULES, Range.of(ph)))
    assert_no_better(worst(mixture, RULES, Range.of(ph)), worst(mixture, RULES, Range(0, 14)))


@both_places
@given(mixture=mixtures)
def test_memory_only_adds(rules: Classification, mixture: list[Component]) -> None:
    sure = [replace(each, classes=tuple(c for c in each.classes if not c.remembered)) for each in mixture]
    assert_no_better(worst(sure, rules), worst(mixture, rules))


@both_places
@given(mixture=mixtures)
def test_a_label_has_at_most_six_precautions_and_no_annulled_statement(
    rules: Classification, mixture: list[Component]
) -> None:
    drafted = label(mixture, mixture_classes(mixture, rules), rules, public=True)
    assert len(drafted.precautions) <= 6
    assert not {each.code for each in drafted.supplements} & {"EUH211", "EUH212"}
