"""The print room: what every page of it promises, held on all pigments and on every label sheet."""

from __future__ import annotations

import io
import re
import shutil
from collections.abc import Callable
from concurrent.futures import ProcessPoolExecutor
from dataclasses import replace
from functools import cache
from multiprocessing import get_context
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pypdf
import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from mullbook.model.studio import EmergencyNumber, Room, Studio
from mullbook.render.papers import LABEL_SHEETS, MARGIN, PAPERS, PUNCH, Grid, card_grid, insets
from mullbook.render.print_kinds import PRINTABLE
from mullbook.workflow import Loaded, Refused, Roots, check, print_room
from mullbook.workflow.print_asked import (
    LIDS,
    WRAPS,
    Asked,
    label_grid,
    lid_grid,
    pdf_path,
    printable,
    wrap_grid,
)
from mullbook.workflow.print_room import Printed, PrintRoom
from mullbook.workflow.printing import (
    KEY,
    Fit,
    Setting,
    code_svg,
    compiled,
    keys_in,
    shapes,
    write_whole,
)
from mullbook.workflow.wording import languages
from tests.conftest import ROOT, run_mullbook
from tests.corpus.cases import good_project

ROOTS = Roots.at(ROOT)
GOLDEN = Path(__file__).parent / "golden"
POINT = 25.4 / 72
LONGEST = ("cobalt-violet-ammonium", "raw-umber", "lead-white", "unlabelled-jar")
READABLE = 6.0
"""Size of type, pt, below which nobody reads a card at the bench."""
CONTRAST = 4.5
HAIR = 0.7
"""Half a frame's stroke, letters that rise above capitals, and a dot of the picture, mm."""


MANY = 20
"""Items from which a job is set in a process of its own."""


@pytest.fixture(autouse=True)
def _memory_given_back(monkeypatch: pytest.MonkeyPatch) -> None:
    """Big jobs run apart: what the compiler keeps of each, gigabytes in all, ends with its process."""

    def set_apart(setting: Setting, roots: Roots) -> tuple[bytes, list[Fit]]:
        if len(setting.items) < MANY:
            return compiled(setting, roots)
        with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
            return pool.submit(compiled, setting, roots).result()

    monkeypatch.setattr(print_room, "compiled", set_apart)


@cache
def loaded() -> Loaded:
    found = check(ROOTS)
    assert not found.errors
    return found


@cache
def printed(what: str, names: tuple[str, ...] = (), asked: Asked | None = None) -> Printed:
    return PrintRoom(loaded(), ROOTS, asked or Asked()).print(printable(what), names)


def reader(made: Printed) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(made.pdf))


def text_of(made: Printed) -> str:
    return "\n".join(page.extract_text() for page in reader(made).pages)


def picture(made: Printed, page: int = 0, dots: int = 300) -> Image.Image:
    shown = pypdfium2.PdfDocument(made.pdf)[page].render(scale=dots / 72).to_pil()
    assert isinstance(shown, Image.Image)
    return shown


def codes_on(made: Printed, page: int) -> list[str]:
    return [each.text for each in zxingcpp.read_barcodes(picture(made, page))]


# ---------------------------------------------------------------------------------------------- cards


@pytest.mark.parametrize("language", languages(ROOTS))
def test_the_card_of_every_pigment_fits_its_two_sides(language: str) -> None:
    made = printed("cards", (), Asked(language=language))
    assert len(reader(made).pages) == 2 * len(loaded().catalogue.pigments)
    held = {each.name for each in made.fits}
    assert held == {(each.id, side) for each in loaded().catalogue.pigments for side in ("front", "back")}
    assert [each.name for each in made.fits if each.height > each.place] == []
    least = READABLE if language == "en" else READABLE - 0.5
    assert [each.name for each in made.fits if each.size < least] == []


def test_binders_and_additives_have_cards_that_fit() -> None:
    names = tuple(each.id for each in loaded().catalogue.products)
    made = printed("card", names)
    assert len(reader(made).pages) == 2 * len(names)
    assert [each.name for each in made.fits if each.height > each.place or each.size < READABLE] == []


