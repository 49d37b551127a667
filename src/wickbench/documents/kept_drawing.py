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
_MOST_RUNS: Final = 500
_json: Final = json.JSONEncoder(ensure_ascii=False, separators=(",", ":")).encode
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
        self._runs: dict[int, tuple[Run, str]] = {}
        self._now: list[str] = []
        self._packer = zlib.compressobj(6)
        self._packed: list[bytes] = []

    def kept(self) -> dict[str, Any]:
        """Everything as values for JSON, the drawing packed; nothing can be drawn after."""
        self._end_page()
        self._packed.append(self._packer.flush())
        packed = base64.b64encode(b"".join(self._packed)).decode()
        return {"version": VERSION, "typefaces": self._faces, "packed": packed}

    def _pack(self, kind: str, name: str, ops: list[str]) -> None:
        """A page or form as a line of JSON: its kind, its name, its calls."""
        written = f"[{_json(kind)},{_json(name)},[{','.join(ops)}]]\n"
        self._packed.append(self._packer.compress(written.encode()))

    def _keep(self, *call: Any) -> None:  # noqa: ANN401 - whatever the call takes
        self._now.append(_json(call))

    def _end_page(self) -> None:
        if self._now:
            self._pack(PAGE, "", self._now)
        self._now = []

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """Kept elsewhere."""

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Start a page."""
        self._end_page()
        self._now = [_json([PAGE, width_mm, height_mm])]

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
        rest = _json([size_pt, x_mm, y_mm, colour, turn_deg])
        self._now.append(f'["g",{self._written(run)},{rest[1:]}')

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
        self._keep("p", path, fill, stroke, width_mm, dash_mm, even_odd)

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
        self._keep("i", key, x_mm, y_mm, width_mm, height_mm, turn_deg)

    def push_clip(self, path: Path) -> None:
        """Keep an edge."""
        self._keep("c", path)

    def push_transform(self, affine: Affine) -> None:
        """Keep a map."""
        numbers = [affine.a, affine.b, affine.c, affine.d, affine.e, affine.f]
        self._keep("t", *numbers)

    def pop(self) -> None:
        """Keep the end of an edge or a map."""
        self._keep("o")

    def push_span(self, text: str) -> None:
        """Keep what the runs that follow are read as."""
        self._keep("s", text)

    def pop_span(self) -> None:
        """Keep the end of it."""
        self._keep("e")

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
        self._keep("f", key, width_mm, height_mm, margin_mm)

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Keep where a form stands."""
        self._keep("x", key, x_mm, y_mm, turn_deg)

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """Keep an address."""
        self._keep("l", url, x_mm, y_mm, width_mm, height_mm)

    def _written(self, run: Run) -> str:
        """A run as JSON; what is drawn again and again, such as figures, is written once."""
        known = self._runs.get(id(run))
        if known is not None:
            return known[1]
        parts = ",".join(f"[{_json(start)},{self._written(part)}]" for start, part in run.parts)
        glyphs = [[one.gid, one.x, one.y, one.advance, one.text] for one in run.glyphs]
        whole = _json([self._face(run.face), run.text, glyphs, run.advance, run.backwards])
        written = f"{whole[:-1]},[{parts}]]"
        if not parts:
            if len(self._runs) >= _MOST_RUNS:
                self._runs.clear()
            self._runs[id(run)] = (run, written)
        return written

    def _face(self, face: Typeface) -> int:
        known = self._known.get(id(face))
        if known is None:
            self._faces.append([face.family, face.style, face.file_hash])
            known = self._known[id(face)] = (face, len(self._faces) - 1)
        return known[1]
