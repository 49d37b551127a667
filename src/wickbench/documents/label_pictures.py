"""Pictures on a label: cut, fitted and turned; photographs as they are, drawings as paths."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import Affine
from wickbench.documents.label_checks import COARSE_DPI
from wickbench.documents.label_drawings import (
    LEAST_ROOM_MM,
    cut_finding,
    turn_of,
    turned_draws,
)
from wickbench.documents.label_draws import ImageDraw, PathDraw
from wickbench.documents.ornaments import FINEST_MM
from wickbench.documents.outlines import rectangle
from wickbench.documents.pictures import picture_size
from wickbench.documents.surface import Path, map_path
from wickbench.documents.svg_paths import is_svg, svg_drawing
from wickbench.documents.svg_strokes import Stroke, outlined
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import PictureElement
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.pictures import PictureSize
    from wickbench.documents.svg_paths import Drawing
    from wickbench.domain.labels import LabelDesign

_MM_PER_INCH: Final = 25.4
_WHITE_FROM: Final = 0xF2
_EVEN: Final = 0.01
_HAIR: Final = 1e-9
_QUIET: Final = frozenset({"gradient", "transparent", "colour", "style", "animation", "script"})


@dataclass(frozen=True, slots=True)
class PlacedPicture:
    """What came of one picture.

    Attributes:
        draws: mm on the label.
        findings: about it.
    """

    draws: tuple[ImageDraw | PathDraw, ...] = ()
    findings: tuple[Finding, ...] = ()


@dataclass(frozen=True, slots=True)
class Fitted:
    """Where a picture lies before it is turned.

    Attributes:
        whole: all of it, with what is cut off, mm.
        seen: what is left of it.
        clip: True when something lies beyond what is seen.
    """

    whole: Rect
    seen: Rect
    clip: bool


def place_picture(
    design: LabelDesign, at: int, pictures: Callable[[str], bytes | None]
) -> PlacedPicture:
    """A picture of a design in its box.

    Args:
        design: the label.
        at: number of the element.
        pictures: finds a picture's file by its key.
    """
    element = design.elements[at]
    about = ("element", at)
    if not isinstance(element, PictureElement):
        return PlacedPicture()
    data = pictures(element.picture) if element.picture else None
    if data is None:
        key = "label.picture-missing" if element.picture else "label.picture-none"
        return PlacedPicture((), (Finding(Rank.WATCH, key, {}, about),))
    if min(element.w_mm, element.h_mm) < LEAST_ROOM_MM:
        return PlacedPicture((), (Finding(Rank.WATCH, "ornament.no-room", {}, about),))
    try:
        done = (_drawn if is_svg(data) else _photograph)(design, element, data)
    except DomainError as error:
        return PlacedPicture((), (Finding(Rank.STOPS, error.key, error.data, about),))
    return PlacedPicture(done.draws, tuple(replace(one, about=about) for one in done.findings))


def fitted(element: PictureElement, aspect: float) -> Fitted:
    """Where a picture of an aspect (width by height) lies in its box.

    Args:
        element: box, cut and fit.
        aspect: of the whole picture.
    """
    across = 1.0 - element.crop_left - element.crop_right
    down = 1.0 - element.crop_top - element.crop_bottom
    box = Rect(element.x_mm, element.y_mm, element.w_mm, element.h_mm)
    wide, high = _size(element.fit, box, aspect * across / down)
    x, y = box.x_mm + (box.w_mm - wide) / 2, box.y_mm + (box.h_mm - high) / 2
    whole = Rect(
        x - element.crop_left * wide / across,
        y - element.crop_top * high / down,
        wide / across,
        high / down,
    )
    seen = box if element.fit == "cover" else Rect(x, y, wide, high)
    cut = min(across, down) < 1.0 - _HAIR
    return Fitted(whole, seen, cut or element.fit == "cover")


def _size(fit: str, box: Rect, aspect: float) -> tuple[float, float]:
    by_width = (box.w_mm, box.w_mm / aspect)
    by_height = (box.h_mm * aspect, box.h_mm)
    if fit == "stretch":
        return box.w_mm, box.h_mm
    if (by_width[1] <= box.h_mm) == (fit == "contain"):
        return by_width
    return by_height


def _photograph(design: LabelDesign, element: PictureElement, data: bytes) -> PlacedPicture:
    size = picture_size(data)
    place = fitted(element, size.width_px / size.height_px)
    x, y = turn_of(element).apply(place.whole.x_mm, place.whole.y_mm)
    box = (x, y, place.whole.w_mm, place.whole.h_mm)
    draw = ImageDraw(data, *box, element.turn_deg, _clip(element, place))
    found = [*_coarse(size, place.whole), *_cut(design, element, place)]
    return PlacedPicture((draw,), tuple(found))


def _coarse(size: PictureSize, whole: Rect) -> list[Finding]:
    """Too few pixels for its size on paper; of a stretched one the coarser way counts."""
    dpi = min(size.width_px / whole.w_mm, size.height_px / whole.h_mm) * _MM_PER_INCH
    if round(dpi) >= COARSE_DPI:
        return []
    data = {"dots": round(dpi), "least": COARSE_DPI}
    return [Finding(Rank.WATCH, "label.picture-coarse", data)]


def _drawn(design: LabelDesign, element: PictureElement, data: bytes) -> PlacedPicture:
    drawing = svg_drawing(data)
    place = fitted(element, drawing.width / drawing.height)
    draws = _scaled(data, place.whole, element.ink)
    if place.clip:
        clip = rectangle(place.seen.x_mm, place.seen.y_mm, place.seen.w_mm, place.seen.h_mm)
        draws = tuple(replace(one, clips=(clip, *one.clips)) for one in draws)
    found = [*_left_out(drawing), *_fine(draws), *_cut(design, element, place)]
    return PlacedPicture(turned_draws(draws, turn_of(element)), tuple(found))


@lru_cache(64)
def _scaled(data: bytes, whole: Rect, ink: str) -> tuple[PathDraw, ...]:
    """The drawing's paths in its place; remembered, for a preview asks at every key stroke."""
    drawing = svg_drawing(data)
    across, down = whole.w_mm / drawing.width, whole.h_mm / drawing.height
    affine = Affine(across, 0.0, 0.0, down, whole.x_mm, whole.y_mm)
    draws = drawing.draws
    if abs(across - down) > _EVEN * max(across, down):
        fine = max(drawing.width, drawing.height) / 8000
        draws = tuple(_as_area(one, fine) for one in draws)
    k = (across * down) ** 0.5
    return tuple(
        replace(
            _inked(one, ink),
            path=map_path(affine, one.path),
            width_mm=one.width_mm * k,
            clips=tuple(map_path(affine, clip) for clip in one.clips),
        )
        for one in draws
    )


