"""Text round an oval: each letter stands with its middle on the curve, turned to the tangent.

Shaped once, so kerning, ligatures and lent letters are those of a straight line. "over" runs
clockwise along the top, heads outwards; "under" from left to right along the bottom, heads
inwards. The oval that letters stand on lies so far inside the box's that no ink leaves it.
Further lines stand on smaller ovals with the same middle: the last line of text under an oval is
the outermost, so that lines are read from above in both cases. Lines break only where they were
typed; each may take the half oval, and type shrinks to that.
"""

from __future__ import annotations

import math
from bisect import bisect_left
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import CurvedDraw, TextDraw
from wickbench.documents.letters import letters_of
from wickbench.documents.ovals import Oval, oval_of
from wickbench.documents.text import MM_PER_POINT, Run, mm_per_unit, shape
from wickbench.documents.text_fit import sizes
from wickbench.domain.capitals import has_small_letters
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from wickbench.documents.text_fit import TextStyle

_SHARE: Final = {"left": 0.0, "centre": 0.5, "right": 1.0}
_LEAST_MM: Final = 0.05
_NEAR_MM: Final = 1e-3
_ROUNDS: Final = 10
_TIGHTEST_EM: Final = 1.0
_LEAST_EM: Final = 0.25


@dataclass(frozen=True, slots=True)
class CurvedText:
    """A text set round an oval.

    Attributes:
        lines: as typed, in the place and turn of an element that is not turned.
        size_pt: the size it came to.
        fits: False when it runs over even at the smallest size.
    """

    lines: tuple[CurvedDraw, ...]
    size_pt: float
    fits: bool


@dataclass(frozen=True, slots=True)
class _Job:
    """What is set at one size: measures in mm."""

    runs: tuple[Run, ...]
    box: Rect
    under: bool
    share: float
    size_pt: float
    top: float
    bottom: float
    heads: float
    leading: float
    colour: str

    @property
    def em(self) -> float:
        return self.size_pt * MM_PER_POINT

    def depth(self, at: int) -> float:
        """From the box's oval inwards to the base line of a line."""
        if self.under:
            return self.bottom + (len(self.runs) - 1 - at) * self.leading
        return self.top + at * self.leading

    @property
    def inmost(self) -> float:
        """From the box's oval inwards to the end of the last letter."""
        inner = self.top if self.under else self.bottom
        return self.depth(0 if self.under else len(self.runs) - 1) + inner

    def oval(self, at: int, more: float) -> Oval:
        depth = self.depth(at) + more
        across, down = self.box.w_mm / 2 - depth, self.box.h_mm / 2 - depth
        return oval_of(max(across, _LEAST_MM), max(down, _LEAST_MM), self.heads)


def curve_text(
    style: TextStyle, text: str, box: Rect, curve: str, colour: str = "#000000"
) -> CurvedText:
    """Set a text round the oval in a box at the largest size that fits.

    Args:
        style: how it is set; the height in the box and breaking between words mean nothing here.
        text: may hold line breaks.
        box: of the oval, mm.
        curve: ``over`` or ``under``.
        colour: of the letters.

    Returns:
        The lines; when nothing fits, those of the smallest size, which run over.
    """
    if not text.strip():
        return CurvedText((), style.size_pt, fits=True)
    wanted = sizes(style.size_pt, min(style.min_size_pt, style.size_pt))
    where = (box, curve == "under", colour)
    first = bisect_left(wanted, 1, key=lambda one: int(_fits(_job(style, text, where, one), 0)))
    for size in wanted[first:]:
        done = _set(_job(style, text, where, size))
        if done is not None:
            return done
    return CurvedText(_lines(_job(style, text, where, wanted[-1]), 0.0), wanted[-1], fits=False)


def _job(style: TextStyle, text: str, where: tuple[Rect, bool, str], size_pt: float) -> _Job:
    box, under, colour = where
    runs = tuple(
        shape(style.face, line.strip(), style.letter_spacing_em) for line in text.splitlines()
    )
    k = mm_per_unit(style.face, size_pt)
    small = has_small_letters(text)
    top, bottom = _reach(style, runs, size_pt, small=small)
    head = style.face.x_height if small else style.face.cap_height
    return _Job(
        runs, box, under, _SHARE[style.align], size_pt, top, bottom,
        head * k if under else 0.0, style.leading * size_pt * MM_PER_POINT, colour,
    )  # fmt: skip


