"""Typefaces and pictures that the tests of papers share."""

from __future__ import annotations

import io
import random
from functools import lru_cache
from importlib import resources
from pathlib import Path

from PIL import Image

from wickbench.documents.text import Typeface
from wickbench.documents.typefaces import TypefaceShelf

MM = 25.4 / 72
_FILES = {
    "sans": ("font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    "sans-cff": ("font_source_sans_pro", "SourceSansPro-Regular.otf"),
    "serif": ("font_source_serif_pro", "SourceSerifPro-Regular.ttf"),
    "serif-cff": ("font_source_serif_pro", "SourceSerifPro-BoldIt.otf"),
}
SAMPLE_FACES = tuple(_FILES)


def sample_path(name: str) -> Path:
    package, file = _FILES[name]
    return Path(str(resources.files(package))) / "files" / file


@lru_cache
def sample_face(name: str) -> Typeface:
    return Typeface(sample_path(name))


@lru_cache
def shelf() -> TypefaceShelf:
    """Only the two families that always exist, whatever is installed."""
    return TypefaceShelf(())


def png(
    width: int,
    height: int,
    *,
    colour: tuple[int, ...] = (180, 90, 20),
    noise: bool = False,
    kind: str = "PNG",
) -> bytes:
    picture = Image.new("RGBA" if len(colour) == 4 else "RGB", (width, height), colour)
    if noise:
        grains = random.Random(1).randbytes(width * height * 3)  # noqa: S311 - grain, not a secret
        picture = Image.frombytes("RGB", (width, height), grains)
    out = io.BytesIO()
    picture.save(out, kind)
    return out.getvalue()