def _as_area(draw: PathDraw, fine: float) -> PathDraw:
    """A line as the area it covers, for lines are as wide in every direction."""
    if draw.stroke is None:
        return draw
    area = outlined(draw.path, Stroke(draw.width_mm, limit=10.0), fine)
    return PathDraw(area, draw.stroke, clips=draw.clips)


def _inked(draw: PathDraw, ink: str) -> PathDraw:
    if not ink:
        return draw
    fill = ink if draw.fill and not _is_white(draw.fill) else draw.fill
    stroke = ink if draw.stroke and not _is_white(draw.stroke) else draw.stroke
    return replace(draw, fill=fill, stroke=stroke)


def _is_white(colour: str) -> bool:
    """White is paper: it stays open in a drawing of one colour."""
    return min(int(colour[at : at + 2], 16) for at in (1, 3, 5)) >= _WHITE_FROM


def _left_out(drawing: Drawing) -> list[Finding]:
    return [
        Finding(Rank.NOTE if word in _QUIET else Rank.WATCH, f"svg.left-out-{word}")
        for word in drawing.left_out
    ]


def _fine(draws: tuple[PathDraw, ...]) -> list[Finding]:
    finest = min((one.width_mm for one in draws if one.stroke), default=FINEST_MM)
    if finest >= FINEST_MM:
        return []
    data = {"line_mm": finest, "least_mm": FINEST_MM}
    return [Finding(Rank.WATCH, "ornament.too-fine", data)]


def _clip(element: PictureElement, place: Fitted) -> Path | None:
    if not place.clip:
        return None
    seen = place.seen
    path = rectangle(seen.x_mm, seen.y_mm, seen.w_mm, seen.h_mm)
    return map_path(turn_of(element), path)


def _cut(design: LabelDesign, element: PictureElement, place: Fitted) -> list[Finding]:
    """One that fills its box may run over the edge on purpose."""
    if element.fit == "cover":
        return []
    return cut_finding(design, place.seen, turn_of(element), "label.picture-cut")
