"""The good catalogue is clean; each bad case gives exactly its report; each rule has a case."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from mullbook.checks import citation
from mullbook.checks.context import Check
from mullbook.checks.rules import ALL_RULES
from tests.corpus.cases import BAD, CASES, GOOD, command, exit_code, good_project, laid_over, told

# These cannot be had from files: MB009 is a fault of ours and has its own test.
WITHOUT_CASE = {"MB009"}
# The first hundred problems come before the one that says that reading stops.
IN_COMPANY = {"MB118": {"MB117"}}


@pytest.fixture(scope="session")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return good_project(tmp_path_factory.mktemp("good"))


def codes(report: str) -> set[str]:
    return set(re.findall(r"(?:error|warning) (MB\d{3})", report))


def code_of(case: Path) -> str:
    return case.name.partition("-")[0]


def test_the_good_catalogue_is_clean(good: Path) -> None:
    count = sum(1 for _ in GOOD.rglob("*.yaml"))
    assert told(good, ["check"]) == f"{count} entries, no problems.\nexit 0\n"


def test_the_good_catalogue_is_plainly_invented() -> None:
    for path in GOOD.rglob("*.yaml"):
        if path.parent.name not in ("vocabulary", "rulesets") and path.stem != "not-known":
            assert re.search("(?i)invented", path.read_text("utf-8")), path.name


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_bad_case_gives_its_report(case: Path, tmp_path: Path, request: pytest.FixtureRequest) -> None:
    laid_over(case, good_project(tmp_path))
    report = told(tmp_path, command(case))
    expected = case / "expected.txt"
    if request.config.getoption("--update-golden"):
        expected.write_text(report, encoding="utf-8")
    assert report == expected.read_text("utf-8")
    assert "Traceback" not in report
    assert str(tmp_path) not in report


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_case_is_about_one_rule(case: Path) -> None:
    report = (case / "expected.txt").read_text("utf-8")
    code = code_of(case)
    assert codes(report) == {code} | IN_COMPANY.get(code, set())
    warned = ALL_RULES[code].severity == "warning"
    assert exit_code(report) == (0 if warned else 2 if code == "MB213" else 1)


def test_every_rule_has_a_case() -> None:
    assert {code_of(case) for case in CASES} == set(ALL_RULES) - WITHOUT_CASE


def test_no_case_is_left_without_expectation() -> None:
    assert [case.name for case in CASES if not (case / "expected.txt").is_file()] == []
    assert [each.name for each in BAD.iterdir() if each.is_file()] == []


def test_a_rule_that_breaks_is_a_fault_of_ours_and_stops_no_other(
    good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(_: object) -> None:
        raise RuntimeError("the rule's own")

    shutil.copytree(good, tmp_path, dirs_exist_ok=True)
    laid_over(BAD / "MB404", tmp_path)
    spoilt = Check(citation.CATALOGUE[1].rule, broken)  # type: ignore[arg-type]
    monkeypatch.setattr("mullbook.workflow.checking.CATALOGUE_RULES", (spoilt, *citation.CATALOGUE))
    report = told(tmp_path, ["check"])
    assert codes(report) == {"MB009", "MB404"}
    assert "entries: error MB009: Mullbook broke here, at rule MB405 (RuntimeError)" in report
    assert exit_code(report) == 2
