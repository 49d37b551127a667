"""A sticker sheet measured along one side: margin, pitch and size from a few readings of a ruler.

Each reading is a sum of the three measures, so that readings fit them by least squares; what the
readings leave open is said as doubt, and which further reading would help most. Distances are read
from the paper's edge. After JCGM 100:2008 (GUM), 5.1: the doubt of a sum is the root of the sum of
squares.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from collections.abc import Sequence

READING_MM: Final = 0.5
"""How far off a reading may be (common practice, no source)."""

PICTURE_MM: Final = 0.1
"""How far a scanner may stretch or shift what it sees (common practice, no source)."""

MARGIN, PITCH, SIZE = range(3)
_READ: Final = (MARGIN, PITCH, SIZE)
_FLAT: Final = 1e-9
_APART: Final = 2.0
"""Readings that differ by more than this many doubts do not belong together."""

Row = tuple[float, float, float]
"""How often margin, pitch and size are in a reading."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SideReadings:
    """What was read along a row, or down a column; ``None`` where nothing was.

    Attributes:
        first_near_mm: paper's edge to the first sticker's near edge.
        last_near_mm: paper's edge to the last sticker's near edge.
        last_far_mm: paper's edge to the last sticker's far edge.
        size_mm: one sticker.
    """

    first_near_mm: float | None = None
    last_near_mm: float | None = None
    last_far_mm: float | None = None
    size_mm: float | None = None

    def __post_init__(self) -> None:
        for one in fields(self):
            value = getattr(self, one.name)
            if value is not None and (not math.isfinite(value) or value < 0):
                raise OutOfRange("sheet.measure", measure=one.name, value=value)


@dataclass(frozen=True, slots=True)
class Measured:
    """A measure with its doubt, both mm."""

    value_mm: float
    doubt_mm: float


@dataclass(frozen=True, slots=True)
class SideMeasures:
    """What the readings say of one side.

    Attributes:
        margin: paper's edge to the first sticker.
        pitch: from one sticker to the next; ``None`` when there is only one.
        size: of a sticker.
        apart_mm: how far the readings are from each other at the worst; 0 when they say each
            measure once.
        last_doubt_mm: doubt of the last sticker's place.
        helps: the reading, of those not taken, that would make the last sticker's place surest;
            empty when none would by a tenth.
    """

    margin: Measured
    pitch: Measured | None
    size: Measured
    apart_mm: float
    last_doubt_mm: float
    helps: str = ""


def measure_side(
    readings: SideReadings, count: int, *, reading_mm: float = READING_MM
) -> SideMeasures | None:
    """Margin, pitch and size from what was read; ``None`` while it is too little.

    Args:
        readings: what was read.
        count: stickers along the side.
        reading_mm: how far off a reading may be.

    Raises:
        OutOfRange: ``sheet.grid`` for no sticker, ``sheet.measure`` for a doubt that cannot be,
            ``ruler.backwards`` when the last sticker lies before the first.
    """
    if count < 1:
        raise OutOfRange("sheet.grid", value=count)
    if not math.isfinite(reading_mm) or reading_mm <= 0:
        raise OutOfRange("sheet.measure", measure="reading_mm", value=reading_mm)
    taken = _taken(readings)
    rows = [_row(name, count) for name in taken]
    solved = _solve(rows, [taken[name] for name in taken], count)
    if solved is None:
        return None
    values, spread = solved
    if min(values[PITCH] if count > 1 else 1.0, values[SIZE]) <= 0:
        raise OutOfRange("ruler.backwards")
    doubts = [reading_mm * math.sqrt(spread[at][at]) for at in _READ]
    off = [
        abs(sum(k * x for k, x in zip(row, values, strict=True)) - taken[name])
        for row, name in zip(rows, taken, strict=True)
    ]
    pitch = Measured(values[PITCH], doubts[PITCH]) if count > 1 else None
    return SideMeasures(
        Measured(values[MARGIN], doubts[MARGIN]),
        pitch,
        Measured(values[SIZE], doubts[SIZE]),
        2 * max(off),
        reading_mm * _last_doubt(spread, count),
        _helps(taken, count, _last_doubt(spread, count)),
    )


