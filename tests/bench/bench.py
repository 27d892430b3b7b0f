"""Measures the budgets: ``python -m tests.bench.bench [--grow]``, or ``make bench BENCH=--grow``.

Ratios are taken within one run on one machine; seconds mean little from machine to machine.
"""

from __future__ import annotations

import argparse
import math
import os
import re
import shutil
import signal
import socket
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from urllib.request import urlopen

from rich.console import Console
from rich.table import Table

from mullbook.checks.schema import load_schemas
from mullbook.derive.bench import all_tables
from mullbook.model.register import COLUMNS
from mullbook.model.studio import Room, Studio
from mullbook.workflow import Roots, check
from mullbook.workflow.registers import read_register
from mullbook.workflow.sheets_out import spreadsheet_bytes
from tests.bench.copies import grow, plain_project
from tests.bench.in_browser import waits
from tests.conftest import NOT_COPIED, ROOT

BIN = Path(sys.executable).parent
KB = 1000
Row = tuple[str, str, str, bool | None]


def run(*command: str, cwd: Path) -> float:
    """Seconds a command takes; it must succeed."""
    environment = {**os.environ, "PYTHONPATH": str(cwd / "generator"), "NO_MKDOCS_2_WARNING": "1"}
    start = time.perf_counter()
    ran = subprocess.run(command, cwd=cwd, env=environment, capture_output=True, text=True, check=False)
    seconds = time.perf_counter() - start
    if ran.returncode:
        raise SystemExit(f"{' '.join(command[:4])} ... failed:\n{ran.stdout[-3000:]}\n{ran.stderr[-3000:]}")
    return seconds


def mullbook(*arguments: str, cwd: Path) -> float:
    return run(sys.executable, "-m", "mullbook.cli", *arguments, cwd=cwd)


def best_of(times: int, measure: Callable[[], float]) -> float:
    return min(measure() for _ in range(times))


def forget(project: Path) -> None:
    """Drop what earlier runs cached."""
    shutil.rmtree(project / ".cache", ignore_errors=True)


def row(what: str, measured: float, budget: float, unit: str, digits: int = 2) -> Row:
    return what, f"{measured:.{digits}f} {unit}", f"<= {budget:g} {unit}", measured <= budget


def shown(what: str, measured: float, unit: str) -> Row:
    return what, f"{measured:.2f} {unit}", "", None


def start_up(project: Path) -> Iterator[Row]:
    seconds = best_of(5, lambda: run(str(BIN / "mullbook"), "--help", cwd=project))
    yield row("mullbook --help", seconds, 0.3, "s")


def builds(project: Path, room: Path) -> Iterator[Row]:
    """Our build against plain MkDocs on the same Markdown with the same theme."""
    site = room / "site"
    forget(project)
    mullbook("check", cwd=project)  # Python compiles the program once, whoever runs it first
    seconds = best_of(3, lambda: mullbook("check", cwd=project))
    yield row("check of all entries from a cold start", seconds, 1.5, "s")
    forget(project)
    cold = mullbook("build", "--to", str(site), cwd=project)
    warm = best_of(2, lambda: mullbook("build", "--to", str(site), cwd=project))
    mullbook("pages", "--to", str(room / "pages"), cwd=project)
    config = plain_project(project, room / "pages", room / "plain")
    command = [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(config)]
    plain = best_of(2, lambda: run(*command, cwd=project))
    yield shown("build, cold", cold, "s")
    yield shown("build, warm", warm, "s")
    yield shown("plain mkdocs build of the same Markdown", plain, "s")
    yield row("build / plain, cold", cold / plain, 2, "x")
    yield row("build / plain, warm", warm / plain, 1.25, "x")
    yield from weights(site)
    for what, measured, budget, unit in waits(site):
        yield row(what, measured, budget, unit)


