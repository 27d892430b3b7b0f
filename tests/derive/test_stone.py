"""The stone check on the real entries: no hazard is ever dropped, and what a stone is comes out on top."""

from __future__ import annotations

import json
import math
import random
import re
from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

import pytest

from mullbook.derive.stone import fits_of, hazards_of, judge, raised
from mullbook.derive.stone_results import (
    NOT_RULED_OUT,
    POINTS,
    Candidate,
    Density,
    Observations,
    StoneTable,
)
from mullbook.model.catalogue import Catalogue
from mullbook.render.stone_text import stone_json, stone_text
from tests.conftest import ROOT
from tests.science.oracles import cases, number

SEED, A_CANDIDATE = 20261125, 90
"""Simulated stones of each mineral and rock: over ten thousand in all."""
MADE = ("streak", "colour", "lustre", "habit", "feel", "hardness", "acid", "magnet")
"""What someone with a tile, a nail, a lens and a magnet tells, besides the density."""
# fmt: off
ASKED_FOR = {
    "quartz", "chrysotile", "crocidolite", "tremolite-asbestos", "galena", "lead-carbonate",
    "arsenic-trisulfide", "arsenic-monosulfide", "mercuric-sulfide", "arsenopyrite", "scorodite",
    "uranium-oxide", "carnotite", "autunite", "torbernite", "stibnite", "pyrite", "jarosite",
    "manganese-dioxide", "psilomelane", "goethite", "hematite", "magnetite", "maghemite", "siderite",
    "glauconite", "celadonite", "basic-copper-carbonate", "azurite", "chrysocolla", "vivianite",
    "kaolinite", "montmorillonite", "talc", "serpentine", "gypsum", "barium-sulfate", "calcite",
    "dolomite", "fluorite", "erythrite", "annabergite", "lead-chromate", "sulfur", "mimetite",
    "pyromorphite", "rhodochrosite", "graphite", "zinc-sulfide", "erionite",
}
# fmt: on


def place(stones: StoneTable, name: str) -> int:
    return next(at for at, each in enumerate(stones.candidates) if each.id == name)


def observe(stones: StoneTable, at: int, rng: random.Random, worse: float = 1.0) -> Observations:
    """One stone of a kind as someone would describe it, mistakes and all; `worse` times as many of them."""
    candidate, answers = stones.candidates[at], {}
    for name in MADE:
        test = stones.check.test(name)
        slip = rng.random() < test.error * (worse - 1)
        chances = [1.0] * len(test.ids) if slip else stones.chances[name][at]
        answers[name] = rng.choices(test.ids, chances)[0]
    return Observations(answers=answers, density=weighed(stones, candidate, rng))


def weighed(stones: StoneTable, candidate: Candidate, rng: random.Random) -> Density:
    test, off = stones.check.test("density"), 0.02
    if candidate.density is None or rng.random() < test.error:
        value = rng.uniform(test.lowest, test.highest)
    else:
        value = rng.uniform(candidate.density.low, candidate.density.high)
        value += rng.gauss(0, math.hypot(off, test.spread * value))
    return Density(value=min(max(value, test.lowest), test.highest), uncertainty=off)


@dataclass
class Tally:
    """What came of many simulated stones."""

    stones: int = 0
    first: Counter[str] = field(default_factory=Counter)
    top_five: Counter[str] = field(default_factory=Counter)
    dropped: list[str] = field(default_factory=list)
    carried: Counter[str] = field(default_factory=Counter)
    pointed: Counter[str] = field(default_factory=Counter)


def simulate(stones: StoneTable, count: int, worse: float = 1.0) -> Tally:
    tally, rng = Tally(), random.Random(SEED)
    for at, candidate in enumerate(stones.candidates):
        for _ in range(count):
            seen = observe(stones, at, rng, worse)
            fits = fits_of(stones, seen)
            ranked = [each.candidate.id for each in fits].index(candidate.id)
            tally.stones += 1
            tally.first[candidate.id] += ranked == 0
            tally.top_five[candidate.id] += ranked < 5
            listed = {each.id: each for each in hazards_of(stones, fits, seen)}
            for hazard in (*candidate.hazards, *(each.hazard for each in candidate.hides)):
                found = listed.get(hazard)
                behind = {each.id for each in found.behind} if found else set()
                if found is None or found.status not in (POINTS, NOT_RULED_OUT) or candidate.id not in behind:
                    tally.dropped.append(f"{hazard} of {candidate.id}")
                tally.carried[hazard] += 1
                tally.pointed[hazard] += found is not None and found.status == POINTS
    return tally


@pytest.fixture(scope="module")
def tally(stones: StoneTable) -> Tally:
    return simulate(stones, A_CANDIDATE)


