"""`mullbook new KIND`: starter files. Other things to begin, such as a studio, are added as subcommands."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

KINDS = (
    "pigment",
    "substance",
    "binder",
    "additive",
    "system",
    "recipe",
    "source",
    "sample",
    "guide",
    "question",
    "fault",
    "studio-test",
)
"""Kinds of entry with a starter file; each becomes a command unless a command of that name was added."""


class Kinds(click.Group):
    """Subcommands added by hand, and one for each kind of entry."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """All that can be begun."""
        return [*KINDS, *(each for each in super().list_commands(ctx) if each not in KINDS)]

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """A command added by hand, else that of a kind."""
        name = cmd_name.strip().lower().replace("_", "-").replace(" ", "-")
        added = super().get_command(ctx, name)
        return added or (_of_kind(name) if name in KINDS else None)

    def resolve_command(self, ctx: click.Context, args: list[str]) -> Any:
        """The command meant, or in words which there are."""
        if args and self.get_command(ctx, args[0]) is None and not args[0].startswith("-"):
            from mullbook.workflow import Refused
            from mullbook.workflow.starting import no_such_kind

            raise Refused(no_such_kind(args[0], self.list_commands(ctx)))
        return super().resolve_command(ctx, args)


@click.group(cls=Kinds)
def new() -> None:
    """Begin an entry: a file with every field, a line on each, and nothing filled in.

    mullbook new sample "Yellow earth 8"
    """


def _of_kind(kind: str) -> click.Command:
    article = "an" if kind[0] in "aeiou" else "a"

    @click.command(
        kind, help=f"Write the starter file of {article} {kind}, by id or name; overwrites nothing."
    )
    @click.argument("words", nargs=-1)
    @click.option("--to", type=click.Path(path_type=Path), help="Folder to write into (default: its own).")
    @click.pass_obj
    def begin(root: Path, words: tuple[str, ...], *, to: Path | None) -> None:
        from mullbook.workflow import Roots
        from mullbook.workflow.starting import start_entry

        path = start_entry(kind, " ".join(words), Roots.at(root), to)
        click.echo(f"Wrote {path}. Fill in what is open, then: mullbook check {path}")

    return begin
