"""Commands of the print room: what can be printed, in which words."""

from __future__ import annotations

from pathlib import Path

import click


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
