"""What an error in the entries is caught in: each net compares the catalogue with a table of its own.

The tests hold every net empty; the mutations ask which net a spoilt datum falls into.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from functools import cache

from mullbook.derive.composition import parts
from mullbook.derive.paint import paint_of
from mullbook.derive.results import Part, Safety
from mullbook.derive.safety import powder_safety, product_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.values import HazardClass
from tests.science.oracles import rows

SHORT = {
    "respiratory-sensitisation": "Resp. Sens.",
    "skin-sensitisation": "Skin Sens.",
    "germ-cell-mutagenicity": "Muta.",
    "carcinogenicity": "Carc.",
    "reproductive-toxicity": "Repr.",
    "stot-single": "STOT SE",
    "stot-repeated": "STOT RE",
    "aspiration": "Asp. Tox.",
    "aquatic-acute": "Aquatic Acute",
    "aquatic-chronic": "Aquatic Chronic",
    "flammable-solid": "Flam. Sol.",
    "water-reactive": "Water-react.",
    "flammable-liquid": "Flam. Liq.",
}
# Rows that an entry leaves out: the list's own note takes them away under a condition the entry states.
LEFT_OUT = {("mineral-spirits", "H340"), ("mineral-spirits", "H350")}
# Classes that stand in the list's column of specific limits, not in that of classes.
FROM_LIMITS = {("acetic-acid", "Eye Irrit. 2|H319"), ("ammonia-solution", "STOT SE 3|H335")}


def short(each: HazardClass) -> str:
    """A class as the EU list's short code writes it."""
    if each.hazard.startswith("acute-toxicity"):
        return f"Acute Tox. {each.category}"
    if each.hazard == "skin-corrosion-irritation":
        return f"Skin {'Irrit.' if each.category == '2' else 'Corr.'} {each.category}"
    if each.hazard == "eye-damage-irritation":
        return f"Eye {'Irrit.' if each.category == '2' else 'Dam.'} {each.category}"
    if each.category == "lactation":
        return "Lact."
    if each.hazard == "other":
        return {"H260": "Water-react. 1", "H261": "Water-react. 2"}.get(each.statement, each.statement)
    return f"{SHORT.get(each.hazard, each.hazard)} {each.category}"


@cache
def table(name: str) -> list[dict[str, str]]:
    """An oracle table, read once."""
    return rows(name)


def harmonised_of(catalogue: Catalogue, row: dict[str, str]) -> list[HazardClass]:
    """The EU classes that an entry takes from one row of the list."""
    return [
        each
        for each in catalogue.substance[row["substance"]].hazards.classes
        if (each.place, each.standing) == ("EU", "harmonised") and row["index_no"] in (each.at or "")
    ]


def harmonised(catalogue: Catalogue) -> Iterator[str]:
    """Rows of the EU list that an entry does not give exactly as printed."""
    for row in table("harmonised"):
        printed = {each for each in row["classes"].split("; ") if each}
        wanted = {each for each in printed if (row["substance"], each.split("|")[1]) not in LEFT_OUT}
        held = harmonised_of(catalogue, row)
        beside = {each for name, each in FROM_LIMITS if name == row["substance"]}
        if {f"{short(each)}|{each.statement}" for each in held} != wanted | beside:
            yield f"{row['substance']} {row['index_no']}"
        estimates = {each.hazard: each.estimate for each in held if each.estimate}
        stated = {
            {"oral": "acute-toxicity-oral", "inhalation": "acute-toxicity-inhalation"}[route.lower()]: float(
                ate
            )
            for route, ate in re.findall(r"(Oral|Inhalation): ATE = ([\d.]+)", row["specific"])
        }
        if estimates != stated:
            yield f"{row['substance']} estimates"


def australian(catalogue: Catalogue) -> Iterator[str]:
    """Rows of the Australian list that an entry does not give; H400 is told by its column beside H410."""
    for row in table("hcis"):
        held = {
            each.statement
            for each in catalogue.substance[row["substance"]].hazards.classes
            if each.source == "hcis-2022" and each.at == row["at"]
        }
        wanted = set(row["statements"].split("; ")) | ({"H400"} if row["acute"] == "yes" else set())
        if held != wanted:
            yield f"{row['substance']} {row['at']}"


def limits(catalogue: Catalogue) -> Iterator[str]:
    """Published limits that an entry does not give as printed."""
    for row in table("limits"):
        held = [
            each.value.range.low
            for each in catalogue.substance[row["substance"]].limits
            if each.value.range is not None
            and (each.jurisdiction, each.list, each.type, each.fraction, each.expressed_as or "")
            == tuple(row[key] for key in ("jurisdiction", "list", "type", "fraction", "expressed_as"))
        ]
        if not any(abs(value - float(row["value"])) < 1e-9 for value in held):
            yield f"{row['substance']} {row['list']} {row['type']} {row['value']}"
    for row in table("confirmed_limits"):
        found = [
            each
            for each in catalogue.substance[row["substance"]].limits
            if (each.list, each.jurisdiction, each.fraction)
            == (row["list"], row["jurisdiction"], row["fraction"])
        ]
        if not any(
            each.value.range is not None
            and each.value.range.low == float(row["value"])
            and (each.in_force or "") == row["in_force"]
            for each in found
        ):
            yield f"{row['substance']} {row['list']}"


