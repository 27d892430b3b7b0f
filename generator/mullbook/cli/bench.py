"""Commands of the bench: a batch worked out, corrected, scaled, recorded."""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

import click

from mullbook.cli.studio import STUDIO

LOTS = click.option(
    "--lot",
    "lots",
    multiple=True,
    type=click.Path(path_type=Path),
    help="File with figures you measured on your lot; may be given again.",
)


@click.command()
@click.argument("recipe", required=False)
@click.option("--have", type=click.Path(path_type=Path), help="File with a batch as weighed: what to add.")
@click.option("--scale", help="A factor such as 10, or a mass of pigment such as 500g or 2kg.")
@click.option("--json", "form", flag_value="json", help="Print as JSON.")
@click.option("--csv", "form", flag_value="csv", help="Print what to weigh as CSV.")
@click.option("--csv-comma", "form", flag_value="csv-comma", help="CSV with semicolons and decimal commas.")
@click.option("--record", type=click.Path(path_type=Path), help="Folder to keep a numbered, dated record in.")
@LOTS
@STUDIO
@click.pass_obj
def batch(
    root: Path,
    recipe: str | None,
    *,
    have: Path | None,
    scale: str | None,
    form: str | None,
    record: Path | None,
    lots: tuple[Path, ...],
) -> None:
    """Work out a batch from a recipe file or id; with --have, what to add to one as weighed."""
    from mullbook.cli import checked
    from mullbook.workflow import Roots, batches

    if (recipe is None) == (have is None):
        raise click.UsageError("Give a recipe, or --have FILE.")
    roots = Roots.at(root)
    catalogue = batches.with_lot_files(checked(root), lots, roots).catalogue
    if have is not None:
        _correct(batches, have, catalogue, roots, form)
        return
    sheet = batches.batch_sheet(catalogue, batches.find_recipe(str(recipe), catalogue, roots), scale)
    ground = batches.grinding(catalogue, sheet)
    click.echo(_shown(sheet, form, ground), nl=form not in ("csv", "csv-comma"))
    if record is not None and not sheet.missing:
        path = batches.write_record(record, sheet.recipe.id, _shown(sheet, "json") + "\n")
        click.echo(f"Recorded in {path}.", err=True)
    sys.exit(1 if sheet.missing else 0)


def _shown(sheet: Any, form: str | None, ground: Any = None) -> str:
    from mullbook.render import batch_sheet

    if form == "json":
        return json.dumps(batch_sheet.sheet_data(sheet), ensure_ascii=False, indent=2)
    if form in ("csv", "csv-comma"):
        return batch_sheet.sheet_csv(sheet, semicolon=form == "csv-comma")
    return batch_sheet.sheet_text(sheet, ground)


def _correct(batches: Any, have: Path, catalogue: Any, roots: Any, form: str | None) -> None:
    from mullbook.render import batch_sheet

    _, found = batches.batch_corrections(have, catalogue, roots)
    if form == "json":
        click.echo(json.dumps(batch_sheet.corrections_data(found), ensure_ascii=False, indent=2))
    else:
        click.echo(batch_sheet.corrections_text(found))