def weights(site: Path) -> Iterator[Row]:
    pages = [path.stat().st_size for path in (site / "pigments").glob("*.html")]
    yield row("largest pigment page", max(pages) / KB, 80, "KB", 1)
    yield row("average pigment page", sum(pages) / len(pages) / KB, 36, "KB", 1)
    yield row("search index", index_of(site) / KB, 1000, "KB", 0)
    yield row("whole site without the one-file edition", whole(site) / KB / KB, 25, "MB", 1)


def index_of(site: Path) -> int:
    return (site / "search" / "search_index.js").stat().st_size


def whole(site: Path) -> int:
    files = (path for path in site.rglob("*") if path.is_file() and path.name != "pocket.html")
    return sum(path.stat().st_size for path in files)


def tables() -> Iterator[Row]:
    """The tables of every pigment in every binder, taken to 300 pigments and 25 binders."""
    catalogue, derived = (loaded := check(Roots.at(ROOT))).catalogue, loaded.derived

    def once() -> float:
        start = time.perf_counter()
        all_tables(catalogue, derived)
        return time.perf_counter() - start

    cells = len(catalogue.pigments) * len(catalogue.binders)
    yield row("tables of 300 pigments x 25 binders", best_of(3, once) * 300 * 25 / cells, 1, "s")


def register(room: Path) -> Iterator[Row]:
    """A studio's register of 5000 jars, from the file to jars with entry and room."""
    catalogue, schemas = check(Roots.at(ROOT)).catalogue, load_schemas(ROOT / "schema")
    studio = Studio(name="Invented", rooms=(Room(id="store", name="Store", volume=20),))
    line = 'N-{0},Raw umber,bag,Store,B2,"12.5",g,2025-01-01,2025-01-01,2026-01-01,p,c,RA,1,"a ""b"" c"\n'
    path = room / "register.csv"
    path.write_text(",".join(COLUMNS) + "\n" + "".join(map(line.format, range(5000))), encoding="utf-8")

    def once(file: Path) -> float:
        start = time.perf_counter()
        found = read_register(file, studio, catalogue, schemas)
        seconds = time.perf_counter() - start
        assert len(found.jars) == 5000 and not found.problems
        return seconds

    yield row("register of 5000 rows, CSV", best_of(3, lambda: once(path)), 2, "s")
    book = room / "register.xlsx"
    book.write_bytes(spreadsheet_bytes([("Register", read_register(path, studio, catalogue, schemas).table)]))
    yield row("register of 5000 rows, spreadsheet", best_of(3, lambda: once(book)), 2, "s")


def checking(project: Path, room: Path) -> Iterator[Row]:
    """Ours checks shape and everything between entries; check-jsonschema the shape alone."""
    many = grow(project, room / "thousand", entries=1000)
    forget(many)
    ours = best_of(2, lambda: mullbook("check", cwd=many))
    theirs = sum(shape_alone(schema, folder, many) for folder, schema in kinds(many))
    yield shown("mullbook check of 1000 entries", ours, "s")
    yield shown("check-jsonschema of the same files", theirs, "s")
    yield row("check / check-jsonschema", ours / theirs, 0.5, "x")


def shape_alone(schema: Path, folder: Path, project: Path) -> float:
    files = map(str, sorted(folder.glob("*.yaml")))
    return run(str(BIN / "check-jsonschema"), "--schemafile", str(schema), *files, cwd=project)


def kinds(project: Path) -> Iterator[tuple[Path, Path]]:
    """Each folder of entries with the schema its files name in their first line."""
    for folder in sorted((project / "entries").iterdir()):
        for path in folder.glob("*.yaml"):
            first_line = path.read_text(encoding="utf-8").partition("\n")[0]
            yield folder, (folder / first_line.rpartition("=")[2].strip()).resolve()
            break


def printing(project: Path, room: Path) -> Iterator[Row]:
    """Bench cards as one PDF, from the entries to the file."""
    names = sorted(path.stem for path in (project / "entries" / "pigments").glob("*.yaml"))[:160]
    seconds = mullbook("print", "card", *names, "--to", str(room / "cards.pdf"), cwd=project)
    yield row(f"{len(names)} cards as PDF", seconds, 20, "s")


