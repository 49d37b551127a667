"""Pages that were kept as plain values, drawn again exactly as they were.

Where the file of a typeface has changed since, its texts are set anew: the ids of its glyphs may
stand for other letters now.
"""

from __future__ import annotations

import base64
import json
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.documents.affine import IDENTITY, Affine
from wickbench.documents.kept_drawing import FORM
from wickbench.documents.text import Glyph, Run, Typeface, shape

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.documents.kept_drawing import Op
    from wickbench.documents.surface import Path, Surface

FindTypeface = Callable[[str, str], tuple[Typeface, bool]]
FindPicture = Callable[[str], bytes | None]


@dataclass(frozen=True, slots=True)
class KeptTypeface:
    """A typeface as it was when the pages were drawn: family, style, SHA-256 of its file."""

    family: str
    style: str
    sha256: str


class KeptDrawing:
    """Pages that were kept, ready to be drawn again.

    Args:
        kept: from `wickbench.documents.kept_drawing.KeepingSurface.kept`.
        typefaces: finds a typeface by family and style.
        pictures: finds a picture's file by its SHA-256.

    Attributes:
        changed: typefaces whose files are not what they were; their texts are set anew.
    """

    def __init__(
        self, kept: Mapping[str, Any], typefaces: FindTypeface, pictures: FindPicture
    ) -> None:
        self._pages: list[list[Op]] = []
        self._forms: dict[str, list[Op]] = {}
        for line in zlib.decompress(base64.b64decode(kept["packed"])).splitlines():
            kind, name, ops = json.loads(line)
            if kind == FORM:
                self._forms[name] = ops
            else:
                self._pages.append(ops)
        self._pictures = pictures
        faces = [KeptTypeface(*one) for one in kept["typefaces"]]
        self._faces = [typefaces(one.family, one.style)[0] for one in faces]
        self._same = [
            now.file_hash == was.sha256 for now, was in zip(self._faces, faces, strict=True)
        ]
        self.changed = tuple(
            was for was, is_same in zip(faces, self._same, strict=True) if not is_same
        )

    @property
    def page_mm(self) -> tuple[float, float]:
        """Width and height of the first page."""
        return self._pages[0][0][1], self._pages[0][0][2]

    @property
    def missing(self) -> bool:
        """Whether a picture is no longer there."""
        every = (op for part in (*self._pages, *self._forms.values()) for op in part)
        keys = {op[1] for op in every if op[0] == "i"}
        return any(self._pictures(key) is None for key in keys)

    @property
    def count(self) -> int:
        """How many pages there are."""
        return len(self._pages)

    def draw_page(self, surface: Surface, number: int, correction: Affine = IDENTITY) -> None:
        """Draw one page.

        Args:
            surface: where to.
            number: which page, from 0.
            correction: of the printer; it takes the place of the one the page was kept with.
        """
        begin, _kept_with, *ops = self._pages[number]
        surface.begin_page(begin[1], begin[2])
        surface.push_transform(correction)
        for op in ops:
            self._do(surface, op)

    def _do(self, surface: Surface, op: Op) -> None:
        letter, *more = op
        getattr(self, f"_do_{letter}")(surface, *more)

    def _do_g(self, surface: Surface, run: Op, *place: Any) -> None:  # noqa: ANN401 - from JSON
        size_pt, x_mm, y_mm, colour, turn_deg = place
        surface.glyphs(self._run(run), size_pt, x_mm, y_mm, colour=colour, turn_deg=turn_deg)

    def _do_p(self, surface: Surface, path: list[Op], *look: Any) -> None:  # noqa: ANN401
        fill, stroke, width_mm, dash_mm, even_odd = look
        surface.path(
            _path(path),
            fill=fill,
            stroke=stroke,
            width_mm=width_mm,
            dash_mm=tuple(dash_mm),
            even_odd=even_odd,
        )

    def _do_i(self, surface: Surface, key: str, *place: float) -> None:
        data = self._pictures(key)
        if data is not None:
            x_mm, y_mm, width_mm, height_mm, turn_deg = place
            surface.image(data, x_mm, y_mm, width_mm, height_mm, turn_deg=turn_deg)

    def _do_c(self, surface: Surface, path: list[Op]) -> None:
        surface.push_clip(_path(path))

    @staticmethod
    def _do_t(surface: Surface, *numbers: float) -> None:
        surface.push_transform(Affine(*numbers))

    @staticmethod
    def _do_o(surface: Surface) -> None:
        surface.pop()

    @staticmethod
    def _do_s(surface: Surface, text: str) -> None:
        surface.push_span(text)

    @staticmethod
    def _do_e(surface: Surface) -> None:
        surface.pop_span()

    def _do_f(self, surface: Surface, key: str, *size: float) -> None:
        width_mm, height_mm, margin_mm = size

        def draw(inside: Surface) -> None:
            for op in self._forms[key]:
                self._do(inside, op)

        surface.form(key, width_mm, height_mm, draw, margin_mm=margin_mm)

    @staticmethod
    def _do_x(surface: Surface, key: str, *place: float) -> None:
        x_mm, y_mm, turn_deg = place
        surface.place(key, x_mm, y_mm, turn_deg=turn_deg)

    @staticmethod
    def _do_l(surface: Surface, url: str, *box: float) -> None:
        surface.link(url, *box)

    def _run(self, kept: Sequence[Any]) -> Run:
        at, text, glyphs, advance, backwards, parts = kept
        face = self._faces[at]
        if not self._same[at] and not parts:
            return shape(face, text)
        return Run(
            face,
            text,
            tuple(Glyph(*one) for one in glyphs),
            advance,
            backwards,
            tuple((start, self._run(part)) for start, part in parts),
        )


def _path(kept: Sequence[Op]) -> Path:
    return tuple(tuple(command) for command in kept)
