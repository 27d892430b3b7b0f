"""What can be wrong with a studio's own folder: its rules, its register, its entries beside the book's."""

from __future__ import annotations

from mullbook.checks.codes import Rule

NO_SHEET = "MB041"
ROW_LENGTH = "MB220"
COLUMN = "MB222"
SLIP = "MB223"
HISTORY = "MB224"
SAME_JAR = "MB320"
TAKEN_ID = "MB321"
NOTHING_BELOW = "MB322"
MILDER = "MB740"
MILDER_RULE = "MB741"
PRIVATE = "MB742"
NOT_OF_THE_STUDIO = "MB840"
WHICH_PIGMENT = "MB841"
CONTRAST = "MB910"


def _rule(code: str, name: str, why: str, bad: str, good: str, *, severity: str = "error") -> Rule:
    return Rule(code, name, "error" if severity == "error" else "warning", why, bad, good)


studio_rules: tuple[Rule, ...] = (
    _rule(
        NO_SHEET,
        "table that cannot be read",
        "A register is read from .csv, .yaml and .xlsx; a torn file must not look like an empty shelf.",
        "register: register.ods",
        "register: register.csv",
    ),
    _rule(
        ROW_LENGTH,
        "row that does not fit the header",
        "With a mark too many, every cell behind it stands under the wrong heading.",
        "HL-1,raw umber,12,5,g (the comma is the delimiter)",
        'HL-1,raw umber,"12,5",g',
    ),
    _rule(
        COLUMN,
        "column missing or twice, quantity without unit",
        "Without a number on the jar and what is in it, a row tells nothing; nor does a bare quantity.",
        "pigment,quantity",
        "jar,pigment,quantity,unit",
    ),
    _rule(
        SLIP,
        "column that looks like a slip",
        "A column the program does not know is kept, but nothing is reckoned from it.",
        "jar,pigmnet",
        "jar,pigment",
        severity="warning",
    ),
    _rule(
        HISTORY,
        "line of a history that cannot be read",
        "A history is only ever added to. A line edited by hand cannot be told from one made up.",
        'register-history.jsonl: {"date": "2026-1',
        "the line as it was written, or the file from the last copy",
        severity="warning",
    ),
    _rule(
        SAME_JAR,
        "jar number twice",
        "Two jars under one number cannot be told apart, in the register or in a fire.",
        "HL-7 in two rows",
        "HL-7 and HL-8",
    ),
    _rule(
        TAKEN_ID,
        "own entry under an id of the book",
        "An override says what differs from an entry of the book; a second entry would hide it.",
        "entries/pigments/raw-umber.yaml in a studio's folder",
        "overrides/pigments/raw-umber.yaml",
    ),
    _rule(
        NOTHING_BELOW,
        "override of nothing, or of what a studio may not override",
        "An override changes an entry of the book; rules of the book are tightened in studio.yaml.",
        "overrides/pigments/rawumber.yaml",
        "overrides/pigments/raw-umber.yaml",
    ),
    _rule(
        MILDER,
        "override that makes a verdict milder",
        "A studio may ask for more than the book, never for less: who reads its card trusts it as they trust"
        " the book. Better knowledge goes into the book, with its source.",
        "overrides/pigments/cobalt-blue.yaml that leaves the cobalt out",
        "overrides/pigments/cobalt-blue.yaml that adds quartz found in the studio's lot",
    ),
    _rule(
        MILDER_RULE,
        "rule of a studio that is milder than the book's",
        "A rule that asks for less than holds anyway looks like leave to do so.",
        "at_least: keep-it-damp, pigments: [lead-white]",
        "at_least: leave-it-shut, pigments: [lead-white]",
    ),
    _rule(
        PRIVATE,
        "private words where pages would show them",
        "What is marked private stands on no page; a page cannot tell a name inside a sentence.",
        "summary: From the pit behind Ashdown's farm (with Ashdown among private_names)",
        "summary: From a private pit",
    ),
    _rule(
        NOT_OF_THE_STUDIO,
        "room, pigment or entry that the studio does not know",
        "A rule or a jar that names what is not there would count for nothing, unseen.",
        "rooms: [clasroom]",
        "rooms: [classroom]",
    ),
    _rule(
        WHICH_PIGMENT,
        "jar whose words lead to no pigment, or to several",
        "Until somebody says what is in it, it counts as a jar without a label and stands in quarantine.",
        "pigment: PBr 7 (umbers and siennas both)",
        "pigment: raw-umber",
        severity="warning",
    ),
    _rule(
        CONTRAST,
        "colours of the pages too near to each other",
        "A page that cannot be read across a bench under a bad lamp does not warn.",
        'accent: "#d0b090"',
        'accent: "#2f5d50"',
    ),
)
