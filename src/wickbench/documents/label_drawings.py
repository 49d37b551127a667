"""Drawings of our own on a label: ornaments and caution pictograms, placed and looked at."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents import pictograms
from wickbench.documents.affine import turn
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.ornaments import FINEST_MM, place_ornament
from wickbench.documents.rooms import is_inside
from wickbench.documents.surface import map_path
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import FrameElement, OrnamentElement, PictogramElement
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.affine import Affine
    from wickbench.documents.surface import Surface
    from wickbench.domain.labels import Element, LabelDesign

PICTOGRAM_SOURCE: Final = "EN 15494:2019, 4.3"
LEAST_ROOM_MM: Final = 0.01
"""A box lower or narrower than this holds nothing."""
_SLACK_MM: Final = 0.05
_PAPER: Final = "#ffffff"


@dataclass(frozen=True, slots=True)
class PlacedDrawing:
    """What came of one drawing.

    Attributes:
        draws: from back to front, mm on the label.
        findings: about it.
    """

    draws: tuple[PathDraw, ...] = ()
    findings: tuple[Finding, ...] = ()


def place_drawing(design: LabelDesign, at: int) -> PlacedDrawing:
    """An ornament or a caution pictogram of a design in its box.

    Args:
        design: the label.
        at: number of the element.
    """
    element = design.elements[at]
    about = ("element", at)
    try:
        if isinstance(element, OrnamentElement):
            done = _ornament(design, element)
        elif isinstance(element, PictogramElement):
            done = _pictogram(design, element, _ground(design, at))
        else:
            done = PlacedDrawing()
    except DomainError as error:
        return PlacedDrawing((), (Finding(Rank.STOPS, error.key, error.data, about),))
    found = tuple(replace(one, about=about) for one in done.findings)
    return PlacedDrawing(done.draws, found)


def draw_path(surface: Surface, draw: PathDraw) -> None:
    """Draw a path, seen only inside its clips."""
    for clip in draw.clips:
        surface.push_clip(clip)
    surface.path(
        draw.path,
        fill=draw.fill,
        stroke=draw.stroke,
        width_mm=draw.width_mm,
        dash_mm=draw.dash_mm,
        even_odd=draw.even_odd,
    )
    for _ in draw.clips:
        surface.pop()


def turned_draws(draws: Sequence[PathDraw], affine: Affine) -> tuple[PathDraw, ...]:
    """Draws with every path mapped."""
    return tuple(
        replace(
            one,
            path=map_path(affine, one.path),
            clips=tuple(map_path(affine, clip) for clip in one.clips),
        )
        for one in draws
    )


def turn_of(element: Element) -> Affine:
    """The turn of an element about its middle."""
    middle = (element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2)
    return turn(element.turn_deg, *middle)


def cut_finding(design: LabelDesign, box: Rect, turned: Affine, key: str) -> list[Finding]:
    """Told when a corner of a turned box lies beyond the edge of the sticker."""
    corners = [
        turned.apply(x, y) for x in (box.x_mm, box.right_mm) for y in (box.y_mm, box.bottom_mm)
    ]
    inside = all(is_inside(design, x, y, margin_mm=0.0, slack_mm=_SLACK_MM) for x, y in corners)
    return [] if inside else [Finding(Rank.WATCH, key)]


def _ornament(design: LabelDesign, element: OrnamentElement) -> PlacedDrawing:
    box = Rect(element.x_mm, element.y_mm, element.w_mm, element.h_mm)
    if min(box.w_mm, box.h_mm) < LEAST_ROOM_MM:
        return PlacedDrawing((), (Finding(Rank.WATCH, "ornament.no-room"),))
    placed = place_ornament(element.ornament, box, element.colour)
    found = _cut(design, placed.draws, element)
    if placed.finest_mm is not None and placed.finest_mm < FINEST_MM:
        data = {"line_mm": placed.finest_mm, "least_mm": FINEST_MM}
        found.append(Finding(Rank.WATCH, "ornament.too-fine", data))
    return PlacedDrawing(turned_draws(placed.draws, turn_of(element)), tuple(found))


def _pictogram(design: LabelDesign, element: PictogramElement, ground: str) -> PlacedDrawing:
    aspect = pictograms.width_mm(element.pictogram, 1.0)
    high = min(element.h_mm, element.w_mm / aspect)
    if high < LEAST_ROOM_MM:
        return PlacedDrawing((), (Finding(Rank.WATCH, "ornament.no-room"),))
    x = element.x_mm + (element.w_mm - high * aspect) / 2
    y = element.y_mm + (element.h_mm - high) / 2
    parts = pictograms.placed(element.pictogram, x, y, high, colour=element.colour, ground=ground)
    draws = [PathDraw(one.path, one.fill, one.stroke, one.width_mm) for one in parts]
    found = cut_finding(design, Rect(x, y, high * aspect, high), turn_of(element), "ornament.cut")
    if high + _SLACK_MM < pictograms.LEAST_HEIGHT_MM:
        data = {
            "height_mm": high,
            "least_mm": pictograms.LEAST_HEIGHT_MM,
            "source": PICTOGRAM_SOURCE,
        }
        found.append(Finding(Rank.WATCH, "label.pictogram-small", data))
    return PlacedDrawing(turned_draws(draws, turn_of(element)), tuple(found))


def _cut(design: LabelDesign, draws: Sequence[PathDraw], element: OrnamentElement) -> list[Finding]:
    """Told when the ink itself is cut: a corner's box may well reach over a round edge."""
    turned = turn_of(element)
    for one in draws:
        for _, *numbers in one.path:
            for x, y in zip(numbers[::2], numbers[1::2], strict=True):
                spot = turned.apply(float(x), float(y))
                if not is_inside(design, *spot, margin_mm=0.0, slack_mm=_SLACK_MM):
                    return [Finding(Rank.WATCH, "ornament.cut")]
    return []


def _ground(design: LabelDesign, at: int) -> str:
    """Colour behind the middle of a pictogram: what its slash is set off with."""
    element = design.elements[at]
    x, y = element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2
    for under in reversed(design.elements[:at]):
        across, down = x - under.x_mm, y - under.y_mm
        covers = 0 <= across <= under.w_mm and 0 <= down <= under.h_mm
        if covers and isinstance(under, FrameElement) and under.fill:
            return under.fill
    return design.background or _PAPER
