"""Reports: the mark stands under the place, the order is that of the places, other programs can read them."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from mullbook.text.problem import Place, Problem, Span, mistake
from mullbook.text.report import WIDEST, as_annotations, as_json, as_text, summary
from mullbook.text.yaml_text import read_text


def problem(line: int, column: int, end: int, path: str = "a.yaml", code: str = "MB204") -> Problem:
    return mistake(code, "wrong", Place(path, Span(line, column, line, end)))


def marked(line: str, column: int, end: int) -> tuple[str, str]:
    text = as_text([problem(1, column, end)], {"a.yaml": line + "\n"})
    source, marks = text.splitlines()[1:3]
    return source, marks


def test_a_report_reads_like_this() -> None:
    text = "id: a\nhue: ornage\n"
    place = Place("a.yaml", Span(2, 6, 2, 12))
    first = Place("a.yaml", Span(1, 1, 1, 3))
    found = mistake(
        "MB204",
        "`hue` is wrong",
        place,
        "did you mean `orange`?",
        example="hue: orange\nx: y",
        related=(first,),
    )
    assert as_text([found], {"a.yaml": text}) == (
        "a.yaml:2:6: error MB204: `hue` is wrong.\n"
        "  2 | hue: ornage\n"
        "    |      ^^^^^^\n"
        "  hint: Did you mean `orange`?\n"
        "  example: hue: orange\n"
        "           x: y\n"
        "  see also: a.yaml:1:1\n"
        "\n"
        "1 problem (1 error) in 1 file\n"
    )


@pytest.mark.parametrize(
    ("line", "column", "end", "source", "marks"),
    [
        ("hue: red", 6, 9, "  1 | hue: red", "    |      ^^^"),
        ("a:\tred", 4, 7, "  1 | a:    red", "    |       ^^^"),
        ("名: 黄土", 4, 6, "  1 | 名: 黄土", "    |     ^^^^"),
        ("e\u0301: x", 5, 6, "  1 | e\u0301: x", "    |    ^"),
        ("a: ", 4, 4, "  1 | a: ", "    |    ^"),
        ("a", 9, 12, "  1 | a", "    |  ^"),
        ("a: b\x1b[31mc", 5, 6, "  1 | a: b\ufffd[31mc", "    |     ^"),
    ],
)
def test_the_mark_stands_under_the_place(line: str, column: int, end: int, source: str, marks: str) -> None:
    assert marked(line, column, end) == (source, marks)


@given(st.integers(0, 400), st.integers(1, 300), st.sampled_from(["x", "黄", "\t"]))
def test_a_long_line_is_cut_around_the_place(before: int, length: int, filler: str) -> None:
    line = filler * before + "Q" * length + filler * 200
    source, marks = marked(line, before + 1, before + length + 1)
    assert len(source) <= WIDEST + 10
    assert len(marks) <= WIDEST + 10
    assert "^" in marks
    if filler == "x":
        start = marks.index("^")
        assert source[start] == "Q"
        assert source[start : start + marks.count("^")] == "Q" * marks.count("^")


def test_problems_come_in_the_order_of_their_places_and_once() -> None:
    found = [
        problem(10, 1, 2),
        problem(9, 1, 2),
        problem(2, 1, 2, "b.yaml"),
        problem(9, 1, 2),
        problem(2, 5, 6),
    ]
    places = [(each["path"], each["line"], each["column"]) for each in json.loads(as_json(found))]
    assert places == [("a.yaml", 2, 5), ("a.yaml", 9, 1), ("a.yaml", 10, 1), ("b.yaml", 2, 1)]


def test_the_last_line_counts() -> None:
    warning = Problem("MB901", "warning", "odd", Place("b.yaml"))
    assert summary([]) == "no problems"
    assert (
        summary([problem(1, 1, 2), problem(2, 1, 2), warning])
        == "3 problems (2 errors, 1 warning) in 2 files"
    )
    assert summary([warning]) == "1 problem (1 warning) in 1 file"


def test_json_has_every_key_always() -> None:
    (record,) = json.loads(as_json([Problem("MB114", "error", "Empty.", Place("a.yaml"))]))
    empty = dict.fromkeys(["line", "column", "end_line", "end_column", "hint", "example"])
    told = {"code": "MB114", "severity": "error", "message": "Empty.", "path": "a.yaml", "related": []}
    assert record == told | empty


def test_annotations_are_escaped() -> None:
    found = Problem("MB204", "error", "100% wrong\nreally: a,b", Place("a:b,c.yaml", Span(2, 6, 2, 9)))
    assert as_annotations([found]) == (
        "::error file=a%3Ab%2Cc.yaml,line=2,endLine=2,col=6,endColumn=8,title=MB204"
        "::100%25 wrong%0Areally: a,b\n"
    )
    bare = Problem("MB114", "warning", "x", Place("a.yaml"))
    assert as_annotations([bare]) == "::warning file=a.yaml,title=MB114::x\n"


def test_colour_is_only_for_who_asks() -> None:
    found = [problem(1, 1, 2)]
    assert "\x1b[" in as_text(found, {}, colour=True)
    assert "\x1b[" not in as_text(found, {})


@given(st.text(max_size=60))
def test_any_broken_text_can_be_reported_without_control_signs(text: str) -> None:
    document = read_text(text, "a.yaml")
    shown = as_text(document.problems, {"a.yaml": document.text}).replace("\n", "")
    assert shown.isprintable() or "\u200d" in shown
    assert as_annotations(document.problems).count("\n") == len(set(document.problems))
    json.loads(as_json(document.problems))
