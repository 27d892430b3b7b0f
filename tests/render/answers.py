"""What a right answer to each of the sixteen questions holds: part by part, with words, links and figures."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Needs:
    """What one part of an answer must show: words, links, worked figures."""

    part: str
    words: tuple[str, ...] = ()
    links: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()


ANSWERS: dict[str, tuple[str, tuple[Needs, ...]]] = {
    "paste-too-thin": (
        "My paste is too thin.",
        (
            Needs("stage", ("before the let-down",), ("systems/acrylic-dispersion.html",)),
            Needs(
                "before",
                ("pour the clear liquid off", "sieve it wet", "never thicken a grinding paste with gel"),
            ),
            Needs("after", ("below ph 8", "thin the thickener", "thirty minutes", "measure again")),
            Needs("pvc", ("lifts the pvc from",), (), ("pvc-now", "pvc-more")),
            Needs("ladder", ("dispersant", "what the per cent is of"), (), ("dose-active", "dose-total")),
        ),
    ),
    "stiffens-overnight": (
        "It stiffened overnight, or went like cottage cheese.",
        (
            Needs("which", ("thixotropy", "dispersant", "ph fell", "salt", "lives in it", "it dried")),
            Needs("stir", ("stir with a knife",)),
            Needs("drop", ("10 g", "one drop")),
            Needs("ph", ("ph 8 to 10",), ("studio-tests/ph-test.html",)),
            Needs("salt", ("1 to 2 ms/cm",), ("guides/crush-sieve-wash.html#salts",)),
            Needs("smell", ("discard",)),
            Needs("lost", ("coagulum strained out is waste",), ("guides/clean-up.html",)),
        ),
    ),
    "paint-chalks": (
        "My paint chalks when it is rubbed.",
        (
            Needs("pvc", ("above 1 it chalks",), (), ("critical-oil", "critical-acrylic", "reduced")),
            Needs("film", ("10 °c",)),
            Needs("ground", ("size the wall first",)),
            Needs("wet-batch", ("5 g of binder", "another 5 g"), ("workbench.html",)),
            Needs("finished", ("weak size or a fixative", "more pigment makes it worse")),
            Needs("limewash", ("too thick", "too much pigment"), ("systems/fresco-limewash.html",)),
            Needs("test", (), ("studio-tests/rub-test.html",)),
        ),
    ),
    "paint-cracks": (
        "It cracks.",
        (
            Needs("when", ("mud-crack", "film crack", "while it dries", "weeks or years")),
            Needs("mud", ("swelling clay", "thinner"), (), ("porosity",)),
            Needs("film", ("brittle", "dried cold", "zinc"), ("studio-tests/flex-test.html",)),
            Needs("remedy", ("a mud-crack wants less pigment", "wants less binder")),
        ),
    ),
    "how-much-binder": (
        "How much binder for 20 g?",
        (
            Needs(
                "needs",
                ("true density", "the system", "target pvc", "solids"),
                ("pigments/yellow-ochre.html",),
            ),
            Needs("grams", ("range comes from",), (), ("b25", "b35", "b50", "b35gum", "fixed")),
            Needs("check", ("so 50 % would chalk",), (), ("oil-critical", "dispersion-critical")),
            Needs("stop", ("rub it with a black cloth",), ("studio-tests/rub-test.html",)),
        ),
    ),
    "how-many-tubes": (
        "How many 37 or 40 ml tubes will it fill?",
        (
            Needs("volume", ("mass over density",), (), ("binder", "volume")),
            Needs("loss", ("five to ten per cent",)),
            Needs("air", ("air makes the pot look fuller",), ("studio-tests/density-cup.html",), ("frothy",)),
            Needs(
                "tubes",
                ("the remainder goes into a jar", "full tubes and"),
                (),
                ("tubes37", "tubes40", "small-binder", "small-volume", "small"),
            ),
            Needs("headspace", ("75 to 80 %", "folded"), (), ("fill30",)),
        ),
    ),
    "which-mask": (
        "Which mask do I need?",
        (
            Needs("remove", ("buy it as paste", "wet it", "glove box", "extraction", "hand the dry step")),
            Needs(
                "kind",
                ("p100 or p3", "ffp3", "n95", "fit-tested", "stubble", "powered hood", "store it clean"),
            ),
            Needs(
                "not-masks",
                ("surgical masks and face cloths are not respirators", "solvent, ammonia", "hot wax"),
            ),
            Needs("children", ("adult population", "fit test and training")),
            Needs("stop", ("lead, chromate, arsenic, cadmium powder, asbestos: not in a studio",)),
        ),
    ),
    "wash-and-settle": (
        "Can I wash this earth, and how long do I let it settle?",
        (
            Needs("may", ("dissolves or swells",), ("guides/before-the-hammer.html",)),
            Needs(
                "times",
                ("21 s", "55 s", "4.6 min", "74 min", "29 s", "22 s", "cold water is thicker"),
                ("methods.html#settling_time", "washing.html#waits"),
                ("q75", "q45", "q20", "q5", "g45", "h45", "cold"),
            ),
            Needs("washes", ("ms/cm",), ("studio-tests/soluble-matter.html",), ("n", "after")),
            Needs("water", ("soluble arsenic, acid and sulphate", "no soil and into no sink")),
            Needs("sorting", ("keep it damp",)),
        ),
    ),
    "will-they-live-together": (
        "Is this pigment all right in lime, or with ultramarine, cadmium or vermilion?",
        (
            Needs("verdict", ("mechanism", "medium", "documented damage"), ("compatibility.html",)),
            Needs(
                "lime",
                ("strongly alkaline", "prussian blue", "cadmiums are disputed"),
                ("studio-tests/lime-test.html",),
            ),
            Needs("pairs", ("never darkens in oil in practice", "is sure to blacken", "copper and arsenic")),
            Needs("medium", ("oil closes round each grain", "water lets them touch")),
            Needs("test", ("1 g of pigment in 10 ml of putty",), ("studio-tests/sulfur-pair-test.html",)),
        ),
    ),
    "rinse-water": (
        "Can I pour the rinse water away?",
        (
            Needs("never", ("soil, gutter, storm drain, septic tank",)),
            Needs("wipe", ("scrape and wipe", "dry the sludge"), ("guides/clean-up.html#buckets",)),
            Needs(
                "metals",
                ("cadmium, cobalt, chromium, nickel, manganese, barium, lead and copper", "hazardous waste"),
                ("safety/waste.html",),
                ("leach-pb",),
            ),
            Needs("clear", ("nobody has shown which metals stay dissolved",)),
            Needs("who", ("sewer authority", "safety office", "septic tank")),
            Needs("lime", ("stand open", "students do not neutralise with acid")),
        ),
    ),
    "found-rock": (
        "What is in this rock I found?",
        (
            Needs("stop", (), ("guides/before-the-hammer.html#never-break",)),
            Needs("tests", ("cannot tell arsenic-bearing", "fizzes", "56 false negatives"), (), ("lump",)),
            Needs("wording", ("no red flag found",)),
            Needs("lab", ("xrf", "x-ray diffraction", "cannot find asbestos")),
            Needs(
                "handling",
                ("wet, contained", "no children", "silica is assumed"),
                ("pigments/unknown-stone.html",),
            ),
        ),
    ),
    "who-can-use-it": (
        "Can students, pregnant people or children use it?",
        (
            Needs("children", ("no dry pigment", "airborne dust", "grades 7 to 12", "check the text")),
            Needs("under-18", ("enclosed or above",), ("guides/schools-and-teaching.html",)),
            Needs(
                "pregnancy",
                (
                    "lead, cadmium, cobalt and mercury",
                    "breast milk",
                    "4.5 µg",
                    "manganese, borax and solvents",
                ),
            ),
            Needs("asthma", ("isothiazolinones",)),
            Needs("private", ("do not ask who is pregnant", "no reason is asked")),
            Needs("assessment", ("in private", "physician")),
        ),
    ),
    "what-goes-on-the-label": (
        "What goes on the label?",
        (
            Needs(
                "always",
                (
                    "colour index",
                    "binder",
                    "egg, milk, gluten",
                    "batch number",
                    "volume",
                    "do not spray, sand or heat",
                ),
            ),
            Needs("sale", ("toxicologist", "poison centre", "permit"), ("safety/rulesets.html",)),
            Needs("size", ("10 by 10 mm", "check the text on the day of printing")),
            Needs("allergens", ("isothiazolinones", "15 mg of mit", "a tenth of that")),
            Needs("never", ("meets this or that standard",)),
            Needs("draft", ("no classification in law", "signature")),
        ),
    ),
    "smells-or-swells": (
        "It smells, it is mouldy, or the tube swelled.",
        (
            Needs("which", ("bacteria", "mould", "metal flake", "carbonate", "hydrogen", "carbon dioxide")),
            Needs("never", ("more preservative in a spoiled batch",)),
            Needs("discard", ("mark it spoiled",), ("guides/clean-up.html#paint-waste",)),
            Needs("source", ("clean the kit",)),
            Needs("preservative", ("at its own ph",), ("additives/sodium-benzoate.html",)),
        ),
    ),
    "colour-changed": (
        "The colour changed when I added binder, or when it dried.",
        (
            Needs("wet-dry", ("judge colour dry",)),
            Needs(
                "index", ("refractive index", "glassy in oil"), ("hiding.html",), ("chalk-oil", "chalk-air")
            ),
            Needs("flocculation", ("rub a half-dry film",), ("faults/flocculation.html",)),
            Needs("indicator", ("red in acid",), ("pigments/madder-lake.html",)),
            Needs("alkali", ("prussian blue browns in alkali",), ("pigments/prussian-blue.html",)),
            Needs("swatch", ("black and white card", "retained standard")),
        ),
    ),
    "mix-scale-substitute": (
        "Can I use these two in one tube, scale this up, or put another pigment in?",
        (
            Needs("pair", ("test first",), ("compatibility.html",)),
            Needs("pvc", ("volumes add, masses do not",), (), ("blend", "blend-critical")),
            Needs("ladder", ("10 g, then 100 g",), ("guides/high-speed-disperser.html",), ("tip-slab",)),
            Needs("substitute", ("same volume",), (), ("same-volume",)),
            Needs("hazards", ("add up what each part carries",), ("safety/index.html",)),
            Needs("log", ("which two, in which medium",), ("guides/keeping-records.html",)),
        ),
    ),
}
"""Question to how it is asked and what its page must hold: the sixteen, with all that a right answer has."""
