"""The EU ruleset itself: no rule may give a class that has no label, and every row names its place."""

from __future__ import annotations

from mullbook.model.values.ruleset import ClassFound
from mullbook.science.label import element_for
from mullbook.science.mixture import SEVERITY
from tests.science.clp import RULES


def outcomes() -> set[tuple[str, str, str]]:
    """Everything that a rule or a band of the ruleset can give."""
    assert RULES.acute_toxicity is not None
    given = [rule.gives for rule in RULES.mixture_rules]
    return {(each.hazard, each.category, each.statement) for each in (*given, *RULES.acute_toxicity.bands)}


def test_every_class_that_a_rule_gives_has_its_label_and_its_text() -> None:
    texts = {statement.code for statement in RULES.statements}
    for hazard, category, statement in outcomes():
        each = ClassFound(hazard=hazard, category=category, statement=statement, rule="", figures="")
        assert element_for(each, RULES.elements) is not None, each
        assert statement in texts, each


def test_every_category_has_its_rank() -> None:
    assert {category for _, category, _ in outcomes()} <= set(SEVERITY)


def test_every_rule_is_of_a_kind_we_know_and_names_its_place() -> None:
    for rule in RULES.mixture_rules:
        assert rule.counts in ("any", "sum")
        assert bool(rule.terms) == (rule.counts == "sum")
        assert bool(rule.hazard and rule.category) == (rule.counts == "any")
        assert 0 < rule.at_least <= 1
        assert rule.at
        assert rule.source
    assert {rule.kind for rule in RULES.precedence} <= {"pictogram", "statement", "signal-word"}
