"""A result takes the place of the last one only when it is whole, and never that of somebody else's files."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from mullbook.workflow.swap import LISTING, Refused, built_beside


def build(target: Path, text: str = "new") -> None:
    with built_beside(target) as folder:
        (folder / "data").mkdir()
        (folder / "data" / "page.html").write_text(text)


def page(target: Path) -> str:
    return (target / "data" / "page.html").read_text()


def leftovers(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir() if path.name.startswith("."))


def test_a_result_replaces_the_last_one_whole(tmp_path: Path) -> None:
    target = tmp_path / "deep" / "site"
    build(target, "old")
    (target / "data" / "page.html").rename(target / "data" / "page.html")
    build(target, "new")
    assert page(target) == "new"
    assert (target / LISTING).read_text() == "data/page.html\n"
    assert leftovers(target.parent) == []


def test_a_failed_run_leaves_the_last_result_whole(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, "old")
    with pytest.raises(KeyboardInterrupt), built_beside(target) as folder:
        (folder / "half").write_text("")
        raise KeyboardInterrupt
    assert page(target) == "old"
    assert leftovers(tmp_path) == []


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="there is no way to kill outright here")
def test_a_killed_run_leaves_the_last_result_whole_and_the_next_clears_up(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, "old")
    code = (
        "import sys, time, pathlib\n"
        "from mullbook.workflow.swap import built_beside\n"
        "with built_beside(pathlib.Path(sys.argv[1])) as folder:\n"
        "    (folder / 'half').write_text('')\n"
        "    print('begun', flush=True)\n"
        "    time.sleep(60)\n"
    )
    running = subprocess.Popen([sys.executable, "-c", code, str(target)], stdout=subprocess.PIPE, text=True)
    assert running.stdout is not None
    assert running.stdout.readline() == "begun\n"
    running.send_signal(signal.SIGKILL)
    running.wait(10)
    running.stdout.close()
    assert page(target) == "old"
    assert len(leftovers(tmp_path)) == 1
    build(target, "new")
    assert page(target) == "new"
    assert leftovers(tmp_path) == []


def test_a_run_killed_between_the_two_moves_is_mended(tmp_path: Path) -> None:
    target = tmp_path / "site"
    build(target, "old")
    target.rename(tmp_path / ".site-last")
    with pytest.raises(RuntimeError), built_beside(target):
        assert page(target) == "old"
        raise RuntimeError
    assert page(target) == "old"


def test_when_the_swap_fails_the_last_result_comes_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "site"
    build(target, "old")
    rename = Path.rename

    def refuse(self: Path, to: Path) -> Path:
        if "-new-" in self.name:
            raise PermissionError(13, "in use", str(self))
        return rename(self, to)

    monkeypatch.setattr(Path, "rename", refuse)
    with pytest.raises(PermissionError):
        build(target, "new")
    assert page(target) == "old"
    assert leftovers(tmp_path) == []


@pytest.mark.parametrize("name", ["mine.txt", "data/mine.txt", "other/deep/mine.txt", ".mine"])
def test_what_no_run_wrote_is_not_replaced(tmp_path: Path, name: str) -> None:
    target = tmp_path / "site"
    build(target, "old")
    (target / name).parent.mkdir(parents=True, exist_ok=True)
    (target / name).write_text("kept")
    with pytest.raises(Refused) as refused:
        build(target, "new")
    assert name in refused.value.problems[0].message
    assert (page(target), (target / name).read_text()) == ("old", "kept")
    assert leftovers(tmp_path) == []


def test_a_folder_of_somebody_else_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    for number in range(5):
        (tmp_path / "site" / f"{number}.txt").write_text("kept")
    with pytest.raises(Refused, match=r"0\.txt, 1\.txt, 2\.txt, \.\.\."):
        build(tmp_path / "site")


def test_a_file_is_not_replaced(tmp_path: Path) -> None:
    (tmp_path / "site").write_text("kept")
    with pytest.raises(Refused, match="This is a file"):
        build(tmp_path / "site")
    assert (tmp_path / "site").read_text() == "kept"


def test_an_empty_folder_and_what_file_managers_leave_are_in_nobodys_way(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "site" / ".DS_Store").write_text("")
    build(tmp_path / "site")
    assert page(tmp_path / "site") == "new"


def test_what_plain_mkdocs_built_may_be_replaced(tmp_path: Path) -> None:
    (tmp_path / "site" / "data").mkdir(parents=True)
    for name in ("data/catalogue.json", "sitemap.xml", "index.html"):
        (tmp_path / "site" / name).write_text("")
    build(tmp_path / "site")
    assert page(tmp_path / "site") == "new"


def test_a_link_to_the_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "site").symlink_to("real")
    build(tmp_path / "site", "one")
    build(tmp_path / "site", "two")
    assert os.readlink(tmp_path / "site") == "real"
    assert page(tmp_path / "real") == "two"
    assert leftovers(tmp_path) == []


def test_two_runs_at_once_leave_each_other_alone(tmp_path: Path) -> None:
    other = tmp_path / f".site-new-{os.getppid()}-abc"
    other.mkdir()
    with built_beside(tmp_path / "site") as folder:
        (folder / "index.html").write_text("new")
    assert other.is_dir()
    assert (tmp_path / "site" / "index.html").read_text() == "new"
