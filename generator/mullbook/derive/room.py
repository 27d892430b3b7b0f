"""A powder in a room: what fills it to the limit, what one tip raises, when the air has been changed."""

from __future__ import annotations

from mullbook.derive.dust import ROOM, room_budget
from mullbook.derive.results import Safety
from mullbook.model.values import Input, Range, Working
from mullbook.science.registry import evaluate

LEFT = 100.0
"""The air counts as changed when a hundredth of the dust is left in it."""


def room_workings(
    safety: Safety, room: float | None = None, air_changes: float | None = None
) -> tuple[tuple[str, Working], ...]:
    """Workings of the dust in a room, each with what it is called.

    Parameters: `safety` of a powder; `room`, volume in m3, an example room where None; `air_changes` an
    hour, where known. Without a limit on the dust there is no budget.
    """
    volume = ROOM if room is None else Range.of(room)
    found: list[tuple[str, Working]] = []
    budget = room_budget(safety.shown_limit, volume)
    if budget is not None:
        found.append((f"in the air of a room of {volume.low:g} m³", budget))
    if safety.beside.tip is not None:
        found.append(("one careless tip of the jar may raise", safety.beside.tip))
    if air_changes is not None:
        found.append(
            (
                f"until a hundredth of the dust is left, at {air_changes:g} air changes an hour",
                evaluate(
                    "clearing_time",
                    {"ratio": LEFT, "air_changes": Input("air_changes", "1/h", Range.of(air_changes))},
                ),
            )
        )
    return tuple(found)