def fit_edges(edges: Sequence[tuple[int, bool, float]], count: int) -> SideMeasures | None:
    """Margin, pitch and size from edges seen in a picture.

    Args:
        edges: number of the sticker from 0, whether it is its far edge, and its place, mm.
        count: stickers along the side.

    Returns:
        The measures, their doubts from how the edges scatter and what a scanner may be off;
        ``None`` when they are too few.
    """
    rows: list[Row] = [(1.0, float(at), 1.0 if far else 0.0) for at, far, _ in edges]
    places = [place for _, _, place in edges]
    solved = _solve(rows, places, count)
    if solved is None:
        return None
    values, spread = solved
    off = [
        sum(k * x for k, x in zip(row, values, strict=True)) - place
        for row, place in zip(rows, places, strict=True)
    ]
    free = max(1, len(rows) - (3 if count > 1 else 2))
    noise = math.sqrt(sum(one * one for one in off) / free)
    # Twice the standard deviation, about 95 % (JCGM 100:2008, 6.2), and what no scatter shows.
    doubts = [math.hypot(2 * noise * math.sqrt(spread[at][at]), PICTURE_MM) for at in _READ]
    along = max(1, count - 1)
    pitched = math.hypot(2 * noise * math.sqrt(spread[PITCH][PITCH]), PICTURE_MM / along)
    return SideMeasures(
        Measured(values[MARGIN], doubts[MARGIN]),
        Measured(values[PITCH], pitched) if count > 1 else None,
        Measured(values[SIZE], doubts[SIZE]),
        2 * max(abs(one) for one in off),
        math.hypot(2 * noise * _last_doubt(spread, count), PICTURE_MM),
    )


def check_side(
    side: SideMeasures, along: str, *, reading_mm: float = READING_MM
) -> tuple[Finding, ...]:
    """Whether the readings belong together, and whether they say the last place well enough.

    Args:
        side: what they give.
        along: ``across`` or ``down``.
        reading_mm: how far off a reading may be.
    """
    found = []
    if side.apart_mm > _APART * reading_mm:
        apart = {"apart_mm": side.apart_mm}
        found.append(Finding(Rank.WATCH, f"ruler.apart-{along}", apart))
    if side.helps:
        doubt = {"doubt_mm": side.last_doubt_mm}
        found.append(Finding(Rank.NOTE, f"ruler.read-{side.helps}-{along}", doubt))
    return tuple(found)


def _taken(readings: SideReadings) -> dict[str, float]:
    names = [one.name for one in fields(readings)]
    known = {name: getattr(readings, name) for name in names}
    return {name: float(value) for name, value in known.items() if value is not None}


def _row(name: str, count: int) -> Row:
    steps = float(count - 1)
    return {
        "first_near_mm": (1.0, 0.0, 0.0),
        "last_near_mm": (1.0, steps, 0.0),
        "last_far_mm": (1.0, steps, 1.0),
        "size_mm": (0.0, 0.0, 1.0),
    }[name]


def _last_doubt(spread: Sequence[Sequence[float]], count: int) -> float:
    """Doubt of the last sticker's near edge, in doubts of a reading."""
    steps = count - 1
    margin, both, pitch = spread[MARGIN][MARGIN], spread[MARGIN][PITCH], spread[PITCH][PITCH]
    return math.sqrt(max(0.0, margin + 2 * steps * both + steps * steps * pitch))


def _helps(taken: dict[str, float], count: int, now: float) -> str:
    """The reading that makes the last sticker's place surest, if it does by a tenth."""
    best, least = "", now * 0.9
    for one in fields(SideReadings):
        if one.name in taken or (count == 1 and one.name == "last_near_mm"):
            continue
        rows = [_row(name, count) for name in (*taken, one.name)]
        spread = _inverse(rows, count)
        if spread is not None and _last_doubt(spread, count) < least - _FLAT:
            best, least = one.name, _last_doubt(spread, count)
    return best.removesuffix("_mm").replace("_", "-")


def _solve(
    rows: Sequence[Row], values: Sequence[float], count: int
) -> tuple[list[float], list[list[float]]] | None:
    """Least squares: the three measures, and the inverse of the normal equations."""
    spread = _inverse(rows, count)
    if spread is None:
        return None
    right = [sum(row[at] * y for row, y in zip(rows, values, strict=True)) for at in _READ]
    return [sum(spread[at][to] * right[to] for to in _READ) for at in _READ], spread


def _inverse(rows: Sequence[Row], count: int) -> list[list[float]] | None:
    """Inverse of the normal equations, by Gauss and Jordan; None when they leave one open."""
    normal = [[sum(row[a] * row[b] for row in rows) for b in _READ] for a in _READ]
    if count == 1:
        normal[PITCH] = [0.0, 1.0, 0.0]
    work = [[*normal[at], *(float(at == to) for to in _READ)] for at in _READ]
    for at in _READ:
        size, best = max((abs(work[row][at]), row) for row in range(at, 3))
        if size < _FLAT:
            return None
        work[at], work[best] = work[best], work[at]
        work[at] = [value / work[at][at] for value in work[at]]
        for other in _READ:
            if other != at:
                factor = work[other][at]
                work[other] = [x - factor * y for x, y in zip(work[other], work[at], strict=True)]
    spread = [row[3:] for row in work]
    if count == 1:
        spread[PITCH] = [0.0, 0.0, 0.0]
    return spread
