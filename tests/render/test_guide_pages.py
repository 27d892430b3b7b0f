"""Guides and questions as pages: sixteen answers with all they must hold, in words a student follows."""

from __future__ import annotations

import re
from html import unescape

import pytest

from mullbook.model.guides import Guide, Question, figures_of
from mullbook.model.marks import plain
from mullbook.workflow import Loaded
from tests.render.answers import ANSWERS
from tests.render.readability import grade, sentences

GUIDES = (
    "before-the-hammer",
    "field-tests",
    "crush-sieve-wash",
    "at-the-slab",
    "high-speed-disperser",
    "clean-up",
    "keeping-records",
    "schools-and-teaching",
)
LONGEST_SENTENCE = 35
HARDEST_PAGE = 10


def part_of(page: str, part: str) -> str:
    """One part of a page, from its heading to the next."""
    found = re.search(rf'<h2 id="{part}">.*?(?=<h2 |\Z)', page, re.DOTALL)
    assert found, f"there is no part {part}"
    return found[0]


def words_of(html: str) -> str:
    text = unescape(re.sub(r"<[^>]+>", "", html)).replace("\N{NO-BREAK SPACE}", " ")
    return re.sub(r"\s+", " ", text).lower()


def told(loaded: Loaded) -> tuple[Guide | Question, ...]:
    return (*loaded.catalogue.guides, *loaded.catalogue.questions)


def said(thing: Guide | Question) -> list[str]:
    """Every sentence of an entry that is printed as running text."""
    parts = [*(each.statements for each in thing.parts), *(each.steps for each in thing.parts), thing.warns]
    opening = thing.in_short if isinstance(thing, Guide) else tuple(each.say for each in thing.answer)
    texts = [
        *opening,
        *([thing.summary] if thing.summary else []),
        *(each.say for held in parts for each in held),
    ]
    return [sentence for text in texts for sentence in sentences(plain(text, "5 g"))]


def test_the_sixteen_questions_are_there(loaded: Loaded) -> None:
    asked = sorted(loaded.catalogue.questions, key=lambda each: each.number)
    assert [each.number for each in asked] == list(range(1, 17))
    assert [each.id for each in asked] == list(ANSWERS)
    assert [each.asks for each in asked] == [asks for asks, _ in ANSWERS.values()]


@pytest.mark.parametrize("question", ANSWERS)
def test_an_answer_holds_all_its_parts(loaded: Loaded, pages: dict[str, str], question: str) -> None:
    asks, needs = ANSWERS[question]
    page = pages[f"questions/{question}.md"]
    assert f"<h1>{asks}</h1>" in unescape(page)
    thing = next(each for each in loaded.catalogue.questions if each.id == question)
    assert [each.id for each in thing.parts] == [each.part for each in needs], (
        "each part of an answer is asked for"
    )
    for need in needs:
        part = part_of(page, need.part)
        said_there = words_of(part)
        for words in need.words:
            assert words in said_there, f"{need.part}: {words}"
        for link in need.links:
            assert f'href="../{link}"' in part, f"{need.part}: {link}"
        for figure in need.figures:
            fold = re.search(rf'<div id="fig-{figure}">\s*<details class="working">', part)
            assert fold, f"{need.part}: {figure}"


@pytest.mark.parametrize("question", ANSWERS)
def test_an_answer_comes_first_and_can_be_tried(pages: dict[str, str], question: str) -> None:
    page = pages[f"questions/{question}.md"]
    assert page.index("Short answer") < page.index('<ul class="doors">') < page.index('<nav class="onpage"')


def test_the_home_page_asks_all_sixteen(pages: dict[str, str]) -> None:
    home = unescape(pages["index.md"])
    for question, (asks, _) in ANSWERS.items():
        assert f'<a href="questions/{question}.html">{asks}</a>' in home
    assert 'href="guides/index.html"' in home
    index = unescape(pages["questions/index.md"])
    assert all(f"{question}.html" in index for question in ANSWERS)


