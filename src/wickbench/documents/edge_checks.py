"""Frames, lines and filled areas that run over the sticker's edge, or lie beside it altogether.

Filled areas may run over the edge, as backgrounds do; a line that does is cut along its length or
loses its end, which looks like a slip.
"""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import turn
from wickbench.documents.flattening import chains
from wickbench.documents.label_draws import ImageDraw, PathDraw
from wickbench.documents.outlines import rectangle
from wickbench.documents.rooms import is_inside
from wickbench.documents.surface import map_path
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import FactsElement, FrameElement, LineElement, PictureElement

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickbench.documents.label_draws import AnyDraw
    from wickbench.documents.surface import Path
    from wickbench.domain.labels import Element, LabelDesign

    Spot = tuple[float, float]

_CHECKED: Final = (FactsElement, FrameElement, LineElement)
_SLACK_MM: Final = 0.05
_ROUND: Final = 48


def check_edges(
    design: LabelDesign, element: Element, draws: Sequence[AnyDraw]
) -> tuple[Finding, ...]:
    """What of a frame, a line, the rules between facts or a filling picture is not seen.

    Args:
        design: the label.
        element: one of its elements.
        draws: what it draws, in the flat, mm from the label's corner.
    """
    filling = isinstance(element, PictureElement) and element.fit == "cover"
    shown = [draw for draw in draws if isinstance(draw, PathDraw | ImageDraw)]
    if not shown or not (filling or isinstance(element, _CHECKED)):
        return ()
    if not any(_is_seen(design, draw) for draw in shown):
        return (Finding(Rank.WATCH, "label.nothing-on-sticker"),)
    lines = (spot for draw in shown for spot in _sides(draw))
    if not filling and not _all_inside(design, lines):
        return (Finding(Rank.WATCH, "label.line-cut"),)
    return ()


def _all_inside(design: LabelDesign, spots: Iterable[Spot]) -> bool:
    return all(is_inside(design, *spot, margin_mm=0.0, slack_mm=_SLACK_MM) for spot in spots)


def _is_seen(design: LabelDesign, draw: PathDraw | ImageDraw) -> bool:
    """Whether some of it lies on the sticker: its own line, or the sticker's edge inside it."""
    path = draw.path if isinstance(draw, PathDraw) else draw.clip or _outline(draw)
    ends = [spot for chain in chains(path) for spot in chain.points]
    if not ends or any(is_inside(design, *spot, margin_mm=0.0) for spot in ends):
        return bool(ends)
    left, right = min(x for x, _ in ends), max(x for x, _ in ends)
    top, bottom = min(y for _, y in ends), max(y for _, y in ends)
    return any(left <= x <= right and top <= y <= bottom for x, y in _round_the(design))


def _round_the(design: LabelDesign) -> Iterator[Spot]:
    """Points round the sticker's edge."""
    a, b = design.width_mm / 2, design.height_mm / 2
    for step in range(_ROUND):
        across, down = math.cos(step * math.tau / _ROUND), math.sin(step * math.tau / _ROUND)
        if design.shape not in {"circle", "oval"}:
            reach = max(abs(across), abs(down))
            across, down = across / reach, down / reach
        yield a + a * across, b + b * down


def _outline(draw: ImageDraw) -> Path:
    turned = turn(draw.turn_deg, draw.x_mm, draw.y_mm)
    return map_path(turned, rectangle(draw.x_mm, draw.y_mm, draw.w_mm, draw.h_mm))


def _sides(draw: PathDraw | ImageDraw) -> Iterator[Spot]:
    """Both sides of a line at its ends and corners: stickers are convex, that is enough.

    A line of the colour that it encloses is the rim of an area.
    """
    if not isinstance(draw, PathDraw) or draw.stroke in {None, draw.fill}:
        return
    half = draw.width_mm / 2
    for chain in chains(draw.path, step=math.inf):
        points = [*chain.points, chain.points[0]] if chain.closed else chain.points
        for (x1, y1), (x2, y2) in pairwise(points):
            length = math.hypot(x2 - x1, y2 - y1)
            if length > 0.0:
                across, down = -(y2 - y1) / length * half, (x2 - x1) / length * half
                for x, y in ((x1, y1), (x2, y2)):
                    yield x + across, y + down
                    yield x - across, y - down
