"""The command that makes a stick, and holds one against its list."""

from __future__ import annotations

import sys
import tempfile
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from mullbook.cli.studio import STUDIO, roots_of

if TYPE_CHECKING:
    from mullbook.render.stick import Edition
    from mullbook.workflow import Loaded
    from mullbook.workflow.packing import Packed, Prints

DAY = click.DateTime(["%Y-%m-%d"])


@click.command()
@click.option("--to", type=click.Path(path_type=Path), help="Folder or .zip file to write.")
@click.option(
    "--verify", type=click.Path(path_type=Path), help="Hold a folder or .zip file against its list."
)
@click.option("--with-cards", is_flag=True, help="Print every bench card as well (a minute or so).")
@click.option("--overdue-anyway", is_flag=True, help="Pack although reviews are overdue; every page says so.")
@click.option("--today", type=DAY, help="The day that reviews are judged by (default: today).")
@STUDIO
@click.pass_obj
def pack(
    root: Path,
    *,
    to: Path | None,
    verify: Path | None,
    with_cards: bool,
    overdue_anyway: bool,
    today: Any,
) -> None:
    """Make a stick: the site, prints and data with a start page, digests and a page that checks them.

    With --verify, say in words which files of a stick are missing, altered or added.
    """
    if (to is None) == (verify is None):
        raise click.UsageError("Give --to a folder or .zip file to pack, or --verify a packed one.")
    if verify is not None:
        _verify(verify)
        return
    assert to is not None
    from mullbook.workflow.packing import Prints

    day = today.date() if today else date.today()
    loaded, edition = _edition(root, day, anyway=overdue_anyway)
    late = min((each.due for each in edition.overdue), default=None)
    prints = Prints(("poster", "cards") if with_cards else ("poster",), day, late)
    in_one_file = to.suffix.lower() == ".zip"
    packed = (_packed_zip if in_one_file else _packed)(root, to, loaded, edition, prints)
    click.echo(f"Packed {packed.files} files, {packed.megabytes:.1f} MB, into {to}.")
    if edition.overdue:
        click.echo(f"Every page says: {edition.overdue_words}")
    click.echo(f"Digest of its list, to write on the stick: {packed.number}")


def _verify(path: Path) -> None:
    from mullbook.text.report import as_text
    from mullbook.workflow.stick import held_problems, verify

    held = verify(path)
    if held.is_whole:
        click.echo(f"All {held.listed} files are here, as they were packed, and none was added.")
        click.echo(f"Digest of its list: {held.number}")
        return
    click.echo(as_text(list(held_problems(held, str(path))), {}, colour=False), nl=False)
    missing, altered, added = len(held.missing), len(held.altered), len(held.added)
    click.echo(f"This copy is not whole: {missing} missing, {altered} altered, {added} added.")
    sys.exit(1)


def _edition(root: Path, today: date, *, anyway: bool) -> tuple[Loaded, Edition]:
    """What is packed. Stops where entries hold errors or, unless told otherwise, reviews are overdue."""
    from mullbook.cli import checked
    from mullbook.render.site import edition_line
    from mullbook.render.stick import Edition
    from mullbook.workflow.packing import overdue, refuse_overdue

    loaded = checked(root)
    late = overdue(loaded, today)
    if late and not anyway:
        refuse_overdue(loaded, roots_of(root), late)
    line = edition_line(loaded.catalogue)
    name = loaded.edition.studio.title if loaded.edition else "Mullbook"
    return loaded, Edition(name, line["version"], line["edition"], line["checked"], late)


def _packed(root: Path, to: Path, loaded: Loaded, edition: Edition, prints: Prints) -> Packed:
    from mullbook.workflow import built_beside

    with built_beside(to) as folder:
        return _filled(root, folder, loaded, edition, prints)


def _packed_zip(root: Path, to: Path, loaded: Loaded, edition: Edition, prints: Prints) -> Packed:
    from mullbook.workflow.packing import refuse_foreign_zip, zip_stick

    refuse_foreign_zip(to)
    to.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="mullbook-pack-") as made:
        packed = _filled(root, Path(made), loaded, edition, prints)
        zip_stick(Path(made), to, edition.top, edition.checked)
    return packed


def _filled(root: Path, folder: Path, loaded: Loaded, edition: Edition, prints: Prints) -> Packed:
    from mullbook.cli import _build_site, _with_progress
    from mullbook.workflow.packing import SITE, finish_stick, print_into

    roots = roots_of(root)
    _with_progress(lambda tick: _build_site(root / "mkdocs.yml", folder / SITE, tick))
    _with_progress(lambda tick: print_into(folder, loaded, roots, prints, tick))
    return finish_stick(folder, edition, roots.templates)
