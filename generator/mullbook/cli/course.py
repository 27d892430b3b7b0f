"""The command that makes a handout for a class."""

from __future__ import annotations

from pathlib import Path

import click

from mullbook.cli.studio import STUDIO, roots_of


@click.command()
@click.argument("course", type=click.Path(path_type=Path))
@click.option("--to", required=True, type=click.Path(path_type=Path), help="Folder to write.")
@STUDIO
@click.pass_obj
def course(root: Path, course: Path, *, to: Path) -> None:
    """Make a handout from a course file: a few pages, questions from the data, and an answer sheet."""
    from mullbook import workflow
    from mullbook.cli import checked
    from mullbook.workflow import courses

    roots = roots_of(root)
    loaded = checked(root)
    site = workflow.site_files(loaded, roots)
    read = courses.read_course(course, roots, loaded, site)
    made = courses.make_course(loaded, roots, read, site)
    with workflow.built_beside(to) as folder:
        workflow.write_files(made.files, folder)
    drawn = len(made.asked)
    click.echo(f"Wrote the handout to {to / courses.HANDOUT}, with {drawn} questions.")
    if drawn < read.ask:
        click.echo(f"{read.ask} were asked for; these pigments give no more.")
    if drawn:
        click.echo(f"The answers, with their working, are in {to}: keep them out of the handout.")
