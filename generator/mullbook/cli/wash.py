"""Commands of the wash-house: a washing plan, a nest of sieves."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click


@click.command()
@click.argument("name", nargs=-1)
@click.option("--cut", default="45um,20um,5um", show_default=True, help="Sizes to cut at, or sieve numbers.")
@click.option("--density", help="Density of the grains, g/cm³, in place of the entry's.")
@click.option("--mineral", multiple=True, help="A mineral to follow as well, such as hematite; repeatable.")
@click.option("--by", help="Time the waits by this mineral, or by the lightest; else by the whole earth.")
@click.option("--depth", help="Height poured off, cm (10).")
@click.option("--kept", help="Height left standing below the spout, cm (2.5).")
@click.option("--volume", help="Litres in one jar, filled to the mark (1).")
@click.option("--temperature", help="Of the water, °C (20).")
@click.option("--solids", help="Earth by volume (0.02), or 2%, or grams a litre as 60g/l.")
@click.option("--rounds", help="Times each jar is filled, stirred and poured (3).")
@click.option("--grains", help="Sand, silt and clay from a shaken jar (20,50,30).")
@click.option("--conductivity", help="Of the settled water before washing, mS/cm.")
@click.option("--tap", help="Of the wash water, mS/cm (0.3).")
@click.option("--target", help="Conductivity at which washing stops, mS/cm (0.1 above the wash water).")
@click.option("--settle", help="Size down to which the bucket clears before siphoning, µm (1).")
@click.option("--json", "as_json", is_flag=True, help="Print as JSON.")
@click.pass_obj
def wash(root: Path, /, name: tuple[str, ...], *, as_json: bool, **options: Any) -> None:
    """Plan a washing: stirs, waits and pours, which sizes go where, how many washes.

    mullbook wash yellow ochre --cut 45um,20um,5um --depth 10 --conductivity 1.8 --tap 0.3
    """
    from mullbook.cli import checked
    from mullbook.render.wash_text import wash_text
    from mullbook.workflow import washing

    options["wash_water"] = options.pop("tap")
    found = washing.wash(checked(root).catalogue, " ".join(name), options)
    click.echo(washing.sheet_json(found) if as_json else wash_text(found))


@click.command()
@click.argument("weighed", nargs=-1, required=True)
@click.option("--charged", help="Grams that were put on the nest.")
@click.option("--json", "as_json", is_flag=True, help="Print as JSON.")
def sieve(weighed: tuple[str, ...], *, charged: str | None, as_json: bool) -> None:
    """What lies on each sieve of a nest: mullbook sieve 150um=2.1 200mesh=8 45um=12 pan=77 --charged 100"""
    from mullbook.workflow import sieving

    click.echo(sieving.sieve_answer(weighed, charged, as_json=as_json))
