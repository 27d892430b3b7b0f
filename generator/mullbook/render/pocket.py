"""The book in one file: a phone cannot open a folder of pages, but it opens this, in flight mode too."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from markupsafe import Markup

from mullbook.model.entities import Additive, Binder, Pigment
from mullbook.render.bench_data import bench_data
from mullbook.render.card import Card, pigment_card, product_card
from mullbook.render.data_files import compact
from mullbook.render.find_data import find_rows, packed
from mullbook.render.lean import open_ended
from mullbook.render.links import Cited
from mullbook.render.pages import Pages

POCKET = "pocket.html"
STYLES = ("site.css", "tools.css", "pocket.css")
SCRIPTS = (
    "formulas.js",
    "prefs.js",
    "tools.js",
    "batch.js",
    "workbench.js",
    "washing.js",
    "find.js",
    "dates.js",
    "units.js",
)
SHAPES = "overrides/partials/shapes.html"
CARRIED = ("pigment", "binder", "additive")
"""Kinds of entries that have a bench card."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """One card with the anchor it stands under."""

    anchor: str
    thing: Pigment | Binder | Additive
    card: Card
    hex: str | None


def pocket(pages: Pages, templates: Path) -> str:
    """Find, every bench card, the workbench, the washing timer and the cautions as one page.

    Parameters: `pages`, which renders templates; `templates`, the folder site_templates/.
    Returns a page that loads nothing. Raises `OSError` where a style or script cannot be read.
    """
    catalogue, derived = pages.site.catalogue, pages.site.derived
    assets = templates / "pages" / "assets"
    found = [row for row in find_rows(catalogue, derived) if row["kind"] in CARRIED]
    rows = [{**row, "url": _anchor(row["url"])} for row in found]
    bench = bench_data(catalogue, derived)
    # Only the room tool asks for limits, and it is not carried.
    for each in bench["pigments"]:
        each.pop("limits", None)
    figures = {"MULLBOOK_FIND": packed(rows), "MULLBOOK_BENCH": bench}
    scripts = [f"window.{name} = {compact(value)};" for name, value in figures.items()]
    scripts += [(assets / "javascripts" / name).read_text(encoding="utf-8") for name in SCRIPTS]
    styles = [(assets / "stylesheets" / name).read_text(encoding="utf-8") for name in STYLES]
    shapes = (templates / SHAPES).read_text(encoding="utf-8")
    written = pages.environment.get_template("pocket.html.j2").render(
        page=POCKET,
        link=_link,
        to=None,
        cited=Cited(catalogue),
        leaves=list(_leaves(pages)),
        styles=Markup(lean_style("\n".join(styles))),
        scripts=[Markup(each.replace("</", "<\\/")) for each in scripts],
        shapes=Markup(pages.environment.from_string(shapes).render(page=None)),
    )
    page, first, rest = "\n".join(_stripped(written)).partition("<script>")
    return f"{open_ended(page)}{first}{rest}\n"


def _stripped(text: str) -> Iterator[str]:
    return (line for each in text.splitlines() if (line := each.strip()))


def _leaves(pages: Pages) -> Iterator[Leaf]:
    catalogue, derived = pages.site.catalogue, pages.site.derived
    for pigment in catalogue.pigments:
        card = pigment_card(catalogue, derived, pigment)
        yield Leaf(f"pigment-{pigment.id}", pigment, card, derived.pigments[pigment.id].hex)
    for product in catalogue.products:
        card = product_card(catalogue, derived, product)
        yield Leaf(f"{product.kind_name}-{product.id}", product, card, None)


def _anchor(url: str) -> str:
    """The place in the one page that stands for a page of the site.

    >>> _anchor("pigments/raw-umber.html")
    '#pigment-raw-umber'
    """
    folder, _, name = url.partition("/")
    return f"#{folder.removesuffix('s')}-{name.removesuffix('.html')}"


def _link(target: str, anchor: str = "") -> str:
    """Where a link of a card leads in the one page; what is not carried leads to the cautions."""
    if target.partition("/")[0].removesuffix("s") in CARRIED:
        return _anchor(target)
    return "#find" if target == "find.html" else "#cautions"


def lean_style(style: str) -> str:
    """A style sheet without its comments and indentation.

    >>> lean_style("/* why */\\n  a { color: red }\\n")
    'a { color: red }'
    """
    bare = re.sub(r"/\*.*?\*/", "", style, flags=re.DOTALL)
    return "\n".join(line for each in bare.splitlines() if (line := each.strip()))
