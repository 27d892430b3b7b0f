"""A small sample of what `make mutate` does at length: spoilt data are caught."""

from __future__ import annotations

from mullbook import workflow
from tests.conftest import ROOT
from tests.mutation.mutate import KINDS, WANTED, chosen, reason, run

EACH = 20


def test_a_spoilt_datum_is_caught() -> None:
    sample = chosen(EACH, seed=11)
    assert {mutant.kind for mutant in sample} == set(KINDS)
    counted, survivors = run(sample, workflow.check(workflow.Roots.at(ROOT)).catalogue)
    caught = sum(counted[f"{kind} caught"] for kind in KINDS)
    assert caught >= WANTED * len(sample)
    assert [f"{each.path.name} {each.pointer} {each.told}" for each in survivors if not reason(each)] == []
