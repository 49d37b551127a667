"""A label design with its fields filled in becomes draws in absolute millimetres, and findings."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from functools import partial
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import turn
from wickbench.documents.bending import BentLabel, bend_element
from wickbench.documents.edge_checks import check_edges
from wickbench.documents.facts_block import place_facts
from wickbench.documents.frame_outlines import frame_draws
from wickbench.documents.label_checks import (
    check_ink,
    check_text,
    typeface_findings,
)
from wickbench.documents.label_codes import place_code
from wickbench.documents.label_drawings import place_drawing
from wickbench.documents.label_draws import (
    AnyDraw,
    LaidOutText,
    PathDraw,
    faces_of,
)
from wickbench.documents.label_paint import paint_draws
from wickbench.documents.label_pictures import place_picture
from wickbench.documents.label_texts import ink_of, laid_text, set_text
from wickbench.documents.outlines import figure, line
from wickbench.documents.ring import Ring, ring_of
from wickbench.documents.surface import Path, Surface, map_path
from wickbench.documents.text import Typeface
from wickbench.documents.wrap_checks import check_bent
from wickbench.domain.capitals import in_capitals
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.label_fields import fill_in
from wickbench.domain.labels import (
    CodeElement,
    Element,
    FactsElement,
    FrameElement,
    LabelDesign,
    LineElement,
    OrnamentElement,
    PictogramElement,
    PictureElement,
    TextElement,
)
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from wickbench.documents.affine import Affine

CUT_MM: Final = 0.1
"""Width of the line along which a bent label is cut out."""

_CODE_FAMILY: Final = "Source Sans Pro"
_CUT_INK: Final = "#9a9a9a"

FindTypeface = Callable[[str, str], tuple[Typeface, bool]]
"""From family and style to the typeface and whether it is exactly that: ``shelf.nearest``."""

FindPicture = Callable[[str], bytes | None]
"""From a picture's key to its file; None when it is not there."""


@dataclass(frozen=True, slots=True)
class LaidOutLabel:
    """A label ready to be drawn anywhere.

    Attributes:
        design: what it was made from.
        key: equal for equal labels; names the form they share.
        draws: from back to front, mm from the label's top left corner.
        texts: what came of each text element.
        findings: worst first; ``about`` is ``("element", number)`` or empty.
        parts: of each element, its first draw and the one after its last.
        bent: as it lies on the paper, when it is made for a tapered vessel.
    """

    design: LabelDesign
    key: str
    draws: tuple[AnyDraw, ...]
    texts: tuple[LaidOutText, ...]
    findings: tuple[Finding, ...]
    parts: tuple[tuple[int, int], ...] = ()
    bent: BentLabel | None = None

    @property
    def width_mm(self) -> float:
        """Width on the paper: of the upright rectangle round a bent label."""
        return self.bent.width_mm if self.bent is not None else self.design.width_mm

    @property
    def height_mm(self) -> float:
        """Height on the paper."""
        return self.bent.height_mm if self.bent is not None else self.design.height_mm

    @property
    def bleed_mm(self) -> float:
        """How far it reaches beyond its width and height on the paper."""
        flat = self.design.bleed_mm
        return max(CUT_MM, self.bent.bleed_mm(flat)) if self.bent is not None else flat

    def draws_of(self, at: int) -> tuple[AnyDraw, ...]:
        """What one element draws, by its place in the design."""
        first, end = self.parts[at] if at < len(self.parts) else (0, 0)
        return self.draws[first:end]

    @property
    def smallest_pt(self) -> float | None:
        """Smallest type on the label; None when there is none."""
        return min((text.size_pt for text in self.texts if text.text.strip()), default=None)


@dataclass(slots=True)
class _Work:
    """What piles up while the elements are laid out."""

    design: LabelDesign
    values: Mapping[str, str]
    typefaces: FindTypeface
    pictures: FindPicture
    around_mm: float | None = None
    ring: Ring | None = None
    draws: list[AnyDraw] = field(default_factory=list)
    texts: list[LaidOutText] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    codes: list[tuple[int, str]] = field(default_factory=list)
    parts: list[tuple[int, int]] = field(default_factory=list)
    bent: list[AnyDraw] = field(default_factory=list)


def lay_out_label(
    design: LabelDesign,
    values: Mapping[str, str],
    typefaces: FindTypeface,
    pictures: FindPicture = lambda _key: None,
    *,
    around_mm: float | None = None,
) -> LaidOutLabel:
    """Lay out a label.

    Args:
        design: the label.
        values: value of each field by its name.
        typefaces: finds a typeface.
        pictures: finds a picture's file.
        around_mm: outer diameter of the vessel that it goes round; None: flat or unknown.
    """
    work = _Work(design, values, typefaces, pictures, around_mm)
    try:
        work.ring = ring_of(design)
    except DomainError as error:
        work.findings.append(Finding(Rank.STOPS, error.key, error.data))
    for at, element in enumerate(design.elements):
        first = len(work.draws)
        _lay_out(work, at, element)
        beyond = check_edges(design, element, work.draws[first:])
        work.findings += [replace(one, about=("element", at)) for one in beyond]
        work.parts.append((first, len(work.draws)))
        _bend(work, at, element)
    texts = tuple(work.texts)
    key = _key(design, work)
    found = sort_findings(work.findings)
    bent = BentLabel(work.ring, tuple(work.bent)) if work.ring is not None else None
    return LaidOutLabel(design, key, tuple(work.draws), texts, found, tuple(work.parts), bent)


