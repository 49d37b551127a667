"""A text element becomes draws: straight lines in its box, or letters round its oval."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.affine import turn
from wickbench.documents.bending import bend_element, flat_corners, ring_room
from wickbench.documents.curved_text import CurvedText, curve_text
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import CurvedDraw, LaidOutText, TextDraw, turned_draw
from wickbench.documents.rooms import room_of
from wickbench.documents.text import mm_per_unit
from wickbench.documents.text_fit import Room, SetText, TextStyle, fit_text
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.ring import Ring
    from wickbench.documents.text import Typeface
    from wickbench.domain.labels import LabelDesign, TextElement


def set_text(
    design: LabelDesign, ring: Ring | None, element: TextElement, face: Typeface, text: str
) -> tuple[list[TextDraw | CurvedDraw], SetText | CurvedText]:
    """Set the text of an element, in the flat.

    Args:
        design: the label.
        ring: that it is bent to; None for a label that stays as it is.
        element: the text element.
        face: its typeface.
        text: with the fields filled in.

    Returns:
        its draws, and how it was set.
    """
    box = Rect(element.x_mm, element.y_mm, element.w_mm, element.h_mm)
    turned = turn(element.turn_deg, box.x_mm + box.w_mm / 2, box.y_mm + box.h_mm / 2)
    style = _style(element, face)
    if element.curve:
        curved = curve_text(style, text, box, element.curve, element.colour)
        return [turned_draw(one, turned, element.turn_deg) for one in curved.lines], curved
    done = fit_text(style, text, box, _room(design, ring, element, box))
    draws: list[TextDraw | CurvedDraw] = []
    for one in done.lines:
        x, y = turned.apply(one.x_mm, one.y_mm)
        draws.append(TextDraw(one.run, done.size_pt, x, y, element.colour, element.turn_deg))
    return draws, done


def ink_of(
    ring: Ring | None, element: TextElement, draws: Sequence[TextDraw | CurvedDraw]
) -> list[tuple[float, float]]:
    """Corners of all letters as they are printed, in places of the flat label."""
    if ring is None:
        return [corner for one in draws for corner in corners_of(one)]
    return flat_corners(ring, list(bend_element(ring, element, draws)))


def laid_text(at: int, text: str, face: Typeface, done: SetText | CurvedText) -> LaidOutText:
    """What came of text element ``at``."""
    k = mm_per_unit(face, done.size_pt)
    heights = (face.x_height * k, face.o_height * k, face.cap_height * k)
    return LaidOutText(at, text, done.size_pt, *heights, len(done.lines), done.fits)


def _room(design: LabelDesign, ring: Ring | None, element: TextElement, box: Rect) -> Room | None:
    if ring is not None:
        return None if element.turn_deg else ring_room(ring, box, element.align)
    return None if element.turn_deg % 180 else room_of(design, box)


def _style(element: TextElement, face: Typeface) -> TextStyle:
    return TextStyle(
        face,
        element.size_pt,
        element.min_size_pt,
        element.align,
        element.vertical,
        element.leading,
        element.letter_spacing_em,
        element.wrap,
    )
