"""The pages on harm: who carries what, how little fills a room, what is not known."""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path

import pytest

from tests.conftest import ROOT
from tests.site.html import BuiltPage

pytestmark = pytest.mark.site

PICTOGRAMS = sorted((ROOT / "site_templates/pages/assets/pictograms").glob("GHS*.svg"))


def text(site: Path, page: str) -> str:
    return (site / page).read_text(encoding="utf-8")


def catalogue(site: Path) -> dict[str, list[dict[str, object]]]:
    found: dict[str, list[dict[str, object]]] = json.loads(text(site, "data/catalogue.json"))
    return found


def test_each_statement_has_a_page_that_names_who_carries_it(site: Path) -> None:
    carried: dict[str, set[str]] = {}
    for pigment in catalogue(site)["pigments"]:
        for code in pigment["derived"]["hazard_statements"]:  # type: ignore[index]
            carried.setdefault(code, set()).add(str(pigment["id"]))
    assert len(carried) > 10
    for code, pigments in carried.items():
        page = text(site, f"statements/{code}.html")
        assert {each for each in pigments if f"pigments/{each}.html" not in page} == set(), code


def test_every_published_limit_stands_in_the_table(site: Path) -> None:
    with (ROOT / "tests/oracles/limits.csv").open(encoding="utf-8", newline="") as file:
        wanted = {row["substance"] for row in csv.DictReader(file)}
    page = text(site, "safety/limits.html")
    assert {each for each in wanted if f"substances/{each}.html" not in page} == set()


def test_whatever_is_not_known_is_listed(site: Path) -> None:
    page = text(site, "safety/not-known.html")
    held = catalogue(site)
    silent = [
        f"{folder}/{each['id']}.html"
        for folder in ("binders", "additives")
        for each in held[folder]
        if each["hazard_status"] == "not-known"
    ]
    silent += [
        f"pigments/{each['id']}.html"
        for each in held["pigments"]
        if each["derived"]["hazard_status"] == "not-known"  # type: ignore[index]
    ]
    assert silent
    assert [each for each in silent if each not in page] == []


def test_the_fixed_words_stand_on_their_pages(site: Path) -> None:
    assert "at your face far less does" in text(site, "safety/room-dust.html")
    assert "a scenario, not a measurement" in text(site, "safety/room-dust.html")
    assert "the air has been changed" in text(site, "safety/room-dust.html")
    assert "Clear water is not clean water" in text(site, "safety/waste.html")
    assert "nobody has to say why" in text(site, "safety/people.html")
    assert "later changes not checked" in text(site, "safety/rulesets.html")
    assert "Never the answer for children" in text(site, "safety/room-dust.html")


def test_nobody_is_told_to_go_in(site: Path) -> None:
    for page in (site / "safety").glob("*.html"):
        words = BuiltPage(page).words
        assert "you may go in" not in words
        assert "allowed to" not in words


def test_nine_pictograms_each_with_its_name(site: Path) -> None:
    assert [path.stem for path in PICTOGRAMS] == [f"GHS0{number}" for number in range(1, 10)]
    for path in PICTOGRAMS:
        drawn = path.read_text(encoding="utf-8")
        assert re.search(r'fill="#fff" stroke="#c\w+"', drawn), "white ground, red frame"
        assert "<title>" in drawn
        assert len(drawn) < 2500
    page = text(site, "safety/statements.html")
    for code in (path.stem for path in PICTOGRAMS):
        assert re.search(rf"pictograms/{code}\.svg[^>]*> <b>{code}</b> [a-z]", page)


def test_a_pictogram_on_a_pigment_page_is_named_in_words(site: Path) -> None:
    page = text(site, "pigments/lead-white.html")
    assert re.search(r"pictograms/GHS08\.svg[^>]*> <b>GHS08</b> health hazard", page)
    assert "sets free" in page
    assert "statements/H360Df.html" in page
