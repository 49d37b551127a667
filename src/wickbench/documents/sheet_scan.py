"""A sticker sheet found in a scan of it, by the edges of its stickers.

The picture shows the page, straight or turned by a degree or so, alone or on a ground of another
brightness. Edges add up along rows and columns, so that faint die lines show; the row and the
column of equal stickers that explain them best are then fitted to the edges by least squares.
"""

from __future__ import annotations

import statistics
from dataclasses import dataclass
from typing import Final

from PIL import Image, ImageChops, ImageFilter

from wickbench.documents.pictures import open_picture
from wickbench.documents.scan_profiles import (
    column_means,
    edges_across,
    edges_down,
    peaks,
    row_means,
    sharpness,
)
from wickbench.documents.scan_shape import shape_of
from wickbench.domain.edge_grid import EdgeGrid, find_grid
from wickbench.domain.errors import DomainError
from wickbench.domain.sheet_measuring import SideMeasures, fit_edges

MM_PER_INCH: Final = 25.4
_FINE: Final = 6.0  # pixels to the millimetre that edges are looked for at
_COARSE: Final = 2.0
_LEAST: Final = 2.9  # 74 dots per inch
_MOST_SKEW_DEG: Final = 1.5
_STEPS_DEG: Final = (0.1, 0.025)
_STRAIGHT_DEG: Final = 0.04
_ROUGH_MM: Final = 1.2
_NEAR_MM: Final = 0.7
_SAME_FORM: Final = 0.015  # part by which the picture's form may differ from the page's
_OTHER_FORM: Final = 0.03
_SAME_SIZE: Final = 0.01
_BRIGHT: Final = 170  # a rim as bright as this is the paper's own
_GROUND_STEP: Final = 24
_LEAST_SEEN: Final = 0.75
_BAND: Final = 0.4
_ROUND_BAND: Final = 0.12


@dataclass(frozen=True, slots=True)
class ScannedSheet:
    """What a picture shows of a sheet.

    Attributes:
        across: margin, pitch and size along a row, with doubts.
        down: the same down a column.
        columns: stickers side by side.
        rows: stickers one below the other.
        shape: rectangle, rounded, circle or oval.
        corner_mm: corner radius of a rounded one.
        skew_deg: how the page is turned in the picture, clockwise.
        seen: part of the edges that show.
        picture: the page upright, cut to its edges, as looked at.
    """

    across: SideMeasures
    down: SideMeasures
    columns: int
    rows: int
    shape: str
    corner_mm: float
    skew_deg: float
    seen: float
    picture: Image.Image


def find_sheet(data: bytes, page_mm: tuple[float, float]) -> ScannedSheet:
    """Find the stickers in a picture of a sheet.

    Args:
        data: the picture's file.
        page_mm: width and height of the page.

    Raises:
        DomainError: ``picture.damaged``, ``picture.too-large``; ``scan.coarse`` for too few dots
            per inch, ``scan.no-page`` when the page cannot be told from its ground,
            ``scan.no-stickers`` when no even grid is seen, ``scan.unsure`` when too little of it.
    """
    picture = open_picture(data)
    alone = _is_page(picture, page_mm)
    page, skew_deg = upright_page(_grey(picture), page_mm, alone=alone)
    aside_mm = 1.0 + abs(skew_deg) * max(page_mm) / 2 / 57.3
    scale = (page.width / page_mm[0], page.height / page_mm[1])
    across_edges, down_edges = edges_across(page), edges_down(page)
    across = find_grid(peaks(column_means(across_edges), scale[0], aside_mm), _ROUGH_MM)
    down = find_grid(peaks(row_means(down_edges), scale[1], aside_mm), _ROUGH_MM)
    if across is None or down is None:
        raise DomainError("scan.no-stickers")
    looked = _Looked((across_edges, down_edges), scale, (across, down), aside_mm)
    sides, seen = looked.sides(_BAND)
    counts = (across.count, down.count)
    shape, corner_mm = shape_of(looked.edges, scale, sides, counts)
    if shape in {"circle", "oval"}:
        sides, seen = looked.sides(_ROUND_BAND)
    return ScannedSheet(*sides, *counts, shape, corner_mm, skew_deg, seen, page)


