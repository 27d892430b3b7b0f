"""The command line."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper
from pathlib import Path
from typing import TYPE_CHECKING, Any, NoReturn, TextIO

import click

from mullbook.cli.bench import LOTS, batch
from mullbook.cli.course import course
from mullbook.cli.new import new
from mullbook.cli.packing import pack
from mullbook.cli.printing import print_, words
from mullbook.cli.safety import label, safety
from mullbook.cli.stone import stone
from mullbook.cli.studio import STUDIO, audit, begin, chosen_studio, register, roots_of
from mullbook.cli.wash import sieve, wash

if TYPE_CHECKING:
    from mullbook.workflow import Loaded, Problem

FORMS = click.Choice(["text", "json", "annotations"])
OUR_BUG = 2


def root_folder(given: Path | None) -> Path:
    """The project's folder: the one given, else the nearest one upwards that holds entries/."""
    if given is not None:
        return given
    here = Path.cwd()
    found = next((each for each in (here, *here.parents) if _is_project(each)), here)
    return Path(os.path.relpath(found, here))


def _is_project(folder: Path) -> bool:
    """Whether a folder holds the book; a studio's own folder has entries too."""
    return (folder / "entries").is_dir() and not (folder / "studio.yaml").exists()


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.option("--root", type=click.Path(path_type=Path), help="Folder that holds entries/ and schema/.")
@click.version_option(package_name="mullbook")
@click.pass_context
def cli(context: click.Context, root: Path | None) -> None:
    """Pigments for the studio: check the entries, build the offline site, work a number out."""
    context.obj = root_folder(root)


cli.add_command(batch)
cli.add_command(safety)
cli.add_command(label)
cli.add_command(stone)
cli.add_command(wash)
cli.add_command(sieve)
cli.add_command(course)
cli.add_command(pack)
cli.add_command(print_)
cli.add_command(words)
cli.add_command(new)
new.add_command(begin)
cli.add_command(audit)
cli.add_command(register)


@cli.command()
@click.argument("path", required=False, type=click.Path(path_type=Path))
@click.option("--format", "form", type=FORMS, default="text", help="How to print problems.")
@STUDIO
@click.pass_obj
def check(root: Path, path: Path | None, form: str) -> None:
    """Check all entries, or one file or folder."""
    import gc

    gc.disable()  # a run this short is over before collecting pays
    from mullbook import workflow

    loaded = workflow.check_path(roots_of(root), path)
    _print_problems(loaded.problems, loaded.texts, form)
    if not loaded.problems and form == "text":
        click.echo(f"{loaded.count} {'entry' if loaded.count == 1 else 'entries'}, no problems.")
    sys.exit(loaded.exit_code)


def _print_problems(problems: Sequence[Problem], texts: Any, form: str) -> None:
    from mullbook.text import report

    if form == "json":
        click.echo(report.as_json(problems), nl=False)
    elif form == "annotations":
        click.echo(report.as_annotations(problems), nl=False)
    elif problems:
        click.echo(report.as_text(problems, texts, colour=_in_colour(sys.stdout)), nl=False)


def _in_colour(stream: TextIO) -> bool:
    return stream.isatty() and "NO_COLOR" not in os.environ


@cli.command()
@click.argument("code", required=False)
def explain(code: str | None) -> None:
    """Say what a rule's code means, with a bad and a good example. Without a code: list them."""
    from mullbook import workflow

    found = workflow.explain(code)
    if not isinstance(found, str):
        _fail([found])
    click.echo(found)


@cli.command()
@click.argument("formula")
@click.argument("inputs", nargs=-1)
@click.option("--json", "as_json", is_flag=True, help="Print the result as JSON.")
@LOTS
@click.pass_obj
def work(root: Path, formula: str, inputs: tuple[str, ...], *, as_json: bool, lots: tuple[Path, ...]) -> None:
    """Work out a formula: mullbook work cpvc oil_absorption=20..24 density=4.2"""
    from mullbook import workflow
    from mullbook.render.text import working_text

    answer = workflow.work(formula, inputs, _measured(root, lots))
    if isinstance(answer, workflow.Problem):
        _fail([answer])
    click.echo(workflow.working_json(answer) if as_json else working_text(answer))
    sys.exit(1 if answer.result is None else 0)


def _measured(root: Path, lots: tuple[Path, ...]) -> dict[str, Any]:
    """Figures of lot files by the name of the formula input they stand for."""
    if not lots:
        return {}
    from mullbook import workflow
    from mullbook.workflow.batches import measured_inputs

    return measured_inputs(lots, workflow.Roots.at(root))


@cli.command()
@click.argument("name", nargs=-1, required=True)
@LOTS
@STUDIO
@click.pass_obj
def show(root: Path, name: tuple[str, ...], lots: tuple[Path, ...]) -> None:
    """Show what is known of a pigment, binder, additive or substance, by any of its names."""
    from mullbook import workflow
    from mullbook.render.text import card_text

    loaded = checked(root)
    if lots:
        from mullbook.workflow.batches import with_lot_files

        loaded = with_lot_files(loaded, lots, workflow.Roots.at(root))
    found = workflow.find(loaded.catalogue, " ".join(name))
    if not isinstance(found, list):
        _fail([found])
    click.echo("\n\n".join(card_text(loaded.catalogue, loaded.derived, each) for each in found))


