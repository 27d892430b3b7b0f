"""From the checked catalogue to the files of the site."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from mullbook.checks.rules import ALL_RULES
from mullbook.model.benches import Lot
from mullbook.model.values import FormulaCard
from mullbook.workflow.checking import Loaded
from mullbook.workflow.folders import Roots

if TYPE_CHECKING:
    from mullbook.derive.results import Derived

LOT = "examples/lot.yaml"


def site_files(loaded: Loaded, roots: Roots) -> dict[str, str | bytes]:
    """Every generated file of the site by path: pages as Markdown, data as they are."""
    from mullbook.derive.bench import bench_of  # these keep Jinja2, formulas and tables out of `check`
    from mullbook.render.site import site_files as rendered
    from mullbook.workflow.studio_pages import shown, studio_pages

    catalogue, derived = shown(loaded)
    return rendered(
        catalogue,
        derived,
        roots.templates,
        roots.schema,
        bench=bench_of(catalogue, derived, _lot(roots)),
        studio=studio_pages(loaded.edition, catalogue, derived),
        **_explained(),
    )


def few_pages(
    loaded: Loaded, derived: Derived, roots: Roots, entries: Collection[tuple[str, str]], made: Iterable[str]
) -> dict[str, str | bytes]:
    """The pages of a few entries, by path.

    Parameters: `derived`, what follows from what was loaded; `entries`, kind and id of each; `made`, the
    paths of all that was made before.
    """
    from mullbook.derive.bench import bench_of
    from mullbook.render.links import page_of
    from mullbook.render.site import pages_of

    catalogue = loaded.catalogue
    data = [path for path in made if path.startswith("data/")]
    ids = {name for kind, name in entries if kind == "pigment"}
    bench = bench_of(catalogue, derived, only=ids)
    pages, makers = pages_of(catalogue, derived, roots.templates, data, bench=bench, **_explained())
    wanted = [page for kind, name in entries if (page := page_of(kind, name)) in makers]
    return {page.replace(".html", ".md"): makers[page](pages) for page in wanted}


def _explained() -> dict[str, Any]:
    """What the pages on methods and rules are made of."""
    from mullbook.science.registry import FORMULAS, evaluate, parse_inputs

    cards = tuple(formula.card for formula in FORMULAS.values())
    examples = {each.id: evaluate(each.id, parse_inputs(each.id, _pairs(each))) for each in cards}
    return {"formulas": cards, "examples": examples, "rules": tuple(ALL_RULES.values())}


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