@dataclass(frozen=True, slots=True)
class _Looked:
    """Edges of a page with the grids seen at first; each pair is across and down."""

    edges: tuple[Image.Image, Image.Image]
    scale: tuple[float, float]
    grids: tuple[EdgeGrid, EdgeGrid]
    aside_mm: float

    def sides(self, band: float) -> tuple[tuple[SideMeasures, SideMeasures], float]:
        """Both sides fitted, and which part of the edges shows.

        Args:
            band: part of the stickers, in their middle, that is looked at: little of a round one.
        """
        across, down = self.grids
        profiles = (
            column_means(self.edges[0], _middles(down, self.scale[1], band)),
            row_means(self.edges[1], _middles(across, self.scale[0], band)),
        )
        found = [
            _fitted(profile, per_mm, grid, self.aside_mm)
            for profile, per_mm, grid in zip(profiles, self.scale, self.grids, strict=True)
        ]
        (left, left_seen), (top, top_seen) = found
        seen = min(left_seen, top_seen)
        if seen < _LEAST_SEEN or left is None or top is None:
            raise DomainError("scan.unsure", seen_percent=seen * 100)
        return (left, top), seen


def upright_page(
    picture: Image.Image, page_mm: tuple[float, float], *, alone: bool = False
) -> tuple[Image.Image, float]:
    """The page turned upright and cut to its edges, and how it was turned, degrees clockwise.

    Args:
        picture: in shades of grey.
        page_mm: width and height of the page.
        alone: the picture is known to show the page from edge to edge.

    Raises:
        DomainError: as `find_sheet`.
    """
    if (picture.width > picture.height) != (page_mm[0] > page_mm[1]) and page_mm[0] != page_mm[1]:
        picture = picture.transpose(Image.Transpose.ROTATE_90)
    if picture.width / page_mm[0] < _LEAST:
        raise DomainError("scan.coarse", least=75)
    picture = picture.reduce(max(1, round(picture.width / page_mm[0] / _FINE)))
    skew = _skew(picture, picture.width / page_mm[0])
    ground = _ground(picture)
    straight = picture
    if skew:
        straight = picture.rotate(skew, Image.Resampling.BICUBIC, fillcolor=ground)
    page = straight if alone else _page(straight, ground, page_mm)
    size = (round(page_mm[0] * _FINE), round(page_mm[1] * _FINE))
    if page.width < size[0]:
        size = page.size
    return page.resize(size, Image.Resampling.BOX), skew


def _is_page(picture: Image.Image, page_mm: tuple[float, float]) -> bool:
    """Whether the file says so many dots per inch that it is just the page."""
    dpi = picture.info.get("dpi")
    if not isinstance(dpi, tuple) or len(dpi) < 2 or min(dpi[:2]) < 1:  # noqa: PLR2004 - two sides
        return False
    size = sorted(
        pixels / float(per) * 25.4 for pixels, per in zip(picture.size, dpi, strict=False)
    )
    wanted = sorted(page_mm)
    return all(abs(one / other - 1) <= _SAME_SIZE for one, other in zip(size, wanted, strict=True))


def _grey(picture: Image.Image) -> Image.Image:
    """In shades of grey; what is transparent is white."""
    if picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info:
        white = Image.new("RGBA", picture.size, "#ffffff")
        white.alpha_composite(picture.convert("RGBA"))
        return white.convert("L")
    return picture.convert("L")


def _skew(picture: Image.Image, pixels_per_mm: float) -> float:
    """The turn, anticlockwise, at which edges stand most upright: first roughly, then closely.

    It is softened before, for what is hardly turned is hardly resampled and sharper by itself.
    """
    by = max(1, round(pixels_per_mm / _COARSE))
    small = picture.reduce(by).filter(ImageFilter.GaussianBlur(1.0))
    ground = _ground(small)
    best, reach = 0.013, round(_MOST_SKEW_DEG / _STEPS_DEG[0])
    for step in _STEPS_DEG:
        tried = [best + at * step for at in range(-reach, reach + 1)]
        best = max(tried, key=lambda angle: _upright(small, angle, ground))
        reach = 4
    return 0.0 if abs(best) < _STRAIGHT_DEG else best


