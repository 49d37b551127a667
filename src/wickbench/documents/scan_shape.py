"""The shape of stickers in a picture: how far from its corners a side begins to show."""

from __future__ import annotations

import math
import statistics
from typing import TYPE_CHECKING, Final

from wickbench.documents.scan_profiles import column_means, row_means

if TYPE_CHECKING:
    from PIL import Image

    from wickbench.domain.sheet_measuring import SideMeasures

_STRIP_MM: Final = 0.5
_ROUND: Final = 0.42
"""From this part of the shorter side on, corners are no corners: the sticker is round."""
_SHARP_MM: Final = 0.35
_SAME_MM: Final = 1.0


def shape_of(
    edges: tuple[Image.Image, Image.Image],
    scale: tuple[float, float],
    sides: tuple[SideMeasures, SideMeasures],
    counts: tuple[int, int],
) -> tuple[str, float]:
    """Shape and corner radius, mm.

    A side of a rounded sticker shows from its corner's radius on; a little earlier, since the arc
    leaves the strip that is looked at only where it is deeper than that.

    Args:
        edges: edges across and down.
        scale: pixels to the millimetre across and down.
        sides: the grid across and down.
        counts: columns and rows.
    """
    wide, high = sides[0].size.value_mm, sides[1].size.value_mm
    starts = [_starts(edges, scale, sides, counts, down=down) for down in (False, True)]
    start = statistics.fmean(starts)
    radius = start + _STRIP_MM + math.sqrt(2 * start * _STRIP_MM)
    least = min(wide, high)
    if radius >= _ROUND * least:
        return ("circle" if abs(wide - high) <= _SAME_MM else "oval"), 0.0
    if start < _SHARP_MM:
        return "rectangle", 0.0
    return "rounded", round(radius * 2) / 2


def _starts(
    edges: tuple[Image.Image, Image.Image],
    scale: tuple[float, float],
    sides: tuple[SideMeasures, SideMeasures],
    counts: tuple[int, int],
    *,
    down: bool,
) -> float:
    """Distance from a corner at which the side shows half as clearly as in its middle, mm."""
    along, beside = (1, 0) if down else (0, 1)
    picture, means = (edges[0], row_means) if down else (edges[1], column_means)
    size = sides[beside].size.value_mm
    near = [_near(sides[beside], at) for at in range(counts[beside])]
    on_side = _strips([place for one in near for place in (one, one + size)], scale[beside])
    within = _strips([one + size / 3 for one in near], scale[beside])
    ground = statistics.median(means(picture, within))
    profile = [value - ground for value in means(picture, on_side)]
    first = [_near(sides[along], at) * scale[along] for at in range(counts[along])]
    folded = _folded(profile, first, sides[along].size.value_mm * scale[along])
    return _half(folded, max(1, round(0.2 * scale[along]))) / scale[along]


def _strips(places_mm: list[float], per_mm: float) -> list[tuple[int, int]]:
    """Narrow bands about places, in pixels."""
    reach = _STRIP_MM * per_mm
    return [(round(at * per_mm - reach), round(at * per_mm + reach)) for at in places_mm]


def _folded(profile: list[float], first: list[float], size: float) -> list[float]:
    """The sides of all stickers laid over each other, from their corners to their middle."""
    folded: list[float] = [0.0] * (int(size / 2) + 1)
    for start in first:
        for by in range(len(folded)):
            for place in (round(start + by), round(start + size - by) - 1):
                if 0 <= place < len(profile):
                    folded[by] += profile[place]
    return folded


def _half(folded: list[float], reach: int) -> float:
    """Where the level, smoothed, rises to half of what it is in the middle, and stays there."""
    level = statistics.median(folded[int(len(folded) * 0.8) :])
    smooth = [
        statistics.fmean(folded[max(0, at - reach) : at + reach + 1]) for at in range(len(folded))
    ]
    for at in range(len(smooth)):
        if min(smooth[at : at + 2 * reach + 1]) >= level / 2:
            return float(at)
    return float(len(folded))


def _near(side: SideMeasures, at: int) -> float:
    pitch = side.pitch.value_mm if side.pitch is not None else 0.0
    return side.margin.value_mm + at * pitch