@pytest.mark.parametrize(
    ("paper", "up", "pages", "size"),
    [
        ("A6", 1, 8, (105, 148)),
        ("A5", 1, 8, (148, 210)),
        ("A4", 1, 8, (210, 297)),
        ("A4", 2, 4, (297, 210)),
        ("A4", 4, 2, (210, 297)),
        ("Letter", 1, 8, (215.9, 279.4)),
        ("Letter", 2, 4, (279.4, 215.9)),
        ("letter", 4, 2, (215.9, 279.4)),
    ],
)
def test_cards_come_on_every_paper(paper: str, up: int, pages: int, size: tuple[float, float]) -> None:
    made = printed("card", LONGEST, Asked(paper=paper, up=up))
    found = reader(made).pages
    assert len(found) == pages
    assert (float(found[0].mediabox.width) * POINT, float(found[0].mediabox.height) * POINT) == pytest.approx(
        size, abs=0.1
    )
    assert all(each.height <= each.place and each.size >= READABLE for each in made.fits)


def test_two_cards_word_for_word(request: pytest.FixtureRequest, tmp_path: Path) -> None:
    project = Roots.at(good_project(tmp_path))
    room = PrintRoom(check(project), Roots(project.entries, project.schema, ROOTS.templates), Asked())
    for name in ("invented-ochre", "invented-heavy-white"):
        text = text_of(room.print(printable("card"), [name])) + "\n"
        golden = GOLDEN / f"card-{name}.txt"
        if request.config.getoption("--update-golden"):
            golden.parent.mkdir(exist_ok=True)
            golden.write_text(text, encoding="utf-8")
        assert text == golden.read_text("utf-8")


def test_a_card_says_what_the_page_says() -> None:
    from mullbook.render.card import pigment_card

    found = loaded()
    room = PrintRoom(found, ROOTS, Asked())
    for pigment in found.catalogue.pigments:
        page = pigment_card(found.catalogue, found.derived, pigment)
        card = room.cards.card(pigment)
        assert [each["word"] for each in card["states"]] == [each.word for each in page.states]
        for shown, told in zip(card["states"], page.states, strict=True):
            assert " ".join(filter(None, (shown["means"], shown["why"]))).endswith(told.why), pigment.id
        assert [words for _, words in card["not_for"]] == [words for _, words in page.not_for]
        assert card["start"] == list(page.start), pigment.id
        assert card["wrong"] == list(page.wrong)
        assert card["stop_test"] == page.stop_test


def test_nothing_is_printed_in_the_margins_nor_where_holes_are_punched() -> None:
    made = printed("card", LONGEST)
    for page in range(8):
        found = picture(made, page, 100).convert("L").point(lambda level: 255 if level < 250 else 0).getbbox()
        assert found is not None
        left, top, right, bottom = (edge * 25.4 / 100 for edge in found)
        front = page % 2 == 0
        assert left >= (PUNCH if front else MARGIN) - HAIR
        assert 105 - right >= (MARGIN if front else PUNCH) - HAIR
        assert min(top, 148 - bottom) >= MARGIN - HAIR


def test_the_back_of_a_card_lies_behind_its_front() -> None:
    made = printed("card", LONGEST, Asked(paper="A4", up=4))
    document = pypdfium2.PdfDocument(made.pdf)

    def quarter(page: int, left: float, bottom: float) -> str:
        box = (left, bottom, left + 105 / POINT, bottom + 148.5 / POINT)
        return str(document[page].get_textpage().get_text_bounded(*box))

    assert "Raw umber" in quarter(0, 105 / POINT, 148.5 / POINT)
    assert "raw-umber" in quarter(1, 0, 148.5 / POINT)


# --------------------------------------------------------------------------------- files and their text


EVERY: tuple[tuple[str, tuple[str, ...], Asked], ...] = (
    ("card", ("raw-umber",), Asked()),
    ("poster", (), Asked()),
    ("poster", (), Asked(tiles=True)),
    ("labels", LONGEST, Asked()),
    ("lid", LONGEST, Asked()),
    ("wrap", ("raw-umber-satin-tubes", "raw-umber"), Asked()),
    ("batch", ("raw-umber-satin-tubes",), Asked()),
    ("drawdown", (), Asked()),
    ("sample-log", (), Asked()),
    ("washing", ("yellow", "ochre"), Asked()),
    ("form", ("pigment",), Asked()),
    ("sign-off", LONGEST, Asked()),
)
NAMES = [f"{what}{'-tiles' if asked.tiles else ''}" for what, _, asked in EVERY]


