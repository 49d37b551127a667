"""Labels for tapered vessels: what was laid out in the flat rectangle, bent to a piece of a ring.

Letters are not bent: each stands upright on its arc, with the distances it has on a straight
line, and a line is still one text. Paths are bent truly. Pictures, caution drawings and codes are
turned as a whole about their middle: a photograph bent looks wrong, and a bent code is not read,
for its bars are no longer parallel and its modules no squares. What is about as high as wide and
round, such as a badge of circles, curved words and an ornament, is turned as a whole too, so that
circles stay circles with one middle.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import shift, turn
from wickbench.documents.bent_paths import bend_path
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import (
    AnyDraw,
    CurvedDraw,
    ImageDraw,
    PathDraw,
    TextDraw,
    turned_draw,
)
from wickbench.documents.letters import letters_of
from wickbench.documents.outlines import rectangle
from wickbench.documents.ring import Ring
from wickbench.documents.surface import map_path
from wickbench.documents.text import MM_PER_POINT
from wickbench.domain.labels import (
    CodeElement,
    FrameElement,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickbench.documents.surface import Path
    from wickbench.documents.text_fit import Room
    from wickbench.domain.labels import Element
    from wickbench.domain.sheets import Rect

_RIGID: Final = (CodeElement, PictureElement, PictogramElement)
_SHARE: Final = {"left": 0.0, "centre": 0.5, "right": 1.0}
_ROUNDS: Final = 2
_ROUNDISH: Final = (0.75, 4 / 3)


@dataclass(frozen=True, slots=True)
class BentLabel:
    """A label as it lies on the paper.

    Attributes:
        ring: the piece of a ring.
        draws: from back to front, mm from the top left corner of the rectangle round it.
    """

    ring: Ring
    draws: tuple[AnyDraw, ...]

    @property
    def width_mm(self) -> float:
        """Width of the upright rectangle round it."""
        return self.ring.sector.width_mm

    @property
    def height_mm(self) -> float:
        """Height of the upright rectangle round it."""
        return self.ring.sector.height_mm

    def only(self, parts: Iterable[tuple[int, int]]) -> BentLabel:
        """Some of its draws: from each first to the one before its end."""
        draws = tuple(draw for first, end in parts for draw in self.draws[first:end])
        return replace(self, draws=draws)

    def outline(self, inset_mm: float = 0.0) -> Path:
        """Its edge, drawn in by so much of the flat rectangle; negative runs over the edge."""
        wide, high = self.ring.width_mm - 2 * inset_mm, self.ring.height_mm - 2 * inset_mm
        return bend_path(self.ring, rectangle(inset_mm, inset_mm, wide, high))

    def bleed_mm(self, flat_mm: float) -> float:
        """How far the label with its bleed reaches beyond the rectangle round it."""
        ring = self.ring
        corners = [
            ring.to_paper(x, y)
            for x in (-flat_mm, ring.width_mm / 2, ring.width_mm + flat_mm)
            for y in (-flat_mm, ring.height_mm + flat_mm)
        ]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        return max(0.0, -min(xs), -min(ys), max(xs) - self.width_mm, max(ys) - self.height_mm)


def keeps_shape(element: Element) -> bool:
    """Whether an element is turned as a whole and not bent."""
    if isinstance(element, _RIGID):
        return True
    round_one = (
        isinstance(element, OrnamentElement)
        or (isinstance(element, TextElement) and bool(element.curve))
        or (isinstance(element, FrameElement) and element.figure == "oval")
    )
    least, most = _ROUNDISH
    return round_one and least * element.h_mm <= element.w_mm <= most * element.h_mm


def bend_element(ring: Ring, element: Element, draws: Iterable[AnyDraw]) -> Iterator[AnyDraw]:
    """What one element draws, bent."""
    if keeps_shape(element):
        middle = (element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2)
        for draw in draws:
            yield _rigid(ring, middle, draw)
        return
    share = _SHARE.get(getattr(element, "align", "centre"), 0.5)
    for draw in draws:
        yield _bent(ring, share, draw)


def flat_corners(ring: Ring, draws: Sequence[AnyDraw]) -> list[tuple[float, float]]:
    """Corners of the bent letters' ink, where they lie in the flat rectangle."""
    return [
        ring.to_flat(*corner)
        for draw in draws
        if isinstance(draw, TextDraw | CurvedDraw)
        for corner in corners_of(draw)
    ]


