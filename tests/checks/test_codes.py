"""The registry: every code that text and shape can give is explained, and none is explained in vain."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import mullbook.checks as checks_package
import mullbook.text as text_package
from mullbook.checks.codes import Rule, shape_rules, text_rules
from mullbook.text.yaml_text import read_text

RULES = (*text_rules, *shape_rules)


def codes_in(*files: Path) -> set[str]:
    return {code for file in files for code in re.findall(r'"(MB\d{3})"', file.read_text("utf-8"))}


def test_codes_are_in_their_bands_in_order_and_once() -> None:
    for band, rules in (("MB1", text_rules), ("MB2", shape_rules)):
        codes = [rule.code for rule in rules]
        assert codes == sorted(set(codes))
        assert all(re.fullmatch(band + r"\d\d", code) for code in codes)


def test_every_code_that_can_be_given_is_explained_and_no_other() -> None:
    text = Path(text_package.__path__[0])
    shape = Path(checks_package.__path__[0])
    assert codes_in(*text.glob("*.py")) - {"MB204"} == {rule.code for rule in text_rules}
    assert codes_in(shape / "schema.py", shape / "shape_words.py", shape / "unfilled.py") == {
        rule.code for rule in shape_rules
    }


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.code)
def test_every_code_has_a_name_a_reason_and_both_examples(rule: Rule) -> None:
    assert rule.name and rule.bad and rule.good and rule.bad != rule.good
    assert rule.why.endswith(".")
    assert rule.severity == "error"


# The examples of the other codes cannot be written out in a line: a tab, a byte, a link, a large file.
WRITTEN_OUT = [rule for rule in text_rules if "MB106" <= rule.code <= "MB117"]


@pytest.mark.parametrize("rule", WRITTEN_OUT, ids=lambda rule: rule.code)
def test_the_bad_example_of_a_text_rule_breaks_it(rule: Rule) -> None:
    assert rule.code in {problem.code for problem in read_text(rule.bad + "\n", "x.yaml").problems}
    assert rule.code not in {problem.code for problem in read_text(rule.good + "\n", "x.yaml").problems}
