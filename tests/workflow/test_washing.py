"""Washing and sieving as they are asked for: forgiving of how it is written, in words where it cannot be."""

from __future__ import annotations

import json
from typing import Any

import pytest

from mullbook.model.catalogue import Catalogue
from mullbook.model.values.washing import WashSheet
from mullbook.render.wash_text import LIMIT_WORDS, minutes_text, wash_text
from mullbook.workflow import sieving, washing
from mullbook.workflow.swap import Refused

NONE: dict[str, Any] = dict.fromkeys(
    (
        "density",
        "by",
        "depth",
        "kept",
        "volume",
        "temperature",
        "solids",
        "rounds",
        "grains",
        "conductivity",
        "wash_water",
        "target",
        "settle",
    )
)


def asked(catalogue: Catalogue, words: str = "yellow ochre", **options: Any) -> WashSheet:
    return washing.wash(catalogue, words, {**NONE, "cut": "45um,20um,5um", "mineral": (), **options})


def refused(catalogue: Catalogue, words: str = "yellow ochre", **options: Any) -> str:
    with pytest.raises(Refused) as found:
        asked(catalogue, words, **options)
    (problem,) = found.value.problems
    assert problem.code in ("MB002", "MB003")
    return problem.message


@pytest.mark.parametrize(
    ("option", "ways"),
    [
        ("depth", ("10", "10 cm", "100mm", "0,1 m")),
        ("temperature", ("15", "15C", "59 F", "15 °C")),
        ("volume", ("0.5", "500 ml", "0,5 l")),
        ("conductivity", ("1.8", "1,8 mS/cm", "1800 uS/cm")),
        ("cut", ("45um,75um", "45 µm, 0.075mm", "325 mesh; no. 200", "#325,#200")),
        ("grains", ("20,50,30", "sand:20, silt:50, clay:30", "clay 30; sand 20; silt 50")),
    ],
)
def test_one_question_may_be_written_in_many_ways(
    catalogue: Catalogue, option: str, ways: tuple[str, ...]
) -> None:
    plans = [asked(catalogue, **{option: each}).plan for each in ways]
    first = plans[0]
    for each in plans[1:]:
        assert each.minutes == pytest.approx(first.minutes)
        assert each.readings == pytest.approx(first.readings)
        assert [one.grams for one in each.fractions] == pytest.approx([one.grams for one in first.fractions])


def test_grams_a_litre_and_per_cent_are_the_same_slurry(catalogue: Catalogue) -> None:
    middle = asked(catalogue).asked.density
    assert asked(catalogue, solids="2%").asked.solids == pytest.approx(0.02)
    assert asked(catalogue, solids=f"{20 * middle}g/l").asked.solids == pytest.approx(0.02)


@pytest.mark.parametrize(
    "options",
    [
        {"cut": ""},
        {"cut": "0"},
        {"cut": "327mesh"},
        {"depth": "deep"},
        {"temperature": "90"},
        {"solids": "0.2"},
        {"solids": "40"},
        {"rounds": "2.5"},
        {"rounds": "0"},
        {"grains": "1,2"},
        {"grains": "0,0,0"},
        {"conductivity": "1.8", "wash_water": "0.5", "target": "0.4"},
        {"mineral": ("unobtainite",)},
        {"by": "unobtainite"},
        {"words": "linseed oil"},
        {"words": "rawumbr"},
        {"words": ""},
    ],
)
def test_what_cannot_be_is_said_in_words(catalogue: Catalogue, options: dict[str, Any]) -> None:
    message = refused(catalogue, **options)
    assert message.endswith(".")
    assert len(message) > 20


def test_the_dense_fine_stands_beside_the_light_coarse(catalogue: Catalogue) -> None:
    sheet = asked(catalogue)
    names = [each.name for each in sheet.asked.minerals]
    for cut in sheet.plan.cuts:
        sizes = dict(zip(names, cut.sizes, strict=True))
        assert sizes["goethite"] < cut.size < sizes["quartz"]
    assert "goethite" in wash_text(sheet)


def test_the_range_of_the_density_gives_a_range_of_waits(catalogue: Catalogue) -> None:
    sheet = asked(catalogue)
    for cut, wait in zip(sheet.plan.cuts, sheet.waits, strict=True):
        assert wait.result is not None
        assert wait.result.low < cut.minutes < wait.result.high


