"""The print room: from what was asked to a PDF, kind by kind."""

from __future__ import annotations

import json
from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from mullbook.derive.bench import all_tables
from mullbook.model.catalogue import Catalogue
from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.model.recipes import Recipe
from mullbook.render import print_sheets as views
from mullbook.render.card import SHUT
from mullbook.render.papers import MARGIN, PAPERS, PUNCH, Grid, Paper, insets, sheets
from mullbook.render.print_card import CardMaker
from mullbook.render.print_kinds import Printable
from mullbook.render.print_labels import LabelMaker, Signed
from mullbook.render.print_late import Reviews
from mullbook.render.published import VERSION
from mullbook.text.problem import Problem
from mullbook.text.suggest import nearest
from mullbook.workflow import print_asked as asking
from mullbook.workflow.batches import batch_sheet, find_recipe
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import Roots
from mullbook.workflow.print_asked import Asked, refuse
from mullbook.workflow.print_studio import house_of, in_units, shelf_of
from mullbook.workflow.printing import Fit, Setting, common_data, compiled, pictograms, with_codes, words_of
from mullbook.workflow.safety import label_of
from mullbook.workflow.swap import Refused
from mullbook.workflow.washing import wash
from mullbook.workflow.wording import lacking_problem, strings_of

Tick = Callable[[str, int], None]
INNER = 2.0
"""How far words stay inside a label, mm."""
OVERLAP = 10.0
"""Strip that two sheets of a tiled poster both show, mm."""
TILES = 2
USUAL_WASHING: Mapping[str, Any] = defaultdict(lambda: None, mineral=(), cut="45um,20um,5um")
"""What a washing is asked for where nothing else is said."""
FORM_KINDS = ("pigment", "substance", "binder", "additive", "system", "recipe", "source", "lot")


@dataclass(frozen=True, slots=True)
class Printed:
    """A PDF with what is to be said of it."""

    pdf: bytes
    fits: tuple[Fit, ...]
    warnings: tuple[Problem, ...] = ()
    notes: tuple[str, ...] = ()


