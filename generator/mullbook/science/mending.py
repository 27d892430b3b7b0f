"""What to add to a batch as weighed so that it meets its aim; nothing is ever taken out."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from mullbook.science.batch import Impossible, Material, totals


def smallest_additions(wanted: Mapping[str, float], have: Mapping[str, float]) -> dict[str, float]:
    """The least to add, nothing taken out, so that amounts stand in the wanted proportion.

    Formula: with k the largest of `have / wanted`, add `k wanted - have` of everything.

    Parameters: `wanted`, grams in the right proportion; `have`, grams as weighed. Returns grams to add.
    Raises `Impossible` where something was weighed in that the recipe does not hold.

    >>> smallest_additions({"pigment": 10, "binder": 20}, {"pigment": 10, "binder": 15})
    {'pigment': 0.0, 'binder': 5.0}
    """
    strange = [name for name, mass in have.items() if mass > 0 and wanted.get(name, 0.0) <= 0]
    if strange:
        raise Impossible(
            f"{', '.join(strange)} is in the batch but not in the recipe, and nothing can be taken out",
            "have",
        )
    scale = max((have.get(name, 0.0) / mass for name, mass in wanted.items() if mass > 0), default=0.0)
    return {name: scale * mass - have.get(name, 0.0) for name, mass in wanted.items()}


def binder_to_reach(
    materials: Sequence[Material], grams: Mapping[str, float], binder: Material, pvc: float
) -> float:
    """Grams of binder that bring a batch as weighed down to a PVC.

    Formula: `(V_p / PVC - V_film) / film volume of one gram of binder`.

    Raises `Impossible` where the batch already holds more binder than that.
    """
    now = totals(materials, grams)
    more = (now.pigment_volume / pvc - now.film_volume) / binder.film_volume
    if more < 0:
        raise Impossible(
            "the batch already holds more binder than this PVC asks for: add pigment paste instead",
            "target",
            nearest=now.pvc,
        )
    return more


def paste_to_reach(
    materials: Sequence[Material], grams: Mapping[str, float], paste: Mapping[str, float], pvc: float
) -> float:
    """Grams of paste, of the composition given, that bring a batch as weighed up to a PVC.

    Formula, with v_p and v_f the pigment and film volumes of one gram of paste:
    `(PVC V_film - V_p) / (v_p - PVC v_f)`.

    Parameters: `paste`, grams by id in any amount; the rest as above. Returns grams of paste.
    Raises `Impossible` where the batch is past the PVC, or the paste itself cannot reach it.
    """
    now = totals(materials, grams)
    made = totals(materials, paste)
    per_gram_pigment, per_gram_film = made.pigment_volume / made.mass, made.film_volume / made.mass
    if now.pvc > pvc:
        raise Impossible(
            "the batch already holds more pigment than this PVC asks for: add binder instead",
            "target",
            nearest=now.pvc,
        )
    if per_gram_pigment <= pvc * per_gram_film:
        raise Impossible("the paste itself is leaner in pigment than this PVC", "target", nearest=made.pvc)
    return (pvc * now.film_volume - now.pigment_volume) / (per_gram_pigment - pvc * per_gram_film)
