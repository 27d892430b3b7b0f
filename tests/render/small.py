"""A small catalogue with what was derived from it, all made up, to see what is published of it."""

from __future__ import annotations

from typing import Any

from mullbook import load
from mullbook.derive.results import (
    Because,
    BinderStart,
    Derived,
    DerivedPigment,
    DustLimit,
    FoundClass,
    Paint,
    Part,
    Safety,
    Verdict,
)
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import Quantity, Range, Working

BOOK = {"source": "a-book-1900", "at": "p. 1", "basis": "published"}
GUESS = {"basis": "from-memory"}

LEVELS = ("open-bench", "keep-it-damp", "enclosed", "paste-only", "leave-it-shut")
POLICY: dict[str, Any] = {
    "id": "policy",
    "name": "Policy",
    "edition": "1",
    "basis": "common-practice",
    "checked": "2026-01-02",
    "why": "a test",
    "assumptions": [],
    "levels": [{"id": each, "name": each.replace("-", " ").capitalize(), "means": each} for each in LEVELS],
    "amounts": [],
    "unlisted_dust": {"inhalable": 10, "respirable": 4, "source": "a-book-1900", "at": "p. 2"},
    "bands": [],
    "no_limit_found": {"bench": "keep-it-damp", "batch": "keep-it-damp", "drum": "enclosed"},
    "not_searched": {"bench": "enclosed", "batch": "paste-only", "drum": "paste-only"},
    "unknown_share": 0.01,
    "at_least": [],
    "wet_paint": {
        "pvc": 0.4,
        "binder_density": 1.1,
        "not_classified": "open-bench",
        "classified": "keep-it-damp",
        "not_known": "keep-it-damp",
        "strict": "paste-only",
        "strict_hazards": [],
        "strict_categories": [],
        "strict_also": [],
        "why": "a test",
    },
    "waste": {},
    "waste_rules": [],
    "actions": {},
    "heating": [],
    "sanding": [],
    "spraying": [],
    "persons": [{"id": "child", "name": "a child", "because": "dust", "elements": ["Mn"], "share": 0.001}],
    "before_opening": {},
    "before_opening_product": [],
    "forbidden_words": [],
}
RULESET: dict[str, Any] = {
    "id": "rules",
    "kind": "classification",
    "name": "Rules",
    "jurisdiction": "EU",
    "edition": "Rules of 2020",
    "source": "a-book-1900",
    "checked": "2026-01-02",
    "mixture_rules": [],
    "statements": [],
    "elements": [],
}
SOURCE: dict[str, Any] = {
    "id": "a-book-1900",
    "title": 'A book, and "more"',
    "kind": "book",
    "year": 1900,
    "publisher": "Müller & Söhne",
    "read_as": "part",
    "read": "two pages",
    "checked": "2026-01-03",
}
GROUP: dict[str, Any] = {
    "id": "umberite-compounds",
    "name": "Umberite compounds",
    "kind": "group",
    "hazards": {
        "status": "classified",
        "searched": ["a-book-1900"],
        "classes": [
            {
                "class": "stot-repeated",
                "category": "1",
                "statement": "H372",
                "place": "EU",
                "standing": "harmonised",
                **BOOK,
            }
        ],
    },
    "limits": [
        {
            "jurisdiction": "EU",
            "list": "EU indicative OELV",
            "type": "twa",
            "averaging": "8 h",
            "fraction": "inhalable",
            "value": {"value": 0.2, "unit": "mg/m3", **BOOK},
            "expressed_as": "Mn",
            "scope": "umberite and its compounds (as Mn)",
            "checked": "2026-01-02",
        }
    ],
}
UMBERITE: dict[str, Any] = {
    "id": "umberite",
    "name": "Umberite",
    "formula": "MnO2",
    "cas": [{"number": "1313-13-9", **BOOK}],
    "member_of": ["umberite-compounds"],
    "density": {"min": 4.5, "unit": "g/cm3", **BOOK},
    "hazards": {"status": "searched-none-found", "searched": ["a-book-1900"]},
}
CLAY: dict[str, Any] = {"id": "clay", "name": "=Clay", "aliases": ["Tonerde"]}
PIGMENT: dict[str, Any] = {
    "id": "test-umber",
    "name": "Test umber",
    "aliases": ["test-umber", "PBr7", "Umbra grünlich", "-terre\nd'ombre"],
    "colour_index": {"names": ["PBr 7"], "numbers": ["77492"], **GUESS},
    "hue": "brown",
    "family": "natural-earth",
    "constituents": [
        {
            "substance": "umberite",
            "share": {"low": 0.1, "high": 0.224, "unit": "fraction", **BOOK},
            "role": "colourant",
        },
        {"substance": "clay", "share": {"min": 0.7, "unit": "fraction", **GUESS}, "role": "extender"},
    ],
    "physical": {
        "oil_to_grind": {
            "low": 95,
            "high": 97,
            "unit": "g/100g",
            **BOOK,
            "also": [{"value": 92.3, "unit": "g/100g", "basis": "calculated", "source": "a-book-1900"}],
        },
        "water_wetting": {"value": "wets", "basis": "common-practice"},
    },
    "colour": {"kind": "measured", "lab": [17.71, 6, 11.17], **{**BOOK, "basis": "dataset"}},
    "suitability": [
        {"binder": "an-oil", "verdict": "suits", "grade": "documented", "mechanism": "it dries", **BOOK}
    ],
}
BARE: dict[str, Any] = {"id": "unknown-powder", "name": "Unknown powder", "hue": "grey"}
OIL: dict[str, Any] = {
    "id": "an-oil",
    "name": "An oil",
    "kind": "drying-oil",
    "solids": {"value": 1, "unit": "fraction", **BOOK},
    "density_dry": {"low": 0.93, "high": 0.94, "unit": "g/cm3", **BOOK},
    "target": {"by": "oil-to-grind", "why": "a test"},
    "allergens": [{"name": "nuts", **GUESS}],
}
ACRYLIC: dict[str, Any] = {
    "id": "a-dispersion",
    "name": "A dispersion",
    "kind": "dispersion",
    "target": {"by": "none", "why": "a test"},
}
THICKENER: dict[str, Any] = {
    "id": "a-thickener",
    "name": "A thickener",
    "role": "thickener",
    "doses": [
        {"range": {"low": 0.5, "high": 2, "unit": "percent", **GUESS}, "of": "product-on-total"},
        {
            "range": {"max": 5, "unit": "percent", **BOOK},
            "of": "active-on-pigment",
            "when": 'clay, or "loam"',
        },
    ],
    "hazards": {
        "status": "classified",
        "classes": [
            {
                "class": "skin-sensitisation",
                "category": "1",
                "statement": "H317",
                "place": "EU",
                "standing": "supplier-consensus",
                **BOOK,
            }
        ],
    },
    "not_for": [{"person": "asthma-or-sensitised", "because": "it sensitises"}],
}


