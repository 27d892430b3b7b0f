"""The explicit list of all rules."""

from __future__ import annotations

from mullbook.checks import (
    bench_links,
    citation,
    classes,
    codes,
    composition,
    identity,
    input_rules,
    link,
    practice,
    quantity,
    safety,
    samples,
    studio,
    style,
)
from mullbook.checks.codes import Rule
from mullbook.checks.context import Check

ENTRY_RULES: tuple[Check, ...] = (
    *identity.ENTRY,
    *citation.ENTRY,
    *quantity.ENTRY,
    *composition.ENTRY,
    *safety.ENTRY,
    *samples.ENTRY,
    *classes.ENTRY,
    *practice.ENTRY,
    *style.ENTRY,
)
PLAIN_RULES = tuple(
    each
    for each in ENTRY_RULES
    if each.code in ("MB301", "MB302", "MB303", "MB502", "MB503", "MB707", "MB901")
)
"""Rules about one value each: what they find holds, whatever is wrong elsewhere in the entry."""
CATALOGUE_RULES: tuple[Check, ...] = (
    *identity.CATALOGUE,
    *citation.CATALOGUE,
    *composition.CATALOGUE,
    *safety.CATALOGUE,
    *samples.CATALOGUE,
    *link.CATALOGUE,
    *bench_links.CATALOGUE,
    *practice.CATALOGUE,
    *style.CATALOGUE,
)
ALL_RULES: dict[str, Rule] = {
    rule.code: rule
    for rule in sorted(
        (
            *input_rules.input_rules,
            *codes.text_rules,
            *codes.shape_rules,
            *studio.studio_rules,
            identity.STRAY,
            *(check.rule for check in (*ENTRY_RULES, *CATALOGUE_RULES)),
        ),
        key=lambda rule: rule.code,
    )
}
"""Every rule by its code, for `mullbook explain`."""
