"""Every published class and limit, and every verdict last reviewed, is what the entries give."""

from __future__ import annotations

import csv
from collections.abc import Callable, Iterable

import pytest

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from tests.safety import nets
from tests.science.oracles import FOLDER


def write(name: str, found: list[dict[str, str]]) -> None:
    """Write a reviewed table anew."""
    written = [{**row, "value_is": "computed", "source": "the entries"} for row in found]
    with (FOLDER / f"{name}.csv").open("w", encoding="utf-8", newline="") as file:
        table = csv.DictWriter(file, fieldnames=list(written[0]), lineterminator="\n")
        table.writeheader()
        table.writerows(written)


def test_entries_are_as_last_reviewed(catalogue: Catalogue, request: pytest.FixtureRequest) -> None:
    if request.config.getoption("--update-golden"):
        write("reviewed", list(nets.reviewed_rows(catalogue)))
        nets.table.cache_clear()
    held = {row["entry"] for row in nets.reviewed_rows(catalogue)}
    gone = {row["entry"] for row in nets.table("reviewed")} - held
    assert (list(nets.reviewed(catalogue)), sorted(gone)) == ([], [])


@pytest.mark.parametrize("net", nets.NETS.values(), ids=nets.NETS)
def test_nothing_is_caught(net: Callable[[Catalogue], Iterable[str]], catalogue: Catalogue) -> None:
    assert list(net(catalogue)) == []


def test_most_limits_are_compared(catalogue: Catalogue) -> None:
    published = sum(
        each.value.basis == "published" for substance in catalogue.substances for each in substance.limits
    )
    compared = len(nets.table("limits")) + len(nets.table("confirmed_limits"))
    assert compared >= 0.95 * published


def test_verdicts_are_those_last_reviewed(catalogue: Catalogue, request: pytest.FixtureRequest) -> None:
    """A person looks at a changed verdict: `pytest tests/safety --update-golden`, then read the diff."""
    if request.config.getoption("--update-golden"):
        found = [
            nets.verdict_row(catalogue, each)
            if isinstance(each, Pigment)
            else nets.product_row(catalogue, each.id)
            for each in catalogue.jars
        ]
        write("verdicts", found)
        nets.known_verdicts.cache_clear()
    changed = list(nets.verdicts(catalogue))
    gone = sorted(set(nets.known_verdicts()) - {each.id for each in catalogue.jars})
    assert (changed, gone) == ([], [])
