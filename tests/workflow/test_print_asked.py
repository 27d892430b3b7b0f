"""What is asked of the print room: words, names, papers, studios, and what is refused."""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from mullbook.model.studio import EmergencyNumber, Room, Studio, Units
from mullbook.render.papers import PAPERS, card_grid
from mullbook.render.print_kinds import PRINTABLE
from mullbook.render.print_late import Reviews
from mullbook.workflow import Refused, Roots
from mullbook.workflow.print_asked import (
    Asked,
    pdf_path,
    printable,
)
from mullbook.workflow.print_room import PrintRoom
from mullbook.workflow.printing import (
    KEY,
    keys_in,
    shapes,
    write_whole,
)
from tests.conftest import ROOT, run_mullbook
from tests.workflow.paper import ROOTS, loaded, printed, reader, text_of


def test_every_word_of_the_templates_is_in_the_strings() -> None:
    english = PrintRoom(loaded(), ROOTS, Asked()).strings
    named = 0
    for template in sorted((ROOT / "site_templates" / "print").glob("*.typ")):
        keys = keys_in(template.read_text("utf-8"))
        assert [key for key in keys if key not in english.texts] == [], template.name
        named += len(keys)
    assert named > 40


def test_no_sentence_stands_in_a_template() -> None:
    """Words with a space between them belong into the strings; what is left is code, ids and marks."""
    for template in sorted((ROOT / "site_templates" / "print").glob("*.typ")):
        code = re.sub(r"//.*", "", template.read_text("utf-8"))
        quoted = [each for each in re.findall(r'"([^"\n]*)"', code) if not KEY.fullmatch(f'"{each}"')]
        assert [each for each in quoted if re.search(r"[a-z]{3,} [a-z]{2,}", each)] == [], template.name


def test_every_verdict_has_its_drawing() -> None:
    found = loaded()
    room = PrintRoom(found, ROOTS, Asked())
    drawn = shapes(ROOTS.templates)
    for pigment in found.catalogue.pigments:
        card = room.cards.card(pigment)
        assert {each["shape"] for each in (*card["states"], card["waste"])} <= set(drawn)
    assert "currentColor" not in "".join(drawn.values())


@pytest.mark.parametrize(
    ("what", "names", "asked", "says"),
    [
        ("card", (), Asked(), "it takes pigments"),
        ("card", ("rawumbr",), Asked(), "Nothing goes under the name rawumbr"),
        ("card", ("quartz",), Asked(), "Quartz is a substance"),
        ("card", ("raw-umber",), Asked(paper="A3"), "not set for A3"),
        ("card", ("raw-umber",), Asked(paper="foolscap"), "No paper called foolscap"),
        ("card", ("raw-umber",), Asked(paper="A4", up=3), "1, 2 or 4"),
        ("card", ("raw-umber",), Asked(paper="A6", up=4), "one card a sheet"),
        ("cards", ("raw-umber",), Asked(), "no name goes with it"),
        ("labels", ("raw-umber",), Asked(sheet="22-up"), "No label sheet 22-up"),
        ("labels", ("raw-umber",), Asked(start=22), "--start takes 1 to 21"),
        ("labels", ("raw-umber",), Asked(offset_x=50.0), "--offset-x takes"),
        ("labels", ("raw-umber",), Asked(copies=0), "--copies takes"),
        ("batch", ("no-such-recipe",), Asked(), "no recipe called"),
        ("washing", ("linseed oil",), Asked(), "is no pigment"),
        ("washing", ("orpiment",), Asked(), "Orpiment stays shut"),
        ("form", ("pigmnt",), Asked(), "No entry is a pigmnt"),
    ],
)
def test_a_wrong_question_is_refused_in_words(
    what: str, names: tuple[str, ...], asked: Asked, says: str
) -> None:
    with pytest.raises(Refused, match=re.escape(says)):
        printed(what, names, asked)


def test_names_may_be_several_words_long() -> None:
    made = printed("card", ("raw", "umber", "lead", "white"))
    assert len(reader(made).pages) == 4


def test_a_paper_that_nobody_has_is_answered_with_the_nearest() -> None:
    with pytest.raises(Refused) as refused:
        printable("lables")
    assert refused.value.problems[0].hint == "Did you mean labels?"


def test_where_it_goes_is_a_pdf(tmp_path: Path) -> None:
    kind = printable("card")
    assert pdf_path(tmp_path / "card", kind) == tmp_path / "card.pdf"
    for wrong in (None, tmp_path, tmp_path / "card.docx"):
        with pytest.raises(Refused):
            pdf_path(wrong, kind)


def test_a_file_is_whole_or_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "new" / "card.pdf"
    write_whole(path, b"first")

    def broken(*_: object) -> None:
        raise OSError("the disk is full")

    monkeypatch.setattr("os.fdopen", broken)
    with pytest.raises(OSError, match="full"):
        write_whole(path, b"second")
    assert path.read_bytes() == b"first"
    assert [each.name for each in path.parent.iterdir()] == ["card.pdf"]


def test_cards_fill_their_sheet() -> None:
    for paper in ("A4", "Letter"):
        for up in (1, 2, 4):
            grid = card_grid(PAPERS[paper], up)
            assert (grid.right, grid.bottom) == pytest.approx((0, 0))


def test_a_washing_plan_says_what_the_command_says() -> None:
    text = text_of(printed("washing", ("yellow ochre",)))
    told = run_mullbook("wash", "yellow ochre").stdout
    waits = re.findall(r"wait ([\d.]+\s(?:s|min|h)),", told)
    assert waits
    assert all(wait in text for wait in waits)
    assert "stays wet" in text


