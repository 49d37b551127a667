"""Composite fonts by glyph id for ReportLab's document: TrueType and CFF, subset, with ToUnicode.

The text writer notes which glyphs it used and what they say; the font is written when the
document closes, when all glyphs are known. After ISO 32000-1, 9.7 (composite fonts) and 9.10.3
(ToUnicode).
"""

from __future__ import annotations

import math
import unicodedata
from typing import TYPE_CHECKING, Any, Final

from reportlab.pdfbase import pdfdoc

from wickbench.documents.pdf_operators import Adjusted, adjusted
from wickbench.documents.text import shape, subset

if TYPE_CHECKING:
    from wickbench.documents.text import Run, Typeface

_PER_EM: Final = 1000  # PDF glyph space
_WIDE_GAP: Final = 80  # thousandths of an em: PDFium takes half the width of a blank for a blank
_MOST_SHOWN: Final = 200
_SYMBOLIC: Final = 4
_BFCHAR_AT_MOST: Final = 100  # ISO 32000-1, 9.7.5.4
_CMAP_HEAD: Final = (
    "/CIDInit /ProcSet findresource begin 12 dict begin begincmap "
    "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def "
    "/CMapName /Adobe-Identity-UCS def /CMapType 2 def "
    "1 begincodespacerange <0000> <FFFF> endcodespacerange"
)
_CMAP_TAIL: Final = "endcmap CMapName currentdict /CMap defineresource pop end end"


