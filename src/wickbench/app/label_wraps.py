"""Labels fitted to a vessel: how large they may be, what moves where, and the acts that do it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_store import design_values, element_rows, element_values
from wickbench.app.labels import editable_version
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import FrameElement, LabelDesign, LineElement, PictureElement
from wickbench.domain.wrap_fit import (
    CLEARANCE_MM,
    FRONT_SHARE,
    MOST_RISE_MM,
    UNSURE_CLEARANCE_MM,
    USUAL_OVERLAP_MM,
    Wall,
    WrapSize,
    Zone,
    fit_wrap,
)
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.labels import AnyElement

_NO_WALL: Final = frozenset({"mould", "clamshell"})
_AT_EDGE_MM: Final = 0.01
_HALF: Final = 0.5
_MEASURES: Final = (
    ("outer_top_mm", N_("outer diameter at the top")),
    ("outer_bottom_mm", N_("outer diameter at the bottom")),
    ("outer_height_mm", N_("outer height")),
)


@dataclass(frozen=True, slots=True)
class Outside:
    """The outside of a vessel, as far as it is measured.

    Attributes:
        zone: where labels go; ``None`` while a measure is missing.
        missing: what is still to be measured, as msgids.
        sure: the straight part was measured; else the whole wall stands for it.
    """

    zone: Zone | None
    missing: tuple[str, ...] = ()
    sure: bool = True

    @property
    def clearance_mm(self) -> float:
        """What is kept free above and below a label."""
        return CLEARANCE_MM if self.sure else UNSURE_CLEARANCE_MM


@dataclass(frozen=True, slots=True)
class WrapPlan:
    """A label as large as a vessel wants it.

    Attributes:
        vessel: its name.
        size: width, height, diameters and overlap.
        zone: where it goes, clearance taken off.
        share: of the way round for a label on the front; ``None`` for one that goes round.
        sure: as in `Outside`.
        keeps_size: it stays as large as it is and is only bent.
    """

    vessel: str
    size: WrapSize
    zone: Zone
    share: float | None = None
    sure: bool = True
    keeps_size: bool = False

    @property
    def bent(self) -> bool:
        """Whether a straight piece would stand crooked: it is cut as a piece of a ring."""
        rise = self.zone.wall.rise_mm(self.zone.middle_mm, self.size.width_mm)
        return self.share is None or rise > MOST_RISE_MM


def takes_label_round(vessel: Vessel) -> bool:
    """Whether a vessel has a round wall for a label: a jar, tin or cup of one cell."""
    return vessel.vessel_kind not in _NO_WALL and (vessel.cells or 1) == 1


def outside_of(vessel: Vessel) -> Outside:
    """Where labels go on a vessel, and what is to be measured first."""
    top, bottom, high = vessel.outer_top_mm, vessel.outer_bottom_mm, vessel.outer_height_mm
    low, end = vessel.straight_from_mm, vessel.straight_to_mm
    sure = low is not None and end is not None and end > low
    if not high and top == bottom and sure:
        high = end  # a straight wall goes on as it is: its height changes no diameter
    known = {"outer_top_mm": top, "outer_bottom_mm": bottom, "outer_height_mm": high}
    missing = tuple(words for name, words in _MEASURES if not known[name])
    if not (top and bottom and high):
        return Outside(None, missing, sure)
    wall = Wall(bottom, top, high)
    if low is None or end is None or not sure or low >= high:
        return Outside(Zone(wall, 0.0, high), sure=False)
    return Outside(Zone(wall, low, min(end, high)))


def wrap_plan(
    vessel: Vessel,
    texts: Texts,
    *,
    share: float | None = None,
    overlap_mm: float = USUAL_OVERLAP_MM,
) -> WrapPlan:
    """The label that fits a vessel.

    Args:
        vessel: what it goes round.
        texts: for the names of missing measures.
        share: of the way round for a label on the front; ``None`` goes round.
        overlap_mm: of one that goes round.

    Raises:
        OutOfRange: ``wrap.measure-first`` with what is missing; ``wrap.no-room``.
    """
    outside = outside_of(vessel)
    if outside.zone is None:
        missing = tuple(texts(words) for words in outside.missing)
        raise OutOfRange("wrap.measure-first", vessel=vessel.name, missing=missing)
    zone = outside.zone.inside(outside.clearance_mm)
    size = fit_wrap(zone, overlap_mm=overlap_mm, share=share)
    return WrapPlan(vessel.name, size, zone, share, outside.sure)


def curved_plan(vessel: Vessel, texts: Texts, design: LabelDesign) -> WrapPlan:
    """A label as large as it is, bent for the vessel; lower when the straight part is.

    Raises:
        OutOfRange: as `wrap_plan`.
    """
    whole = wrap_plan(vessel, texts, share=FRONT_SHARE)
    zone, wall = whole.zone, whole.zone.wall
    low, high = zone.label_edges_mm(min(design.height_mm, zone.high_mm * wall.stretch))
    around = wall.around_mm(zone.middle_mm)
    narrow = Zone(wall, low, high)
    share = min(1.0, (design.width_mm - design.overlap_mm) / around)
    size = fit_wrap(narrow, share=share)
    return WrapPlan(vessel.name, size, narrow, share, whole.sure, keeps_size=True)


# -- what moves where ----------------------------------------------------------------------------
def front_mm(design: LabelDesign) -> float:
    """Where the middle of the front lies on a label: opposite the seam of a wrap."""
    return (design.width_mm - design.overlap_mm) / 2


def fitted_design(design: LabelDesign, plan: WrapPlan) -> LabelDesign:
    """A design in the size that a vessel wants, with all that stands on it.

    What reaches the edge still does. Everything else keeps its proportions, its distance from
    the middle of the front, and stays inside the safe zone where it was inside.
    """
    size = plan.size
    flat = design.shape if design.shape in {"rectangle", "rounded"} else "rectangle"
    sized = replace(
        design,
        width_mm=size.width_mm,
        height_mm=size.height_mm,
        shape="wrap" if plan.bent else flat,
        wrap_bottom_mm=size.bottom_mm if plan.bent else 0.0,
        wrap_top_mm=size.top_mm if plan.bent else 0.0,
        overlap_mm=size.overlap_mm,
    )
    scale = _scale(design, sized, plan)
    return replace(
        sized, elements=tuple(_moved(one, design, sized, scale) for one in design.elements)
    )


def _scale(old: LabelDesign, new: LabelDesign, plan: WrapPlan) -> float:
    """How much what stands on it grows: as the height does, and no wider than the front."""
    safe = min(old.safe_mm, old.height_mm / 4, new.height_mm / 4)
    down = (new.height_mm - 2 * safe) / (old.height_mm - 2 * safe)
    most = plan.size.seen_mm / 2 - safe
    around = plan.zone.wall.around_mm(plan.zone.middle_mm)
    front = most if plan.share is not None else around * FRONT_SHARE / 2
    room = max(1.0, min(max(front, old.width_mm / 2 - safe), most))
    middle = front_mm(old)
    ends = [
        abs(x - middle)
        for one in old.elements
        if not _is_ground(one)
        for x in (one.x_mm, one.x_mm + one.w_mm)
    ]
    return min(down, room / max([1.0, *ends]))


def _is_ground(one: AnyElement) -> bool:
    """Whether it may run to the edge: areas, lines and pictures that fill their box."""
    covers = isinstance(one, PictureElement) and one.fit == "cover"
    return isinstance(one, FrameElement | LineElement) or covers


def _moved(one: AnyElement, old: LabelDesign, new: LabelDesign, scale: float) -> AnyElement:
    across = (front_mm(old), front_mm(new))
    down = (old.height_mm / 2, new.height_mm / 2)
    left, right = (across[1] + scale * (x - across[0]) for x in (one.x_mm, one.x_mm + one.w_mm))
    top, below = (down[1] + scale * (y - down[0]) for y in (one.y_mm, one.y_mm + one.h_mm))
    if _is_ground(one) and not one.turn_deg % 180:
        left = _kept(one.x_mm, old.width_mm, new.width_mm, left)
        right = _kept(one.x_mm + one.w_mm, old.width_mm, new.width_mm, right)
        top = _kept(one.y_mm, old.height_mm, new.height_mm, top)
        below = _kept(one.y_mm + one.h_mm, old.height_mm, new.height_mm, below)
    changes: dict[str, Any] = {
        "x_mm": left, "y_mm": top, "w_mm": max(0.0, right - left), "h_mm": max(0.0, below - top),
    }  # fmt: skip
    size, least = getattr(one, "size_pt", None), getattr(one, "min_size_pt", 0.0)
    if size is not None:
        changes["size_pt"] = max(least, round(size * scale / _HALF) * _HALF)
    return replace(one, **changes)


def _kept(at: float, old: float, new: float, moved: float) -> float:
    """An edge at or beyond the label's edge keeps its distance from it."""
    if at <= _AT_EDGE_MM:
        return at
    return new + (at - old) if at >= old - _AT_EDGE_MM else moved


# -- acts ----------------------------------------------------------------------------------------
def fit_to_vessel(
    workspace: Workspace, label_id: int, plan: WrapPlan, *, origin: object = None
) -> None:
    """Give a label the size and shape that a vessel wants; what stands on it goes along."""
    with workspace.step(N_("Fit a label to the vessel"), origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        changed = fitted_design(design, plan)
        records.update(connection, "label_version", version, design_values(changed))
        rows = element_rows(connection, version)
        for row, element in zip(rows, changed.elements, strict=True):
            records.update(connection, "label_element", row["id"], element_values(element))
