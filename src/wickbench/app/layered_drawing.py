"""A layered vessel drawn to scale: its wall, the fill line and each layer, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.vessel_drawing import Point, draw_vessel, inner_side
from wickbench.app.vessel_labels import DrawnWick
from wickbench.domain.leftover_heights import bands

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.measures import VesselMeasures
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.shapes import Profile


@dataclass(frozen=True, slots=True, kw_only=True)
class JarDrawing:
    """The drawing; x from the middle, y upwards from the inside of the base.

    Attributes:
        wall: the glass, a closed shape.
        layers: each layer's closed shape, bottom to top.
        words: what stands beside each layer.
        middles_mm: height of the middle of each layer.
        line_mm: height of the fill line; ``None`` where it is unknown.
        half_mm: half the widest inside.
    """

    wall: tuple[Point, ...]
    layers: tuple[tuple[Point, ...], ...]
    words: tuple[str, ...]
    middles_mm: tuple[float, ...]
    line_mm: float | None
    half_mm: float

    @property
    def description(self) -> str:
        """The drawing in words, top to bottom, for who cannot see it."""
        return "; ".join(reversed(self.words))


def draw_jar(
    vessel: Vessel,
    measures: VesselMeasures,
    volumes_ml: Sequence[float],
    words: Sequence[str],
    texts: Texts,
) -> JarDrawing | None:
    """Draw one cell of a vessel with its layers; ``None`` while its inside is unknown."""
    profile = measures.profile
    plain = draw_vessel(vessel, measures, None, DrawnWick(count=0, trim_mm=0.0), texts)
    if profile is None or plain is None:
        return None
    heights = bands(volumes_ml, profile, measures.cells) if volumes_ml else ()
    return JarDrawing(
        wall=plain.of("wall")[0].points,
        layers=tuple(_layer(profile, low, high) for low, high in heights),
        words=tuple(words),
        middles_mm=tuple((low + high) / 2 for low, high in heights),
        line_mm=measures.fill_mm,
        half_mm=max(diameter for _, diameter in profile.points) / 2,
    )


def _layer(profile: Profile, low_mm: float, high_mm: float) -> tuple[Point, ...]:
    side = inner_side(profile, high_mm)
    if low_mm > 0:
        side = [(profile.diameter_mm(low_mm) / 2, low_mm), *(p for p in side if p[1] > low_mm)]
    return (*((-x, y) for x, y in reversed(side)), *side)
