"""A label on the drawing of its vessel: where it sits, what is seen of it, and in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.label_wraps import outside_of, takes_label_round
from wickbench.app.texts_marker import N_
from wickbench.documents.front_view import FrontLabel, WallLabel, lay_on_wall, seen_from_front
from wickbench.domain.errors import DomainError
from wickbench.domain.wrap_fit import Wall

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.app.vessel_drawing import VesselDrawing
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.catalog import Vessel

_WHOLE: Final = 0.995
_MOST_KEPT: Final = 16
_kept: dict[tuple[str, Wall, float], WallLabel] = {}


@dataclass(frozen=True, slots=True)
class LabelOnVessel:
    """A label laid on a drawn vessel.

    Attributes:
        label: on the wall, to be seen from any side.
        foot_mm: height of the vessel's foot in the drawing.
        measured: the outside was measured; else it was drawn by a usual thickness of the wall.
        covers_share: part of the way round that the label covers, from 0.
    """

    label: WallLabel
    foot_mm: float
    measured: bool
    covers_share: float

    def front(self, turn_deg: float = 0.0) -> FrontLabel:
        """What is seen of it with the vessel turned to the right."""
        return seen_from_front(self.label, turn_deg)

    def words(self, front: FrontLabel, texts: Texts, *, turned: bool = False) -> str:
        """How far it goes round and how much of it is seen."""
        share = texts.quantity(round(100 * self.covers_share), "percent")
        said = [texts(N_("The label covers {share} of the way round."), share=share)]
        if turned:
            said.append(texts(N_("Seen from another side.")))
        elif front.seen_share < _WHOLE:
            seen = texts.quantity(round(100 * front.seen_share), "percent")
            said.append(texts(N_("From the front {seen} of its width are seen."), seen=seen))
        if not self.measured:
            said.append(texts(N_("The outside is not measured (estimate).")))
        return " ".join(said)


def label_on_vessel(
    laid: LaidOutLabel, vessel: Vessel, drawing: VesselDrawing | None
) -> LabelOnVessel | None:
    """Lay a jar's label on its drawing, in the middle of the straight part of the wall.

    Returns:
        ``None`` when there is no drawing, or no round wall for a label.
    """
    if drawing is None or laid.design.kind != "jar" or not takes_label_round(vessel):
        return None
    try:
        wall, foot = _drawn_wall(drawing)
        outside = outside_of(vessel)
        zone = outside.zone
        low, high = (zone.from_mm, zone.to_mm) if zone else (0.0, wall.height_mm)
        middle = _middle_mm(laid, wall, low, high)
        label = _laid_on(laid, wall, middle)
    except DomainError:
        return None
    covers = (laid.design.width_mm - laid.design.overlap_mm) / wall.around_mm(middle)
    return LabelOnVessel(label, foot, zone is not None, covers)


def _laid_on(laid: LaidOutLabel, wall: Wall, middle_mm: float) -> WallLabel:
    """A label on a wall, kept: it is asked for again whenever something beside it changes."""
    key = (laid.key, wall, middle_mm)
    found = _kept.pop(key, None) or lay_on_wall(laid, wall, middle_mm)
    _kept[key] = found  # the last one asked for stays longest
    if len(_kept) > _MOST_KEPT:
        _kept.pop(next(iter(_kept)))
    return found


def _drawn_wall(drawing: VesselDrawing) -> tuple[Wall, float]:
    """The outside as it is drawn, so that the label lies on the drawn wall; and its foot."""
    points = [point for line in drawing.of("wall") for point in line.points]
    foot, rim = min(y for _, y in points), max(y for _, y in points)
    bottom = max(x for x, y in points if y <= foot)
    top = max(x for x, y in points if y >= rim)
    return Wall(2 * bottom, 2 * top, rim - foot), foot


def _middle_mm(laid: LaidOutLabel, wall: Wall, low_mm: float, high_mm: float) -> float:
    """In the middle of a zone; a label taller than that stands on the vessel as it can."""
    half = laid.design.height_mm / wall.stretch / 2
    middle = (low_mm + high_mm) / 2
    if 2 * half <= high_mm - low_mm:
        return middle
    return min(max(middle, half), max(half, wall.height_mm - half))
