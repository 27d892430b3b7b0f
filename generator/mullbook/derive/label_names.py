"""What a label names: pigments with their codes, what preserves the paint, what people react to."""

from __future__ import annotations

from collections.abc import Iterator

from mullbook.derive.results import Named
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment

SENSITISING = ("H317", "H334")
SEE_SHEET = "not known: see its data sheet"
"""What a label says of a preservative that nobody named."""
Jar = Pigment | Binder | Additive


def pigment_named(pigment: Pigment) -> Named:
    """A pigment with its Colour Index names; an earth has a slot for the number of its sample."""
    index = pigment.colour_index
    codes = index.names if index and index.names else ()
    earth = "natural earth, sample no. ____" if pigment.family == "natural-earth" else ""
    also = ", ".join([*codes, *([earth] if earth else [])]) or "no C.I. name known"
    return Named(name=pigment.name, also=also, entry=pigment.id)


def preservatives(catalogue: Catalogue, jars: list[tuple[Jar, float]]) -> Iterator[Named]:
    """Preservatives by name: those put in, and those that came with what was bought."""
    for jar, _ in jars:
        if isinstance(jar, Additive) and jar.role == "preservative":
            actives = [each.substance for each in jar.constituents if each.role == "active"]
            names = [catalogue.substance[each].name for each in actives if each in catalogue.substance]
            yield Named(name=jar.name, also=", ".join(names))
        held = [
            catalogue.substance[each.substance].name
            for each in jar.constituents
            if each.role == "preservative" and each.substance in catalogue.substance
        ]
        if held:
            held = [SEE_SHEET if each == "Not known" else each for each in held]
            also = f"in the {jar.name.lower()} as bought"
            yield Named(name=", ".join(held), also=also, entry=jar.id, bought=True)


def allergens(catalogue: Catalogue, jars: list[tuple[Jar, float]]) -> Iterator[Named]:
    """Allergens by name: those the entries name, and every substance that any list calls a sensitiser."""
    told: dict[str, Named] = {}
    for jar, _ in jars:
        if isinstance(jar, Binder):
            for each in jar.allergens:
                told.setdefault(each.name, Named(name=each.name, also=jar.name, own_words=True))
        for part in jar.constituents:
            substance = catalogue.substance.get(part.substance)
            if substance is None:
                continue
            codes = {each.statement for each in catalogue.classes_of(substance)}
            if codes & set(SENSITISING) and _may_hold(part.share.ends[1]):
                told.setdefault(substance.name, Named(name=substance.name, also=jar.name))
    yield from told.values()


def _may_hold(high: float | None) -> bool:
    """Whether a share may be more than nothing; an open end may."""
    return high is None or high > 0
