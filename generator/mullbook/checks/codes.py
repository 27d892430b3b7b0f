"""The rules of text (MB1xx) and shape (MB2xx): what each code means, why, one bad and one good line."""

from __future__ import annotations

from dataclasses import dataclass

from mullbook.text.problem import Severity


@dataclass(frozen=True, slots=True)
class Rule:
    """A stable code with its name, the reason for it, and an example of each side."""

    code: str
    name: str
    severity: Severity
    why: str
    bad: str
    good: str


def _error(code: str, name: str, why: str, bad: str, good: str) -> Rule:
    return Rule(code, name, "error", why, bad, good)


text_rules: tuple[Rule, ...] = (
    _error(
        "MB101",
        "file cannot be read",
        "A missing file, a folder or a link that leads out of the entries cannot be checked or passed on.",
        "entries/pigments/caput.yaml -> /home/mia/caput.yaml",
        "entries/pigments/caput.yaml as a file of its own",
    ),
    _error(
        "MB102",
        "file too large",
        "An entry is a page of text. A file over 1 MB is something else and would hold up every check.",
        "a table of spectra pasted into an entry",
        "the few numbers the entry needs, with their source",
    ),
    _error(
        "MB103",
        "not UTF-8 text",
        "In any other encoding, accented letters turn into others on the next machine, and names get lost.",
        "terre br\N{REPLACEMENT CHARACTER}l\N{REPLACEMENT CHARACTER}e (saved as Windows-1252)",
        "terre brûlée (saved as UTF-8)",
    ),
    _error(
        "MB104",
        "character that cannot be seen",
        "Soft hyphens and zero-width spaces come with pasted text and make searches fail unseen.",
        "name: Caput<soft hyphen>mortuum",
        "name: Caput mortuum",
    ),
    _error(
        "MB105",
        "tab, or odd space as indentation",
        "YAML builds groups from indentation, and a tab, which nobody sees, has no agreed width.",
        "<tab>density: {value: 3.2}",
        "  density: {value: 3.2}",
    ),
    _error(
        "MB106",
        "text that cannot be read as keys and values",
        "A quote, bracket or colon in the wrong place changes all that follows, so reading stops there.",
        "note: Merck: see p. 12",
        'note: "Merck: see p. 12"',
    ),
    _error(
        "MB107",
        "key twice",
        "Of two values under one key most readers silently keep the last.",
        "hue: red\nhue: brown",
        "hue: brown",
    ),
    _error(
        "MB108",
        "anchor or alias",
        "A reader must see each value, and its source, where it stands; a reference hides both.",
        "density: &d {value: 3.2}\nbulk: *d",
        "density: {value: 3.2}\nbulk: {value: 3.2}",
    ),
    _error(
        "MB109",
        "merge key",
        "<< copies keys from elsewhere; what an entry says must stand in the entry.",
        "<<: *common",
        "family: mineral",
    ),
    _error(
        "MB110",
        "type tag or directive",
        "The schema alone says what type a value has; a tag can also make a reader run code.",
        "year: !!str 1942",
        "year: 1942",
    ),
    _error(
        "MB111",
        "not a usable number",
        "Infinity and not-a-number have no meaning for a measured quantity and no form in JSON.",
        "density: {value: .nan}",
        "leave density out, or give low and high",
    ),
    _error(
        "MB112",
        "number too large or too small",
        "Beyond 15 digits a number is rounded silently; so many digits mostly make a name: quote it.",
        "isbn: 9780486624280123456",
        'isbn: "9780486624280"',
    ),
    _error(
        "MB113",
        "nested too deep",
        "No entry needs more than a few levels; deeper nesting is a bracket never closed, or an attack.",
        "[[[[[[[[[[[[[[[[[[[[[[",
        "aliases: [colcothar, crocus martis]",
    ),
    _error(
        "MB114",
        "empty file",
        "An empty entry would make an empty page.",
        "# to be written",
        "id: caput-mortuum",
    ),
    _error(
        "MB115",
        "several documents",
        "The file name is the id of the one entry in it.",
        "id: a\n---\nid: b",
        "two files, a.yaml and b.yaml",
    ),
    _error(
        "MB116",
        "no keys at the left edge",
        "An entry is a set of keys with values.",
        "- caput mortuum",
        "id: caput-mortuum",
    ),
    _error(
        "MB117",
        "key that is not a word",
        "Keys are words of the schema; a number or a group as a key is a misplaced colon or bracket.",
        "12: red",
        "hue: red",
    ),
    _error(
        "MB118",
        "too many problems",
        "After a hundred problems the rest are mostly consequences of the first.",
        "a file with a tab in every line",
        "the first ones put right, then checked again",
    ),
    _error(
        "MB119",
        "cell of a table that does not end",
        "A quotation mark that never closes swallows the cells and rows behind it.",
        'HL-1,"raw umber,250,g',
        'HL-1,"raw umber",250,g',
    ),
)

