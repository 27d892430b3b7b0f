"""Labels, lids and wraps: dimensions, places, offsets, and no label that runs over."""

from __future__ import annotations

from collections.abc import Callable

import pypdfium2
import pytest

from mullbook.render.papers import LABEL_SHEETS, MARGIN, PAPERS, Grid, insets
from mullbook.workflow import Refused
from mullbook.workflow.print_asked import (
    LIDS,
    WRAPS,
    Asked,
    label_grid,
    lid_grid,
    wrap_grid,
)
from mullbook.workflow.print_room import Printed
from tests.conftest import ROOT
from tests.workflow.paper import LONGEST, POINT, codes_on, loaded, picture, printed, reader, text_of

STATED: dict[str, tuple[str, int, float, float]] = {
    "21-up": ("A4", 21, 63.5, 38.1),
    "24-up": ("A4", 24, 70, 37),
    "65-up": ("A4", 65, 38.1, 21.2),
    "8-up": ("A4", 8, 99.1, 67.7),
    "30-up": ("Letter", 30, 66.7, 25.4),
    "10-up": ("Letter", 10, 101.6, 50.8),
}
X_HEIGHT = 0.547
"""Of the face of labels: how high an x is, as part of the size. Source: its own outlines, 1120 of 2048."""
LOWEST = 0.8
"""An x on a label is at least so high, mm."""


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
    assert min(each.size for each in made.fits) * X_HEIGHT * POINT >= LOWEST
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


@pytest.mark.parametrize("what", ["labels", "lid", "wrap"])
def test_what_is_stuck_on_a_jar_is_lettered_without_serifs(what: str) -> None:
    """The faces are the project's own: nothing comes from the machine that prints."""
    faces = {
        font.get_object()["/BaseFont"].partition("+")[2]
        for page in reader(printed(what, LONGEST)).pages
        for font in page["/Resources"]["/Font"].values()
    }
    assert faces <= {"DejaVuSansCondensed", "DejaVuSansCondensed-Bold", "DejaVuSansMono"}
    held = ROOT / "site_templates" / "print" / "fonts"
    assert {each.stem for each in held.glob("*.ttf")} == faces - {"DejaVuSansMono"}
    assert "Bitstream" in (held / "LICENSE.txt").read_text("utf-8")


def test_a_wrap_has_its_id_and_its_code() -> None:
    made = printed("wrap", LONGEST)
    assert sum(text.startswith(f"Mullbook {name}:") for text in codes_on(made, 0) for name in LONGEST) == 4
    assert all(name in text_of(made).replace("\N{ZERO WIDTH SPACE}", "") for name in LONGEST)


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
