"""What every printed file promises: tagged, embedded, dark enough, the same bytes; codes that are read."""

from __future__ import annotations

import re
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp

from mullbook.render.papers import PAPERS
from mullbook.render.print_kinds import PRINTABLE
from mullbook.workflow.print_asked import (
    Asked,
    printable,
)
from mullbook.workflow.print_room import Printed, PrintRoom
from mullbook.workflow.printing import (
    code_svg,
)
from tests.workflow.paper import CONTRAST, LONGEST, ROOTS, codes_on, loaded, picture, printed, reader, text_of

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


def test_everything_listed_can_be_printed_and_every_paper_is_known() -> None:
    assert {what for what, _, _ in EVERY} | {"cards"} == {each.id for each in PRINTABLE}
    assert {paper for each in PRINTABLE for paper in each.papers} <= set(PAPERS)


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
