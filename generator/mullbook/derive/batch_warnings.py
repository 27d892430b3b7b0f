"""What to mind in a batch: each warning with its reason and the figure behind it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from mullbook.derive.batch_inputs import WITHOUT_TARGET, Plan, targets_of
from mullbook.derive.batch_results import Warned
from mullbook.derive.chemistry import chemistry_of
from mullbook.derive.composition import parts, share_range
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.facts import Reaction, Target
from mullbook.model.recipes import CURDLERS, CURDLES_FROM
from mullbook.model.values import Quantity
from mullbook.science.batch import Totals
from mullbook.science.formula import number_text

MULLED_AT_MOST = 100.0
"""Grams of pigment one mulls on a slab at a time; common practice."""
NOT_MULLED = ("distemper", "fresco-limewash", "encaustic")
ALKALINE_FROM = 7.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Batch:
    catalogue: Catalogue
    made: Plan
    grams: Mapping[str, float]
    found: Totals
    reduced: float | None

    @property
    def pigments(self) -> list[Pigment]:
        known = self.catalogue.pigment
        return [known[part.id] for part, _ in self.made.pigments if part.id in known]

    @property
    def binder(self) -> Binder | None:
        let_down = self.made.recipe.let_down
        return self.catalogue.binder.get(let_down.binder) if let_down else None

    @property
    def additives(self) -> list[Additive]:
        vehicle = self.made.recipe.paste.vehicle
        names = [dosed.additive for _, dosed, _ in self.made.doses]
        names += [vehicle.additive] if vehicle else []
        return [self.catalogue.additive[each] for each in names if each in self.catalogue.additive]


def warnings(
    catalogue: Catalogue, made: Plan, grams: Mapping[str, float], found: Totals, reduced: float | None
) -> tuple[Warned, ...]:
    """Everything to mind in a batch, most serious first.

    Parameters: the catalogue, the plan, grams by id, the totals, and PVC over critical PVC where known.
    """
    batch = _Batch(catalogue=catalogue, made=made, grams=grams, found=found, reduced=reduced)
    looks = (
        _bound,
        _attacked,
        _reactions,
        _curdles,
        _metal,
        _glycol,
        _ceilings,
        _dispersant,
        _preservative,
        _mulled,
    )
    return tuple(each for look in looks for each in look(batch))


def _bound(batch: _Batch) -> Iterator[Warned]:
    """PVC or lambda outside what the finish or the system asks for; lime and silicate have neither."""
    targets = targets_of(batch.catalogue, batch.made.recipe)
    if targets and all(each.by == WITHOUT_TARGET for each in targets):
        return
    if batch.reduced is None:
        if batch.made.aim == "lambda":
            yield Warned(
                id="no-rub-out",
                words="Started from the usual PVC: how much binder these pigments need is not known."
                " Rub out 5 g with oil and use --lot, or go by the stop test.",
                because=f"PVC {number_text(100 * batch.found.pvc, 3)} %; rub-out oil absorption not known",
            )
        return
    told = (
        f"PVC {number_text(100 * batch.found.pvc, 3)} %, {number_text(batch.reduced, 3)} of the critical PVC"
    )
    low, high, value = _bounds(batch, batch.reduced)
    if value > high + 1e-9:
        words = (
            "Under-bound: it will chalk when rubbed." if batch.reduced > 1 else "Leaner than the finish asks."
        )
        yield Warned(id="under-bound", words=words, because=f"{told}; wanted at most {number_text(high)}")
        let_down = batch.made.recipe.let_down
        if let_down and let_down.by == "ratio":
            yield Warned(
                id="equal-parts",
                words="A rule by parts does not fit this pigment: it takes up more binder than that.",
                because=told,
            )
    elif value < low - 1e-9:
        yield Warned(
            id="over-bound",
            words="Richer in binder than the finish asks for: shiny, weak in colour.",
            because=f"{told}; wanted at least {number_text(low)}",
        )


def _bounds(batch: _Batch, reduced: float) -> tuple[float, float, float]:
    """Lowest and highest wanted, and what there is: in lambda, or in PVC where the system counts so."""
    target = _target(batch)
    wanted = target.range.range if target and target.range else None
    if target is None or wanted is None:
        return 0.0, 1.0, reduced
    return wanted.low, wanted.high, reduced if target.by == "lambda" else batch.found.pvc


def _target(batch: _Batch) -> Target | None:
    """The system's own target for the finish; without a finish, its only one."""
    let_down = batch.made.recipe.let_down
    targets = [each for each in targets_of(batch.catalogue, batch.made.recipe) if each.range]
    if let_down and let_down.finish:
        return next((each for each in targets if each.finish == let_down.finish), None)
    return targets[0] if len(targets) == 1 else None


