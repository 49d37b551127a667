"""Paths of plain figures in millimetres, y down: rectangle, rounded, oval, line."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wickbench.documents.surface import Path

_QUARTER: Final = 0.5522847498307936  # 4/3·(√2 − 1): a quarter circle as one cubic, off by 0.027 %


def rectangle(x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> Path:
    """A rectangle, clockwise from its top left corner."""
    right, bottom = x_mm + width_mm, y_mm + height_mm
    corners = (("m", x_mm, y_mm), ("l", right, y_mm), ("l", right, bottom), ("l", x_mm, bottom))
    return (*corners, ("z",))


def rounded(x_mm: float, y_mm: float, width_mm: float, height_mm: float, corner_mm: float) -> Path:
    """A rectangle with rounded corners; the radius is cut to half the shorter side."""
    r = max(0.0, min(corner_mm, width_mm / 2, height_mm / 2))
    if r == 0.0:
        return rectangle(x_mm, y_mm, width_mm, height_mm)
    return _curved(x_mm, y_mm, width_mm, height_mm, (r, r))


def oval(x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> Path:
    """The ellipse that fills a box; a circle when the box is square."""
    return _curved(x_mm, y_mm, width_mm, height_mm, (width_mm / 2, height_mm / 2))


def line(x1_mm: float, y1_mm: float, x2_mm: float, y2_mm: float) -> Path:
    """A straight line, to be stroked."""
    return (("m", x1_mm, y1_mm), ("l", x2_mm, y2_mm))


def figure(
    shape: str,
    x_mm: float,
    y_mm: float,
    width_mm: float,
    height_mm: float,
    *,
    corner_mm: float = 0.0,
) -> Path:
    """The outline of a sticker: rectangle, rounded, circle or oval."""
    if shape in {"circle", "oval"}:
        return oval(x_mm, y_mm, width_mm, height_mm)
    if shape == "rounded":
        return rounded(x_mm, y_mm, width_mm, height_mm, corner_mm)
    return rectangle(x_mm, y_mm, width_mm, height_mm)


def _curved(x: float, y: float, width: float, height: float, radii: tuple[float, float]) -> Path:
    rx, ry = radii
    right, bottom, kx, ky = x + width, y + height, rx * (1 - _QUARTER), ry * (1 - _QUARTER)
    return (
        ("m", x + rx, y),
        ("l", right - rx, y),
        ("c", right - kx, y, right, y + ky, right, y + ry),
        ("l", right, bottom - ry),
        ("c", right, bottom - ky, right - kx, bottom, right - rx, bottom),
        ("l", x + rx, bottom),
        ("c", x + kx, bottom, x, bottom - ky, x, bottom - ry),
        ("l", x, y + ry),
        ("c", x, y + ky, x + kx, y, x + rx, y),
        ("z",),
    )
