"""Pages as Markdown: a few of an invented catalogue, word for word, and what holds for all of them."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any
from xml.etree.ElementTree import Element

import html5lib
import pytest

from mullbook.render.lean import open_ended
from mullbook.render.links import DeadLink, Links
from mullbook.render.site import NAVIGATION
from mullbook.render.text_index import front_and_body
from mullbook.workflow import Roots, check, site_files
from tests.conftest import ROOT
from tests.corpus.cases import good_project

GOLDEN = Path(__file__).parent / "golden"
WORD_FOR_WORD = (
    "pigments/invented-ochre.md",
    "pigments/invented-heavy-white.md",
    "binders/invented-acrylic.md",
    "additives/invented-dispersant.md",
    "substances/invented-plumbite.md",
    "hues.md",
)


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    project = good_project(tmp_path_factory.mktemp("good"))
    roots = Roots.at(project)
    loaded = check(roots)
    assert not loaded.errors
    made = site_files(loaded, Roots.at(ROOT))
    return {path: text for path, text in made.items() if isinstance(text, str) and path.endswith(".md")}


@pytest.mark.parametrize("page", WORD_FOR_WORD)
def test_a_page_is_word_for_word(pages: dict[str, str], page: str, request: pytest.FixtureRequest) -> None:
    golden = GOLDEN / page
    if request.config.getoption("--update-golden"):
        golden.parent.mkdir(parents=True, exist_ok=True)
        golden.write_text(pages[page], encoding="utf-8")
    assert pages[page] == golden.read_text(encoding="utf-8")


def test_every_page_has_a_title_and_one_heading(pages: dict[str, str]) -> None:
    for path, text in pages.items():
        assert text.startswith("---\ntitle: "), path
        assert text.count("<h1") == 1, path


def test_pages_carry_no_indentation_and_no_blank_line(pages: dict[str, str]) -> None:
    assert [path for path, text in pages.items() if re.search(r"\n[ \t]|\n\n", text)] == []


def test_a_source_is_cited_where_its_page_lists_it(pages: dict[str, str]) -> None:
    for path, text in pages.items():
        cited = set(re.findall(r'href="#(_\d+)"', text))
        listed = set(re.findall(r'id="(_\d+)"', text))
        assert cited <= listed, path


def test_a_formula_stands_on_a_pigment_page_once(pages: dict[str, str]) -> None:
    said = re.findall(r'<p class="formula">(.*?)</p>', pages["pigments/invented-ochre.md"])
    assert said
    assert len(said) == len(set(said))


def outline(element: Element) -> list[Any]:
    """An element with all that is in it; white space at the ends of text does not count."""
    inside = [(outline(each), " ".join((each.tail or "").split())) for each in element]
    return [element.tag, dict(element.attrib), " ".join((element.text or "").split()), inside]


def test_a_page_without_optional_end_tags_is_the_same_page(pages: dict[str, str]) -> None:
    shorter = 0
    for path, text in pages.items():
        _, whole = front_and_body(text)
        lean = open_ended(whole)
        shorter += len(lean) < len(whole)
        trees = [html5lib.parse(each, namespaceHTMLElements=False) for each in (whole, lean)]
        assert outline(trees[0]) == outline(trees[1]), path
    assert shorter > 50


def test_every_page_of_the_menu_is_made(pages: dict[str, str]) -> None:
    assert {path for _, path in NAVIGATION} <= set(pages)


def test_a_dead_link_is_a_fault_of_ours() -> None:
    with pytest.raises(DeadLink, match=r"a\.html links to b\.html, which is not there"):
        Links(["a.html"]).to("b.html", "a.html")
