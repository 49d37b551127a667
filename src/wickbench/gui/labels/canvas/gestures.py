"""What the hand does on a label, without any widget: from a press to a release, in mm.

A gesture is told where the pointer is and gives the elements as they would be; nothing is stored
before the hand lets go.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final, Protocol

from wickbench.app.texts_marker import N_
from wickbench.domain.arranging import (
    Box,
    Snap,
    bounds,
    box_of,
    moved,
    resized,
    snap_lines,
    snapped,
    turned_to,
)
from wickbench.domain.guides import Guide
from wickbench.domain.labels import LabelDesign

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.domain.labels import AnyElement

TURN_STEP_DEG: Final = 15.0
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Held:
    """Keys held while the pointer moves.

    Attributes:
        straight: keep to one axis, or keep the shape.
        free: neither snap nor steps.
    """

    straight: bool = False
    free: bool = False


class Gesture(Protocol):
    """Something between a press and a release.

    Attributes:
        words: what undo calls it.
        snap: the lines that it stands at now.
    """

    words: str
    snap: Snap

    def to(self, point: Point, held: Held) -> Mapping[int, AnyElement]:
        """The elements as they are with the pointer here."""


@dataclass(slots=True)
class Moving:
    """Elements drawn along with the pointer."""

    design: LabelDesign
    chosen: tuple[int, ...]
    start: Point
    reach_mm: float
    words: str
    guides: tuple[Guide, ...] = ()
    snap: Snap = field(default_factory=Snap)

    def to(self, point: Point, held: Held) -> Mapping[int, AnyElement]:
        """The elements as they are with the pointer here."""
        dx, dy = point[0] - self.start[0], point[1] - self.start[1]
        if held.straight:
            dx, dy = (dx, 0.0) if abs(dx) >= abs(dy) else (0.0, dy)
        self.snap = Snap()
        if not held.free:
            self.snap = self._snap(dx, dy)
            # An axis that is held straight is not moved by a line beside it.
            dx += self.snap.dx if dx or not held.straight else 0.0
            dy += self.snap.dy if dy or not held.straight else 0.0
        return {at: moved(self.design.elements[at], dx, dy) for at in self.chosen}

    def _snap(self, dx: float, dy: float) -> Snap:
        elements = self.design.elements
        others = [box_of(one) for at, one in enumerate(elements) if at not in self.chosen]
        whole = bounds(box_of(elements[at]) for at in self.chosen).moved(dx, dy)
        return snapped(whole, *snap_lines(self.design, others, self.guides), self.reach_mm)


@dataclass(slots=True)
class Sizing:
    """One element drawn larger or smaller by a handle."""

    design: LabelDesign
    at: int
    handle: str
    reach_mm: float
    words: str
    guides: tuple[Guide, ...] = ()
    snap: Snap = field(default_factory=Snap)

    def to(self, point: Point, held: Held) -> Mapping[int, AnyElement]:
        """The element as it is with the pointer here."""
        element = self.design.elements[self.at]
        self.snap = Snap()
        if not held.free and not element.turn_deg % 90:
            others = [box_of(one) for at, one in enumerate(self.design.elements) if at != self.at]
            spot = Box(*point, *point)
            self.snap = snapped(spot, *snap_lines(self.design, others, self.guides), self.reach_mm)
            point = (point[0] + self.snap.dx, point[1] + self.snap.dy)
        return {self.at: resized(element, self.handle, point, keep_shape=held.straight)}


@dataclass(slots=True)
class Turning:
    """One element turned about its middle, in steps unless held free."""

    design: LabelDesign
    at: int
    words: str
    snap: Snap = field(default_factory=Snap)

    def to(self, point: Point, held: Held) -> Mapping[int, AnyElement]:
        """The element as it is with the pointer here."""
        step = 0.0 if held.free else TURN_STEP_DEG
        return {self.at: turned_to(self.design.elements[self.at], point, step)}


def begun(
    design: LabelDesign,
    chosen: tuple[int, ...],
    grip: str,
    start: Point,
    *,
    reach_mm: float,
    guides: tuple[Guide, ...],
) -> Gesture:
    """The gesture that a press begins.

    Args:
        design: the label.
        chosen: places of what is chosen; one for a handle.
        grip: handle that was pressed, "turn", or nothing.
        start: where it was pressed, on the label.
        reach_mm: lines further away than this are not snapped to.
        guides: laid on the label.
    """
    if grip == "turn":
        return Turning(design, chosen[0], N_("Turn on a label"))
    if grip:
        return Sizing(design, chosen[0], grip, reach_mm, N_("Size on a label"), guides)
    return Moving(design, chosen, start, reach_mm, N_("Move on a label"), guides)


@dataclass(slots=True)
class Banding:
    """A rectangle drawn over what is to be chosen."""

    start: Point
    end: Point

    @property
    def box(self) -> Box:
        """The rectangle."""
        (x1, y1), (x2, y2) = self.start, self.end
        return Box(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))

    def chosen(self, design: LabelDesign) -> tuple[int, ...]:
        """What it touches; a frame round everything only when it lies inside whole."""
        band = self.box
        return tuple(
            at for at, one in enumerate(design.elements) if _in_band(band, box_of(one), design)
        )


def _in_band(band: Box, box: Box, design: LabelDesign) -> bool:
    whole_label = (
        box.right - box.left >= design.width_mm * _MOST
        and box.bottom - box.top >= design.height_mm * _MOST
    )
    if whole_label:
        return (
            band.left <= box.left
            and band.top <= box.top
            and band.right >= box.right
            and band.bottom >= box.bottom
        )
    return band.touches(box)


_MOST: Final = 0.8