def _attacked(batch: _Batch) -> Iterator[Warned]:
    """Pigments the binder attacks, or that nobody knows in it."""
    if batch.binder is None:
        return
    for pigment in batch.pigments:
        verdict, because = _verdict(batch, pigment, batch.binder)
        name, where = pigment.name, batch.binder.name
        if verdict is None:
            words = f"Whether {name} lives in {where} is not known: test it."
            yield Warned(id="not-known", words=words, because="no evidence was found")
        elif verdict != "suits":
            word = "does not live in" if verdict == "unsuitable" else "wants a test in"
            yield Warned(id=verdict, words=f"{name} {word} {where}.", because=because)


def _verdict(batch: _Batch, pigment: Pigment, binder: Binder) -> tuple[str | None, str]:
    """What the entry says of the binder, else what the pigment's chemistry class does, with the reason."""
    said = next((each for each in pigment.suitability if each.binder == binder.id), None)
    if said is not None:
        return said.verdict, f"{said.mechanism} ({said.grade.replace('-', ' ')})"
    held = parts(batch.catalogue, pigment.constituents)
    found = chemistry_of(batch.catalogue, pigment, held).binders.get(binder.id)
    if found is None:
        return None, ""
    return found.verdict, f"{found.because} (by chemistry class, chemically expected)"


def _reactions(batch: _Batch) -> Iterator[Warned]:
    """Pairs that react in this medium."""
    listed = batch.catalogue.vocabulary("reactions")
    system = batch.catalogue.system.get(batch.made.recipe.system)
    for reaction in listed.reactions if listed else ():
        if reaction.media and (system is None or system.kind not in reaction.media):
            continue
        ones = [each for each in batch.pigments if _holds(batch, each, reaction.one)]
        others = [each for each in batch.pigments if _holds(batch, each, reaction.other)]
        pairs = {tuple(sorted((a.name, b.name))) for a in ones for b in others if a.id != b.id}
        for first, second in sorted(pairs):
            yield Warned(
                id="reacts", words=f"{first} with {second}: {reaction.effect}", because=_graded(reaction)
            )


def _holds(batch: _Batch, pigment: Pigment, wanted: tuple[str, ...]) -> bool:
    found = parts(batch.catalogue, pigment.constituents)
    return any(
        part.share.high >= CURDLES_FROM and {part.substance, *part.groups} & set(wanted) for part in found
    )


def _graded(reaction: Reaction) -> str:
    return f"{reaction.grade.replace('-', ' ')}{f'; {reaction.note}' if reaction.note else ''}"


def _curdles(batch: _Batch) -> Iterator[Warned]:
    if batch.binder is None or batch.binder.kind != "dispersion":
        return
    for pigment in batch.pigments:
        for each in pigment.constituents:
            share = share_range(each.share).high
            if each.substance in CURDLERS and share >= CURDLES_FROM:
                yield Warned(
                    id="curdles",
                    words=f"{pigment.name} may curdle the dispersion: wash it, bring the paste to"
                    " pH 8 to 8.5, add the dispersant before the binder.",
                    because=f"up to {number_text(100 * share, 2)} % {each.substance}; common practice",
                )


def _metal(batch: _Batch) -> Iterator[Warned]:
    ph = _middle(batch.binder.ph) if batch.binder else None
    if ph is None or ph < ALKALINE_FROM:
        return
    for pigment in batch.pigments:
        if pigment.family == "metal":
            yield Warned(
                id="metal-flake",
                words=f"{pigment.name} makes hydrogen in alkaline water: no tube, and a vented cap.",
                because=f"the binder has pH {number_text(ph, 2)}",
            )


def _middle(quantity: Quantity | None) -> float | None:
    return quantity.range.middle if quantity and quantity.range else None