@pytest.mark.parametrize(("what", "names", "asked"), EVERY, ids=NAMES)
def test_a_file_is_tagged_and_its_fonts_are_in_it(what: str, names: tuple[str, ...], asked: Asked) -> None:
    found = reader(printed(what, names, asked))
    root = found.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    assert root["/Lang"] == "en"
    assert found.metadata is not None and found.metadata.title
    embedded = 0
    for page in found.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert {"/FontFile", "/FontFile2", "/FontFile3"} & set(inner), inner["/FontName"]
            embedded += 1
    assert embedded


@pytest.mark.parametrize(("what", "names", "asked"), EVERY, ids=NAMES)
def test_text_is_text_and_dark_enough(what: str, names: tuple[str, ...], asked: Asked) -> None:
    """In grey, as a photocopier sees it: a pictogram may be red, no letter is pale."""
    made = printed(what, names, asked)
    assert len(text_of(made).split()) > 10
    document = pypdfium2.PdfDocument(made.pdf)
    for page in document:
        for each in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_TEXT]):
            red, green, blue = _fill(each)
            grey = (0.299 * red + 0.587 * green + 0.114 * blue) / 255
            assert 1.05 / (_linear(grey) + 0.05) >= CONTRAST


def _fill(each: pypdfium2.PdfObject) -> tuple[int, int, int]:
    import ctypes

    parts = [ctypes.c_uint() for _ in range(4)]
    assert pypdfium2.raw.FPDFPageObj_GetFillColor(each.raw, *parts)
    return parts[0].value, parts[1].value, parts[2].value


def _linear(level: float) -> float:
    return level / 12.92 if level <= 0.04045 else ((level + 0.055) / 1.055) ** 2.4


@pytest.mark.parametrize(("what", "names", "asked"), EVERY, ids=NAMES)
def test_the_same_question_gives_the_same_bytes(what: str, names: tuple[str, ...], asked: Asked) -> None:
    again = PrintRoom(loaded(), ROOTS, asked).print(printable(what), names)
    assert again.pdf == printed(what, names, asked).pdf


@pytest.mark.parametrize(("what", "names", "asked"), EVERY, ids=NAMES)
def test_nothing_forbidden_is_printed(what: str, names: tuple[str, ...], asked: Asked) -> None:
    text = " ".join(text_of(printed(what, names, asked)).split()).lower()
    assert [word for word in loaded().catalogue.policy.forbidden_words if word in text] == []


def test_what_goes_on_one_sheet_stays_on_one_sheet() -> None:
    for what, names in (
        ("batch", ("raw-umber-satin-tubes",)),
        ("drawdown", ()),
        ("sample-log", ()),
        ("washing", ("yellow ochre",)),
        ("poster", ()),
    ):
        for paper in printable(what).papers:
            if (what, paper) in {("batch", "A5"), ("washing", "A5")}:
                continue  # half a sheet: it runs on
            assert len(reader(printed(what, names, Asked(paper=paper))).pages) == 1, (what, paper)


# ------------------------------------------------------------------------------------------ square code


def test_codes_of_cards_are_read_at_300_dots() -> None:
    made = printed("card", LONGEST)
    room = PrintRoom(loaded(), ROOTS, Asked())
    for at, name in enumerate(LONGEST):
        assert codes_on(made, 2 * at + 1) == [room.cards.code_text(loaded().catalogue.pigment[name])]


def test_every_code_is_read_at_12_mm(tmp_path: Path) -> None:
    """The longest texts, 12 mm with the quiet zone left out of the count, on 300 dots an inch."""
    found = loaded()
    room = PrintRoom(found, ROOTS, Asked())
    texts = sorted({room.cards.code_text(each) for each in found.catalogue.jars}, key=len)[-6:]
    for text in texts:
        shown = picture(_code_page(code_svg(text), tmp_path))
        assert [each.text for each in zxingcpp.read_barcodes(shown)] == [text]


def _code_page(svg: str, folder: Path) -> Printed:
    import typst

    modules = float(re.findall(r'viewBox="0 0 (\d+)', svg)[0])
    size = 12 * modules / (modules - 8)
    (folder / "code.svg").write_text(svg, encoding="utf-8")
    (folder / "code.typ").write_text(
        f'#set page(width: 30mm, height: 30mm, margin: 3mm)\n#image("code.svg", width: {size}mm)'
    )
    return Printed(bytes(typst.compile(str(folder / "code.typ"), root=str(folder), format="pdf")), ())


