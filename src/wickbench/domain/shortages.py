"""What the shelf does not cover, and how many fewer candles would mend it."""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from wickbench.domain.findings import Finding, Rank
from wickbench.domain.recipes import Material

if TYPE_CHECKING:
    from collections.abc import Iterable

_SLACK = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class LineUse:
    """What one candle of a line uses up.

    Attributes:
        line_key: the line.
        name: what its candle or vessel is called.
        count: candles planned.
        each: grams or pieces of each material for one candle.
    """

    line_key: Hashable
    name: str
    count: int
    each: Mapping[Material, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Mend:
    """Leaving out ``fewer`` candles of one line ends the shortage."""

    line_key: Hashable
    name: str
    fewer: int


@dataclass(frozen=True, slots=True)
class Shortage:
    """More needed than on hand.

    Attributes:
        material: what is short.
        need: grams or pieces.
        have: on hand.
        short: the difference.
        mends: lines of which fewer candles would do by themselves, fewest candles first; empty
            when no line alone mends it.
    """

    material: Material
    need: float
    have: float
    short: float
    mends: tuple[Mend, ...]


def shortages(
    needs: Mapping[Material, float],
    stock: Mapping[Material, float | None],
    uses: Iterable[LineUse],
) -> tuple[Shortage, ...]:
    """Compare needs with the shelf; what was never counted is never short.

    A fixed part of the need (extra per pot) does not shrink with fewer candles, unless a whole
    pot falls away: the numbers given are then a little too many, never too few.
    """
    lines = tuple(uses)
    found = []
    for material, need in needs.items():
        have = stock.get(material)
        if have is None or need <= have + _SLACK:
            continue
        short = need - have
        found.append(Shortage(material, need, have, short, _mends(material, short, lines)))
    return tuple(found)


def _mends(material: Material, short: float, lines: tuple[LineUse, ...]) -> tuple[Mend, ...]:
    mends = []
    for line in lines:
        each = line.each.get(material, 0.0)
        if each <= 0:
            continue
        fewer = math.ceil(short / each - _SLACK)
        if fewer <= line.count:
            mends.append(Mend(line.line_key, line.name, fewer))
    return tuple(sorted(mends, key=lambda mend: mend.fewer))


def shortage_finding(shortage: Shortage, name: str, *, in_grams: bool) -> Finding:
    """The shortage with the shortest way out, for the person."""
    unit = "_g" if in_grams else ""
    data: dict[str, object] = {
        "name": name,
        f"short{unit}": shortage.short,
        f"need{unit}": shortage.need,
        f"have{unit}": shortage.have,
    }
    key = "plan.short-mass" if in_grams else "plan.short-pieces"
    if shortage.mends:
        first = shortage.mends[0]
        data |= {"fewer": first.fewer, "vessel": first.name}
        key += "-or-fewer"
    return Finding(Rank.STOPS, key, data, ("material", shortage.material))
