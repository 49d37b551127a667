"""What the lines of a plan are called where each must be told from the others."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.app.plan_inputs import Resolved


def line_names(resolved: Iterable[Resolved]) -> dict[int, str]:
    """A name for each line by its key; lines of the same candle share one.

    The vessel is added where two things are called the same, then a number.
    """
    lines = [one for one in resolved if one.version is not None]
    things = {made_of_line(one): one for one in lines}
    names = {thing: _plain(one) for thing, one in things.items()}
    again = Counter(names.values())
    for thing, one in things.items():
        if again[names[thing]] > 1 and one.vessel is not None:
            names[thing] = f"{names[thing]} ({one.vessel.name})"
    seen: Counter[str] = Counter()
    for thing, name in names.items():
        seen[name] += 1
        if seen[name] > 1:
            names[thing] = f"{name} {seen[name]}"
    return {one.row.id: names[made_of_line(one)] for one in lines}


def made_of_line(one: Resolved) -> tuple[object, ...]:
    """The candle of a line, or what it is made of: equal for lines that make the same."""
    if one.candle is not None:
        return ("candle", one.candle.id)
    version = one.version.id if one.version else None
    return ("parts", version, one.vessel.id if one.vessel else None, one.wick_ids)


def _plain(one: Resolved) -> str:
    if one.candle is not None:
        return one.candle.name
    return one.version.name if one.version else ""
