"""What a laid-out label is made of: runs, paths and pictures in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, field

from wickbench.documents.surface import Colour, Path
from wickbench.documents.text import Run


@dataclass(frozen=True, slots=True)
class TextDraw:
    """A run on the label: start of its base line, turned clockwise about it."""

    run: Run
    size_pt: float
    x_mm: float
    y_mm: float
    colour: Colour
    turn_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class PathDraw:
    """A path on the label."""

    path: Path
    fill: Colour | None = None
    stroke: Colour | None = None
    width_mm: float = 0.25
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class ImageDraw:
    """A picture on the label, turned about its top left corner, cut to a path if there is one."""

    data: bytes = field(repr=False)
    x_mm: float
    y_mm: float
    w_mm: float
    h_mm: float
    turn_deg: float = 0.0
    clip: Path | None = None


@dataclass(frozen=True, slots=True)
class LaidOutText:
    """What came of one text element.

    Attributes:
        element: its number in the design.
        text: with the fields filled in.
        size_pt: the size it came to.
        x_height_mm: height of an x at that size.
        o_height_mm: height of an o at that size, as rules on letter size measure.
        cap_height_mm: height of an H at that size.
        lines: how many lines it took.
        fits: False when it runs over.
    """

    element: int
    text: str
    size_pt: float
    x_height_mm: float
    o_height_mm: float
    cap_height_mm: float
    lines: int
    fits: bool