def draw_label(label: LaidOutLabel, surface: Surface) -> None:
    """Draw a label as it is printed, its top left corner at the origin, background with bleed.

    A label for a tapered vessel is bent and gets a thin line to cut along: no sticker has its
    shape.
    """
    if label.bent is None:
        draw_flat_label(label, surface)
        return
    design = label.design
    edge = label.bent.outline(-design.bleed_mm)
    paint_draws(surface, edge, design.background, label.bent.draws)
    surface.path(label.bent.outline(), stroke=_CUT_INK, width_mm=CUT_MM)


def draw_flat_label(label: LaidOutLabel, surface: Surface) -> None:
    """Draw a label in the flat, as it is worked on; the same as `draw_label` for most."""
    design = label.design
    edge = sticker_outline(design, -design.bleed_mm)
    paint_draws(surface, edge, design.background, label.draws)


def label_outline(label: LaidOutLabel, inset_mm: float = 0.0) -> Path:
    """The edge of a label as it is printed, drawn in by this much."""
    if label.bent is not None:
        return label.bent.outline(inset_mm)
    return sticker_outline(label.design, inset_mm)


def sticker_outline(design: LabelDesign, inset_mm: float = 0.0) -> Path:
    """The sticker's own shape drawn in by this much; negative runs over the edge."""
    box = Rect(inset_mm, inset_mm, design.width_mm - 2 * inset_mm, design.height_mm - 2 * inset_mm)
    corner = max(0.0, design.corner_mm - inset_mm)
    return figure(design.shape, box.x_mm, box.y_mm, box.w_mm, box.h_mm, corner_mm=corner)


def _lay_out(work: _Work, at: int, element: Element) -> None:
    if isinstance(element, TextElement):
        _lay_out_text(work, at, element)
    elif isinstance(element, PictureElement):
        picture = place_picture(work.design, at, work.pictures)
        work.draws += picture.draws
        work.findings += picture.findings
    elif isinstance(element, CodeElement):
        _lay_out_code(work, at, element)
    elif isinstance(element, FrameElement):
        outline = partial(sticker_outline, work.design)
        work.draws += frame_draws(element, outline, _turn_of(element))
    elif isinstance(element, LineElement):
        box = _box(element)
        path = line(box.x_mm, box.y_mm, box.right_mm, box.bottom_mm)
        path = map_path(_turn_of(element), path)
        work.draws.append(PathDraw(path, None, element.colour, element.line_mm, element.dash_mm))
    elif isinstance(element, OrnamentElement | PictogramElement):
        drawing = place_drawing(work.design, at)
        work.draws += drawing.draws
        work.findings += drawing.findings
    elif isinstance(element, FactsElement):
        facts = place_facts(work.design, at, work.values, work.typefaces)
        work.draws += facts.draws
        work.texts += facts.texts
        work.findings += facts.findings


def _bend(work: _Work, at: int, element: Element) -> None:
    if work.ring is None:
        return
    bent = list(bend_element(work.ring, element, work.draws[work.parts[at][0] :]))
    work.bent += bent
    known = {one.key for one in work.findings if one.about == ("element", at)}
    work.findings += [
        replace(one, about=("element", at))
        for one in check_bent(work.design, work.ring, element, bent)
        if one.key not in known
    ]


def _lay_out_text(work: _Work, at: int, element: TextElement) -> None:
    face, exact = work.typefaces(element.family, element.style)
    filled = fill_in(element.text, work.values)
    text = "\n".join(part.strip() for part in filled.text.split("\n")).strip("\n")
    text = in_capitals(text) if element.upper else text
    draws, done = set_text(work.design, work.ring, element, face, text)
    work.draws += draws
    laid = laid_text(at, text, face, done)
    work.texts.append(laid)
    found = typeface_findings(element, face, exact=exact)
    found += check_text(work.design, element, filled, face, laid)
    if done.fits:
        found += check_ink(work.design, ink_of(work.ring, element, draws))
    work.findings += [Finding(f.rank, f.key, f.data, ("element", at)) for f in found]


def _lay_out_code(work: _Work, at: int, element: CodeElement) -> None:
    face, _ = work.typefaces(_CODE_FAMILY, "Regular")
    filled = fill_in(element.text, work.values)
    done = place_code(work.design, at, filled, face, work.around_mm)
    work.draws += done.draws
    work.codes.append((at, done.text))
    work.findings += done.findings


def _box(element: Element) -> Rect:
    return Rect(element.x_mm, element.y_mm, element.w_mm, element.h_mm)


def _turn_of(element: Element) -> Affine:
    middle = (element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2)
    return turn(element.turn_deg, *middle)


def _key(design: LabelDesign, work: _Work) -> str:
    said = [(text.element, text.text, text.size_pt) for text in work.texts]
    whole = repr((design, said, faces_of(work.draws), work.codes, work.around_mm)).encode()
    return hashlib.sha256(whole).hexdigest()[:24]