def verdict_row(catalogue: Catalogue, thing: Pigment) -> dict[str, str]:
    """What is derived about one pigment, short enough to be read beside the last one."""
    found = parts(catalogue, thing.constituents)
    safety = powder_safety(catalogue, thing, found, paint_of(catalogue, thing, found).density)
    return {"entry": thing.id, **_of_safety(safety, found)}


def product_row(catalogue: Catalogue, name: str) -> dict[str, str]:
    """The same of a binder or an additive."""
    product = next(each for each in catalogue.products if each.id == name)
    return {
        "entry": name,
        **_of_safety(product_safety(catalogue, product), parts(catalogue, product.constituents)),
    }


def _of_safety(safety: Safety, found: Iterable[Part]) -> dict[str, str]:
    limits = (
        f"{each.value:.3g} {each.fraction} {each.jurisdiction} {each.driver}"
        for each in safety.dust_limits[:4]
    )
    screened = safety.beside.drain.contents if safety.beside.drain else {}
    return {
        "levels": " ".join(each.level for each in safety.dry.values()),
        "wet": safety.wet.level if safety.wet else "",
        "actions": " ".join(each.id for each in (safety.heating, safety.sanding, safety.spraying) if each),
        "waste": safety.waste.id if safety.waste else "",
        "statements": " ".join(
            sorted(
                {
                    f"{each.statement}@{each.place.replace(', ', '+')}"
                    for each in (*safety.classes, *safety.elsewhere)
                }
            )
        ),
        "not_for": " ".join(each.id for each in safety.not_for),
        "limits": "; ".join(limits),
        "elements": " ".join(f"{each}={content:.2g}" for each, content in screened.items()),
        "unknown": f"{safety.unknown_share:.2g}",
        "parts": " ".join(f"{each.substance}={each.share.low:.3g}-{each.share.high:.3g}" for each in found),
    }


@cache
def known_verdicts() -> dict[str, dict[str, str]]:
    """The rows of the last review, by entry."""
    return {row["entry"]: row for row in rows("verdicts")}


def verdicts(catalogue: Catalogue, of: Iterable[str] | None = None) -> Iterator[str]:
    """Entries whose verdicts differ from those last reviewed. `of` names the entries to look at, else all."""
    wanted = set(of) if of is not None else None
    for thing in catalogue.jars:
        if wanted is not None and thing.id not in wanted:
            continue
        row = (
            verdict_row(catalogue, thing) if isinstance(thing, Pigment) else product_row(catalogue, thing.id)
        )
        known = known_verdicts().get(thing.id)
        if known is None or any(known[key] != value for key, value in row.items()):
            yield thing.id


def reviewed(catalogue: Catalogue) -> Iterator[str]:
    """Entries whose numbers, classes or limits differ from those last reviewed.

    A check digit misses one error in six, and not every row of every list is in a table here.
    """
    known = {row["entry"]: row for row in table("reviewed")}
    for row in reviewed_rows(catalogue):
        before = known.get(row["entry"])
        if before is None or any(before[key] != value for key, value in row.items()):
            yield row["entry"]


def reviewed_rows(catalogue: Catalogue) -> Iterator[dict[str, str]]:
    """What stands in each entry that has numbers, classes or limits, short enough to be read."""
    for thing in (*catalogue.substances, *catalogue.pigments, *catalogue.products):
        hazards = thing.declared_hazards if isinstance(thing, Pigment) else ()
        if not isinstance(thing, Pigment) and thing.hazards is not None:
            hazards = thing.hazards.classes
        limits = () if isinstance(thing, Pigment) else thing.limits
        row = {
            "entry": f"{thing.kind_name} {thing.id}",
            "cas": " ".join(each.number for each in getattr(thing, "cas", ())),
            "classes": " ".join(f"{each.statement}:{each.category}@{each.place}" for each in hazards),
            "limits": " ".join(
                f"{each.jurisdiction}:{each.type}:{each.fraction}:{each.value.ends[0]:g}"
                for each in limits
                if each.value.ends[0] is not None
            ),
        }
        if row["cas"] or row["classes"] or row["limits"]:
            yield row


NETS: dict[str, Callable[[Catalogue], Iterable[str]]] = {
    "EU list": harmonised,
    "Australian list": australian,
    "limits as printed": limits,
    "as last reviewed": reviewed,
}
"""Nets that look at the whole catalogue quickly; verdicts are asked for the entries concerned."""
