"""A handout holds what was chosen, leads nowhere else, and keeps the answers to itself."""

from __future__ import annotations

import re
from html import unescape
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.render.course_site import leaf, without_dead_links
from tests.conftest import ROOT
from tests.corpus.cases import good_project, told

COURSE = """title: "Earths <into> paint"
class: Year 11 (invented)
date: 2026-12-01
pigments: [invented-ochre, invented-chalk]
pages: [safety/room-dust, washing]
ask: 12
seed: 7
"""


@pytest.fixture
def project(tmp_path: Path) -> Path:
    made = good_project(tmp_path / "project")
    (made / "site_templates").symlink_to(ROOT / "site_templates")
    (made / "course.yaml").write_text(COURSE, encoding="utf-8")
    return made


@pytest.fixture
def made(project: Path) -> Path:
    said = told(project, ["course", "course.yaml", "--to", "out"])
    assert said.endswith("exit 0\n"), said
    return project / "out"


def pages(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): path.read_text("utf-8")
        for path in sorted(folder.rglob("*.html"))
    }


def test_a_handout_holds_the_pages_chosen_and_no_others(made: Path) -> None:
    held = set(pages(made / "handout"))
    assert {
        "index.html",
        "levels.html",
        "pigments/invented-chalk.html",
        "pigments/invented-ochre.html",
        "safety/room-dust.html",
        "washing.html",
    } <= held
    assert {page for page in held if page.startswith(("substances", "sources", "recipes"))} == set()


def test_every_link_and_file_of_a_handout_is_there(made: Path) -> None:
    folder = made / "handout"
    for page, text in pages(folder).items():
        here = (folder / page).parent
        for to in re.findall(r'\s(?:href|src)="([^"#?:]+)[^":]*"', text):
            assert (here / to).resolve().is_relative_to(folder.resolve()), (page, to)
            assert (here / to).is_file(), (page, to)


def test_the_words_of_a_link_that_leads_nowhere_stay(made: Path) -> None:
    chalk = pages(made / "handout")["pigments/invented-chalk.html"]
    assert "Invented chalkite" in chalk and "substances/" not in chalk


def test_the_answers_stand_outside_the_handout(made: Path) -> None:
    assert [path.name for path in made.iterdir() if path.suffix == ".html"] == ["answers.html"]
    answers = (made / "answers.html").read_text("utf-8")
    index = (made / "handout" / "index.html").read_text("utf-8")
    questions = re.findall(r'<li id="question-\d+" value="\d+"><p>(.*?)</p>', index)
    assert questions == re.findall(r'<li id="question-\d+" value="\d+"><p>(.*?)</p>', answers)
    bold = re.findall(r"<p><b>(.*?)</b></p>", answers)
    assert len(bold) == len(questions) > 5
    assert not [each for each in bold if each in index]


def test_what_a_teacher_wrote_is_printed_as_it_stands(made: Path) -> None:
    for text in pages(made).values():
        assert "<into>" not in text
    assert "Earths &lt;into&gt; paint" in (made / "answers.html").read_text("utf-8")


def test_two_runs_give_the_same_bytes(project: Path, made: Path) -> None:
    first = {path: path.read_bytes() for path in made.rglob("*") if path.is_file()}
    told(project, ["course", "course.yaml", "--to", "out"])
    assert {path: path.read_bytes() for path in made.rglob("*") if path.is_file()} == first


@pytest.mark.parametrize(
    ("spoilt", "words"),
    [
        (("invented-chalk", "invented-chalc"), "Did you mean invented-chalk?"),
        (("safety/room-dust", "safety/room-dusk"), "Did you mean safety/room-dust?"),
        (("washing", "find"), "leads to the whole book"),
        (("ask: 12", "ask: many"), "`ask` must be a whole number"),
        (("seed", "sead"), "Did you mean `seed`?"),
        (("ask: 12", "guides: [no-such]"), "There is no guide called no-such."),
        (("ask: 12", "kinds: [riddle]"), "it takes one of 9 words"),
    ],
)
def test_a_course_that_names_what_is_not_there_is_refused_in_words(
    project: Path, spoilt: tuple[str, str], words: str
) -> None:
    (project / "course.yaml").write_text(COURSE.replace(*spoilt), encoding="utf-8")
    said = told(project, ["course", "course.yaml", "--to", "out"])
    assert words in said and said.endswith("exit 1\n")
    assert not (project / "out").exists()


def test_fewer_questions_than_asked_for_are_said(project: Path) -> None:
    (project / "course.yaml").write_text(COURSE.replace("ask: 12", "ask: 90"), encoding="utf-8")
    assert "90 were asked for; these pigments give no more." in told(
        project, ["course", "course.yaml", "--to", "out"]
    )


def test_a_page_is_taken_out_of_its_frame() -> None:
    found = leaf('---\ntitle: "A"\ntool: true\nsearch: {boost: 2}\n---\n<h1>A</h1>\n---\n')
    assert (found.title, found.body, found.tool, found.prefs) == ("A", "<h1>A</h1>\n---\n", True, False)


PATHS = st.sampled_from(["index.html", "a/x.html", "a/y.html", "b/z.html"])


@given(PATHS, PATHS, st.booleans())
def test_a_link_lives_exactly_when_its_page_is_kept(page: str, target: str, keep: bool) -> None:
    up = "../" * page.count("/")
    body = f'<p>See <a class="src" href="{up}{target}?q=1#part">the <i>page</i></a>.</p>'
    kept = frozenset({page, target} if keep else {page})
    alive = without_dead_links(page, body, kept)
    stays = keep or page == target
    assert alive == (body if stays else "<p>See the <i>page</i>.</p>")


def test_links_within_a_page_and_into_the_network_stay() -> None:
    body = '<a href="#part">a</a> <a href="https://example.org/x">b</a> <a href="mailto:a@example.org">c</a>'
    assert without_dead_links("a/x.html", body, frozenset()) == body


def text_of(pdf: Path) -> list[str]:
    """Words of each page of a PDF, on one line."""
    with pypdfium2.PdfDocument(pdf) as document:
        return [" ".join(page.get_textpage().get_text_range().split()) for page in document]


def test_the_handout_on_paper_asks_and_shows_cards_but_answers_nothing(made: Path) -> None:
    index = (made / "handout" / "index.html").read_text("utf-8")
    questions = [unescape(each) for each in re.findall(r'value="\d+"><p>(.*?)</p>', index)]
    handout, answers = text_of(made / "handout" / "handout.pdf"), text_of(made / "answers.pdf")
    for each in questions:
        assert " ".join(each.split()) in " ".join(handout)
        assert " ".join(each.split()) in " ".join(answers)
    bold = [
        unescape(each) for each in re.findall(r"<p><b>(.*?)</b></p>", (made / "answers.html").read_text())
    ]
    for each in bold:
        assert " ".join(each.split()) in " ".join(answers)
    assert "for the teacher" not in " ".join(handout).lower()
    cards = [page for page in handout if "BEFORE YOU OPEN IT" in page]
    assert len(cards) == 2 and "Invented chalk" in cards[1]
    assert all("IF IT GOES WRONG" in page for page in cards)