def serving(project: Path, room: Path) -> Iterator[Row]:
    """From the saving of an entry until its page is fresh, and until every page is, at 300 pigments."""
    many = grow(project, room / "served", pigments=300)
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    environment = {**os.environ, "PYTHONPATH": str(many / "generator"), "NO_MKDOCS_2_WARNING": "1"}
    command = [sys.executable, "-m", "mullbook.cli", "serve", "--port", str(port)]
    server = subprocess.Popen(
        command,
        cwd=many,
        env=environment,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )
    site = f"http://127.0.0.1:{port}"
    try:
        until(f"{site}/pigments/raw-umber.html", "Raw umber")
        time.sleep(3)  # it begins to watch after the first build
        own, every = [], []
        for number in range(3):
            mark = f"Edited the {number}. time"
            entry = many / "entries" / "pigments" / "raw-umber.yaml"
            text = re.sub("(?<=summary: >-\n  )[^:]*", mark, entry.read_text("utf-8"), count=1)
            begun = time.perf_counter()
            entry.write_text(text, encoding="utf-8")
            until(f"{site}/pigments/raw-umber.html", mark)
            own.append(time.perf_counter() - begun)
            until(f"{site}/search/search_index.js", mark)
            every.append(time.perf_counter() - begun)
            time.sleep(2)
        yield row("edit one of 300 pigments until its page is fresh", min(own), 2, "s")
        yield shown("the same until every page is", min(every), "s")
    finally:
        os.killpg(server.pid, signal.SIGINT)
        server.wait(20)


def until(address: str, words: str, patience: float = 180) -> None:
    """Ask for a page until it holds the words."""
    end = time.monotonic() + patience
    while time.monotonic() < end:
        try:
            with urlopen(address, timeout=patience) as answer:
                if words in answer.read().decode():
                    return
        except OSError:
            time.sleep(0.2)
        time.sleep(0.02)
    raise SystemExit(f"{address} never said {words!r}")


def growth(project: Path, room: Path) -> Iterator[Row]:
    """How build time and page weight go with the number of pigments."""
    times, weight = {}, {}
    for pigments in (300, 3000):
        many = grow(project, room / f"grown-{pigments}", pigments=pigments)
        site = room / f"site-{pigments}"
        times[pigments] = mullbook("build", "--to", str(site), cwd=many)
        pages = [path.stat().st_size for path in (site / "pigments").glob("*.html")]
        weight[pigments] = sum(pages) / len(pages)
        yield shown(f"build of {pigments} pigments", times[pigments], "s")
        yield shown(f"search index at {pigments} pigments", index_of(site) / KB, "KB")
        weighed = f"whole site at {pigments} pigments", whole(site) / KB / KB
        yield row(*weighed, 25, "MB", 1) if pigments == 300 else shown(*weighed, "MB")
    yield row("growth exponent, 300 to 3000", math.log10(times[3000] / times[300]), 1.1, "")
    yield row("page weight at 3000 / at 300", weight[3000] / weight[300], 1.05, "x")


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--grow", action="store_true", help="also build 300 and 3000 pigments (some minutes)")
    chosen = parser.parse_args()
    table = Table("what", "measured", "budget", "kept")
    over = 0
    with tempfile.TemporaryDirectory(prefix="mullbook-bench-") as name:
        room = Path(name)
        project = shutil.copytree(ROOT, room / "project", ignore=NOT_COPIED)
        parts = [start_up(project), tables(), register(room), builds(project, room), checking(project, room)]
        parts += [printing(project, room), serving(project, room)]
        parts += [growth(project, room)] if chosen.grow else []
        for what, measured, budget, kept in (line for part in parts for line in part):
            over += kept is False
            table.add_row(what, measured, budget, {True: "yes", False: "NO", None: ""}[kept])
            print(f"{what}: {measured}", file=sys.stderr, flush=True)
    Console(width=100).print(table)
    sys.exit(1 if over else 0)


if __name__ == "__main__":
    main()
