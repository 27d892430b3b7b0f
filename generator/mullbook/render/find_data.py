"""The rows of the Find box, as small as they can be: a key that would be empty is left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from mullbook.derive.results import Derived, DerivedPigment, Part, Safety, Verdict
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment, Substance
from mullbook.model.values.policy import StudioPolicy
from mullbook.render.published import BENCH, cas_numbers
from mullbook.text.suggest import fold

Record = dict[str, Any]

COMMON = frozenset({"H", "C", "N", "O"})
"""Elements that tell nothing about a pigment."""
TRACE = 0.001
"""Share from which an element that the studio policy names is worth finding."""

ELEMENT_NAMES = {
    "Ag": "silver",
    "Al": "aluminium",
    "As": "arsenic",
    "Au": "gold",
    "B": "boron",
    "Ba": "barium",
    "Bi": "bismuth",
    "Br": "bromine",
    "C": "carbon",
    "Ca": "calcium",
    "Cd": "cadmium",
    "Ce": "cerium",
    "Cl": "chlorine",
    "Co": "cobalt",
    "Cr": "chromium",
    "Cu": "copper",
    "F": "fluorine",
    "Fe": "iron",
    "Hg": "mercury",
    "I": "iodine",
    "In": "indium",
    "K": "potassium",
    "Li": "lithium",
    "Mg": "magnesium",
    "Mn": "manganese",
    "Mo": "molybdenum",
    "N": "nitrogen",
    "Na": "sodium",
    "Nb": "niobium",
    "Ni": "nickel",
    "P": "phosphorus",
    "Pb": "lead",
    "Pr": "praseodymium",
    "S": "sulfur",
    "Sb": "antimony",
    "Se": "selenium",
    "Si": "silicon",
    "Sn": "tin",
    "Sr": "strontium",
    "Ti": "titanium",
    "U": "uranium",
    "V": "vanadium",
    "W": "tungsten",
    "Y": "yttrium",
    "Zn": "zinc",
    "Zr": "zirconium",
}
"""Names of the elements that pigments hold."""


OFTEN = ("binders", "not_for")
"""Keys of a row whose lists name the same few things again and again."""


def packed(rows: Iterable[Record]) -> Record:
    """The rows as they go into a file, where what many of them share stands once.

    Parameters: `rows`, as `find_rows` gives them. Returns `rows` without a `url` that kind and id tell and
    without `level_words`; `levels`, those words by level; for each key of `OFTEN` what its lists hold, of
    which a row then keeps the places.
    """
    levels: dict[str, str] = {}
    held: dict[str, dict[str, int]] = {key: {} for key in OFTEN}

    def one(row: Record) -> Record:
        if "level" in row:
            levels[row["level"]] = row["level_words"]
        said = {
            key: [held[key].setdefault(each, len(held[key])) for each in row[key]]
            for key in OFTEN
            if key in row
        }
        left_out = {"level_words", "url"} if row["url"] == _page(row["kind"], row["id"]) else {"level_words"}
        return {key: value for key, value in row.items() if key not in left_out} | said

    lines = [one(row) for row in rows]
    return {"rows": lines, "levels": levels, **{key: list(names) for key, names in held.items()}}


def _page(kind: str, entry: str) -> str:
    return f"{kind}s/{entry}.html"


def find_rows(catalogue: Catalogue, derived: Derived) -> list[Record]:
    """One row for each pigment, binder, additive and substance, each kind by name.

    Parameters: `catalogue` and what was `derived` from it. Returns rows with `id`, `url`, `name`, `kind`
    and, where they are known, `ci`, `words` (other names), `cas`, `formula`, `hue`, `family`, `level`,
    `level_words`, `hex`, `binders` (those it suits), `elements` and `not_for` (persons).
    """
    policy = catalogue.policy
    pigments = [_pigment(catalogue, each, derived.pigments[each.id]) for each in catalogue.pigments]
    on_pigments = {number for row in pigments for number in row.get("cas", ())}
    products: tuple[Binder | Additive, ...] = (*catalogue.binders, *catalogue.additives)
    return [
        *_by_name(pigments),
        *_by_name(_product(policy, each, derived.products[each.id]) for each in products),
        *_by_name(_substance(each, on_pigments) for each in catalogue.substances),
    ]


def found_elements(catalogue: Catalogue, derived: Derived) -> list[tuple[str, str]]:
    """The elements that pigments are found by: symbol and name, in order of name."""
    symbols = {symbol for row in find_rows(catalogue, derived) for symbol in row.get("elements", ())}
    return sorted(((each, ELEMENT_NAMES.get(each, each)) for each in symbols), key=lambda pair: pair[1])


def _by_name(rows: Iterable[Record]) -> list[Record]:
    return sorted(rows, key=lambda row: (row["kind"], row["name"].casefold(), row["id"]))


def _row(kind: str, entry: Pigment | Binder | Additive | Substance, **known: Any) -> Record:
    head = {"id": entry.id, "url": _page(entry.kind_name, entry.id), "name": entry.name, "kind": kind}
    return {**head, **{key: value for key, value in known.items() if value}}


def _pigment(catalogue: Catalogue, entry: Pigment, derived: DerivedPigment) -> Record:
    index = entry.colour_index
    codes = (*index.names, *(f"C.I. {each}" for each in index.numbers)) if index else ()
    colourants = [each for each in derived.parts if each.role == "colourant"]
    held = (catalogue.substance.get(each.substance) for each in colourants)
    return _row(
        "pigment",
        entry,
        ci=list(codes),
        words=other_names(entry.name, entry.aliases, codes),
        cas=cas_numbers(catalogue, entry),
        formula=list(dict.fromkeys(each.formula for each in held if each and each.formula)),
        hue=entry.hue,
        family=entry.family,
        **_level(catalogue.policy, derived.safety.dry.get(BENCH)),
        hex=derived.hex,
        binders=_lives_in(derived),
        elements=sorted({*_of_colourants(colourants), *_watched(catalogue.policy, derived.parts)}),
        not_for=_not_for(catalogue.policy, derived.safety),
    )


def _not_for(policy: StudioPolicy, safety: Safety, own: Iterable[str] = ()) -> list[str]:
    """Persons it is not for; where nothing is known of its hazards that is everyone there is a rule for."""
    if safety.status == "not-known":
        return [each.id for each in policy.persons]
    return sorted({*own, *(each.id for each in safety.not_for)})


def _lives_in(derived: DerivedPigment) -> list[str]:
    """Binders it suits: by its entry, and by its chemistry class where the entry says nothing."""
    by_class = derived.chemistry.binders
    return [
        each.binder
        for each in derived.paint.binders
        if "suits" in (each.verdict, by_class[each.binder].verdict if each.binder in by_class else None)
    ]


def _product(policy: StudioPolicy, entry: Binder | Additive, safety: Safety) -> Record:
    words = other_names(entry.name, entry.aliases)
    own = [each.person for each in entry.not_for]
    return _row(
        entry.kind_name,
        entry,
        words=words,
        **_level(policy, safety.wet),
        not_for=_not_for(policy, safety, own),
    )


def _substance(entry: Substance, on_pigments: set[str]) -> Record:
    """A CAS number on a jar means the pigment: a substance keeps only numbers that no pigment goes by."""
    return _row(
        "substance",
        entry,
        words=other_names(entry.name, entry.aliases),
        cas=[each.number for each in entry.cas if each.number not in on_pigments],
        formula=entry.formula,
    )


def other_names(name: str, aliases: Iterable[str], codes: Iterable[str] = ()) -> list[str]:
    """The aliases that are not the name or a code once more in another spelling.

    >>> other_names("Raw umber", ["raw-umber", "PBr7", "Umbra"], ["PBr 7"])
    ['Umbra']
    """
    known = {fold(name), *(fold(each) for each in codes)}
    return list({fold(each): each for each in aliases if fold(each) not in known}.values())


def _level(policy: StudioPolicy, verdict: Verdict | None) -> Record:
    if verdict is None:
        return {}
    return {"level": verdict.level, "level_words": policy.words(verdict.level).name}


def _of_colourants(parts: Iterable[Part]) -> Iterator[str]:
    for part in parts:
        yield from (each for each in part.elements if each not in COMMON)


def _watched(policy: StudioPolicy, parts: Iterable[Part]) -> Iterator[str]:
    """Elements the policy acts on that make up at least a trace of the powder."""
    held = list(parts)
    persons = (symbol for person in policy.persons for symbol in person.elements)
    floors = (floor.element for floor in policy.at_least if floor.element)
    for symbol in {*persons, *floors}:
        if sum(part.share.high * part.elements.get(symbol, 0.0) for part in held) >= TRACE:
            yield symbol
