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
