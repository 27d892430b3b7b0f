"""The option that names a studio's folder, and the commands on its register."""

from __future__ import annotations

import getpass
import sys
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from mullbook.workflow import Loaded, Roots

KEY = "mullbook.studio"
DAY = click.DateTime(["%Y-%m-%d"])


def _keep(context: click.Context, _parameter: click.Parameter, value: Path | None) -> None:
    if value is not None:
        context.meta[KEY] = value


STUDIO = click.option(
    "--studio",
    type=click.Path(path_type=Path),
    callback=_keep,
    expose_value=False,
    is_eager=True,
    help="Folder of the studio whose own edition is meant.",
)
"""Makes a command one of an edition: what `checked` returns then is the studio's."""
DECIMAL = click.option("--decimal", type=click.Choice(["point", "comma"]), help="Mark before decimals.")
TODAY = click.option("--today", type=DAY, help="The day to look from (default: today).")
WHO = click.option("--who", help="Who looks, for the history (default: the login name).")


def chosen_studio() -> Path | None:
    """The studio's folder that the running command was given, or None for the book itself."""
    found = click.get_current_context().meta.get(KEY)
    return found if isinstance(found, Path) else None


def roots_of(root: Path) -> Roots:
    """The project's folders, with the studio's where one was given."""
    from mullbook.workflow import Roots

    return Roots.at(root, chosen_studio())


@click.command(name="studio")
@click.argument("folder", type=click.Path(path_type=Path))
@click.pass_obj
def begin(root: Path, folder: Path) -> None:
    """Begin the folder of a studio's own edition, outside the book's.

    mullbook new studio ../our-studio
    """
    from mullbook.workflow import Roots
    from mullbook.workflow.new_studio import new_studio

    for path in new_studio(folder, Roots.at(root)):
        click.echo(f"Wrote {path}")
    click.echo(f"Fill in {folder / 'studio.yaml'}, then: mullbook check --studio {folder}")


@click.command()
@STUDIO
@click.option("--since", type=DAY, help="Also list what changed from this day on.")
@click.option("--to", type=click.Path(path_type=Path), help="File to write: .csv, .xlsx or .json.")
@DECIMAL
@TODAY
@WHO
@click.option("--no-record", is_flag=True, help="Do not write changes into the history.")
@click.pass_obj
def audit(
    root: Path,
    *,
    since: Any,
    to: Path | None,
    decimal: str | None,
    today: Any,
    who: str | None,
    no_record: bool,
) -> None:
    """Audit a studio's register: rooms, red list, what is due, quarantine, totals, changes, sign-off.

    What changed since the last audit goes into register-history.jsonl, beside the register.
    """
    from mullbook.render.audit_text import audit_text
    from mullbook.workflow import audits

    loaded = _looked_at(root)
    studio = audits.edition_of(loaded).studio
    day = today.date() if today else date.today()
    since_day = since.date().isoformat() if since else None
    name = None if no_record else who or _login()
    result = audits.audit_of(audits.sound(loaded), day, since=since_day, who=name)
    _warn(result.problems, result.texts)
    if to is not None:
        audits.write_audit(audits.sound(loaded), result.found, to, decimal)
        click.echo(f"Wrote the audit of {len(result.found.jars)} jars to {to}.")
    else:
        click.echo(audit_text(loaded.catalogue, studio, result.found))
    if result.recorded:
        click.echo(f"{result.recorded} changes written into the history by {name}.", err=True)
    sys.exit(1 if loaded.errors else 0)


def _login() -> str:
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):  # a machine without user names
        return "not said"


def _looked_at(root: Path) -> Loaded:
    """The edition; mistakes of the register are told and kept, all others stop here."""
    from mullbook import workflow
    from mullbook.workflow import audits

    loaded = workflow.check(roots_of(root))
    others = audits.sound(loaded).errors
    if others:
        raise workflow.Refused(*others, texts=loaded.texts)
    audits.edition_of(loaded)
    _warn(loaded.edition.register.problems if loaded.edition else (), loaded.texts)
    return loaded


def _warn(problems: Any, texts: Any) -> None:
    from mullbook.text.report import as_text

    if problems:
        click.echo(as_text(problems, texts), err=True)


@click.command()
@STUDIO
@click.option("--to", type=click.Path(path_type=Path), help="Copy the register into this file.")
@click.option("--from", "source", type=click.Path(path_type=Path), help="Put this edited copy in its place.")
@DECIMAL
@TODAY
@WHO
@click.pass_obj
def register(
    root: Path,
    *,
    to: Path | None,
    source: Path | None,
    decimal: str | None,
    today: Any,
    who: str | None,
) -> None:
    """Check a studio's register; copy it out as .csv, .yaml or .xlsx, or take an edited copy in."""
    from mullbook.workflow import audits

    if to is not None and source is not None:
        raise click.UsageError("Give --to or --from, not both.")
    loaded = _looked_at(root)
    if to is not None:
        click.echo(f"Copied {audits.give_out(loaded, to, decimal)} jars to {to}.")
    elif source is not None:
        day = today.date() if today else date.today()
        count, warnings = audits.take_in(
            loaded, roots_of(root), source, decimal=decimal, who=who or _login(), today=day
        )
        _warn(warnings, {})
        click.echo(f"Took in {source}: {count} changes, written into the history.")
        return
    elif loaded.edition is not None and not loaded.errors:
        click.echo(f"{len(loaded.edition.register.jars)} jars, every row whole.")
    sys.exit(1 if loaded.errors else 0)