def test_the_table_holds_the_stones_that_matter(stones: StoneTable) -> None:
    held = {each.id for each in stones.candidates if each.kind == "substance"}
    assert held >= ASKED_FOR
    assert len(held) >= 60


def test_no_hazard_of_a_stone_is_ever_dropped(tally: Tally) -> None:
    assert tally.stones >= 10_000
    assert tally.dropped == []


def test_a_stone_comes_among_the_first_five(
    tally: Tally, stones: StoneTable, record_property: Callable[[str, object], None]
) -> None:
    rates = {each.id: tally.top_five[each.id] / A_CANDIDATE for each in stones.candidates}
    record_property("top_five_by_kind", rates)
    assert sum(tally.top_five.values()) / tally.stones >= 0.95
    assert min(rates.values()) >= 0.75, sorted(rates.items(), key=lambda each: each[1])[:10]
    assert sum(tally.first.values()) / tally.stones >= 0.7


def test_what_a_stone_holds_is_mostly_pointed_to(tally: Tally) -> None:
    rates = {hazard: tally.pointed[hazard] / count for hazard, count in tally.carried.items()}
    assert sum(tally.pointed.values()) / sum(tally.carried.values()) >= 0.9, rates
    assert min(rates.values()) >= 0.75, rates


def test_twice_as_many_mistakes_still_drop_no_hazard(stones: StoneTable) -> None:
    worse = simulate(stones, 4, worse=2.0)
    assert worse.dropped == []
    assert sum(worse.top_five.values()) / worse.stones >= 0.85


def any_observations(stones: StoneTable) -> Iterator[Observations]:
    rng = random.Random(SEED)
    yield Observations()
    for _ in range(150):
        tests = [each for each in stones.check.tests if each.kind != "number" and rng.random() < 0.5]
        density = Density(value=rng.uniform(1, 10), uncertainty=rng.uniform(0.001, 0.5))
        yield Observations(
            answers={each.id: rng.choice(each.ids) for each in tests},
            density=density if rng.random() < 0.5 else None,
        )


def test_every_hazard_is_listed_for_every_stone_and_none_is_ruled_out(stones: StoneTable) -> None:
    every = sorted(each.id for each in stones.check.hazards)
    for seen in any_observations(stones):
        result = judge(stones, seen)
        assert sorted(each.id for each in result.hazards) == every
        assert {each.status for each in result.hazards} <= {POINTS, NOT_RULED_OUT}
        assert next(each for each in result.hazards if each.id == "quartz").status == POINTS
        pointed = [each.status == POINTS for each in result.hazards]
        assert pointed == sorted(pointed, reverse=True), "what is pointed to stands first"


def test_the_answer_never_clears_a_stone(stones: StoneTable) -> None:
    forbidden = re.compile(
        r"\b(safe|cleared|harmless|non-toxic|clean bill)\b|(?<!not )\bruled out\b", re.IGNORECASE
    )
    for seen in any_observations(stones):
        text = stone_text(stones.check, judge(stones, seen))
        said = text.replace("none of them is ever ruled out here", "")
        assert not forbidden.search(said), forbidden.search(said)
        assert "Unknown rock: treat it as bearing silica" in text
        assert "hides among the ochres" in text
        assert "ordinary sienna may hold arsenic" in text


def test_hazards_are_told_before_fits(stones: StoneTable) -> None:
    text = stone_text(stones.check, judge(stones, Observations(answers={"streak": "yellow"})))
    order = [text.index(each) for each in ("HAZARDS", "WHAT FITS", "WHICH TEST", "WHATEVER WAS SEEN")]
    assert order == sorted(order)
    assert list(stone_json(stones.check, judge(stones, Observations())))[3] == "hazards"


@pytest.mark.parametrize("name", ["ochre", "sienna", "goethite", "red-earth", "arsenic-trisulfide"])
def test_arsenic_is_behind_every_iron_earth(stones: StoneTable, name: str) -> None:
    found = judge(stones, Observations(answers={"streak": "yellow-brown"}))
    arsenic = next(each for each in found.hazards if each.id == "arsenic")
    assert arsenic.status == POINTS
    assert name in {each.id for each in arsenic.behind}


def test_orpiment_is_not_told_from_an_ochre_by_its_density(stones: StoneTable) -> None:
    seen = Observations(answers={"streak": "yellow"}, density=Density(value=3.5, uncertainty=0.05))
    first = [each.candidate.id for each in fits_of(stones, seen)][:5]
    assert "arsenic-trisulfide" in first
    assert {"ochre", "goethite", "sienna"} & set(first)


