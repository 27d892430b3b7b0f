"""The browser's arithmetic equals Python's: thousands of generated questions a formula, asked in Chromium."""

from __future__ import annotations

import dataclasses
import json
import math
import random
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from mullbook.science import air, batch, dosing, film, fineness, media, mending, optics, paint, settling
from tests.conftest import ROOT

SCRIPT = ROOT / "site_templates" / "pages" / "assets" / "javascripts" / "formulas.js"
SEED, COUNT, TOLERANCE = 20261125, 2000, 1e-9
REFUSED = "refused"
SMALLEST = 1e-5
"""Least part of the whole that a difference may come to and still be compared to the last figures."""
NO_FORMULA = {"E11", "refuse", "sum", "materials"}
POUND_G, CUBIC_INCH_ML = 453.59237, 2.54**3

Question = tuple[list[Any], Callable[[], Any]]
Make = Callable[[random.Random], Question]


def near(rng: random.Random, low: float, high: float) -> float:
    """A number between two, as likely small as large."""
    return low * (high / low) ** rng.random()


def even(low: float, high: float) -> Callable[[random.Random], float]:
    return lambda rng: rng.uniform(low, high)


def spread(low: float, high: float) -> Callable[[random.Random], float]:
    return lambda rng: near(rng, low, high)


def plain(function: Callable[..., Any], *ranges: Callable[[random.Random], Any]) -> Make:
    """Questions to a function that takes one value from each range."""

    def make(rng: random.Random) -> Question:
        values = [each(rng) for each in ranges]
        return values, lambda: function(*values)

    return make


def lists(function: Callable[..., Any], *ranges: Callable[[random.Random], float], most: int = 4) -> Make:
    """Questions to a function that takes lists of one length."""

    def make(rng: random.Random) -> Question:
        count = rng.randint(1, most)
        values = [[each(rng) for _ in range(count)] for each in ranges]
        return values, lambda: function(*values)

    return make


def make_dose(rng: random.Random) -> Question:
    basis = rng.choice([*dosing.BASES, "on-nothing"] if rng.random() < 0.1 else dosing.BASES)
    given = {
        "active": rng.choice([None, rng.uniform(0, 1)]) if rng.random() < 0.2 else rng.uniform(0.05, 1),
        "pigment_mass": near(rng, 1, 1000),
        "total_mass": near(rng, 1, 1000),
        "binder_mass": rng.choice([None, near(rng, 1, 1000)]),
    }
    percent = rng.uniform(0, 20)
    return [percent, basis, given], lambda: dosing.dose(percent, basis, **given)  # type: ignore[arg-type]


def around(rng: random.Random) -> dict[str, Any]:
    solids = rng.choice([0.0, rng.uniform(0, 0.2), rng.uniform(0, 1)])
    state = "flocculated" if rng.random() < 0.02 else "dispersed"
    return {"solids_fraction": solids, "fluid": rng.choice(["water", "water", "air"]), "state": state}


def make_settling(function: Callable[..., float], *ranges: Callable[[random.Random], float]) -> Make:
    def make(rng: random.Random) -> Question:
        values, rest = [each(rng) for each in ranges], around(rng)
        return [*values, rest], lambda: function(*values, **rest)

    return make


def material(rng: random.Random, name: str, role: str) -> batch.Material:
    stays = {"pigment": 1.0, "binder": rng.uniform(0.1, 1)}.get(role, rng.choice([0.0, 1.0, rng.random()]))
    return batch.Material(
        id=name,
        role=role,
        density=rng.uniform(1.2, 9) if role == "pigment" else rng.uniform(0.8, 1.4),
        stays=stays,
        stays_density=rng.choice([None, rng.uniform(0.9, 1.6)]) if role != "pigment" else None,
        bulk=rng.uniform(0.15, 1.6) if role == "pigment" and rng.random() < 0.95 else None,
        active=rng.uniform(0.05, 1),
        oil_absorption=rng.choice([None, rng.uniform(8, 120)]) if role == "pigment" else None,
        glycol=rng.choice([0.0, rng.random()]) if role == "vehicle" else 0.0,
    )


def dosed(rng: random.Random, name: str, role: str) -> batch.Dose:
    basis = rng.choice([*batch.ON_PIGMENT, *batch.ON_TOTAL, batch.ON_BINDER, batch.ON_DRY_BINDER])
    return batch.Dose(material=material(rng, name, role), percent=near(rng, 0.01, 8), of=basis)


