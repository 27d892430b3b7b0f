"""A studio's edition: the book and the studio's folder together, its history, its files in and out."""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from mullbook.workflow import Loaded, Refused, Roots
from mullbook.workflow.audits import audit_of, give_out, sound, take_in, write_audit
from mullbook.workflow.checking import check, check_path
from mullbook.workflow.editions import edition_at
from mullbook.workflow.history import NAME, append, differences, read_history, replayed, rows_by_key
from mullbook.workflow.new_studio import new_studio
from mullbook.workflow.studio_pages import public_words
from tests.conftest import ROOT
from tests.corpus.cases import good_project

STUDIO = ROOT / "tests" / "corpus" / "studio"
TODAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def example() -> Loaded:
    return edition_at(STUDIO, Roots.at(ROOT))


@pytest.fixture
def small(tmp_path: Path) -> Iterator[tuple[Path, Roots]]:
    """The invented book of the corpus, and a studio begun beside it."""
    project = good_project(tmp_path / "book")
    shutil.copytree(ROOT / "site_templates" / "templates" / "new-studio", tmp_path / "studio")
    (tmp_path / "studio" / "register.csv").write_text(
        'jar,pigment,room,cupboard,quantity,unit,own\nN-1,invented-ochre,Workroom,B,250,g,"a ""b"""\n'
        "N-2,unknown,Workroom,B,3,g,\n",
        encoding="utf-8",
    )
    yield tmp_path / "studio", replace(Roots.at(project), studio=tmp_path / "studio")


def test_the_example_is_clean_but_for_a_name_left_open(example: Loaded) -> None:
    assert [each.code for each in example.problems] == ["MB841"]


def test_the_example_is_plainly_invented() -> None:
    for path in STUDIO.rglob("*.yaml"):
        assert "nvented" in path.read_text("utf-8"), path.name


def test_the_book_itself_is_as_it_was(example: Loaded, loaded: Loaded) -> None:
    book = loaded
    assert book.edition is None
    assert example.edition is not None
    own = {name for _, name in example.edition.own}
    ids = {each.id for each in (*book.catalogue.things, *book.catalogue.samples)}
    here = {each.id for each in (*example.catalogue.things, *example.catalogue.samples)}
    assert here - ids == own
    for path in (ROOT / "entries" / "pigments").glob("raw-umber.yaml"):
        assert "Bag 12" not in path.read_text("utf-8")


def test_an_override_and_the_rules_of_the_studio_are_in_what_follows(example: Loaded) -> None:
    umber = example.catalogue.pigment["raw-umber"]
    quartz = next(each for each in umber.constituents if each.substance == "quartz")
    assert quartz.share.ends == (0.1, 0.25)
    assert "Bag 12 is coarse. Grind it wet for half an hour longer." in umber.handling.notes
    dry = example.derived.pigments["raw-umber"].safety.dry["bench"]
    assert dry.level == "paste-only" and "a rule of this studio" in " ".join(dry.reasons)
    assert example.derived.pigments["lead-white"].safety.dry["bench"].level == "leave-it-shut"
    assert example.catalogue.place == "UK"