def _reach(
    style: TextStyle, runs: tuple[Run, ...], size_pt: float, *, small: bool
) -> tuple[float, float]:
    """Height above and depth below the base line, mm.

    At least capitals, and with small letters a p: two labels of one design stand alike whatever
    their fields say. Capitals alone have no depth, so that over and under run in one band.
    """
    k = mm_per_unit(style.face, size_pt)
    top, bottom = style.face.cap_height * k, 0.0
    for run in (*runs, *((shape(style.face, "p"),) if small else ())):
        ink = run.ink_mm(size_pt)
        if ink is not None:
            top, bottom = max(top, ink[3]), max(bottom, -ink[1])
    return top, bottom


def _fits(job: _Job, more: float) -> bool:
    """Whether all lines have their half oval, drawn in by a little more, and look well on it."""
    half = min(job.box.w_mm, job.box.h_mm) / 2
    if half - job.inmost - more < _LEAST_EM * job.em:
        return False
    long = any(
        run.width_mm(job.size_pt) > job.oval(at, more).half_mm + _NEAR_MM
        for at, run in enumerate(job.runs)
    )
    return not long and not _bends_too_sharply(job, more)


def _set(job: _Job) -> CurvedText | None:
    """Letters are flat and the oval is not: their corners are drawn in until they lie inside.

    Returns:
        None when there is no room then.
    """
    more = 0.0
    for _ in range(_ROUNDS):
        if not _fits(job, more):
            return None
        lines = _lines(job, more)
        over = _sticks_out(job, lines)
        if over <= _NEAR_MM:
            break
        more += over
    return CurvedText(lines, job.size_pt, fits=True)


def _bends_too_sharply(job: _Job, more: float) -> bool:
    """Whether letters would stand like spokes: the ring of their inner ends is tighter than an em.

    An ellipse bends most sharply at the ends of its long axis.
    """
    inner = job.heads if job.under else job.bottom
    for at, run in enumerate(job.runs):
        oval = job.oval(at, more)
        start, end = _ends(job, run, oval)
        reached = [oval.at(start), oval.at(end), *([0.0] if start < 0.0 < end else [])]
        if min(map(oval.radius_mm, reached)) - inner < _TIGHTEST_EM * job.em:
            return True
    return False


def _lines(job: _Job, more: float) -> tuple[CurvedDraw, ...]:
    return tuple(
        CurvedDraw(run.text, _stood(job, run, job.oval(at, more)))
        for at, run in enumerate(job.runs)
    )


def _stood(job: _Job, run: Run, oval: Oval) -> tuple[TextDraw, ...]:
    start, _ = _ends(job, run, oval)
    middle_x, middle_y = job.box.x_mm + job.box.w_mm / 2, job.box.y_mm + job.box.h_mm / 2
    up = 1.0 if job.under else -1.0
    stood: list[TextDraw] = []
    for letter in letters_of(run):
        t = oval.at(start + letter.middle_em * job.em)
        sine, cosine = math.sin(t), math.cos(t)
        turn = math.atan2(-up * oval.down_mm * sine, oval.across_mm * cosine)
        half = letter.wide_em * job.em / 2
        x = middle_x + oval.across_mm * sine - half * math.cos(turn)
        y = middle_y + up * oval.down_mm * cosine - half * math.sin(turn)
        stood.append(TextDraw(letter.run, job.size_pt, x, y, job.colour, math.degrees(turn)))
    return tuple(stood)


def _ends(job: _Job, run: Run, oval: Oval) -> tuple[float, float]:
    """Where a line begins and ends on its half oval, mm from the middle."""
    wide = run.width_mm(job.size_pt)
    start = -oval.half_mm / 2 + (oval.half_mm - wide) * job.share
    return start, start + wide


def _sticks_out(job: _Job, lines: tuple[CurvedDraw, ...]) -> float:
    """How far the outermost corner of ink lies outside the box's oval, mm."""
    a, b = job.box.w_mm / 2, job.box.h_mm / 2
    middle_x, middle_y = job.box.x_mm + a, job.box.y_mm + b
    worst = 0.0
    for line in lines:
        for corner in corners_of(line):
            x, y = corner[0] - middle_x, corner[1] - middle_y
            over = (x / a) ** 2 + (y / b) ** 2 - 1.0
            if over > 0.0:
                worst = max(worst, over / (2 * math.hypot(x / a**2, y / b**2)))
    return worst