def _upright(small: Image.Image, angle: float, ground: int) -> float:
    turned = small.rotate(angle, Image.Resampling.BILINEAR, fillcolor=ground)
    edge = max(4, small.width // 30)
    inside = turned.crop((edge, edge, small.width - edge, small.height - edge))
    return sharpness(column_means(edges_across(inside))) + sharpness(row_means(edges_down(inside)))


def _ground(picture: Image.Image) -> int:
    """The brightness of the picture's rim."""
    wide, high = picture.size
    rim = max(1, min(wide, high) // 200)
    boxes = (
        (0, 0, wide, rim), (0, high - rim, wide, high),
        (0, 0, rim, high), (wide - rim, 0, wide, high),
    )  # fmt: skip
    return int(statistics.median(b"".join(picture.crop(box).tobytes() for box in boxes)))


def _page(picture: Image.Image, ground: int, page_mm: tuple[float, float]) -> Image.Image:
    """The page alone: cut from a ground of another brightness, or the picture as it is."""
    form = page_mm[0] / page_mm[1]
    alone = abs(picture.width / picture.height / form - 1) <= _SAME_FORM
    if alone and ground > _BRIGHT:
        return picture
    other = ImageChops.difference(picture, Image.new("L", picture.size, ground))
    by = max(1, picture.width // 800)
    clear = other.reduce(by).point([255 * (value > _GROUND_STEP) for value in range(256)])
    box = clear.filter(ImageFilter.MedianFilter(5)).getbbox()
    if box is not None and min(box[2] - box[0], box[3] - box[1]) * by > picture.width / 3:
        cut = _cut(other, box, by)
        wide, high = cut[2] - cut[0], cut[3] - cut[1]
        whole = wide > 0.97 * picture.width and high > 0.97 * picture.height
        if abs(wide / high / form - 1) <= _OTHER_FORM and not whole:
            return picture.crop(cut)
    if not alone:
        raise DomainError("scan.no-page")
    return picture


def _cut(other: Image.Image, box: tuple[int, int, int, int], by: int) -> tuple[int, int, int, int]:
    """The page's edges to a pixel, from where it was seen in the smaller picture."""
    clear = other.point([255 * (value > _GROUND_STEP) for value in range(256)]).convert("F")
    left, top, right, bottom = (value * by for value in box)
    reach = 3 * by
    inside = clear.crop((left + reach, top + reach, right - reach, bottom - reach))
    across = column_means(clear.crop((0, top + reach, clear.width, top + reach + inside.height)))
    down = row_means(clear.crop((left + reach, 0, left + reach + inside.width, clear.height)))
    return (
        _crossing(across, left, reach), _crossing(down, top, reach),
        _crossing(across, right, reach, back=True), _crossing(down, bottom, reach, back=True),
    )  # fmt: skip


def _crossing(profile: list[float], at: int, reach: int, *, back: bool = False) -> int:
    """Where half of a line belongs to the page, near a place."""
    places = range(max(0, at - reach), min(len(profile), at + reach + 1))
    inside = [place for place in places if profile[place] > 127]  # noqa: PLR2004 - half of 255
    if not inside:
        return at
    return inside[-1] + 1 if back else inside[0]


def _middles(grid: EdgeGrid, per_mm: float, band: float) -> list[tuple[int, int]]:
    """Bands through the middle of the stickers along the other side, in pixels."""
    bands = []
    for at in range(grid.count):
        near = grid.near_mm(at)
        start = near + (1 - band) / 2 * grid.size_mm
        end = near + (1 + band) / 2 * grid.size_mm
        bands.append((round(start * per_mm), round(end * per_mm)))
    return bands


def _fitted(
    profile: list[float], per_mm: float, rough: EdgeGrid, aside_mm: float
) -> tuple[SideMeasures | None, float]:
    """The side fitted to the edges that show near their places, and which part of them does."""
    shown = peaks(profile, per_mm, aside_mm)
    edges: list[tuple[int, bool, float]] = []
    for at in range(rough.count):
        for far in (False, True):
            place = rough.near_mm(at) + (rough.size_mm if far else 0.0)
            near = min(shown, key=lambda one: abs(one.place_mm - place), default=None)
            if near is not None and abs(near.place_mm - place) <= _ROUGH_MM + _NEAR_MM:
                edges.append((at, far, near.place_mm))
    return fit_edges(edges, rough.count), len(edges) / (2 * rough.count)
