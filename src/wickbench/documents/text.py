"""Typefaces and shaping: text becomes glyph ids at places once, for paper and screen alike.

Everything here is in font units (``units_per_em`` to the em), y upwards. This is the only room
that knows HarfBuzz; the PDF font writer asks `subset` for its font file.
"""

from __future__ import annotations

import hashlib
import unicodedata
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING, Any, Final

import uharfbuzz as hb

from wickbench.documents.marks import is_mark
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

MM_PER_POINT: Final = 25.4 / 72

Outline = tuple[tuple[str | float, ...], ...]
"""Path commands ``("m", x, y) ("l", x, y) ("q", …) ("c", …) ("z",)`` in font units, y up."""

_OUTLINE_TABLES = ("glyf", "CFF ")
_EMBEDDING_RESTRICTED = 0x0002  # OpenType OS/2 fsType bit 1: "Restricted License embedding"
_LAYOUT_TABLES = ("GSUB", "GPOS", "GDEF", "kern", "morx", "name", "post")


@dataclass(frozen=True, slots=True)
class FaceNames:
    """What a font file says about one of its faces.

    Attributes:
        family: the typographic family.
        style: the style within the family, for example ``"Semibold Italic"``.
        index: which face of a collection.
        instance: which named instance of a variable face; None for a static one.
    """

    family: str
    style: str
    index: int
    instance: int | None


