"""PDF without a browser: the views of paper, set by typst with its own faces and ours, not the machine's."""

from __future__ import annotations

import io
import json
import os
import re
import tempfile
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from mullbook.render.published import VERSION
from mullbook.render.strings import Strings
from mullbook.workflow.folders import Roots

SYMBOL = re.compile(r'<symbol id="([^"]+)" viewBox="([^"]+)">(.*?)</symbol>', re.DOTALL)
INK = 'fill="#000" stroke="#000" stroke-width="0"'
"""What .shape of site.css gives a drawing on a page."""
KEY = re.compile(r'"([a-z-]+\.[a-z0-9-]+)"')
QUIET = 4
"""Light modules round a square code; with fewer, readers fail. Source: ISO/IEC 18004."""
CORRECTION = "M"
LIBRARY = "lib.typ"
FONTS = "fonts"
"""Faces that the compiler does not bring; those of the machine are never used."""


@dataclass(frozen=True, slots=True)
class Setting:
    """One file to be set: its template, what the template reads, and the items that go in one by one."""

    template: str
    data: Mapping[str, Any]
    items: tuple[Any, ...] = ()


@dataclass(frozen=True, slots=True)
class Fit:
    """How one piece of text came out: at which size (pt), how high, and how much room it had."""

    name: tuple[str, ...]
    size: float
    height: float
    place: float
    left_out: int = 0
    """Blocks of a label that found no room."""


@cache
def shapes(templates: Path) -> Mapping[str, str]:
    """The site's drawings of levels, actions and waste routes, by id, as SVG in ink."""
    text = (templates / "overrides" / "partials" / "shapes.html").read_text(encoding="utf-8")
    return {
        name: f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" {INK}>{body}</svg>'
        for name, box, body in SYMBOL.findall(text)
    }


@cache
def pictograms(templates: Path) -> Mapping[str, str]:
    """The pictograms by code, as SVG."""
    folder = templates / "pages" / "assets" / "pictograms"
    return {path.stem: path.read_text(encoding="utf-8") for path in sorted(folder.glob("GHS*.svg"))}


def code_svg(text: str) -> str:
    """A square code of a text as SVG, one unit a module, with its quiet zone."""
    import segno

    made = segno.make(text, error=CORRECTION, micro=False, boost_error=True)
    out = io.BytesIO()
    made.save(
        out, kind="svg", border=QUIET, omitsize=True, xmldecl=False, nl=False, svgclass=None, lineclass=None
    )
    return out.getvalue().decode("utf-8")


def common_data(
    words: Mapping[str, str], strings: Strings, roots: Roots, *, date: str, title: str
) -> dict[str, Any]:
    """What every template reads: its words, the drawings, the language, the day that stands in the file."""
    return {
        "words": words,
        "shapes": shapes(roots.templates),
        "language": strings.language,
        "author": f"Mullbook {VERSION}",
        "date": [int(part) for part in date.split("-")],
        "title": title,
    }


def keys_in(text: str) -> list[str]:
    """Keys of words that a template names."""
    return [each for each in dict.fromkeys(KEY.findall(text)) if not each.endswith(".typ")]


def words_of(template: str, sections: Iterable[str], strings: Strings, roots: Roots) -> dict[str, str]:
    """The words a template names, of the sections given and those that all share."""
    text = "".join((roots.templates / "print" / name).read_text("utf-8") for name in (template, LIBRARY))
    wanted = {"common", *sections}
    return {key: strings.say(key) for key in keys_in(text) if key.partition(".")[0] in wanted}


def compiled(setting: Setting, roots: Roots) -> tuple[bytes, list[Fit]]:
    """The PDF of a setting and how each piece of text fitted; the same bytes for the same input.

    Items go in one by one: what a function of the template holds is hashed at every call, and all cards at
    once would be hashed for each of them.
    """
    import typst

    folder = roots.templates / "print"
    compiler = typst.Compiler(
        str(folder / setting.template),
        root=str(folder),
        font_paths=[str(folder / FONTS)],
        ignore_system_fonts=True,
        sys_inputs=_inputs(setting),
    )
    pdf = compiler.compile(format="pdf", pdf_standards=["ua-1"])
    assert isinstance(pdf, bytes)
    found = json.loads(compiler.query("<fit>", field="value"))
    return pdf, [Fit(**{**each, "name": tuple(each["name"])}) for each in found]


def _inputs(setting: Setting) -> dict[str, str]:
    items = {f"item-{at}": _json(each) for at, each in enumerate(setting.items)}
    return {"data": _json(setting.data), **items}


def _json(data: Any) -> str:
    return json.dumps(data, ensure_ascii=False, sort_keys=True)


def write_whole(path: Path, content: bytes) -> None:
    """Write a file beside its last version and swap, so that no half of it is ever there."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}-", dir=path.parent)
    beside = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        beside.chmod(0o644)
        beside.replace(path)
    except BaseException:
        beside.unlink(missing_ok=True)
        raise


def with_codes(items: Sequence[dict[str, Any]]) -> tuple[dict[str, Any], ...]:
    """Items with the square code of their text drawn."""
    return tuple({**each, "code_svg": code_svg(each["code"])} for each in items)
