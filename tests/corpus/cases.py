"""The corpus: a small good catalogue, and one bad case for each rule as an overlay on it.

A case is a folder `bad/CODE` or `bad/CODE-words` with
- `entries/`, `schema/`, `site_templates/` and `outside/`, laid over a project with the good catalogue,
- `setup.txt`, what cannot be laid over: `delete PATH`, `folder PATH`, `link PATH TARGET`, `fill PATH BYTES`,
- `command.txt`, the arguments (`check` where there is none),
- `expected.txt`, all that is printed, and the exit code.
"""

from __future__ import annotations

import contextlib
import io
import os
import shutil
from collections.abc import Sequence
from pathlib import Path

from mullbook import cli
from mullbook.workflow.folders import Roots

HERE = Path(__file__).parent
GOOD = HERE / "good"
BAD = HERE / "bad"
ROOT = HERE.parent.parent
SCHEMA = ROOT / "schema"
CASES = sorted(each for each in BAD.iterdir() if each.is_dir())


def good_project(folder: Path) -> Path:
    """A project that holds the good catalogue and the schemas."""
    shutil.copytree(GOOD, folder / "entries")
    shutil.copytree(SCHEMA, folder / "schema")
    return folder


def good_roots(folder: Path) -> Roots:
    """The same, to be built with the project's own templates."""
    project = good_project(folder / "project")
    templates = project / "site_templates"
    templates.symlink_to(ROOT / "site_templates")
    return Roots(project / "entries", project / "schema", templates)


def laid_over(case: Path, project: Path) -> None:
    """Spoil a project as a case says."""
    for part in ("entries", "schema", "site_templates", "outside"):
        if (case / part).is_dir():
            shutil.copytree(case / part, project / part, dirs_exist_ok=True)
    steps = case / "setup.txt"
    for line in steps.read_text("utf-8").splitlines() if steps.is_file() else ():
        _step(*line.split(), project=project)


def _step(verb: str, name: str, *rest: str, project: Path) -> None:
    path = project / name
    if verb == "delete" and path.is_dir():
        shutil.rmtree(path)
    elif verb == "delete":
        path.unlink()
    elif verb == "folder":
        path.mkdir(parents=True)
    elif verb == "link":
        path.symlink_to(rest[0])
    elif verb == "fill":
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("# filled\n" * (int(rest[0]) // 9), encoding="utf-8")
    else:
        raise ValueError(verb)


def command(case: Path) -> list[str]:
    """The arguments of a case."""
    given = case / "command.txt"
    return given.read_text("utf-8").split() if given.is_file() else ["check"]


def told(project: Path, arguments: Sequence[str]) -> str:
    """All that a run from within a project prints, and its exit code."""
    out = io.StringIO()
    here = Path.cwd()
    os.chdir(project)
    try:
        with contextlib.redirect_stdout(out), contextlib.redirect_stderr(out):
            cli.main(arguments)
    except SystemExit as end:
        code = end.code
    finally:
        os.chdir(here)
    return f"{out.getvalue()}exit {code}\n"


def exit_code(report: str) -> int:
    """The exit code that stands on the last line of what was told."""
    return int(report.rsplit("exit ", 1)[1])
