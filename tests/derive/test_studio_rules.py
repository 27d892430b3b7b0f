"""A studio's own rules can only tighten, an override that loosens is seen, and an audit adds up."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from mullbook import load
from mullbook.checks.own_rules import studio_problems
from mullbook.checks.schema import load_schemas
from mullbook.derive.audit import audit, grams_of_elements
from mullbook.derive.audit_results import Audit
from mullbook.derive.catalogue import derive
from mullbook.derive.composition import parts
from mullbook.derive.milder import milder_fields, milder_substance, milder_verdicts
from mullbook.derive.rooms import in_rooms
from mullbook.derive.tighten import OWN_RULES, tightened
from mullbook.model.catalogue import Catalogue
from mullbook.model.register import GRAMS, Jar, Listed
from mullbook.model.studio import AmountCaps, DustCaps, LevelRule, Room, Studio, Tightening
from mullbook.text.yaml_text import read_text
from mullbook.workflow.checking import catalogue_of, check_entries
from mullbook.workflow.safety import safety_of
from tests.conftest import ROOT

STORE, CLASS = Room(id="store", name="Store", volume=20), Room(id="class", name="Classroom", volume=140)
STUDIO = Studio(name="Invented", rooms=(STORE, CLASS))
LEVELS = ("keep-it-damp", "enclosed", "paste-only", "leave-it-shut")
TODAY = date(2026, 11, 25)


@cache
def book() -> Catalogue:
    return catalogue_of(check_entries(ROOT / "tests" / "corpus" / "good", load_schemas(ROOT / "schema")))


def asking(**policy: Any) -> Studio:
    return replace(STUDIO, policy=Tightening(**policy))


RULES = st.builds(
    LevelRule,
    at_least=st.sampled_from(LEVELS),
    because=st.just("so we decided"),
    pigments=st.lists(st.sampled_from(["invented-ochre", "invented-chalk"]), max_size=2).map(tuple),
    classes=st.lists(st.sampled_from(["carcinogenicity", "reproductive-toxicity"]), max_size=1).map(tuple),
    elements=st.lists(st.sampled_from(["Pb", "Fe", "Ca"]), max_size=2).map(tuple),
    families=st.lists(st.sampled_from(["natural-earth", "filler"]), max_size=1).map(tuple),
    also_wet=st.booleans(),
)
POLICIES = st.builds(
    Tightening,
    levels=st.lists(RULES, max_size=3).map(tuple),
    dust_caps=st.none()
    | st.builds(
        DustCaps,
        because=st.just("so"),
        inhalable=st.none() | st.floats(0.001, 10),
        respirable=st.none() | st.floats(0.001, 4),
    ),
    amounts=st.none()
    | st.builds(AmountCaps, because=st.just("so"), bench=st.floats(0.1, 50), batch=st.floats(50, 1000)),
)


@given(policy=POLICIES, place=st.sampled_from([None, "EU", "UK", "US"]), grams=st.floats(0.01, 5000))
@settings(max_examples=60, deadline=None)
def test_no_rule_of_a_studio_makes_any_verdict_milder(
    policy: Tightening, place: str | None, grams: float
) -> None:
    here = replace(book(), at_place=place)
    own = tightened(here, replace(STUDIO, policy=policy, jurisdiction=place))
    for jar in here.jars:
        before, after = safety_of(here, jar), safety_of(own, jar)
        assert list(milder_verdicts(here, before, after)) == []
        if before.dry:
            old = before.dry[here.policy.amount(grams).id].level
            new = after.dry[own.policy.amount(grams).id].level
            assert here.policy.rank(new) >= here.policy.rank(old)


def test_a_floor_holds_for_what_it_names_and_says_why() -> None:
    own = tightened(
        book(),
        asking(
            levels=(LevelRule(at_least="leave-it-shut", pigments=("invented-chalk",), because="no chalk"),)
        ),
    )
    chalk = safety_of(own, own.pigment["invented-chalk"])
    assert {each.level for each in chalk.dry.values()} == {"leave-it-shut"}
    assert "a rule of this studio: no chalk" in chalk.dry["bench"].reasons
    assert chalk.wet is not None and chalk.wet.level == "leave-it-shut"
    ochre = book().pigment["invented-ochre"]
    assert safety_of(own, ochre).dry == safety_of(book(), ochre).dry


def test_a_dust_cap_counts_where_no_list_holds_a_limit_and_names_its_source() -> None:
    pure = book().pigment["invented-chalk"].constituents[:1]  # without its part that nobody knows
    searched = changed("pigment", "invented-chalk", constituents=pure)
    chalk = searched.pigment["invented-chalk"]
    own = tightened(searched, asking(dust_caps=DustCaps(because="asked for", inhalable=0.4)))
    before, after = safety_of(searched, chalk), safety_of(own, chalk)
    assert [before.dry[each].level for each in ("bench", "batch")] == ["keep-it-damp", "keep-it-damp"]
    # the band of 0.05 to 0.5 mg/m3
    assert [after.dry[each].level for each in ("bench", "batch")] == ["enclosed", "paste-only"]
    assert "this studio takes any dust as limited at 0.4 mg/m³" in after.dry["bench"].reasons[0]
    assert own.policy.unlisted_dust.source == OWN_RULES and OWN_RULES in own.source


def test_smaller_amounts_say_so() -> None:
    own = tightened(book(), asking(amounts=AmountCaps(because="small benches", bench=20, batch=500)))
    assert [each.words for each in own.policy.amounts] == ["up to 20 g", "up to 500 g", "over 500 g"]
    assert own.policy.amount(30).id == "batch"


def test_a_room_has_its_own_level_and_its_own_dust_figure() -> None:
    studio = asking(levels=(LevelRule(at_least="paste-only", rooms=("class",), because="a class"),))
    own = tightened(book(), studio)
    ochre = own.pigment["invented-ochre"]
    found = derive(own).pigments["invented-ochre"]
    store, classroom = in_rooms(own, studio, ochre, found)
    assert (store.own_rule, store.level) == (False, found.safety.dry["bench"])
    assert (classroom.own_rule, classroom.level.level) == (True, "paste-only")
    assert store.budget and classroom.budget and store.budget.result and classroom.budget.result
    # The same limit in both: what fills a room goes with its volume.
    assert classroom.budget.result.low == pytest.approx(store.budget.result.low * 140 / 20)
    assert own.room == STORE


def changed(kind: str, entry: str, **fields: Any) -> Catalogue:
    """The book with some fields of one entry changed."""
    here = book()
    held = getattr(here, f"{kind}s")
    new = tuple(replace(each, **fields) if each.id == entry else each for each in held)
    return replace(here, **{f"{kind}s": new})


@pytest.mark.parametrize(
    ("kind", "entry", "fields", "what"),
    [
        ("substance", "lead-compounds", {"limits": ()}, "limit, EU Invented list twa, inhalable"),
        ("substance", "invented-plumbite", {"member_of": ()}, "groups"),
        ("pigment", "invented-ochre", {"testing_a_lot": ()}, "tests of a stocked lot"),
        ("pigment", "invented-ochre", {"review_by": "2031-01-01"}, "review"),
    ],
)
def test_what_an_entry_no_longer_says_is_milder(
    kind: str, entry: str, fields: dict[str, Any], what: str
) -> None:
    after = changed(kind, entry, **fields)
    old, new = getattr(book(), kind)[entry], getattr(after, kind)[entry]
    found = [
        *milder_fields(old, new),
        *(milder_substance(book(), after, entry) if kind == "substance" else ()),
    ]
    assert what in {each.what for each in found}


def test_a_jar_is_milder_when_its_substance_is() -> None:
    after = changed("substance", "lead-compounds", limits=())
    white = book().pigment["invented-heavy-white"]
    found = list(milder_verdicts(book(), safety_of(book(), white), safety_of(after, white)))
    assert {each.what for each in found} == {"limit on this dust, EU Invented list, inhalable"}


def test_nothing_is_milder_than_itself() -> None:
    for jar in book().jars:
        safety = safety_of(book(), jar)
        assert list(milder_verdicts(book(), safety, safety)) == []
        assert list(milder_fields(jar, jar)) == []
    for substance in book().substances:
        assert list(milder_substance(book(), book(), substance.id)) == []


def test_a_cap_above_the_books_is_refused() -> None:
    rooms = "rooms: [{id: store, name: Store, volume: 20}]\n"
    text = f"name: N\n{rooms}policy:\n  dust_caps: {{respirable: 3.9, because: so}}\n"
    document = read_text(text, "studio.yaml")
    studio = load.build(Studio, document.data or {})
    stricter = replace(book().policy, unlisted_dust=replace(book().policy.unlisted_dust, respirable=2))
    here = replace(book(), policies=(stricter,))
    (problem,) = studio_problems(document, studio, here, {})
    assert (problem.code, str(problem.place)) == ("MB741", "studio.yaml:4:27")


def row(number: int, pigment: str | None, **cells: Any) -> Listed:
    jar = Jar(jar=f"N-{number}", pigment=pigment or "unknown", **cells)
    kind = "pigment" if pigment else None
    return Listed(jar=jar, cells={}, row=number, kind=kind, entry=pigment, room=cells.get("room"))


def looked_at(*jars: Listed, studio: Studio = STUDIO) -> Audit:
    own = tightened(book(), studio)
    return audit(own, derive(own), studio, jars, TODAY)


def test_grams_of_an_element_by_hand() -> None:
    """PbCO3: 207.2 / (207.2 + 12.011 + 3 x 15.999) = 0.7754 of it is lead; 90 to 100 % of the white is it."""
    found = looked_at(row(1, "invented-heavy-white", quantity=0.2, unit="kg"))
    (lead,) = [each for each in found.elements if each.symbol == "Pb"]
    assert lead.grams.low == pytest.approx(200 * 0.9 * 0.7754, rel=1e-3)
    assert lead.grams.high == pytest.approx(200 * 0.7754, rel=1e-3)


@given(masses=st.lists(st.tuples(st.floats(0.001, 5000), st.sampled_from(sorted(GRAMS))), max_size=6))
@settings(deadline=None)
def test_totals_are_the_sum_of_their_jars(masses: list[tuple[float, str]]) -> None:
    jars = [row(n, "invented-heavy-white", quantity=mass, unit=unit) for n, (mass, unit) in enumerate(masses)]
    found = looked_at(*jars)
    grams = sum(mass * GRAMS[unit] for mass, unit in masses)
    assert sum(each.grams for each in found.levels) == pytest.approx(grams)
    assert (
        sum(each.jars for each in found.levels) == len(jars) == sum(len(each.jars) for each in found.places)
    )
    for total in found.elements:
        assert total.grams.high == pytest.approx(sum(each.elements[total.symbol].high for each in found.jars))
        assert total.grams.low <= total.grams.high <= grams * (1 + 1e-9)


def test_an_element_is_never_more_than_its_jar() -> None:
    for pigment in book().pigments:
        for held in grams_of_elements(parts(book(), pigment.constituents), 100).values():
            assert 0 <= held.low <= held.high <= 100


def test_what_nobody_knows_is_shut_red_and_in_quarantine() -> None:
    (jar,) = looked_at(row(1, None, quantity=5, unit="g")).jars
    assert (jar.level, jar.is_known) == ("leave-it-shut", False)
    assert jar.red == ("Leave it shut", "unknown powder")


def test_lead_is_on_the_red_list_and_chalk_is_not() -> None:
    found = looked_at(row(1, "invented-heavy-white"), row(2, "invented-chalk"))
    assert [each.listed.key for each in found.red] == ["N-1"]
    assert "lead" in found.red[0].red


@pytest.mark.parametrize(
    ("cells", "review", "sheet"),
    [
        ({"review_due": "2026-11-24", "data_sheet_date": "2026-01-01"}, "overdue", ""),
        ({"review_due": "2026-11-25", "data_sheet_date": "2023-11-26"}, "due soon", ""),
        ({"review_due": "2027-11-25", "data_sheet_date": "2023-11-23"}, "", "old"),
        ({"opened": "2025-11-01"}, "overdue", "missing"),  # a year after it was opened
        ({}, "no day set", "missing"),
    ],
)
def test_what_is_due_is_due_on_the_day(cells: dict[str, str], review: str, sheet: str) -> None:
    (jar,) = looked_at(row(1, "invented-chalk", **cells)).jars
    assert (jar.review, jar.sheet) == (review, sheet)


def test_the_level_goes_by_the_amount_and_the_room() -> None:
    studio = asking(levels=(LevelRule(at_least="paste-only", rooms=("class",), because="a class"),))
    drum, bench, taught = looked_at(
        row(1, "invented-chalk", quantity=3, unit="kg"),
        row(2, "invented-chalk", quantity=3, unit="g"),
        row(3, "invented-chalk", quantity=3, unit="g", room="class"),
        studio=studio,
    ).jars
    assert [each.level for each in (drum, bench, taught)] == ["paste-only", "enclosed", "paste-only"]


def test_a_jar_without_a_mass_counts_at_the_strictest_amount() -> None:
    found = looked_at(row(1, "invented-chalk"), row(2, "invented-chalk", quantity=50, unit="ml"))
    assert {each.level for each in found.jars} == {"paste-only"}
    assert found.not_weighed == ("N-1", "N-2")
