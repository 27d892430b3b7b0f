"""What the pages on faults, studio tests, systems and chemistry are made of."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from mullbook.derive.practice_results import ByClass, ClassSays, Worked
from mullbook.derive.results import Derived, DerivedPigment
from mullbook.derive.table_results import Bench, PaintRow
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import STRICTNESS, Attack, ChemistryClass, ClassVerdict
from mullbook.model.entities import Pigment
from mullbook.model.practice import Cause, GeneralFault, StudioTest
from mullbook.model.recipes import System
from mullbook.model.values import Quantity

STAGES: dict[str, str] = {
    "powder": "In the powder",
    "paste": "In the paste",
    "let-down": "When the binder goes in",
    "storage": "In the pot or tube",
    "painting": "While painting and drying",
    "dry-film": "On the dry paint",
}
"""Stages at which a fault shows, in the order of the work."""
OUTCOMES = {"mend": "can be mended", "discard": "discard", "live-with": "live with it"}
SHOWN = (
    "yellow-ochre",
    "raw-umber",
    "synthetic-red-iron-oxide",
    "titanium-white",
    "ultramarine",
    "bone-black",
)
"""Pigments whose numbers stand on a system's page for those without scripts: light, heavy, thirsty."""
MARKS = {"suits": "●", "test-first": "◐", "unsuitable": "○"}
"""Shape of a verdict in a narrow table; the word stands behind it for those who hear the page."""


@dataclass(frozen=True)
class Practice:
    """Helpers of the templates."""

    catalogue: Catalogue
    derived: Derived
    bench: Bench

    @cached_property
    def stages(self) -> list[tuple[str, str, list[GeneralFault]]]:
        """Stage, its words, and the faults that show there; a fault stands at each of its stages."""
        faults = sorted(self.catalogue.faults, key=lambda each: each.name.casefold())
        found = [
            (stage, words, [each for each in faults if stage in each.seen_in.stages])
            for stage, words in STAGES.items()
        ]
        return [each for each in found if each[-1]]

    def own_faults(self, fault: GeneralFault) -> Iterator[tuple[System, int, str]]:
        """Faults of the systems' own pages that are this one there: system, place on its page, symptom."""
        for system in sorted(self.catalogue.systems, key=lambda each: each.name):
            for place, each in enumerate(system.faults, start=1):
                if each.general == fault.id:
                    yield system, place, each.symptom

    def systems_of(self, kinds: tuple[str, ...]) -> list[System]:
        """The systems of some kinds, by name."""
        held = [each for each in self.catalogue.systems if each.kind in kinds]
        return sorted(held, key=lambda each: each.name)

    def checked_by(self, test: StudioTest) -> list[GeneralFault]:
        """The faults one of whose causes this test finds."""
        return [
            each
            for each in self.catalogue.faults
            if any(cause.check.test == test.id for cause in each.causes)
        ]

    def worked_for(self, fault: GeneralFault, cause: Cause) -> Worked | None:
        """The number worked out for one cause."""
        asked = [each for each in fault.causes if each.work]
        held = self.derived.worked.get(fault.id, ())
        return next((found for each, found in zip(asked, held, strict=False) if each is cause), None)

    def stage_words(self, stage: str) -> str:
        """A stage in words."""
        return STAGES[stage]

    def outcome(self, outcome: str) -> str:
        """An outcome in words."""
        return OUTCOMES[outcome]

    def mark(self, verdict: str) -> str:
        """The shape of a verdict."""
        return MARKS[verdict]

    @property
    def attacks(self) -> tuple[Attack, ...]:
        """What may harm a pigment, in order."""
        book = self.catalogue.vocabulary("chemistry")
        return book.attacks if book else ()

    @property
    def classes(self) -> tuple[ChemistryClass, ...]:
        """The classes of pigment, in order."""
        book = self.catalogue.vocabulary("chemistry")
        return book.classes if book else ()

    @cached_property
    def members(self) -> dict[str, list[Pigment]]:
        """Class id to its pigments, by name."""
        found: dict[str, list[Pigment]] = {each.id: [] for each in self.classes}
        for pigment in sorted(self.catalogue.pigments, key=lambda each: each.name.casefold()):
            for each in self.derived.pigments[pigment.id].chemistry.classes:
                found[each].append(pigment)
        return found

    def against(self, attack: str) -> list[tuple[str, list[tuple[ChemistryClass, ClassVerdict]]]]:
        """Verdict and the classes it is said of, worst first."""
        held = [(each, said) for each in self.classes if (said := each.against(attack)) is not None]
        by = {
            verdict: [pair for pair in held if pair[1].verdict == verdict] for verdict in reversed(STRICTNESS)
        }
        return [(verdict, pairs) for verdict, pairs in by.items() if pairs]

    def by_attack(self, found: DerivedPigment) -> tuple[list[Attack], list[tuple[Attack, ClassSays]]]:
        """The attacks that a pigment stands, and the others with what is said; so is one that is disputed."""
        said = [
            (each, found.chemistry.said[each.id]) for each in self.attacks if each.id in found.chemistry.said
        ]
        plain = [each for each, says in said if says.verdict.verdict == "suits" and not says.verdict.others]
        return plain, [(each, says) for each, says in said if each not in plain]

    def by_class(self, found: DerivedPigment) -> list[tuple[str, list[tuple[str, ByClass]]]]:
        """Verdict by class and the binders it is for, mildest first."""
        by = {
            verdict: [
                (name, each) for name, each in found.chemistry.binders.items() if each.verdict == verdict
            ]
            for verdict in STRICTNESS
        }
        return [(verdict, pairs) for verdict, pairs in by.items() if pairs]

    @staticmethod
    def spread(quantity: Quantity) -> list[float]:
        """Lowest and highest figure of a quantity with those that disagree: from the first to the most."""
        ends = [end for each in (quantity, *quantity.also) for end in each.ends if end is not None]
        return [min(ends), max(ends)]

    def starts(self, system: System) -> list[tuple[Pigment, PaintRow]]:
        """Numbers of a few pigments in a system's binders, for readers without scripts."""
        return [
            (self.catalogue.pigment[name], row)
            for name in SHOWN
            if name in self.catalogue.pigment
            for row in self.bench.tables[name].rows
            if row.binder in system.binders and self._aims_at(system, row)
        ]

    def _aims_at(self, system: System, row: PaintRow) -> bool:
        """Whether a row is of this way of painting: where several use one binder the row names each."""
        users = [each for each in self.catalogue.systems if row.binder in each.binders]
        return len(users) == 1 or any(
            part.split(",")[0].strip() == system.name.lower() for part in row.finish.split(";")
        )
