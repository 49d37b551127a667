"""The one check that a number lies where the trade or physics can have it."""

from __future__ import annotations

import math

from wickbench.domain.errors import OutOfRange


def within(
    value: float, lowest: float, highest: float, key: str, *, unit: str = "", **data: object
) -> float:
    """Give ``value`` back when it is a finite number from ``lowest`` to ``highest``.

    Args:
        value: what is checked.
        lowest: smallest value allowed.
        highest: largest value allowed.
        key: key of the sentence when it is not.
        unit: ending of the data names, for example ``"mm"`` gives ``value_mm``, ``lowest_mm``
            and ``highest_mm``; empty gives ``value``, ``lowest`` and ``highest``.
        data: further values for the sentence.

    Raises:
        OutOfRange: when the value is outside, or is no finite number.
    """
    if math.isfinite(value) and lowest <= value <= highest:
        return value
    ending = f"_{unit}" if unit else ""
    # A sentence shows "nan" as it stands; no unit could be made of it.
    shown: object = value if math.isfinite(value) else str(value)
    limits = {f"value{ending}": shown, f"lowest{ending}": lowest, f"highest{ending}": highest}
    raise OutOfRange(key, **limits, **data)
