"""Paper as PDF, written by ReportLab through the Surface: exact sizes, glyphs by id, no scaling."""

from __future__ import annotations

import hashlib
import io
import zlib
from typing import TYPE_CHECKING, Any, Final

from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from wickbench.documents.affine import Affine
from wickbench.documents.joined_runs import is_joined
from wickbench.documents.pdf_fonts import GlyphFont, utf16_hex
from wickbench.documents.pdf_operators import (
    glyph_by_glyph,
    ink,
    matrix,
    number,
    path_operators,
    points_of,
    turned,
)
from wickbench.documents.pictures import picture_for_paper
from wickbench.documents.surface import BLACK, Colour, Path, Surface, pieces_at

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.text import Run, Typeface

_PDF_VERSION: Final = (1, 7)


class _Pages(Canvas):  # type: ignore[misc]  # the library has no types
    """ReportLab's canvas without its default font, which it could not embed."""

    def _make_preamble(self) -> None:
        self._preamble = ""

    def say(self, operators: str) -> None:
        """Add operators to the page or form that is open."""
        self._code.append(operators)

    def add_font(self, font: GlyphFont) -> None:
        """Have the font written when the document closes."""
        self._doc.delayedFonts.append(font)

    def set_language(self, language: str) -> None:
        """Language of the document, BCP 47."""
        self._doc.Catalog.Lang = _pdf_string(language)

    def showPage(self) -> None:  # noqa: N802 - ReportLab calls it so
        """Close the page and pack it at once, so that a long run holds little in memory."""
        super().showPage()
        if self._pageCompression:
            page = self._doc.Pages.pages[-1]
            page.Contents, page.stream = _packed(page.stream), None

    def pdf(self) -> bytes:
        """The closed document."""
        data: bytes = self.getpdfdata()
        return data


