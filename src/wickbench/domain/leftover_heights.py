"""Layers in a vessel: how much of each makes them equally high, and where each then lies."""

from __future__ import annotations

import math
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.shapes import Profile


def even_volumes(
    count: int, room_ml: float, profile: Profile | None = None, cells: int = 1
) -> tuple[float, ...]:
    """Volumes in mL of layers of the same height that fill ``room_ml`` together.

    Args:
        count: how many layers.
        room_ml: what they fill, all cells together.
        profile: inside of one cell; without it the volumes are equal.
        cells: how many cells share the volume.

    Raises:
        OutOfRange: ``leftovers.no-layer``; ``leftovers.no-room`` for no or a broken volume.
    """
    if count < 1:
        raise OutOfRange("leftovers.no-layer")
    if not math.isfinite(room_ml) or room_ml <= 0:
        raise OutOfRange("leftovers.no-room")
    if profile is None:
        return (room_ml / count,) * count
    top_mm = profile.height_mm(min(room_ml / cells, profile.brim_ml))
    levels = [profile.volume_ml(top_mm * at / count) * cells for at in range(count + 1)]
    return tuple(high - low for low, high in pairwise(levels))


def bands(
    volumes_ml: Sequence[float], profile: Profile, cells: int = 1
) -> tuple[tuple[float, float], ...]:
    """Lower and upper height in mm of each layer, bottom to top; none goes over the brim."""
    levels = [0.0, *accumulate(volume / cells for volume in volumes_ml)]
    heights = [profile.height_mm(min(level, profile.brim_ml)) for level in levels]
    return tuple(pairwise(heights))
