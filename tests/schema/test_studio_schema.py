"""The schemas of a studio's files know the keys of their records, and no others."""

from __future__ import annotations

import dataclasses

from mullbook.model.register import COLUMNS, Jar
from mullbook.model.studio import Studio
from tests.schema.test_schema_files import SCHEMAS, _compare


def test_keys_of_a_studio_are_those_of_the_model() -> None:
    assert list(_compare("studio.schema.json", SCHEMAS["studio.schema.json"], Studio, frozenset())) == []


def test_columns_of_a_register_are_those_of_the_model() -> None:
    assert tuple(SCHEMAS["jar.schema.json"]["properties"]) == COLUMNS
    assert tuple(each.name for each in dataclasses.fields(Jar)) == COLUMNS


def test_no_page_can_be_told_to_show_what_is_private() -> None:
    shown = SCHEMAS["studio.schema.json"]["properties"]["shelf"]["properties"]["columns"]["items"]["enum"]
    assert not {"cupboard", "price", "note", "pigment"} & set(shown)