shape_rules: tuple[Rule, ...] = (
    _error(
        "MB201",
        "unknown key",
        "A misspelt key would be left out of every page without a word.",
        "densty: {value: 3.2, unit: g/cm3}",
        "density: {value: 3.2, unit: g/cm3}",
    ),
    _error(
        "MB202",
        "missing key",
        "A fact without its unit, source or basis cannot be weighed by the reader.",
        "density: {value: 3.2}",
        "density: {value: 3.2, unit: g/cm3, source: gettens-stout-1942, at: p. 143, basis: published}",
    ),
    _error(
        "MB203",
        "wrong type",
        "A number written as text cannot be reckoned with.",
        'density: {value: "3,2"}',
        "density: {value: 3.2}",
    ),
    _error(
        "MB204",
        "not one of the words",
        "Filters, verdicts and pages know only the words of the vocabulary.",
        "hue: ornage",
        "hue: orange",
    ),
    _error(
        "MB205",
        "wrong unit",
        "Each field has one unit, so that numbers can be compared and formulas need not guess.",
        "density: {value: 3200, unit: kg/m3}",
        "density: {value: 3.2, unit: g/cm3}",
    ),
    _error(
        "MB206",
        "number out of bounds",
        "A share above 1 or a density below 0 is a slip of the pen or a percentage.",
        "share: {value: 75, unit: fraction}",
        "share: {value: 0.75, unit: fraction}",
    ),
    _error(
        "MB207",
        "text in the wrong form",
        "Ids, dates and registry numbers are looked up and compared letter by letter.",
        "id: Caput Mortuum",
        "id: caput-mortuum",
    ),
    _error(
        "MB208",
        "empty or overlong text",
        "An empty text makes an empty line on a page; an overlong one breaks a label.",
        'summary: ""',
        "summary: An iron oxide with a violet cast.",
    ),
    _error(
        "MB209",
        "too few or too many items",
        "An empty list says nothing, and a colour has exactly three coordinates.",
        "lab: [42.1, 18.3]",
        "lab: [42.1, 18.3, 9.7]",
    ),
    _error(
        "MB210",
        "item twice",
        "A list names each thing once.",
        "aliases: [colcothar, colcothar]",
        "aliases: [colcothar]",
    ),
    _error(
        "MB211",
        "keys that do not go together",
        "A value may rule out a key beside it: a colour that is described has no measured coordinates.",
        "colour: {kind: described, words: brown, lab: [40, 15, 12]}",
        "colour: {kind: described, words: brown}",
    ),
    _error(
        "MB212",
        "kind without a schema",
        "What has no schema cannot be checked, so it is not let through.",
        "entries/brushes/hog.yaml",
        "entries/binders/linseed-oil.yaml",
    ),
    _error(
        "MB213",
        "shape could not be checked",
        "A fault of the program, not of the entry: it is reported, and the other entries are still checked.",
        "(a fault in a schema)",
        "(report it, with the entry)",
    ),
    _error(
        "MB214",
        "not filled in yet",
        "A starter file is a form: what is still open in it is no fact, and no mistake either.",
        "name: FILL THIS IN",
        "name: Yellow earth 8",
    ),
)
