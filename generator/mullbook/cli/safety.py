"""Commands on harm: what a thing does in a place and a room, and the label draft of a batch."""

from __future__ import annotations

import sys
from dataclasses import replace
from pathlib import Path

import click

from mullbook.cli.studio import STUDIO

PLACE = click.option("--jurisdiction", help="Place whose lists count: EU, UK, US, US-CA or AU.")
AS_JSON = click.option("--json", "as_json", is_flag=True, help="Print as JSON.")


@click.command()
@click.argument("name", nargs=-1, required=True)
@click.option("--room", help="Volume of the room, m³.")
@click.option("--air-changes", help="Air changes an hour.")
@PLACE
@AS_JSON
@STUDIO
@click.pass_obj
def safety(
    root: Path,
    name: tuple[str, ...],
    *,
    room: str | None,
    air_changes: str | None,
    jurisdiction: str | None,
    as_json: bool,
) -> None:
    """Tell the harm of a thing, with its levels, limits, room, waste and what is not known."""
    from mullbook import workflow
    from mullbook.cli import checked
    from mullbook.workflow import safety as questions

    asked = questions.asked(jurisdiction, room, air_changes)
    loaded = checked(root)
    found = workflow.find(loaded.catalogue, " ".join(name))
    if not isinstance(found, list):
        raise workflow.Refused(found)
    click.echo(questions.safety_answer(loaded.catalogue, loaded.derived, found, asked, as_json=as_json))


@click.command()
@click.argument("recipe")
@PLACE
@click.option("--batch", "number", help="Batch number to print.")
@click.option("--made", help="Day it was made, as YYYY-MM-DD.")
@click.option("--check-by", help="Day to look at it again, as YYYY-MM-DD.")
@AS_JSON
@STUDIO
@click.pass_obj
def label(
    root: Path,
    recipe: str,
    *,
    jurisdiction: str | None,
    number: str | None,
    made: str | None,
    check_by: str | None,
    as_json: bool,
) -> None:
    """Draft the label of a batch, from a recipe file or id. A draft, not a regulatory classification."""
    from mullbook import workflow
    from mullbook.cli import checked
    from mullbook.workflow import batches
    from mullbook.workflow import safety as questions

    asked = questions.asked(jurisdiction)
    roots = workflow.Roots.at(root)
    catalogue = checked(root).catalogue
    sheet = batches.batch_sheet(catalogue, batches.find_recipe(recipe, catalogue, roots), None)
    here, draft = questions.label_of(catalogue, sheet, asked.jurisdiction)
    draft = replace(draft, batch=number, made=made, check_by=check_by)
    click.echo(questions.label_answer(here, draft, as_json=as_json))
    sys.exit(1 if draft.missing else 0)
