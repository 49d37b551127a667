"""How a label made once fits a wall: how its ends meet, and whether its piece goes onto a page."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from wickbench.domain.wrap_fit import WrapSize, Zone

BLANK_MM: Final = 5.0
"""What printers leave blank along each edge of a page; 4 to 7 mm are usual."""


def joins_mm(size: WrapSize, zone: Zone) -> tuple[float, float]:
    """How far the ends overlap at the lower and the upper edge; below 0 a gap stays open.

    A label bent for diameters of its own is as long at an edge as its middle line times edge by
    middle diameter; the wall wants its own way round there.

    Args:
        size: as the label was made.
        zone: of the vessel that it goes round; it stands in its middle.
    """
    low, high = zone.label_edges_mm(size.height_mm)
    middle = size.middle_mm or 1.0
    return (
        size.width_mm * size.bottom_mm / middle - zone.wall.around_mm(low),
        size.width_mm * size.top_mm / middle - zone.wall.around_mm(high),
    )


def askew_mm(size: WrapSize, zone: Zone) -> float:
    """How much further the ends overlap at one edge than at the other, seen as an angle.

    Ends that both lie straight up the wall overlap by the same angle everywhere, and by more
    millimetres where the vessel is wider: those are not askew.

    Returns:
        the difference on the middle of the zone's way round; below 0 the lower edge overlaps more.
    """
    low, high = zone.label_edges_mm(size.height_mm)
    lower, upper = joins_mm(size, zone)
    turns = upper / zone.wall.around_mm(high) - lower / zone.wall.around_mm(low)
    return turns * zone.wall.around_mm(zone.middle_mm)


def fits_page(paper_mm: tuple[float, float], page_mm: tuple[float, float]) -> bool:
    """Whether a piece goes onto a page, upright or turned, with what printers leave blank.

    Args:
        paper_mm: width and height of the piece.
        page_mm: width and height of the page.
    """
    free = [side - 2 * BLANK_MM for side in page_mm]
    return all(want <= have for want, have in zip(sorted(paper_mm), sorted(free), strict=True))
