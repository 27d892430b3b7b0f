"""What to add to a batch as weighed. Nothing is ever taken out; where nothing can help, that is said."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from mullbook.derive.batch_inputs import Plan, plan
from mullbook.derive.batch_results import Correction
from mullbook.model.benches import Have
from mullbook.model.catalogue import Catalogue
from mullbook.model.recipes import Recipe
from mullbook.science.batch import (
    Impossible,
    Material,
    mass_for_volume,
    solve,
    totals,
)
from mullbook.science.formula import number_text
from mullbook.science.mending import binder_to_reach, paste_to_reach, smallest_additions

DEFOAMER_STEP, DEFOAMER_MOST = 0.05, 0.5
"""Percent of the paint: one step of defoamer, and the most; common practice."""
THICKENER_STEP = 0.2
"""Percent of the paint: one step of thickener; common practice."""
WATER_STEP = 2.0
"""Percent of the paint: one step of thinning; common practice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Case:
    catalogue: Catalogue
    made: Plan
    have: Have
    values: Mapping[str, float]
    materials: tuple[Material, ...]

    @property
    def grams(self) -> dict[str, float]:
        return self.have.grams

    @property
    def mass(self) -> float:
        return sum(self.grams.values())

    @property
    def target(self) -> float:
        """The PVC the recipe leads to, whatever it aims at; a ratio is no PVC."""
        return totals(self.materials, solve(self.made.spec(self.values))).pvc

    def role(self, role: str) -> Material | None:
        return next((each for each in self.materials if each.role == role), None)

    def after(self, symptom: str, words: str, add: Mapping[str, float], because: str = "") -> Correction:
        """The correction with the PVC and lambda it leads to."""
        grams = dict(self.grams)
        for name, more in add.items():
            grams[name] = grams.get(name, 0.0) + more
        found = totals(self.materials, grams)
        critical = self.made.critical(self.values, self.made.spec(self.values).pigments)
        return Correction(
            symptom=symptom,
            words=words,
            add={name: more for name, more in add.items() if more > 0},
            because=because,
            pvc=found.pvc,
            reduced=found.pvc / critical if critical else None,
        )


def corrections(catalogue: Catalogue, recipe: Recipe, have: Have) -> tuple[Correction, ...]:
    """The smallest additions for each symptom, or the words that say why there are none.

    Parameters: the catalogue; `recipe`, what the batch was meant to be; `have`, amounts as weighed and what
    is wrong. With nothing wrong named, the additions bring the amounts to the recipe's proportions.
    """
    made = plan(catalogue, recipe)
    if made.knobs.missing:
        words = f"Not derivable because {'; '.join(made.knobs.missing)}."
        return (Correction(symptom="recipe", words=words, add={}),)
    values = made.knobs.middles
    try:
        materials = made.spec(values).materials
    except Impossible as error:
        return (Correction(symptom="recipe", words=f"Not derivable because {error}.", add={}),)
    case = _Case(catalogue=catalogue, made=made, have=have, values=values, materials=materials)
    return tuple(each for symptom in have.wrong or ("off-recipe",) for each in _for(case, symptom))


def _for(case: _Case, symptom: str) -> Iterator[Correction]:
    try:
        yield from SYMPTOMS[symptom](case)
    except Impossible as error:
        near = f" The nearest is {number_text(error.nearest)}." if error.nearest is not None else ""
        yield Correction(symptom=symptom, words=f"No addition does it: {error}.{near}", add={})


def _off_recipe(case: _Case) -> Iterator[Correction]:
    add = smallest_additions(solve(case.made.spec(case.values)), case.grams)
    yield case.after("off-recipe", "Brings everything to the proportions of the recipe.", add)


def _chalks(case: _Case) -> Iterator[Correction]:
    binder = case.role("binder")
    if binder is None:
        raise Impossible("the recipe names no binder", "let_down")
    target = case.target
    now = totals(case.materials, case.grams).pvc
    if now <= target:
        yield Correction(
            symptom="chalks",
            words="It is not short of binder. Check that the film dried warm enough, that the ground"
            " did not drink the binder, and that the paste was well ground. A finished surface gets a thin"
            " coat of weak size or medium, not more pigment.",
            add={},
            because=f"PVC {number_text(100 * now, 3)} %, target {number_text(100 * target, 3)} %",
        )
        return
    more = binder_to_reach(case.materials, case.grams, binder, target)
    words = "Stir the binder in slowly, a twentieth at a time, into the wet batch."
    yield case.after("chalks", words, {binder.id: more})


def _insipid(case: _Case) -> Iterator[Correction]:
    spec = case.made.spec(case.values)
    paste = {name: mass for name, mass in solve(spec).items() if name in _paste_ids(case)}
    more = paste_to_reach(case.materials, case.grams, paste, case.target)
    whole = sum(paste.values())
    yield case.after(
        "insipid",
        "Grind this much more paste first, then stir it in; never dry pigment into finished paint.",
        {name: more * mass / whole for name, mass in paste.items()},
        because=f"{number_text(more)} g of paste",
    )


