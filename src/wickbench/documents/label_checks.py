"""What a laid-out label lacks: room for its text, legible type, glyphs, sharp pictures."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import turn
from wickbench.documents.lost_letters import lent, missing
from wickbench.documents.rooms import is_inside
from wickbench.documents.text import MM_PER_POINT
from wickbench.domain.capitals import has_small_letters
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import FrameElement, PictureElement, TextElement
from wickbench.domain.sheets import Rect

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.documents.affine import Affine
    from wickbench.documents.label_draws import LaidOutText
    from wickbench.documents.text import Typeface
    from wickbench.documents.text_fit import SetText
    from wickbench.domain.label_fields import FilledText
    from wickbench.domain.labels import Element, LabelDesign

# Common practice, no source: 5 pt dark on light, 8 pt light on dark; a face with small lower-case
# letters needs more points, so the x is measured too: 5 pt of an ordinary face has 0.8 mm.
LEGIBLE_PT: Final = 5.0
LEGIBLE_REVERSED_PT: Final = 8.0
LEGIBLE_X_MM: Final = 0.8
COARSE_DPI: Final = 150
LEAST_CONTRAST: Final = 3.0  # WCAG 2.1, 1.4.3, for large text; a stamp-sized label wants more

_SLACK_MM: Final = 0.05
PAPER: Final = "#ffffff"
"""A sticker without a colour of its own."""


def typeface_findings(element: TextElement, face: Typeface, *, exact: bool) -> list[Finding]:
    """Another typeface than the one chosen, or one that may not be put into a document."""
    found = []
    asked = f"{element.family} {element.style}"
    if not exact:
        data = {"asked": asked, "used": f"{face.family} {face.style}"}
        found.append(Finding(Rank.WATCH, "label.typeface-missing", data))
    elif element.file_hash and element.file_hash != face.file_hash:
        found.append(Finding(Rank.NOTE, "label.typeface-changed", {"family": asked}))
    if not face.may_embed:
        found.append(Finding(Rank.WATCH, "label.typeface-restricted", {"family": face.family}))
    return found


def check_text(
    design: LabelDesign,
    element: TextElement,
    filled: FilledText,
    face: Typeface,
    laid: LaidOutText,
) -> list[Finding]:
    """Fields, glyphs, room, size and contrast of one text."""
    found = [
        Finding(Rank.STOPS, "label.unknown-field", {"field": f"{{{name}}}"})
        for name in filled.unknown
    ]
    found += [
        Finding(Rank.WATCH, "label.field-empty", {"field": f"{{{name.replace('_', ' ')}}}"})
        for name in filled.empty
    ]
    lost = missing(face, laid.text)
    if lost:
        data = {"characters": " ".join(lost), "family": face.family}
        found.append(Finding(Rank.STOPS, "label.missing-glyphs", data))
    found += _lent(face, laid.text)
    if not laid.fits:
        too_long = {"text": _short(laid.text), "size": laid.size_pt}
        found.append(Finding(Rank.STOPS, "label.text-too-long", too_long))
    return found + _size_findings(design, element, laid)


def _lent(face: Typeface, text: str) -> list[Finding]:
    """Letters that another typeface lends, because the chosen one does not have them."""
    return [
        Finding(
            Rank.NOTE,
            "label.letters-lent",
            {"characters": " ".join(signs), "family": face.family, "used": used},
        )
        for used, signs in lent(face, text).items()
    ]


def check_lines(design: LabelDesign, done: SetText, turned: Affine) -> list[Finding]:
    """Ink nearer to the edge than the safe zone, or beyond the edge."""
    corners = [
        turned.apply(line.x_mm + x, line.y_mm - y)
        for line in done.lines
        if (ink := line.run.ink_mm(done.size_pt)) is not None
        for x in (ink[0], ink[2])
        for y in (ink[1], ink[3])
    ]
    return check_ink(design, corners)


def check_ink(design: LabelDesign, corners: Sequence[tuple[float, float]]) -> list[Finding]:
    """Corners of letters nearer to the edge than the safe zone, or beyond the edge."""
    return _edge_findings(design, corners, "label.text")


def contrast_at(design: LabelDesign, colour: str, at: int, paper: str = PAPER) -> float | None:
    """Contrast of an element's colour with what lies behind it, from 1 to 21 after WCAG 2.1.

    Args:
        design: the label.
        colour: of the element.
        at: its place in the design.
        paper: colour of the sticker where the design has no ground of its own.

    Returns:
        the contrast; None where a picture lies behind it.
    """
    ground = _ground(design, at, paper)
    return None if ground is None else _contrast(colour, ground)


def _size_findings(design: LabelDesign, element: TextElement, laid: LaidOutText) -> list[Finding]:
    if not laid.text.strip():
        return []
    ground = _ground(design, laid.element)
    found = _contrast_findings(element.colour, ground) if ground else []
    reversed_out = _light(element.colour) > _light(ground or PAPER)
    least = LEGIBLE_REVERSED_PT if reversed_out else LEGIBLE_PT
    if laid.size_pt < least:
        key = "label.type-too-small-reversed" if reversed_out else "label.type-too-small"
        return [*found, Finding(Rank.WATCH, key, {"size": laid.size_pt, "least": least})]
    has_small = has_small_letters(laid.text)
    if has_small and laid.x_height_mm < LEGIBLE_X_MM:
        data = {"x_mm": laid.x_height_mm, "least_mm": LEGIBLE_X_MM, "size": laid.size_pt}
        found.append(Finding(Rank.WATCH, "label.small-letters", data))
    return found


def _ground(design: LabelDesign, at: int, paper: str = PAPER) -> str | None:
    """Colour behind an element; None where a picture lies there."""
    x, y = _seen_at(design.elements[at])
    for under in reversed(design.elements[:at]):
        box = Rect(under.x_mm, under.y_mm, under.w_mm, under.h_mm)
        if not (box.x_mm <= x <= box.right_mm and box.y_mm <= y <= box.bottom_mm):
            continue
        if isinstance(under, PictureElement):
            return None
        if isinstance(under, FrameElement) and under.fill and _fills(under, x, y):
            return under.fill
    return design.background or paper


def _seen_at(element: Element) -> tuple[float, float]:
    """The middle of an element; of a curved text the middle of its letters, at the oval's edge."""
    x, y = element.x_mm + element.w_mm / 2, element.y_mm + element.h_mm / 2
    if not (isinstance(element, TextElement) and element.curve):
        return x, y
    depth = min(element.h_mm / 2, element.size_pt * MM_PER_POINT / 3)
    bottom = element.y_mm + element.h_mm
    there = element.y_mm + depth if element.curve == "over" else bottom - depth
    return turn(element.turn_deg, x, y).apply(x, there)


