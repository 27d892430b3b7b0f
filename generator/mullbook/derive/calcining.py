"""What heat does: mass lost by each substance and earth, and what must not be heated."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.composition import parts
from mullbook.derive.earth_results import Calcining, Fired, FiredEarth, Unheated
from mullbook.derive.results import Derived
from mullbook.model.calcination import Calcination
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment, Substance
from mullbook.model.values import Input, Range, Working
from mullbook.science.registry import evaluate

FROM_THE_GROUND = ("natural-earth", "mineral", "unknown")
REDDENS = "goethite"
NOT_STONES = ("natural-product", "mixture")


def loss_of(substance: Substance, step: Calcination, share: Range | None = None) -> Working:
    """Part of its mass that a substance loses in one step, or an earth that holds a share of it."""
    basis = "calculated" if share else None
    return evaluate(
        "calcination_loss",
        {
            "formula": substance.formula,
            "product": step.product,
            "parts": step.parts,
            "product_parts": step.product_parts,
            "share": Input("share", "fraction", share or Range(1, 1), basis=basis),
        },
    )


def calcining(catalogue: Catalogue, derived: Derived) -> Calcining:
    """The page on heat: steps, earths, and what is not heated."""
    return Calcining(
        fired=tuple(_fired(catalogue)),
        earths=tuple(_earths(catalogue, derived)),
        stones=tuple(_stones(catalogue)),
        powders=tuple(_powders(catalogue, derived)),
    )


def _fired(catalogue: Catalogue) -> Iterator[Fired]:
    for each in catalogue.substances:
        action = each.heating.action if each.heating else None
        for step in each.calcines if each.formula and action != "no" else ():
            yield Fired(substance=each.id, name=each.name, action=action, step=step, loss=loss_of(each, step))


def _earths(catalogue: Catalogue, derived: Derived) -> Iterator[FiredEarth]:
    """Earths that hold goethite: the loss for its turning red, clay and water apart."""
    goethite = catalogue.substance.get(REDDENS)
    if goethite is None or not goethite.calcines:
        return
    for each in catalogue.pigments:
        share = reddening_share(catalogue, each)
        heating = derived.pigments[each.id].safety.heating
        if each.family == "natural-earth" and share is not None and share.high > 0:
            yield FiredEarth(
                pigment=each.id,
                name=each.name,
                heating=heating.id if heating else "not-known",
                because=heating.because if heating else "",
                constituent=goethite.name,
                loss=loss_of(goethite, goethite.calcines[0], share),
            )


def reddening_share(catalogue: Catalogue, pigment: Pigment) -> Range | None:
    """Share of goethite in a pigment, or None."""
    found = parts(catalogue, pigment.constituents)
    return next((each.share for each in found if each.substance == REDDENS), None)


def _stones(catalogue: Catalogue) -> Iterator[Unheated]:
    for each in catalogue.substances:
        natural = each.kind in ("mineral", "group") or each.field_tests is not None
        if natural and each.heating and each.heating.action == "no":
            yield Unheated(kind="substance", id=each.id, name=each.name, because=each.heating.because)


def _powders(catalogue: Catalogue, derived: Derived) -> Iterator[Unheated]:
    for each in catalogue.pigments:
        heating = derived.pigments[each.id].safety.heating
        if each.family in FROM_THE_GROUND and heating and heating.id in ("no", "not-known"):
            yield Unheated(kind="pigment", id=each.id, name=each.name, because=heating.because)
