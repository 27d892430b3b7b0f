"""The built edition of a studio: rooms, jars and rules are on the pages, nothing private is in any file."""

from __future__ import annotations

import gzip
import re
import shutil
from html import unescape
from pathlib import Path

import pytest

from mullbook.workflow import Roots, check, site_files
from tests.conftest import ROOT

PLANTED = {
    "a cupboard": "North press B2",
    "another cupboard": "Lockbox Rowan-44",
    "a price": "4471.55",
    "a person": "Verrinder",
    "how a person is reached": "extension 7719",
    "a private room": "Strongroom",
    "its id": "back-store",
    "where a stone was found": "Sallowmere",
    "where exactly": "54.0001",
    "who allowed it": "Ottoline Grebe",
    "a note of the register": "Hinge mended",
    "another note": "blue week",
    "what a lost label says": "lb, best",
    "a misspelt name on a jar": "emerald gren",
    "a column of the keeper's own": "2026-03-02",
    "a remark in studio.yaml": "zqx-remark-zqx",
}
"""What must not leave the folder, by what it is."""

pytestmark = pytest.mark.site


def contents(site: Path) -> dict[str, bytes]:
    found = {}
    for path in sorted(each for each in site.rglob("*") if each.is_file()):
        content = path.read_bytes()
        found[path.relative_to(site).as_posix()] = (
            gzip.decompress(content) if path.suffix == ".gz" else content
        )
    return found


def text(site: Path, page: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]+>", " ", (site / page).read_text("utf-8"))).split())


def test_what_is_planted_stands_in_the_folder(studio_folder: Path) -> None:
    held = b"".join(path.read_bytes() for path in studio_folder.rglob("*") if path.is_file()).decode()
    assert [what for what, secret in PLANTED.items() if secret not in held.replace('""', '"')] == []


def test_nothing_private_is_in_any_file(edition: Path) -> None:
    found = contents(edition)
    assert len(found) > 1000
    leaks = [
        f"{what} in {path}"
        for path, content in found.items()
        for what, secret in PLANTED.items()
        for form in {secret, secret.replace('"', '\\"'), secret.replace('"', "&#34;")}
        if form.encode() in content
    ]
    assert leaks == []


def test_the_home_page_is_the_studios(edition: Path) -> None:
    home = text(edition, "index.html")
    for words in (
        "Studio at Harrow Lane Mill",
        "Grinding room",
        "38 m³",
        "000 0001",
        "On our shelf",
        "Cobalt blue",
    ):
        assert words in home
    assert home.index("On our shelf") < home.index("Five ways of working")


def test_a_pigment_says_what_holds_in_each_room(edition: Path) -> None:
    umber = text(edition, "pigments/raw-umber.html")
    for words in (
        "HL-001",
        "Grinding room",
        "Wet room",
        "Classroom",
        "000 0001",
        "Edition of Studio at Harrow",
    ):
        assert words in umber
    assert "air changes never measured" in umber
    assert "the whole grinding room (38 m³)" in umber
    assert "a room of 60 m³" not in umber
    assert "says more here than the book: constituents, handling" in umber


def test_an_own_entry_says_that_it_is_the_studios(edition: Path) -> None:
    assert "This studio's own entry" in text(edition, "pigments/mill-lane-ochre.html")
    assert "This studio's own entry" not in text(edition, "pigments/titanium-white.html")
    assert (edition / "samples" / "hm-03.html").is_file()


def test_a_name_marked_private_is_blank_in_the_list(edition: Path) -> None:
    shelf = text(edition, "studio/shelf.html")
    assert "HL-003" in shelf and "paint room" in shelf


def test_the_audit_page_counts_and_names_the_steps(edition: Path) -> None:
    audit = text(edition, "studio/audit.html")
    for words in (
        "11 jars, 4 on the red list",
        "2 in quarantine",
        "Lead (Pb)",
        "135–240 g",
        "X-ray fluorescence",
    ):
        assert words in audit


def test_the_look_and_the_defaults_are_files_of_the_edition(edition: Path) -> None:
    assert "--mark: #2f5d50" in (edition / "assets" / "stylesheets" / "studio.css").read_text("utf-8")
    assert '"room":38.0' in (edition / "data" / "studio.js").read_text("utf-8")
    assert "studio.css" in (edition / "pigments" / "chalk.html").read_text("utf-8")


def test_the_book_itself_has_none_of_it(site: Path) -> None:
    assert not (site / "studio").exists() and not (site / "data" / "studio.js").exists()
    assert (site / "studio-edition.html").is_file()
    assert "Harrow Lane Mill (invented)" not in (site / "index.html").read_text("utf-8")


def test_an_edition_of_the_shelf_alone_leaves_no_link_dangling(studio_folder: Path, tmp_path: Path) -> None:
    only = shutil.copytree(studio_folder, tmp_path / "only")
    path = only / "studio.yaml"
    path.write_text(path.read_text("utf-8").replace("show: first", "show: only"), encoding="utf-8")
    roots = Roots.at(ROOT, only)
    loaded = check(roots)
    files = site_files(loaded, roots)
    pigments = {Path(each).stem for each in files if each.startswith("pigments/") and each.endswith(".md")}
    assert "vermilion" not in pigments
    assert {"raw-umber", "mill-lane-ochre", "unlabelled-jar", "unknown-stone"} <= pigments
    assert len(pigments) < 20
    assert "vermilion" in loaded.catalogue.pigment, "the commands still know the whole book"
    linked = {
        target
        for name, content in files.items()
        if name.endswith(".md") and isinstance(content, str)
        for target in re.findall(r'href="(?:\.\./)?pigments/([a-z0-9-]+)\.html', content)
    }
    assert linked <= pigments
    joined = b"".join(each.encode() if isinstance(each, str) else each for each in files.values())
    assert [what for what, secret in PLANTED.items() if secret.encode() in joined] == []
