"""What several test folders share: the project's places, a built site, and copies of the project to break."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

from mullbook import workflow
from mullbook.derive.results import Derived
from mullbook.derive.stone_results import StoneTable
from mullbook.derive.stone_table import stone_table
from mullbook.model.catalogue import Catalogue
from mullbook.workflow.checking import Loaded

ROOT = Path(__file__).resolve().parent.parent
NOT_COPIED = shutil.ignore_patterns(".git", ".venv", ".cache", ".*_cache", "__pycache__", "site", "tests")
MINUTES = 60


def run_mullbook(*arguments: str, cwd: Path = ROOT) -> subprocess.CompletedProcess[str]:
    """Run the command from the package that lies under ``cwd``, as a user would from a shell."""
    environment = {**os.environ, "PYTHONPATH": str(cwd / "generator"), "NO_COLOR": "1"}
    environment.pop("SOURCE_DATE_EPOCH", None)
    return subprocess.run(
        [sys.executable, "-m", "mullbook.cli", *arguments],
        cwd=cwd,
        env=environment,
        capture_output=True,
        text=True,
        timeout=10 * MINUTES,
        check=False,
    )


def pytest_addoption(parser: pytest.Parser) -> None:
    """`pytest tests/checks/test_corpus.py --update-golden` after a wording was changed on purpose."""
    parser.addoption("--update-golden", action="store_true", help="write the expected reports anew")


def _not_run(config: pytest.Config) -> list[str]:
    reporter: Any = config.pluginmanager.get_plugin("terminalreporter")
    skipped = reporter.stats.get("skipped", []) if reporter else []
    return [report.nodeid for report in skipped if report.nodeid.startswith("tests/browser/")]


def pytest_sessionfinish(session: pytest.Session) -> None:
    if os.environ.get("CI") and _not_run(session.config):
        session.exitstatus = pytest.ExitCode.TESTS_FAILED


def pytest_terminal_summary(terminalreporter: Any, config: pytest.Config) -> None:
    names = sorted({nodeid.partition("[")[0] for nodeid in _not_run(config)})
    if not names:
        return
    terminalreporter.section("browser tests that did not run")
    for name in names:
        terminalreporter.line(name)
    terminalreporter.line("Install Chromium, or name one in MULLBOOK_CHROMIUM.")
    if os.environ.get("CI"):
        terminalreporter.line("CI is set, so this run counts as failed.")


@pytest.fixture(scope="session")
def project_root() -> Path:
    return ROOT


@pytest.fixture(scope="session")
def loaded() -> Loaded:
    """The project's own entries, all of them, read, checked and derived once for all tests."""
    found = workflow.check(workflow.Roots.at(ROOT))
    assert not found.errors
    return found


@pytest.fixture(scope="session")
def catalogue(loaded: Loaded) -> Catalogue:
    return loaded.catalogue


@pytest.fixture(scope="session")
def derived(loaded: Loaded) -> Derived:
    return loaded.derived


@pytest.fixture(scope="session")
def stones(catalogue: Catalogue) -> StoneTable:
    """What the stone check knows."""
    found = stone_table(catalogue)
    assert found is not None
    return found


@pytest.fixture(scope="session")
def files(loaded: Loaded) -> Mapping[str, str | bytes]:
    """Everything that a build hands to the engine, rendered once for all tests."""
    return workflow.site_files(loaded, workflow.Roots.at(ROOT))


@pytest.fixture(scope="session")
def pages(files: Mapping[str, str | bytes]) -> dict[str, str]:
    return {path: text for path, text in files.items() if isinstance(text, str) and path.endswith(".md")}


@pytest.fixture(scope="session")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The site of the project's own entries, built once for all tests."""
    folder = tmp_path_factory.mktemp("built") / "site"
    built = run_mullbook("build", "--to", str(folder))
    assert built.returncode == 0, f"mullbook build said:\n{built.stdout}\n{built.stderr}"
    return folder


@pytest.fixture(scope="session")
def studio_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the invented studio, with a remark in it that no page may show."""
    made = shutil.copytree(ROOT / "tests" / "corpus" / "studio", tmp_path_factory.mktemp("studio") / "harrow")
    path = made / "studio.yaml"
    path.write_text(path.read_text("utf-8") + "note: zqx-remark-zqx\n", encoding="utf-8")
    return made


@pytest.fixture(scope="session")
def edition(studio_folder: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The edition of the invented studio, built once for all tests."""
    folder = tmp_path_factory.mktemp("edition") / "site"
    built = run_mullbook("build", "--studio", str(studio_folder), "--to", str(folder))
    assert built.returncode == 0, f"mullbook build said:\n{built.stdout}\n{built.stderr}"
    return folder


@pytest.fixture
def copy_project(tmp_path: Path) -> Callable[[], Path]:
    """Makes a copy of the project that a test may spoil."""

    def copy() -> Path:
        return shutil.copytree(ROOT, tmp_path / "project", ignore=NOT_COPIED)

    return copy
