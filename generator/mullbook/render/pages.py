"""Pages from templates: one function an entry kind, one an index page."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import groupby
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup, escape

from mullbook.derive.audit_results import StudioPages
from mullbook.derive.results import Derived
from mullbook.derive.table_results import Bench, Tables
from mullbook.model.catalogue import Catalogue
from mullbook.model.chemistry import Attack
from mullbook.model.entities import Entity, Pigment, Vocabulary
from mullbook.model.recipes import Recipe
from mullbook.model.values import BASES, FormulaCard, Working
from mullbook.render import audit_words, bench_words, card, tally, wash_text, words
from mullbook.render.audit_text import grams_text
from mullbook.render.charts import Charts
from mullbook.render.compatibility import pairs
from mullbook.render.compiled import COMPILED
from mullbook.render.find_data import found_elements
from mullbook.render.guide_text import helpers
from mullbook.render.harm import Harm
from mullbook.render.ladder import ladders
from mullbook.render.lean import finished
from mullbook.render.links import Cited, Links, medium_page, page_of, short_name
from mullbook.render.practice_text import Practice
from mullbook.render.print_kinds import PRINT_ROOM
from mullbook.render.text import input_text
from mullbook.render.tools import TOOLS, yours

DOWNLOADS: tuple[tuple[str, str, str, Callable[[str], bool]], ...] = (
    (
        "schemas",
        "Schemas",
        "JSON Schemas of the entries and of the published catalogue.",
        lambda path: path.startswith("data/schema/"),
    ),
    (
        "tables",
        "Tables",
        "For a spreadsheet: comma separated, one row a record, with a description of every column.",
        lambda path: path.endswith(".csv") or path.endswith("datapackage.json"),
    ),
    (
        "whole",
        "The whole catalogue",
        "Everything in one file: JSON, the same as a script for pages opened from disk, and SQLite.",
        lambda path: not path.endswith("SUMS"),
    ),
    ("check", "To check a copy", "Digests of all the files above.", lambda path: True),
)
"""Groups of the downloads page; a file goes to the first that takes it."""
ORDER = ("whole", "tables", "schemas", "check")


@dataclass(frozen=True)
class Site:
    """All that pages are made of."""

    catalogue: Catalogue
    derived: Derived
    links: Links
    formulas: tuple[FormulaCard, ...]
    examples: Mapping[str, Working]
    rules: tuple[Any, ...]
    data: tuple[str, ...]
    bench: Bench
    studio: StudioPages | None = None
    """The studio whose edition this is."""

    @cached_property
    def downloads(self) -> list[tuple[str, str, str, list[str]]]:
        """Data files by what they are for: id, title, what they hold, paths. Every file is in one group."""
        left = dict.fromkeys(self.data)
        groups = []
        for name, title, why, fits in DOWNLOADS:
            held = [path for path in left if fits(path)]
            for path in held:
                del left[path]
            groups.append((name, title, why, held))
        return sorted((group for group in groups if group[-1]), key=lambda group: ORDER.index(group[0]))

    @cached_property
    def pigments_by_hue(self) -> list[tuple[str, list[Pigment]]]:
        """Hue id and its pigments, hues in the order of the vocabulary, pigments from dark to light."""
        vocabulary = self.catalogue.vocabulary("hues")
        order = [each.id for each in vocabulary.items] if vocabulary else []
        rank = {hue: place for place, hue in enumerate(order)}
        ordered = sorted(
            self.catalogue.pigments,
            key=lambda each: (
                rank.get(each.hue, len(rank)),
                each.hue,
                each.id not in self.shelf_first,
                _lightness(each),
                each.name,
            ),
        )
        return [(hue, list(found)) for hue, found in groupby(ordered, key=lambda each: each.hue)]

    @cached_property
    def shelf_first(self) -> frozenset[str]:
        """Pigments that a studio has on its shelf, where its edition shows those first."""
        if self.studio is None or self.studio.studio.shelf.show != "first":
            return frozenset()
        return frozenset(entry for kind, entry in self.studio.shelf if kind == "pigment")

    @cached_property
    def harm(self) -> Harm:
        """What the pages on harm list."""
        return Harm(self.catalogue, self.derived)

    def person(self, person: str) -> str:
        """The name of a person something is not for."""
        return next((each.name for each in self.catalogue.policy.persons if each.id == person), person)

    def pigments_at(self, level: str) -> list[Pigment]:
        """Pigments whose dry powder stands at a level, up to the smallest amount."""
        held = self.derived.pigments
        return [each for each in self.catalogue.pigments if held[each.id].safety.dry["bench"].level == level]

    @cached_property
    def holders(self) -> dict[str, list[tuple[str, str, str]]]:
        """Substance id to what holds it: kind, id and name."""
        found: dict[str, list[tuple[str, str, str]]] = {}
        for thing in self.catalogue.jars:
            for each in thing.constituents:
                found.setdefault(each.substance, []).append((thing.kind_name, thing.id, thing.name))
        return found

    @cached_property
    def names(self) -> dict[str, tuple[str, str]]:
        """Entry id to kind and name, for lists of users; substances give way to jars of the same id."""
        catalogue = self.catalogue
        named: tuple[Entity | Vocabulary | Recipe, ...] = (
            *catalogue.recipes,
            *catalogue.systems,
            *catalogue.guides,
            *catalogue.questions,
            *catalogue.faults,
            *catalogue.studio_tests,
            *reversed(catalogue.things),
            *catalogue.vocabularies,
        )
        return {each.id: (each.kind_name, each.name or each.id) for each in named}

    @cached_property
    def all_names(self) -> list[tuple[str, str, str, str]]:
        """Every name that leads to an entry, in alphabetical order: name, kind, id, name of the entry."""
        rows = {
            (name, thing.kind_name, thing.id, thing.name)
            for thing in self.catalogue.things
            for name in (thing.name, *thing.aliases)
        }
        return sorted(rows, key=lambda row: (row[0].casefold(), row))


def _lightness(pigment: Pigment) -> float:
    return pigment.colour.lab[0] if pigment.colour and pigment.colour.lab else 101.0


FILTERS: dict[str, Callable[..., Any]] = {
    "number": words.number,
    "quantity": words.quantity_text,
    "said": words.said,
    "sentence": words.sentence,
    "basis": words.BASIS_WORDS.__getitem__,
    "input": input_text,
    "figures": words.range_text,
    "in_sentence": words.in_sentence,
    "hazard": words.hazard_name,
    "formula": words.formula_html,
    "same_optics": words.same_optics,
    "index_steps": words.index_steps,
    "slug": words.slug,
    "unit_mark": words.unit_mark,
}
"""Filters of the templates that need nothing but what they are given."""
GLOBALS: dict[str, Any] = {
    "verdict_words": words.VERDICT_WORDS,
    "pictogram_names": words.PICTOGRAM_NAMES,
    "grade_words": words.GRADE_WORDS,
    "audit_words": audit_words,
    "grams_text": grams_text,
    "medium_page": medium_page,
    "BASES": BASES,
    "tally": tally,
    "short_name": short_name,
    "tools": TOOLS,
    "print_room": PRINT_ROOM,
}
"""What templates may use that is the same for every catalogue."""


class Pages:
    """Renders templates with what they may use. Everything is escaped unless a template says otherwise."""

    def __init__(self, site: Site, folder: Path) -> None:
        self.site = site
        self.environment = Environment(
            loader=FileSystemLoader(folder),
            autoescape=True,
            extensions=["jinja2.ext.do"],
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
            bytecode_cache=COMPILED,
        )
        filters = FILTERS | bench_words.FILTERS | wash_text.FILTERS
        self.environment.policies["json.dumps_kwargs"] = {"sort_keys": True, "separators": (",", ":")}
        self.environment.filters.update(filters, place=partial(words.place_name, site.catalogue))
        self.environment.globals.update(
            site=site,
            catalogue=site.catalogue,
            policy=site.catalogue.policy,
            ruleset=site.catalogue.classification,
            list_name=partial(words.list_name, site.catalogue),
            methods={each.id for each in site.formulas},
            harm=site.harm,
            **GLOBALS,
            compatible_pairs=partial(pairs, site.catalogue, site.derived),
            found_elements=partial(found_elements, site.catalogue, site.derived),
            charts=Charts(site.catalogue),
            earths=site.bench.earths,
            room_name=words.room_name(site.catalogue),
            room_volume=words.room_volume(site.catalogue),
            cautions={each.id: each.caution for each in site.formulas},
            yours=partial(yours, site.catalogue),
            advice=site.catalogue.advice,
            practice=Practice(site.catalogue, site.derived, site.bench),
            statement_text=partial(words.statement_text, site.catalogue),
        )

    def entry(self, kind: str, thing: Any, page: str) -> str:
        """The page of one entry."""
        context: dict[str, Any] = {"thing": thing}
        if kind == "pigment":
            context["card"] = card.pigment_card(self.site.catalogue, self.site.derived, thing)
            context["found"] = found = self.site.derived.pigments[thing.id]
            context["ladders"] = ladders(self.site.catalogue, found)
            context["tables"] = self.site.bench.tables.get(thing.id, Tables())
            context["starts"] = {each.binder: each for each in found.paint.binders}
            context["suits"] = {each.binder: each for each in thing.suitability}
        elif kind in ("binder", "additive"):
            context["card"] = card.product_card(self.site.catalogue, self.site.derived, thing)
            context["safety"] = self.site.derived.products[thing.id]
        elif kind == "sample":
            context["shown"] = shown = self.site.bench.earths.samples[thing.id]
            context["thing"] = shown.sample
        elif kind in ("guide", "question"):
            context["figures"] = self.site.derived.figures.get(f"{kind}:{thing.id}", {})
        elif kind == "recipe":
            context["sheet"] = self.site.bench.sheets[thing.id]
            context["scales"] = self.site.bench.scales[thing.id]
        elif kind == "substance":
            context["found"] = self.site.derived.substances[thing.id]
        return self._render(f"{kind}.md.j2", page, context)

    def statement(self, code: str, page: str) -> str:
        """The page of one hazard statement: who carries it."""
        return self._render("safety/statement.md.j2", page, {"code": code})

    def medium(self, attack: Attack, page: str) -> str:
        """The page of one attack: what it does to each class of pigment."""
        return self._render("medium.md.j2", page, {"attack": attack})

    def index(self, page: str) -> str:
        """A page that is not of one entry."""
        name = posixpath.splitext(page)[0].replace("/index", "-index")
        return self._render(f"{name}.md.j2", page, {})

    def _render(self, template: str, page: str, context: Mapping[str, Any]) -> str:
        link = self._link(page)
        written = self.environment.get_template(template).render(
            page=page,
            link=link,
            to=self._entry_link(page),
            cited=Cited(self.site.catalogue),
            **helpers(self.site.links, page, link),
            **context,
        )
        return finished(written)

    def _link(self, page: str) -> Callable[..., str]:
        def link(target: str, anchor: str = "") -> str:
            return self.site.links.to(target, page, anchor)

        return link

    def _entry_link(self, page: str) -> Callable[..., Markup]:
        def to(kind: str, entry: str, name: str | None = None) -> Markup:
            """An anchor to an entry; its name alone where an edition leaves it out; else its bare id."""
            target = page_of(kind, entry)
            if target not in self.site.links:
                if name and self.site.links.leaves_out(target):
                    return escape(name)
                return Markup("<code>{}</code>").format(entry)
            return Markup('<a href="{}">{}</a>').format(self.site.links.to(target, page), name or entry)

        return to