@pytest.mark.parametrize(
    ("what", "names"),
    [
        ("card", ("raw-umber", "acrylic-gel")),
        ("labels", ("raw-umber", "raw-umber-satin-tubes")),
        ("lid", ("raw-umber",)),
        ("poster", ()),
        ("batch", ("raw-umber-satin-tubes",)),
        ("washing", ("yellow-ochre",)),
        ("sign-off", ("raw-umber",)),
    ],
)
def test_what_is_printed_after_its_review_was_due_says_so_on_every_page(
    what: str, names: tuple[str, ...]
) -> None:
    late = printed(what, names, Asked(today="2031-01-01"))
    for page in reader(late).pages:
        assert "REVIEW OVERDUE since 2027-" in page.extract_text()
    assert late.notes and "was due on 2027-" in late.notes[-1]
    assert all(each.height <= each.place for each in late.fits)
    in_time = printed(what, names, Asked(today="2026-11-26"))
    assert "OVERDUE" not in text_of(in_time)
    assert not any("was due" in note for note in in_time.notes)


def test_a_card_is_late_where_only_a_substance_in_it_is() -> None:
    catalogue = loaded().catalogue
    pigment = catalogue.pigment["raw-umber"]
    held = pigment.constituents[0].substance
    old = tuple(
        replace(each, review_by="2026-01-01") if each.id == held else each for each in catalogue.substances
    )
    english = PrintRoom(loaded(), ROOTS, Asked()).strings
    reviews = Reviews(replace(catalogue, substances=old), english, "2026-11-25")
    assert reviews.since(pigment) == "2026-01-01"
    assert reviews.since(catalogue.binder["linseed-oil"]) is None


def test_a_studio_without_a_name_leaves_slots() -> None:
    assert "write the local number here" in text_of(printed("card", ("raw-umber",)))


STUDIO = Studio(
    name="Invented studio",
    rooms=(
        Room(id="yard", name="Invented yard", volume=100),
        Room(id="den", name="Hidden den", volume=20, private=True),
    ),
    answers_for_it="the invented technician",
    issued="2026-11-25",
    emergency=(EmergencyNumber(of="poison-centre", name="Poison centre", number="000 0001 (invented)"),),
)


def in_a_studio(*entries: str, studio: Studio = STUDIO) -> PrintRoom:
    jars = tuple(SimpleNamespace(key=f"J{at}", entry=each) for at, each in enumerate(entries, 1))
    edition: Any = SimpleNamespace(studio=studio, register=SimpleNamespace(jars=jars))
    return PrintRoom(replace(loaded(), edition=edition), ROOTS, Asked())


def test_a_studio_s_numbers_rooms_and_name_stand_on_paper() -> None:
    card = text_of(in_a_studio().print(printable("card"), ["raw-umber"]))
    assert "000 0001 (invented)" in card
    assert "Invented yard (100 m³)" in " ".join(card.split())
    poster = text_of(in_a_studio().print(printable("poster"), []))
    assert "the invented technician" in poster and "000 0001 (invented)" in poster
    assert "Hidden den" not in card + poster


def test_a_studio_that_writes_a_comma_has_it_on_paper() -> None:
    room = in_a_studio(studio=replace(STUDIO, units=Units(decimal="comma")))
    card = " ".join(text_of(room.print(printable("card"), ["lead-white"])).split())
    assert "0,029 mg/m³" in card and "3,1 g" in card
    assert re.search(r"\d\.\d", card.replace("C.I. 77597", "")) is None
    assert "[en]" not in card


def test_a_studio_prints_what_is_on_its_shelf() -> None:
    room = in_a_studio("raw-umber", "linseed-oil", "raw-umber")
    assert len(reader(room.print(printable("cards"), [])).pages) == 4
    sheet = text_of(room.print(printable("sign-off"), []))
    assert "J1 · Raw umber" in sheet and "J3 · Raw umber" in sheet


def test_the_command_lists_prints_and_refuses(tmp_path: Path) -> None:
    listed = run_mullbook("print")
    assert listed.returncode == 0
    assert all(f"\n  {each.id}" in listed.stdout for each in PRINTABLE)
    path = tmp_path / "card.pdf"
    ran = run_mullbook("print", "card", "raw", "umber", "--to", str(path))
    assert (ran.returncode, ran.stdout) == (0, f"Wrote {path}.\n")
    assert path.read_bytes() == printed("card", ("raw-umber",)).pdf
    wrong = run_mullbook("print", "card", "rawumbr", "--to", str(tmp_path / "wrong.pdf"))
    assert wrong.returncode == 1
    assert "Did you mean" in wrong.stderr
    assert "Traceback" not in wrong.stderr
    assert sorted(each.name for each in tmp_path.iterdir()) == ["card.pdf"]


def test_what_a_language_lacks_is_told_and_marked(tmp_path: Path) -> None:
    templates = tmp_path / "site_templates"
    shutil.copytree(ROOTS.templates, templates)
    (templates / "strings" / "xx.yaml").write_text(
        'language: xx\nname: Invented\ncard:\n  waste: Rubbish\n  sanding: "Rubbing down"\n', encoding="utf-8"
    )
    roots = Roots(ROOTS.entries, ROOTS.schema, templates)
    made = PrintRoom(loaded(), roots, Asked(language="xx")).print(printable("card"), ["raw-umber"])
    assert [each.code for each in made.warnings] == ["MB031"]
    text = text_of(made)
    assert "Rubbing down" in text and "Heating [en]" in text
    assert reader(made).trailer["/Root"]["/Lang"] == "xx"


def test_a_second_language_is_another_one() -> None:
    with pytest.raises(Refused, match="speaks de already"):
        PrintRoom(loaded(), ROOTS, Asked(language="de", also="de"))
