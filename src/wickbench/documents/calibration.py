"""Where a printer puts things: a map fitted to four measured crosshairs, and its inverse.

Four crosshairs are printed at stated places, measured from the paper's left and top edge, and an
affine map (shift, scale along and across, turn and skew) is fitted by least squares. Later prints
apply the inverse, so that ink lands where it was meant.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import IDENTITY, Affine
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from collections.abc import Sequence

Point = tuple[float, float]

CROSSHAIR_INSET_MM: Final = 20.0
POINTS: Final = 4

# Common practice, no source: more than 1 % means that "fit to page" is on; sheets are fed within
# ±1 mm; a ruler is read to half a millimetre; a larger shift than 10 mm is a slip in typing.
FIT_TO_PAGE_PERCENT: Final = 1.0
READING_MM: Final = 0.5
LARGE_SHIFT_MM: Final = 10.0

_FLAT: Final = 1e-9


@dataclass(frozen=True, slots=True)
class Calibration:
    """How a printer distorts a page.

    Attributes:
        measured: map from the place meant to the place measured.
        shift_x_mm: how far the middle of the crosshairs lies to the right of its place.
        shift_y_mm: how far it lies below its place.
        scale_x: 1 is true; along the lines.
        scale_y: 1 is true; down the page.
        turn_deg: turn of the lines, clockwise.
        skew_deg: by how much lines and columns differ from a right angle.
        residual_mm: root mean square of what the map does not explain.
    """

    measured: Affine
    shift_x_mm: float
    shift_y_mm: float
    scale_x: float
    scale_y: float
    turn_deg: float
    skew_deg: float
    residual_mm: float

    @property
    def correction(self) -> Affine:
        """Applied to a drawing, it makes the printer put it where it was meant."""
        return self.measured.inverse()


def crosshairs(page_w_mm: float, page_h_mm: float) -> tuple[Point, Point, Point, Point]:
    """Places of the four crosshairs: top left, top right, bottom left, bottom right."""
    near = CROSSHAIR_INSET_MM
    right, below = page_w_mm - near, page_h_mm - near
    return ((near, near), (right, near), (near, below), (right, below))


def calibrate(meant: Sequence[Point], measured: Sequence[Point]) -> Calibration:
    """Fit the map from where crosshairs were meant to where they were measured.

    Args:
        meant: places on the page, mm.
        measured: the same crosshairs measured from the paper's left and top edge, mm.

    Returns:
        The fitted map and what it says.

    Raises:
        OutOfRange: ``calibration.points`` when there are not four pairs of numbers,
            ``calibration.in-line`` when they do not span the page.
    """
    _check_points(meant, measured)
    middle, landed = _middle(meant), _middle(measured)
    across = _fit_axis(meant, measured, middle, landed, 0)
    down = _fit_axis(meant, measured, middle, landed, 1)
    e = landed[0] - across[0] * middle[0] - across[1] * middle[1]
    f = landed[1] - down[0] * middle[0] - down[1] * middle[1]
    fitted = Affine(across[0], down[0], across[1], down[1], e, f)
    size = fitted.a * fitted.d - fitted.b * fitted.c
    if abs(size) < _FLAT:
        raise OutOfRange("calibration.in-line")
    turn_deg = math.degrees(math.atan2(fitted.b, fitted.a))
    return Calibration(
        measured=fitted,
        shift_x_mm=landed[0] - middle[0],
        shift_y_mm=landed[1] - middle[1],
        scale_x=math.hypot(fitted.a, fitted.b),
        scale_y=math.hypot(fitted.c, fitted.d),
        turn_deg=turn_deg,
        skew_deg=math.degrees(math.atan2(-fitted.c, fitted.d)) - turn_deg,
        residual_mm=_residual(fitted, meant, measured),
    )


def check_calibration(calibration: Calibration) -> tuple[Finding, ...]:
    """What the measured places say about the printer and about the measuring."""
    found = []
    percents = [(scale - 1) * 100 for scale in (calibration.scale_x, calibration.scale_y)]
    worst = max(percents, key=abs)
    if abs(worst) > FIT_TO_PAGE_PERCENT:
        data = {"scale_percent": 100 + worst}
        found.append(Finding(Rank.STOPS, "calibration.fit-to-page", data))
    shift_mm = math.hypot(calibration.shift_x_mm, calibration.shift_y_mm)
    if shift_mm > LARGE_SHIFT_MM:
        found.append(Finding(Rank.WATCH, "calibration.large-shift", {"shift_mm": shift_mm}))
    if calibration.residual_mm > READING_MM:
        data = {"residual_mm": calibration.residual_mm}
        found.append(Finding(Rank.WATCH, "calibration.measure-again", data))
    return tuple(found)


def correction_for(calibration: Calibration | None) -> Affine:
    """The correction of a printer and tray, or none when it was never measured."""
    return IDENTITY if calibration is None else calibration.correction


def _check_points(meant: Sequence[Point], measured: Sequence[Point]) -> None:
    if len(meant) != POINTS or len(measured) != POINTS:
        raise OutOfRange("calibration.points", count=len(measured))
    for point in (*meant, *measured):
        if not all(math.isfinite(value) for value in point):
            raise OutOfRange("calibration.points", count=len(measured))


def _middle(points: Sequence[Point]) -> Point:
    return (
        sum(point[0] for point in points) / len(points),
        sum(point[1] for point in points) / len(points),
    )


def _fit_axis(
    meant: Sequence[Point], measured: Sequence[Point], middle: Point, landed: Point, axis: int
) -> Point:
    """Least squares for one coordinate about the middles: two unknowns, normal equations."""
    xx = xy = yy = xv = yv = 0.0
    for (x, y), reading in zip(meant, measured, strict=True):
        across, down, value = x - middle[0], y - middle[1], reading[axis] - landed[axis]
        xx += across * across
        xy += across * down
        yy += down * down
        xv += across * value
        yv += down * value
    size = xx * yy - xy * xy
    if abs(size) < _FLAT * max(1.0, xx * yy):
        raise OutOfRange("calibration.in-line")
    return (xv * yy - yv * xy) / size, (yv * xx - xv * xy) / size


def _residual(fitted: Affine, meant: Sequence[Point], measured: Sequence[Point]) -> float:
    squares = 0.0
    for place, reading in zip(meant, measured, strict=True):
        x, y = fitted.apply(*place)
        squares += (x - reading[0]) ** 2 + (y - reading[1]) ** 2
    return math.sqrt(squares / len(meant))
