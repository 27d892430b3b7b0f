"""The published catalogue: what it says of a small one, and that it keeps to its schema and its order."""

from __future__ import annotations

import json
import tomllib
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from mullbook.render.data_files import catalogue_text, data_files
from mullbook.render.published import VERSION, bases_in, published
from mullbook.workflow import Loaded
from tests.conftest import ROOT
from tests.render.small import small

SCHEMA = ROOT / "schema"
GOLDEN = Path(__file__).parent / "golden" / "catalogue.json"

PIGMENT_KEYS = [
    "id",
    "name",
    "aliases",
    "colour_index",
    "cas",
    "family",
    "hue",
    "density",
    "oil_absorption",
    "oil_to_grind",
    "refractive_index",
    "colour",
    "constituents",
    "derived",
    "provenance",
]
DERIVED_KEYS = [
    "cpvc",
    "binders",
    "hazard_status",
    "lists_searched",
    "hazard_statements",
    "signal_word",
    "pictograms",
    "dust_limit",
    "dust_limit_status",
    "control_level",
    "control_level_bench",
    "control_level_drum",
    "actions",
    "waste",
    "not_for",
    "milder",
    "first_aid",
]


@pytest.fixture(scope="module")
def whole() -> dict[str, Any]:
    made = published(*small(), "9.9.9")
    return {**made, "catalogue": {**made["catalogue"], "version": "1.2.3"}}


@pytest.fixture
def umber(whole: dict[str, Any]) -> dict[str, Any]:
    found: dict[str, Any] = whole["pigments"][0]
    return found


def complaints(catalogue: dict[str, Any]) -> list[str]:
    schema = json.loads((SCHEMA / "published.schema.json").read_text(encoding="utf-8"))
    found = jsonschema.Draft202012Validator(schema).iter_errors(catalogue)
    return [f"{each.json_path}: {each.message}" for each in found]


def test_a_small_catalogue_reads_as_agreed(whole: dict[str, Any], request: pytest.FixtureRequest) -> None:
    if request.config.getoption("--update-golden"):
        GOLDEN.write_text(catalogue_text(whole), encoding="utf-8")
    assert catalogue_text(whole) == GOLDEN.read_text(encoding="utf-8")


def test_the_small_catalogue_keeps_to_the_schema(whole: dict[str, Any]) -> None:
    assert complaints(whole) == []


def test_the_entries_keep_to_the_schema(loaded: Loaded) -> None:
    files = data_files(loaded.catalogue, loaded.derived, SCHEMA)
    whole = json.loads(files["data/catalogue.json"])
    assert complaints(whole) == []
    assert len(whole["pigments"]) == len(list((ROOT / "entries" / "pigments").glob("*.yaml")))


def test_keys_stand_in_the_order_of_the_contract(whole: dict[str, Any], umber: dict[str, Any]) -> None:
    assert list(whole) == ["catalogue", "pigments", "substances", "binders", "additives", "sources"]
    assert list(umber) == PIGMENT_KEYS
    assert list(umber["derived"]) == DERIVED_KEYS


def test_provenance_counts_every_fact_of_the_entry(umber: dict[str, Any]) -> None:
    catalogue, _ = small()
    assert umber["provenance"] == {
        "published": 3,
        "dataset": 1,
        "calculated": 1,
        "common_practice": 1,
        "from_memory": 2,
    }
    assert sum(umber["provenance"].values()) == len(list(bases_in(catalogue.pigments[0])))


def test_a_pigment_without_a_cas_number_has_that_of_its_colourant(umber: dict[str, Any]) -> None:
    assert umber["cas"] == ["1313-13-9"]


def test_a_grind_quantity_gives_only_a_lower_bound(umber: dict[str, Any]) -> None:
    assert umber["derived"]["cpvc"] == {"low": 0.2438, "high": None, "from": "grind-quantity"}


def test_authored_numbers_stay_and_worked_out_ones_are_shortened(umber: dict[str, Any]) -> None:
    assert umber["oil_to_grind"]["low"] == 95
    assert isinstance(umber["oil_to_grind"]["low"], int)
    assert umber["density"] == {
        "low": 2.988,
        "high": 2.988,
        "unit": "g/cm3",
        "source": None,
        "basis": "calculated",
    }
    assert umber["derived"]["dust_limit"]["value"] == 0.8929


def test_silence_is_the_strictest_level_and_never_an_empty_word(whole: dict[str, Any]) -> None:
    bare = whole["pigments"][1]["derived"]
    assert bare["hazard_status"] == "not-known"
    assert bare["control_level"] == {"dry_powder": "Leave it shut", "wet_paint": "Leave it shut"}
    assert bare["actions"] == dict.fromkeys(("heating", "sanding", "spraying"), "not-known")


def test_a_substance_has_the_classes_and_limits_of_its_group(whole: dict[str, Any]) -> None:
    umberite = next(each for each in whole["substances"] if each["id"] == "umberite")
    assert umberite["hazard_status"] == "classified"
    assert umberite["hazard_statements"] == ["H372"]
    assert [each["scope"] for each in umberite["limits"]] == ["umberite and its compounds (as Mn)"]
    assert umberite["density"]["high"] is None


def test_classes_of_a_product_are_published(whole: dict[str, Any]) -> None:
    thickener = whole["additives"][0]
    assert (thickener["hazard_status"], thickener["hazard_statements"]) == ("classified", ["H317"])
    assert thickener["not_for"] == ["asthma-or-sensitised"]


def test_the_version_is_that_of_the_project() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    assert project["project"]["version"] == VERSION