@pytest.mark.parametrize(
    ("answers", "density", "hazard"),
    [
        ({"habit": "fibrous"}, None, "asbestos"),
        ({"counter": "above"}, None, "uranium"),
        ({"smell": "garlic"}, None, "arsenic"),
        ({"acid": "eggs"}, None, "sulfide-acid"),
        ({"slurry": "sour"}, None, "sulfide-acid"),
        ({"slurry": "alkaline"}, None, "caustic"),
        ({"streak": "white"}, 6.5, "lead"),
        ({"streak": "red"}, 8.1, "mercury"),
    ],
)
def test_one_sign_is_enough(
    stones: StoneTable, answers: Mapping[str, str], density: float | None, hazard: str
) -> None:
    reading = Density(value=density, uncertainty=0.05) if density else None
    seen = Observations(answers={**answers, "magnet": "no"}, density=reading)
    found = next(each for each in judge(stones, seen).hazards if each.id == hazard)
    assert found.status == POINTS
    assert found.because


def test_an_iron_streak_takes_the_weight_flag_back(stones: StoneTable) -> None:
    flag = next(each for each in stones.check.hazards if each.id == "lead").flags[0]
    heavy = Density(value=5.2, uncertainty=0.05)
    assert raised(flag, Observations(answers={"streak": "white"}, density=heavy))
    assert not raised(flag, Observations(answers={"streak": "red"}, density=heavy))


def test_it_tells_how_well_each_reading_is_known(stones: StoneTable) -> None:
    """Feel and magnet are mostly from memory, and the page says so; what acid does is mostly not."""
    assert set(stones.known) == {each.id for each in stones.check.tests}
    for test, held in stones.known.items():
        assert held or test == "counter"
    assert stones.known["feel"]["from-memory"] > 50
    assert stones.known["acid"]["from-memory"] < sum(stones.known["acid"].values()) / 3


def test_what_is_not_known_of_a_mineral_counts_neither_way(stones: StoneTable) -> None:
    for seen in any_observations(stones):
        for fit in fits_of(stones, seen):
            for each in fit.counted:
                assert each.known or abs(each.bits) < 1e-9


def test_nothing_observed_leaves_everything_open(stones: StoneTable) -> None:
    result = judge(stones, Observations())
    assert {round(each.share * len(stones.candidates), 9) for each in result.fits} == {1.0}
    assert result.unknown == pytest.approx(math.log2(len(stones.candidates)))
    assert [each.id for each in result.hazards if each.status == POINTS] == ["quartz"]


def test_a_test_made_is_not_offered_again(stones: StoneTable) -> None:
    seen = Observations(answers={"streak": "black"}, density=Density(value=5.0, uncertainty=0.1))
    result = judge(stones, seen)
    left = {each.id for each in stones.check.tests} - {"streak", "density"}
    assert {each.test for each in result.next} == left
    assert [each.bits for each in result.next] == sorted((each.bits for each in result.next), reverse=True)


def test_the_words_of_the_entries_are_those_of_the_check(stones: StoneTable) -> None:
    """The schema holds the closed lists a second time; both must be the same."""
    schema = json.loads((ROOT / "schema" / "substance.schema.json").read_text(encoding="utf-8"))
    fields = schema["properties"]["field_tests"]["properties"]
    for test in stones.check.tests:
        if test.kind != "words":
            continue
        used = {each for candidate in stones.candidates for each in candidate.shown.get(test.id, ())}
        assert used <= set(test.ids), test.id
        if test.id != "counter":
            assert fields[test.id]["properties"]["any_of"]["items"]["enum"] == list(test.ids)
        assert all(set(value.near) <= set(test.ids) - {value.id} for value in test.values), test.id


def test_the_check_names_only_what_there_is(catalogue: Catalogue, stones: StoneTable) -> None:
    check, held = stones.check, {each.id for each in stones.candidates}
    hazards = {each.id for each in check.hazards}
    assert {each.hides for each in check.may_hold} <= hazards
    assert {each for one in check.may_hold for each in one.found_in} <= held
    assert {each for one in check.hazards for each in one.substances} <= set(catalogue.substance)
    assert {each for one in check.stones for each in one.holds} <= set(catalogue.substance)


@pytest.mark.parametrize("row", cases("field_minerals"))
def test_entries_agree_with_other_books(
    catalogue: Catalogue, stones: StoneTable, row: Mapping[str, str]
) -> None:
    candidate = stones.candidates[place(stones, row["substance"])]
    assert candidate.density is not None
    assert candidate.density.low <= number(row, "density_high") * 1.03
    assert candidate.density.high >= number(row, "density_low") * 0.97
    if row["hardness_low"]:
        assert candidate.hardness is not None
        assert candidate.hardness.low <= number(row, "hardness_high") + 0.5
        assert candidate.hardness.high >= number(row, "hardness_low") - 0.5
    if row["streak"]:
        assert row["streak"] in candidate.shown["streak"]
