"""The built pages are sound HTML: parsed strictly, put together as the standard says, pointing at what is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from xml.etree.ElementTree import Element

import html5lib
import pytest

pytestmark = pytest.mark.site

MANY = 12
"""Pages of one kind come from one template; the shortest and the longest of a folder show what it can do."""
ONLY = {
    "ul": {"li", "script", "template"},
    "ol": {"li", "script", "template"},
    "dl": {"dt", "dd", "div", "script", "template"},
    "tr": {"td", "th"},
    "thead": {"tr"},
    "tbody": {"tr"},
    "select": {"option", "optgroup"},
}
INTERACTIVE = {"a", "button", "select", "summary", "label"}
FIELDS = {"input", "select", "textarea"}
HEADINGS = ("h1", "h2", "h3", "h4", "h5", "h6")


def chosen(site: Path) -> list[Path]:
    pages: list[Path] = sorted(site.glob("*.html"))
    for folder in sorted({path.parent for path in site.rglob("*.html")} - {site}):
        held = sorted(folder.glob("*.html"), key=lambda path: path.stat().st_size)
        pages += dict.fromkeys([*held[: MANY // 2], *held[-MANY // 2 :]])
    return pages


@pytest.fixture(scope="module")
def trees(site: Path) -> dict[str, tuple[Element, list[str]]]:
    found = {}
    for path in chosen(site):
        parser = html5lib.HTMLParser(
            html5lib.treebuilders.getTreeBuilder("etree"), namespaceHTMLElements=False
        )
        tree = parser.parse(path.read_text(encoding="utf-8"))
        errors = [f"line {place[0]}: {code} {data}" for place, code, data in parser.errors]
        found[path.relative_to(site).as_posix()] = (tree, errors)
    return found


def test_every_kind_of_page_is_among_them(site: Path, trees: dict[str, tuple[Element, list[str]]]) -> None:
    folders = {path.parent.relative_to(site).as_posix() for path in site.rglob("*.html")}
    assert {name.rpartition("/")[0] or "." for name in trees} == folders
    assert len(trees) > 100


def test_pages_parse_without_error(trees: dict[str, tuple[Element, list[str]]]) -> None:
    assert {name: errors[:3] for name, (_, errors) in trees.items() if errors} == {}


def test_elements_stand_where_they_may(trees: dict[str, tuple[Element, list[str]]]) -> None:
    wrong = [f"{name}: {said}" for name, (tree, _) in trees.items() for said in misplaced(tree)]
    assert wrong[:20] == []


def test_whatever_is_pointed_at_is_there(trees: dict[str, tuple[Element, list[str]]]) -> None:
    wrong = [f"{name}: {said}" for name, (tree, _) in trees.items() for said in dangling(tree)]
    assert wrong[:20] == []


def test_pictures_fields_and_frames_have_names(trees: dict[str, tuple[Element, list[str]]]) -> None:
    wrong = [f"{name}: {said}" for name, (tree, _) in trees.items() for said in nameless(tree)]
    assert wrong[:20] == []


def test_headings_go_down_one_step_at_a_time(trees: dict[str, tuple[Element, list[str]]]) -> None:
    wrong = {}
    for name, (tree, _) in trees.items():
        steps = [HEADINGS.index(each.tag) for each in tree.iter() if each.tag in HEADINGS]
        jumps = [low - high for high, low in pairwise(steps)]
        # The one-file edition holds hundreds of pages, of which it shows one.
        if max(jumps, default=0) > 1 or (steps.count(0) != 1 and name != "pocket.html"):
            wrong[name] = steps
    assert wrong == {}


def elements(tree: Element) -> Iterator[Element]:
    return (each for each in tree.iter() if isinstance(each.tag, str))


def misplaced(tree: Element) -> Iterator[str]:
    for each in elements(tree):
        inside = [child.tag for child in each if isinstance(child.tag, str)]
        if each.tag in ONLY and set(inside) - ONLY[each.tag]:
            yield f"{each.tag} holds {sorted(set(inside) - ONLY[each.tag])}"
        if each.tag == "details" and (not inside or inside[0] != "summary" or inside.count("summary") > 1):
            yield "details does not begin with its one summary"
        if each.tag in INTERACTIVE:
            yield from (
                f"{child.tag} in {each.tag}"
                for child in each.iter()
                if child is not each and clickable(child)
            )
        if each.tag == "button" and each.get("type") not in ("button", "submit", "reset"):
            yield "a button that does not say its type"


def clickable(element: Element) -> bool:
    return element.tag in ("a", "button", "select")


def dangling(tree: Element) -> Iterator[str]:
    ids = {each.get("id") for each in elements(tree)}
    for each in elements(tree):
        for key in ("for", "aria-labelledby", "aria-describedby", "aria-controls"):
            yield from (f"{key}={name}" for name in (each.get(key) or "").split() if name not in ids)
        reference = each.get("href") or each.get("{http://www.w3.org/1999/xlink}href") or ""
        if reference.startswith("#") and reference[1:] not in ids:
            yield f"{each.tag} href={reference}"
        yield from (
            f"url({name})"
            for name in re.findall(r"url\(#([^)]+)\)", each.get("fill") or "")
            if name not in ids
        )


def nameless(tree: Element) -> Iterator[str]:
    labelled = {each.get("for") for each in elements(tree) if each.tag == "label"}
    within = {id(child) for each in elements(tree) if each.tag == "label" for child in each.iter()}
    for each in elements(tree):
        if each.tag == "img" and each.get("alt") is None:
            yield f"img {each.get('src')} without alt"
        named = each.get("aria-label") or each.get("aria-labelledby") or each.get("id") in labelled
        if each.tag in FIELDS and each.get("type") != "hidden" and not named and id(each) not in within:
            yield f"{each.tag} {each.get('id')} without a label"
        if each.get("role") == "region" and not (each.get("aria-label") or each.get("aria-labelledby")):
            yield "a region without a name"


SPOILT = {
    "a list with a stray": "<ul><p>x</p></ul>",
    "a link in a link": "<summary><a href='x'>y</a></summary>",
    "a place that is not there": "<a href='#nowhere'>x</a>",
    "a picture without words": "<img src='x.svg'>",
    "a field without a name": "<input id='q'>",
}


@pytest.mark.parametrize("body", SPOILT.values(), ids=SPOILT.keys())
def test_the_checks_above_can_fail(body: str) -> None:
    tree = html5lib.parse(f"<!doctype html><title>t</title><body>{body}", namespaceHTMLElements=False)
    assert [*misplaced(tree), *dangling(tree), *nameless(tree)]
