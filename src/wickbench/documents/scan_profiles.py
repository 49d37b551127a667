"""Profiles of a picture: how much edge stands in each column or row, and its peaks.

A picture of one pixel's height is the mean of all rows: Pillow makes it fast and exactly.
"""

from __future__ import annotations

import statistics
from typing import TYPE_CHECKING, Final

from PIL import Image, ImageChops

from wickbench.domain.edge_grid import Edge

if TYPE_CHECKING:
    from collections.abc import Sequence

_CAP: Final = 48
"""Brighter edges count no more than this: print on a sheet must not drown its die lines."""
_SMOOTH_MM: Final = 0.5
_JOIN_MM: Final = 0.5
_VALLEY: Final = 0.6
_NOISE: Final = 5.0
_LEAST_PART: Final = 0.12


def edges_across(picture: Image.Image) -> Image.Image:
    """How much the picture changes from a pixel to the one at its left, capped."""
    moved = ImageChops.offset(picture, 1, 0)
    found = ImageChops.difference(picture, moved)
    found.paste(0, (0, 0, 1, found.height))
    return found.point([min(value, _CAP) for value in range(256)])


def edges_down(picture: Image.Image) -> Image.Image:
    """How much the picture changes from a pixel to the one above it, capped."""
    moved = ImageChops.offset(picture, 0, 1)
    found = ImageChops.difference(picture, moved)
    found.paste(0, (0, 0, found.width, 1))
    return found.point([min(value, _CAP) for value in range(256)])


def column_means(picture: Image.Image, bands: Sequence[tuple[int, int]] = ()) -> list[float]:
    """Mean of each column, of all rows or of bands of rows."""
    whole = picture.convert("F")
    kept = bands or ((0, picture.height),)
    sums = [0.0] * picture.width
    rows = 0
    for top, bottom in kept:
        if bottom <= top:
            continue
        part = whole.crop((0, top, picture.width, bottom))
        line = part.resize((picture.width, 1), Image.Resampling.BOX)
        for at, value in enumerate(memoryview(line.tobytes()).cast("f")):
            sums[at] += value * (bottom - top)
        rows += bottom - top
    return [one / rows for one in sums] if rows else sums


def row_means(picture: Image.Image, bands: Sequence[tuple[int, int]] = ()) -> list[float]:
    """Mean of each row, of all columns or of bands of columns."""
    return column_means(picture.transpose(Image.Transpose.TRANSPOSE), bands)


def sharpness(profile: Sequence[float]) -> float:
    """How unevenly edge is spread: largest when lines stand upright."""
    mean = statistics.fmean(profile)
    return sum((value - mean) ** 2 for value in profile)


def peaks(profile: Sequence[float], pixels_per_mm: float, aside_mm: float = 1.0) -> list[Edge]:
    """Where edges stand, mm from the picture's side, by the middle of their weight.

    Args:
        profile: from `column_means`.
        pixels_per_mm: of the picture.
        aside_mm: nothing is looked for so near the picture's sides.
    """
    smooth = _smoothed(profile, max(1, round(_SMOOTH_MM * pixels_per_mm / 2)))
    ground = statistics.median(smooth)
    spread = statistics.median([abs(value - ground) for value in smooth])
    aside = round(aside_mm * pixels_per_mm)
    inner = smooth[aside : len(smooth) - aside]
    if not inner:
        return []
    top = max(inner) - ground
    least = ground + max(_NOISE * spread, _LEAST_PART * top, 0.05)
    found: list[Edge] = []
    stretches = _stretches(smooth, least, aside, round(_JOIN_MM * pixels_per_mm))
    for start, end in (part for one in stretches for part in _hills(smooth, *one, ground)):
        weights = [max(0.0, smooth[at] - ground) for at in range(start, end)]
        whole = sum(weights)
        middle = sum(at * w for at, w in zip(range(start, end), weights, strict=True)) / whole
        found.append(Edge(middle / pixels_per_mm, max(weights)))
    return found


def _smoothed(values: Sequence[float], reach: int) -> list[float]:
    """Mean of each value and its neighbours, with less weight further off."""
    weights = [reach + 1 - abs(by) for by in range(-reach, reach + 1)]
    padded = [values[0]] * reach + list(values) + [values[-1]] * reach
    whole = sum(weights)
    return [
        sum(w * padded[at + by] for by, w in enumerate(weights)) / whole
        for at in range(len(values))
    ]


def _stretches(
    values: Sequence[float], least: float, aside: int, join: int
) -> list[tuple[int, int]]:
    """Where values are above a level, near ones joined."""
    found: list[tuple[int, int]] = []
    for at in range(aside, len(values) - aside):
        if values[at] <= least:
            continue
        if found and at - found[-1][1] <= join:
            found[-1] = (found[-1][0], at + 1)
        else:
            found.append((at, at + 1))
    return found


def _hills(values: Sequence[float], start: int, end: int, ground: float) -> list[tuple[int, int]]:
    """A stretch cut where a valley lies between two hills: edges of neighbours run together."""
    for cut in range(start + 1, end - 1):
        lower = min(max(values[start:cut]), max(values[cut + 1 : end])) - ground
        is_lowest = values[cut] == min(values[max(start, cut - 1) : cut + 2])
        if is_lowest and values[cut] - ground < _VALLEY * lower:
            return [(start, cut), *_hills(values, cut, end, ground)]
    return [(start, end)]
