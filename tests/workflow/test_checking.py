"""Reading a whole catalogue: which files count as entries, and what is told of those that do not."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from mullbook import workflow
from mullbook.text.problem import Problem
from tests.conftest import ROOT
from tests.corpus.cases import good_project


@pytest.fixture
def project(tmp_path: Path) -> Path:
    return good_project(tmp_path)


def check(project: Path) -> workflow.Loaded:
    return workflow.check(workflow.Roots.at(project))


def codes(problems: tuple[Problem, ...]) -> list[str]:
    return [each.code for each in problems]


def test_no_sound_file_is_read_for_its_places(project: Path) -> None:
    """A rule that asks for a place before it has found a breach makes every check half as slow again."""
    loaded = check(project)
    assert loaded.problems == ()
    assert [each.path for each in loaded.documents if "spans" in vars(each)] == []


@pytest.mark.parametrize("name", [".DS_Store", ".git/config", "Thumbs.db", "pigments/.ochre.yaml.swp"])
def test_what_tools_leave_behind_is_passed_over(project: Path, name: str) -> None:
    path = project / "entries" / name
    path.parent.mkdir(exist_ok=True)
    path.write_text("x")
    assert check(project).problems == ()


@pytest.mark.parametrize(
    "name", ["pigment/x.yaml", "pigments/x.yml", "pigments/a/x.yaml", "x.yaml", "Pigments/x.yaml"]
)
def test_nothing_among_the_entries_is_left_out_without_a_word(project: Path, name: str) -> None:
    path = project / "entries" / name
    if path.exists() or (project / "entries" / "PIGMENTS").exists():
        pytest.skip("this disk does not tell capitals apart")
    path.parent.mkdir(exist_ok=True)
    path.write_text("id: x\n")
    assert codes(check(project).problems) == ["MB307"]


def test_two_files_with_one_id_do_not_both_count(project: Path) -> None:
    ochre = (project / "entries/pigments/invented-ochre.yaml").read_text("utf-8")
    (project / "entries/pigments/a-copy.yaml").write_text(ochre, encoding="utf-8")
    loaded = check(project)
    assert codes(loaded.problems) == ["MB301"]
    assert [each.id for each in loaded.catalogue.pigments].count("invented-ochre") == 1


def test_nothing_follows_from_a_catalogue_with_errors(project: Path) -> None:
    (project / "entries/pigments/invented-ochre.yaml").write_text("", encoding="utf-8")
    loaded = check(project)
    assert codes(loaded.problems) == ["MB114"]
    with pytest.raises(ValueError, match="nothing follows"):
        _ = loaded.derived


def test_what_names_a_broken_entry_still_leads_there(project: Path) -> None:
    for name in ("substances/invented-sand", "binders/invented-acrylic", "sources/invented-list-2020"):
        (project / "entries" / f"{name}.yaml").write_text("id: [", encoding="utf-8")
    assert codes(check(project).problems) == ["MB106"] * 3


def test_a_broken_ruleset_is_not_missed_as_well(project: Path) -> None:
    (project / "entries/rulesets/studio-policy.yaml").write_text("id: [", encoding="utf-8")
    assert codes(check(project).problems) == ["MB106"]


def test_without_rulesets_there_is_a_problem_and_no_verdict(project: Path) -> None:
    for path in (project / "entries/rulesets").iterdir():
        path.unlink()
    loaded = check(project)
    assert codes(loaded.problems) == ["MB706", "MB706"]
    assert loaded.exit_code == 1


def test_a_schema_that_is_no_json_is_a_fault_of_ours(project: Path) -> None:
    (project / "schema/pigment.schema.json").write_text("{", encoding="utf-8")
    with pytest.raises(ValueError, match="Expecting"):
        check(project)


def test_data_the_model_does_not_hold_are_a_fault_of_ours(project: Path) -> None:
    (project / "schema/additive.schema.json").write_text("{}", encoding="utf-8")
    (project / "entries/additives/invented-defoamer.yaml").write_text(
        "id: invented-defoamer\n", encoding="utf-8"
    )
    loaded = check(project)
    assert codes(loaded.problems) == ["MB009"]
    assert "reading the entry (KeyError)" in loaded.problems[0].message
    assert loaded.exit_code == 2


def test_paths_are_told_as_seen_from_where_one_stands(project: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(project)
    assert workflow.Roots.at(project).entries == Path("entries")
    assert workflow.Roots.at(ROOT).entries == ROOT / "entries"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="there are no pipes here")
def test_a_pipe_does_not_hold_the_check_up(project: Path) -> None:
    os.mkfifo(project / "entries/pigments/pipe.yaml")
    assert codes(check(project).problems) == ["MB101"]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_a_problem(project: Path) -> None:
    (project / "entries/pigments/invented-ochre.yaml").chmod(0)
    assert codes(check(project).problems) == ["MB101"]


NOT_FOR_A_CHECK = {
    *("coloraide", "jinja2", "mkdocs", "numpy", "rich"),
    *("importlib.metadata", "jsonschema", "logging", "sqlite3", "subprocess"),
}


def test_a_check_loads_nothing_that_only_pages_and_formulas_need() -> None:
    code = (
        "import sys\n"
        "from pathlib import Path\n"
        "from mullbook import workflow\n"
        "workflow.check(workflow.Roots.at(Path(sys.argv[1])))\n"
        f"print(sorted({NOT_FOR_A_CHECK!r} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code, str(ROOT)], capture_output=True, text=True, timeout=60, check=True
    )
    assert ran.stdout.strip() == "[]"