def test_every_guide_is_there_and_says_first_what_it_comes_to(loaded: Loaded, pages: dict[str, str]) -> None:
    held = {each.id: each for each in loaded.catalogue.guides}
    assert set(GUIDES) <= set(held)
    for thing in held.values():
        page = pages[f"guides/{thing.id}.md"]
        assert 3 <= len(thing.in_short) <= 5, thing.id
        assert page.index("In short") < page.index("<h2"), thing.id
        assert (
            f"guides/{thing.id}.html" in pages["guides/index.md"]
            or f'"{thing.id}.html"' in pages["guides/index.md"]
        )


def test_every_link_leads_to_a_page_and_a_place(loaded: Loaded, pages: dict[str, str]) -> None:
    for thing in told(loaded):
        path = f"{thing.kind_name}s/{thing.id}.md"
        assert 'class="unlinked"' not in pages[path], path
        assert "<b>?</b>" not in pages[path], path
    for thing in told(loaded):
        for part in thing.parts:
            for link in part.links:
                page, _, anchor = link.page.partition("#")
                assert not anchor or f'id="{anchor}"' in pages[page.replace(".html", ".md")], link.page


def test_every_figure_stands_with_its_working(loaded: Loaded, pages: dict[str, str]) -> None:
    for thing in told(loaded):
        page = pages[f"{thing.kind_name}s/{thing.id}.md"]
        for figure in figures_of(thing):
            assert f'<div id="fig-{figure.id}">' in page, f"{thing.id}: {figure.id}"
        ids = re.findall(r'\bid="([^"]+)"', page)
        assert len(ids) == len(set(ids)), thing.id


def test_the_worked_batch_is_that_of_the_book(loaded: Loaded) -> None:
    """20 g of ochre of 3.0 g/cm3: 29.8 g of acrylic at PVC 35 %; 100 g: about 225 ml and five tubes."""
    binder = loaded.derived.figures["question:how-much-binder"]["fixed"].working.result
    tubes = loaded.derived.figures["question:how-many-tubes"]
    assert binder is not None and binder.low == pytest.approx(29.8, abs=0.05)
    volume = tubes["volume"].working.result
    assert volume is not None and volume.low == pytest.approx(225, abs=1)
    for name in ("tubes37", "tubes40"):
        found = tubes[name].working.result
        assert found is not None and (found.low, found.high) == (5, 5)


def test_a_range_of_an_entry_runs_through_a_figure(loaded: Loaded) -> None:
    working = loaded.derived.figures["question:how-much-binder"]["b35"].working
    density = next(each for each in working.inputs if each.name == "density")
    assert density.source == "gardner-1911"
    assert working.result is not None and not working.result.is_point


def test_all_practice_says_how_well_it_is_known(loaded: Loaded, pages: dict[str, str]) -> None:
    page = pages["sources/index.md"]
    assert '<h2 id="practice">' in page
    assert '<th scope="row">Guides</th>' in page and '<th scope="row">Questions</th>' in page
    for thing in told(loaded):
        for part in thing.parts:
            for each in (*part.statements, *part.steps):
                assert each.source or each.basis == "common-practice", each.say


def test_no_sentence_runs_on(loaded: Loaded) -> None:
    long = [each for thing in told(loaded) for each in said(thing) if len(each.split()) > LONGEST_SENTENCE]
    assert long == []


def test_a_student_follows_every_page(loaded: Loaded) -> None:
    hard = {thing.id: round(grade(said(thing)), 1) for thing in told(loaded)}
    assert {name: found for name, found in hard.items() if found > HARDEST_PAGE} == {}


def test_safety_defers_on_every_page(loaded: Loaded, pages: dict[str, str]) -> None:
    for thing in told(loaded):
        words = words_of(pages[f"{thing.kind_name}s/{thing.id}.md"])
        assert "local law, the supplier's current data sheet, an occupational hygienist" in words, thing.id
