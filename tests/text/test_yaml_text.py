"""The strict reader: values, spans, and a problem in words for everything it refuses."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
import yaml
from hypothesis import example, given, settings
from hypothesis import strategies as st

from mullbook.text import events
from mullbook.text.problem import Span
from mullbook.text.quick import quick_data
from mullbook.text.screening import LINE_BREAK
from mullbook.text.yaml_text import Document, read_file, read_text

PARSER_JARGON = (
    "mapping",
    "scalar",
    "token",
    "flow ",
    "block",
    "anchor",
    "alias",
    "stream",
    "context",
    "<",
    "%r",
)


def read(text: str) -> Document:
    return read_text(text, "entry.yaml")


def said(text: str) -> list[tuple[str, str]]:
    return [(problem.code, str(problem.place).removeprefix("entry.yaml:")) for problem in read(text).problems]


def at(text: str, span: Span) -> str:
    assert span.line == span.end_line
    return LINE_BREAK.split(text)[span.line - 1][span.column - 1 : span.end_column - 1]


@pytest.fixture(params=["c", "python"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> None:
    chosen = yaml.SafeLoader if request.param == "python" else getattr(yaml, "CSafeLoader", yaml.SafeLoader)
    monkeypatch.setattr(events, "LOADER", chosen)


@pytest.mark.parametrize(
    ("written", "value"),
    [
        ("true", True),
        ("false", False),
        ("null", None),
        ("", None),
        ("3", 3),
        ("-0.5", -0.5),
        ("5e-3", 0.005),
        ("1.5E+2", 150.0),
        ("15850:1", "15850:1"),
        ("077", "077"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        (".5", ".5"),
        ("5.", "5."),
        ("+5", "+5"),
        ("3,2", "3,2"),
        ("no", "no"),
        ("Yes", "Yes"),
        ("True", "True"),
        ("~", "~"),
        ("NULL", "NULL"),
        ("2026-11-25", "2026-11-25"),
        ("12:30:45", "12:30:45"),
        ("=", "="),
        ("'77491'", "77491"),
        ('"true"', "true"),
        ("''", ""),
        ("٣", "٣"),
    ],
)
def test_only_json_words_and_numbers_are_typed(written: str, value: object, loader: None) -> None:
    document = read(f"key: {written}\n")
    assert document.data == {"key": value}
    assert type(document.data["key"]) is type(value)
    assert document.problems == ()


@pytest.mark.parametrize(
    ("text", "problems"),
    [
        ("note: foo: bar\n", [("MB106", "1:10")]),
        ("a: b\nfoo\nc: d\n", [("MB106", "2:1")]),
        ("a: 'b\nc: d\n", [("MB106", "1:4")]),
        ('a: "b\nc: d\n', [("MB106", "1:4")]),
        ('a: "\\q"\n', [("MB106", "1:5")]),
        ("a: [b, c\nd: e\n", [("MB106", "1:4")]),
        ("a: {b: 1, c: 2\nd: 3\n", [("MB106", "1:4")]),
        ("a: {b: 1 c: 2}\n", [("MB106", "1:4")]),
        ("a:\n  b: 1\n c: 2\n", [("MB106", "3:2")]),
        ("a: 'b' c\n", [("MB106", "1:8")]),
        ("a: @x\n", [("MB106", "1:4")]),
        ("a: - b\n", [("MB106", "1:4")]),
        ("a: > text\n", [("MB106", "1:6")]),
        ("a: b\na: c\n", [("MB107", "2:1")]),
        ("a: {b: 1, c: 2, b: 3}\n", [("MB107", "1:17")]),
        ("a: &x b\n", [("MB108", "1:4")]),
        ("a: *x\n", [("MB108", "1:4")]),
        ("<<: b\n", [("MB109", "1:1")]),
        ("a: !!str 1\n", [("MB110", "1:4")]),
        ("a: !!python/object:os.system x\n", [("MB110", "1:4")]),
        ("%YAML 1.1\n---\na: b\n", [("MB110", "1:1")]),
        ("a: .inf\n", [("MB111", "1:4")]),
        ("a: NaN\n", [("MB111", "1:4")]),
        ("a: [-Infinity]\n", [("MB111", "1:5")]),
        ("a: 1234567890123456\n", [("MB112", "1:4")]),
        ("a: 1e999\n", [("MB112", "1:4")]),
        ("a: 1e-999\n", [("MB112", "1:4")]),
        ("", [("MB114", "1:1")]),
        ("# nothing yet\n", [("MB114", "1:1")]),
        ("---\n", [("MB114", "1:1")]),
        ("a: b\n---\nc: d\n", [("MB115", "2:1")]),
        ("- a\n- b\n", [("MB116", "1:1")]),
        ("just words\n", [("MB116", "1:1")]),
        ("1: a\n", [("MB117", "1:1")]),
        ("true: a\n", [("MB117", "1:1")]),
        ("[a, b]: c\n", [("MB117", "1:1")]),
        ("{a: b}: c\n", [("MB117", "1:1")]),
        ("a:\n\tb: c\n", [("MB105", "2:1")]),
        ("a:\n  \tb: c\n", [("MB105", "2:3")]),
        ("a:\n\u00a0\u00a0b: c\n", [("MB105", "2:1")]),
        ("a:\tb\n", [("MB105", "1:3")]),
        ("a: b\t\tc\td\n", [("MB105", "1:5"), ("MB105", "1:8")]),
        ("a: 'b\tc'\n", [("MB105", "1:6")]),
        ("a: b\t\r\nc: d\n", [("MB105", "1:5")]),
        ("a: b # c\td\n", [("MB105", "1:9")]),
        ("a: b\u0007c\n", [("MB104", "1:5")]),
        ("a: b\u2028c\n", [("MB104", "1:5")]),
        ("a: b\u202ec\n", [("MB104", "1:5")]),
        ("a: b\u00adc\n", [("MB104", "1:5")]),
        ("a: \ud800\n", [("MB104", "1:4")]),
    ],
)
def test_what_is_refused_has_its_code_at_its_place(text: str, problems: list[tuple[str, str]]) -> None:
    assert said(text) == problems


@pytest.mark.parametrize(
    "text", ["a: 'b\n", "a: b: c\n", "a: [b\n", "a: b\nc\nd: e\n", "a: @b\n", "a: |x\n", "%A\n"]
)
def test_syntax_errors_use_our_words_with_either_parser(text: str, loader: None) -> None:
    (problem,) = read(text).problems
    assert problem.code == "MB106"
    assert problem.hint
    assert problem.place.span is not None
    assert not any(word in problem.message.lower() for word in PARSER_JARGON)


def test_all_problems_of_a_file_come_at_once(loader: None) -> None:
    text = "a: &x 1\na: 2\nb: .nan\nc: {d: 1, d: 2}\n7: e\n"
    assert [code for code, _ in said(text)] == ["MB108", "MB107", "MB111", "MB107", "MB117"]


def test_a_doubled_key_names_the_first_and_keeps_its_value() -> None:
    document = read("hue: red\nname: x\nhue: {deep: blue}\n")
    (problem,) = document.problems
    assert [str(place) for place in problem.related] == ["entry.yaml:1:1"]
    assert document.data == {"hue": "red", "name": "x"}
    assert ("hue", "deep") not in document.spans


@pytest.mark.parametrize(
    "bomb",
    [
        "[" * 300,
        "[" * 200_000,
        "{a: " * 100_000,
        "- " * 100_000,
        "a:\n" + "".join(" " * depth + "- \n" for depth in range(1, 400)),
        "- ? " * 100_000,
    ],
)
def test_a_nesting_bomb_is_refused(bomb: str) -> None:
    codes = {code for code, _ in said(bomb)}
    assert codes <= {"MB106", "MB113", "MB117"}
    assert codes


def test_nesting_is_allowed_to_the_limit_and_no_further(loader: None) -> None:
    deep = events.MOST_DEPTH - 1
    assert said("a: " + "[" * deep + "]" * deep) == []
    assert said("a: " + "[" * (deep + 1) + "]" * (deep + 1)) == [("MB113", f"1:{4 + deep}")]


def test_an_alias_bomb_does_not_go_off() -> None:
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}, *a{n - 1}]" for n in range(1, 30)]
    document = read("\n".join(lines))
    assert {problem.code for problem in document.problems} == {"MB108", "MB118"}


def test_a_flood_of_problems_is_cut_off() -> None:
    problems = read("".join(f"{n}: x\n" for n in range(1000))).problems
    assert len(problems) == 101
    assert problems[-1].code == "MB118"


def test_too_much_text_is_refused_unread() -> None:
    assert [code for code, _ in said("a: b\n" * 2_000_000)] == ["MB102"]


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_places_count_characters_whatever_the_line_ends_and_mark(end: str, mark: str, loader: None) -> None:
    text = end.join(["name: Ocre brûlée 黄土 𝔘 x", "physical:", "  density: {value: 3.2, unit: g/cm3}", ""])
    document = read(mark + text)
    assert document.problems == ()
    assert document.spans[("name",)].value == Span(1, 7, 1, 7 + len("Ocre brûlée 黄土 𝔘 x"))
    unit = document.spans[("physical", "density", "unit")]
    assert at(document.text, unit.value) == "g/cm3"
    assert unit.key is not None and at(document.text, unit.key) == "unit"
    assert document.spans[("physical",)].value == Span(3, 3, 3, 37)


def test_text_blocks_and_missing_values_end_where_the_eye_sees_it(loader: None) -> None:
    document = read("a: >-\n  one\n  two\n\n\nb:\nc: 1\n")
    assert document.data == {"a": "one two", "b": None, "c": 1}
    assert document.spans[("a",)].value == Span(1, 4, 3, 6)
    assert document.spans[("b",)].value == Span(6, 3, 6, 3)
    assert document.spans[()].value == Span(1, 1, 7, 5)


def test_place_falls_back_to_the_nearest_parent() -> None:
    document = read("a:\n  b: [x, y]\n")
    assert str(document.place(("a", "b", 1))) == "entry.yaml:2:10"
    assert str(document.place(("a", "b", 7))) == "entry.yaml:2:6"
    assert str(document.place(("a", "z"), key=True)) == "entry.yaml:1:1"
    assert str(document.place(("nowhere",))) == "entry.yaml:1:1"
    assert str(read("- a: b: c").place(("a",))).startswith("entry.yaml")


def test_a_file_is_read(tmp_path: Path) -> None:
    path = tmp_path / "entry.yaml"
    path.write_bytes(b"\xef\xbb\xbfname: br\xc3\xbbl\xc3\xa9\r\n")
    assert read_file(path).data == {"name": "brûlé"}


@pytest.mark.parametrize(
    ("raw", "code", "place"),
    [
        (b"a: b\nname: br\xfbl\xe9e\n", "MB103", ":2:9"),
        (b"\xff\xfea\x00:\x00 \x00b\x00", "MB103", ":1:1"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "MB103", ":1:1"),
        (b"a: \xed\xa0\x80\n", "MB103", ":1:4"),
        (b"x" * 10_000_000, "MB102", ":1:1"),
        (b"", "MB114", ":1:1"),
    ],
)
def test_a_file_that_is_no_text_of_ours_is_refused(raw: bytes, code: str, place: str, tmp_path: Path) -> None:
    path = tmp_path / "entry.yaml"
    path.write_bytes(raw)
    (problem,) = read_file(path).problems
    assert (problem.code, str(problem.place)) == (code, f"{path}{place}")


def test_what_is_no_file_is_a_problem(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    (tmp_path / "loop").symlink_to("loop")
    for path in (
        tmp_path,
        tmp_path / "missing",
        tmp_path / "pipe",
        tmp_path / "loop",
        "a\0b",
        "x" * 5000,
        "",
    ):
        assert [problem.code for problem in read_file(path).problems] == ["MB101"], path


def test_a_link_may_not_lead_outside(tmp_path: Path) -> None:
    (tmp_path / "entries").mkdir()
    (tmp_path / "secret").write_text("a: b\n")
    (tmp_path / "entries" / "inside.yaml").write_text("a: b\n")
    (tmp_path / "entries" / "good.yaml").symlink_to("inside.yaml")
    (tmp_path / "entries" / "bad.yaml").symlink_to("../secret")
    (tmp_path / "entries" / "folder").symlink_to(tmp_path)
    root = tmp_path / "entries"
    assert read_file(root / "good.yaml").data == {"a": "b"}
    assert [problem.code for problem in read_file(root / "bad.yaml").problems] == ["MB101"]
    assert [problem.code for problem in read_file(root / "folder" / "secret", root).problems] == ["MB101"]


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_one_may_not_read_is_a_problem(tmp_path: Path) -> None:
    path = tmp_path / "entry.yaml"
    path.write_text("a: b\n")
    path.chmod(0)
    assert [problem.code for problem in read_file(path).problems] == ["MB101"]


WORDS = "a|1|.inf|é|黄|b: |<<: |&x |*x|!t |{a: b}|[a, b]|# c|'x'"
SIGNS = ": |- |? |\n|\n  |\r\n|\t|'|\"|[|]|{|}|,|>-|%|#|---|...|\ufeff|\u2028|\\|@"
yaml_like = st.lists(st.sampled_from([*WORDS.split("|"), *SIGNS.split("|"), "|"]), max_size=40).map("".join)


@settings(max_examples=600, deadline=None)
@given(st.one_of(yaml_like, st.text()))
@example("? ")
@example("a: !<x> b")
@example("\ufeff\ufeffa: b")
def test_no_text_ever_raises_and_every_place_lies_in_the_text(text: str) -> None:
    for chosen in (yaml.SafeLoader, events.LOADER):
        kept, events.LOADER = events.LOADER, chosen
        try:
            document = read(text)
        finally:
            events.LOADER = kept
        assert (document.data is not None) or document.problems
        lines = LINE_BREAK.split(document.text)
        places = [problem.place.span for problem in document.problems]
        for span in [*places, *(spans.value for spans in document.spans.values())]:
            assert span is not None
            assert 1 <= span.line <= len(lines) + 1
            assert (span.line, span.column) <= (span.end_line, span.end_column)


@settings(max_examples=600, deadline=None)
@given(yaml_like)
@example("a: [" * 19 + "]" * 19)
@example("a: " + "[" * 19 + "]" * 19)
@example("a: " + "[" * 20 + "]" * 20)
@example("--- \na: b\n...\n")
def test_the_quick_reader_and_the_slow_one_agree(text: str) -> None:
    slow = events.EventReader(text, "entry.yaml", [])
    data = slow.read()
    quick = quick_data(text)
    assert repr(quick) == repr(None if slow.problems else data)


plain = st.from_regex(r"[A-Za-zé黄𝔘][A-Za-z0-9éü黄𝔘 .()/-]{0,20}[A-Za-zé]", fullmatch=True)
trees = st.recursive(
    plain,
    lambda inner: st.one_of(
        st.lists(inner, min_size=1, max_size=4), st.dictionaries(plain, inner, min_size=1, max_size=4)
    ),
    max_leaves=12,
)


@settings(max_examples=150, deadline=None)
@given(st.dictionaries(plain, trees, min_size=1, max_size=4), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_the_text_at_a_span_is_the_value(data: dict[str, object], end: str, flow: bool) -> None:
    text = yaml.safe_dump(
        data, allow_unicode=True, width=10_000, line_break=end, default_flow_style=flow or None
    )
    document = read(text)
    assert document.problems == ()
    assert document.data == data
    for pointer, spans in document.spans.items():
        value: object = data
        for step in pointer:
            value = value[step]  # type: ignore[index]
        if isinstance(value, str):
            assert at(text, spans.value).strip("'\"") == value
        if spans.key is not None:
            assert at(text, spans.key).strip("'\"? ") == pointer[-1]
