"""Batches from the command line: recipes, lots and amounts as weighed read from files; records kept."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

from mullbook import load
from mullbook.checks.input_rules import BAD_INPUT, NOT_FOUND
from mullbook.checks.schema import check_shape, load_schemas
from mullbook.derive.batch import batch
from mullbook.derive.batch_results import Correction, Sheet
from mullbook.derive.corrections import corrections
from mullbook.derive.lots import FIELDS, with_lots
from mullbook.derive.scale_results import Scale
from mullbook.derive.scale_up import scale_up
from mullbook.model.benches import Have, Lot
from mullbook.model.catalogue import Catalogue
from mullbook.model.course import Course
from mullbook.model.recipes import Recipe
from mullbook.model.values import MEASURED, Input
from mullbook.text.problem import Place, Problem
from mullbook.text.suggest import nearest
from mullbook.text.yaml_text import read_file
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import Roots
from mullbook.workflow.swap import Refused

BENCH_KINDS: dict[str, type] = {"recipe": Recipe, "lot": Lot, "have": Have, "course": Course}


def read_bench_file(path: Path, kind: str, roots: Roots) -> Any:
    """Read a recipe, lot or have file. Raises `Refused` with every problem of the file."""
    document = read_file(path)
    problems = [*document.problems, *check_shape(document, kind, load_schemas(roots.schema))]
    if document.data is None or any(each.severity == "error" for each in problems):
        raise Refused(*problems, texts={document.path: document.text})
    return load.build(BENCH_KINDS[kind], document.data)


def with_lot_files(loaded: Loaded, files: Iterable[Path], roots: Roots) -> Loaded:
    """What was loaded with the measured figures of lot files put in. Raises `Refused`."""
    lots = []
    for path in files:
        lot = read_bench_file(path, "lot", roots)
        if lot.pigment not in loaded.catalogue.pigment:
            raise Refused(_unknown("pigment", lot.pigment, loaded.catalogue.pigment, path))
        lots.append(lot)
    return replace(loaded, catalogue=with_lots(loaded.catalogue, lots))


def measured_inputs(files: Iterable[Path], roots: Roots) -> dict[str, Input]:
    """Figures of lot files as inputs of formulas, by the names the formulas use. Raises `Refused`."""
    found: dict[str, Input] = {}
    for path in files:
        lot: Lot = read_bench_file(path, "lot", roots)
        for name in FIELDS:
            measure = getattr(lot, name)
            if measure is not None:
                note = f"measured by you, lot {lot.lot}, {lot.measured}"
                found[name] = Input(name, measure.unit, measure.range, basis=MEASURED, note=note)
    return found


def find_recipe(name: str, catalogue: Catalogue, roots: Roots, beside: Path | None = None) -> Recipe:
    """A recipe by file, also beside the folder given, or by id. Raises `Refused`."""
    for folder in (Path(), *([beside] if beside else [])):
        if (folder / name).is_file():
            recipe: Recipe = read_bench_file(folder / name, "recipe", roots)
            return recipe
    if name in catalogue.recipe:
        return catalogue.recipe[name]
    raise Refused(_unknown("recipe", name, catalogue.recipe, Path("command line")))


def _unknown(what: str, name: str, known: Iterable[str], path: Path) -> Problem:
    close = nearest(name, known)
    hint = f"Did you mean {' or '.join(close)}?" if close else "Give a file, or an id from the entries."
    return Problem(NOT_FOUND, "error", f"There is no {what} called {name}.", Place(str(path)), hint=hint)


def batch_sheet(catalogue: Catalogue, recipe: Recipe, scale: str | None) -> Sheet:
    """The sheet of a recipe. `scale` is a factor such as `10`, or grams of pigment such as `500g` or `2kg`.

    Raises `Refused` for a scale that cannot be read.
    """
    if scale is None:
        return batch(catalogue, recipe)
    factor, unit = _scale(scale)
    if unit is None:
        return batch(catalogue, recipe, factor)
    made = batch(catalogue, recipe)
    return batch(catalogue, recipe, factor / made.pigment_mass) if made.pigment_mass else made


def grinding(catalogue: Catalogue, sheet: Sheet) -> Scale:
    """How the paste of a batch is ground at its size: charges, blade, speed, time."""
    return scale_up(catalogue, sheet)


def _scale(text: str) -> tuple[float, str | None]:
    words = text.replace(",", ".").replace(" ", "").lower().removeprefix("x")
    for ending, grams in (("kg", 1000.0), ("g", 1.0)):
        if words.endswith(ending):
            return _positive(words.removesuffix(ending), text) * grams, "g"
    return _positive(words, text), None


def _positive(words: str, text: str) -> float:
    try:
        value = float(words)
    except ValueError:
        value = 0.0
    if not 0 < value < 1e6:
        message = f"{text} is no scale: give a factor above 0, or a mass of pigment."
        place = Place("command line")
        raise Refused(Problem(BAD_INPUT, "error", message, place, example="--scale 10, --scale 2kg"))
    return value


def batch_corrections(path: Path, catalogue: Catalogue, roots: Roots) -> tuple[Have, tuple[Correction, ...]]:
    """What to add to the batch a have file describes. Raises `Refused`."""
    have: Have = read_bench_file(path, "have", roots)
    recipe = find_recipe(have.recipe, catalogue, roots, path.parent)
    return have, corrections(catalogue, recipe, have)


def write_record(folder: Path, recipe: str, text: str) -> Path:
    """Write a batch record under the next free number, with the date; nothing is ever overwritten.

    Parameters: `folder`, made if missing; `recipe`, its id; `text`. Returns the file written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    numbers = [int(each.name[:4]) for each in folder.glob("[0-9][0-9][0-9][0-9]-*.json")]
    number = max(numbers, default=0) + 1
    while True:
        path = folder / f"{number:04d}-{date.today().isoformat()}-{recipe}.json"
        try:
            with path.open("x", encoding="utf-8") as record:
                record.write(text)
            return path
        except FileExistsError:
            number += 1
