"""Layers in a vessel: how much of each makes them equally high, and where each then lies."""

from __future__ import annotations

import math
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.shapes import straight

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from wickbench.domain.shapes import Profile

_HALVINGS = 50
_TUBE_MM = 100.0


def even_volumes(
    most_ml: Sequence[float],
    room_ml: float,
    profile: Profile | None = None,
    cells: int = 1,
    *,
    fixed: Collection[int] = (),
) -> tuple[float, ...]:
    """Volumes in mL of layers that fill a vessel together, as equally high as what is there lets.

    A layer of which there is not enough is as high as it can be; the others share the rest.

    Args:
        most_ml: what there is of each layer, bottom to top; infinite for enough.
        room_ml: what they fill, all cells together.
        profile: inside of one cell; without it heights are in proportion to volumes.
        cells: how many cells share the volume.
        fixed: places of layers of which all is taken, whatever height that makes.

    Raises:
        OutOfRange: ``leftovers.no-layer``; ``leftovers.no-room`` for no or a broken volume.
    """
    if not most_ml:
        raise OutOfRange("leftovers.no-layer")
    if not math.isfinite(room_ml) or room_ml <= 0:
        raise OutOfRange("leftovers.no-room")
    shape = profile or straight(_TUBE_MM, room_ml / cells * 1000 / (math.pi * _TUBE_MM**2 / 4))
    top_mm = shape.height_mm(min(room_ml / cells, shape.brim_ml))
    low, high = 0.0, top_mm
    for _ in range(_HALVINGS):
        each = (low + high) / 2
        reached = _stacked(most_ml, each, shape, cells, fixed)[-1]
        low, high = (each, high) if reached < top_mm else (low, each)
    levels = [
        shape.volume_ml(h) * cells for h in (0.0, *_stacked(most_ml, high, shape, cells, fixed))
    ]
    return tuple(above - below for below, above in pairwise(levels))


def _stacked(
    most_ml: Sequence[float], each_mm: float, shape: Profile, cells: int, fixed: Collection[int]
) -> list[float]:
    """Upper heights of layers of ``each_mm``, or of what there is of them."""
    tops: list[float] = []
    level = 0.0
    for place, most in enumerate(most_ml):
        wanted = shape.top_mm if place in fixed else min(level + each_mm, shape.top_mm)
        holds = shape.volume_ml(level) + most / cells
        level = wanted if holds >= shape.volume_ml(wanted) else shape.height_mm(holds)
        tops.append(level)
    return tops


def bands(
    volumes_ml: Sequence[float], profile: Profile, cells: int = 1
) -> tuple[tuple[float, float], ...]:
    """Lower and upper height in mm of each layer, bottom to top; none goes over the brim."""
    levels = [0.0, *accumulate(volume / cells for volume in volumes_ml)]
    heights = [profile.height_mm(min(level, profile.brim_ml)) for level in levels]
    return tuple(pairwise(heights))
