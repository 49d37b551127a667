"""What papers are drawn on: millimetres, origin top left, y down; glyph ids, never strings.

One drawing serves the PDF, the printer and the screen. `RecordingSurface` keeps what was drawn
as plain values, for tests and for measuring.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import Protocol, runtime_checkable

from wickbench.documents.affine import IDENTITY, Affine, shift, turn
from wickbench.documents.text import Run

Path = tuple[tuple[str | float, ...], ...]
"""Path commands ``("m", x, y) ("l", x, y) ("q", …) ("c", …) ("z",)`` in mm, y down."""

Colour = str
"""Colour as ``#rrggbb``."""

BLACK: Colour = "#000000"


@runtime_checkable
class Surface(Protocol):
    """Anything a paper can be drawn on."""

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Start a page of this exact size; the state stack must be empty."""

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
        """Draw a run; (x, y) is the start of its base line, turned clockwise about it."""

    def path(
        self,
        path: Path,
        *,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width_mm: float = 0.25,
        dash_mm: tuple[float, ...] = (),
        even_odd: bool = False,
    ) -> None:
        """Fill and stroke a path; line ends butt, corners mitred."""

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
        """Draw a picture file stretched to a box, turned clockwise about its top left corner."""

    def push_clip(self, path: Path) -> None:
        """Keep the state and draw only inside the path until `pop`."""

    def push_transform(self, affine: Affine) -> None:
        """Keep the state and map all that follows until `pop`."""

    def pop(self) -> None:
        """Take back the state of the last push."""

    def push_span(self, text: str) -> None:
        """Let the runs that follow be read as this one text until `pop_span`; no span in a span."""

    def pop_span(self) -> None:
        """The text is at its end."""

    def form(
        self,
        key: str,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,
    ) -> None:
        """Make a drawing once under a key; does nothing when the key is known.

        What lies more than ``margin_mm`` outside the box (0, 0, width, height) is cut off.
        """

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Draw the form with its top left corner here, turned clockwise about that corner."""

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """Make a box of the page lead to an address; surfaces without links ignore it."""

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """Say what the document is called and in which language (BCP 47) it is written."""


@dataclass(frozen=True, slots=True)
class DrawnText:
    """A run as it stood on the page."""

    page: int
    run: Run
    size_pt: float
    x_mm: float
    y_mm: float
    colour: Colour
    turn_deg: float


@dataclass(frozen=True, slots=True)
class DrawnPath:
    """A path as it stood on the page."""

    page: int
    path: Path
    fill: Colour | None
    stroke: Colour | None
    width_mm: float


@dataclass(frozen=True, slots=True)
class DrawnImage:
    """A picture as it stood on the page: the map from its unit square to the page."""

    page: int
    data: bytes
    unit_to_page: Affine


@dataclass
class RecordingSurface:
    """A surface that keeps everything in page millimetres; forms are replayed where placed."""

    pages: list[tuple[float, float]] = field(default_factory=list)
    texts: list[DrawnText] = field(default_factory=list)
    paths: list[DrawnPath] = field(default_factory=list)
    images: list[DrawnImage] = field(default_factory=list)
    placed: list[tuple[int, str, float, float]] = field(default_factory=list)
    links: list[str] = field(default_factory=list)
    spans: list[str] = field(default_factory=list)
    title: str = ""
    language: str = ""
    _forms: dict[str, Callable[[Surface], None]] = field(default_factory=dict)
    _stack: list[Affine] = field(default_factory=list)
    _now: Affine = IDENTITY

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Start a page."""
        self.pages.append((width_mm, height_mm))

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
        """Keep a run."""
        for part, left, top in pieces_at(run, size_pt, (x_mm, y_mm), turn_deg):
            x, y = self._now.apply(left, top)
            self.texts.append(DrawnText(len(self.pages), part, size_pt, x, y, colour, turn_deg))

    def path(
        self,
        path: Path,
        *,
        fill: Colour | None = None,
        stroke: Colour | None = None,
        width_mm: float = 0.25,
        dash_mm: tuple[float, ...] = (),  # noqa: ARG002 - the protocol's argument
        even_odd: bool = False,  # noqa: ARG002 - the protocol's argument
    ) -> None:
        """Keep a path."""
        moved = map_path(self._now, path)
        self.paths.append(DrawnPath(len(self.pages), moved, fill, stroke, width_mm))

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
        """Keep a picture."""
        box = Affine(width_mm, 0, 0, height_mm, x_mm, y_mm)
        drawn = self._now.after(turn(turn_deg, x_mm, y_mm)).after(box)
        self.images.append(DrawnImage(len(self.pages), data, drawn))

    def push_clip(self, path: Path) -> None:  # noqa: ARG002 - the protocol's argument
        """Keep the state; nothing is cut from the record."""
        self._stack.append(self._now)

    def push_transform(self, affine: Affine) -> None:
        """Keep the state and map what follows."""
        self._stack.append(self._now)
        self._now = self._now.after(affine)

    def pop(self) -> None:
        """Take back the last state."""
        self._now = self._stack.pop()

    def push_span(self, text: str) -> None:
        """Keep the text."""
        self.spans.append(text)

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
        """Keep a drawing for later."""
        self._forms.setdefault(key, draw)

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Replay a kept drawing here."""
        self.placed.append((len(self.pages), key, *self._now.apply(x_mm, y_mm)))
        self.push_transform(shift(x_mm, y_mm).after(turn(turn_deg)))
        self._forms[key](self)
        self.pop()

    def link(
        self,
        url: str,
        x_mm: float,  # noqa: ARG002 - the protocol's argument
        y_mm: float,  # noqa: ARG002 - the protocol's argument
        width_mm: float,  # noqa: ARG002 - the protocol's argument
        height_mm: float,  # noqa: ARG002 - the protocol's argument
    ) -> None:
        """Keep an address."""
        self.links.append(url)

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:  # noqa: ARG002
        """Keep title and language."""
        self.title, self.language = title, language


def pieces_at(
    run: Run, size_pt: float, place: tuple[float, float], turn_deg: float
) -> Iterator[tuple[Run, float, float]]:
    """Runs of one typeface each, with where their base lines start on the page, mm."""
    if not run.parts:
        yield run, *place
        return
    angle = math.radians(turn_deg)
    for start, part in run.pieces(size_pt):
        yield part, place[0] + start * math.cos(angle), place[1] + start * math.sin(angle)


def map_path(affine: Affine, path: Path) -> Path:
    """The path with every point mapped."""
    mapped: list[tuple[str | float, ...]] = []
    for command, *numbers in path:
        values = [float(number) for number in numbers]
        points = zip(values[::2], values[1::2], strict=True)
        mapped.append((command, *(value for x, y in points for value in affine.apply(x, y))))
    return tuple(mapped)
