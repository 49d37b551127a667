"""What a label does on the vessel that it is made for: rises, wrinkles, gaps and covered ends."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.label_wraps import outside_of, takes_label_round
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import CurvedDraw, TextDraw
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.labels import (
    FactsElement,
    FrameElement,
    LineElement,
    PictureElement,
    TextElement,
)
from wickbench.domain.wrap_fit import (
    MOST_RISE_MM,
    WrapSize,
    Zone,
)
from wickbench.domain.wrap_joins import askew_mm, fits_page, joins_mm

if TYPE_CHECKING:
    from wickbench.app.texts import Texts
    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.labels import AnyElement, LabelDesign

TO_FIT: Final = "fit"
"""A finding about this and a vessel's key is mended by fitting the label to that vessel."""
TO_MEASURE: Final = "vessel"
"""A finding about this and a vessel's key is mended by measuring that vessel."""

_SLACK_MM: Final = 0.3  # how well a ruler or calliper reads a vessel
_JOIN_MM: Final = 1.0  # ends that miss each other by less are not seen; common practice, no source
_HAIR_MM: Final = 0.05
_GOES_ROUND: Final = 0.9
_GROUND: Final = (FrameElement, LineElement, PictureElement)


def vessel_findings(laid: LaidOutLabel, vessel: Vessel | None, texts: Texts) -> list[Finding]:
    """Whether a label goes well round a vessel, with the numbers.

    Args:
        laid: a jar label.
        vessel: of the candle that it is for; ``None`` while unknown.
        texts: for the names of missing measures.
    """
    design, found = laid.design, _covered(laid)
    if vessel is None or design.kind != "jar" or not takes_label_round(vessel):
        return found
    outside = outside_of(vessel)
    if outside.zone is None:
        return found + _not_measured(design, vessel, outside.missing, texts)
    work = _Fit(design, vessel, outside.zone, sure=outside.sure)
    return found + work.height() + (work.wrap() if design.shape == "wrap" else work.flat())


def page_findings(laid: LaidOutLabel, page_mm: tuple[float, float]) -> list[Finding]:
    """Whether a wrap goes onto the usual page; other labels are made for their sheet.

    Args:
        laid: a label.
        page_mm: width and height of the page that papers are written on.
    """
    paper = (laid.width_mm, laid.height_mm)
    if laid.design.shape != "wrap" or fits_page(paper, page_mm):
        return []
    data = {
        "paper_width_mm": paper[0],
        "paper_height_mm": paper[1],
        "page_width_mm": page_mm[0],
        "page_height_mm": page_mm[1],
    }
    return [Finding(Rank.WATCH, "wrap.longer-than-page", data)]


def size_of(design: LabelDesign, zone: Zone) -> WrapSize:
    """Measures of a label; one without diameters of its own was made for a straight wall."""
    around = zone.wall.diameter_mm(zone.middle_mm)
    bottom = design.wrap_bottom_mm or design.wrap_top_mm or around
    top = design.wrap_top_mm or bottom
    return WrapSize(design.width_mm, design.height_mm, bottom, top, design.overlap_mm)


def goes_round(design: LabelDesign, zone: Zone) -> bool:
    """Whether the ends of a label are meant to meet at the back."""
    around = zone.wall.around_mm(zone.middle_mm)
    return design.overlap_mm > 0 or design.width_mm >= _GOES_ROUND * around


def _not_measured(
    design: LabelDesign, vessel: Vessel, missing: tuple[str, ...], texts: Texts
) -> list[Finding]:
    rank = Rank.WATCH if design.shape == "wrap" else Rank.NOTE
    data = {"vessel": vessel.name, "missing": tuple(texts(words) for words in missing)}
    return [Finding(rank, "wrap.not-measured", data, (TO_MEASURE, vessel.id))]


def _covered(laid: LaidOutLabel) -> list[Finding]:
    """Things in the strip that the beginning of a wrap covers."""
    design = laid.design
    if design.shape != "wrap" or design.overlap_mm <= 0:
        return []
    from_mm = design.width_mm - design.overlap_mm + _HAIR_MM
    data = {"overlap_mm": design.overlap_mm}
    return [
        Finding(Rank.WATCH, "wrap.under-seam", data, ("element", at))
        for at, one in enumerate(design.elements)
        if not isinstance(one, _GROUND) and _right_mm(laid, at, one) > from_mm
    ]


def _right_mm(laid: LaidOutLabel, at: int, one: AnyElement) -> float:
    """Where the ink of letters ends; of anything else its box."""
    if not isinstance(one, TextElement | FactsElement):
        return one.x_mm + one.w_mm
    letters = [draw for draw in laid.draws_of(at) if isinstance(draw, TextDraw | CurvedDraw)]
    return max((x for draw in letters for x, _ in corners_of(draw)), default=0.0)


