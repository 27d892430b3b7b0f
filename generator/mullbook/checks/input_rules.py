"""MB0xx: what is wrong with a question asked on the command line, or with the program itself."""

from __future__ import annotations

from mullbook.checks.codes import Rule

CRASH = "MB009"
UNKNOWN_FORMULA = "MB001"
BAD_INPUT = "MB002"
NOT_FOUND = "MB003"
NO_FOLDER = "MB004"
NO_ENTRIES = "MB005"
NOT_OURS = "MB006"
NO_RULE = "MB007"
THERE_ALREADY = "MB040"
OVERDUE = "MB020"
NOT_WHOLE = "MB021"
WORDS_DIFFER = "MB030"
WORDS_LACKING = "MB031"

input_rules: tuple[Rule, ...] = (
    Rule(
        UNKNOWN_FORMULA,
        "no such formula",
        "error",
        "Only formulas of the registry show their working.",
        "mullbook work cvpc oil_absorption=60 density=3.2",
        "mullbook work cpvc oil_absorption=60 density=3.2",
    ),
    Rule(
        BAD_INPUT,
        "wrong input to a formula",
        "error",
        "A formula takes named values in its own units.",
        "mullbook work cpvc oil=60",
        "mullbook work cpvc oil_absorption=60..70 density=3.2",
    ),
    Rule(
        NOT_FOUND,
        "nothing of that name",
        "error",
        "Names, old names, C.I. names and numbers, CAS numbers and formulas are looked up.",
        "mullbook show rawumbr",
        "mullbook show raw umber",
    ),
    Rule(
        NO_FOLDER,
        "folder or file that is not there",
        "error",
        "Entries, schemas and templates are read from the project's folder.",
        "mullbook check in an empty folder",
        "mullbook --root my-mullbook check",
    ),
    Rule(
        NO_ENTRIES,
        "no entries",
        "error",
        "A check that had nothing to check must not look like a clean one.",
        "mullbook check notes (a folder without entries)",
        "mullbook check entries/pigments",
    ),
    Rule(
        NOT_OURS,
        "folder that holds other files",
        "error",
        "A run replaces its folder whole. What somebody else put there would be lost.",
        "mullbook build --to ~/Documents",
        "mullbook build --to ~/Documents/mullbook-site",
    ),
    Rule(
        NO_RULE,
        "no such rule",
        "error",
        "Every problem names its rule by a code, and only those codes can be explained.",
        "mullbook explain MB999",
        "mullbook explain MB401",
    ),
    Rule(
        OVERDUE,
        "safety review overdue when a copy is given out",
        "error",
        "A copy outlives the day it was made. What nobody looked at again in time is not handed on unmarked.",
        "mullbook pack --to stick, when a review was due last month",
        "mullbook pack --to stick --overdue-anyway (every page then says so)",
    ),
    Rule(
        NOT_WHOLE,
        "copy that is not as it was packed",
        "error",
        "A page that lost a line on a bad stick looks like a sound one; digests tell them apart.",
        "mullbook pack --verify stick, when one of its files was edited",
        "mullbook pack --verify stick, fresh from the one who packed it",
    ),
    Rule(
        WORDS_DIFFER,
        "sentence that loses a figure in another language",
        "error",
        "What stands in braces is filled in. A translation without it would drop a number or a name.",
        'de.yaml: `review-by: "bald wieder ansehen"`, where English has {date}',
        'de.yaml: `review-by: "wieder ansehen bis {date}"`',
    ),
    Rule(
        WORDS_LACKING,
        "sentence missing in a language",
        "warning",
        "On paper a sentence in another language stands marked, never silently, and no figure is lost in it.",
        "mullbook print card raw umber --lang de, when de.yaml has no `card.waste`",
        "mullbook words de (lists what is missing, ready to be filled in)",
    ),
    Rule(
        THERE_ALREADY,
        "file that is there already",
        "error",
        "What somebody wrote is never overwritten.",
        "mullbook new pigment raw-umber (twice)",
        "mullbook new pigment lane-umber",
    ),
    Rule(
        CRASH,
        "the program broke",
        "error",
        "A fault of ours: it is reported, and the other checks still run.",
        "(a fault in a rule)",
        "(report it, with the entry)",
    ),
)
