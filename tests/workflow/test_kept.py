"""What a build made is used again where nothing has changed, never where anything has, never when torn."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from mullbook.workflow import Refused, Roots, kept, made, making
from tests.corpus.cases import good_roots


@pytest.fixture
def roots(tmp_path: Path) -> Roots:
    return good_roots(tmp_path)


@pytest.fixture
def no_reading(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever is made from here on was made before."""

    def refuse(_: Roots) -> None:
        raise AssertionError("the entries were read again")

    monkeypatch.setattr(making, "check", refuse)


def entry(roots: Roots) -> Path:
    return roots.entries / "pigments" / "invented-ochre.yaml"


def files(roots: Roots) -> list[Path]:
    return sorted(kept.folder_of(roots).glob(f"*{kept.ENDING}"))


def test_what_was_made_is_not_made_again(roots: Roots, request: pytest.FixtureRequest) -> None:
    first = made(roots)
    request.getfixturevalue("no_reading")
    again = made(roots)
    assert again == first
    assert list(again.files) == list(first.files)
    assert {type(each) for each in again.files.values()} == {str, bytes}


def retouch(path: Path) -> None:
    path.write_text(path.read_text("utf-8") + "\n", encoding="utf-8")


def another_entry(roots: Roots) -> None:
    (roots.entries / "pigments" / "other.yaml").write_text("id: other\n")


def one_entry_less(roots: Roots) -> None:
    entry(roots).unlink()


def a_renamed_entry(roots: Roots) -> None:
    entry(roots).rename(entry(roots).with_name("other.yaml"))


@pytest.mark.parametrize(
    "change",
    [
        lambda roots: retouch(entry(roots)),
        lambda roots: retouch(roots.schema / "pigment.schema.json"),
        another_entry,
        one_entry_less,
        a_renamed_entry,
    ],
)
def test_every_change_gives_another_key(roots: Roots, change: Callable[[Roots], None]) -> None:
    before = kept.key_of(kept.input_digests(roots))
    change(roots)
    assert kept.key_of(kept.input_digests(roots)) != before


def test_templates_and_the_program_itself_are_inputs(roots: Roots) -> None:
    names = "\n".join(kept.input_digests(roots))
    for name in (
        "macros.j2",
        "overrides/main.html",
        "javascripts/find.js",
        "render/pages.py",
        "science/paint.py",
    ):
        assert name in names
    assert ".pyc" not in names


def test_a_new_edition_of_a_library_gives_another_key(roots: Roots, monkeypatch: pytest.MonkeyPatch) -> None:
    digests = kept.input_digests(roots)
    before = kept.key_of(digests)
    monkeypatch.setattr("importlib.metadata.version", lambda library: "999" if library == "jinja2" else "1")
    assert kept.key_of(digests) != before


@pytest.mark.parametrize(
    "spoil",
    [
        lambda whole: b"",
        lambda whole: whole[:-1],
        lambda whole: whole[:200] + bytes([whole[200] ^ 1]) + whole[201:],
        lambda whole: b"0" * 64 + whole[64:],
        lambda whole: b"no line break",
    ],
    ids=["empty", "cut", "one bit", "digest", "other"],
)
def test_what_is_torn_is_made_anew_without_a_word(
    roots: Roots, spoil: Callable[[bytes], bytes], capsys: pytest.CaptureFixture[str]
) -> None:
    first = made(roots)
    (path,) = files(roots)
    path.write_bytes(spoil(path.read_bytes()))
    assert kept.recall(roots, path.stem) is None
    assert made(roots) == first
    assert kept.recall(roots, path.stem) == first
    assert capsys.readouterr() == ("", "")


def test_what_belongs_to_other_inputs_is_not_taken_for_these(roots: Roots) -> None:
    made(roots)
    (path,) = files(roots)
    path.rename(path.with_name(f"{'0' * 64}{kept.ENDING}"))
    assert kept.recall(roots, "0" * 64) is None


def test_only_the_newest_are_kept(roots: Roots) -> None:
    thing = kept.Made({"index.md": "x"}, {"checked": "not known"})
    for number in range(kept.MOST_KEPT + 3):
        kept.keep(roots, str(number), thing)
        os.utime(kept.folder_of(roots) / f"{number}{kept.ENDING}", (number, number))
    assert [path.stem for path in files(roots)] == [str(number) for number in range(3, kept.MOST_KEPT + 3)]


def test_nothing_half_written_is_left(roots: Roots) -> None:
    made(roots)
    assert [path for path in kept.folder_of(roots).parent.rglob("*") if path.suffix == kept.PART] == []


def test_a_folder_that_cannot_be_written_stops_nothing(roots: Roots) -> None:
    folder = kept.folder_of(roots)
    folder.parent.mkdir()
    folder.write_text("a file stands in the way")
    assert made(roots).files


def test_errors_are_told_each_time(roots: Roots) -> None:
    retouch(entry(roots))
    entry(roots).write_text(entry(roots).read_text("utf-8").replace("hue: yellow", "hue: yelow"), "utf-8")
    for _ in range(2):
        with pytest.raises(Refused, match="yelow"):
            made(roots)
    assert files(roots) == []


def test_an_entry_saved_while_pages_are_made_keeps_nothing(
    roots: Roots, monkeypatch: pytest.MonkeyPatch
) -> None:
    render = making.made_of

    def save_meanwhile(*given: object) -> kept.Made:
        retouch(entry(roots))
        return render(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(making, "made_of", save_meanwhile)
    made(roots)
    assert files(roots) == []
