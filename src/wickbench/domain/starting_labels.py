"""Labels to start from, made to the measure of any sticker or wrap: our own designs."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import AnyElement, FactsElement, FrameElement, LabelDesign, TextElement
from wickbench.domain.sheets import Rect
from wickbench.domain.starting import colour_designs, fact_designs, quiet_designs, round_designs
from wickbench.domain.starting.place import SAFE_MM, Place, margin_mm
from wickbench.domain.starting.round_the_vessel import front_of, sides_of
from wickbench.domain.starting.words import SANS, SERIF

__all__ = ["SANS", "SERIF", "STARTING", "STARTING_DESIGNS", "Starting", "starting_design"]

_BLEED_MM: Final = 1.0


@dataclass(frozen=True, slots=True)
class Starting:
    """A starting design.

    Attributes:
        draw: puts its elements into a panel.
        kind: of the labels it makes: jar, lid or tag.
        black_only: black lines and letters alone, for kraft as for white; another has colours and
            a ground of its own, for white paper.
        ground: colour under everything; empty for the paper's own.
        bleeds: something runs over the edge.
        ink: of what stands beside the front of a wrap.
    """

    draw: Callable[[Place], tuple[AnyElement, ...]]
    kind: str = "jar"
    black_only: bool = True
    ground: str = ""
    bleeds: bool = False
    ink: str = "#000000"


STARTING: Final[dict[str, Starting]] = {
    "hush": Starting(quiet_designs.hush),
    "sill": Starting(
        colour_designs.sill,
        black_only=False,
        ground=colour_designs.CREAM,
        ink=colour_designs.BROWN,
    ),
    "ember": Starting(
        colour_designs.ember, black_only=False, bleeds=True, ink=colour_designs.BROWN
    ),
    "ledger": Starting(quiet_designs.ledger),
    "dusk": Starting(
        colour_designs.dusk,
        black_only=False,
        ground=colour_designs.LAND,
        bleeds=True,
        ink=colour_designs.NIGHT,
    ),
    "crest": Starting(round_designs.crest),
    "quill": Starting(quiet_designs.quill),
    "bark": Starting(quiet_designs.bark),
    "orchard": Starting(colour_designs.orchard, black_only=False, ink=colour_designs.LEAF),
    "tally": Starting(fact_designs.tally),
    "band": Starting(fact_designs.band, black_only=False, bleeds=True, ink=fact_designs.TEAL),
    "seal": Starting(round_designs.seal),
    "cap": Starting(round_designs.cap, kind="lid"),
    "tie": Starting(fact_designs.tie, kind="tag"),
}

STARTING_DESIGNS: Final = tuple(STARTING)
"""Names of the starting designs; the app gives them their words."""


def starting_design(
    name: str,
    width_mm: float,
    height_mm: float,
    *,
    shape: str = "rectangle",
    corner_mm: float = 0.0,
    overlap_mm: float = 0.0,
) -> LabelDesign:
    """A starting design made to the measure of a sticker.

    Args:
        name: one of `STARTING_DESIGNS`.
        width_mm: width of the sticker.
        height_mm: height of it.
        shape: rectangle, rounded, circle, oval or wrap.
        corner_mm: corner radius of a rounded one.
        overlap_mm: of a wrap: this much at its end is covered; nothing stands there.

    Raises:
        OutOfRange: ``label.choice`` for another name; as `LabelDesign`.
    """
    starting = STARTING.get(name)
    if starting is None:
        raise OutOfRange("label.choice", value=name)
    wrap = shape == "wrap"
    whole = Rect(0.0, 0.0, width_mm, height_mm)
    corner = corner_mm if shape == "rounded" else 0.0
    place = Place(whole, whole, shape, margin_mm(width_mm, height_mm, corner))
    if wrap:
        place = front_of(width_mm, height_mm, overlap_mm)
    elements = starting.draw(place)
    told = any(isinstance(one, FactsElement) for one in elements)
    if wrap and starting.kind == "jar" and not told:
        elements = (*elements, *sides_of(place, starting.ink, *_free_height(place, elements)))
    behind_first = sorted(elements, key=lambda one: isinstance(one, TextElement | FactsElement))
    return LabelDesign(
        width_mm=width_mm,
        height_mm=height_mm,
        shape=shape,
        corner_mm=corner_mm,
        safe_mm=SAFE_MM,
        bleed_mm=_BLEED_MM if starting.bleeds or starting.ground else 0.0,
        background=starting.ground,
        kind=starting.kind,
        overlap_mm=overlap_mm,
        elements=tuple(behind_first),
    )


def _free_height(front: Place, elements: tuple[AnyElement, ...]) -> tuple[float, float]:
    """Between the bands of colour that go all along the label."""
    top, bottom, middle = front.top_mm, front.bottom_mm, front.middle_mm[1]
    for one in elements:
        if isinstance(one, FrameElement) and one.fill and one.w_mm >= front.label.w_mm:
            if one.y_mm < middle:
                top = max(top, one.y_mm + one.h_mm)
            else:
                bottom = min(bottom, one.y_mm)
    return top, bottom
