"""While entries are edited: the page of the edited entry at once, in the end everything, nothing mixed."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from mullbook.workflow import Live, Refused, Roots, made
from tests.corpus.cases import good_roots

OWN = "pigments/invented-ochre.md"


@pytest.fixture
def roots(tmp_path: Path) -> Roots:
    return good_roots(tmp_path)


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[Roots]:
    """How often the second process was asked for; the tests do its work themselves."""
    calls: list[Roots] = []
    monkeypatch.setattr(Live, "_have_the_rest_made", lambda _, roots: calls.append(roots))
    return calls


def edit(roots: Roots, old: str, new: str, path: str = "pigments/invented-ochre.yaml") -> None:
    entry = roots.entries / path
    text = entry.read_text("utf-8")
    assert old in text
    entry.write_text(text.replace(old, new), encoding="utf-8")


def begun(roots: Roots) -> Live:
    live = Live()
    first, missing = live.pages(roots)
    assert set(missing) == set(first.files)
    live.finish(roots.entries, roots.templates)
    return live


def test_the_edited_page_comes_first_and_then_all_others(roots: Roots, asked: list[Roots]) -> None:
    live = begun(roots)
    edit(roots, "name: Invented ochre", "name: Invented yellow earth")
    soon, missing = live.pages(roots)
    assert set(missing) == {OWN}
    assert "Invented yellow earth" in str(soon.files[OWN])
    assert "Invented yellow earth" not in str(soon.files["hues.md"])
    assert asked == [roots]
    live.finish(roots.entries, roots.templates)

    whole = made(roots)  # as the second process does
    then, missing = live.pages(roots)
    assert then == whole
    assert "hues.md" in missing
    assert then.files[OWN] == soon.files[OWN], "the page that came first was right"
    assert asked == [roots]


def test_nothing_is_made_where_nothing_was_edited(roots: Roots, asked: list[Roots]) -> None:
    live = begun(roots)
    _, missing = live.pages(roots)
    assert (list(missing), asked) == ([], [])


def test_a_mistake_is_told_and_mending_it_goes_on(roots: Roots, asked: list[Roots]) -> None:
    live = begun(roots)
    edit(roots, "hue: yellow", "hue: yelow")
    with pytest.raises(Refused, match="yelow"):
        live.pages(roots)
    edit(roots, "hue: yelow", "hue: brown")
    soon, missing = live.pages(roots)
    assert set(missing) == {OWN}
    assert "brown" in str(soon.files[OWN])


def test_more_than_entries_makes_everything_anew(roots: Roots, asked: list[Roots]) -> None:
    live = begun(roots)
    (roots.schema / "pigment.schema.json").write_text(
        (roots.schema / "pigment.schema.json").read_text("utf-8") + "\n", encoding="utf-8"
    )
    everything, missing = live.pages(roots)
    assert set(missing) == set(everything.files)
    assert asked == []


def test_a_new_entry_makes_everything_anew(roots: Roots, asked: list[Roots]) -> None:
    live = begun(roots)
    entry = roots.entries / "pigments" / "invented-ochre.yaml"
    text = entry.read_text("utf-8").replace("invented-ochre", "second-ochre")
    text = re.sub(r"^aliases:.*\n", "", text.replace("Invented ochre", "Second ochre"), flags=re.MULTILINE)
    (roots.entries / "pigments" / "second-ochre.yaml").write_text(text, encoding="utf-8")
    found, _ = live.pages(roots)
    assert "pigments/second-ochre.md" in found.files
    assert asked == []
