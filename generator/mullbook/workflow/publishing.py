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
from mullbook.workflow.stick import file_digest

OWN = (f"{FOLDER}/objects.csv", "sw.js")
"""In the list, but written after it: the list itself, and the script that is made of all files."""


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
    files = header_files(templates, found)
    (site / FOLDER).mkdir(exist_ok=True)
    for path, text in files.items():
        (site / path).write_text(text, encoding="utf-8", newline="\n")
    page = site / PAGE
    if page.is_file():
        page.write_text(with_files_put_in(page.read_text("utf-8"), files), encoding="utf-8", newline="\n")
    there = {each.relative_to(site).as_posix(): each for each in site.rglob("*") if each.is_file()}
    digests = {
        name: "" if name in OWN else file_digest(path) for name, path in there.items() if name[0] != "."
    }
    listed = object_list({**dict.fromkeys(OWN, ""), **digests}, found)
    (site / OWN[0]).write_text(listed, encoding="utf-8", newline="\n")