def make_spec(rng: random.Random) -> batch.Spec:
    shares = [rng.uniform(0.05, 1) for _ in range(rng.randint(1, 4))]
    whole = sum(shares)
    pigments = tuple((material(rng, f"p{n}", "pigment"), each / whole) for n, each in enumerate(shares))
    aim = rng.choice(["pvc", "pvc", "ratio"])
    return batch.Spec(
        pigments=pigments,
        vehicle=material(rng, "vehicle", "vehicle") if rng.random() < 0.7 else None,
        vehicle_by=rng.choice(["weight", "volume-to-pigment"]),
        vehicle_ratio=near(rng, 0.1, 1.5),
        dispersant=dosed(rng, "dispersant", "dispersant") if rng.random() < 0.6 else None,
        binder=material(rng, "binder", "binder") if rng.random() < 0.9 else None,
        aim=aim,
        target=rng.uniform(0.08, 0.9) if aim == "pvc" else near(rng, 0.1, 3),
        ratio_by=rng.choice(["volume", "weight"]),
        additions=tuple(
            dosed(rng, rng.choice([f"a{n}", "a0"]), "thickener") for n in range(rng.randint(0, 3))
        ),
    )


def as_plain(value: Any) -> Any:
    return dataclasses.asdict(value) if dataclasses.is_dataclass(value) else value  # type: ignore[arg-type]


def make_solve(rng: random.Random) -> Question:
    spec, mass = make_spec(rng), near(rng, 1, 5000)

    def solved() -> dict[str, float] | None:
        grams = batch.solve(spec, mass)
        return grams if grams.get("binder", mass) > SMALLEST * mass else None

    return [as_plain(spec), mass], solved


def make_totals(rng: random.Random) -> Question:
    spec = make_spec(rng)
    grams = {each.id: near(rng, 0.01, 500) for each in spec.materials if rng.random() < 0.95}
    return [[as_plain(each) for each in spec.materials], grams], lambda: batch.totals(spec.materials, grams)


def make_mass_for_volume(rng: random.Random) -> Question:
    spec, volume = make_spec(rng), near(rng, 5, 20_000)
    return [as_plain(spec), volume], lambda: batch.mass_for_volume(spec, volume)


def make_vehicle_mass(rng: random.Random) -> Question:
    spec = make_spec(rng)
    return [as_plain(spec)], lambda: batch.vehicle_mass(spec)


def make_additions(rng: random.Random) -> Question:
    names = [f"m{n}" for n in range(rng.randint(1, 6))]
    wanted = {name: near(rng, 0.1, 500) for name in names}
    have = {name: near(rng, 0.1, 500) for name in names if rng.random() < 0.8}
    if rng.random() < 0.1:
        have["stray"] = 1.0
    return [wanted, have], lambda: mending.smallest_additions(wanted, have)


def weighed(rng: random.Random) -> tuple[tuple[batch.Material, ...], dict[str, float]]:
    held = tuple(material(rng, f"p{n}", "pigment") for n in range(rng.randint(1, 3)))
    held = (*held, material(rng, "vehicle", "vehicle"), material(rng, "binder", "binder"))
    return held, {each.id: near(rng, 1, 500) for each in held}


def worth_comparing(more: float, grams: dict[str, float]) -> float | None:
    return more if more > SMALLEST * sum(grams.values()) else None


def make_binder_to_reach(rng: random.Random) -> Question:
    held, grams = weighed(rng)
    target = rng.uniform(0.05, 0.8)

    def answer() -> float | None:
        return worth_comparing(mending.binder_to_reach(held, grams, held[-1], target), grams)

    return [[as_plain(each) for each in held], grams, as_plain(held[-1]), target], answer


def make_paste_to_reach(rng: random.Random) -> Question:
    held, grams = weighed(rng)
    paste = {each.id: near(rng, 1, 100) for each in held[:-1]}
    target = rng.uniform(0.05, 0.8)

    def answer() -> float | None:
        return worth_comparing(mending.paste_to_reach(held, grams, paste, target), grams)

    return [[as_plain(each) for each in held], grams, paste, target], answer


def of_medium(part: str) -> Callable[[float], float]:
    return lambda temperature: getattr(media.medium("water", temperature), part)


density, share, grams = even(0.2, 20), even(0, 1.02), spread(0.001, 1e5)
sizes, depths, degrees = spread(0.05, 2000), spread(0.5, 100), even(-1, 51)