def test_a_file_of_the_studio_is_checked_with_its_studio(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    (folder / "overrides" / "pigments").mkdir(parents=True)
    over = folder / "overrides" / "pigments" / "invented-ochre.yaml"
    over.write_text("hue: ornage\n", encoding="utf-8")
    (problem,) = check_path(roots, over).problems
    assert (problem.code, str(problem.place)) == ("MB204", f"{over}:1:6")


def test_a_clean_overridden_entry_keeps_its_own_places(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    (folder / "overrides" / "pigments").mkdir(parents=True)
    over = folder / "overrides" / "pigments" / "invented-ochre.yaml"
    over.write_text('checked: "2025-01-01"\n', encoding="utf-8")
    late = [each for each in check(roots).problems if each.code == "MB703"]
    # The day that no longer fits stands in the book; the override that did it is named beside it.
    (problem,) = late
    assert problem.place.path.endswith("entries/pigments/invented-ochre.yaml")
    assert [each.path for each in problem.related] == [str(over)]


def test_mistakes_of_the_register_stop_a_build_but_no_audit(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    with (folder / "register.csv").open("a", encoding="utf-8") as register:
        register.write("N-3,invented-chalk,Attic,B,a lot,g,\n")
    loaded = check(roots)
    assert {each.code for each in loaded.errors} == {"MB840", "MB203"}
    found = audit_of(sound(loaded), TODAY).found
    assert [each.listed.key for each in found.jars] == ["N-1", "N-2", "N-3"]
    assert [each.listed.key for each in found.broken] == ["N-3"]


def test_changes_are_written_down_once_and_never_over(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    first = audit_of(check(roots), TODAY, who="M. (invented)")
    assert first.recorded == 2
    before = (folder / NAME).read_bytes()
    assert audit_of(check(roots), TODAY, who="M. (invented)").recorded == 0
    text = (folder / "register.csv").read_text("utf-8")
    (folder / "register.csv").write_text(text.replace("250", "120").replace("N-2", "N-9"), encoding="utf-8")
    later = date(2026, 12, 24)
    again = audit_of(check(roots), later, since="2026-12-01", who="N. (invented)")
    assert (folder / NAME).read_bytes().startswith(before)
    told = [(each.jar, each.what, dict(each.cells)) for each in again.found.changes]
    assert told[:2] == [
        ("N-2", "removed", {"jar": ("N-2", ""), "pigment": ("unknown", ""), "room": ("Workroom", ""),
                            "cupboard": ("B", ""), "quantity": ("3", ""), "unit": ("g", "")}),
        ("N-1", "changed", {"quantity": ("250", "120")}),
    ]  # fmt: skip
    assert told[2][:2] == ("N-9", "added")


def test_a_history_replays_to_the_register(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    loaded = check(roots)
    assert loaded.edition is not None
    rows = rows_by_key(loaded.edition.register.jars)
    append(folder / NAME, differences({}, rows, "2026-11-25", "M. (invented)"))
    changes, problems = read_history(folder / NAME)
    assert problems == () and replayed(changes) == rows
    assert list(differences(replayed(changes), rows, "2026-11-26", "M.")) == []


def test_a_torn_line_is_told_and_what_comes_after_stands_on_its_own_line(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    (folder / NAME).write_text('{"date": "2026-1', encoding="utf-8")
    result = audit_of(check(roots), TODAY, who="M. (invented)")
    assert [each.code for each in result.problems] == ["MB224"]
    lines = (folder / NAME).read_text("utf-8").splitlines()
    assert lines[0] == '{"date": "2026-1'
    assert all(json.loads(line)["who"] == "M. (invented)" for line in lines[1:])


@pytest.mark.parametrize("ending", [".csv", ".xlsx", ".yaml"])
@pytest.mark.parametrize("decimal", [None, "comma"])
def test_a_register_goes_out_and_comes_in_unchanged(
    small: tuple[Path, Roots], tmp_path: Path, ending: str, decimal: str | None
) -> None:
    _, roots = small
    loaded = check(roots)
    assert loaded.edition is not None
    table = loaded.edition.register.table
    assert give_out(loaded, tmp_path / f"out{ending}", decimal) == 2
    audit_of(loaded, TODAY, who="M.")
    count, _ = take_in(loaded, roots, tmp_path / f"out{ending}", decimal=decimal, who="M.", today=TODAY)
    again = check(roots)
    assert again.edition is not None
    assert count == 0 and again.edition.register.table == table


def test_a_broken_copy_changes_nothing(small: tuple[Path, Roots], tmp_path: Path) -> None:
    folder, roots = small
    before = (folder / "register.csv").read_bytes()
    copy = tmp_path / "edited.csv"
    copy.write_text("jar,pigment\nN-1,\n", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        take_in(check(roots), roots, copy, decimal=None, who="M.", today=TODAY)
    assert str(refused.value.problems[0].place) == f"{copy}:2:1"
    assert (folder / "register.csv").read_bytes() == before
    assert not (folder / NAME).exists()


@pytest.mark.parametrize("ending", [".csv", ".xlsx", ".json"])
def test_an_audit_is_written_with_every_cell_of_the_register(
    small: tuple[Path, Roots], tmp_path: Path, ending: str
) -> None:
    from mullbook.checks.schema import load_schemas
    from mullbook.workflow.sheets import read_sheet

    _, roots = small
    loaded = check(roots)
    found = audit_of(loaded, TODAY).found
    path = tmp_path / f"audit{ending}"
    write_audit(loaded, found, path, "comma")
    if ending == ".json":
        data = json.loads(path.read_text("utf-8"))
        assert data["jars"][0]["row"]["own"] == 'a "b"'
        assert data["quarantine"]["jars"] == ["N-2"]
        return
    table = read_sheet(path, load_schemas(roots.schema)).table
    assert loaded.edition is not None
    held = loaded.edition.register.table
    assert table.header[: len(held.header)] == held.header
    assert {row[: len(held.header)] for row in table.rows} == set(held.rows)


def test_a_studio_is_begun_outside_the_book_and_never_over_another(tmp_path: Path) -> None:
    roots = Roots.at(ROOT)
    written = new_studio(tmp_path / "ours", roots)
    assert {each.name for each in written} == {"README.txt", "register.csv", "studio.yaml"}
    assert edition_at(tmp_path / "ours", roots).problems == ()
    before = (tmp_path / "ours" / "studio.yaml").read_bytes()
    (tmp_path / "ours" / "register.csv").unlink()
    with pytest.raises(Refused):
        new_studio(tmp_path / "ours", roots)
    assert (tmp_path / "ours" / "studio.yaml").read_bytes() == before
    assert not (tmp_path / "ours" / "register.csv").exists()
    with pytest.raises(Refused):
        new_studio(ROOT / "entries" / "ours", roots)
    assert not (ROOT / "entries" / "ours").exists()


def test_every_line_of_the_starter_is_sound_once_its_mark_is_taken_away(tmp_path: Path) -> None:
    import re

    roots = Roots.at(ROOT)
    new_studio(tmp_path / "ours", roots)
    path = tmp_path / "ours" / "studio.yaml"
    keys = re.compile(r"^# ((?:[a-z_]+:| {2,}\S|- ).*)$", re.MULTILINE)
    text = keys.sub(r"\1", path.read_text("utf-8"))
    text = text.replace("\n  # columns", "\n  columns").replace("\n- {id: store", "\n  - {id: store")
    path.write_text(text, encoding="utf-8")
    loaded = edition_at(tmp_path / "ours", roots)
    assert loaded.problems == ()
    assert loaded.edition is not None and len(loaded.edition.studio.rooms) == 2
    assert loaded.edition.studio.policy.dust_caps is not None


def test_a_register_that_leads_out_of_the_folder_is_not_read(small: tuple[Path, Roots]) -> None:
    folder, roots = small
    (folder / "studio.yaml").write_text(
        "name: N\nrooms: [{id: store, name: Store, volume: 20}]\nshelf: {register: ../other.csv}\n", "utf-8"
    )
    (problem,) = check(roots).problems
    assert problem.code == "MB101"


def test_words_on_a_jar_that_no_entry_knows_leave_the_studio_nowhere(example: Loaded) -> None:
    assert example.edition is not None
    jars = {each.listed.key: each for each in audit_of(example, TODAY).found.jars}
    studio = example.edition.studio
    assert jars["HL-011"].name == "emerald gren"
    assert public_words(jars["HL-011"], studio) == "jar HL-011, not known"
    assert public_words(jars["HL-004"], studio) == "jar HL-004, Lead white"
    numbered = replace(studio, private_names=("HL-004",))
    assert public_words(jars["HL-004"], numbered) == "a jar, Lead white"
