"""What a laid-out label is made of: runs, paths and pictures in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from wickbench.documents.surface import Colour, Path
from wickbench.documents.text import Run

if TYPE_CHECKING:
    from collections.abc import Iterable

    from wickbench.documents.affine import Affine


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
class CurvedDraw:
    """Text whose letters stand each at their own place; selected and read back as one.

    Attributes:
        text: what it says.
        letters: a cluster of glyphs each, in the order they are read, blanks too.
    """

    text: str
    letters: tuple[TextDraw, ...]


@dataclass(frozen=True, slots=True)
class PathDraw:
    """A path on the label.

    Attributes:
        even_odd: filled by the even-odd rule; else by the non-zero one.
        clips: seen only inside all of these.
    """

    path: Path
    fill: Colour | None = None
    stroke: Colour | None = None
    width_mm: float = 0.25
    dash_mm: tuple[float, ...] = ()
    even_odd: bool = False
    clips: tuple[Path, ...] = ()


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


AnyDraw = TextDraw | CurvedDraw | PathDraw | ImageDraw
"""One thing drawn on a label."""


def turned_draw(draw: CurvedDraw, turned: Affine, degrees: float) -> CurvedDraw:
    """Curved text turned as a whole, by a map that turns it by these degrees."""
    letters = []
    for letter in draw.letters:
        x, y = turned.apply(letter.x_mm, letter.y_mm)
        letters.append(replace(letter, x_mm=x, y_mm=y, turn_deg=letter.turn_deg + degrees))
    return CurvedDraw(draw.text, tuple(letters))


def faces_of(draws: Iterable[AnyDraw]) -> list[str]:
    """Files of the typefaces that are drawn with, each once."""
    found: set[str] = set()
    for draw in draws:
        if isinstance(draw, TextDraw):
            found.add(str(draw.run.face.path))
        elif isinstance(draw, CurvedDraw):
            found.update(str(letter.run.face.path) for letter in draw.letters)
    return sorted(found)


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
