"""The shape of the house: who may import whom, and how long a module or a function may grow."""

from __future__ import annotations

import ast
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

SOURCE = Path(__file__).resolve().parent.parent / "generator"
PACKAGE = "mullbook"
MODULE_LINES, FUNCTION_LINES = 320, 40

LOWER = ("text", "model", "science", "load", "derive", "checks", "render")

TABLES = tuple(
    f"derive.{name}_results" for name in ("audit", "course", "earth", "practice", "scale", "stone", "table")
)

# part of the package: (parts of it that it may import, libraries that it may import)
MAY_IMPORT: dict[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "text": (("text",), ("yaml",)),
    "model.values": (("model.values",), ()),
    "model": (("model", "text"), ()),
    "science": (("science", "model.values"), ("molmass", "coloraide")),
    "load": (("load", "text", "model"), ()),
    "derive": (("derive", "model", "science"), ()),
    "checks": (
        ("checks", "text", "model", "science", "derive"),
        ("jsonschema", "jsonschema_rs", "referencing"),
    ),
    "render": (
        ("render", "model", "derive.results", "derive.batch_results", *TABLES, "text.suggest"),
        ("jinja2", "markupsafe"),
    ),
    "workflow": (("workflow", *LOWER), ("openpyxl", "segno", "typst")),
    "cli": (("cli", "workflow", "render", "text.report"), ("click", "rich")),
    "plugin": (("plugin", "workflow", "render", "text.report"), ("mkdocs",)),
    "__main__": (("cli",), ()),
}

# Science computes: it reads no file, no clock and no environment.
NOT_IN_SCIENCE = {"io", "os", "pathlib", "random", "subprocess", "sys", "time"}
# Each of these costs more than the whole of `mullbook --help` may take.
NOT_FOR_HELP = {"coloraide", "jinja2", "jsonschema", "mkdocs", "molmass", "numpy", "rich.markdown", "yaml"}

# file or file:function -> why it may be longer; an exception that is no longer needed fails.
LONGER: dict[str, str] = {}

MODULES = sorted((SOURCE / PACKAGE).rglob("*.py"))


def dotted(path: Path) -> str:
    """Name of a module inside the package: ``text.report``, or "" for the package itself."""
    parts = path.relative_to(SOURCE / PACKAGE).with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def relative(path: Path) -> str:
    return path.relative_to(SOURCE / PACKAGE).as_posix()


def is_within(name: str, part: str) -> bool:
    return name == part or name.startswith(part + ".")


def part_of(name: str) -> str | None:
    """The row of the table that a module stands in: the longest that fits."""
    return max((part for part in MAY_IMPORT if is_within(name, part)), key=len, default=None)


def imported(path: Path) -> Iterator[tuple[int, str]]:
    """Line and full name of each thing a module imports, wherever in it the import stands."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((node.lineno, alias.name) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                above = [PACKAGE, *dotted(path).split(".")] if dotted(path) else [PACKAGE]
                keep = len(above) - node.level + (path.name == "__init__.py")
                base = ".".join([*above[:keep], *([base] if base else [])])
            yield from ((node.lineno, f"{base}.{alias.name}") for alias in node.names)


def is_allowed(name: str, own_part: str) -> bool:
    parts, libraries = MAY_IMPORT[own_part]
    top, _, inside = name.partition(".")
    if top != PACKAGE:
        return top in sys.stdlib_module_names or top in libraries
    return inside in {"", "__version__"} or any(is_within(inside, part) for part in parts)


@pytest.mark.parametrize("path", MODULES, ids=relative)
def test_a_module_imports_only_what_its_row_allows(path: Path) -> None:
    name = dotted(path)
    own_part = part_of(name) if name else "text"
    assert own_part, f"{name} has no row in the table"
    wrong = [f"line {line}: {what}" for line, what in imported(path) if not is_allowed(what, own_part)]
    assert wrong == []


@pytest.mark.parametrize("path", sorted((SOURCE / PACKAGE / "science").rglob("*.py")), ids=relative)
def test_science_does_no_input_or_output(path: Path) -> None:
    calls = {
        node.func.id
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert {what.partition(".")[0] for _, what in imported(path)} & NOT_IN_SCIENCE == set()
    assert calls & {"open", "print", "input"} == set()


def too_long() -> Iterator[str]:
    for path in MODULES:
        text = path.read_text(encoding="utf-8")
        if len(text.splitlines()) > MODULE_LINES:
            yield relative(path)
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and own_lines(node) > FUNCTION_LINES:
                yield f"{relative(path)}:{node.name}"


def own_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Lines of a function without its docstring, which is meant to say much."""
    length = (node.end_lineno or node.lineno) - node.lineno + 1
    first = node.body[0]
    if ast.get_docstring(node, clean=False) is not None:
        length -= (first.end_lineno or first.lineno) - first.lineno + 1
    return length


def test_modules_and_functions_stay_short() -> None:
    assert sorted(too_long()) == sorted(LONGER)


def test_only_the_plugin_knows_mkdocs() -> None:
    knowing = {relative(path) for path in MODULES for _, what in imported(path) if is_within(what, "mkdocs")}
    assert knowing <= {"plugin.py"}


def test_the_plugin_stays_thin() -> None:
    assert len((SOURCE / PACKAGE / "plugin.py").read_text(encoding="utf-8").splitlines()) < 100


def test_help_loads_nothing_heavy() -> None:
    code = (
        "import sys\n"
        "from mullbook.cli import main\n"
        "try:\n    main(['--help'])\nexcept SystemExit:\n    pass\n"
        f"print(sorted({NOT_FOR_HELP!r} & set(sys.modules)), file=sys.stderr)"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=SOURCE, capture_output=True, text=True, timeout=60, check=True
    )
    assert ran.stderr.strip() == "[]"
