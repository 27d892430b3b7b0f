"""Files beside a built site that say how to serve it."""

from __future__ import annotations

from pathlib import Path

from mullbook.render.publishing import (
    FOLDER,
    PAGE,
    Policies,
    header_files,
    object_list,
    policies,
    with_files_put_in,
)

OWN = (f"{FOLDER}/objects.csv", "sw.js")
"""Files that are written after the list of files is made, and stand in it."""


def read_policies(site: Path) -> Policies:
    """The content security policies that a built site obeys."""
    pages = {path.relative_to(site).as_posix(): path.read_text("utf-8") for path in site.rglob("*.html")}
    return policies(pages)


def write_publishing(site: Path, templates: Path) -> None:
    """Write the settings of servers for a built site, and show them on its page on publishing.

    Parameters: `site`, the built folder; `templates`, the folder site_templates/.
    Raises `OSError` where the folder cannot be read or written.
    """
    found = read_policies(site)
    there = {each.relative_to(site).as_posix() for each in site.rglob("*") if each.is_file()}
    names = sorted(name for name in there if not name.startswith(".") and not name.startswith(f"{FOLDER}/"))
    files = header_files(templates, found, names)
    (site / FOLDER).mkdir(exist_ok=True)
    listed = [*names, *files, *OWN]
    for path, text in {**files, OWN[0]: object_list(sorted(set(listed)), found)}.items():
        (site / path).write_text(text, encoding="utf-8", newline="\n")
    page = site / PAGE
    if page.is_file():
        page.write_text(with_files_put_in(page.read_text("utf-8"), files), encoding="utf-8", newline="\n")
