"""What the tests of the print room share: what was printed, and ways to look at it."""

from __future__ import annotations

import io
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from multiprocessing import get_context
from pathlib import Path
from unittest.mock import patch

import pypdf
import pypdfium2
import zxingcpp
from PIL import Image

from mullbook.workflow import Loaded, Roots, check, print_room
from mullbook.workflow.print_asked import (
    Asked,
    printable,
)
from mullbook.workflow.print_room import Printed, PrintRoom
from mullbook.workflow.printing import (
    Fit,
    Setting,
    compiled,
)
from tests.conftest import ROOT

ROOTS = Roots.at(ROOT)
GOLDEN = Path(__file__).parent / "golden"
POINT = 25.4 / 72
LONGEST = ("cobalt-violet-ammonium", "raw-umber", "lead-white", "unlabelled-jar")
READABLE = 6.0
"""Size of type, pt, below which nobody reads a card at the bench."""
CONTRAST = 4.5
HAIR = 0.7
"""Half a frame's stroke, letters that rise above capitals, and a dot of the picture, mm."""


MANY = 20
"""Items from which a job is set in a process of its own."""


def set_apart(setting: Setting, roots: Roots) -> tuple[bytes, list[Fit]]:
    """Set a big job in a process of its own, with which the gigabytes end that the compiler keeps of it."""
    if len(setting.items) < MANY:
        return compiled(setting, roots)
    with ProcessPoolExecutor(1, mp_context=get_context("spawn")) as pool:
        return pool.submit(compiled, setting, roots).result()


@cache
def loaded() -> Loaded:
    found = check(ROOTS)
    assert not found.errors
    return found


@cache
def printed(what: str, names: tuple[str, ...] = (), asked: Asked | None = None) -> Printed:
    with patch.object(print_room, "compiled", set_apart):
        return PrintRoom(loaded(), ROOTS, asked or Asked()).print(printable(what), names)


def reader(made: Printed) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(made.pdf))


def text_of(made: Printed) -> str:
    return "\n".join(page.extract_text() for page in reader(made).pages)


def picture(made: Printed, page: int = 0, dots: int = 300) -> Image.Image:
    shown = pypdfium2.PdfDocument(made.pdf)[page].render(scale=dots / 72).to_pil()
    assert isinstance(shown, Image.Image)
    return shown


def codes_on(made: Printed, page: int) -> list[str]:
    return [each.text for each in zxingcpp.read_barcodes(picture(made, page))]
