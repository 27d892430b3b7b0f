"""What is not known of harm, datum by datum: silence is listed, never left to be read as good news."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

from mullbook.derive.results import Derived, Safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance

UNKNOWN = "unknown"
GROUP = "group"
Thing = Pigment | Binder | Additive | Substance


@dataclass(frozen=True, slots=True)
class Gap:
    """One kind of datum that some entries lack, and what is done about it meanwhile."""

    id: str
    what: str
    meanwhile: str
    lacking: tuple[tuple[str, str, str, str], ...]
    """Kind, id and name of each entry, and what exactly is missing where that differs."""


def gaps(catalogue: Catalogue, derived: Derived) -> Iterator[Gap]:
    """Every kind of missing safety datum with the entries that lack it; empty ones are left out."""
    for each in (*_of_substances(catalogue), *_of_jars(catalogue, derived)):
        if each.lacking:
            yield each


def _gap(name: str, what: str, meanwhile: str, lacking: Iterable[tuple[Thing, str]]) -> Gap:
    rows = tuple((each.kind_name, each.id, each.name, detail) for each, detail in lacking)
    return Gap(name, what, meanwhile, tuple(sorted(rows, key=lambda row: (row[2].casefold(), row))))


def _of_substances(catalogue: Catalogue) -> Iterator[Gap]:
    held = [each for each in catalogue.substances if each.kind not in (UNKNOWN, GROUP)]

    def having(lacks: Callable[[Substance], bool]) -> list[tuple[Thing, str]]:
        return [(each, "") for each in held if lacks(each)]

    yield _gap(
        "classes",
        "Hazard classes were not searched for",
        "It counts as a part of unknown hazard.",
        having(lambda each: not catalogue.classes_of(each) and each.hazards.status == "not-known"),
    )
    yield _gap(
        "limits",
        "Workplace limits were not searched for",
        "Its dust counts as one without a known limit, which is stricter than the general threshold.",
        having(lambda each: not catalogue.limits_of(each) and not each.limits_searched),
    )
    yield _gap(
        "heating",
        "Nothing was found on heating it",
        "Heating reads not known, which means no.",
        having(lambda each: all(part.heating is None for part in catalogue.lineage(each.id))),
    )
    yield _gap(
        "formula",
        "No formula, so its elements cannot be reckoned",
        "Limits on an element count the whole of it; a leaching level cannot be screened.",
        having(lambda each: each.formula is None),
    )
    yield _gap(
        "memory",
        "A class or limit stands on memory alone",
        "It counts only where it is stricter, and is shown as not confirmed.",
        [(each, ", ".join(found)) for each in catalogue.substances if (found := _remembered(each))],
    )


def _remembered(substance: Substance) -> list[str]:
    classes = [each.statement for each in substance.hazards.classes if each.remembered]
    limits = [
        f"{each.jurisdiction} {each.list}" for each in substance.limits if each.value.basis == "from-memory"
    ]
    return [*dict.fromkeys(classes), *dict.fromkeys(limits)]


def _of_jars(catalogue: Catalogue, derived: Derived) -> Iterator[Gap]:
    pigments: list[tuple[Thing, Safety]] = [
        (each, derived.pigments[each.id].safety) for each in catalogue.pigments
    ]
    yield from _of_whole(catalogue, derived, pigments)
    yield from _of_powders(catalogue, pigments)
    yield from _of_working(catalogue, derived, pigments)


def _of_whole(
    catalogue: Catalogue, derived: Derived, pigments: Iterable[tuple[Thing, Safety]]
) -> Iterator[Gap]:
    products: list[tuple[Thing, Safety]] = [(each, derived.products[each.id]) for each in catalogue.products]
    jars: list[tuple[Thing, Safety]] = [*pigments, *products]
    yield _gap(
        "status",
        "The hazard status of the whole is not known",
        "It is treated as hazardous.",
        [(each, "") for each, safety in jars if safety.status == "not-known"],
    )
    yield _gap(
        "composition",
        "A part of it is of unknown composition or hazard",
        "From one per cent on it moves the powder to the stricter row of the level table.",
        [
            (each, f"up to {safety.unknown_share * 100:.2g} %")
            for each, safety in jars
            if safety.unknown_share > 0
        ],
    )


def _of_powders(catalogue: Catalogue, pigments: Sequence[tuple[Thing, Safety]]) -> Iterator[Gap]:
    yield _gap(
        "dust-limit",
        "No limit on its dust is known, and not every list was searched",
        "The level is that of an unsearched dust.",
        [(each, "") for each, safety in pigments if safety.limit_status == "not-known"],
    )
    yield _gap(
        "heating-jar",
        "What it gives off when heated is not known",
        "It is not heated.",
        [
            (each, "")
            for each, safety in pigments
            if safety.heating is not None and safety.heating.id == "not-known"
        ],
    )
    yield _gap(
        "fire",
        "Whether its dust burns is not known",
        "Carbon, metal and organic powders are treated as if it did.",
        [
            (each, "")
            for each, safety in pigments
            if (fire := safety.beside.combustible) is not None and fire.words != _known_fire(catalogue)
        ],
    )


def _of_working(
    catalogue: Catalogue, derived: Derived, pigments: Sequence[tuple[Thing, Safety]]
) -> Iterator[Gap]:
    yield _gap(
        "density",
        "No density, so the wet paint counts as all pigment",
        "The wet level is judged on the powder itself, which is stricter.",
        [(each, "") for each in catalogue.pigments if derived.pigments[each.id].paint.density is None],
    )
    yield _gap(
        "milder",
        "No milder pigment of like hue was found",
        "Do without, or buy it as a paste.",
        [
            (each, "")
            for each, safety in pigments
            if not safety.milder and safety.dry and safety.dry["bench"].level != "keep-it-damp"
        ],
    )


def _known_fire(catalogue: Catalogue) -> str:
    return catalogue.advice.combustible.known if catalogue.advice else ""
