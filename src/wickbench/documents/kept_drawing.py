"""Pages kept as plain values, to be drawn again exactly, whatever became of what they were made of.

`wickbench.documents.drawn_again` draws them. Glyph ids hold for one font file alone, so each
typeface is kept with the SHA-256 of its file.
"""

from __future__ import annotations

import base64
import hashlib
import json
import zlib
from typing import TYPE_CHECKING, Any, Final

from wickbench.documents.surface import BLACK, Colour, Path, Surface

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.affine import Affine
    from wickbench.documents.text import Run, Typeface

VERSION: Final = 1
PAGE, FORM = "page", "form"
Op = list[Any]
"""A call of the surface: its letter, then its arguments."""


class KeepingSurface:
    """A `Surface` that keeps every call, each form once; what is done is packed away at once.

    Attributes:
        pictures: files of the pictures drawn, by their SHA-256.
    """

    def __init__(self) -> None:
        self.pictures: dict[str, bytes] = {}
        self._forms: set[str] = set()
        self._faces: list[list[str]] = []
        self._known: dict[int, tuple[Typeface, int]] = {}
        self._now: list[Op] = []
        self._packer = zlib.compressobj(6)
        self._packed: list[bytes] = []

    def kept(self) -> dict[str, Any]:
        """Everything as values for JSON, the drawing packed; nothing can be drawn after."""
        self._end_page()
        self._packed.append(self._packer.flush())
        packed = base64.b64encode(b"".join(self._packed)).decode()
        return {"version": VERSION, "typefaces": self._faces, "packed": packed}

    def _pack(self, kind: str, name: str, ops: list[Op]) -> None:
        """A page or form as a line of JSON: its kind, its name, its calls."""
        written = json.dumps([kind, name, ops], ensure_ascii=False, separators=(",", ":"))
        self._packed.append(self._packer.compress(f"{written}\n".encode()))

    def _end_page(self) -> None:
        if self._now:
            self._pack(PAGE, "", self._now)
        self._now = []

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """Kept elsewhere."""

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Start a page."""
        self._end_page()
        self._now = [[PAGE, width_mm, height_mm]]

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
        self._now.append(["g", self._run(run), size_pt, x_mm, y_mm, colour, turn_deg])

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
        """Keep a path."""
        self._now.append(["p", path, fill, stroke, width_mm, dash_mm, even_odd])

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
        key = hashlib.sha256(data).hexdigest()
        self.pictures[key] = data
        self._now.append(["i", key, x_mm, y_mm, width_mm, height_mm, turn_deg])

    def push_clip(self, path: Path) -> None:
        """Keep an edge."""
        self._now.append(["c", path])

    def push_transform(self, affine: Affine) -> None:
        """Keep a map."""
        numbers = [affine.a, affine.b, affine.c, affine.d, affine.e, affine.f]
        self._now.append(["t", *numbers])

    def pop(self) -> None:
        """Keep the end of an edge or a map."""
        self._now.append(["o"])

    def push_span(self, text: str) -> None:
        """Keep what the runs that follow are read as."""
        self._now.append(["s", text])

    def pop_span(self) -> None:
        """Keep the end of it."""
        self._now.append(["e"])

    def form(
        self,
        key: str,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,
    ) -> None:
        """Keep a form once."""
        if key not in self._forms:
            self._forms.add(key)
            outside, self._now = self._now, []
            draw(self)
            self._pack(FORM, key, self._now)
            self._now = outside
        self._now.append(["f", key, width_mm, height_mm, margin_mm])

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Keep where a form stands."""
        self._now.append(["x", key, x_mm, y_mm, turn_deg])

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """Keep an address."""
        self._now.append(["l", url, x_mm, y_mm, width_mm, height_mm])

    def _run(self, run: Run) -> list[Any]:
        parts = [[start, self._run(part)] for start, part in run.parts]
        glyphs = [[one.gid, one.x, one.y, one.advance, one.text] for one in run.glyphs]
        return [self._face(run.face), run.text, glyphs, run.advance, run.backwards, parts]

    def _face(self, face: Typeface) -> int:
        known = self._known.get(id(face))
        if known is None:
            self._faces.append([face.family, face.style, face.file_hash])
            known = self._known[id(face)] = (face, len(self._faces) - 1)
        return known[1]
