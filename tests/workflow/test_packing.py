"""A stick: whole or not written, the same bytes each time, able to say what is wrong with a copy of it."""

from __future__ import annotations

import hashlib
import shutil
import signal
import subprocess
import sys
import time
import zipfile
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.render.stick import Edition, Overdue
from mullbook.workflow import Loaded, Roots, built_beside, check
from mullbook.workflow.packing import (
    SITE,
    Prints,
    finish_stick,
    overdue,
    print_into,
    refuse_clashes,
    refuse_foreign_zip,
    refuse_overdue,
    zip_stick,
)
from mullbook.workflow.stick import SUMS, read_sums, sums_text, verify
from mullbook.workflow.swap import NotBuilt, Refused
from tests.conftest import ROOT
from tests.corpus.cases import good_project, told

TEMPLATES = ROOT / "site_templates"
EDITION = Edition("Mullbook", "0.1.0", "EU CLP of 2021", "2026-11-25")
LATE = (Overdue("pigment", "ochre", "Ochre <&> co.", "2025-01-31"),)
PAGE = '<!doctype html><html><body class="a"><header>Menu</header><main>Ochre</main></body></html>'


def fill(folder: Path, edition: Edition = EDITION) -> Path:
    """A made-up site, made into a stick."""
    script = (TEMPLATES / "pages/assets/javascripts/keeper.js").read_bytes()
    files = {
        "index.html": PAGE.encode(),
        "404.html": b"<html><body><main>none</main></body></html>",
        "pigments/ochre.html": PAGE.encode(),
        "data/catalogue.json": b"{}\n",
        "assets/javascripts/keeper.js": script,
        "pigments/terre d'ombre Ä.txt": b"umber\n",
    }
    for name, content in files.items():
        path = folder / SITE / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    (folder / "print").mkdir()
    (folder / "print" / "bench-cards-a6.pdf").write_bytes(b"%PDF-1.7\n")
    finish_stick(folder, edition, TEMPLATES)
    return folder


def pack(target: Path, edition: Edition = EDITION) -> Path:
    with built_beside(target) as folder:
        fill(folder, edition)
    return target


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    return pack(tmp_path / "stick")


def spoil(stick: Path) -> None:
    """One byte of one file changed, one file missing, one added."""
    page = stick / SITE / "pigments/ochre.html"
    content = bytearray(page.read_bytes())
    content[40] ^= 1
    page.write_bytes(bytes(content))
    (stick / SITE / "data/catalogue.json").unlink()
    (stick / SITE / "pigments/extra.html").write_text("who put me here")


def test_a_stick_as_packed_is_whole(stick: Path) -> None:
    held = verify(stick)
    assert held.is_whole
    assert held.listed == sum(1 for each in stick.rglob("*") if each.is_file()) - 2
    assert held.number == hashlib.sha256((stick / SUMS).read_bytes()).hexdigest()


def test_one_byte_changed_one_file_missing_and_one_added_are_each_named(stick: Path) -> None:
    spoil(stick)
    held = verify(stick)
    assert held.altered == ("site/pigments/ochre.html",)
    assert held.missing == ("site/data/catalogue.json",)
    assert held.added == ("site/pigments/extra.html",)


def test_what_systems_leave_on_a_stick_is_no_addition(stick: Path) -> None:
    (stick / ".Trashes").mkdir()
    for name in (".DS_Store", "site/Thumbs.db", "site/pigments/._ochre.html", ".Trashes/501"):
        (stick / name).write_text("the system's own")
    assert verify(stick).is_whole
    assert verify(stick).left_by_system == 5


def test_a_folder_in_the_place_of_a_file_is_an_alteration_of_it(stick: Path) -> None:
    (stick / "EDITION.txt").unlink()
    (stick / "EDITION.txt").mkdir()
    (stick / "EDITION.txt" / "in.txt").write_text("")
    held = verify(stick)
    assert (held.missing, held.added) == (("EDITION.txt",), ("EDITION.txt/in.txt",))


@pytest.mark.skipif(shutil.which("sha256sum") is None, reason="no sha256sum")
def test_the_plain_command_on_the_start_page_agrees(stick: Path) -> None:
    line = "sha256sum -c --quiet SHA256SUMS"
    assert line in (stick / "START-HERE.txt").read_text("utf-8")
    assert subprocess.run(line.split(), cwd=stick, capture_output=True, check=False).returncode == 0
    spoil(stick)
    ran = subprocess.run(line.split(), cwd=stick, capture_output=True, text=True, check=False)
    assert ran.returncode == 1
    assert "site/pigments/ochre.html: FAILED" in ran.stdout