MAKERS: dict[str, Make] = {
    "pvc": plain(paint.pvc, even(0, 50), even(0, 50)),
    "cpvc": plain(paint.cpvc, even(-1, 160), density, even(0.8, 1)),
    "pvc_of_grind": plain(paint.pvc_of_grind, even(-1, 260), density),
    "cpvc_in_dispersion": plain(paint.cpvc_in_dispersion, even(-0.01, 1.01), even(-0.01, 1.02)),
    "reduced_pvc": plain(paint.reduced_pvc, even(0, 1), even(-0.01, 1)),
    "pvc_for_reduced": plain(paint.pvc_for_reduced, even(0, 2), even(-0.01, 1.01)),
    "blend_density": lists(paint.blend_density, even(-0.01, 3), even(-0.01, 9)),
    "blend_oil_absorption": lists(paint.blend_oil_absorption, even(-0.01, 3), even(0, 160)),
    "cpvc_of_blend": lists(paint.cpvc_of_blend, even(0, 3), even(5, 160), even(1, 9)),
    "binder_for_pvc": plain(paint.binder_for_pvc, grams, density, share, even(-0.01, 1.01), even(0.8, 3)),
    "volume_solids": lists(paint.volume_solids, even(0, 50), even(0.7, 9), even(0, 1), even(0.7, 9)),
    "dose": make_dose,
    "per_100": plain(dosing.per_100, even(-1, 101)),
    "percent_of_paste": plain(dosing.percent_of_paste, even(-1, 400)),
    "parts_by_volume": plain(dosing.parts_by_volume, grams, even(-0.01, 3), even(-1, 900), even(0.8, 1.4)),
    "mix_by_mass": lists(dosing.mix_by_mass, even(-0.1, 90), even(0, 1)),
    "mass_to_add": plain(dosing.mass_to_add, grams, even(0, 1), even(0, 1), even(0, 1)),
    "full_tubes": plain(dosing.full_tubes, spread(1, 1e5), even(0, 1.01), even(-1, 200)),
    "tube_remainder": plain(dosing.tube_remainder, spread(1, 1e5), even(0, 1.01), even(1, 200)),
    "coats": lists(film.coats, even(-0.1, 40)),
    "wet_film": lists(film.wet_film, even(-0.1, 40)),
    "spreading_rate": plain(film.spreading_rate, even(-1, 400)),
    "scattering_contrast": plain(optics.scattering_contrast, even(1.2, 3.2), even(-0.01, 1.8)),
    "dust_budget": plain(air.dust_budget, even(-0.1, 10), even(-1, 2000)),
    "clearing_time": plain(air.clearing_time, even(0.5, 1e4), even(-0.1, 30), even(-0.01, 1.02)),
    "water_density": plain(media.water_density, even(0, 50)),
    "water_viscosity": plain(media.water_viscosity, even(273.15, 323.15), even(980, 1001)),
    "air_density": plain(media.air_density, even(273.15, 323.15)),
    "air_viscosity": plain(media.air_viscosity, even(273.15, 323.15)),
    "air_free_path": plain(media.air_free_path, even(273.15, 323.15)),
    "drag_over_stokes": plain(settling.drag_over_stokes, spread(1e-9, 1e5)),
    "settling_velocity": make_settling(settling.settling_velocity, sizes, even(0.9, 9), degrees),
    "settling_time": make_settling(settling.settling_time, sizes, depths, even(0.9, 9), degrees),
    "settling_size": make_settling(settling.settling_size, spread(0.01, 3e4), depths, even(0.9, 9), degrees),
    "opening_of_mesh": plain(
        fineness.opening_of_mesh, lambda rng: rng.choice([*fineness.E11, 210, 1, rng.randint(1, 700)])
    ),
    "mesh_of_opening": plain(
        fineness.mesh_of_opening,
        lambda rng: rng.choice([*fineness.E11.values(), 44, 74, 37, near(rng, 15, 6000)]),
    ),
    "depth_of_hegman": plain(
        fineness.depth_of_hegman, even(-0.5, 8.5), lambda rng: rng.choice(["inch", "metric"])
    ),
    "hegman_of_depth": plain(
        fineness.hegman_of_depth, even(-5, 110), lambda rng: rng.choice(["inch", "metric"])
    ),
    "grams_of_ounces": plain(lambda ounces: ounces * POUND_G / 16, grams),
    "ounces_of_grams": plain(lambda mass: mass * 16 / POUND_G, grams),
    "millilitres_of_fluid_ounces": plain(lambda ounces: ounces * 231 * CUBIC_INCH_ML / 128, grams),
    "fluid_ounces_of_millilitres": plain(lambda volume: volume * 128 / (231 * CUBIC_INCH_ML), grams),
    "celsius_of_fahrenheit": plain(lambda degrees: (degrees - 32) * 5 / 9, even(33, 500)),
    "solve": make_solve,
    "totals": make_totals,
    "mass_for_volume": make_mass_for_volume,
    "vehicle_mass": make_vehicle_mass,
    "smallest_additions": make_additions,
    "binder_to_reach": make_binder_to_reach,
    "paste_to_reach": make_paste_to_reach,
}


