"""The command line as its users meet it: what is printed, which exit code, what is left on disk."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from mullbook import cli, workflow
from tests.conftest import ROOT, run_mullbook
from tests.corpus.cases import exit_code, good_project, told


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    project = good_project(tmp_path_factory.mktemp("good"))
    (project / "site_templates").symlink_to(ROOT / "site_templates")
    return project


@pytest.fixture
def spoilt(tmp_path: Path) -> Path:
    """A project with several mistakes in several files, of the text, of the shape and across entries."""
    project = good_project(tmp_path)
    for name, right, wrong in (
        ("pigments/invented-chalk", "hue: white", "hue: wite"),
        ("pigments/invented-chalk", "family: filler", "familly: filler"),
        ("pigments/invented-ochre", "low: 0.5, high: 0.9", "low: 0.9, high: 0.5"),
        ("pigments/invented-ochre", "binder: invented-acrylic", "binder: invented-akrylic"),
        ("pigments/invented-heavy-white", "  density:", "\tdensity:"),
        ("binders/invented-gum-water", "source: invented-handbook-1900", "source: invented-handbook-1850"),
        ("substances/invented-sand", "value: 0.1", "value: .nan"),
    ):
        path = project / "entries" / f"{name}.yaml"
        path.write_text(path.read_text("utf-8").replace(right, wrong, 1), encoding="utf-8")
    return project


def lines(report: str) -> list[str]:
    """Place and code of each problem."""
    return [" ".join(each.split(": ")[:2]) for each in report.splitlines() if ": error " in each]


def test_all_problems_of_a_run_come_at_once_and_none_that_only_follows(spoilt: Path) -> None:
    report = told(spoilt, ["check"])
    assert lines(report) == [
        "entries/binders/invented-gum-water.yaml:8:85 error MB404",
        "entries/pigments/invented-chalk.yaml:4:6 error MB204",
        "entries/pigments/invented-chalk.yaml:5:1 error MB201",
        "entries/pigments/invented-heavy-white.yaml:11:1 error MB105",
        "entries/pigments/invented-ochre.yaml:13:18 error MB502",
        "entries/pigments/invented-ochre.yaml:45:14 error MB803",
        "entries/substances/invented-sand.yaml:21:20 error MB111",
    ]
    assert report.endswith("7 problems (7 errors) in 5 files\nexit 1\n")
    assert "Traceback" not in report


def test_a_wrong_shape_hides_no_other_mistake_of_the_same_file(tmp_path: Path) -> None:
    project = good_project(tmp_path)
    path = project / "entries/pigments/invented-ochre.yaml"
    text = path.read_text("utf-8")
    for right, wrong in (
        ("hue: yellow", "hue: yelow"),
        ("99002-02-5", "99002-02-6"),
        ("summary: Invented", "summary: <b>Invented</b>"),
        ("low: 0.5, high: 0.9", "low: 0.9, high: 0.5"),
        ("review_by: ", 'review_by: "2027-02-30" #'),
    ):
        assert right in text
        text = text.replace(right, wrong, 1)
    path.write_text(text, encoding="utf-8")
    found = [line.split()[-1] for line in lines(told(project, ["check"]))]
    assert sorted(found) == ["MB204", "MB302", "MB502", "MB707", "MB901"]


@pytest.mark.parametrize("command", ["show invented ochre", "pages --to out", "build --to out"])
def test_nothing_is_written_or_shown_from_a_catalogue_with_errors(spoilt: Path, command: str) -> None:
    (spoilt / "site_templates").symlink_to(ROOT / "site_templates")
    (spoilt / "generator").mkdir()
    (spoilt / "mkdocs.yml").write_text((ROOT / "mkdocs.yml").read_text("utf-8"), encoding="utf-8")
    before = sorted(spoilt.rglob("*"))
    report = run_mullbook_in(spoilt, *command.split())
    assert report.returncode == 1
    assert len(lines(report.stdout + report.stderr)) == 7
    assert "Traceback" not in report.stderr
    assert sorted(spoilt.rglob("*")) == before


def run_mullbook_in(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "mullbook.cli", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, timeout=120, check=False)


def test_one_file_or_one_folder_is_asked_about(spoilt: Path) -> None:
    ochre = told(spoilt, ["check", "entries/pigments/invented-ochre.yaml"])
    assert {line.split()[-1] for line in lines(ochre)} == {"MB502", "MB803"}
    pigments = told(spoilt, ["check", "entries/pigments"])
    assert len(lines(pigments)) == 5
    clean = told(spoilt, ["check", "entries/sources"])
    assert clean == "2 entries, no problems.\nexit 0\n"
    assert (
        told(spoilt, ["check", "entries/sources/invented-list-2020.yaml"])
        == "1 entry, no problems.\nexit 0\n"
    )
    assert lines(told(spoilt, ["check", "."])) == lines(told(spoilt, ["check"]))


def test_a_clash_is_told_from_both_sides(tmp_path: Path) -> None:
    project = good_project(tmp_path)
    path = project / "entries/pigments/invented-ochre.yaml"
    path.write_text(path.read_text("utf-8").replace("Dug yellow", "Nobody's white"), encoding="utf-8")
    path.write_text(path.read_text("utf-8").replace(", washed", ""), encoding="utf-8")
    for name in ("invented-ochre", "invented-heavy-white"):
        assert "MB306" in told(project, ["check", f"entries/pigments/{name}.yaml"])
    assert told(project, ["check", "entries/pigments/invented-chalk.yaml"]).endswith("no problems.\nexit 0\n")


def test_a_file_elsewhere_is_checked_on_its_own(good: Path, tmp_path: Path) -> None:
    text = (good / "entries/pigments/invented-ochre.yaml").read_text("utf-8")
    (tmp_path / "invented-ochre.yaml").write_text(text.replace("hue: yellow", "hue: yelow"), encoding="utf-8")
    report = told(good, ["check", str(tmp_path)])
    assert [line.rsplit(":", 2)[-1].split()[-1] for line in lines(report)] == ["MB204"]
    assert exit_code(report) == 1


def test_without_schemas_a_file_elsewhere_is_not_called_clean(tmp_path: Path) -> None:
    (tmp_path / "entry.yaml").write_text("id: entry\n")
    assert "schema: error MB004" in told(tmp_path, ["check", "entry.yaml"])


def test_json_is_a_list_with_every_place(spoilt: Path) -> None:
    report = told(spoilt, ["check", "--format", "json"])
    found = json.loads(report.rsplit("exit ", 1)[0])
    assert len(found) == 7 and exit_code(report) == 1
    assert {"code", "severity", "message", "path", "line", "column", "hint", "example", "related"} <= found[
        0
    ].keys()
    clean = told(spoilt, ["check", "entries/sources", "--format", "json"])
    assert clean == "[]\nexit 0\n"


def test_annotations_are_one_a_line(spoilt: Path) -> None:
    report = told(spoilt, ["check", "--format", "annotations"]).splitlines()
    assert len(report) == 8
    assert report[1].startswith(
        "::error file=entries/pigments/invented-chalk.yaml,line=4,endLine=4,col=6,endColumn=9,title=MB204::"
    )
    assert told(spoilt, ["check", "entries/sources", "--format", "annotations"]) == "exit 0\n"


def test_the_project_is_found_from_a_folder_below(good: Path) -> None:
    assert exit_code(told(good / "entries/pigments", ["check"])) == 0
    assert exit_code(told(good / "entries/pigments", ["check", "invented-ochre.yaml"])) == 0


@pytest.mark.parametrize("command", ["check", "show ochre", "pages --to out", "build"])
def test_outside_a_project_it_is_said_what_is_missing(tmp_path: Path, command: str) -> None:
    report = told(tmp_path, command.split())
    assert exit_code(report) == 1
    assert "MB004" in report or "mkdocs.yml" in report
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    "command", ["chek", "check --fromat json", "check --format xml", "work", "pages", "check a b"]
)
def test_a_wrong_command_is_a_problem_of_the_input(good: Path, command: str) -> None:
    report = told(good, command.split())
    assert exit_code(report) == 1
    assert "Traceback" not in report


@pytest.mark.parametrize("command", ["--help", "--version", "check --help", "explain"])
def test_help_is_no_problem(good: Path, command: str) -> None:
    assert exit_code(told(good, command.split())) == 0


def test_a_crash_inside_is_told_in_one_line(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(*_: object) -> None:
        raise RuntimeError("two\nlines")

    monkeypatch.setattr(workflow, "check_path", broken)
    assert told(good, ["check"]) == ("Mullbook broke: RuntimeError: two lines. Please report it.\nexit 2\n")


def test_a_disk_that_refuses_is_no_fault_of_ours(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device", "site")

    monkeypatch.setattr(workflow, "check_path", full)
    assert told(good, ["check"]) == "site: No space left on device.\nexit 1\n"


def test_stopping_it_is_no_crash(good: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def stopped(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(workflow, "check_path", stopped)
    assert told(good, ["check"]).strip() == "Stopped.\nexit 1"


def test_a_sign_the_terminal_cannot_show_does_not_stop_the_answer() -> None:
    command = [sys.executable, "-m", "mullbook.cli", "explain", "MB103"]
    environment = {"PYTHONPATH": str(ROOT / "generator"), "PYTHONIOENCODING": "cp1252"}
    ran = subprocess.run(command, env=environment, capture_output=True, timeout=60, check=False)
    assert (ran.returncode, ran.stderr) == (0, b"")
    assert "terre br?l?e" in ran.stdout.decode("cp1252")


def test_explain_says_why_with_a_bad_and_a_good_example(good: Path) -> None:
    assert told(good, ["explain", "mb107"]) == (
        "MB107 (error): key twice\n\n"
        "Of two values under one key most readers silently keep the last.\n\n"
        "Not so:\n    hue: red\n    hue: brown\n\nBut so:\n    hue: brown\nexit 0\n"
    )
    assert "MB107  key twice\n" in told(good, ["explain"])


@pytest.mark.parametrize(
    ("question", "answer"),
    [
        ("cpvc oil_absorption=60 density=3.2", 0.3275),
        ("cpvc oil_absorption=60 density=3,2", 0.3275),
        ("cpvc oil-absorption=60 density=3.2", 0.3275),
        ("blend_density shares=0.5,0.5 densities=2,4", 2.6667),
        ("blend_density shares=0,5;0,5 densities=2;4", 2.6667),
    ],
)
def test_work_takes_lists_and_decimal_commas(good: Path, question: str, answer: float) -> None:
    record = json.loads(told(good, ["work", *question.split(), "--json"]).rsplit("exit ", 1)[0])
    assert record["result"]["value"] == pytest.approx(answer, rel=1e-3)
    assert {"formula", "inputs", "result", "working", "source"} <= record.keys()


def test_work_keeps_a_range_a_range(good: Path) -> None:
    report = told(good, ["work", "cpvc", "oil_absorption=20..24", "density=4.2", "--json"])
    record = json.loads(report.rsplit("exit ", 1)[0])
    assert record["result"]["low"] < record["result"]["high"]
    assert record["inputs"]["oil_absorption"]["low"] == 20


def test_what_cannot_be_worked_out_is_said_and_is_no_clean_end(good: Path) -> None:
    report = told(good, ["work", "cpvc", "density=3.2"])
    assert "Not derivable because oil absorption is not known." in report
    assert exit_code(report) == 1


@pytest.mark.parametrize(
    ("question", "words"),
    [
        ("cpvcc density=3", "Did you mean cpvc?"),
        ("cpvc oil_absorbtion=60 density=3", "Did you mean oil_absorption?"),
        ("cpvc oil_absorption=24..20 density=3", "runs backwards"),
        ("cpvc oil_absorption=nan density=3", "is not a number"),
        ("cpvc oil_absorption=60 oil_absorption=61 density=3", "given twice"),
        ("cpvc oil_absorption=-60 density=3", "must be"),
        ("cpvc oil_absorption", "name=value"),
    ],
)
def test_a_wrong_question_is_answered_in_words(good: Path, question: str, words: str) -> None:
    report = told(good, ["work", *question.split()])
    assert words in report
    assert exit_code(report) == 1


@pytest.mark.parametrize(
    "words",
    [
        "invented-ochre",
        "Invented ochre",
        "INVENTED OCHRE",
        "nobody's yellow",
        "dug yellow, washed",
        "PY 999",
        "py999",
        "C.I. PY 999",
        "C.I. Pigment Yellow 999",
        "Pigment Yellow 999",
        "pigment yellow 999",
        "99999:1",
        "C.I. 99999:1",
        "CI 99999:1",
        "99002-02-5",
    ],
)
def test_show_finds_a_pigment_by_every_kind_of_name(good: Path, words: str) -> None:
    report = told(good, ["show", *words.split()])
    assert report.startswith("Invented ochre (invented-ochre)")
    assert exit_code(report) == 0


@pytest.mark.parametrize(
    ("words", "name"),
    [
        ("PbCO3", "Invented plumbite"),
        ("990-001-0", "Invented ochrite"),
        ("99001-01-1", "Invented ochrite"),
        ("nobody's gum", "Invented gum water"),
        ("invented defoamer", "Invented defoamer"),
    ],
)
def test_show_finds_other_things_too(good: Path, words: str, name: str) -> None:
    assert told(good, ["show", *words.split()]).startswith(name)


def test_show_guesses_at_a_slip(good: Path) -> None:
    report = told(good, ["show", "invented", "okre"])
    assert "Did you mean Invented ochre" in report
    assert exit_code(report) == 1
    assert exit_code(told(good, ["show", "q"])) == 1


def test_pages_writes_and_replaces_its_own_and_nothing_else(good: Path, tmp_path: Path) -> None:
    target = tmp_path / "pages"
    wrote = told(good, ["pages", "--to", str(target)])
    assert exit_code(wrote) == 0 and (target / "pigments/invented-ochre.md").is_file()
    first = {path: path.read_bytes() for path in target.rglob("*") if path.is_file()}
    assert exit_code(told(good, ["pages", "--to", str(target)])) == 0
    assert {path: path.read_bytes() for path in first if path.suffix != ".sqlite"} == {
        path: text for path, text in first.items() if path.suffix != ".sqlite"
    }
    (target / "mine.md").write_text("kept")
    refused = told(good, ["pages", "--to", str(target)])
    assert "MB006" in refused and "mine.md" in refused and exit_code(refused) == 1
    assert (target / "mine.md").read_text() == "kept"


def test_main_is_what_the_command_runs() -> None:
    assert run_mullbook("--version").stdout.startswith("mullbook, version ")
    with pytest.raises(SystemExit) as ended:
        cli.main(["--help"])
    assert ended.value.code == 0
