"""Picture files: opened with care, turned upright, ready for paper and screen."""

from __future__ import annotations

import io
import struct
import warnings
from dataclasses import dataclass
from functools import lru_cache

from PIL import Image, ImageOps, UnidentifiedImageError

from wickbench.domain.errors import DomainError

_PLAIN_MODES = ("RGB", "L")
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, IndexError, KeyError, struct.error)


@dataclass(frozen=True, slots=True)
class PictureSize:
    """Size of an upright picture in pixels."""

    width_px: int
    height_px: int


def open_picture(data: bytes) -> Image.Image:
    """Decode a picture completely and turn it upright as its camera says.

    Raises:
        DomainError: ``picture.damaged`` when it cannot be decoded to its end,
            ``picture.too-large`` when it would fill the memory.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            warnings.filterwarnings("ignore", category=UserWarning, module="PIL")
            opened = Image.open(io.BytesIO(data))
            opened.load()
            return _upright(opened)
    except (Image.DecompressionBombWarning, Image.DecompressionBombError, MemoryError) as error:
        raise DomainError("picture.too-large") from error
    except (UnidentifiedImageError, *_BROKEN) as error:
        raise DomainError("picture.damaged") from error


@lru_cache(8)
def picture_size(data: bytes) -> PictureSize:
    """Upright size of a picture; remembered, for a preview asks at every key stroke.

    Raises:
        DomainError: as `open_picture`.
    """
    opened = open_picture(data)
    return PictureSize(opened.width, opened.height)


def picture_for_paper(data: bytes) -> Image.Image | io.BytesIO:
    """A decoded picture in RGB, grey or RGB with alpha; a plain JPEG stays a JPEG.

    What the camera wrote beside the pixels (place, time, device) is left out.

    Raises:
        DomainError: as `open_picture`.
    """
    picture = open_picture(data)
    if picture.format == "JPEG" and picture.mode in _PLAIN_MODES:
        out = io.BytesIO()
        picture.save(out, "JPEG", quality="keep")
        out.seek(0)
        return out
    return _plain(picture)


def _upright(opened: Image.Image) -> Image.Image:
    orientation = opened.getexif().get(0x0112, 1)
    return opened if orientation == 1 else ImageOps.exif_transpose(opened)


def _plain(picture: Image.Image) -> Image.Image:
    if picture.mode in {"RGBA", "LA", "PA", "La", "RGBa"} or "transparency" in picture.info:
        return picture.convert("RGBA")
    if picture.mode in _PLAIN_MODES:
        return picture
    if picture.mode == "1":
        return picture.convert("L")
    return picture.convert("RGB")
