"""MB708, MB709: a statement belongs to its class and category, and each part was checked with the whole."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from mullbook.checks.codes import Rule
from mullbook.checks.context import Check, EntryContext, Finding, records
from mullbook.checks.days import day_of
from mullbook.text.yaml_text import Pointer

HALF_A_YEAR = 183
SENSITISING = ("1", "1A", "1B")
OF_CLASS: dict[str, dict[str, tuple[str, ...]]] = {
    "acute-toxicity-oral": {"1": ("H300",), "2": ("H300",), "3": ("H301",), "4": ("H302",)},
    "acute-toxicity-dermal": {"1": ("H310",), "2": ("H310",), "3": ("H311",), "4": ("H312",)},
    "acute-toxicity-inhalation": {"1": ("H330",), "2": ("H330",), "3": ("H331",), "4": ("H332",)},
    "skin-corrosion-irritation": {
        **dict.fromkeys(("1", "1A", "1B", "1C"), ("H314",)),
        "2": ("H315",),
    },
    "eye-damage-irritation": {"1": ("H318",), **dict.fromkeys(("2", "2A", "2B"), ("H319", "H320"))},
    "respiratory-sensitisation": dict.fromkeys(SENSITISING, ("H334",)),
    "skin-sensitisation": dict.fromkeys(SENSITISING, ("H317",)),
    "germ-cell-mutagenicity": {"1A": ("H340",), "1B": ("H340",), "2": ("H341",)},
    "carcinogenicity": {"1A": ("H350", "H350i"), "1B": ("H350", "H350i"), "2": ("H351",)},
    "reproductive-toxicity": {
        **dict.fromkeys(("1A", "1B"), ("H360", "H360D", "H360F", "H360FD", "H360Df", "H360Fd")),
        "2": ("H361", "H361d", "H361f", "H361fd"),
        "lactation": ("H362",),
    },
    "stot-single": {"1": ("H370",), "2": ("H371",), "3": ("H335", "H336")},
    "stot-repeated": {"1": ("H372",), "2": ("H373",)},
    "aspiration": {"1": ("H304",)},
    "aquatic-acute": {"1": ("H400",)},
    "aquatic-chronic": {"1": ("H410",), "2": ("H411",), "3": ("H412",), "4": ("H413",)},
    "flammable-solid": {"1": ("H228",), "2": ("H228",)},
    "water-reactive": {"1": ("H260",), "2": ("H261",), "3": ("H261",)},
    "flammable-liquid": {"1": ("H224",), "2": ("H225",), "3": ("H226",), "4": ("H227",)},
    "self-heating": {"1": ("H251",), "2": ("H252",)},
    "corrosive-to-metals": {"1": ("H290",)},
}
"""Statements of each class and category, as the UN system and the EU pair them; other classes are free."""


def _statement_of_its_class(context: EntryContext) -> Iterator[Finding]:
    for pointer, record in records(context, "class", "category", "statement"):
        yield from _of_class(context, pointer, str(record["class"]), record)
        for index, lesser in enumerate(record.get("lesser_categories") or ()):
            if {"category", "statement"} <= lesser.keys():
                place = (*pointer, "lesser_categories", index)
                yield from _of_class(context, place, str(record["class"]), lesser)


def _of_class(
    context: EntryContext, pointer: Pointer, hazard: str, record: Mapping[str, Any]
) -> Iterator[Finding]:
    of_class = OF_CLASS.get(hazard)
    if of_class is None:
        return
    category, statement = str(record["category"]), record["statement"]
    allowed = of_class.get(category)
    if allowed is None:
        yield Finding(
            f"The class {hazard} has no category {category}.",
            context.document.place((*pointer, "category")),
            hint=f"Its categories are {', '.join(of_class)}.",
        )
    elif statement not in allowed:
        yield Finding(
            f"{statement} is not a statement of {hazard}, category {category}.",
            context.document.place((*pointer, "statement")),
            hint=f"That category carries {' or '.join(allowed)}. One of the three is wrong: look it up.",
        )


def _parts_checked_with_the_whole(context: EntryContext) -> Iterator[Finding]:
    whole = day_of(context.data.get("checked"))
    if whole is None:
        return
    for pointer, record in records(context, "checked"):
        part = day_of(record["checked"]) if pointer else None
        if part is None:
            continue
        days = (whole - part).days
        if not 0 <= days <= HALF_A_YEAR:
            when = "after" if days < 0 else "more than half a year before"
            yield Finding(
                f"This was checked on {part}, {when} the whole entry, {whole}.",
                context.document.place((*pointer, "checked")),
                hint="The date of the whole says that every part of it was looked up about then.",
            )


ENTRY = (
    Check(
        Rule(
            "MB708",
            "part that was not checked with the whole",
            "error",
            "A limit looked up three years ago is old, however new the date of its entry.",
            "checked: 2026-11-25 on the entry, checked: 2023-05-02 on one of its limits",
            "checked: 2026-11-25 on both, after the limit was looked up again",
        ),
        _parts_checked_with_the_whole,
    ),
    Check(
        Rule(
            "MB709",
            "statement that does not belong to its class",
            "error",
            "One wrong digit turns a poison into an irritant; class, category and statement must agree.",
            'class: carcinogenicity, category: "2", statement: H350',
            'class: carcinogenicity, category: "2", statement: H351',
        ),
        _statement_of_its_class,
    ),
)