@given(
    st.dictionaries(
        st.from_regex(r"[a-zA-Z0-9 ./'Ä_-]{1,20}", fullmatch=True), st.just("0f" * 32), min_size=1
    )
)
def test_a_list_reads_back_as_it_was_written(digests: dict[str, str]) -> None:
    assert read_sums(sums_text(digests), "stick") == digests


def test_a_list_with_a_torn_line_says_which(stick: Path) -> None:
    with (stick / SUMS).open("a") as file:
        file.write("half a li")
    with pytest.raises(Refused, match=r"Line \d+ of SHA256SUMS is no line"):
        verify(stick)


def test_two_packs_give_the_same_bytes(tmp_path: Path) -> None:
    stick = pack(tmp_path / "one")
    for name in ("a.zip", "b.zip"):
        zip_stick(fill(tmp_path / f"made-{name}"), tmp_path / name, EDITION.top, EDITION.checked)
        time.sleep(0.01)
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()
    assert (pack(tmp_path / "two") / SUMS).read_bytes() == (stick / SUMS).read_bytes()


def test_a_zip_holds_one_folder_with_fixed_dates_in_order(tmp_path: Path) -> None:
    zip_stick(fill(tmp_path / "made"), tmp_path / "stick.zip", EDITION.top, EDITION.checked)
    with zipfile.ZipFile(tmp_path / "stick.zip") as archive:
        names = archive.namelist()
        assert names == sorted(names)
        assert {name.partition("/")[0] for name in names} == {"mullbook-0.1.0-2026-11-25"}
        assert {each.date_time for each in archive.infolist()} == {(2026, 11, 25, 0, 0, 0)}
        archive.extractall(tmp_path / "out")
    assert verify(tmp_path / "stick.zip") == verify(tmp_path / "out" / EDITION.top)
    assert verify(tmp_path / "stick.zip").is_whole


def test_a_zip_with_one_byte_changed_names_the_file(tmp_path: Path) -> None:
    zip_stick(fill(tmp_path / "made"), tmp_path / "stick.zip", EDITION.top, EDITION.checked)
    with zipfile.ZipFile(tmp_path / "stick.zip") as archive:
        place = archive.getinfo(f"{EDITION.top}/site/pigments/ochre.html")
    content = bytearray((tmp_path / "stick.zip").read_bytes())
    content[place.header_offset + 30 + len(place.filename) + 20] ^= 1
    (tmp_path / "stick.zip").write_bytes(bytes(content))
    held = verify(tmp_path / "stick.zip")
    assert (held.altered, held.missing, held.added) == (("site/pigments/ochre.html",), (), ())


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="there is no way to kill outright here")
@pytest.mark.parametrize("name", ["stick", "stick.zip"])
def test_a_killed_pack_leaves_the_last_one_whole(tmp_path: Path, name: str) -> None:
    target = tmp_path / name
    if name == "stick":
        pack(target)
    else:
        zip_stick(fill(tmp_path / "made"), target, EDITION.top, EDITION.checked)
    before = verify(target)
    code = (
        "import sys, time; from pathlib import Path\n"
        "from mullbook.workflow import built_beside, packing\n"
        "from tests.workflow.test_packing import EDITION, fill, pack\n"
        "target = Path(sys.argv[1])\n"
        "slow = packing._dated if target.suffix else packing.file_digest\n"
        "def slowly(*given):\n    print('begun', flush=True); time.sleep(20); return slow(*given)\n"
        "packing._dated = packing.file_digest = slowly\n"
        "if target.suffix:\n"
        "    packing.zip_stick(target.parent / 'made', target, EDITION.top, EDITION.checked)\n"
        "else:\n    pack(target)\n"
    )
    running = subprocess.Popen(
        [sys.executable, "-c", code, str(target)], cwd=ROOT, stdout=subprocess.PIPE, text=True
    )
    assert running.stdout is not None
    assert running.stdout.readline() == "begun\n"
    running.send_signal(signal.SIGKILL)
    running.wait(10)
    running.stdout.close()
    assert verify(target) == before
    assert len([each for each in tmp_path.iterdir() if each.name.startswith(".")]) == 1
    if name == "stick":
        pack(target)
    else:
        zip_stick(tmp_path / "made", target, EDITION.top, EDITION.checked)
    assert verify(target) == before
    assert [each for each in tmp_path.iterdir() if each.name.startswith(".")] == []


def test_a_zip_file_of_somebody_else_is_not_replaced(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "photos.zip", "w") as archive:
        archive.writestr("cat.jpg", b"")
    (tmp_path / "note.zip").write_text("not a zip file at all")
    for name in ("photos.zip", "note.zip"):
        with pytest.raises(Refused, match="not packed by Mullbook"):
            refuse_foreign_zip(tmp_path / name)
    zip_stick(fill(tmp_path / "made"), tmp_path / "own.zip", EDITION.top, EDITION.checked)
    refuse_foreign_zip(tmp_path / "own.zip")
    refuse_foreign_zip(tmp_path / "new.zip")


