"""Acute toxicity by estimates: every converted estimate, every band, what is not known (CLP, Annex I 3.1)."""

from __future__ import annotations

import pytest

from mullbook.science.acute import ate_mix, unknown_acute_toxicity
from mullbook.science.mixture import mixture_classes
from tests.science.clp import ORAL, RULES, US_RULES, component, hazard

SKIN_ROUTE, AIR = "acute-toxicity-dermal", "acute-toxicity-inhalation"
STATEMENTS = {
    ORAL: ("H300", "H300", "H301", "H302"),
    SKIN_ROUTE: ("H310", "H310", "H311", "H312"),
    AIR: ("H330", "H330", "H331", "H332"),
}
ROUTES = [(route, place) for route in STATEMENTS for place in range(4)]


@pytest.mark.parametrize(("route", "place"), ROUTES)
def test_a_pure_part_keeps_its_category(route: str, place: int) -> None:
    """Table 3.1.2 puts the estimate for category 2 on the edge of band 1; a pure part is what it is."""
    pure = component("pure", 1.0, hazard(route, str(place + 1), STATEMENTS[route][place]))
    (only,) = mixture_classes([pure], RULES)
    assert (only.hazard, only.category, only.statement) == (route, str(place + 1), STATEMENTS[route][place])


def test_high_ends_of_shares_do_not_make_a_worse_category_than_any_part() -> None:
    parts = [component(name, 0.9, hazard(ORAL, "2", "H300")) for name in ("one", "two")]
    (only,) = mixture_classes(parts, RULES)
    assert (only.category, only.rule) == (
        "2",
        "estimate up to 50 mg/kg gives category 2 (Annex I, Tables 3.1.1 and 3.1.2, 3.1.3.6)",
    )


def test_an_unknown_part_may_be_worse_than_the_known_ones() -> None:
    parts = [component("known", 0.5, hazard(ORAL, "2", "H300")), component("unknown", 0.5, known=False)]
    (only,) = mixture_classes(parts, RULES)
    assert only.category == "1"


@pytest.mark.parametrize(
    ("route", "edges"),
    [(ORAL, (5, 50, 300, 2000)), (SKIN_ROUTE, (50, 200, 1000, 2000)), (AIR, (0.05, 0.5, 1, 5))],
)
def test_bands_hold_their_upper_figure(route: str, edges: tuple[float, ...]) -> None:
    """Table 3.1.1, for dust where it is air: up to and including the figure."""
    for place, edge in enumerate(edges):
        found = [
            [
                each.category
                for each in mixture_classes(
                    [component("part", 1.0, hazard(route, "4", "H3"), acute_estimates={route: estimate})],
                    RULES,
                )
            ]
            for estimate in (edge, edge * 1.001)
        ]
        assert found[0] == [str(place + 1)]
        assert found[1] == ([str(place + 2)] if place < 3 else [])


@pytest.mark.parametrize(
    ("unknown", "estimate"), [(0.0, 1000.0), (0.10, 1000.0), (0.11, 890.0), (0.5, 500.0)]
)
def test_more_than_a_tenth_unknown_corrects_the_estimate(unknown: float, estimate: float) -> None:
    """3.1.3.6.2.3."""
    assert ate_mix([0.1], [100], unknown) == pytest.approx(estimate)


@pytest.mark.parametrize(("share", "stated"), [(0.0099, False), (0.01, True)])
def test_from_one_per_cent_the_unknown_is_stated(share: float, stated: bool) -> None:
    """3.1.3.6.2.2."""
    assert (unknown_acute_toxicity([component("earth", share, known=False)], RULES) is not None) == stated


def test_routes_do_not_mix() -> None:
    parts = [
        component("one", 0.5, hazard(ORAL, "3", "H301")),
        component("two", 0.5, hazard(AIR, "2", "H330")),
    ]
    assert [(each.hazard, each.category) for each in mixture_classes(parts, RULES)] == [
        (AIR, "2"),
        (ORAL, "3"),
    ]


@pytest.mark.parametrize(
    ("shares", "estimates"),
    [([0.5], [0.0]), ([0.5], [-1.0]), ([0.5, 0.5], [100.0]), ([], []), ([0.0], [100.0])],
)
def test_nonsense_is_refused(shares: list[float], estimates: list[float]) -> None:
    with pytest.raises(ValueError, match=r"estimate|match|toxic"):
        ate_mix(shares, estimates)


def test_the_us_tables_were_not_read() -> None:
    assert US_RULES.acute_toxicity is None
    assert unknown_acute_toxicity([component("earth", 0.5, known=False)], US_RULES) is None


@pytest.mark.parametrize(("sure", "remembered"), [(0.4, False), (0.2, True), (0.0009, True)])
def test_what_memory_alone_makes_worse_is_marked(sure: float, remembered: bool) -> None:
    parts = [
        component("known", sure, hazard(ORAL, "3", "H301")),
        component("remembered", 0.4, hazard(ORAL, "3", "H301", basis="from-memory")),
    ]
    (only,) = mixture_classes(parts, RULES)
    assert (only.category, only.remembered) == ("3", remembered)
