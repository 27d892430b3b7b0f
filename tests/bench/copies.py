"""Projects to measure with: larger ones made by copying pigments, and one for MkDocs without our plugin."""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

import yaml
from mkdocs.config import load_config

# Identity has to differ from copy to copy; what may be shared (C.I. names, CAS numbers) stays.
NAMED = re.compile(r"^(id|name): *(.+)$", re.MULTILINE)
ALIASES = re.compile(r"^aliases:(?: *\[[^\]]*\]|(?:\n +- .*)+)\n", re.MULTILINE)


def grow(project: Path, to: Path, *, pigments: int = 0, entries: int = 0) -> Path:
    """A copy of a project with as many pigments, or as many entries in all, as asked for."""
    shutil.copytree(project, to, ignore=shutil.ignore_patterns(".cache"))
    folder = to / "entries" / "pigments"
    originals = sorted(folder.glob("*.yaml"))
    missing = pigments - len(originals) if pigments else entries - len(list((to / "entries").rglob("*.yaml")))
    for number in range(missing):
        original = originals[number % len(originals)]
        copy_number = number // len(originals) + 1
        text = ALIASES.sub("", original.read_text(encoding="utf-8"))
        name = f"{original.stem}-copy-{copy_number}"
        (folder / f"{name}.yaml").write_text(_renamed(text, name, copy_number), encoding="utf-8")
    return to


def _renamed(text: str, entry_id: str, number: int) -> str:
    def rename(found: re.Match[str]) -> str:
        value = entry_id if found[1] == "id" else f"{found[2].strip(chr(34))} copy {number}"
        return f"{found[1]}: {value}"

    return NAMED.sub(rename, text)


def plain_project(project: Path, pages: Path, to: Path) -> Path:
    """A config that builds ``pages`` as plain Markdown: same theme, same navigation, no plugin of ours."""
    written = yaml.safe_load((project / "mkdocs.yml").read_text(encoding="utf-8"))
    navigation = _navigation(project)
    shutil.copytree(project / written["docs_dir"], to / "docs")
    shutil.copytree(pages, to / "docs", dirs_exist_ok=True)
    written["theme"]["custom_dir"] = str(project / written["theme"]["custom_dir"])
    written["plugins"] = ["search"]  # for ours, which our plugin makes
    written |= {"docs_dir": str(to / "docs"), "site_dir": str(to / "site"), "nav": navigation}
    del written["watch"]
    config = to / "mkdocs.yml"
    config.write_text(yaml.safe_dump(written, sort_keys=False, allow_unicode=True), encoding="utf-8")
    return config


def _navigation(project: Path) -> Any:
    config = load_config(str(project / "mkdocs.yml"))
    config.plugins.on_startup(command="build", dirty=False)
    return config.plugins.on_config(config).nav
