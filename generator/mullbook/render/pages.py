"""Pages from templates: one function an entry kind, one an index page."""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby
from pathlib import Path
from typing import Any

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from markupsafe import Markup

from mullbook.derive.results import Derived
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Pigment
from mullbook.model.values import BASES, FormulaCard, Working
from mullbook.render import card, tally, words
from mullbook.render.links import Links, page_of
from mullbook.render.text import input_text


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

    @cached_property
    def pigments_by_hue(self) -> list[tuple[str, list[Pigment]]]:
        """Hue id and its pigments, hues in the order of the vocabulary, pigments from dark to light."""
        vocabulary = self.catalogue.vocabulary("hues")
        order = [each.id for each in vocabulary.items] if vocabulary else []
        rank = {hue: place for place, hue in enumerate(order)}
        ordered = sorted(
            self.catalogue.pigments,
            key=lambda each: (rank.get(each.hue, len(rank)), each.hue, _lightness(each), each.name),
        )
        return [(hue, list(found)) for hue, found in groupby(ordered, key=lambda each: each.hue)]

    @cached_property
    def holders(self) -> dict[str, list[tuple[str, str, str]]]:
        """Substance id to what holds it: kind, id and name."""
        found: dict[str, list[tuple[str, str, str]]] = {}
        catalogue = self.catalogue
        for thing in (*catalogue.pigments, *catalogue.binders, *catalogue.additives):
            for each in thing.constituents:
                found.setdefault(each.substance, []).append((thing.kind_name, thing.id, thing.name))
        return found

    @cached_property
    def names(self) -> dict[str, tuple[str, str]]:
        """Entry id to kind and name, for lists of users; substances give way to jars of the same id."""
        return {
            each.id: (each.kind_name, each.name)
            for each in (*reversed(self.catalogue.things), *self.catalogue.vocabularies)
        }


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


class Pages:
    """Renders templates with what they may use. Everything is escaped unless a template says otherwise."""

    def __init__(self, site: Site, folder: Path) -> None:
        self.site = site
        self.environment = Environment(
            loader=FileSystemLoader(folder),
            autoescape=True,
            undefined=StrictUndefined,
            trim_blocks=True,
            lstrip_blocks=True,
        )
        self.environment.filters.update(
            number=words.number,
            quantity=words.quantity_text,
            said=words.said,
            sentence=words.sentence,
            basis=words.BASIS_WORDS.__getitem__,
            input=input_text,
            figures=words.range_text,
        )
        self.environment.globals.update(
            site=site,
            catalogue=site.catalogue,
            policy=site.catalogue.policy,
            ruleset=site.catalogue.classification,
            BASES=BASES,
            verdict_words=words.VERDICT_WORDS,
            grade_words=words.GRADE_WORDS,
            tally=tally,
            methods={each.id for each in site.formulas},
            pictogram_names=words.PICTOGRAM_NAMES,
        )

    def entry(self, kind: str, thing: Any, page: str) -> str:
        """The page of one entry."""
        context: dict[str, Any] = {"thing": thing}
        if kind == "pigment":
            context["card"] = card.pigment_card(self.site.catalogue, self.site.derived, thing)
            context["found"] = self.site.derived.pigments[thing.id]
        elif kind in ("binder", "additive"):
            context["card"] = card.product_card(self.site.catalogue, self.site.derived, thing)
            context["safety"] = self.site.derived.products[thing.id]
        elif kind == "substance":
            context["found"] = self.site.derived.substances[thing.id]
        return self._render(f"{kind}.md.j2", page, context)

    def index(self, page: str) -> str:
        """A page that is not of one entry."""
        name = posixpath.splitext(page)[0].replace("/index", "-index")
        return self._render(f"{name}.md.j2", page, {})

    def _render(self, template: str, page: str, context: Mapping[str, Any]) -> str:
        return self.environment.get_template(template).render(
            page=page, link=self._link(page), to=self._entry_link(page), **context
        )

    def _link(self, page: str) -> Callable[..., str]:
        def link(target: str, anchor: str = "") -> str:
            return self.site.links.to(target, page, anchor)

        return link

    def _entry_link(self, page: str) -> Callable[..., Markup]:
        def to(kind: str, entry: str, name: str | None = None) -> Markup:
            """An anchor to an entry, or its bare id where there is no such page."""
            target = page_of(kind, entry)
            if target not in self.site.links:
                return Markup("<code>{}</code>").format(entry)
            return Markup('<a href="{}">{}</a>').format(self.site.links.to(target, page), name or entry)

        return to
