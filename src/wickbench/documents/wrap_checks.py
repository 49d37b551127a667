"""What is wrong with a bent label: a picture, a code or facts that come beyond its edge."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import turn
from wickbench.documents.bending import flat_corners, keeps_shape
from wickbench.documents.label_checks import check_ink
from wickbench.documents.label_draws import ImageDraw, PathDraw
from wickbench.documents.rooms import is_inside
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import (
    CodeElement,
    FactsElement,
    OrnamentElement,
    PictogramElement,
    PictureElement,
)

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.documents.label_draws import AnyDraw
    from wickbench.documents.ring import Ring
    from wickbench.domain.labels import Element, LabelDesign

_SLACK_MM: Final = 0.05


def check_bent(
    design: LabelDesign, ring: Ring, element: Element, bent: Sequence[AnyDraw]
) -> list[Finding]:
    """Told when what is turned as a whole, or a list of facts, comes beyond the bent edge.

    Args:
        design: the label.
        ring: that it is bent to.
        element: one of its elements.
        bent: what the element draws on the paper.
    """
    if isinstance(element, FactsElement):
        return check_ink(design, flat_corners(ring, bent))
    key = _key(element) if keeps_shape(element) else ""
    if not key or all(
        is_inside(design, *ring.to_flat(*spot), margin_mm=0.0, slack_mm=_SLACK_MM)
        for draw in bent
        for spot in _spots(draw)
    ):
        return []
    return [Finding(Rank.WATCH, key)]


def _key(element: Element) -> str:
    if isinstance(element, CodeElement):
        return "code.outside"
    if isinstance(element, OrnamentElement | PictogramElement):
        return "ornament.cut"
    covers = isinstance(element, PictureElement) and element.fit == "cover"
    return "label.picture-cut" if isinstance(element, PictureElement) and not covers else ""


def _spots(draw: AnyDraw) -> Iterator[tuple[float, float]]:
    if isinstance(draw, PathDraw):
        for _, *numbers in draw.path:
            values = [float(one) for one in numbers]
            yield from zip(values[::2], values[1::2], strict=True)
    elif isinstance(draw, ImageDraw):
        turned = turn(draw.turn_deg, draw.x_mm, draw.y_mm)
        for x in (draw.x_mm, draw.x_mm + draw.w_mm):
            for y in (draw.y_mm, draw.y_mm + draw.h_mm):
                yield turned.apply(x, y)
