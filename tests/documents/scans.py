"""Pictures of sticker sheets for tests: drawn with Pillow, with noise, turned, on a dark ground."""

from __future__ import annotations

import io
import random
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PIL import Image, ImageChops, ImageDraw

if TYPE_CHECKING:
    from wickbench.domain.sheets import StickerSheet


@dataclass(frozen=True, kw_only=True)
class Look:
    """How a scan looks.

    Attributes:
        dpi: dots per inch.
        turn_deg: how the page lies on the glass, clockwise.
        line: brightness of the die lines, 0 to 255; the paper is 250.
        line_mm: their width; 0 draws stickers as areas on a darker backing.
        noise: brightness by which pixels differ.
        around_mm: dark ground round the page.
    """

    dpi: float = 110.0
    turn_deg: float = 0.0
    line: int = 215
    line_mm: float = 0.25
    noise: int = 6
    around_mm: float = 0.0


def scan_of(sheet: StickerSheet, look: Look) -> bytes:
    """A PNG of the sheet."""
    over = 2  # drawn finer and made smaller, so that lines have soft edges as on a scanner
    k = look.dpi / 25.4 * over
    around = look.around_mm
    size = (round((sheet.page_w_mm + 2 * around) * k), round((sheet.page_h_mm + 2 * around) * k))
    picture = Image.new("L", size, 40 if around else 250)
    draw = ImageDraw.Draw(picture)
    if around:
        page = (around * k, around * k, size[0] - around * k - 1, size[1] - around * k - 1)
        draw.rectangle(page, fill=250)
    for index in range(sheet.count):
        box = sheet.sticker(index)
        corners = [(v + around) * k for v in (box.x_mm, box.y_mm, box.right_mm, box.bottom_mm)]
        _sticker(draw, sheet, corners, look, k)
    picture = picture.rotate(
        -look.turn_deg, Image.Resampling.BICUBIC, fillcolor=40 if around else 250
    )
    picture = picture.resize((size[0] // over, size[1] // over), Image.Resampling.BOX)
    return _saved(_noisy(picture, look.noise), look.dpi)


def _sticker(
    draw: ImageDraw.ImageDraw, sheet: StickerSheet, corners: list[float], look: Look, k: float
) -> None:
    if look.line_mm:
        half = look.line_mm * k / 2
        corners = [corners[0] - half, corners[1] - half, corners[2] + half, corners[3] + half]
        how: dict[str, Any] = {"outline": look.line, "width": max(1, round(2 * half))}
    else:
        how = {"fill": look.line}
    if sheet.shape in {"circle", "oval"}:
        draw.ellipse(corners, **how)
    elif sheet.shape == "rounded":
        draw.rounded_rectangle(corners, radius=sheet.corner_mm * k, **how)
    else:
        draw.rectangle(corners, **how)


def _noisy(picture: Image.Image, by: int) -> Image.Image:
    if not by:
        return picture
    rng = random.Random(7)  # noqa: S311 - noise of a scanner
    noise = Image.frombytes("L", picture.size, rng.randbytes(picture.width * picture.height))
    grain = noise.point([int(value / 255 * 2 * by) for value in range(256)])
    return ImageChops.add(picture, grain, offset=-by)


def _saved(picture: Image.Image, dpi: float) -> bytes:
    out = io.BytesIO()
    picture.save(out, "PNG", dpi=(dpi, dpi))
    return out.getvalue()
