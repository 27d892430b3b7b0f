"""Pages for the bench: batch sheets, binders side by side, a lot measured, oil figures, tables."""

from __future__ import annotations

import re
from itertools import pairwise

import pytest

from mullbook.checks.schema import check_shape, load_schemas
from mullbook.derive.batch import batch
from mullbook.derive.bench import bench_of
from mullbook.model.values import Range
from mullbook.render.bench_words import time_text
from mullbook.render.links import Links
from mullbook.render.pages import Pages, Site
from mullbook.science.registry import evaluate
from mullbook.text.yaml_text import read_file
from mullbook.workflow import Loaded
from tests.conftest import ROOT

LOT = ROOT / "site_templates" / "templates" / "examples" / "lot.yaml"
RECIPES = sorted(path.stem for path in (ROOT / "entries" / "recipes").glob("*.yaml"))
NEW = ("recipes/index.md", "binder-comparison.md", "your-lot.md", "oil-figures.md")
KB = 1000


def plain(html: str) -> str:
    """The words of a page without its tags."""
    return re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", html).replace("\N{NO-BREAK SPACE}", " "))


@pytest.mark.parametrize("recipe", RECIPES)
def test_a_batch_sheet_says_what_the_batch_says(loaded: Loaded, pages: dict[str, str], recipe: str) -> None:
    page, sheet = pages[f"recipes/{recipe}.md"], batch(loaded.catalogue, loaded.catalogue.recipe[recipe])
    words = plain(page)
    for each in sheet.lines:
        assert f'{each.name}</a></th><td class="n"><b>' in page
        assert plain(each.steps).replace("g/cm3", "g/cm³") in words
    for each in sheet.warnings:
        assert each.words.replace("'", "&#39;") in words
    assert all(each.name[1:] in words for each in sheet.figures)


@pytest.mark.parametrize("recipe", RECIPES)
def test_an_invented_recipe_is_marked(pages: dict[str, str], recipe: str) -> None:
    assert '<p class="note">Invented:' in pages[f"recipes/{recipe}.md"]


def test_a_batch_sheet_tells_the_level_of_its_powder(pages: dict[str, str]) -> None:
    assert re.search(r"54\.1 g: <span class=\"lv lv-enclosed\">", pages["recipes/raw-umber-satin-tubes.md"])


def test_the_scale_table_runs_from_the_slab_to_the_drum(pages: dict[str, str]) -> None:
    words = plain(pages["recipes/raw-umber-satin-tubes.md"])
    assert "54.1 g, as written Slab 1 charge" in words
    assert re.search(r"25 kg Blade in a pail or drum 1 charge of 25 kg pigment", words)
    assert "40 to 50 °C" in words


@pytest.mark.parametrize("page", NEW)
def test_each_new_page_can_be_reached(pages: dict[str, str], page: str) -> None:
    target = page.replace(".md", ".html")
    assert f'href="{target}"' in pages["methods.md"]


@pytest.mark.parametrize("page", NEW)
def test_tables_and_headings_are_well_made(pages: dict[str, str], page: str) -> None:
    text = pages[page]
    regions = re.findall(r'<div class="scroll" tabindex="0" role="region" aria-label="([^"]+)"', text)
    assert len(regions) == len(set(regions)) == text.count("<table")
    levels = [int(each) for each in re.findall(r"<h([1-6])", text)]
    assert levels[0] == 1 and all(next_ <= here + 1 for here, next_ in pairwise(levels))


def test_the_example_of_a_lot_is_a_good_lot_file() -> None:
    document = read_file(LOT)
    assert not document.problems
    assert check_shape(document, "lot", load_schemas(ROOT / "schema")) == []


def test_the_example_of_a_lot_is_what_its_readings_give() -> None:
    data = read_file(LOT).data
    for field, formula, readings in (
        ("oil_absorption", "rub_out", {"oil_mass": 2.4, "pigment_mass": 5.0}),
        ("bulk_density_loose", "bulk_density", {"mass": 30.2, "volume": 50.0}),
        ("bulk_density_tapped", "bulk_density", {"mass": 30.2, "volume": 36.4}),
        (
            "density",
            "density_by_displacement",
            {"mass": 40.0, "volume_before": 30.0, "volume_after": 42.5, "volume_error": 0.25},
        ),
    ):
        found = evaluate(formula, readings).result
        assert found is not None
        assert (data[field]["low"], data[field]["high"]) == pytest.approx((found.low, found.high), rel=0.005)


def test_a_measured_lot_turns_at_least_into_a_number(pages: dict[str, str]) -> None:
    words = plain(pages["your-lot.md"])
    assert re.search(r"Critical PVC in oil at least [\d–]+ % 36–40 %", words)
    assert "measured by you" in words
    off = words[words.index("How far off each is") :]
    for each in ("people differ", "half a millilitre", "Air left in", "half a step", "for a pocket meter"):
        assert each in off


def test_every_binder_stands_beside_the_others(loaded: Loaded, pages: dict[str, str]) -> None:
    assert all(each.name in pages["binder-comparison.md"] for each in loaded.catalogue.binders)


def test_other_ways_in_a_system_carry_no_number(pages: dict[str, str]) -> None:
    page = pages["systems/casein.md"]
    steps = page[page.index('<ol class="steps-list">') : page.index("</ol>")]
    assert "<h4>Or: lime casein by a handbook of 1942</h4>" in steps
    assert steps.count("<li>") == steps.count("</li>") == steps.count("<h3>")


def test_times_are_read_off_a_clock() -> None:
    assert [plain(time_text(Range.of(each))) for each in (0.35, 4.6, 460, 1860, 5760)] == [
        "21 s",
        "4.6 min",
        "7.7 h",
        "31 h",
        "4 d",
    ]


@pytest.mark.parametrize(
    ("grams", "amount"), [(50, "bench"), (50.1, "batch"), (1000, "batch"), (1001, "drum")]
)
def test_amounts_are_those_of_the_level_table(loaded: Loaded, grams: float, amount: str) -> None:
    """Design: levels hold to 50 g, to 1 kg and over 1 kg."""
    assert loaded.catalogue.policy.amount(grams).id == amount


def test_the_tables_of_a_pigment_are_small(loaded: Loaded) -> None:
    bench = bench_of(loaded.catalogue, loaded.derived)
    links = Links(["methods.html", "your-lot.html"])
    site = Site(loaded.catalogue, loaded.derived, links, (), {}, (), (), bench)
    pages = Pages(site, ROOT / "site_templates" / "templates")
    template = pages.environment.from_string(
        "{% import 'macros.j2' as m with context %}{% include 'pigment_tables.j2' %}"
    )
    for name, tables in bench.tables.items():
        html = template.render(
            link=lambda *to: to[0], tables=tables, found=loaded.derived.pigments[name], page="pigments/x.html"
        )
        assert len(html.encode()) < 6 * KB, name