def test_a_code_says_the_verdicts_and_gives_no_address() -> None:
    room = PrintRoom(loaded(), ROOTS, Asked())
    text = room.cards.code_text(loaded().catalogue.pigment["raw-umber"])
    assert text.startswith("Mullbook raw-umber: Raw umber. Dry powder: Enclosed.")
    assert "://" not in text and "www" not in text


def test_a_code_on_a_label_is_at_least_12_mm_with_its_quiet_zone() -> None:
    made = printed("labels", ("titanium-white",), Asked(sheet="8-up"))
    found = zxingcpp.read_barcodes(picture(made))[0]
    corner = found.position
    assert (corner.top_right.x - corner.top_left.x) / 300 * 25.4 >= 12
    assert "Titanium white" in found.text


# ----------------------------------------------------------------------------------------------- labels


STATED: dict[str, tuple[str, int, float, float]] = {
    "21-up": ("A4", 21, 63.5, 38.1),
    "24-up": ("A4", 24, 70, 37),
    "65-up": ("A4", 65, 38.1, 21.2),
    "8-up": ("A4", 8, 99.1, 67.7),
    "30-up": ("Letter", 30, 66.7, 25.4),
    "10-up": ("Letter", 10, 101.6, 50.8),
}


@pytest.mark.parametrize("name", STATED)
def test_a_label_sheet_has_its_stated_dimensions_and_fits_its_paper(name: str) -> None:
    paper, count, width, height = STATED[name]
    grid = LABEL_SHEETS[paper][name]
    assert (grid.count, grid.width, grid.height) == (count, width, height)
    across = grid.left + grid.columns * grid.width + (grid.columns - 1) * grid.gap + grid.right
    down = grid.top + grid.rows * grid.height + grid.bottom
    assert (across, down) == pytest.approx((PAPERS[paper].width, PAPERS[paper].height))
    assert grid.left == pytest.approx(grid.right, abs=0.01)
    assert grid.top == pytest.approx(grid.bottom, abs=0.01)
    assert min(grid.left, grid.top) >= 0
    assert label_grid(Asked(sheet=name)) is label_grid(Asked(sheet=f"{width} x {height} mm")) is grid


def outlines(made: Printed, page: int = 0) -> list[tuple[float, float]]:
    """Left and top, mm, of each label on a page, from where its first line stands."""
    found = pypdfium2.PdfDocument(made.pdf)[page]
    text = found.get_textpage()
    searcher, spots = text.search("DRAFT"), []
    while (hit := searcher.get_next()) is not None:
        left, _, _, top = text.get_charbox(hit[0])
        spots.append((left * POINT, (found.get_height() - top) * POINT))
    return spots


@pytest.mark.parametrize("name", STATED)
def test_labels_stand_in_their_places(name: str) -> None:
    paper, count, _, _ = STATED[name]
    made = printed("labels", ("titanium-white",), Asked(sheet=name, copies=count))
    spots = outlines(made)
    assert len(spots) == count
    grid = LABEL_SHEETS[paper][name]
    for at, (left, top) in enumerate(spots):
        x, y = grid.place(at)
        aside, above, _, _ = insets(grid, at, 2.0)
        assert left - x == pytest.approx(aside, abs=0.3), (name, at)
        assert -0.1 <= top - y - above < 2.0, (name, at)


def test_a_sheet_already_begun_is_gone_on_with() -> None:
    made = printed("labels", ("titanium-white", "raw-umber"), Asked(sheet="21-up", start=21))
    assert len(reader(made).pages) == 2
    grid = LABEL_SHEETS["A4"]["21-up"]
    ((left, top),) = outlines(made, 0)
    assert (left, top) > grid.place(20)
    assert outlines(made, 1)[0] < grid.place(1)


def test_an_offset_moves_everything_by_so_much() -> None:
    here = outlines(printed("labels", LONGEST))
    there = outlines(printed("labels", LONGEST, Asked(offset_x=1.5, offset_y=-0.5)))
    for (left, top), (moved, lifted) in zip(here, there, strict=True):
        assert (moved - left, lifted - top) == pytest.approx((1.5, -0.5), abs=0.01)


