"""The workbench reckons as `mullbook batch` does: the book's recipes and many random ones."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from mullbook import workflow
from mullbook.derive import batch as batches
from mullbook.derive import batch_figures, batch_warnings
from mullbook.derive.batch_results import Correction, Sheet
from mullbook.derive.corrections import SYMPTOMS, corrections
from mullbook.derive.results import Derived
from mullbook.model.benches import Have, WeighedIn
from mullbook.model.catalogue import Catalogue
from mullbook.model.recipes import (
    Addition,
    Dosed,
    Fixed,
    LetDown,
    Measure,
    Paste,
    Price,
    Prices,
    Ratio,
    Recipe,
    RecipePigment,
    Tube,
    Vehicle,
)
from mullbook.science.methods.paint import FINISHES, UNDER_BOUND
from tests.conftest import ROOT

SEED, COUNT, TOLERANCE = 20261125, 400, 1e-7
BASES = ("active-on-pigment", "product-on-pigment", "product-on-total", "active-on-total", "on-binder")
FIGURES = ("mass", "volume", "pvc", "cpvc", "lambda", "weight_solids", "volume_solids", "wet_density")


@pytest.fixture(scope="module")
def known() -> tuple[Catalogue, Derived]:
    loaded = workflow.check(workflow.Roots.at(ROOT))
    return loaded.catalogue, loaded.derived


@pytest.fixture(scope="module")
def bench(browser: Browser, site: Path) -> Iterator[Page]:
    context = browser.new_context(offline=True)
    page = context.new_page()
    page.goto((site / "workbench.html").as_uri())
    yield page
    context.close()


def measure(value: float, unit: str) -> Measure:
    return Measure(unit=unit, value=value)


def a_vehicle(rng: random.Random, catalogue: Catalogue) -> Vehicle | None:
    if rng.random() < 0.4:
        return None
    name = rng.choice([each.id for each in catalogue.additives if each.role == "vehicle"])
    if rng.random() < 0.6:
        return Vehicle(additive=name, by="weight", amount=measure(rng.uniform(10, 90), "g/100g"))
    amount, packing = measure(rng.uniform(0.2, 1), "fraction"), rng.choice(["loose", "tapped"])
    return Vehicle(additive=name, by="volume-to-pigment", packing=packing, amount=amount)


def a_let_down(rng: random.Random, catalogue: Catalogue, system_id: str) -> LetDown:
    system = catalogue.system[system_id]
    binder = rng.choice(system.binders or [each.id for each in catalogue.binders])
    finishes = [each.finish for each in system.targets if each.finish and each.range]
    by = rng.choice(["finish", "finish", "pvc", "lambda", "ratio"])
    if by == "finish" and finishes:
        return LetDown(binder=binder, by=by, finish=rng.choice(finishes))
    if by in ("pvc", "lambda"):
        in_pvc, in_lambda = (
            measure(rng.uniform(0.1, 0.8), "fraction"),
            measure(rng.uniform(0.3, 1.3), "number"),
        )
        return LetDown(binder=binder, by=by, target=in_pvc if by == "pvc" else in_lambda)
    ratio = Ratio(binder=rng.uniform(0.3, 2), paste=1, measured_by=rng.choice(["volume", "weight"]))
    return LetDown(binder=binder, by="ratio", ratio=ratio)


def a_fixed(rng: random.Random) -> Fixed:
    kind = rng.choice(["pigment-mass", "paint-volume", "tubes"])
    if kind == "pigment-mass":
        return Fixed(kind=kind, mass=measure(rng.uniform(5, 1500), "g"))
    if kind == "paint-volume":
        return Fixed(kind=kind, volume=measure(rng.uniform(20, 2000), "ml"))
    return Fixed(kind=kind, count=rng.randint(1, 40))


def a_recipe(rng: random.Random, catalogue: Catalogue) -> Recipe:
    pigments = rng.sample(catalogue.pigments, rng.randint(1, 4))
    dispersants = [each.id for each in catalogue.additives if each.role == "dispersant"]
    others = [each.id for each in catalogue.additives if each.role not in ("dispersant", "vehicle")]
    dosed = Dosed(
        additive=rng.choice(dispersants), dose=measure(rng.uniform(0.1, 4), "percent"), of=rng.choice(BASES)
    )
    system = rng.choice(catalogue.systems).id
    let_down = a_let_down(rng, catalogue, system)
    return Recipe(
        id="random",
        name="Random",
        system=system,
        pigments=tuple(RecipePigment(pigment=each.id, part=rng.uniform(0.2, 5)) for each in pigments),
        fixed=a_fixed(rng),
        paste=Paste(vehicle=a_vehicle(rng, catalogue), dispersant=rng.choice([None, dosed])),
        let_down=let_down,
        additions=tuple(
            Addition(additive=each, dose=measure(rng.uniform(0.05, 2), "percent"), of=rng.choice(BASES))
            for each in rng.sample(others, rng.randint(0, 3))
        ),
        loss=measure(rng.uniform(0, 15), "percent"),
        tube=Tube(
            volume=measure(rng.choice([15, 37, 40, 150]), "ml"), fill=measure(rng.uniform(60, 100), "percent")
        ),
        prices=Prices(
            currency="EUR", items=(Price(item=let_down.binder, price=20, per=rng.choice(["kg", "l"])),)
        ),
    )


def dose_of(dosed: Dosed) -> dict[str, Any]:
    return {"id": dosed.additive, "percent": dosed.dose.middle, "of": dosed.of}


def aim_of(let_down: LetDown) -> dict[str, Any]:
    if let_down.ratio is not None:
        return {"aim": let_down.ratio.measured_by, "target": let_down.ratio.binder / let_down.ratio.paste}
    return {"aim": let_down.by, "target": let_down.target.middle if let_down.target else 1}


def asked(recipe: Recipe) -> dict[str, Any]:
    """A recipe as the workbench asks it."""
    fixed, vehicle, let_down = recipe.fixed, recipe.paste.vehicle, recipe.let_down
    assert let_down is not None
    amounts = {"pigment-mass": fixed.mass, "paint-volume": fixed.volume}
    amount = amounts.get(fixed.kind)
    return {
        "pigments": [{"id": each.pigment, "part": each.part} for each in recipe.pigments],
        "fixed": {"pigment-mass": "mass", "paint-volume": "volume"}.get(fixed.kind, fixed.kind),
        "amount": amount.middle if amount else fixed.count,
        "tube": recipe.tube.volume.middle if recipe.tube else 0,
        "fill": recipe.tube.fill.middle if recipe.tube and recipe.tube.fill else 100,
        "loss": recipe.loss.middle if recipe.loss else 0,
        "scale": 1,
        "vehicle": vehicle
        and {
            "id": vehicle.additive,
            "by": vehicle.packing if vehicle.by == "volume-to-pigment" else "weight",
            "amount": vehicle.amount.middle,
        },
        "dispersant": recipe.paste.dispersant and dose_of(recipe.paste.dispersant),
        "system": recipe.system,
        "binder": let_down.binder,
        "finish": let_down.finish or "",
        **aim_of(let_down),
        "additions": [dose_of(each) for each in recipe.additions],
        "prices": {each.item: [each.price, each.per] for each in recipe.prices.items}
        if recipe.prices
        else {},
    }


ASK = """
(asks) => {
  const held = MULLBOOK_BATCH.book(MULLBOOK_BENCH);
  return asks.map((ask) => {
    const found = MULLBOOK_BATCH.work_out(held, ask);
    if (found.missing) return { missing: found.missing };
    const figures = Object.fromEntries(Object.entries(found.figures).map(([name, each]) => [name, [each.value, ...each.range]]));
    return { lines: found.lines.map((each) => [each.id, each.grams, ...each.range, each.drops]), figures,
      tubes: found.tubes && [found.tubes.full, found.tubes.over], cost: found.cost && found.cost.total,
      warnings: found.warnings.map((each) => each.id), dry: found.levels.dry, wet: found.levels.wet };
  });
}
"""  # noqa: E501


def close(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) <= TOLERANCE * max(abs(one), abs(other), 1e-6)


def differences(sheet: Sheet, found: dict[str, Any]) -> Iterator[str]:
    if sheet.missing or "missing" in found:
        if not (sheet.missing and "missing" in found):
            yield f"only one is refused: {sheet.missing} against {found.get('missing')}"
        return
    ours = [(each.id, each.grams, each.range.low, each.range.high, each.drops) for each in sheet.lines]
    for mine, theirs in zip(ours, found["lines"], strict=True):
        if mine[0] != theirs[0] or not all(close(a, b) for a, b in zip(mine[1:], theirs[1:], strict=True)):
            yield f"line {mine} against {theirs}"
    for each in sheet.figures:
        if each.id in FIGURES and each.value is not None and each.range is not None:
            here = (each.value, each.range.low, each.range.high)
            there = found["figures"].get(each.id, [None] * 3)
            if not all(close(a, b) for a, b in zip(here, there, strict=True)):
                yield f"{each.id} {here} against {there}"
    if sheet.tubes != (found["tubes"] or [None])[0] or not close(sheet.cost, found["cost"]):
        yield f"tubes {sheet.tubes}, cost {sheet.cost} against {found['tubes']}, {found['cost']}"
    mine_warned, warned = sorted(each.id for each in sheet.warnings), sorted(found["warnings"])
    if mine_warned != warned:
        yield f"warnings {mine_warned} against {warned}"


@pytest.fixture(scope="module")
def recipes(known: tuple[Catalogue, Derived]) -> list[Recipe]:
    catalogue, _ = known
    rng = random.Random(SEED)
    return [*catalogue.recipes, *(a_recipe(rng, catalogue) for _ in range(COUNT))]


def test_batches_are_those_of_the_command(
    bench: Page, known: tuple[Catalogue, Derived], recipes: list[Recipe]
) -> None:
    answers = bench.evaluate(ASK, [asked(each) for each in recipes])
    told, worked = [], 0
    for recipe, found in zip(recipes, answers, strict=True):
        sheet = batches.batch(known[0], recipe)
        worked += not sheet.missing
        told += [f"{recipe.id} {asked(recipe)}: {each}" for each in differences(sheet, found)]
    assert told[:3] == [], f"{len(told)} differences"
    assert worked > COUNT / 2


def test_a_level_is_the_strictest_of_the_parts(
    bench: Page, known: tuple[Catalogue, Derived], recipes: list[Recipe]
) -> None:
    catalogue, derived = known
    rank = catalogue.policy.rank
    for recipe, found in zip(recipes, bench.evaluate(ASK, [asked(each) for each in recipes]), strict=True):
        if "missing" in found:
            continue
        safeties = [derived.pigments[each.pigment].safety for each in recipe.pigments]
        powders = {each.pigment for each in recipe.pigments}
        mass = sum(line[1] for line in found["lines"] if line[0] in powders)
        amount = "bench" if mass <= 50 else "batch" if mass <= 1000 else "drum"
        assert found["dry"] == max(rank(each.dry[amount].level) for each in safeties)
        assert found["wet"] >= max(rank(each.wet.level) for each in safeties if each.wet)


MEND = """
(cases) => {
  const held = MULLBOOK_BATCH.book(MULLBOOK_BENCH);
  return cases.map(([ask, have, wrong, volume]) => MULLBOOK_BATCH.mend(MULLBOOK_BATCH.work_out(held, ask), have, wrong, volume));
}
"""  # noqa: E501


def a_weighing(rng: random.Random, sheet: Sheet) -> dict[str, float]:
    """More or less what the recipe asks for; now and then a part is forgotten."""
    found = {each.id: each.grams * rng.uniform(0.4, 1.6) for each in sheet.lines if rng.random() < 0.85}
    return found or {sheet.lines[0].id: 1.0}


def of_the_command(
    catalogue: Catalogue, recipe: Recipe, have: dict[str, float], wrong: str, volume: float
) -> Correction:
    let_down = recipe.let_down is not None and have.get(recipe.let_down.binder, 0) > 0
    items = tuple(WeighedIn(item=name, mass=measure(mass, "g")) for name, mass in have.items())
    asked_for = Have(
        recipe=recipe.id, weighed=items, wrong=(wrong,), let_down=let_down, volume=measure(volume, "ml")
    )
    return corrections(catalogue, recipe, asked_for)[0]


def test_every_symptom_is_answered_as_by_the_command(
    bench: Page, known: tuple[Catalogue, Derived], recipes: list[Recipe]
) -> None:
    """What to add, what it leads to, and what is beyond mending."""
    catalogue, rng, cases, ours = known[0], random.Random(SEED), [], []
    offered = bench.locator("#wb-wrong option").evaluate_all("all => all.map(one => one.value)")
    assert sorted(offered) == sorted(SYMPTOMS)
    for recipe in recipes[:120]:
        sheet = batches.batch(catalogue, recipe)
        if sheet.missing:
            continue
        for wrong in SYMPTOMS:
            have, volume = a_weighing(rng, sheet), rng.uniform(10, 3000)
            cases.append([asked(recipe), have, wrong, volume])
            ours.append(of_the_command(catalogue, recipe, have, wrong, volume))
    told = []
    for case, mine, found in zip(cases, ours, bench.evaluate(MEND, cases), strict=True):
        added = {name: mass for name, mass in found["add"].items() if mass > 0}
        alike = added.keys() == mine.add.keys() and all(close(added[name], mine.add[name]) for name in added)
        refused = mine.words.startswith("No addition does it")
        words = found["words"].startswith("No addition does it") if refused else found["words"] == mine.words
        lost = bool(found.get("discard")) == mine.discard
        leads = refused or mine.pvc is None or close(found["pvc"], mine.pvc)
        if not (alike and words and lost and leads):
            told.append(f"{case}: {mine} against {found}")
    assert len(ours) > 500
    assert told[:2] == [], f"{len(told)} differences"


def test_constants_are_those_of_the_book(bench: Page) -> None:
    told = bench.evaluate("MULLBOOK_BATCH")
    assert told["MULLED_AT_MOST"] == batch_warnings.MULLED_AT_MOST
    assert told["ALKALINE_FROM"] == batch_warnings.ALKALINE_FROM
    assert tuple(told["NOT_MULLED"]) == batch_warnings.NOT_MULLED
    assert told["COAT_MICROMETRES"] == batch_figures.COAT_MICROMETRES
    assert tuple(told["NOT_COATED"]) == batch_figures.NOT_COATED
    assert told["DROP_ML"] == batches.DROP_ML
    assert told["POWDER_FROM"] == batches.POWDER_FROM
    assert tuple(told["IN_DROPS"]) == batches.ROLES_IN_DROPS
    assert [tuple(each) for each in told["FINISHES"]] == list(FINISHES)
    assert told["UNDER_BOUND"] == UNDER_BOUND
