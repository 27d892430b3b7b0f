"""Questions about a stone: spelling forgiven, every mistake told at once, the weighing counted once."""

from __future__ import annotations

import json
from collections.abc import Sequence

import pytest

from mullbook import workflow
from mullbook.derive.stone_results import Observations, StoneTable
from mullbook.model.catalogue import Catalogue
from mullbook.science.powder import hydrostatic_density
from mullbook.workflow.stones import read, stone_answer
from mullbook.workflow.swap import Refused


def seen(stones: StoneTable, *pairs: str) -> Observations:
    return read(stones, pairs)


def refused(stones: StoneTable, *pairs: str) -> Sequence[workflow.Problem]:
    with pytest.raises(Refused) as caught:
        read(stones, pairs)
    return caught.value.problems


@pytest.mark.parametrize(
    ("pair", "test", "answer"),
    [
        ("streak=Yellow", "streak", "yellow"),
        ("mark=red brown", "streak", "red-brown"),
        ("color=grey", "colour", "grey"),
        ("colour=colourless", "colour", "clear"),
        ("luster=vitreous", "lustre", "glassy"),
        ("habit=fibers", "habit", "fibrous"),
        ("hardness=fingernail", "hardness", "nail"),
        ("mohs=2", "hardness", "nail"),
        ("hardness=3", "hardness", "copper"),
        ("hardness=4..5", "hardness", "knife"),
        ("hardness=7", "hardness", "glass"),
        ("acid=fizz", "acid", "vinegar"),
        ("acid=no", "acid", "none"),
        ("vinegar=none", "acid", "none"),
        ("magnetic=yes", "magnet", "strong"),
        ("ph=3,2", "slurry", "sour"),
        ("pH=7", "slurry", "middle"),
        ("conductivity=1.5 mS/cm", "salts", "many"),
        ("geiger=clicks", "counter", "above"),
    ],
)
def test_words_are_read_as_people_write_them(stones: StoneTable, pair: str, test: str, answer: str) -> None:
    assert seen(stones, pair).answers == {test: answer}


@pytest.mark.parametrize(
    ("text", "value", "off"),
    [
        ("3.4..3.6", 3.5, 0.1 / 3**0.5),
        ("3,4..3,6", 3.5, 0.1 / 3**0.5),
        ("3.4-3.6", 3.5, 0.1 / 3**0.5),
        ("3.5", 3.5, 0.05 / 3**0.5),
        ("about 3.55 g/cm3", 3.55, 0.005 / 3**0.5),
        ("4", 4.0, 0.5 / 3**0.5),
    ],
)
def test_a_density_is_as_sure_as_it_is_written(
    stones: StoneTable, text: str, value: float, off: float
) -> None:
    found = seen(stones, f"density={text}").density
    assert found is not None
    assert found.value == pytest.approx(value)
    assert found.uncertainty == pytest.approx(off)


def test_a_weighing_gives_the_density(stones: StoneTable) -> None:
    found = seen(stones, "air=52.3 g", "water=38,1", "temperature=12", "balance=0.01").density
    assert found is not None
    assert found.value == pytest.approx(hydrostatic_density(52.3, 38.1, 12))
    assert found.uncertainty < 0.01


def test_what_is_stated_beside_a_weighing_is_not_counted_twice(stones: StoneTable) -> None:
    both = seen(stones, "density=3.4..3.6", "air=52.3", "water=38.1")
    assert both.density == seen(stones, "air=52.3", "water=38.1").density
    assert "not counted a second time; they do not agree" in both.notes[0]
    agree = seen(stones, "density=3.6..3.8", "air=52.3", "water=38.1")
    assert agree.notes[0].endswith("they agree.")


def test_every_mistake_is_told_at_once(stones: StoneTable) -> None:
    told = refused(stones, "streek=yellow", "streak=yelow", "acid=foo", "density=x", "just words")
    assert [each.code for each in told] == ["MB003", "MB002", "MB003", "MB003", "MB002"]
    assert told[0].hint == "Did you mean streak?"
    assert (told[2].hint or "").startswith("Did you mean yellow?")


@pytest.mark.parametrize(
    "pair",
    [
        "air=5",
        "water=5",
        "density=4..3",
        "density=0.2",
        "density=30",
        "hardness=2..6",
        "streak=",
        "=red",
        "air=0",
    ],
)
def test_what_cannot_be_is_refused(stones: StoneTable, pair: str) -> None:
    assert refused(stones, pair)


def test_a_stone_that_floats_is_refused(stones: StoneTable) -> None:
    (told,) = refused(stones, "air=3", "water=5")
    assert "must weigh less in water" in told.message
    (told,) = refused(stones, "air=9", "water=5", "balance=0")
    assert "balance" in told.message


def test_the_same_test_twice_is_refused(stones: StoneTable) -> None:
    (told,) = refused(stones, "streak=red", "mark=yellow")
    assert "given twice" in told.message


def test_as_plain_data_every_hazard_and_every_candidate_is_there(
    catalogue: Catalogue, stones: StoneTable
) -> None:
    found = json.loads(stone_answer(catalogue, ["streak=yellow", "hardness=nail"], as_json=True))
    assert len(found["hazards"]) == len(stones.check.hazards)
    assert len(found["fits"]) == len(stones.candidates)
    assert sum(each["share"] for each in found["fits"]) == pytest.approx(1)
    assert {each["status"] for each in found["hazards"]} == {"points", "not-ruled-out"}


def test_without_anything_seen_the_answer_is_the_handling(catalogue: Catalogue) -> None:
    text = stone_answer(catalogue, [], as_json=False)
    assert "Nothing was observed yet: everything is open." in text
    assert "Keep it wet and contained." in text


def test_it_says_that_rare_minerals_stand_too_high(catalogue: Catalogue) -> None:
    assert "rare minerals stand too high" in stone_answer(catalogue, ["streak=yellow-brown"], as_json=False)
    data = json.loads(stone_answer(catalogue, [], as_json=True))
    assert any("rare" in each for each in data["assumptions"])