@pytest.mark.parametrize("name", STATED)
def test_no_label_of_any_pigment_runs_over(name: str) -> None:
    names = tuple(each.id for each in loaded().catalogue.pigments)
    made = printed("labels", names, Asked(sheet=name))
    assert [each.name[0] for each in made.fits] == list(names)
    assert [each.name for each in made.fits if each.height > each.place] == []
    text = text_of(made)
    told = {note.partition(":")[0] for note in made.notes}
    assert told == {each.name[0] for each in made.fits if each.left_out}
    assert text.count("Not all fits here") == len(told)


def test_pictograms_are_10_mm_where_the_label_has_room() -> None:
    """Along its side: drawn on its point it is 1.414 times as wide."""
    for name in ("21-up", "24-up", "8-up", "10-up"):
        made = printed("labels", ("raw-umber",), Asked(sheet=name))
        shown = picture(made).convert("RGB")
        wide, high = shown.size
        red = [x for x in range(wide) if any(_is_red(shown.getpixel((x, y))) for y in range(0, high // 4, 3))]
        assert (max(red) - min(red)) / 300 * 25.4 / 2**0.5 >= 9.9, name


def _is_red(dot: object) -> bool:
    assert isinstance(dot, tuple)
    return dot[0] > 150 and dot[1] < 80 and dot[2] < 80


def test_a_label_is_a_draft_until_somebody_signs() -> None:
    assert "DRAFT - not a regulatory classification" in text_of(printed("labels", ("raw-umber",)))
    signed = text_of(printed("labels", ("raw-umber",), Asked(signed_by="A. Reader", signed_on="2026-11-25")))
    assert "DRAFT" not in signed
    assert "Classified and signed by A. Reader, 2026-11-25" in signed
    with pytest.raises(Refused, match="go together"):
        printed("labels", ("raw-umber",), Asked(signed_by="A. Reader"))


def test_a_label_of_a_batch_names_what_people_react_to() -> None:
    text = text_of(printed("labels", ("raw-umber-satin-tubes",), Asked(sheet="8-up", batch="26-07")))
    for words in ("Benzisothiazolinone", "Batch 26-07", "Raw umber (PBr 7", "Maker, address, telephone"):
        assert words in text


@pytest.mark.parametrize(("ends", "grid"), [(LIDS, lid_grid), (WRAPS, wrap_grid)], ids=["lids", "wraps"])
def test_lids_and_wraps_fit_every_paper(ends: tuple[float, float], grid: Callable[..., Grid]) -> None:
    for paper in ("A4", "Letter"):
        for size in ends:
            made = grid(PAPERS[paper], size)
            assert made.count >= 1
            assert min(made.left, made.top, made.right, made.bottom) >= MARGIN - 0.01
        with pytest.raises(Refused, match="is outside"):
            grid(PAPERS[paper], ends[1] + 1)


def test_the_smallest_lid_takes_the_longest_names() -> None:
    names = tuple(each.id for each in loaded().catalogue.pigments)
    made = printed("lid", names, Asked(diameter=40.0))
    assert [each.name for each in made.fits if each.height > each.place] == []


# ------------------------------------------------------------------------------------ words and drawings


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


# ---------------------------------------------------------------------------------------- what was asked


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


def test_everything_listed_can_be_printed_and_every_paper_is_known() -> None:
    assert {what for what, _, _ in EVERY} | {"cards"} == {each.id for each in PRINTABLE}
    assert {paper for each in PRINTABLE for paper in each.papers} <= set(PAPERS)


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


def in_a_studio(*entries: str) -> PrintRoom:
    jars = tuple(SimpleNamespace(key=f"J{at}", entry=each) for at, each in enumerate(entries, 1))
    edition: Any = SimpleNamespace(studio=STUDIO, register=SimpleNamespace(jars=jars))
    return PrintRoom(replace(loaded(), edition=edition), ROOTS, Asked())


def test_a_studio_s_numbers_rooms_and_name_stand_on_paper() -> None:
    card = text_of(in_a_studio().print(printable("card"), ["raw-umber"]))
    assert "000 0001 (invented)" in card
    assert "Invented yard (100 m³)" in " ".join(card.split())
    poster = text_of(in_a_studio().print(printable("poster"), []))
    assert "the invented technician" in poster and "000 0001 (invented)" in poster
    assert "Hidden den" not in card + poster


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