def _glycol(batch: _Batch) -> Iterator[Warned]:
    share = batch.found.glycol_of_wet_binder
    if share is None:
        return
    for each in batch.additives:
        top = each.ceiling.range.ends[1] if each.ceiling and each.ceiling.of == "on-binder" else None
        if each.role == "vehicle" and top is not None and share * 100 > top:
            yield Warned(
                id="glycol",
                words="Too much glycol: the film stays tacky. Thin the vehicle with water.",
                because=f"{number_text(100 * share, 2)} % of the wet binder; ceiling {number_text(top)} %",
            )


def _ceilings(batch: _Batch) -> Iterator[Warned]:
    """Doses over an additive's ceiling, whatever each is a percentage of."""
    for part, _, _ in batch.made.doses:
        additive = batch.catalogue.additive.get(part.id)
        ceiling = additive.ceiling if additive else None
        top = ceiling.range.ends[1] if ceiling else None
        if additive is None or ceiling is None or top is None:
            continue
        basis = _basis(batch, ceiling.of)
        active = part.at(batch.made.knobs.middles).active if ceiling.of.startswith("active") else 1.0
        percent = 100 * batch.grams[part.id] * active / basis if basis else 0.0
        if percent > top * (1 + 1e-9):
            yield Warned(
                id="ceiling",
                words=f"More {additive.name} than is ever useful.",
                because=f"{number_text(percent)} % {ceiling.of}, ceiling {number_text(top)} %",
            )


def _basis(batch: _Batch, of: str) -> float:
    """Grams of what a percentage is of."""
    if of.endswith("on-pigment"):
        return sum(batch.grams[part.id] for part, _ in batch.made.pigments)
    if of.endswith("on-total"):
        return batch.found.mass
    binder = batch.made.binder
    if binder is None:
        return 0.0
    stays = binder.at(batch.made.knobs.middles).stays if of == "on-dry-binder" else 1.0
    return batch.grams[binder.id] * stays


def _dispersant(batch: _Batch) -> Iterator[Warned]:
    dispersant = batch.made.recipe.paste.dispersant
    if dispersant is None:
        return
    mass = batch.grams[dispersant.additive]
    active = next(
        part.at(batch.made.knobs.middles).active
        for part, _, _ in batch.made.doses
        if part.id == dispersant.additive
    )
    powder = sum(batch.grams[part.id] for part, _ in batch.made.pigments)
    if active < 1 and dispersant.of not in ("active-on-pigment", "active-on-total"):
        yield Warned(
            id="dispersant-basis",
            words="A percentage of dispersant has three meanings; make sure that yours is this one.",
            because=f"{number_text(mass)} g of product: {number_text(100 * mass / powder)} % product on"
            f" pigment, {number_text(100 * mass * active / powder)} % active on pigment",
        )


def _preservative(batch: _Batch) -> Iterator[Warned]:
    for each in batch.additives:
        bounds = each.works_at_ph.range if each.works_at_ph else None
        if each.role != "preservative" or bounds is None:
            continue
        for what, ph in _acidities(batch):
            if not bounds.low <= ph <= bounds.high:
                yield Warned(
                    id="preservative-ph",
                    words=f"{each.name} does little at this pH.",
                    because=f"{what} has pH {number_text(ph, 2)}; it works from {number_text(bounds.low, 2)}"
                    f" to {number_text(bounds.high, 2)}",
                )


def _acidities(batch: _Batch) -> Iterator[tuple[str, float]]:
    """What sets the pH of the paint: the binder, and each pigment whose slurry was measured."""
    ph = _middle(batch.binder.ph) if batch.binder else None
    if batch.binder is not None and ph is not None:
        yield batch.binder.name, ph
    for pigment in batch.pigments:
        slurry = _middle(pigment.physical.slurry_ph)
        if slurry is not None:
            yield pigment.name, slurry


def _mulled(batch: _Batch) -> Iterator[Warned]:
    system = batch.catalogue.system.get(batch.made.recipe.system)
    powder = sum(batch.grams[part.id] for part, _ in batch.made.pigments)
    if powder > MULLED_AT_MOST and (system is None or system.kind not in NOT_MULLED):
        charges = -(-powder // MULLED_AT_MOST)
        yield Warned(
            id="too-much-to-mull",
            words=f"More than one mulls at a time: {charges:.0f} charges on the slab, or a disperser.",
            because=f"{number_text(powder)} g of powder; about {number_text(MULLED_AT_MOST)} g at a time,"
            " common practice",
        )