def _fills(frame: FrameElement, x: float, y: float) -> bool:
    """Whether a place of its box lies inside a frame: an oval leaves out the corners."""
    if frame.figure != "oval":
        return True
    across = (x - frame.x_mm) / frame.w_mm * 2 - 1 if frame.w_mm else 0.0
    down = (y - frame.y_mm) / frame.h_mm * 2 - 1 if frame.h_mm else 0.0
    return across * across + down * down <= 1.0


def _contrast_findings(colour: str, ground: str) -> list[Finding]:
    enough = _contrast(colour, ground) >= LEAST_CONTRAST
    return [] if enough else [Finding(Rank.WATCH, "label.low-contrast")]


def _contrast(colour: str, ground: str) -> float:
    dark, light = sorted((_light(colour), _light(ground)))
    return (light + 0.05) / (dark + 0.05)


def _edge_findings(
    design: LabelDesign, corners: Sequence[tuple[float, float]], topic: str
) -> list[Finding]:
    if not _all_inside(design, corners, 0.0):
        return [Finding(Rank.STOPS, f"{topic}-outside-sticker")]
    if not _all_inside(design, corners, design.safe_mm):
        return [Finding(Rank.WATCH, f"{topic}-outside-safe", {"safe_mm": design.safe_mm})]
    return []


def _all_inside(
    design: LabelDesign, corners: Iterable[tuple[float, float]], margin_mm: float
) -> bool:
    return all(is_inside(design, x, y, margin_mm=margin_mm, slack_mm=_SLACK_MM) for x, y in corners)


def _light(colour: str) -> float:
    """Relative luminance after WCAG 2.1, from 0 for black to 1 for white."""
    parts = []
    for at in (1, 3, 5):
        part = int(colour[at : at + 2], 16) / 255
        parts.append(part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4)  # noqa: PLR2004 - WCAG's constants
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def _short(text: str, most: int = 40) -> str:
    one_line = " ".join(text.split())
    return one_line if len(one_line) <= most else one_line[: most - 1] + "…"
