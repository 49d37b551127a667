"""What to tell about a measured capacity: how little few readings say, what makes the doubt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.domain.findings import Finding, Rank, sort_findings

if TYPE_CHECKING:
    from wickbench.domain.vessels import Capacity

_FEW_VESSELS = 3
# How far vessels of one box differ in capacity, in percent; common practice, no source.
_USUAL_SPREAD_PERCENT = (1.0, 3.0)


def capacity_advice(capacity: Capacity, *, to_brim: bool = False) -> tuple[Finding, ...]:
    """What to tell the person about a measured capacity, most pressing first.

    Args:
        capacity: as measured.
        to_brim: filled to the brim, where a flat plate can hold the water level.

    Returns:
        how little few readings tell, a reading that lies too far off, and the largest part of the
        doubt with what would shrink it.
    """
    found = [_advice_on_number(capacity)]
    if capacity.outlier_index is not None and capacity.outlier_off_ml is not None:
        off_ml = abs(capacity.outlier_off_ml)
        data = {
            "weighing_no": capacity.outlier_index + 1,
            "vessel_no": capacity.outlier_vessel_no,
            "off_ml": off_ml,
        }
        about = ("weighing", capacity.outlier_index)
        found.append(Finding(Rank.WATCH, "vessel.odd-weighing", data, about))
    name, share_percent = capacity.biggest_doubt
    data = {
        "share_percent": share_percent,
        "doubt_ml": capacity.expanded_uncertainty_ml,
        "without_ml": capacity.without_biggest_ml,
    }
    key = "vessel.doubt-brim" if name == "line" and to_brim else f"vessel.doubt-{name}"
    found.append(Finding(Rank.NOTE, key, data))
    return sort_findings([finding for finding in found if finding is not None])


def _advice_on_number(capacity: Capacity) -> Finding | None:
    if capacity.n_vessels == 1:
        low, high = (capacity.volume_ml * percent / 100.0 for percent in _USUAL_SPREAD_PERCENT)
        usual = {"usual_low_ml": low, "usual_high_ml": high}
        if capacity.n_weighings == 1:
            return Finding(Rank.WATCH, "vessel.one-weighing", usual)
        data = {"weighings": capacity.n_weighings, **usual}
        return Finding(Rank.WATCH, "vessel.one-vessel", data)
    if capacity.n_vessels < _FEW_VESSELS:
        return Finding(Rank.NOTE, "vessel.two-vessels", {"next_ml": capacity.next_vessel_ml})
    return None
