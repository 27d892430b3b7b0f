"""Starter files: every field of the schema in its order, honest about what is open, and never overwriting."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from mullbook import cli, load
from mullbook.checks.unfilled import OPEN
from mullbook.cli.new import KINDS
from mullbook.workflow import Refused, Roots, check_path
from mullbook.workflow.starting import start_entry
from tests.conftest import ROOT

ROOTS = Roots.at(ROOT)
FILLED = {
    "date: ": "2026-09-12",
    "who: ": "the owner (invented)",
    "what_for: ": "One bag of loose earth.",
    "on: ": "2026-09-10",
    "mass: {value: ": "500",
    "- test: ": "streak",
    "result: ": "yellow-brown",
    "limit: ": "It cannot rule out arsenic.",
    "  - ": "adult-wet",
}
"""What stands before an open place in the starter of a sample, and what is put there."""


@pytest.mark.parametrize("kind", KINDS)
def test_a_fresh_file_only_says_what_is_open(kind: str, tmp_path: Path) -> None:
    path = start_entry(kind, "Lane earth 7", ROOTS, tmp_path)
    loaded = check_path(ROOTS, path)
    assert {each.code for each in loaded.problems} == {"MB214"}
    assert len(loaded.problems) == path.read_text("utf-8").count(f": {OPEN}") + path.read_text("utf-8").count(
        f"- {OPEN}"
    )
    assert all("not filled in yet" in each.message for each in loaded.problems)


@pytest.mark.parametrize("kind", KINDS)
def test_fields_stand_in_the_order_of_the_schema(kind: str, tmp_path: Path) -> None:
    text = start_entry(kind, "", ROOTS, tmp_path).read_text("utf-8")
    schema = json.loads((ROOT / "schema" / f"{kind}.schema.json").read_text("utf-8"))
    found = re.findall(r"^(?:# )?([a-z_]+):", text, re.MULTILINE)
    wanted = list(schema["properties"])
    assert [each for each in dict.fromkeys(found) if each in wanted] == wanted
    for node in schema["properties"].values():
        if "title" in node:
            assert f"# {node['title']}." in text


@pytest.mark.parametrize("kind", sorted(set(load.FOLDERS.values()) - {"vocabulary", "ruleset"}))
def test_every_kind_of_entry_can_be_begun(kind: str) -> None:
    assert kind in KINDS


def test_a_file_that_is_there_is_left_alone(tmp_path: Path) -> None:
    path = start_entry("sample", "bag 7", ROOTS, tmp_path)
    path.write_text("mine\n", encoding="utf-8")
    with pytest.raises(Refused) as found:
        start_entry("sample", "bag 7", ROOTS, tmp_path)
    assert found.value.problems[0].code == "MB040"
    assert path.read_text("utf-8") == "mine\n"


def test_a_filled_file_passes(tmp_path: Path) -> None:
    path = start_entry("sample", "Lane earth 7", ROOTS, tmp_path)
    text = path.read_text("utf-8")
    for before, words in FILLED.items():
        text = text.replace(f"{before}{OPEN}", f"{before}{words}")
    assert OPEN not in "".join(line for line in text.splitlines() if not line.startswith("#"))
    path.write_text(text, encoding="utf-8")
    assert [each.message for each in check_path(ROOTS, path).problems] == []


def test_one_wrong_word_among_open_ones_is_still_found(tmp_path: Path) -> None:
    path = start_entry("sample", "Lane earth 7", ROOTS, tmp_path)
    text = path.read_text("utf-8").replace(
        f"mass: {{value: {OPEN}, unit: g}}", "mass: {value: 500, unit: kg}"
    )
    path.write_text(text, encoding="utf-8")
    codes = {each.code for each in check_path(ROOTS, path).problems}
    assert "MB214" in codes
    assert len(codes) == 2


@pytest.mark.parametrize(
    ("words", "entry"),
    [("Grüne Erde, No. 7", "grune-erde-no-7"), ("lane-7", "lane-7"), ("", "new-sample")],
)
def test_a_name_becomes_an_id(words: str, entry: str, tmp_path: Path) -> None:
    path = start_entry("sample", words, ROOTS, tmp_path)
    assert path.name == f"{entry}.yaml"
    if " " in words:
        assert f'name: "{words}"' in path.read_text("utf-8")


def test_a_name_without_letters_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refused):
        start_entry("sample", "!!!", ROOTS, tmp_path)


def test_other_things_can_be_begun_beside_the_kinds() -> None:
    """A command added to the group counts over a kind, and is listed with them."""
    import click

    from mullbook.cli.new import Kinds

    group = Kinds("new")
    group.add_command(click.Command("studio"))
    context = click.Context(group)
    assert group.list_commands(context)[-1] == "studio"
    assert group.get_command(context, "studio") is group.commands["studio"]
    assert group.get_command(context, "sample") is not None


def test_a_kind_there_is_none_of_is_answered_in_words(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        cli.main(["new", "sampel"])
    assert ended.value.code == 1
    assert "Did you mean sample?" in capsys.readouterr().err


def test_outside_a_project_nothing_is_made_and_it_says_where_to_go(tmp_path: Path) -> None:
    with pytest.raises(Refused) as refused:
        start_entry("sample", "Yellow earth 8", Roots.at(tmp_path), None)
    (problem,) = refused.value.problems
    assert "schemas" in problem.message and problem.hint
    assert list(tmp_path.iterdir()) == []
