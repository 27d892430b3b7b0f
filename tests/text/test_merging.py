"""One entry over another: by stated rules, nothing lost, every place in the file it came from."""

from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from mullbook.text.merging import Merged, merged
from mullbook.text.yaml_text import Document, read_text

BOOK = """\
id: raw-umber
hue: brown
aliases: [umbra, turkey]
physical:
  density: {low: 3.2, high: 3.6, unit: g/cm3, source: a-book, basis: published}
  oil_absorption: {value: 80, unit: g/100g, source: a-book, basis: published}
constituents:
  - {substance: goethite, role: colourant}
  - {substance: quartz, role: impurity}
"""


def over(text: str) -> Merged:
    return merged(read_text(BOOK, "book.yaml"), read_text(text, "over.yaml"))


def test_a_group_goes_key_by_key_and_a_fact_is_replaced_whole() -> None:
    both = over("physical:\n  density: {value: 3.3, unit: g/cm3, basis: common-practice}\n")
    assert both.data is not None
    physical = both.data["physical"]
    assert physical["density"] == {"value": 3.3, "unit": "g/cm3", "basis": "common-practice"}
    assert physical["oil_absorption"]["source"] == "a-book"


def test_null_takes_a_key_out_and_a_list_is_replaced_whole() -> None:
    both = over("hue: null\naliases: [ours]\n")
    assert both.data is not None
    assert "hue" not in both.data and both.data["aliases"] == ["ours"]


def test_what_is_added_stands_behind_or_takes_the_place_of_its_namesake() -> None:
    both = over(
        "constituents:\n  add:\n    - {substance: quartz, role: extender}\n"
        "    - {substance: calcite, role: extender}\nshelf: {add: [a]}\n"
    )
    assert both.data is not None
    found = [(each["substance"], each["role"]) for each in both.data["constituents"]]
    assert found == [("goethite", "colourant"), ("quartz", "extender"), ("calcite", "extender")]
    assert both.data["shelf"] == ["a"]


def test_places_lead_into_the_file_a_value_came_from() -> None:
    both = over("constituents:\n  add:\n    - {substance: quartz, role: extender}\n")
    assert str(both.place(("hue",))) == "book.yaml:2:6"
    assert str(both.place(("constituents", 0, "role"))).startswith("book.yaml:8:")
    assert str(both.place(("constituents", 1, "role"))).startswith("over.yaml:3:")
    # What is missing is missing in the group that the override touched.
    assert str(both.place(("constituents", 1, "share"))).startswith("over.yaml:3:")
    assert both.place(("no-such-key",)).path == "over.yaml"


def test_one_key_can_be_left_out_to_see_what_it_does() -> None:
    base, above = read_text(BOOK, "book.yaml"), read_text("hue: red\naliases: [ours]\n", "over.yaml")
    both = merged(base, above, without="hue")
    assert both.data is not None
    assert (both.data["hue"], both.data["aliases"]) == ("brown", ["ours"])


PLAIN: st.SearchStrategy[Any] = st.recursive(
    st.one_of(st.integers(), st.text(max_size=3), st.booleans()),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3), st.dictionaries(st.sampled_from("abcd"), inner, max_size=3)
    ),
    max_leaves=8,
)
GROUPS = st.dictionaries(st.sampled_from(["a", "b", "c", "d", "basis"]), PLAIN, max_size=4)


def of(data: dict[str, Any], path: str) -> Document:
    return Document(path=path, text="", data=data, problems=())


@given(below=GROUPS, above=GROUPS)
def test_what_an_override_says_stands_and_what_it_does_not_say_stays(
    below: dict[str, Any], above: dict[str, Any]
) -> None:
    made = merged(of(below, "a"), of(above, "b")).data
    assert made is not None
    for key, value in below.items():
        if key not in above:
            assert made[key] == value
    for key, value in above.items():
        if not isinstance(value, dict):
            assert made[key] == value


@given(below=GROUPS)
def test_an_empty_override_changes_nothing(below: dict[str, Any]) -> None:
    assert merged(of(below, "a"), of({}, "b")).data == below