class PdfSurface:
    """A `Surface` that becomes a PDF.

    Args:
        invariant: leave out dates and random ids, so that equal drawings give equal bytes.
        compress: pack the page streams; off gives readable ones.
    """

    def __init__(self, *, invariant: bool = False, compress: bool = True) -> None:
        self._pages = _Pages(
            io.BytesIO(),
            pagesize=(1, 1),
            pdfVersion=_PDF_VERSION,
            invariant=int(invariant),
            pageCompression=int(compress),
        )
        self._pages.setViewerPreference("PrintScaling", "None")
        self._pages.setViewerPreference("DisplayDocTitle", "true")
        self._pages.setCreator("Wickbench")
        self._pages.setAuthor("")
        self._pages.setSubject("")
        self._fonts: dict[Typeface, GlyphFont] = {}
        self._forms: dict[str, tuple[str, float]] = {}
        self._heights: list[float] = [0.0]
        self._page_open = False
        self._in_span = False

    def describe(self, *, title: str, language: str = "", author: str = "") -> None:
        """Title, language (BCP 47) and author in the document's properties."""
        self._pages.setTitle(title)
        self._pages.setAuthor(author)
        if language:
            self._pages.set_language(language)

    def begin_page(self, width_mm: float, height_mm: float) -> None:
        """Close the page before, if any, and open one of this size."""
        self._end_page()
        self._pages.setPageSize((points_of(width_mm), points_of(height_mm)))
        self._heights = [height_mm]
        self._page_open = True

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
        """Draw a run by glyph ids; the source text rides along."""
        if is_joined(run):
            self._run(run, size_pt, (x_mm, y_mm), (colour, turn_deg))
            return
        for part, left, top in pieces_at(run, size_pt, (x_mm, y_mm), turn_deg):
            self._run(part, size_pt, (left, top), (colour, turn_deg))

    def _run(
        self,
        run: Run,
        size_pt: float,
        place: tuple[float, float],
        look: tuple[Colour, float],
    ) -> None:
        if not run.glyphs and not run.parts:
            return
        colour, turn_deg = look
        font = self._font(run.face)
        linear = turned(turn_deg)
        at = (points_of(place[0]), self._up(place[1]))
        adjusted, plain = font.shown(run)
        if any(glyph.y for glyph in run.glyphs):
            plain = plain and not adjusted.spread
            shown = glyph_by_glyph(run, size_pt, at, linear)
        else:
            shown = f"{matrix(linear, at)} Tm [{adjusted.array}] TJ"
            if adjusted.spread:
                shown = f"{number(adjusted.spread * size_pt / 1000)} Tc {shown} 0 Tc"
        body = f"{ink(colour)} BT /{font.name} {number(size_pt)} Tf {shown} ET"
        if not plain and not self._in_span:
            body = f"{_span(run.text)} {body} EMC"
        self._pages.say(body)

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
        """Fill and stroke a path."""
        if fill is None and stroke is None:
            return
        state = [ink(fill)] if fill else []
        if stroke:
            dashes = " ".join(number(points_of(dash)) for dash in dash_mm)
            state.append(f"{ink(stroke).upper()} {number(points_of(width_mm))} w [{dashes}] 0 d")
        paint = {(True, False): "f", (False, True): "S", (True, True): "B"}[
            bool(fill), bool(stroke)
        ]
        star = "*" if even_odd and fill else ""
        self._pages.say(f"{' '.join(state)}\n{self._operators(path)} {paint}{star}")

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
        """Draw a picture; the same file is embedded once.

        Raises:
            DomainError: ``picture.damaged`` or ``picture.too-large``.
        """
        key = f"picture-{hashlib.sha256(data).hexdigest()}"
        if key not in self._forms:
            reader = ImageReader(picture_for_paper(data))
            name = self._open_form(key, (0, 0, 1, 1), 0.0)
            self._pages.drawImage(reader, 0, 0, 1, 1, mask="auto")
            self._close_form(name)
        a, b, c, d = turned(turn_deg)
        width, height = points_of(width_mm), points_of(height_mm)
        x, y = points_of(x_mm) - c * height, self._up(y_mm) - d * height
        scaled = (a * width, b * width, c * height, d * height)
        self._pages.say(f"q {matrix(scaled, (x, y))} cm")
        self._pages.doForm(self._forms[key][0])
        self._pages.say("Q")

    def push_clip(self, path: Path) -> None:
        """Draw only inside the path until `pop`."""
        self._pages.say(f"q {self._operators(path)} W n")

    def push_transform(self, affine: Affine) -> None:
        """Map what follows until `pop`."""
        height = self._heights[-1]
        flip = Affine(1, 0, 0, -1, 0, height)
        up = flip.after(affine).after(flip)  # the same map as seen with y upwards; mm
        self._pages.say(
            f"q {matrix((up.a, up.b, up.c, up.d), (points_of(up.e), points_of(up.f)))} cm"
        )

    def pop(self) -> None:
        """Take back the last state."""
        self._pages.say("Q")

    def push_span(self, text: str) -> None:
        """Marked content that says what its glyphs mean (ISO 32000-1, 14.9.4)."""
        self._in_span = True
        self._pages.say(_span(text))

    def pop_span(self) -> None:
        """End of the marked content."""
        self._in_span = False
        self._pages.say("EMC")

    def form(
        self,
        key: str,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,
    ) -> None:
        """Make a form XObject once."""
        if key in self._forms:
            return
        margin = points_of(margin_mm)
        box = (-margin, -margin, points_of(width_mm) + margin, points_of(height_mm) + margin)
        name = self._open_form(key, box, height_mm)
        draw(self)
        self._close_form(name)

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        """Refer to a form XObject."""
        name, height_mm = self._forms[key]
        linear = turned(turn_deg)
        height = points_of(height_mm)
        at = (points_of(x_mm) - linear[2] * height, self._up(y_mm) - linear[3] * height)
        self._pages.say(f"q {matrix(linear, at)} cm")
        self._pages.doForm(name)
        self._pages.say("Q")

    def link(self, url: str, x_mm: float, y_mm: float, width_mm: float, height_mm: float) -> None:
        """Make a box of the page lead to an address."""
        box = (
            points_of(x_mm),
            self._up(y_mm + height_mm),
            points_of(x_mm + width_mm),
            self._up(y_mm),
        )
        self._pages.linkURL(url, box)

    def finish(self) -> bytes:
        """Close the document; nothing can be drawn after."""
        self._end_page()
        return self._pages.pdf()

    def _end_page(self) -> None:
        if self._page_open:
            self._pages.showPage()
            self._page_open = False

    def _open_form(self, key: str, box: tuple[float, float, float, float], height: float) -> str:
        name = f"F{len(self._forms) + 1}"
        self._forms[key] = (name, height)
        self._heights.append(height)
        self._pages.beginForm(name, *box)
        return name

    def _close_form(self, name: str) -> None:
        assert name  # noqa: S101 - forms close in the order they were opened
        self._pages.endForm()
        self._heights.pop()

    def _font(self, face: Typeface) -> GlyphFont:
        font = self._fonts.get(face)
        if font is None:
            font = self._fonts[face] = GlyphFont(face, f"G{len(self._fonts) + 1}")
            self._pages.add_font(font)
        return font

    def _up(self, y_mm: float) -> float:
        return points_of(self._heights[-1] - y_mm)

    def _operators(self, path: Path) -> str:
        return path_operators(path, self._heights[-1])


def _span(text: str) -> str:
    return f"/Span <</ActualText <FEFF{utf16_hex(text)}>>> BDC"


def _packed(operators: str) -> Any:  # noqa: ANN401 - the library has no types
    stream = pdfdoc.PDFStream(content=zlib.compress(operators.encode("ascii")), filters=[])
    stream.dictionary["Filter"] = pdfdoc.PDFName("FlateDecode")
    return stream


def _pdf_string(text: str) -> Any:  # noqa: ANN401 - the library has no types
    return pdfdoc.PDFString(text)