class PrintRoom:
    """Prints one thing after another from one catalogue, in one language, for one studio."""

    def __init__(self, loaded: Loaded, roots: Roots, asked: Asked) -> None:
        self.loaded, self.roots, self.asked, self.house = loaded, roots, asked, house_of(loaded)
        self.catalogue: Catalogue = loaded.catalogue
        self.strings = in_units(strings_of(asked.language, self.catalogue, roots), loaded)
        if asked.also and asked.also.strip() == asked.language.strip():
            raise refuse(f"It speaks {asked.also} already: --also takes a second language.")
        self.second = strings_of(asked.also, self.catalogue, roots) if asked.also else None
        self.date = self.catalogue.latest_check or "2000-01-01"
        today = asked.today or date.today().isoformat()
        self.cards = CardMaker(self.catalogue, loaded.derived, self.strings, self.house)
        self.cards.reviews = Reviews(self.catalogue, self.strings, today, asked.packed_late)

    def print(
        self, kind: Printable, names: Sequence[str], tick: Tick = lambda _name, _total: None
    ) -> Printed:
        """The PDF of one kind of thing. Raises `Refused` with what is wrong with the question."""
        makers: dict[str, Callable[[], Setting]] = {
            "card": lambda: self._cards(kind, self._jars(kind, names), tick),
            "cards": lambda: self._cards(kind, self._all(kind, names), tick),
            "poster": lambda: self._poster(kind, names),
            "labels": lambda: self._labels(asking.label_grid(self.asked), kind, names),
            "lid": lambda: self._lids(kind, names),
            "wrap": lambda: self._wraps(kind, names),
            "batch": lambda: self._batch(kind, names),
            "washing": lambda: self._washing(kind, names),
            "form": lambda: self._form(kind, names),
            "sign-off": lambda: self._sign_off(kind, names),
            "drawdown": lambda: self._blank(kind, names),
            "sample-log": lambda: self._blank(kind, names),
        }
        setting = makers[kind.id]()
        pdf, fits = compiled(setting, self.roots)
        lacking = lacking_problem(self.strings, self.strings.lacking, self.roots)
        second = self.second and lacking_problem(self.second, self.second.lacking, self.roots)
        warnings = tuple(each for each in (lacking, second) if each)
        return Printed(
            pdf, tuple(fits), warnings, (*asking.left_out(fits, self.asked), *self.cards.reviews.notes())
        )

    def _none(self, kind: Printable, names: Sequence[str]) -> None:
        if names:
            raise refuse(f"{kind.title}: no name goes with it.", f"Such as `{kind.command}`.")

    def _all(self, kind: Printable, names: Sequence[str]) -> Sequence[Any]:
        self._none(kind, names)
        shelf = {each.id: each for _, each in shelf_of(self.loaded)}
        return list(shelf.values()) or self.catalogue.pigments

    def _jars(self, kind: Printable, names: Sequence[str]) -> list[Any]:
        self._some(kind, names)
        missing = asking.nothing_called(self.catalogue, kind)
        return asking.things(names, lambda words: asking.jar_of(self.catalogue, words), missing)

    def _some(self, kind: Printable, names: Sequence[str]) -> None:
        if not names:
            raise refuse(f"{kind.title}: it takes {kind.takes}.", f"Such as `{kind.command}`.")

    def _data(self, template: str, sections: Iterable[str], title: str, paper: Paper) -> dict[str, Any]:
        words = words_of(template, sections, self.strings, self.roots)
        data = common_data(words, self.strings, self.roots, date=self.date, title=title)
        return {**data, "page": {"width": paper.width, "height": paper.height}}

    def _cards(self, kind: Printable, things: Sequence[Pigment | Binder | Additive], tick: Tick) -> Setting:
        grid = asking.cards_on(asking.paper_for(kind, self.asked), self.asked.up)
        items: list[dict[str, Any]] = []
        for each in things:
            items += with_codes([self.cards.card(each)])
            tick(each.name, len(things) + 1)
        title = self.strings.say("card.title") + (f": {things[0].name}" if len(things) == 1 else "")
        larger = grid.width / PAPERS["A6"].width
        data = {
            **self._data("card.typ", ["card"], title, grid.paper),
            "grid": {"width": grid.width, "height": grid.height, "columns": grid.columns, "rows": grid.rows},
            "margins": {"punch": PUNCH, "edge": MARGIN},
            "text": {"most": round(9 * larger, 2), "least": 4, "foot": round(5.5 * larger**0.7, 2)},
            "code": {"size": round(16.5 * larger**0.7, 1)},
            "poison": self.house.poison_centre,
            "sheets": list(sheets(len(items), grid.count)),
        }
        return Setting("card.typ", data, tuple(items))

    def _poster(self, kind: Printable, names: Sequence[str]) -> Setting:
        self._none(kind, names)
        paper = asking.paper_for(kind, self.asked)
        tiles = None
        if self.asked.tiles:
            paper = (PAPERS["A4"] if paper.name == "A3" else paper).turned
            tiles = {
                "count": TILES,
                "overlap": OVERLAP,
                "words": [
                    self.strings.say("poster.tile", tile=str(at + 1), tiles=str(TILES)) for at in range(TILES)
                ],
            }
        data = {
            **self._data("poster.typ", ["poster"], self.strings.say("poster.title"), paper),
            "poster": views.poster_view(self.strings, self.house, VERSION, self.second, self._late_poster()),
            "margins": {"edge": MARGIN},
            "tiles": tiles,
        }
        return Setting("poster.typ", data)

    def _on_labels(self, kind: Printable, names: Sequence[str]) -> list[dict[str, Any]]:
        self._some(kind, names)
        found = asking.things(
            names,
            lambda words: asking.jar_or_recipe(self.catalogue, self.roots, words),
            asking.nothing_called(self.catalogue, kind),
        )
        items = with_codes([self._label(each) for each in found])
        return [each for each in items for _ in range(self.asked.copies)]

    def _label(self, thing: Any) -> dict[str, Any]:
        maker = LabelMaker(self.cards, self._signed())
        if not isinstance(thing, Recipe):
            return maker.jar(thing)
        asked = self.asked
        sheet = batch_sheet(self.catalogue, thing, asked.scale)
        here, draft = label_of(self.catalogue, sheet, asked.jurisdiction)
        maker.catalogue = here
        return maker.batch(replace(draft, batch=asked.batch, made=asked.made, check_by=asked.check_by))

    def _signed(self) -> Signed | None:
        asked = self.asked
        if bool(asked.signed_by) != bool(asked.signed_on):
            raise refuse("Who signs says when: --signed-by and --signed-on go together.")
        return Signed(asked.signed_by, asked.signed_on) if asked.signed_by and asked.signed_on else None

    def _placed(
        self, template: str, grid: Grid, items: Sequence[dict[str, Any]], title: str, **more: Any
    ) -> Setting:
        """Items on a grid, from the place asked for on, moved by the offsets asked for."""
        asking.checked_places(grid, self.asked)
        placed = [
            [
                {
                    "item": item,
                    "left": grid.place(at)[0],
                    "top": grid.place(at)[1],
                    "inset": insets(grid, at, INNER),
                }
                for item, at in held
            ]
            for held in sheets(len(items), grid.count, self.asked.start)
        ]
        used = {each["id"] for item in items for each in item["pictograms"]}
        drawn = {code: svg for code, svg in pictograms(self.roots.templates).items() if code in used}
        data = {
            **self._data(template, ["label", "card"], title, grid.paper),
            "grid": {"width": grid.width, "height": grid.height},
            "offset": [self.asked.offset_x, self.asked.offset_y],
            "pictograms": drawn,
            "code": {"size": 15},
            "outline": False,
            "glue": 0,
            "sheets": placed,
            **more,
        }
        return Setting(template, data, tuple(items))

    def _labels(self, grid: Grid, kind: Printable, names: Sequence[str]) -> Setting:
        return self._placed("label.typ", grid, self._on_labels(kind, names), kind.title)

    def _lids(self, kind: Printable, names: Sequence[str]) -> Setting:
        grid = asking.lid_grid(asking.paper_for(kind, self.asked), self.asked.diameter)
        return self._placed("lid.typ", grid, self._on_labels(kind, names), kind.title)

    def _wraps(self, kind: Printable, names: Sequence[str]) -> Setting:
        grid = asking.wrap_grid(asking.paper_for(kind, self.asked), self.asked.round)
        items = self._on_labels(kind, names)
        made = self._placed("label.typ", grid, items, kind.title, outline=True, glue=asking.GLUE)
        glued = [
            [{**each, "inset": (INNER, INNER, asking.GLUE + INNER, INNER)} for each in held]
            for held in made.data["sheets"]
        ]
        return replace(made, data={**made.data, "sheets": glued})

    def _sheet(
        self,
        kind: Printable,
        view: dict[str, Any],
        title: str,
        *,
        turned: bool = False,
        paper: Paper | None = None,
    ) -> Setting:
        chosen = paper or asking.paper_for(kind, self.asked)
        chosen = chosen.turned if turned else chosen
        foot = self.strings.say("common.printed-from", version=VERSION, date=self.date)
        data = {
            **self._data("sheet.typ", [kind.id], title, chosen),
            "what": kind.id,
            "view": view,
            "house": self.house.name or "",
            "foot": foot,
            "margins": {"punch": PUNCH, "edge": MARGIN},
        }
        return Setting("sheet.typ", data)

    def _batch(self, kind: Printable, names: Sequence[str]) -> Setting:
        self._some(kind, names)
        recipe = find_recipe(" ".join(names), self.catalogue, self.roots)
        sheet = batch_sheet(self.catalogue, recipe, self.asked.scale)
        label = self._label(recipe)
        view = {**views.batch_view(sheet, self.strings, label["code"]), "late": label["late"]}
        return self._sheet(
            kind, dict(with_codes([view])[0]), f"{self.strings.say('batch.title')}: {recipe.name}"
        )

    def _washing(self, kind: Printable, names: Sequence[str]) -> Setting:
        pigment = self._jars(kind, names)[0] if names else None
        if pigment is not None and not isinstance(pigment, Pigment):
            raise refuse(f"{pigment.name} is no pigment.", "A washing plan takes one pigment, or none.")
        if pigment and self.loaded.derived.pigments[pigment.id].safety.dry["bench"].level == SHUT:
            raise refuse(f"{pigment.name} stays shut: there is no plan for washing it.")
        view = self._washed(pigment) if pigment else views.washing_view("", None, self.strings)
        view["late"] = self.cards.reviews.late(pigment.name, pigment) if pigment else ""
        return self._sheet(kind, view, self.strings.say("washing.title"))

    def _washed(self, pigment: Pigment) -> dict[str, Any]:
        """The plan of a pigment; where none can be reckoned, what is known of its settling."""
        try:
            sheet = wash(self.catalogue, pigment.id, USUAL_WASHING)
        except Refused:
            few = replace(self.catalogue, pigments=(pigment,))
            tables = all_tables(few, self.loaded.derived)[pigment.id]
            return views.washing_view(pigment.name, tables, self.strings)
        level = self.cards.level(self.loaded.derived.pigments[pigment.id].safety.dry["bench"].level)
        return views.wash_view(sheet, sheet.minds, level, self.strings)

    def _form(self, kind: Printable, names: Sequence[str]) -> Setting:
        word = "-".join(names).lower() or "pigment"
        if word not in FORM_KINDS:
            hint = f"Did you mean {nearest(word, FORM_KINDS)[0]}?" if nearest(word, FORM_KINDS) else None
            raise refuse(f"No entry is a {word}.", hint or f"There are {', '.join(FORM_KINDS)}.")
        schemas = {
            path.name: json.loads(path.read_text("utf-8")) for path in self.roots.schema.glob("*.schema.json")
        }
        view = views.form_view(word, schemas, self.strings)
        return self._sheet(kind, view, view["title"], turned=True)

    def _sign_off(self, kind: Printable, names: Sequence[str]) -> Setting:
        rows = shelf_of(self.loaded) if not names else []
        view = views.sign_off_view(rows or [("", each) for each in self._jars(kind, names)], self.cards)
        return self._sheet(kind, view, self.strings.say("sign-off.title"))

    def _blank(self, kind: Printable, names: Sequence[str]) -> Setting:
        self._none(kind, names)
        log = kind.id == "sample-log"
        view = {"rows": views.LOG_ROWS, "high": 10.0} if log else {}
        return self._sheet(kind, view, self.strings.say(f"{kind.id}.title"), turned=log)

    def _late_poster(self) -> str:
        """That the studio's own review is overdue, or that of the rules."""
        return self.cards.reviews.late(self.strings.say("poster.title"), self.house)