class _Fit:
    """One label in the middle of one vessel's straight part."""

    def __init__(self, design: LabelDesign, vessel: Vessel, zone: Zone, *, sure: bool) -> None:
        self.design, self.vessel, self.zone, self.sure = design, vessel, zone, sure
        self.middle = zone.middle_mm
        self.around = zone.wall.around_mm(self.middle)

    def _finding(self, rank: Rank, key: str, **data: object) -> Finding:
        return Finding(rank, key, {"vessel": self.vessel.name, **data}, (TO_FIT, self.vessel.id))

    def height(self) -> list[Finding]:
        """Taller than the straight part of the wall, or than the vessel."""
        high = self.design.height_mm / self.zone.wall.stretch
        if high <= self.zone.high_mm + _SLACK_MM:
            return self._unsure(high)
        key = "wrap.taller-than-zone" if self.sure else "wrap.taller-than-vessel"
        return [self._finding(Rank.WATCH, key, high_mm=high, zone_mm=self.zone.high_mm)]

    def _unsure(self, high: float) -> list[Finding]:
        if self.sure or high < self.zone.high_mm / 2:
            return []
        data = {"vessel": self.vessel.name}
        return [Finding(Rank.NOTE, "wrap.zone-unsure", data, (TO_MEASURE, self.vessel.id))]

    # -- straight labels -------------------------------------------------------------------------
    def flat(self) -> list[Finding]:
        """A label that is no wrap: rise of its ends, and whether it goes too far round."""
        wide = self.design.width_mm
        found = self._rise(wide)
        if wide > self.around + _SLACK_MM:
            data = {"width_mm": wide, "around_mm": self.around, "over_mm": wide - self.around}
            return [*found, self._finding(Rank.WATCH, "wrap.longer-than-round", **data)]
        if wide > self.around / 2 + _SLACK_MM:
            away = wide / 2 - self.around / 4
            found.append(self._finding(Rank.NOTE, "wrap.turns-away", away_mm=away))
        return found

    def _rise(self, wide: float) -> list[Finding]:
        wall = self.zone.wall
        rise = wall.rise_mm(self.middle, min(wide, self.around))
        if rise <= MOST_RISE_MM:
            return []
        round_one = self.design.shape in {"circle", "oval"}
        key = "wrap.round-rises" if round_one else "wrap.straight-rises"
        longest = wall.longest_straight_mm(self.middle)
        return [self._finding(Rank.WATCH, key, rise_mm=rise, longest_mm=longest)]

    # -- wraps -----------------------------------------------------------------------------------
    def wrap(self) -> list[Finding]:
        """A wrap on this vessel: its own diameters against those of the wall."""
        size = size_of(self.design, self.zone)
        if not goes_round(self.design, self.zone):
            return self._bend(size)
        lower, upper = joins_mm(size, self.zone)
        found = []
        askew = abs(askew_mm(size, self.zone))
        if askew > _JOIN_MM:
            found.append(
                self._finding(Rank.WATCH, "wrap.ends-askew", askew_mm=askew, **self._both(size))
            )
        return found + self._join(min(lower, upper), (lower + upper) / 2)

    def _join(self, least: float, join: float) -> list[Finding]:
        wide, overlap = self.design.width_mm, self.design.overlap_mm
        if least < -_SLACK_MM:
            data = {"gap_mm": -least, "around_mm": self.around, "width_mm": wide}
            return [self._finding(Rank.WATCH, "wrap.gap", **data)]
        if join > overlap + _JOIN_MM:
            data = {"join_mm": join, "overlap_mm": overlap, "hidden_mm": join - overlap}
            return [self._finding(Rank.WATCH, "wrap.overlap-differs", **data)]
        return []

    def _bend(self, size: WrapSize) -> list[Finding]:
        """A curved label on the front: how far its ends stand off on this wall."""
        wall, wide = self.zone.wall, size.width_mm
        own = _signed_rise(size, wide)
        here = wall.rise_mm(self.middle, wide) * (1 if wall.slope >= 0 else -1)
        if abs(own - here) <= MOST_RISE_MM:
            return []
        rise = abs(own - here)
        return [self._finding(Rank.WATCH, "wrap.bent-otherwise", rise_mm=rise, **self._both(size))]

    def _both(self, size: WrapSize) -> dict[str, float]:
        low, high = self.zone.label_edges_mm(size.height_mm)
        wall = self.zone.wall
        return {
            "made_bottom_mm": size.bottom_mm,
            "made_top_mm": size.top_mm,
            "bottom_mm": wall.diameter_mm(low),
            "top_mm": wall.diameter_mm(high),
        }


def _signed_rise(size: WrapSize, wide: float) -> float:
    """How far the ends of a bent label lie above its middle when it is flat; below 0 under it."""
    wall = size.wall
    rise = wall.rise_mm(wall.height_mm / 2, wide)
    return rise if wall.slope >= 0 else -rise
