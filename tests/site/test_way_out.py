"""The pages are plain Markdown files as well: MkDocs alone makes the same of them, without our plugin."""

from __future__ import annotations

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from mullbook.render.lean import open_ended
from tests.bench.copies import plain_project
from tests.conftest import run_mullbook

pytestmark = pytest.mark.site
ARTICLE = re.compile(r"<article>(.*?)</article>", re.DOTALL)
BETWEEN = re.compile(r"\s*\n\s*(?=<)|(?<=>)\s+(?=<)")
PUT_IN = re.compile(r'<pre class="put".*?</pre>', re.DOTALL)
"""Settings for servers, which depend on the built site and are put into a page at the very end."""
MARK = " data-search-exclude"


def articles(site: Path) -> dict[str, str]:
    """What stands on each page; line ends between elements, marks for the text search and end tags that HTML
    lets out do not count."""
    found = {}
    for path in site.rglob("*.html"):
        held = ARTICLE.search(path.read_text(encoding="utf-8"))
        if held:
            whole = PUT_IN.sub("", held[1].replace(MARK, "")).strip()
            found[path.relative_to(site).as_posix()] = BETWEEN.sub("", open_ended(whole))
    return found


def test_the_engine_alone_makes_the_same_pages(
    site: Path, copy_project: Callable[[], Path], tmp_path: Path
) -> None:
    """This is also what lets our plugin put pages in without having their Markdown read."""
    project, pages = copy_project(), tmp_path / "pages"
    written = run_mullbook("pages", "--to", str(pages), cwd=project)
    assert written.returncode == 0, written.stderr
    config = plain_project(project, pages, tmp_path / "plain")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(config)]
    built = subprocess.run(command, cwd=project, capture_output=True, text=True, timeout=600, check=False)
    assert built.returncode == 0, built.stderr
    ours, plain = articles(site), articles(tmp_path / "plain" / "site")
    assert sorted(ours) == sorted(plain)
    assert len(ours) > 900
    assert [name for name in ours if ours[name] != plain[name]] == []
