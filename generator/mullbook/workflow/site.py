"""From the checked catalogue to the files of the site."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from mullbook.checks.rules import ALL_RULES
from mullbook.model.benches import Lot
from mullbook.model.values import FormulaCard
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import Roots

LOT = "examples/lot.yaml"


def site_files(loaded: Loaded, roots: Roots) -> dict[str, str | bytes]:
    """Every generated file of the site by path: pages as Markdown, data as they are."""
    from mullbook.derive.bench import bench_of  # these keep Jinja2, formulas and tables out of `check`
    from mullbook.render.site import site_files as rendered
    from mullbook.science.registry import FORMULAS, evaluate, parse_inputs
    from mullbook.workflow.studio_pages import shown_catalogue, studio_pages

    shown = shown_catalogue(loaded)
    cards = tuple(formula.card for formula in FORMULAS.values())
    examples = {each.id: evaluate(each.id, parse_inputs(each.id, _pairs(each))) for each in cards}
    rules = tuple(ALL_RULES.values())
    return rendered(
        shown.catalogue,
        shown.derived,
        roots.templates,
        roots.schema,
        formulas=cards,
        examples=examples,
        rules=rules,
        bench=bench_of(shown.catalogue, shown.derived, _lot(roots)),
        studio=studio_pages(shown, loaded.catalogue),
    )


def _lot(roots: Roots) -> Lot | None:
    """The lot that a page shows as an example, where the templates hold one."""
    from mullbook.workflow.batches import read_bench_file  # brings the batch solver along

    path = roots.templates / "templates" / LOT
    return read_bench_file(path, "lot", roots) if path.is_file() else None


def _pairs(card: FormulaCard) -> list[str]:
    return [f"{name}={value}" for name, value in card.example]


def missing_files(site: Path, rendered: Mapping[str, object]) -> list[str]:
    """Generated files that a built site lacks, by path."""
    wanted = (f"{path.removesuffix('.md')}.html" if path.endswith(".md") else path for path in rendered)
    return [path for path in wanted if not (site / path).is_file()]


def finish_site(site: Path, templates: Path, edition: Mapping[str, str]) -> None:
    """Write what is made of a built site as a whole.

    Settings for servers, and the script that keeps the site on a device where it is served over HTTPS.
    Parameters: `site`, the built folder; `templates`, site_templates/; `edition`, version and date.
    """
    from mullbook.render.offline import write_worker
    from mullbook.workflow.publishing import write_publishing

    write_publishing(site, templates)
    write_worker(site, edition)


def write_files(files: Mapping[str, str | bytes], folder: Path) -> None:
    """Write generated files below a folder."""
    for path, content in files.items():
        target = folder / path
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(content if isinstance(content, bytes) else content.encode("utf-8"))