def working(result: Range | None) -> Working:
    return Working("f", "F", "f", (), "fraction", "a-book-1900", result=result)


def safety_of_umber() -> Safety:
    limit = DustLimit(
        value=0.892857,
        reckoned=0.892857,
        on_inhalable_scale=0.892857,
        fraction="inhalable",
        jurisdiction="EU",
        list="EU indicative OELV",
        driver="umberite",
        remembered=False,
        working=working(Range(0.892857, 0.892857)),
    )
    lasting = FoundClass(
        hazard="stot-repeated", category="2", statement="H373", text="May harm.", place="EU", why="a rule"
    )
    return Safety(
        status="classified",
        searched=("a-book-1900",),
        classes=(lasting,),
        statements=("H373",),
        signal_word="Warning",
        pictograms=("GHS08",),
        dust_limits=(limit,),
        shown_limit=limit,
        limit_status="found",
        dry={
            "bench": Verdict(level="enclosed", reasons=()),
            "batch": Verdict(level="enclosed", reasons=()),
            "drum": Verdict(level="paste-only", reasons=()),
        },
        wet=Verdict(level="keep-it-damp", reasons=()),
        heating=Because(id="no", because="fume"),
        sanding=Because(id="only-extracted", because="dust"),
        spraying=Because(id="no", because="mist"),
        waste=Because(id="collect-and-ask", because="manganese"),
        not_for=(Because(id="age-12-and-under", because="dust"),),
        first_aid=("Eyes: rinse.", "Skin: wash."),
    )


def derived_umber() -> DerivedPigment:
    shares = (
        Part(substance="clay", name="=Clay", role="extender", share=Range(0.7, 1.0)),
        Part(
            substance="umberite",
            name="Umberite",
            role="colourant",
            share=Range(0.1, 0.224),
            groups=("umberite-compounds",),
            elements={"Mn": 0.63193, "O": 0.36807},
        ),
    )
    oil = BinderStart(
        binder="an-oil", verdict="suits", pvc=Range(0.2311, 0.234567), mass=working(Range(95.0, 97.0))
    )
    dispersion = BinderStart(binder="a-dispersion", mass=working(None))
    paint = Paint(
        density=Quantity(unit="g/cm3", basis="calculated", value=2.987654),
        critical=working(Range(0.2438123, 0.247654)),
        critical_from="grind-quantity",
        binders=(dispersion, oil),
    )
    return DerivedPigment(id="test-umber", parts=shares, paint=paint, safety=safety_of_umber(), hex="#3a2a1f")


def derived_bare() -> DerivedPigment:
    paint = Paint(density=None, critical=working(None), critical_from=None)
    return DerivedPigment(id="unknown-powder", parts=(), paint=paint, safety=Safety(status="not-known"))


def small() -> tuple[Catalogue, Derived]:
    """The catalogue and what was derived from it."""
    made = (
        ("pigment", PIGMENT),
        ("pigment", BARE),
        ("substance", GROUP),
        ("substance", UMBERITE),
        ("substance", CLAY),
        ("binder", OIL),
        ("binder", ACRYLIC),
        ("additive", THICKENER),
        ("source", SOURCE),
    )
    held = load.catalogue(load.entity(kind, data) for kind, data in made)
    rules = load.catalogue(
        [load.build(load.RULESETS["studio-policy"], POLICY), load.entity("ruleset", RULESET)]
    )
    catalogue = Catalogue(
        pigments=held.pigments,
        substances=held.substances,
        binders=held.binders,
        additives=held.additives,
        sources=held.sources,
        policies=rules.policies,
        classifications=rules.classifications,
    )
    thickener = catalogue.additive["a-thickener"]
    derived = Derived(
        pigments={"test-umber": derived_umber(), "unknown-powder": derived_bare()},
        substances={},
        products={
            "an-oil": Safety(
                status="searched-none-found",
                searched=("a-book-1900",),
                wet=Verdict(level="open-bench", reasons=()),
            ),
            "a-dispersion": Safety(status="not-known"),
            "a-thickener": Safety(
                status="classified", declared=thickener.hazards.classes, statements=("H317",)
            ),
        },
        used_by={"a-book-1900": ("test-umber", "umberite")},
    )
    return catalogue, derived