class GlyphFont:
    """One typeface in one document.

    Attributes:
        name: resource name on the pages.
        used: glyph id → the text it says by itself; the first use decides. The blank stays a
            blank, though it also stands for blanks of other kinds and for hyphens not seen.
    """

    def __init__(self, face: Typeface, name: str) -> None:
        self.face = face
        self.name = name
        self.used: dict[int, str] = {0: ""}
        if face.has(" "):
            self.used[shape(face, " ").glyphs[0].gid] = " "
        self._shown: dict[int, tuple[Run, Adjusted, bool]] = {}

    def note(self, run: Run) -> bool:
        """Note the glyphs of a run; False when the glyphs alone do not tell its text.

        An accent typed after its letter says the same as both in one (UAX 15).
        """
        plain = not run.backwards
        for glyph in run.glyphs:
            text = unicodedata.normalize("NFC", glyph.text)
            said = self.used.setdefault(glyph.gid, text)
            plain = plain and bool(text) and said == text
        return plain

    def shown(self, run: Run) -> tuple[Adjusted, bool]:
        """The array of TJ of a run on its base line, and whether the glyphs alone tell its text.

        A run joined of others is put together from theirs, which are kept: a label's lines come
        again and again.
        """
        if run.parts:
            pieces = [self._kept(part, math.inf) for _, part in run.parts]
            array = " ".join(piece.array for piece, _ in pieces)
            widest = max(piece.widest for piece, _ in pieces)
            return Adjusted(array, 0.0, widest), all(plain for _, plain in pieces)
        return self._kept(run, _WIDE_GAP)

    def _kept(self, run: Run, wide: float) -> tuple[Adjusted, bool]:
        kept = self._shown.get(id(run))
        if kept is None:
            found = adjusted(run, wide)
            kept = (run, found, self.note(run) and found.widest < _WIDE_GAP)
            if len(self._shown) >= _MOST_SHOWN:
                self._shown.clear()
            self._shown[id(run)] = kept
        return kept[1], kept[2]

    def addObjects(self, document: Any) -> None:  # noqa: ANN401, N802 - ReportLab calls it so
        """Write the font into the closing document."""
        file_key = "FontFile3" if self.face.is_cff else "FontFile2"
        file = document.Reference(self._file(compress=document.compression), self._id("file"))
        descriptor = document.Reference(self._descriptor(file_key, file), self._id("descriptor"))
        descendant = document.Reference(self._descendant(descriptor), self._id("cid"))
        to_unicode = self._stream(self._cmap(), compress=document.compression)
        font = pdfdoc.PDFDictionary(
            {
                "Type": pdfdoc.PDFName("Font"),
                "Subtype": pdfdoc.PDFName("Type0"),
                "BaseFont": pdfdoc.PDFName(self._base_name()),
                "Encoding": pdfdoc.PDFName("Identity-H"),
                "DescendantFonts": pdfdoc.PDFArray([descendant]),
                "ToUnicode": document.Reference(to_unicode, self._id("unicode")),
            }
        )
        fonts = document.idToObject["BasicFonts"].dict
        fonts[self.name] = document.Reference(font, self._id("font"))

    def _id(self, part: str) -> str:
        return f"glyphs-{part}-{self.name}"

    def _base_name(self) -> str:
        number = int(self.name.lstrip("G"))
        tag = "".join(chr(ord("A") + number // 26**place % 26) for place in range(5, -1, -1))
        return f"{tag}+{self.face.postscript_name}"

    def _stream(self, content: bytes | str, *, compress: bool) -> Any:  # noqa: ANN401
        stream = pdfdoc.PDFStream()
        stream.content = content
        stream.filters = [pdfdoc.PDFZCompress] if compress else []
        return stream

    def _file(self, *, compress: bool) -> Any:  # noqa: ANN401
        data = subset(self.face, tuple(sorted(self.used)))
        stream = self._stream(data, compress=compress)
        if self.face.is_cff:
            stream.dictionary["Subtype"] = pdfdoc.PDFName("OpenType")
        else:
            stream.dictionary["Length1"] = len(data)
        return stream

    def _descriptor(self, file_key: str, file: Any) -> Any:  # noqa: ANN401
        face, k = self.face, _PER_EM / self.face.units_per_em
        inks = [ink for gid in self.used if (ink := face.ink(gid)) is not None] or [(0, 0, 0, 0)]
        lefts, bottoms, rights, tops = zip(*inks, strict=True)
        box = (min(lefts), min(bottoms), max(rights), max(tops))
        return pdfdoc.PDFDictionary(
            {
                "Type": pdfdoc.PDFName("FontDescriptor"),
                "FontName": pdfdoc.PDFName(self._base_name()),
                "Flags": _SYMBOLIC,
                "FontBBox": pdfdoc.PDFArray([round(edge * k) for edge in box]),
                "ItalicAngle": 0,
                "Ascent": round(face.ascent * k),
                "Descent": round(face.descent * k),
                "CapHeight": round(face.cap_height * k),
                "StemV": 80,
                file_key: file,
            }
        )

    def _descendant(self, descriptor: Any) -> Any:  # noqa: ANN401
        face, k = self.face, _PER_EM / self.face.units_per_em
        widths: list[Any] = []
        for gid in sorted(self.used):
            widths += [gid, pdfdoc.PDFArray([round(face.advance(gid) * k, 3)])]
        system = {
            "Registry": pdfdoc.PDFString("Adobe"),
            "Ordering": pdfdoc.PDFString("Identity"),
            "Supplement": 0,
        }
        entries = {
            "Type": pdfdoc.PDFName("Font"),
            "Subtype": pdfdoc.PDFName("CIDFontType0" if face.is_cff else "CIDFontType2"),
            "BaseFont": pdfdoc.PDFName(self._base_name()),
            "CIDSystemInfo": pdfdoc.PDFDictionary(system),
            "FontDescriptor": descriptor,
            "W": pdfdoc.PDFArray(widths),
            "DW": _PER_EM,
        }
        if not face.is_cff:
            entries["CIDToGIDMap"] = pdfdoc.PDFName("Identity")
        return pdfdoc.PDFDictionary(entries)

    def _cmap(self) -> str:
        pairs = [(gid, said) for gid, said in sorted(self.used.items()) if said]
        lines = [_CMAP_HEAD]
        for start in range(0, len(pairs), _BFCHAR_AT_MOST):
            part = pairs[start : start + _BFCHAR_AT_MOST]
            lines.append(f"{len(part)} beginbfchar")
            lines += [f"<{gid:04X}> <{utf16_hex(said)}>" for gid, said in part]
            lines.append("endbfchar")
        return "\n".join([*lines, _CMAP_TAIL])


def utf16_hex(text: str) -> str:
    """UTF-16, big end first, as hexadecimal digits: how PDF spells text."""
    return text.encode("utf-16-be").hex().upper()
