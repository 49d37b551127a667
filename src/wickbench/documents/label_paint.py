"""Draws of a label put on a surface, inside the label's edge."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Final

from wickbench.documents.label_drawings import draw_path
from wickbench.documents.label_draws import CurvedDraw, PathDraw, TextDraw
from wickbench.documents.text import shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.label_draws import AnyDraw, ImageDraw
    from wickbench.documents.surface import Colour, Path, Surface

_BLANK: Final = " "


def paint_draws(
    surface: Surface, edge: Path, background: Colour | None, draws: Sequence[AnyDraw]
) -> None:
    """Draw what stands on a label, cut at its edge.

    Args:
        surface: where to.
        edge: of the label with its bleed.
        background: colour of the ground; None or empty for the sticker's own.
        draws: from back to front.
    """
    surface.push_clip(edge)
    if background:
        surface.path(edge, fill=background)
    for draw in draws:
        _draw(surface, draw)
    surface.pop()


def _draw(surface: Surface, draw: AnyDraw) -> None:
    if isinstance(draw, CurvedDraw):
        _draw_curved(surface, draw)
    elif isinstance(draw, TextDraw):
        place = (draw.x_mm, draw.y_mm)
        surface.glyphs(draw.run, draw.size_pt, *place, colour=draw.colour, turn_deg=draw.turn_deg)
    elif isinstance(draw, PathDraw):
        draw_path(surface, draw)
    else:
        _draw_image(surface, draw)


def _draw_image(surface: Surface, draw: ImageDraw) -> None:
    if draw.clip is not None:
        surface.push_clip(draw.clip)
    box = (draw.x_mm, draw.y_mm, draw.w_mm, draw.h_mm)
    surface.image(draw.data, *box, turn_deg=draw.turn_deg)
    if draw.clip is not None:
        surface.pop()


def _draw_curved(surface: Surface, draw: CurvedDraw) -> None:
    """Letters one by one, read as one text.

    A blank ends it: readers of PDF tell words and lines apart by where letters stand, and what
    follows a curve stands anywhere.
    """
    if not draw.letters:
        return
    last = draw.letters[-1]
    blank = _BLANK if last.run.face.has(_BLANK) else ""
    surface.push_span(draw.text + blank)
    for letter in draw.letters:
        _draw(surface, letter)
    if blank:
        wide, angle = last.run.width_mm(last.size_pt), math.radians(last.turn_deg)
        end = (last.x_mm + wide * math.cos(angle), last.y_mm + wide * math.sin(angle))
        run = shape(last.run.face, blank)
        surface.glyphs(run, last.size_pt, *end, colour=last.colour, turn_deg=last.turn_deg)
    surface.pop_span()
