"""How long to cut a wick so that it stands its own trim length above the set wax."""

from __future__ import annotations

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

Range = tuple[float, float]

_HIGHEST_MM = 2000.0
_LONGEST_TRIM_MM = 50.0
_SHORTEST_MM = 1.0


def cut_length_mm(set_level_mm: float, trim_mm: float, *, stands_at_mm: float = 0.0) -> float:
    """Length of wick in mm from its foot to its tip, as it stands in the finished candle.

    Common practice, no source: the wick as sold stands at its trim length. Nothing is added for
    the pull through a tablet or for winding round a bar: that is cut off when the wax has set.

    Args:
        set_level_mm: height of the set wax above the inside of the vessel's base.
        trim_mm: how far the wick stands above the wax.
        stands_at_mm: height of the place that the foot is fixed at, above the same base: the top
            of a push-up, or 0 for a flat one.

    Raises:
        OutOfRange: a level, trim or foot that no candle has, or a foot at or above the wax.
    """
    level = within(set_level_mm, 0.0, _HIGHEST_MM, "wick-cut.level", unit="mm")
    trim = within(trim_mm, 0.0, _LONGEST_TRIM_MM, "wick-cut.trim", unit="mm")
    foot = within(stands_at_mm, 0.0, _HIGHEST_MM, "wick-cut.foot", unit="mm")
    if foot + _SHORTEST_MM > level:
        raise OutOfRange("wick-cut.foot-above-wax", foot_mm=foot, level_mm=level)
    return level - foot + trim


def cut_range_mm(
    set_levels_mm: Range, trim_mm: float, *, stands_at_mm: float = 0.0
) -> tuple[float, float]:
    """Shortest and longest cut in mm while the set level is only known as a range.

    Cut to the longer one: what stands too high is trimmed, what is too short is lost.

    Args:
        set_levels_mm: lowest and highest level of the set wax.
        trim_mm: as in ``cut_length_mm``.
        stands_at_mm: as in ``cut_length_mm``.

    Raises:
        OutOfRange: as ``cut_length_mm``, and for a range upside down.
    """
    low, high = set_levels_mm
    longest = cut_length_mm(high, trim_mm, stands_at_mm=stands_at_mm)
    within(low, 0.0, high, "wick-cut.level", unit="mm")
    return cut_length_mm(low, trim_mm, stands_at_mm=stands_at_mm), longest
