"""Which tables are published, column by column."""

from __future__ import annotations

from mullbook.render.table_shared import FIRST_AID, MIXTURE_RULES
from mullbook.render.tables import ID, NAME, STATEMENTS, STATUS, Column, Table, ends, measured, number, text

DENSITY, SHARE, AIR, OIL = "_g_per_cm3", "_fraction", "_mg_per_m3", "_g_per_100g"
AND_STATE = "of the dry powder"


def _count(basis: str) -> Column:
    path = ("provenance", basis)
    return Column(f"facts_{basis}", path, f"Number of facts that are {basis.replace('_', ' ')}", "integer")


PIGMENTS = Table(
    "pigments",
    "Pigments and fillers",
    "pigments",
    (
        ID,
        NAME,
        text("aliases", "Old, foreign and trade names"),
        text("colour_index", "Colour Index generic names"),
        text("cas", "CAS registry numbers, its own or those of what colours it"),
        text("family", "Where it comes from"),
        text("hue", "Hue"),
        *measured("density", DENSITY, "Density", "g/cm3"),
        *measured("oil_absorption", OIL, "Oil absorption by rub-out, per 100 g of pigment", "g/100g"),
        *measured("oil_to_grind", OIL, "Oil to grind, per 100 g of pigment", "g/100g"),
        *measured("refractive_index", "", "Refractive index", "index"),
        *(
            number(f"colour_{name}", f"CIELAB {sign} {AND_STATE}", "1", "colour", "lab", place)
            for name, sign, place in (("lightness", "L*", "0"), ("a", "a*", "1"), ("b", "b*", "2"))
        ),
        text("colour_hex", f"Colour {AND_STATE} as sRGB", "colour", "hex"),
        text("colour_basis", "Colour: how well it is known", "colour", "basis"),
        *ends("cpvc", SHARE, "Critical pigment volume in linseed oil", "fraction", "derived", "cpvc"),
        text("cpvc_from", "rub-out, or grind-quantity (then a lower bound)", "derived", "cpvc", "from"),
        text("hazard_status", STATUS.means, "derived", "hazard_status"),
        text("lists_searched", "Lists searched for its constituents", "derived", "lists_searched"),
        text("hazard_statements", STATEMENTS.means, "derived", "hazard_statements"),
        text("signal_word", "Danger, Warning or none", "derived", "signal_word"),
        text("pictograms", "GHS pictograms", "derived", "pictograms"),
        number("dust_limit_mg_per_m3", "Limit on this dust", "mg/m3", "derived", "dust_limit", "value"),
        *(
            text(f"dust_limit_{key}", f"Limit on this dust: {means}", "derived", "dust_limit", key)
            for key, means in (
                ("fraction", "which part of the dust"),
                ("jurisdiction", "where it holds"),
                ("list", "the list it stands on"),
                ("driver", "the substance that makes it strict"),
            )
        ),
        text("dust_limit_status", "found, searched-none-found or not-known", "derived", "dust_limit_status"),
        text("level_dry_powder", "Control level, up to 50 g", "derived", "control_level", "dry_powder"),
        text("level_wet_paint", "Control level of the wet paint", "derived", "control_level", "wet_paint"),
        text("level_drum", "Control level over 1 kg", "derived", "control_level_drum"),
        *(
            text(key, f"{key.title()}: what may be done", "derived", "actions", key)
            for key in ("heating", "sanding", "spraying")
        ),
        text("waste", "Waste route", "derived", "waste"),
        text("not_for", "Persons this is not for", "derived", "not_for"),
        text("milder", "Milder pigments of like hue", "derived", "milder"),
        Column("first_aid", ("derived", "first_aid"), "If it goes wrong: row of first_aid", "integer"),
        *(_count(each) for each in ("published", "dataset", "calculated", "common_practice", "from_memory")),
    ),
    refers=(("first_aid", "first_aid"),),
)
CONSTITUENTS = Table(
    "constituents",
    "What pigments consist of",
    "pigments",
    (
        text("pigment", "Id of the pigment"),
        text("substance", "Id of the substance"),
        *ends("share", SHARE, "Share by mass", "fraction"),
        text("role", "colourant, extender or impurity"),
    ),
    inside=("constituents",),
    parent="pigment",
    key=(),
    refers=(("pigment", "pigments"), ("substance", "substances")),
)
BINDER_STARTS = Table(
    "binder_starts",
    "Where to start with a pigment in a binder",
    "pigments",
    (
        text("pigment", "Id of the pigment"),
        text("binder", "Id of the binder"),
        text("suitability", "suits, test-first, unsuitable or not-known"),
        *ends("pvc", SHARE, "Pigment volume to start from", "fraction"),
        *ends(
            "binder", "_g_per_100g", "Binder as supplied per 100 g of pigment", "g/100g", "binder_g_per_100g"
        ),
    ),
    inside=("derived", "binders"),
    parent="pigment",
    key=("pigment", "binder"),
    refers=(("pigment", "pigments"), ("binder", "binders")),
)
SUBSTANCES = Table(
    "substances",
    "Substances that pigments, binders and additives consist of",
    "substances",
    (
        ID,
        NAME,
        text("formula", "Chemical formula"),
        text("cas", "CAS registry numbers"),
        *measured("density", DENSITY, "Density", "g/cm3"),
        STATUS,
        STATEMENTS,
    ),
)
LIMITS = Table(
    "limits",
    "Workplace limits of substances, those of their groups among them",
    "substances",
    (
        text("substance", "Id of the substance"),
        text("jurisdiction", "Where it holds"),
        text("list", "The list it stands on"),
        text("type", "twa, stel or ceiling"),
        text("averaging", "Time it is averaged over"),
        text("fraction", "Which part of the dust: inhalable, respirable, total, fume or vapour"),
        *ends("limit", AIR, "Limit", "mg/m3", "value"),
        text("source", "Id of the source", "value", "source"),
        text("basis", "How well it is known", "value", "basis"),
        text("expressed_as", "Element the limit is reckoned as"),
        text("scope", "What it covers, as published"),
        Column("in_force", ("in_force",), "In force since", "date"),
        Column("checked", ("checked",), "Day it was checked", "date"),
    ),
    inside=("limits",),
    parent="substance",
    key=(),
    refers=(("substance", "substances"),),
)
PRODUCT = (
    text("aliases", "Other names"),
    text("summary", "What it is"),
    STATUS,
    STATEMENTS,
    text("lists_searched", "Lists searched for its constituents"),
    text("signal_word", "Danger, Warning or none"),
    text("pictograms", "GHS pictograms"),
    text("not_for", "Persons this is not for"),
)
BINDERS = Table(
    "binders",
    "Binders",
    "binders",
    (
        ID,
        NAME,
        text("kind", "Kind of binder"),
        *measured("solids", SHARE, "Solids by mass, as supplied", "fraction"),
        *measured("density_wet", DENSITY, "Density as supplied", "g/cm3"),
        *measured("density_dry", DENSITY, "Density of the dry binder", "g/cm3"),
        *measured("ph", "", "pH", "pH"),
        *measured("refractive_index", "", "Refractive index", "index"),
        *measured("binder_index", SHARE, "Binder index", "fraction"),
        *measured("film_forming_temperature", "_C", "Film-forming temperature", "C"),
        text("allergens", "Allergens"),
        *PRODUCT,
    ),
)
ADDITIVES = Table(
    "additives",
    "Additives",
    "additives",
    (
        ID,
        NAME,
        text("role", "What it does"),
        *measured("active", SHARE, "Active content by mass", "fraction"),
        *measured("density", DENSITY, "Density", "g/cm3"),
        text("stays_in_film", "Whether it stays in the film: yes, no or slowly"),
        *PRODUCT,
    ),
)
DOSES = Table(
    "doses",
    "How much of an additive, and of what it is a percentage",
    "additives",
    (
        text("additive", "Id of the additive"),
        number("dose_low_percent", "Dose, low end", "percent", "low"),
        number("dose_high_percent", "Dose, high end; empty where it is open", "percent", "high"),
        text("of", "What the percentage is of"),
        text("when", "When it applies"),
        text("source", "Id of the source"),
        text("basis", "How well it is known"),
    ),
    inside=("doses",),
    parent="additive",
    key=(),
    refers=(("additive", "additives"),),
)
HAZARDS = Table(
    "hazards",
    "Hazard classes with the place where each holds; those worked out are a draft, not a classification",
    "hazards",
    (
        text("kind", "pigment, binder, additive or substance"),
        text("entry", "Id of the entry"),
        text("class", "Hazard class"),
        text("category", "Category within the class"),
        text("statement", "Code of the hazard statement"),
        text("place", "Where it holds"),
        text("standing", "Who said so; worked-out: found by the mixture rules"),
        text("basis", "How well it is known"),
        text("source", "Id of the source"),
        text("why", "Place in the source, or the figures that gave it"),
        Column("rule", ("rule",), "The rule that gave it: row of mixture_rules", "integer"),
    ),
    key=(),
    refers=(("rule", "mixture_rules"),),
)
SOURCES = Table(
    "sources",
    "Sources",
    "sources",
    (
        ID,
        text("kind", "Kind of source"),
        text("title", "Title"),
        Column("year", ("year",), "Year of publication", "year"),
        text("publisher", "Publisher"),
        Column("used_by", ("used_by",), "Number of entries that cite it", "integer"),
    ),
)
EVIDENCE = (
    text("source", "Id of the source; empty where there is none"),
    text("at", "Place in the source"),
    text("basis", "How well it is known"),
)
PRACTICE = Table(
    "practice",
    "Practice: each sentence of the guides and questions; … stands for a figure worked out on the page",
    "practice",
    (
        text("kind", "guide or question"),
        text("entry", "Id of the entry"),
        text("part", "Part of its page"),
        text("say", "The sentence"),
        *EVIDENCE,
    ),
    key=(),
)
STUDIO_TESTS = Table(
    "studio_tests",
    "Tests a studio can make",
    "studio_tests",
    (
        ID,
        NAME,
        text("tells", "What it is for: powder, paste, paint, film or pair"),
        text("takes", "How long it takes"),
        text("needs", "What it needs"),
        text("steps", "What is done, in order"),
        text("accept", "What it should read"),
        text("can_claim", "What it can tell"),
        text("cannot_claim", "What it cannot tell"),
        text("sources", "Ids of its sources; the rest is common practice"),
    ),
)
FAULTS = Table(
    "faults",
    "Faults by what is seen, with their causes, the likeliest first",
    "faults",
    (
        text("fault", "Id of the fault"),
        text("name", "What is seen"),
        Column("place", ("place",), "Place of the cause, the likeliest first", "integer"),
        text("cause", "Cause"),
        text("check", "What is measured, and how"),
        text("yes_if", "The reading that says yes"),
        text("test", "Id of the studio test that tells it in full"),
        text("remedy", "What is done"),
        text("outcome", "mend, discard or live-with"),
        text("correction", "What the batch solver calls it"),
        *EVIDENCE,
    ),
    key=("fault", "place"),
    refers=(("test", "studio_tests"),),
)
TABLES = (
    PIGMENTS,
    FIRST_AID,
    CONSTITUENTS,
    BINDER_STARTS,
    SUBSTANCES,
    LIMITS,
    BINDERS,
    ADDITIVES,
    DOSES,
    MIXTURE_RULES,
    HAZARDS,
    STUDIO_TESTS,
    FAULTS,
    PRACTICE,
    SOURCES,
)