def test_timed_by_the_lightest_no_grit_comes_over(catalogue: Catalogue) -> None:
    sheet = asked(catalogue, by="lightest")
    assert all(max(cut.sizes) == pytest.approx(cut.size) for cut in sheet.plan.cuts)


def test_every_limit_has_its_words(catalogue: Catalogue) -> None:
    sheet = asked(catalogue, cut="75um,0.5um", solids="0.03", density="5")
    assert sheet.plan.limits == ("drag", "hand", "crowded", "still", "brownian")
    told = wash_text(sheet)
    assert all(LIMIT_WORDS[each] in told for each in sheet.plan.limits)


def test_an_earth_with_poison_in_it_says_so_of_its_water(catalogue: Catalogue) -> None:
    assert "manganese" in wash_text(asked(catalogue, "raw umber"))
    assert "collect all the wash water" in wash_text(asked(catalogue, "malachite"))


def test_nothing_calls_a_washing_safe(catalogue: Catalogue) -> None:
    assert "safe" not in wash_text(asked(catalogue, conductivity="1.8")).lower()


def test_json_carries_the_whole_plan(catalogue: Catalogue) -> None:
    sheet = asked(catalogue, conductivity="1.8", wash_water="0.3")
    data = json.loads(washing.sheet_json(sheet))
    assert data["plan"]["washes"] == 2
    assert sum(each["share"] for each in data["plan"]["fractions"]) == pytest.approx(1)
    assert data["salts"] and len(data["waits"]) == 3


def test_times_are_said_as_people_say_them() -> None:
    assert [minutes_text(each) for each in (0.5, 1440 * 5.5)] == [
        "30\N{NO-BREAK SPACE}s",
        "5.5\N{NO-BREAK SPACE}days",
    ]


def test_a_nest_is_told_with_its_losses() -> None:
    told = sieving.sieve_answer(("150um=2.1", "200mesh=8.4", "44um=12", "pan=74"), "100", as_json=False)
    assert "No. 325" in told
    assert "Lost: 3.5 %" in told
    data = json.loads(sieving.sieve_answer(("45=20", "pan=80"), None, as_json=True))
    assert [each["passing"] for each in data["rows"]] == pytest.approx([0.8, 0])


@pytest.mark.parametrize(
    "weighed", [("47um=2",), ("45",), ("45=2", "325mesh=3"), ("45=-2",), ("45=x",), ("45=0",)]
)
def test_a_nest_that_cannot_be_is_refused(weighed: tuple[str, ...]) -> None:
    with pytest.raises(Refused):
        sieving.sieve_answer(weighed, None, as_json=False)


def test_nobody_is_told_how_to_weigh_what_stays_shut(catalogue: Catalogue) -> None:
    for words in ("orpiment", "cinnabar", "realgar"):
        assert "stays shut" in refused(catalogue, words)


def test_a_powder_that_is_paste_only_is_planned_as_what_is_wet_already(catalogue: Catalogue) -> None:
    for words, density in (("lead white", None), ("unknown stone", "2.8")):
        sheet = asked(catalogue, words, density=density)
        assert "not handled in a studio" in sheet.minds[0]
        assert "weigh it" not in wash_text(sheet).lower()


def test_a_sieve_that_does_not_exist_is_told_in_the_words_of_sieves() -> None:
    with pytest.raises(Refused) as found:
        sieving.sieve_answer(["foo=3", "pan=1"], None, as_json=False)
    (problem,) = found.value.problems
    assert "no sieve called foo" in problem.message and problem.example == sieving.EXAMPLE


def test_what_water_sets_on_fire_is_never_washed(catalogue: Catalogue) -> None:
    assert "never washed" in refused(catalogue, "aluminium flake")


def test_what_may_dissolve_or_swells_is_said_so(catalogue: Catalogue) -> None:
    assert any("may dissolve" in each for each in asked(catalogue, "madder lake").minds)
    assert any("Swelling clay" in each for each in asked(catalogue, "bentonite").minds)
    assert not any("may dissolve" in each for each in asked(catalogue).minds)
