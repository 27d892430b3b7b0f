"""Batches of the invented studio: sheets, warnings, corrections and the maker's own figures."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from mullbook.derive.batch import batch
from mullbook.derive.batch_results import Sheet
from mullbook.derive.corrections import SYMPTOMS, corrections
from mullbook.derive.lots import with_lots
from mullbook.derive.paint import critical_pvc
from mullbook.model.benches import Have, Lot, WeighedIn
from mullbook.model.catalogue import Catalogue
from mullbook.model.recipes import Fixed, LetDown, Measure, Ratio, Recipe, RecipePigment, Vehicle
from mullbook.model.values import MEASURED
from mullbook.render.batch_sheet import corrections_text, sheet_csv, sheet_data, sheet_text
from mullbook.workflow import Roots, check

TESTS = Path(__file__).resolve().parents[1]


@pytest.fixture(scope="module")
def catalogue() -> Catalogue:
    return check(Roots(TESTS / "corpus" / "good", TESTS.parent / "schema", TESTS)).catalogue


def figure(sheet: Sheet, name: str) -> float:
    found = next(each for each in sheet.figures if each.id == name)
    assert found.value is not None, found.not_derivable
    return found.value


def grams(sheet: Sheet) -> dict[str, float]:
    return {each.id: each.grams for each in sheet.lines}


def ids(sheet: Sheet) -> set[str]:
    return {each.id for each in sheet.warnings}


def test_a_recipe_by_pvc_comes_to_its_pvc_and_its_mass(catalogue: Catalogue) -> None:
    sheet = batch(catalogue, catalogue.recipe["invented-ochre-tubes"])
    assert not sheet.missing
    assert figure(sheet, "pvc") == pytest.approx(0.35)
    assert grams(sheet)["invented-ochre"] == pytest.approx(75)
    assert sum(grams(sheet).values()) == pytest.approx(figure(sheet, "mass"))


def test_every_line_and_figure_lies_within_its_range(catalogue: Catalogue) -> None:
    for recipe in catalogue.recipes:
        sheet = batch(catalogue, recipe)
        for line in sheet.lines:
            assert line.range.low <= line.grams * (1 + 1e-12)
            assert line.grams <= line.range.high * (1 + 1e-12)
            assert line.steps
        for each in sheet.figures:
            assert each.value is not None or each.not_derivable
            if each.range and each.value is not None:
                assert each.range.low - 1e-9 <= each.value <= each.range.high + 1e-9


def test_a_number_of_tubes_is_filled_to_the_last(catalogue: Catalogue) -> None:
    sheet = batch(catalogue, catalogue.recipe["invented-satin-tubes"])
    assert sheet.tubes == 5
    assert sheet.left_over == pytest.approx(0, abs=1e-6)
    assert figure(sheet, "yield") == pytest.approx(5 * 37)


def test_a_finish_is_met_in_lambda_and_told_in_words(catalogue: Catalogue) -> None:
    sheet = batch(catalogue, catalogue.recipe["invented-satin-tubes"])
    assert figure(sheet, "lambda") == pytest.approx(0.725, abs=0.01)
    assert next(each.words for each in sheet.figures if each.id == "lambda") == "satin"


def test_scaling_keeps_lambda_and_multiplies_the_grams(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    one, ten = batch(catalogue, recipe), batch(catalogue, recipe, 10)
    assert grams(ten) == pytest.approx({name: 10 * mass for name, mass in grams(one).items()})
    assert figure(ten, "lambda") == pytest.approx(figure(one, "lambda"))
    assert "too-much-to-mull" in ids(ten)


def test_an_equal_parts_rule_past_the_critical_point_is_called_under_bound(catalogue: Catalogue) -> None:
    recipe = replace(
        catalogue.recipe["invented-ochre-tubes"],
        let_down=LetDown(
            binder="invented-acrylic", by="ratio", ratio=Ratio(binder=1, paste=4, measured_by="volume")
        ),
    )
    assert {"under-bound", "equal-parts"} <= ids(batch(catalogue, recipe))


def test_lime_has_no_lambda_and_says_why(catalogue: Catalogue) -> None:
    recipe = replace(
        catalogue.recipe["invented-ochre-tubes"],
        system="invented-limewash",
        let_down=LetDown(
            binder="invented-acrylic", by="ratio", ratio=Ratio(binder=10, paste=1, measured_by="weight")
        ),
    )
    found = next(each for each in batch(catalogue, recipe).figures if each.id == "lambda")
    assert found.not_derivable == (
        "Not applicable because lime binds by setting, and a pigment volume means nothing there."
    )


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"pigments": (RecipePigment(pigment="nobody", part=1),)}, "there is no pigment called nobody"),
        ({"let_down": LetDown(binder="nobody", by="pvc", target=Measure(unit="fraction", value=0.3))},
         "there is no binder called nobody"),
        ({"let_down": LetDown(binder="invented-acrylic", by="finish", finish="pearly")},
         "names no target for the finish"),
        ({"fixed": Fixed(kind="pigment-mass", mass=Measure(unit="g", value=0))}, "holds no pigment"),
        ({"fixed": Fixed(kind="tubes", count=3), "tube": None}, "needs the tube's volume"),
        ({"loss": Measure(unit="percent", value=100), "fixed": Fixed(kind="paint-volume",
          volume=Measure(unit="ml", value=9))}, "everything is lost"),
    ],
)  # fmt: skip
def test_a_recipe_that_cannot_be_made_says_so_in_words(
    catalogue: Catalogue, change: dict[str, object], words: str
) -> None:
    recipe: Recipe = replace(catalogue.recipe["invented-ochre-tubes"], **change)  # type: ignore[arg-type]
    sheet = batch(catalogue, recipe)
    assert not sheet.lines
    assert words in " ".join(sheet.missing)
    assert sheet_text(sheet).count("Not derivable because") == len(sheet.missing)


def test_a_missing_powder_density_names_what_to_weigh(catalogue: Catalogue) -> None:
    base = catalogue.recipe["invented-ochre-tubes"]
    vehicle = Vehicle(
        additive="invented-vehicle",
        by="volume-to-pigment",
        packing="tapped",
        amount=Measure(unit="fraction", value=0.5),
    )
    sheet = batch(catalogue, replace(base, paste=replace(base.paste, vehicle=vehicle)))
    assert "the density of the tapped powder of Invented ochre is not known" in " ".join(sheet.missing)


def lot(**measured: Measure) -> Lot:
    return Lot(pigment="invented-ochre", lot="bag 12", measured="2026-11-25", **measured)


def test_a_measured_figure_stands_in_place_of_the_books_and_is_marked(catalogue: Catalogue) -> None:
    mine = with_lots(catalogue, [lot(oil_absorption=Measure(unit="g/100g", value=60))])
    oil = mine.pigment["invented-ochre"].physical.oil_absorption
    assert oil is not None
    assert (oil.value, oil.basis) == (60, MEASURED)
    assert "lot bag 12" in (oil.note or "")
    assert [each.low for each in oil.also] == [30]
    before = critical_pvc(
        catalogue.pigment["invented-ochre"], catalogue.pigment["invented-ochre"].physical.density
    )
    after = critical_pvc(mine.pigment["invented-ochre"], mine.pigment["invented-ochre"].physical.density)
    assert before[0].result is not None
    assert after[0].result is not None
    assert after[0].result.high < before[0].result.low


def test_a_thirstier_lot_takes_more_binder(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-satin-tubes"]
    mine = with_lots(catalogue, [lot(oil_absorption=Measure(unit="g/100g", value=60))])
    per_gram = [grams(batch(each, recipe)) for each in (catalogue, mine)]
    book, own = (each["invented-acrylic"] / each["invented-ochre"] for each in per_gram)
    assert own > book


def have(recipe: str, weighed: dict[str, float], *wrong: str, **rest: object) -> Have:
    items = tuple(WeighedIn(item=name, mass=Measure(unit="g", value=mass)) for name, mass in weighed.items())
    return Have(recipe=recipe, weighed=items, wrong=wrong, **rest)  # type: ignore[arg-type]


def test_a_chalking_batch_gets_just_the_binder_that_is_missing(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    amounts = grams(batch(catalogue, recipe))
    short = {**amounts, "invented-acrylic": amounts["invented-acrylic"] * 0.6}
    (found,) = corrections(catalogue, recipe, have(recipe.id, short, "chalks"))
    assert found.add == pytest.approx({"invented-acrylic": amounts["invented-acrylic"] * 0.4})
    assert found.pvc == pytest.approx(0.35)


def test_a_batch_that_is_rich_enough_is_not_given_binder_for_chalking(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    (found,) = corrections(catalogue, recipe, have(recipe.id, grams(batch(catalogue, recipe)), "chalks"))
    assert not found.add
    assert "not short of binder" in found.words


def test_an_insipid_batch_gets_paste_and_never_dry_pigment(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    amounts = grams(batch(catalogue, recipe))
    rich = {**amounts, "invented-acrylic": amounts["invented-acrylic"] * 1.5}
    (found,) = corrections(catalogue, recipe, have(recipe.id, rich, "insipid"))
    assert set(found.add) == {"invented-ochre", "invented-chalk", "invented-vehicle", "invented-dispersant"}
    assert found.pvc == pytest.approx(0.35)


def test_short_of_volume_is_filled_up_in_proportion(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    sheet = batch(catalogue, recipe)
    wanted = Measure(unit="ml", value=2 * figure(sheet, "volume"))
    (found,) = corrections(catalogue, recipe, have(recipe.id, grams(sheet), "short-of-volume", volume=wanted))
    assert found.add == pytest.approx(grams(sheet))


def test_too_much_defoamer_is_refused_with_the_reason(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    amounts = grams(batch(catalogue, recipe))
    amounts["invented-defoamer"] = 0.01 * sum(amounts.values())
    (found,) = corrections(catalogue, recipe, have(recipe.id, amounts, "foams"))
    assert not found.add
    assert found.words.startswith("No addition does it: it already holds")


def test_every_symptom_has_an_answer_and_spoiled_paint_is_discarded(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-ochre-tubes"]
    found = corrections(catalogue, recipe, have(recipe.id, grams(batch(catalogue, recipe)), *SYMPTOMS))
    assert all(each.words for each in found)
    assert sum(each.discard for each in found) == 2
    assert "Discard" in corrections_text(found)


def test_something_that_is_not_in_the_recipe_cannot_be_taken_out(catalogue: Catalogue) -> None:
    recipe = catalogue.recipe["invented-rich-ochre"]
    (found,) = corrections(catalogue, recipe, have(recipe.id, {"invented-ochre": 20, "invented-defoamer": 1}))
    assert "nothing can be taken out" in found.words


def test_the_sheet_reads_the_same_as_text_data_and_csv(catalogue: Catalogue) -> None:
    sheet = batch(catalogue, catalogue.recipe["invented-ochre-tubes"])
    data, rows = sheet_data(sheet), sheet_csv(sheet, semicolon=True).splitlines()
    assert [each["g"] for each in data["lines"]] == [each.grams for each in sheet.lines]
    assert len(rows) == 1 + len(sheet.lines)
    assert rows[0].startswith("stage;item;id;mass_g")
    assert "," in rows[1].split(";")[3]
    for line in sheet.lines:
        assert line.name in sheet_text(sheet)