@cli.command()
@click.option("--to", type=click.Path(path_type=Path), help="Folder to build into (default: site/).")
@STUDIO
@click.pass_obj
def build(root: Path, to: Path | None) -> None:
    """Build the site beside the last one, then swap: a failed build leaves the last good site whole."""
    from mullbook import workflow

    config = root / "mkdocs.yml"
    with workflow.built_beside(to or root / "site") as folder:
        _with_progress(lambda tick: _build_site(config, folder, tick))
    click.echo(f"Built {to or root / 'site'}. Open {(to or root / 'site') / 'index.html'} in a browser.")


def _build_site(config: Path, folder: Path, tick: Callable[[str, int], None]) -> None:
    from importlib import import_module
    from importlib.metadata import entry_points

    from mullbook import workflow

    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
    # The engine is reached the way it reaches us, as a plugin; nothing here depends on it.
    bridge = next(iter(entry_points(group="mkdocs.plugins", name="mullbook")))
    try:
        import_module(bridge.module).build_site(config, folder, tick, chosen_studio())
    except workflow.NotBuilt as reason:
        said_above = str(reason).startswith("Aborted with")
        why = "" if said_above else f"{reason} "
        raise click.ClickException(f"{why}Nothing was built; what was there before is as it was.") from None


def _with_progress(run: Callable[[Callable[[str, int], None]], None]) -> None:
    """Run long work with a bar on a terminal, silently elsewhere."""
    if not sys.stderr.isatty():
        run(lambda _page, _total: None)
        return
    from rich.console import Console
    from rich.progress import Progress

    with Progress(console=Console(stderr=True), transient=True) as progress:
        task = progress.add_task("Reading the entries", total=None)

        def tick(page: str, total: int) -> None:
            progress.update(task, advance=1, total=total, description=page)

        run(tick)


@cli.command()
@click.option("--port", default=8000, show_default=True, help="Port on this machine.")
@STUDIO
@click.pass_obj
def serve(root: Path, port: int) -> None:
    """Show the site while entries are edited; open pages refresh by themselves."""
    import subprocess

    command = [sys.executable, "-m", "mkdocs", "serve", "--livereload", "--dirty", "-a", f"127.0.0.1:{port}"]
    environment = {**os.environ, "NO_MKDOCS_2_WARNING": "1"}
    if (studio := chosen_studio()) is not None:
        environment["MULLBOOK_STUDIO"] = str(studio.resolve())
    sys.exit(subprocess.call([*command, "-f", str(root / "mkdocs.yml")], env=environment))


@cli.command()
@click.option(
    "--to", required=True, type=click.Path(path_type=Path), help="Folder to write; made if missing."
)
@STUDIO
@click.pass_obj
def pages(root: Path, to: Path) -> None:
    """Write the generated pages as Markdown files and the data beside them."""
    from mullbook import workflow

    loaded = checked(root)
    with workflow.built_beside(to) as folder:
        files = workflow.site_files(loaded, roots_of(root))
        workflow.write_files(files, folder)
    click.echo(f"Wrote {len(files)} files to {to}.")


def checked(root: Path) -> Loaded:
    """The catalogue, or the report of what is wrong with it and exit 1."""
    from mullbook import workflow

    loaded = workflow.check(roots_of(root))
    if loaded.errors:
        _fail(loaded.errors, loaded.texts)
    return loaded


def warn(*problems: Problem | None) -> None:
    """Tell warnings, where there are any, beside what was asked for."""
    from mullbook.text.report import as_text

    told = [each for each in problems if each is not None]
    if told:
        click.echo(as_text(told, {}, colour=_in_colour(sys.stderr)), nl=False, err=True)


def _fail(problems: Sequence[Any], texts: Any = None) -> NoReturn:
    from mullbook.text.report import as_text

    click.echo(as_text(problems, texts or {}, colour=_in_colour(sys.stderr)), nl=False, err=True)
    sys.exit(1)


def main(arguments: Sequence[str] | None = None) -> NoReturn:
    """Run the command line; exit 0 clean, 1 problems in the input, 2 our bug."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):  # a sign the terminal cannot show must not stop the answer
            stream.reconfigure(errors="replace")
    given = list(arguments) if arguments is not None else None
    try:
        code = cli.main(args=given, prog_name="mullbook", standalone_mode=False)
    except click.ClickException as error:
        error.show()
        sys.exit(1)
    except (click.Abort, KeyboardInterrupt):
        click.echo("Stopped.", err=True)
        sys.exit(1)
    except Exception as error:  # a fault of ours must still be told in words
        _tell(error)
    sys.exit(code if isinstance(code, int) else 0)


def _tell(error: Exception) -> NoReturn:
    from mullbook.workflow import Refused

    if isinstance(error, Refused):
        _fail(error.problems, error.texts)
    if isinstance(error, OSError) and error.filename is not None:
        click.echo(f"{error.filename}: {error.strerror}.", err=True)
        sys.exit(1)
    words = " ".join(str(error).split())
    click.echo(f"Mullbook broke: {type(error).__name__}: {words}. Please report it.", err=True)
    sys.exit(OUR_BUG)