def vectors(make: Make, rng: random.Random) -> list[tuple[list[Any], Any]]:
    """Questions with Python's answers, refusals among them."""
    found: list[tuple[list[Any], Any]] = []
    while len(found) < COUNT:
        given, ask = make(rng)
        try:
            answer = as_plain(ask())
        except ValueError:
            answer = REFUSED
        if answer is None or (isinstance(answer, float) and not math.isfinite(answer)):
            continue
        found.append((given, answer))
    return found


JUDGE = """
window.told = {};
const close = (a, b) => a === b || (a == null && b == null) || (typeof a === "number" && Number.isFinite(a)
  && Math.abs(a - b) <= TOLERANCE * Math.max(Math.abs(a), Math.abs(b)));
const same = (a, b) => b && typeof b === "object"
  ? a && typeof a === "object" && Object.keys(a).length === Object.keys(b).length
    && Object.keys(b).every((key) => close(a[key], b[key]))
  : close(a, b);
for (const [name, asked] of Object.entries(VECTORS)) {
  const wrong = [];
  for (const [given, answer] of asked) {
    let found;
    try { found = MULLBOOK_FORMULAS[name](...given); }
    catch (error) { found = error instanceof RangeError ? "refused" : String(error); }
    if (!same(found, answer)) wrong.push({ given, answer, found });
  }
  told[name] = { asked: asked.length, wrong: wrong.length, first: wrong[0] || null };
}
"""


@pytest.fixture(scope="module")
def sheet(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Any:
    """A page from disk that has asked every question."""
    folder = tmp_path_factory.mktemp("formulas")
    held = {name: vectors(make, random.Random(f"{SEED} {name}")) for name, make in MAKERS.items()}
    script = f"const TOLERANCE = {TOLERANCE}, VECTORS = {json.dumps(held)};\n{JUDGE}"
    (folder / "vectors.js").write_text(script, encoding="utf-8")
    (folder / "formulas.js").write_bytes(SCRIPT.read_bytes())
    scripts = "".join(f'<script src="{name}.js"></script>' for name in ("formulas", "vectors"))
    page = f"<!doctype html><title>vectors</title>{scripts}"
    (folder / "index.html").write_text(page, encoding="utf-8")
    context = browser.new_context(offline=True)
    opened = context.new_page()
    opened.goto((folder / "index.html").as_uri())
    yield opened
    context.close()


@pytest.fixture(scope="module")
def told(sheet: Page) -> dict[str, Any]:
    found: dict[str, Any] = sheet.evaluate("told")
    return found


@pytest.mark.parametrize("name", MAKERS)
def test_the_browser_answers_as_python_does(told: dict[str, Any], name: str) -> None:
    found = told[name]
    assert found["asked"] >= COUNT
    assert found["wrong"] == 0, f"{found['wrong']} of {found['asked']} differ, first {found['first']}"


def test_every_formula_of_the_script_is_asked(sheet: Page) -> None:
    exported = set(sheet.evaluate("Object.keys(MULLBOOK_FORMULAS)"))
    assert exported - NO_FORMULA == set(MAKERS)


def test_the_sieves_are_the_same(sheet: Page) -> None:
    table = sheet.evaluate("MULLBOOK_FORMULAS.E11")
    assert {float(mesh): opening for mesh, opening in table.items()} == fineness.E11


def test_questions_hold_answers_and_refusals() -> None:
    """A generator that only ever asks what is refused would prove nothing."""
    for name, make in MAKERS.items():
        answers = [answer for _, answer in vectors(make, random.Random(f"{SEED} {name}"))]
        assert sum(answer != REFUSED for answer in answers) > COUNT / 4, name


def test_the_script_is_small_and_leans_on_nothing() -> None:
    text = Path(SCRIPT).read_text(encoding="utf-8")
    assert len(text) < 30_000
    assert "import " not in text and "require(" not in text