def test_names_a_stick_cannot_tell_apart_or_hold_are_refused() -> None:
    for names in (["a/H360FD.html", "a/H360Fd.html"], ["a/what?.html"], ["a/dot./b"], ["ends "]):
        with pytest.raises(NotBuilt, match="A stick cannot"):
            refuse_clashes(names)
    refuse_clashes(["a/H360FD.html", "a/H360F.html"])


def test_every_page_says_that_reviews_were_overdue(tmp_path: Path) -> None:
    stick = pack(tmp_path / "stick", replace(EDITION, overdue=LATE))
    pages = sorted(stick.rglob("*.html"))
    assert len(pages) == 5
    for page in pages:
        assert "Packed although a safety review was overdue: Ochre &lt;&amp;&gt; co. (due 2025-01-31)" in (
            page.read_text("utf-8")
        ), page.name
    for text in ("START-HERE.txt", "EDITION.txt"):
        assert "Ochre <&> co. (due 2025-01-31)" in (stick / text).read_text("utf-8")
    assert verify(stick).is_whole


def test_no_page_says_so_where_none_was(stick: Path) -> None:
    assert [page.name for page in stick.rglob("*.html") if 'role="note"' in page.read_text("utf-8")] == []
    assert "overdue" not in (stick / "START-HERE.txt").read_text("utf-8")


def test_a_review_is_overdue_the_day_after_it_was_due() -> None:
    loaded = Loaded(
        catalogue=Catalogue(
            pigments=(
                Pigment(id="b", name="B", review_by="2026-11-24"),
                Pigment(id="a", name="A", review_by="2026-11-25"),
                Pigment(id="c", name="C"),
            )
        )
    )
    assert [each.id for each in overdue(loaded, date(2026, 11, 25))] == ["b"]
    assert [each.id for each in overdue(loaded, date(2026, 11, 26))] == ["b", "a"]


def test_a_pack_with_errors_or_overdue_reviews_is_refused_in_words(tmp_path: Path) -> None:
    project = good_project(tmp_path / "project")
    late = told(project, ["pack", "--to", "out", "--today", "2027-11-26"])
    assert late.endswith("exit 1\n") and "MB020" in late and "--overdue-anyway" in late
    entry = project / "entries/pigments/invented-ochre.yaml"
    entry.write_text(entry.read_text("utf-8").replace("hue: yellow", "hue: yelow"), encoding="utf-8")
    wrong = told(project, ["pack", "--to", "out.zip", "--overdue-anyway"])
    assert wrong.endswith("exit 1\n") and "Did you mean `yellow`?" in wrong
    assert not (project / "out").exists() and not (project / "out.zip").exists()


def test_the_command_says_what_it_wants(tmp_path: Path) -> None:
    project = good_project(tmp_path / "project")
    assert "Give --to a folder or .zip file" in told(project, ["pack"])
    assert "There is no nowhere" in told(project, ["pack", "--verify", "nowhere"])


def test_a_stick_carries_poster_and_cards_and_they_say_where_a_review_was_overdue(tmp_path: Path) -> None:
    project = good_project(tmp_path / "project")
    (project / "site_templates").symlink_to(TEMPLATES)
    roots = Roots.at(project)
    print_into(
        tmp_path,
        check(roots),
        roots,
        Prints(("poster", "cards"), date(2026, 11, 25), "2025-01-31"),
        lambda _name, _total: None,
    )
    assert sorted(path.name for path in (tmp_path / "print").iterdir()) == [
        "bench-cards-a5.pdf",
        "poster-a4.pdf",
    ]
    for path in (tmp_path / "print").iterdir():
        pages = [page.extract_text() for page in PdfReader(path).pages]
        assert all("REVIEW OVERDUE since 2025-01-31" in page for page in pages), path.name
    stick = fill(tmp_path / "stick")
    assert "Bench cards, A6" in (stick / "START-HERE.html").read_text("utf-8")


def test_an_edition_is_not_packed_while_a_jar_of_its_shelf_is_overdue() -> None:
    roots = Roots.at(ROOT, ROOT / "tests" / "corpus" / "studio")
    loaded = check(roots)
    late = overdue(loaded, date(2026, 11, 25))
    assert [(each.kind, each.id, each.due) for each in late] == [
        ("jar", "HL-004", "2026-03-01"),
        ("jar", "HL-011", "2026-03-01"),
        ("jar", "HL-002", "2026-09-01"),
    ]
    with pytest.raises(Refused, match="jar HL-004, Lead white was due on 2026-03-01"):
        refuse_overdue(loaded, roots, late)
    assert "studio" in {each.kind for each in overdue(loaded, date(2027, 11, 26))}