def ring_room(ring: Ring, box: Rect, align: str) -> Room:
    """Edges of the lines of a text box: less room where the ring is narrower than the box.

    Letters keep their width when a label is bent; the box does not. Lines are measured from the
    edge, or from the middle, that they are aligned to.
    """
    share = _SHARE[align]

    def edges(top_mm: float, bottom_mm: float) -> tuple[float, float]:
        wide = box.w_mm * min(1.0, ring.stretch(top_mm), ring.stretch(bottom_mm))
        left = box.x_mm + (box.w_mm - wide) * share
        return left, left + wide

    return edges


def _bent(ring: Ring, share: float, draw: AnyDraw) -> AnyDraw:
    if isinstance(draw, TextDraw):
        return _bent_line(ring, share, draw)
    if isinstance(draw, CurvedDraw):
        return CurvedDraw(draw.text, tuple(_bent_letter(ring, one) for one in draw.letters))
    if isinstance(draw, PathDraw):
        clips = tuple(bend_path(ring, clip) for clip in draw.clips)
        return replace(draw, path=bend_path(ring, draw.path), clips=clips)
    return _rigid(ring, _middle_of(draw), draw)


def _bent_line(ring: Ring, share: float, draw: TextDraw) -> CurvedDraw:
    """The letters of a straight line on its arc; the place it is aligned by stays."""
    em = draw.size_pt * MM_PER_POINT
    angle = math.radians(draw.turn_deg)
    along = (math.cos(angle), math.sin(angle))
    fixed = draw.run.width_mm(draw.size_pt) * share
    anchor = (draw.x_mm + fixed * along[0], draw.y_mm + fixed * along[1])
    letters = []
    for letter in letters_of(draw.run):
        far = _step(ring, anchor, along, letter.middle_em * em - fixed)
        half = letter.wide_em * em / 2
        spot = (anchor[0] + (far - half) * along[0], anchor[1] + (far - half) * along[1])
        flat = replace(draw, run=letter.run, x_mm=spot[0], y_mm=spot[1])
        letters.append(_bent_letter(ring, flat, half))
    return CurvedDraw(draw.run.text, tuple(letters))


def _step(
    ring: Ring, start: tuple[float, float], along: tuple[float, float], length_mm: float
) -> float:
    """How far to go in the rectangle so that it is this far on the paper."""
    step = length_mm
    for _ in range(_ROUNDS):
        stretch = ring.stretch(start[1] + along[1] * step / 2)
        step = length_mm / math.hypot(along[0] * stretch, along[1])
    return step


def _bent_letter(ring: Ring, letter: TextDraw, half_mm: float | None = None) -> TextDraw:
    """A letter turned with its arc about the middle of its base line."""
    half = letter.run.width_mm(letter.size_pt) / 2 if half_mm is None else half_mm
    angle = math.radians(letter.turn_deg)
    x = letter.x_mm + half * math.cos(angle)
    y = letter.y_mm + half * math.sin(angle)
    degrees = letter.turn_deg + ring.turn_deg(x)
    angle = math.radians(degrees)
    x, y = ring.to_paper(x, y)
    start = (x - half * math.cos(angle), y - half * math.sin(angle))
    return replace(letter, x_mm=start[0], y_mm=start[1], turn_deg=degrees)


def _rigid(ring: Ring, middle: tuple[float, float], draw: AnyDraw) -> AnyDraw:
    """A draw turned as a whole about a place of the rectangle."""
    degrees = ring.turn_deg(middle[0])
    there = ring.to_paper(*middle)
    whole = shift(*there).after(turn(degrees)).after(shift(-middle[0], -middle[1]))
    if isinstance(draw, CurvedDraw):
        return turned_draw(draw, whole, degrees)
    if isinstance(draw, PathDraw):
        clips = tuple(map_path(whole, clip) for clip in draw.clips)
        return replace(draw, path=map_path(whole, draw.path), clips=clips)
    x, y = whole.apply(draw.x_mm, draw.y_mm)
    moved = replace(draw, x_mm=x, y_mm=y, turn_deg=draw.turn_deg + degrees)
    if isinstance(moved, ImageDraw) and moved.clip is not None:
        return replace(moved, clip=map_path(whole, moved.clip))
    return moved


def _middle_of(draw: ImageDraw) -> tuple[float, float]:
    return turn(draw.turn_deg, draw.x_mm, draw.y_mm).apply(
        draw.x_mm + draw.w_mm / 2, draw.y_mm + draw.h_mm / 2
    )
