"""MB7xx: silence is never safety, memory never makes a verdict milder, dates are kept."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from mullbook.checks.codes import Rule
from mullbook.checks.context import CatalogueContext, Check, EntryContext, Finding, records
from mullbook.checks.days import day_of
from mullbook.model.catalogue import LISTED
from mullbook.model.values import Hazards
from mullbook.text.problem import Place

A_YEAR = 366
DAYS = ("checked", "review_by", "in_force")


def _status_says_how(context: EntryContext) -> Iterator[Finding]:
    hazards = getattr(context.entity, "hazards", None)
    if not isinstance(hazards, Hazards) or "hazards" not in context.data:
        return
    pointer = ("hazards", "status")
    if hazards.status == "searched-none-found" and not hazards.searched:
        yield Finding(
            "It says that nothing was found, but not where anyone looked.",
            context.document.place(pointer),
            hint="Name the lists that were searched, or say not-known.",
            example="status: searched-none-found, searched: [clp-annex-vi-atp17]",
        )
    if hazards.classes and hazards.status != "classified":
        yield Finding(
            f"Classes are listed, yet the status is {hazards.status}.",
            context.document.place(pointer),
            example="status: classified",
        )
    if hazards.status == "classified" and not hazards.classes and not context.data.get("member_of"):
        yield Finding(
            "The status is classified, but no class is listed.",
            context.document.place(pointer),
            hint="List the classes, or say searched-none-found with the lists, or not-known.",
        )


def _memory_not_milder(context: EntryContext) -> Iterator[Finding]:
    heating = context.data.get("heating")
    if isinstance(heating, dict) and heating.get("basis") == "from-memory" and heating.get("action") != "no":
        yield Finding(
            "From memory, heating may only be refused, never allowed.",
            context.document.place(("heating", "action")),
            hint="Open a source that says it may be heated, or leave heating out: it then reads not known.",
        )
    for index, limit in enumerate(context.data.get("limits") or ()):
        yield from _remembered_limit(context, index, limit)
    for pointer, record in records(context, "standing", "basis"):
        if record["basis"] == "from-memory" and record["standing"] in LISTED:
            yield Finding(
                f"From memory, a class cannot be called {record['standing']}.",
                context.document.place((*pointer, "standing")),
                hint="A list's own entry takes the place of its group's: open the list, or say from-memory.",
                example="standing: from-memory",
            )


def _remembered_limit(context: EntryContext, index: int, limit: dict[str, Any]) -> Iterator[Finding]:
    if limit["value"]["basis"] != "from-memory":
        return
    same = ("jurisdiction", "type", "fraction", "expressed_as", "scope")
    for other in context.data["limits"]:
        published = other["value"]
        if published["basis"] == "from-memory" or any(other.get(key) != limit.get(key) for key in same):
            continue
        if _highest(limit["value"]) >= _lowest(published):
            yield Finding(
                "A remembered limit stands beside a published one that is as strict or stricter.",
                context.document.place(("limits", index, "value")),
                hint="Memory may only make a verdict stricter. Leave it out.",
            )
            return


def _lowest(value: dict[str, Any]) -> float:
    return float(value.get("value", value.get("low", value.get("min", 0))))


def _highest(value: dict[str, Any]) -> float:
    return float(value.get("value", value.get("high", value.get("max", math.inf))))


def _days_exist(context: EntryContext) -> Iterator[Finding]:
    for key in DAYS:
        for pointer, group in records(context, key):
            if isinstance(group[key], str) and day_of(group[key]) is None:
                yield Finding(
                    f"There is no day {group[key]} in the calendar.",
                    context.document.place((*pointer, key)),
                    hint="Look at the day and the month.",
                )


def _review_is_due_in_time(context: EntryContext) -> Iterator[Finding]:
    checked, review_by = day_of(context.data.get("checked")), day_of(context.data.get("review_by"))
    if checked is None or review_by is None:
        return
    days = (review_by - checked).days
    if not 0 < days <= A_YEAR:
        when = "not after the day" if days <= 0 else "more than a year after"
        yield Finding(
            f"The review is due on {review_by}, {when} it was checked, {checked}.",
            context.document.place(("review_by",)),
            hint="Safety data are looked up again at least once a year.",
            example='review_by: "2027-11-25"',
        )


def _overdue(context: CatalogueContext) -> Iterator[Finding]:
    today = context.catalogue.latest_check or ""
    for thing in context.catalogue.things:
        if thing.review_by and (thing.checked or "") < thing.review_by < today:
            yield Finding(
                f"The review of {thing.name} was due on {thing.review_by}.",
                context.place(thing.kind_name, thing.id, "review_by"),
                hint="Look its sources up again, then move checked and review_by on.",
            )


def _declared_is_explained(context: CatalogueContext) -> Iterator[Finding]:
    catalogue = context.catalogue
    if not context.is_whole("substance"):  # a broken substance may be the one that explains it
        return
    for pigment in catalogue.pigments:
        of_parts = {
            each.hazard
            for part in pigment.constituents
            if (substance := catalogue.substance.get(part.substance))
            for each in catalogue.classes_of(substance)
        }
        for index, declared in enumerate(pigment.declared_hazards):
            if declared.hazard not in of_parts:
                yield Finding(
                    f"{declared.statement} is declared, but no constituent explains it.",
                    context.place("pigment", pigment.id, "declared_hazards", index),
                    hint="Name the constituent it comes from, or give that substance the class.",
                )


def _rulesets_are_there(context: CatalogueContext) -> Iterator[Finding]:
    if not context.is_whole("ruleset"):
        return
    place = Place(f"{context.folder}/rulesets")
    for what, found, kind in (
        ("studio policy", context.catalogue.policies, "studio-policy"),
        ("classification ruleset", context.catalogue.classifications, "classification"),
    ):
        if not found:
            yield Finding(f"There is no {what}, so no verdict can be given.", place, example=f"kind: {kind}")
    for policy in context.catalogue.policies[1:]:
        yield Finding(
            "There are two studio policies, and only one can hold.",
            context.place("ruleset", policy.id, "kind"),
            hint="Keep the stricter one.",
            related=(context.place("ruleset", context.catalogue.policy.id, "kind"),),
        )


ENTRY = (
    Check(
        Rule(
            "MB701",
            "hazard status that does not say how it is known",
            "error",
            "An empty list of hazards must not be able to mean two things.",
            "status: searched-none-found, searched: []",
            "status: searched-none-found, searched: [clp-annex-vi-atp17]",
        ),
        _status_says_how,
    ),
    Check(
        Rule(
            "MB702",
            "memory that makes a verdict milder",
            "error",
            "What is only remembered may make a verdict stricter, never milder.",
            "heating: {action: ordinary-care, basis: from-memory}",
            'heating: {action: "no", basis: from-memory}',
        ),
        _memory_not_milder,
    ),
    Check(
        Rule(
            "MB703",
            "review not due within a year of the check",
            "error",
            "Safety data age; the date says when to look again.",
            "checked: 2026-11-25, review_by: 2026-01-01",
            "checked: 2026-11-25, review_by: 2027-11-25",
        ),
        _review_is_due_in_time,
    ),
    Check(
        Rule(
            "MB707",
            "day that does not exist",
            "error",
            "A card that is due on a day that never comes is never looked at again.",
            "review_by: 2027-02-30",
            "review_by: 2027-02-28",
        ),
        _days_exist,
    ),
)
CATALOGUE = (
    Check(
        Rule(
            "MB704",
            "review overdue",
            "warning",
            "A card on the wall with an old limit protects nobody.",
            "review_by: 2025-11-25, when others were checked in 2026",
            "review_by: 2027-11-25",
        ),
        _overdue,
    ),
    Check(
        Rule(
            "MB705",
            "declared hazard that nothing explains",
            "error",
            "Either a constituent is missing or the declaration is wrong.",
            "declared H350 on a pigment of chalk alone",
            "declared H350 on a pigment that holds a chromate",
        ),
        _declared_is_explained,
    ),
    Check(
        Rule(
            "MB706",
            "ruleset missing, or two that contradict",
            "error",
            "Without rules there is no verdict, and no verdict may look like a mild one.",
            "entries/rulesets without studio-policy.yaml",
            "entries/rulesets/studio-policy.yaml and eu-clp.yaml",
        ),
        _rulesets_are_there,
    ),
)