class Typeface:
    """One face of a font file, static or pinned to a named instance.

    Raises:
        DomainError: ``typeface.unreadable`` when the file is no font with outlines.
    """

    def __init__(self, path: Path, index: int = 0, instance: int | None = None) -> None:
        self.path = path
        self.index = index
        self.instance = instance
        self.elsewhere: Callable[[str], Typeface | None] | None = None
        self._face = _open_face(path, index)
        self._font = hb.Font(self._face)
        if instance is not None:
            self._font.var_named_instance = instance
        self.units_per_em: int = self._face.upem
        tags = set(self._face.table_tags)
        if not tags.intersection(_OUTLINE_TABLES):
            raise DomainError("typeface.unreadable", file=path.name)
        self.is_cff = "CFF " in tags
        extents = self._font.get_font_extents("ltr")
        self.ascent: int = extents.ascender
        self.descent: int = extents.descender
        self._outlines: dict[int, Outline] = {}

    @cached_property
    def names(self) -> FaceNames:
        """Family and style as the file states them."""
        return _face_names(self._face, self.index, self.instance)

    @property
    def family(self) -> str:
        """The typographic family."""
        return self.names.family

    @property
    def style(self) -> str:
        """The style within the family."""
        return self.names.style

    @cached_property
    def postscript_name(self) -> str:
        """Name for the PDF: letters, digits and hyphens only."""
        name = self._face.get_name(hb.OTNameIdPredefined.POSTSCRIPT_NAME) or self.path.stem
        return "".join(sign for sign in name if sign.isascii() and (sign.isalnum() or sign == "-"))

    @cached_property
    def file_hash(self) -> str:
        """SHA-256 of the font file in hexadecimal."""
        return hashlib.sha256(self.path.read_bytes()).hexdigest()

    @cached_property
    def x_height(self) -> int:
        """Top of the real glyph ``x``."""
        return self._top_of("x", self.units_per_em // 2)

    @cached_property
    def o_height(self) -> int:
        """Height of the real glyph ``o`` with its overshoot: what rules on letter size measure."""
        gid = self._font.get_nominal_glyph(ord("o"))
        extents = self._font.get_glyph_extents(gid) if gid else None
        return -extents.height if extents else self.x_height

    @cached_property
    def cap_height(self) -> int:
        """Top of the real glyph ``H``."""
        return self._top_of("H", round(self.units_per_em * 0.7))

    @cached_property
    def may_embed(self) -> bool:
        """False when the maker of the face forbids putting it into documents (OS/2 fsType)."""
        if "OS/2" not in self._face.table_tags:
            return True
        table: bytes = self._face.reference_table("OS/2").data
        return not int.from_bytes(table[8:10], "big") & _EMBEDDING_RESTRICTED

    def has(self, sign: str) -> bool:
        """Whether it has a glyph for a character."""
        return bool(self._font.get_nominal_glyph(ord(sign)))

    def advance(self, gid: int) -> int:
        """Advance width of a glyph."""
        return int(self._font.get_glyph_h_advance(gid))

    def outline(self, gid: int) -> Outline:
        """The glyph's shape, shared by every surface that draws shapes; fill non-zero."""
        if gid not in self._outlines:
            commands: list[tuple[str | float, ...]] = []
            self._font.draw_glyph(gid, _draw_functions(), commands)
            self._outlines[gid] = tuple(commands)
        return self._outlines[gid]

    def ink(self, gid: int) -> tuple[float, float, float, float] | None:
        """Left, bottom, right, top of the ink; None for a glyph without any."""
        extents = self._font.get_glyph_extents(gid)
        if extents is None or not (extents.width and extents.height):
            return None
        left, top = extents.x_bearing, extents.y_bearing
        return left, top + extents.height, left + extents.width, top

    def _top_of(self, sign: str, otherwise: int) -> int:
        gid = self._font.get_nominal_glyph(ord(sign))
        extents = self._font.get_glyph_extents(gid) if gid else None
        return int(extents.y_bearing) if extents else otherwise


@dataclass(frozen=True, slots=True)
class Glyph:
    """A glyph at its place in a run, in font units.

    Attributes:
        gid: glyph id in the font file.
        x: place from the start of the run.
        y: place above the base line.
        advance: how far the pen moves after it.
        text: source characters; empty for the later glyphs of a cluster.
    """

    gid: int
    x: float
    y: float
    advance: float
    text: str


@dataclass(frozen=True, slots=True)
class Run:
    """A line of text shaped with one typeface.

    Attributes:
        face: the typeface whose glyph ids these are.
        text: the source text.
        glyphs: in visual order, left to right.
        advance: width in font units.
        backwards: True when the text reads right to left.
        parts: where other typefaces lend letters: start in font units of ``face`` and run of each
            typeface, in order; there are no ``glyphs`` then. Parts of ``face`` alone are joined:
            they stand on one base line and need nothing from each other.
    """

    face: Typeface
    text: str
    glyphs: tuple[Glyph, ...]
    advance: float
    backwards: bool = False
    parts: tuple[tuple[float, Run], ...] = ()

    def pieces(self, size_pt: float) -> Iterator[tuple[float, Run]]:
        """Runs of one typeface each with their start, mm from the start of this one."""
        if not self.parts:
            yield 0.0, self
            return
        k = mm_per_unit(self.face, size_pt)
        for start, part in self.parts:
            yield start * k, part

    def width_mm(self, size_pt: float) -> float:
        """Advance width at a type size."""
        return self.advance / self.face.units_per_em * size_pt * MM_PER_POINT

    def ink_mm(self, size_pt: float) -> tuple[float, float, float, float] | None:
        """Left, bottom, right, top of the ink from the start of the base line; mm, y up."""
        boxes = [
            (box[0] + start, box[1], box[2] + start, box[3])
            for start, part in self.pieces(size_pt)
            if (box := _ink_mm(part, size_pt)) is not None
        ]
        if not boxes:
            return None
        lefts, bottoms, rights, tops = zip(*boxes, strict=True)
        return min(lefts), min(bottoms), max(rights), max(tops)


def _ink_mm(run: Run, size_pt: float) -> tuple[float, float, float, float] | None:
    boxes = [
        (box[0] + glyph.x, box[1] + glyph.y, box[2] + glyph.x, box[3] + glyph.y)
        for glyph in run.glyphs
        if (box := run.face.ink(glyph.gid)) is not None
    ]
    if not boxes:
        return None
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    k = mm_per_unit(run.face, size_pt)
    return min(lefts) * k, min(bottoms) * k, max(rights) * k, max(tops) * k


def mm_per_unit(face: Typeface, size_pt: float) -> float:
    """How many millimetres one font unit is at a type size."""
    return size_pt * MM_PER_POINT / face.units_per_em


@lru_cache(8192)
def shape(face: Typeface, text: str, letter_spacing_em: float = 0.0) -> Run:
    """Shape one line of text with kerning and ligatures; other typefaces lend what is missing.

    Args:
        face: the typeface.
        text: one line; no line breaks.
        letter_spacing_em: extra space after each cluster but the last, in ems; spaced text has
            no ligatures.

    Returns:
        The run in font units.
    """
    if not text:
        return Run(face, text, (), 0.0)
    spans = list(_spans(face, text))
    if len(spans) == 1:
        return _shaped(spans[0][0], text, letter_spacing_em)
    return _joined(face, text, [_shaped(one, said, letter_spacing_em) for one, said in spans],
                   letter_spacing_em)  # fmt: skip


def _joined(face: Typeface, text: str, runs: list[Run], letter_spacing_em: float) -> Run:
    parts: list[tuple[float, Run]] = []
    pen = 0.0
    for run in runs:
        if parts:
            pen += letter_spacing_em * face.units_per_em
        parts.append((pen, run))
        pen += run.advance * face.units_per_em / run.face.units_per_em
    return Run(face, text, (), pen, parts=tuple(parts))


def _spans(face: Typeface, text: str) -> Iterator[tuple[Typeface, str]]:
    """Stretches of the text with the typeface that has their letters."""
    now, start = face, 0
    for at, sign in enumerate(text):
        wanted = _face_for(face, sign, now)
        if wanted is not now:
            if at > start:
                yield now, text[start:at]
            now, start = wanted, at
    yield now, text[start:]


def _face_for(face: Typeface, sign: str, now: Typeface) -> Typeface:
    """Spaces and marks stay with the letter before; the face itself is asked first."""
    joins = sign.isspace() or unicodedata.combining(sign) or unicodedata.category(sign) == "Cf"
    if joins and now.has(sign):
        return now
    if face.has(sign) or face.elsewhere is None:
        return face
    return face.elsewhere(sign) or face


def _shaped(face: Typeface, text: str, letter_spacing_em: float) -> Run:
    buffer = hb.Buffer()
    buffer.cluster_level = hb.BufferClusterLevel.MONOTONE_CHARACTERS
    buffer.add_str(text.replace("\t", " "))  # typefaces have no tab
    buffer.guess_segment_properties()
    tight = not letter_spacing_em
    hb.shape(face._font, buffer, {"kern": True, "liga": tight, "clig": tight, "calt": True})  # noqa: SLF001 - one room
    glyphs, advance = _placed(buffer, text, letter_spacing_em * face.units_per_em)
    return Run(face, text, glyphs, advance, backwards=buffer.direction == "rtl")


def width_mm(face: Typeface, text: str, size_pt: float, letter_spacing_em: float = 0.0) -> float:
    """Width of a line of text as it will be drawn."""
    return shape(face, text, letter_spacing_em).width_mm(size_pt)


def subset(face: Typeface, gids: tuple[int, ...]) -> bytes:
    """Font file with only these glyphs, their ids kept, for embedding."""
    want = hb.SubsetInput()
    want.glyph_set.update(gids)
    want.flags = (
        hb.SubsetFlags.RETAIN_GIDS
        | hb.SubsetFlags.NO_LAYOUT_CLOSURE
        | hb.SubsetFlags.NOTDEF_OUTLINE
    )
    for tag in _LAYOUT_TABLES:
        want.drop_table_tag_set.add(int.from_bytes(tag.encode().ljust(4), "big"))
    if face.instance is not None:
        where = face._font.get_var_coords_design()  # noqa: SLF001 - one room
        for axis, value in zip(face._face.axis_infos, where, strict=True):  # noqa: SLF001 - one room
            want.pin_axis_location(face._face, axis.tag, value)  # noqa: SLF001 - one room
    data: bytes = want.subset(face._face).blob.data  # noqa: SLF001 - one room
    return data


def read_faces(path: Path) -> tuple[FaceNames, ...]:
    """Every face with outlines in a font file or collection; empty when it is none."""
    try:
        count = _open_face(path, 0).count
    except DomainError:
        return ()
    found: list[FaceNames] = []
    for index in range(count):
        face = _open_face(path, index)
        if set(face.table_tags).intersection(_OUTLINE_TABLES) and face.upem:
            instances = range(len(face.named_instances)) if face.has_var_data else (None,)
            found += [_face_names(face, index, instance) for instance in instances]
    return tuple(found)


def _open_face(path: Path, index: int) -> Any:  # noqa: ANN401 - the library has no types
    try:
        face = hb.Face(hb.Blob.from_file_path(str(path)), index)
        if not face.table_tags or not face.glyph_count:
            raise DomainError("typeface.unreadable", file=path.name)
    except (OSError, ValueError, hb.HarfBuzzError) as error:
        raise DomainError("typeface.unreadable", file=path.name) from error
    return face


def _face_names(face: Any, index: int, instance: int | None) -> FaceNames:  # noqa: ANN401
    ids = hb.OTNameIdPredefined
    family = face.get_name(ids.TYPOGRAPHIC_FAMILY) or face.get_name(ids.FONT_FAMILY) or ""
    style = face.get_name(ids.TYPOGRAPHIC_SUBFAMILY) or face.get_name(ids.FONT_SUBFAMILY) or ""
    if instance is not None:
        name_id = face.named_instances[instance].subfamily_name_id
        style = face.get_name(name_id) or style
    return FaceNames(family, style or "Regular", index, instance)


@lru_cache(1)
def _draw_functions() -> Any:  # noqa: ANN401 - the library has no types
    functions = hb.DrawFuncs()
    functions.set_move_to_func(lambda x, y, out: out.append(("m", x, y)))
    functions.set_line_to_func(lambda x, y, out: out.append(("l", x, y)))
    functions.set_quadratic_to_func(lambda a, b, x, y, out: out.append(("q", a, b, x, y)))
    functions.set_cubic_to_func(lambda a, b, c, d, x, y, out: out.append(("c", a, b, c, d, x, y)))
    functions.set_close_path_func(lambda out: out.append(("z",)))
    return functions


def _placed(buffer: Any, text: str, spacing: float) -> tuple[tuple[Glyph, ...], float]:  # noqa: ANN401
    """Glyphs with absolute places; the first glyph of each cluster carries its text."""
    infos, positions = buffer.glyph_infos, buffer.glyph_positions
    starts = sorted({info.cluster for info in infos})
    ends = dict(zip(starts, [*starts[1:], len(text)], strict=True))
    glyphs: list[Glyph] = []
    seen: set[int] = set()
    backwards = buffer.direction == "rtl"
    pen_x = pen_y = 0.0
    for info, position in zip(infos, positions, strict=True):
        start = info.cluster
        said = "" if start in seen else text[start : ends[start]]
        if glyphs and said and not is_mark(glyphs[-1].text if backwards else said):
            pen_x += spacing
        seen.add(start)
        x, y = pen_x + position.x_offset, pen_y + position.y_offset
        glyphs.append(Glyph(info.codepoint, x, y, position.x_advance, said))
        pen_x += position.x_advance
        pen_y += position.y_advance
    return tuple(glyphs), pen_x
