"""Commands of the print room: what can be printed, on which paper, in which words."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import click

from mullbook.cli.studio import STUDIO


def millimetres(text: str) -> float:
    """A number with a decimal point or comma, with or without its unit.

    >>> millimetres("1,5 mm"), millimetres("-0.5")
    (1.5, -0.5)
    """
    try:
        return float(str(text).lower().removesuffix("mm").strip().replace(",", "."))
    except ValueError:
        raise click.BadParameter(f"{text} is no number of millimetres.") from None


def day(_context: click.Context, _parameter: click.Parameter, text: str | None) -> str | None:
    """A day as it was written, held to be one."""
    try:
        return date.fromisoformat(text).isoformat() if text else None
    except ValueError:
        raise click.BadParameter(f"{text} is no day such as 2026-11-25.") from None


Options = Callable[[Callable[..., Any]], Callable[..., Any]]
OPTIONS: tuple[Options, ...] = (
    click.option("--to", type=click.Path(path_type=Path), help="PDF to write."),
    click.option("--paper", help="A6, A5, A4, A3 or Letter."),
    click.option("--up", type=int, default=1, show_default=True, help="Cards to a sheet: 1, 2 or 4."),
    click.option("--sheet", help="Label sheet, such as 21-up or 63.5x38.1."),
    click.option("--start", type=int, default=1, show_default=True, help="First free label of the sheet."),
    click.option("--offset-x", type=millimetres, default=0.0, help="Move everything right by so many mm."),
    click.option("--offset-y", type=millimetres, default=0.0, help="Move everything down by so many mm."),
    click.option("--copies", type=int, default=1, show_default=True, help="Of each label."),
    click.option(
        "--diameter", type=millimetres, default=50.0, show_default=True, help="Of a lid, 40 to 63 mm."
    ),
    click.option(
        "--round", type=millimetres, default=85.0, show_default=True, help="Round a tube, 80 to 88 mm."
    ),
    click.option("--tiles", is_flag=True, help="The poster on two smaller sheets, to be glued."),
    click.option("--lang", "language", default="en", show_default=True, help="Language of the words."),
    click.option("--also", help="Second language of the poster."),
    click.option("--scale", help="Of a batch: a factor such as 10, or a mass of pigment such as 500g."),
    click.option("--jurisdiction", help="Place whose lists count: EU, UK, US, US-CA or AU."),
    click.option("--batch", help="Batch number on a label."),
    click.option("--made", help="Day it was made, as YYYY-MM-DD."),
    click.option("--check-by", help="Day to look at it again, as YYYY-MM-DD."),
    click.option("--signed-by", help="Who classified it and signs; without, a label is a draft."),
    click.option("--signed-on", help="Day of the signature, as YYYY-MM-DD."),
    click.option("--today", callback=day, help="The day that reviews are judged by (default: today)."),
)


def with_options(command: Callable[..., Any]) -> Callable[..., Any]:
    """A command with all options of the print room, in the order of the list."""
    for option in reversed(OPTIONS):
        command = option(command)
    return command


@click.command("print")
@click.argument("what", required=False)
@click.argument("names", nargs=-1)
@with_options
@STUDIO
@click.pass_obj
def print_(root: Path, /, what: str | None, names: tuple[str, ...], to: Path | None, **options: Any) -> None:
    """Print cards, labels, posters and sheets as PDF. Without WHAT: list what can be printed."""
    if what is None:
        click.echo(_listing())
        return
    from mullbook.workflow.print_asked import Asked, pdf_path, printable

    kind = printable(what)
    path = pdf_path(to, kind)
    _print(root, kind, names, Asked(**options), path)


def _listing() -> str:
    from mullbook.render.print_kinds import PRINTABLE

    lines = ["What can be printed:"]
    for each in PRINTABLE:
        lines += [f"  {each.id:<11} {each.says}", f"  {'':<11} {each.command}"]
    return "\n".join(lines)


def _print(root: Path, kind: Any, names: tuple[str, ...], asked: Any, path: Path) -> None:
    from mullbook.cli import _with_progress, checked, warn
    from mullbook.cli.studio import roots_of
    from mullbook.workflow.print_room import PrintRoom
    from mullbook.workflow.printing import write_whole

    printed: list[Any] = []

    def run(tick: Callable[[str, int], None]) -> None:
        room = PrintRoom(checked(root), roots_of(root), asked)
        printed.append(room.print(kind, names, tick))

    _with_progress(run)
    write_whole(path, printed[0].pdf)
    warn(*printed[0].warnings)
    for note in printed[0].notes:
        click.echo(note, err=True)
    click.echo(f"Wrote {path}.")


@click.command()
@click.argument("language")
@click.pass_obj
def words(root: Path, language: str) -> None:
    """List what a language of the print room still lacks, as lines ready to be filled in."""
    from mullbook.cli import checked, warn
    from mullbook.render.strings import missing
    from mullbook.workflow import Roots, wording

    roots = Roots.at(root)
    strings = wording.strings_of(language, checked(root).catalogue, roots)
    click.echo(wording.words_report(strings))
    warn(wording.lacking_problem(strings, missing(strings), roots))