def _paste_ids(case: _Case) -> set[str]:
    recipe = case.made.recipe
    names = {part.id for part, _ in case.made.pigments}
    names |= {recipe.paste.vehicle.additive} if recipe.paste.vehicle else set()
    return names | ({recipe.paste.dispersant.additive} if recipe.paste.dispersant else set())


def _too_thin(case: _Case) -> Iterator[Correction]:
    if not case.have.let_down:
        spec = case.made.spec(case.values)
        powder = sum(case.grams.get(part.id, 0.0) for part, _ in case.made.pigments)
        add = {each.id: 0.05 * powder * share for each, share in spec.pigments}
        yield case.after(
            "too-thin",
            "Add wetted pigment a twentieth at a time until the paste stands, or let it settle and pour off"
            " the clear liquid. Never thicken a paste with gel. Then reckon the binder anew.",
            add,
        )
        return
    thickener = case.role("thickener")
    words = (
        "Check the pH first: a swelling thickener wants 8 or more. Then add thickener, thinned with water, in"
    )
    if thickener is None:
        yield Correction(
            symptom="too-thin",
            words=f"{words} steps of {THICKENER_STEP} % of the paint; wait half an hour before the next.",
            add={},
            because="the recipe names no thickener",
        )
        return
    add = {thickener.id: THICKENER_STEP / 100 * case.mass}
    yield case.after("too-thin", f"{words} this step; wait half an hour before the next.", add)


def _too_thick(case: _Case) -> Iterator[Correction]:
    step = WATER_STEP / 100 * case.mass
    yield Correction(
        symptom="too-thick",
        words="Stir in water, or the vehicle without more glycol, in this step; wait, look again. If it"
        " stiffens overnight and stirs back, it is body, not a fault; if it does not stir back, strain a"
        " spoonful: curd means discard.",
        add={"water": step},
        because=f"{WATER_STEP:g} % of {number_text(case.mass)} g; water leaves the film, so the PVC stays",
        pvc=totals(case.materials, case.grams).pvc,
    )


def _foams(case: _Case) -> Iterator[Correction]:
    defoamer = case.role("defoamer")
    if defoamer is None:
        yield Correction(
            symptom="foams",
            words="Stir slowly below the surface, let it rest overnight, tap or pull a vacuum. The recipe"
            " names no defoamer.",
            add={},
        )
        return
    held = 100 * case.grams.get(defoamer.id, 0.0) / case.mass
    if held + DEFOAMER_STEP > DEFOAMER_MOST:
        raise Impossible(
            f"it already holds {number_text(held)} % of defoamer, and more makes craters: let it rest, or"
            " blend it into a fresh batch without any",
            "additions",
        )
    add = {defoamer.id: DEFOAMER_STEP / 100 * case.mass}
    words = f"One step of {DEFOAMER_STEP} %; rest, look, at most {DEFOAMER_MOST} % in all."
    yield case.after("foams", words, add)


def _short(case: _Case) -> Iterator[Correction]:
    wanted = case.have.volume
    if wanted is None:
        raise Impossible("the volume wanted is not given", "volume")
    spec = case.made.spec(case.values)
    target = solve(spec, mass_for_volume(spec, wanted.middle))
    now = totals(case.materials, case.grams).volume
    if now >= wanted.middle:
        raise Impossible(f"it already fills {number_text(now)} ml", "volume", nearest=now)
    over = [name for name, mass in case.grams.items() if mass > target.get(name, 0.0) + 1e-9]
    add = (
        smallest_additions(solve(spec), case.grams)
        if over
        else {name: mass - case.grams.get(name, 0.0) for name, mass in target.items()}
    )
    yield case.after("short-of-volume", "Grind and let down the difference, then bring both together.", add)


def _discard(words: str) -> Callable[[_Case], Iterator[Correction]]:
    def say(case: _Case) -> Iterator[Correction]:
        yield Correction(symptom="discard", words=words, add={}, discard=True)

    return say


SYMPTOMS: dict[str, Callable[[_Case], Iterator[Correction]]] = {
    "off-recipe": _off_recipe,
    "chalks": _chalks,
    "insipid": _insipid,
    "too-thin": _too_thin,
    "too-thick": _too_thick,
    "foams": _foams,
    "short-of-volume": _short,
    "curdled": _discard(
        "Discard: curd strained out of a dispersion does not come back. Next time wash the earth, bring"
        " the paste to pH 8 to 8.5 and add the dispersant before the binder."
    ),
    "smells": _discard(
        "Discard: more preservative does not mend a spoiled batch. Do not sniff at it closely. Clean the"
        " kit, find where it came in, make less at a time."
    ),
}
"""Symptoms a batch may show, each with what is done about it."""
