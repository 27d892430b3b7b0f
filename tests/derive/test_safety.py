"""Verdicts of the design's own list, and what must never make them milder."""

from __future__ import annotations

from dataclasses import replace

import pytest

from mullbook.derive.catalogue import derive
from mullbook.derive.results import Derived
from mullbook.derive.safety import product_safety
from mullbook.model.catalogue import Catalogue
from mullbook.model.values import HazardClass, Hazards

# Studio policy, edition 1: the levels it was written to give, up to 50 g.
LEVELS = {
    "keep-it-damp": (
        "chalk",
        "titanium-white",
        "phthalocyanine-blue",
        "synthetic-red-iron-oxide",
        "ultramarine",
        "prussian-blue",
    ),
    "enclosed": ("yellow-ochre", "raw-umber", "cobalt-blue"),
    "paste-only": ("cadmium-yellow", "lead-white", "unknown-stone"),
    "leave-it-shut": ("vermilion", "unlabelled-jar"),
}


@pytest.mark.parametrize(
    ("level", "pigment"), [(level, each) for level, held in LEVELS.items() for each in held]
)
def test_a_pigment_has_the_level_the_policy_was_written_for(
    derived: Derived, level: str, pigment: str
) -> None:
    assert derived.pigments[pigment].safety.dry["bench"].level == level


def test_cobalt_blue_is_paste_only_above_fifty_grams(derived: Derived) -> None:
    assert derived.pigments["cobalt-blue"].safety.dry["batch"].level == "paste-only"


def test_no_dry_powder_is_ever_at_the_open_bench(derived: Derived) -> None:
    for found in derived.pigments.values():
        assert all(each.level != "open-bench" for each in found.safety.dry.values())


def test_leave_it_shut_holds_in_every_state(derived: Derived) -> None:
    for found in derived.pigments.values():
        if found.safety.dry["bench"].level == "leave-it-shut":
            assert found.safety.wet is not None
            assert found.safety.wet.level == "leave-it-shut", found.id
            assert found.safety.heating is not None
            assert found.safety.heating.id == "no", found.id


def test_more_of_it_is_never_handled_more_freely(catalogue: Catalogue, derived: Derived) -> None:
    for found in derived.pigments.values():
        ranks = [catalogue.policy.rank(found.safety.dry[each].level) for each in ("bench", "batch", "drum")]
        assert ranks == sorted(ranks), found.id


def test_a_class_stated_for_a_product_counts_beside_those_of_its_parts(catalogue: Catalogue) -> None:
    glycerin = catalogue.additive["glycerin"]
    stated = HazardClass(
        hazard="skin-sensitisation",
        category="1",
        statement="H317",
        place="EU",
        standing="supplier-consensus",
        basis="from-memory",
    )
    marked = replace(glycerin, hazards=Hazards(status="classified", classes=(stated,)))
    before, after = product_safety(catalogue, glycerin), product_safety(catalogue, marked)
    assert "H317" not in before.statements
    assert "H317" in after.statements
    assert after.wet is not None
    assert before.wet is not None
    assert catalogue.policy.rank(after.wet.level) >= catalogue.policy.rank(before.wet.level)


def test_a_limit_that_is_only_remembered_can_make_a_level_stricter_and_never_milder(
    catalogue: Catalogue,
) -> None:
    def remembered(mg: float) -> str:
        kaolin = catalogue.substance["calcite"]
        limit = replace(
            kaolin.limits[0],
            value=replace(kaolin.limits[0].value, value=mg, basis="from-memory", source=None),
        )
        changed = replace(
            kaolin, limits=(*kaolin.limits, replace(limit, fraction="inhalable", jurisdiction="EU"))
        )
        held = tuple(changed if each.id == changed.id else each for each in catalogue.substances)
        found = derive(replace(catalogue, substances=held, pigments=(catalogue.pigment["chalk"],)))
        return found.pigments["chalk"].safety.dry["bench"].level

    assert remembered(1000) == "keep-it-damp"
    assert remembered(0.01) == "paste-only"
