"""Where the ink of letters really ends: corners of their boxes, turned as they stand."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.documents.label_draws import CurvedDraw, TextDraw

if TYPE_CHECKING:
    from collections.abc import Iterator


def corners_of(draw: TextDraw | CurvedDraw) -> Iterator[tuple[float, float]]:
    """Corners of the ink of a run, or of each letter on a curve; mm as the draw's own place."""
    if isinstance(draw, CurvedDraw):
        for letter in draw.letters:
            yield from corners_of(letter)
        return
    ink = draw.run.ink_mm(draw.size_pt)
    if ink is None:
        return
    cosine, sine = math.cos(math.radians(draw.turn_deg)), math.sin(math.radians(draw.turn_deg))
    for x in (ink[0], ink[2]):
        for y in (-ink[1], -ink[3]):
            yield draw.x_mm + x * cosine - y * sine, draw.y_mm + x * sine + y * cosine
