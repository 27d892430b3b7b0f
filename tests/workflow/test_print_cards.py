"""Cards on paper: every pigment fits its two sides, on every paper, word for word."""

from __future__ import annotations

from pathlib import Path

import pypdfium2
import pytest

from mullbook.render.papers import MARGIN, PUNCH
from mullbook.workflow import Roots, check
from mullbook.workflow.print_asked import (
    Asked,
    printable,
)
from mullbook.workflow.print_room import PrintRoom
from mullbook.workflow.wording import languages
from tests.corpus.cases import good_project
from tests.workflow.paper import (
    GOLDEN,
    HAIR,
    LONGEST,
    POINT,
    READABLE,
    ROOTS,
    loaded,
    picture,
    printed,
    reader,
    text_of,
)


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
        said = [(figure, binder + words) for figure, binder, words in page.start]
        assert card["start"][: len(said)] == said, pigment.id
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
