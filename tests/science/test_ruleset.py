"""The rulesets themselves: no rule may give a class that has no label, and every row names its place."""

from __future__ import annotations

import pytest

from mullbook.model.values.ruleset import ClassFound, Classification
from mullbook.science.label import element_for
from mullbook.science.mixture import SEVERITY
from tests.science.clp import RULES, US_RULES

both = pytest.mark.parametrize("rules", [RULES, US_RULES], ids=["EU", "US"])


def outcomes(rules: Classification) -> set[tuple[str, str, str]]:
    """Everything that a rule or a band of the ruleset can give."""
    given = [*(rule.gives for rule in rules.mixture_rules), *(rule.gives for rule in rules.non_additive)]
    given += list(rules.extreme_ph.gives) if rules.extreme_ph else []
    bands = rules.acute_toxicity.bands if rules.acute_toxicity else ()
    found = {(each.hazard, each.category, each.statement) for each in given}
    return found | {(each.hazard, each.category, each.statement) for each in bands}


@both
def test_every_class_that_a_rule_gives_has_its_label_and_its_text(rules: Classification) -> None:
    texts = {statement.code for statement in rules.statements}
    for hazard, category, statement in outcomes(rules):
        each = ClassFound(hazard=hazard, category=category, statement=statement, rule="", figures="")
        assert element_for(each, rules.elements) is not None, each
        assert statement in texts, each


@both
def test_every_category_has_its_rank(rules: Classification) -> None:
    assert {category for _, category, _ in outcomes(rules)} <= set(SEVERITY)


@both
def test_every_rule_is_of_a_kind_we_know_and_names_its_place(rules: Classification) -> None:
    for rule in rules.mixture_rules:
        assert rule.counts in ("any", "sum")
        assert bool(rule.terms) == (rule.counts == "sum")
        assert bool(rule.hazard and rule.category) == (rule.counts == "any")
        assert 0 < rule.at_least <= 1
    assert {rule.kind for rule in rules.precedence} <= {"pictogram", "statement", "signal-word"}


@both
def test_every_row_was_read_and_says_where(rules: Classification) -> None:
    rows = (
        *rules.mixture_rules,
        *rules.counted_from,
        *rules.non_additive,
        *rules.notices,
        *rules.precautions,
    )
    for row in rows:
        assert row.basis == "published"
        assert row.source
        assert row.at
    for read in rules.read_from:
        assert read.source
        assert read.edition
    cited = {row.source for row in (*rows, *rules.statements)} | {rules.source}
    assert cited - {"reg-2020-217"} <= {read.source for read in rules.read_from}


def test_editions_say_how_far_they_were_read() -> None:
    assert RULES.edition == "EU CLP, Annex VI as of ATP17 (2021); later changes not checked"
    assert US_RULES.edition == "US HCS 2012, as in the CFR of 2015; the revision of 2024 not read"


def test_every_notice_and_supplement_has_its_text() -> None:
    texts = {statement.code for statement in RULES.statements}
    codes = {row.code for row in RULES.notices} | {row.code for row in RULES.supplements}
    assert codes | {row.small_code for row in RULES.supplements if row.small_code} <= texts
    assert {row.unless for row in RULES.notices} == {"so-classified", "classified"}
