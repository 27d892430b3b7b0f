"""The command on found stones: from what was observed to hazards not ruled out and minerals that fit."""

from __future__ import annotations

from pathlib import Path

import click


@click.command()
@click.argument("observations", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="Print as JSON, with every mineral and hazard.")
@click.pass_obj
def stone(root: Path, observations: tuple[str, ...], *, as_json: bool) -> None:
    """Hold what was seen of a stone against minerals: mullbook stone streak=yellow density=3.4..3.6
    hardness=nail acid=none magnet=no

    Instead of a density the two weighings may be given: air=52.3 water=38.1, with temperature= of the water
    and balance=, how far a reading may be off. It raises flags. It never clears a stone.
    """
    from mullbook.cli import checked
    from mullbook.workflow.stones import stone_answer

    click.echo(stone_answer(checked(root).catalogue, observations, as_json=as_json))
