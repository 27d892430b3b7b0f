"""`mullbook build` from end to end on the small catalogue: what stands on disk after each way it can end."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.corpus.cases import good_project

pytestmark = pytest.mark.site
PATIENCE = 60
FAULT = "    raise RuntimeError('the page is torn')\n"


@pytest.fixture
def project(tmp_path: Path) -> Path:
    made = good_project(tmp_path / "project")
    (made / "site_templates").symlink_to(ROOT / "site_templates")
    (made / "generator").symlink_to(ROOT / "generator")
    (made / "mkdocs.yml").write_text((ROOT / "mkdocs.yml").read_text("utf-8"), encoding="utf-8")
    return made


def command(code: str = "from mullbook.cli import main; main()") -> list[str]:
    return [sys.executable, "-c", code, "build"]


def build(project: Path, *code: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command(*code), cwd=project, capture_output=True, text=True, timeout=PATIENCE, check=False
    )


def written(project: Path) -> dict[str, bytes]:
    site = project / "site"
    return {
        path.relative_to(site).as_posix(): path.read_bytes() for path in site.rglob("*") if path.is_file()
    }


def hidden(project: Path) -> list[str]:
    return [path.name for path in project.iterdir() if path.name.startswith(".") and path.name != ".cache"]


def test_every_way_a_build_can_end(project: Path) -> None:
    assert build(project).returncode == 0
    whole = written(project)
    assert "pigments/invented-ochre.html" in whole

    entry = project / "entries/pigments/invented-ochre.yaml"
    sound = entry.read_text("utf-8")
    entry.write_text(sound.replace("hue: yellow", "hue: yelow"), encoding="utf-8")
    failed = build(project)
    assert failed.returncode == 1
    assert "Did you mean `yellow`?" in failed.stderr and "Traceback" not in failed.stderr
    assert (written(project), hidden(project)) == (whole, [])
    entry.write_text(sound, encoding="utf-8")

    crashed = build(
        project,
        "from mullbook.workflow import making\n"
        f"def torn(*_):\n{FAULT}"
        "making.made = torn\n"
        "from mullbook.cli import main; main()",
    )
    assert crashed.returncode == 2
    assert crashed.stderr.splitlines()[-1].startswith("Mullbook broke: RuntimeError: the page is torn.")
    assert "Traceback" not in crashed.stderr
    assert (written(project), hidden(project)) == (whole, [])

    if hasattr(signal, "SIGKILL"):
        killed_midway(project)
        assert written(project) == whole
        assert len(hidden(project)) == 1
    assert build(project).returncode == 0
    assert hidden(project) == []
    assert written(project).keys() == whole.keys()


def killed_midway(project: Path) -> None:
    """Kill a build outright as soon as its first pages are on disk."""
    environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
    running = subprocess.Popen(
        command(), cwd=project, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
    )
    end = time.monotonic() + PATIENCE
    while not list(project.glob(".site-new-*/*")) and time.monotonic() < end:
        assert running.poll() is None, "it ended before it could be killed"
        time.sleep(0.005)
    running.send_signal(signal.SIGKILL)
    running.wait(10)
