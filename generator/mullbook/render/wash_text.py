"""A washing plan and a nest of sieves as lines of text; the words that plan and page share."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from mullbook.model.values import Working
from mullbook.model.values.washing import Cut, Fraction, SieveRow, WashSheet
from mullbook.render.words import number

LIMIT_WORDS = {
    "drag": (
        "Above about 60 µm Stokes' law runs fast; the waits here follow a drag law. A sieve parts these sizes"
        " more cleanly."
    ),
    "hand": "A wait under 20 s cannot be kept by hand: use a deeper vessel, or a sieve for that size.",
    "crowded": "From 0.005 solids by volume grains hinder each other: waits are longer than in thin water.",
    "still": (
        "Over some hours a jar stirs itself with the warmth of the room: keep it out of the sun, wrapped, and"
        " take the cut as rough."
    ),
    "brownian": (
        "Below about 1 µm heat motion and the least current keep grains up: this cut is not to be had by"
        " standing."
    ),
}
"""What is said where a plan touches a limit of the reckoning."""
FRONT = (
    "Above 0.1 solids by volume, or in flocks with clear water above, a slurry settles as a front, not by"
    " size: thin it, or add a little dispersant."
)

NOT_DRY = {
    "leave-it-shut": "It stays shut: in a studio it is not opened, weighed or washed. No plan is made.",
    "paste-only": "Its dry powder is not handled in a studio: this plan is for what is wet already.",
}
"""What is said where the level of the dry powder lets nobody weigh it."""


def minutes_text(minutes: float) -> str:
    r"""A time as one would say it, to two figures.

    >>> minutes_text(0.9241), minutes_text(74.2), minutes_text(463.7), minutes_text(18000)
    ('55\xa0s', '74\xa0min', '7.7\xa0h', '12\xa0days')
    """
    for end, one, unit in ((1.5, 1 / 60, "s"), (90, 1, "min"), (2880, 60, "h")):
        if minutes < end:
            return f"{number(minutes / one, 2)}\N{NO-BREAK SPACE}{unit}"
    days = number(minutes / 1440, 2)
    return f"{days}\N{NO-BREAK SPACE}{'day' if days == '1' else 'days'}"


def wait_range(working: Working) -> str:
    """The shortest and longest wait where the density is a range, or nothing."""
    if working.result is None or working.result.is_point:
        return ""
    low, high = minutes_text(working.result.low), minutes_text(working.result.high)
    return "" if low == high else f"{low} to {high} as the density ranges"


def jar_name(fraction: Fraction, cuts: Sequence[Cut]) -> str:
    """What a jar ends with, by the sizes it was cut at."""
    above = number(cuts[fraction.jar - 2].size) if fraction.jar > 1 else ""
    if fraction.jar > len(cuts):
        return f"bucket, finer than {above} µm"
    below = number(cuts[fraction.jar - 1].size)
    return f"jar {fraction.jar}, {below} to {above} µm" if above else f"jar 1, coarser than {below} µm"


def mineral_words(sheet: WashSheet, fraction: Fraction) -> str:
    """Each mineral of a jar with its sizes: the dense and fine beside the light and coarse."""
    told = []
    for mineral, (grams, low, high) in zip(sheet.asked.minerals, fraction.minerals, strict=False):
        size = f"over {number(low)}" if high is None else f"under {number(high)}"
        if high is not None and low:
            size = f"{number(low)}–{number(high)}"
        part = f"{number(100 * grams / fraction.grams, 2)} % " if fraction.grams else ""
        told.append(f"{mineral.name} {part}{size} µm")
    return "; ".join(told)


def wash_text(sheet: WashSheet) -> str:
    """A plan in lines: the cuts, the list to follow, where everything goes, salts, water and time."""
    return "\n".join(_lines(sheet))


def _lines(sheet: WashSheet) -> Iterator[str]:
    asked, plan = sheet.asked, sheet.plan
    yield f"Washing plan: {sheet.name}"
    yield (
        f"  {number(plan.grams)} g of earth in {number(asked.volume)} l, {number(100 * asked.solids)} %"
        f" solids by volume; {number(asked.depth)} cm poured off, {number(asked.kept)} cm left; water"
        f" {number(asked.temperature)} °C"
    )
    yield f"  Timed by {sheet.timed_by}, {number(asked.density)} g/cm³"
    if sheet.level:
        yield f"  Dry powder: {sheet.level.upper()}. Handle it as that level asks; from here on it stays wet."
    yield "  Cuts"
    for cut, wait in zip(plan.cuts, sheet.waits, strict=True):
        yield from _cut_lines(sheet, cut, wait)
    yield from _list_lines(sheet)
    yield from _fraction_lines(sheet)
    yield from _salt_lines(sheet)
    waits = sum(each.minutes for each in plan.steps)
    yield (
        f"  Water {number(plan.litres, 2)} l. Time {minutes_text(plan.minutes)},"
        f" of which {minutes_text(waits)} at the jars"
    )
    yield from (f"  Mind: {LIMIT_WORDS[each]}" for each in plan.limits)
    yield from (f"  Mind: {each}" for each in sheet.minds)


def _cut_lines(sheet: WashSheet, cut: Cut, wait: Working) -> Iterator[str]:
    spread = wait_range(wait)
    thin = (
        f"; in thin water {minutes_text(cut.thin)}"
        if minutes_text(cut.thin) != minutes_text(cut.minutes)
        else ""
    )
    beside = f" ({spread})" if spread else ""
    yield f"    {number(cut.size)} µm: wait {minutes_text(cut.minutes)}{beside}{thin}"
    if sheet.asked.minerals:
        sizes = zip(sheet.asked.minerals, cut.sizes, strict=True)
        yield f"      which cuts {', '.join(f'{one.name} at {number(size)} µm' for one, size in sizes)}"
    yield (
        f"      of grains half as large {number(100 * cut.half, 2)} % have gone over after"
        f" {sheet.asked.rounds} {'round' if sheet.asked.rounds == 1 else 'rounds'}"
    )


def _list_lines(sheet: WashSheet) -> Iterator[str]:
    jars = len(sheet.plan.cuts)
    yield "  List"
    for step in sheet.plan.steps:
        water = f"add {number(step.litres_in, 2)} l, " if step.litres_in else ""
        into = f"jar {step.into}" if step.into <= jars else "the bucket"
        yield (
            f"    round {step.round}, jar {step.jar}: {water}stir, wait {minutes_text(step.minutes)},"
            f" pour {number(step.litres_out, 2)} l into {into}"
        )
    yield (
        f"    bucket: let stand {minutes_text(sheet.plan.settle_minutes)}"
        f" ({number(sheet.asked.settle)} µm has sunk {number(sheet.asked.depth)} cm), siphon the clear water"
    )


def _fraction_lines(sheet: WashSheet) -> Iterator[str]:
    clay, silt, sand = (100 * each / sum(sheet.asked.grains.shares) for each in sheet.asked.grains.shares)
    yield (
        f"  Where it goes, if the grains are {number(sand, 2)} % sand, {number(silt, 2)} % silt,"
        f" {number(clay, 2)} % clay in every mineral (shake a jar to know)"
    )
    for each in sheet.plan.fractions:
        share = number(100 * each.share, 2)
        yield f"    {jar_name(each, sheet.plan.cuts)}: {number(each.grams)} g, {share} %"
        if sheet.asked.minerals:
            yield f"      {mineral_words(sheet, each)}"


def _salt_lines(sheet: WashSheet) -> Iterator[str]:
    plan = sheet.plan
    if plan.washes is None:
        yield "  Salts: give --conductivity of the settled water, and --tap, for the number of washes."
        return
    told = ", ".join(number(each, 2) for each in plan.readings)
    yield (
        f"  Salts: {number(plan.washes)} {'wash' if plan.washes == 1 else 'washes'} with water of"
        f" {number(sheet.asked.wash_water, 2)} mS/cm, to {number(plan.target or 0, 2)} or less: {told} mS/cm"
    )


def sieve_text(rows: Sequence[SieveRow], loss: float | None, names: Sequence[str]) -> str:
    """A nest in lines: what lies on each sieve, above it, and what passes.

    Parameters: `rows`; `loss`, a fraction, where what was put on is known; `names` of the sieves.
    """
    lines = ["Sieve            on it      %   above %   passes %"]
    for row, name in zip(rows, [*names, "pan"], strict=True):
        figures = (number(100 * each, 3) for each in (row.share, row.above, row.passing))
        share, above, passing = figures
        lines.append(f"{name:<14}{number(row.mass):>6} g{share:>7}{above:>10}{passing:>11}")
    if loss is not None:
        lines.append(f"Lost: {number(100 * loss, 2)} %")
        if loss > 0.02:
            lines.append("Over 2 %: weigh again, dry; look for the dust before the next charge.")
    return "\n".join(lines)


def wash_address(sheet: WashSheet) -> str:
    """What stands behind the page of washing so that it opens with the same slurry and jars."""
    asked = sheet.asked
    clay, silt, sand = asked.grains.shares
    load = 1000 * asked.solids * asked.density
    given = {
        "p": sheet.pigment or "",
        "density": f"{asked.density:g}",
        "depth": f"{asked.depth:g}",
        "t": f"{asked.temperature:g}",
        "load": f"{load:.4g}",
        "cuts": "+".join(f"{each:g}" for each in asked.cuts),
        "kept": f"{asked.kept:g}",
        "volume": f"{asked.volume:g}",
        "rounds": f"{asked.rounds}",
        "cond": "" if asked.conductivity is None else f"{asked.conductivity:g}",
        "tap": f"{asked.wash_water:g}",
        "sand": f"{sand:g}",
        "silt": f"{silt:g}",
        "clay": f"{clay:g}",
    }
    return "?" + "&".join(f"{key}={value}" for key, value in given.items() if value)


FILTERS = {"minutes": minutes_text, "jar_name": jar_name, "wash_address": wash_address}
"""Filters of the templates."""
