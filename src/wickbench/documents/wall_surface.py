"""A drawing surface that lays what is drawn onto the wall of a vessel: everything becomes areas."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass, field
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import IDENTITY, Affine, shift, turn
from wickbench.documents.flattening import Chain, Point, chains, dashed, ribbon
from wickbench.documents.surface import BLACK, Colour, Surface, map_path, pieces_at
from wickbench.documents.text import mm_per_unit
from wickbench.documents.wall_map import WallMap

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.documents.surface import Path
    from wickbench.documents.text import Run, Typeface

_GLYPH_STEPS: Final = 12.0
"""Pieces of an em that a letter's curves are cut into, about."""
_STRIPS: Final = 24


@dataclass(frozen=True, slots=True)
class WallArea:
    """An area on the wall: chains of (angle in radians, height in mm), filled non-zero."""

    chains: tuple[tuple[Point, ...], ...]
    fill: Colour
    clip: int = 0


@dataclass(frozen=True, slots=True)
class WallPicture:
    """A strip of a picture, small enough to lie flat.

    Attributes:
        data: the picture's file.
        corners: of the strip on the wall: top left, top right, bottom right, bottom left.
        part: left and right edge, or top and bottom edge, of the strip in the picture, 0 to 1.
        upright: the strip goes from the top to the bottom of the picture.
        clip: number of the clip that it is cut to.
    """

    data: bytes = field(repr=False)
    corners: tuple[Point, ...]
    part: tuple[float, float]
    upright: bool = True
    clip: int = 0


Clip = tuple[tuple[Point, ...], ...]


@dataclass
class WallSurface:
    """A `Surface` that keeps areas and strips of pictures where they lie on the wall.

    Attributes:
        wall_map: lays the label on the wall.
        items: what was drawn, from back to front.
        clips: chains of each clip in force; number 0 cuts nothing.
    """

    wall_map: WallMap
    items: list[WallArea | WallPicture] = field(default_factory=list)
    clips: list[tuple[Clip, ...]] = field(default_factory=lambda: [()])
    _forms: dict[str, Callable[[Surface], None]] = field(default_factory=dict)
    _stack: list[tuple[Affine, int]] = field(default_factory=list)
    _now: Affine = IDENTITY
    _clip: int = 0

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """A label has no pages."""

    def glyphs(
        self,
        run: Run,
        size_pt: float,
        x_mm: float,
        y_mm: float,
        *,
        colour: Colour = BLACK,
        turn_deg: float = 0.0,
    ) -> None:
        """Lay the outlines of a run on the wall."""
        for part, left, top in pieces_at(run, size_pt, (x_mm, y_mm), turn_deg):
            unit = mm_per_unit(part.face, size_pt)
            scale = Affine(unit, 0.0, 0.0, -unit, 0.0, 0.0)
            placed = self._now.after(shift(left, top)).after(turn(turn_deg)).after(scale)
            for glyph in part.glyphs:
                here = placed.after(shift(glyph.x, glyph.y))
                self._fill(_glyph_chains(part.face, glyph.gid), here, colour)

    def path(
        self,
        path: Path,
        *,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width_mm: float = 0.25,
        dash_mm: tuple[float, ...] = (),
        even_odd: bool = False,  # noqa: ARG002 - labels fill non-zero
    ) -> None:
        """Lay an area and its edge on the wall."""
        found = chains(map_path(self._now, path))
        if fill is not None:
            self._fill(found, IDENTITY, fill)
        if stroke is not None and width_mm > 0:
            for chain in found:
                for piece in dashed(chain, dash_mm):
                    self._fill(ribbon(piece, width_mm), IDENTITY, stroke)

    def image(
        self,
        data: bytes,
        x_mm: float,
        y_mm: float,
        width_mm: float,
        height_mm: float,
        *,
        turn_deg: float = 0.0,
    ) -> None:
        """Lay a picture on the wall in strips."""
        box = Affine(width_mm, 0.0, 0.0, height_mm, x_mm, y_mm)
        unit = self._now.after(turn(turn_deg, x_mm, y_mm)).after(box)
        # Strips stand upright on the wall, whichever way the picture is turned.
        upright = abs(unit.a) >= abs(unit.c)
        for number in range(_STRIPS):
            low, high = number / _STRIPS, (number + 1) / _STRIPS
            sides = ((low, 0.0, high, 1.0), (0.0, low, 1.0, high))
            left, top, right, bottom = sides[0] if upright else sides[1]
            corners = ((left, top), (right, top), (right, bottom), (left, bottom))
            laid = tuple(self.wall_map.place(*unit.apply(*corner)) for corner in corners)
            self.items.append(WallPicture(data, laid, (low, high), upright, self._clip))

    def push_clip(self, path: Path) -> None:
        """Cut what follows until `pop`."""
        self._stack.append((self._now, self._clip))
        laid = tuple(self._laid(chain, IDENTITY) for chain in chains(map_path(self._now, path)))
        self.clips.append((*self.clips[self._clip], laid))
        self._clip = len(self.clips) - 1

    def push_transform(self, affine: Affine) -> None:
        """Map what follows until `pop`."""
        self._stack.append((self._now, self._clip))
        self._now = self._now.after(affine)

    def pop(self) -> None:
        """Take back the last state."""
        self._now, self._clip = self._stack.pop()

    def push_span(self, text: str) -> None:
        """A wall is not read."""

    def pop_span(self) -> None:
        """Nothing to take back."""

    def form(
        self,
        key: str,
        width_mm: float,  # noqa: ARG002 - the protocol's argument
        height_mm: float,  # noqa: ARG002 - the protocol's argument
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,  # noqa: ARG002 - the protocol's argument
    ) -> None:
        """Keep a drawing for `place`."""
        self._forms.setdefault(key, draw)

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Draw a kept drawing here."""
        self.push_transform(shift(x_mm, y_mm).after(turn(turn_deg)))
        self._forms[key](self)
        self.pop()

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """A wall cannot be clicked."""

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """A wall has no title."""

    def _fill(self, found: Iterable[Chain], affine: Affine, colour: Colour) -> None:
        laid = tuple(self._laid(chain, affine) for chain in found)
        if laid:
            self.items.append(WallArea(laid, colour, self._clip))

    def _laid(self, chain: Chain, affine: Affine) -> tuple[Point, ...]:
        place = self.wall_map.place
        return tuple(place(*affine.apply(*point)) for point in chain.points)


@lru_cache(4096)
def _glyph_chains(face: Typeface, gid: int) -> tuple[Chain, ...]:
    """The outline of a glyph in font units, its straight lines left whole."""
    step = face.units_per_em / _GLYPH_STEPS
    return tuple(chains(face.outline(gid), step=math.inf, curve_step=step))
