"""Things copied from a label, as text: to be pasted onto another label or another day."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_store import ELEMENT_TYPES, element_of, element_values
from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import TextElement

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.labels import AnyElement, LabelDesign

_VERSION: Final = 1
_LONGEST: Final = 2000


def elements_to_text(elements: Sequence[AnyElement]) -> str:
    """Elements as text that ``elements_from_text`` reads back equal."""
    return json.dumps({"version": _VERSION, "elements": [element_values(one) for one in elements]})


def elements_from_text(
    text: str, *, plain: str = "", design: LabelDesign | None = None
) -> tuple[AnyElement, ...]:
    """Elements from what was copied; plain text becomes a text in the middle of the label.

    Args:
        text: as ``elements_to_text`` gives it; empty when something else was copied.
        plain: plain text that was copied elsewhere.
        design: the label, for the size of a new text.

    Raises:
        OutOfRange: ``label.clip`` when it is not a copy from a label.
    """
    if text:
        return _read(text)
    said = plain.strip()[:_LONGEST]
    if not said or design is None:
        return ()
    wide, high = design.width_mm, design.height_mm
    return (TextElement(x_mm=wide * 0.2, y_mm=high * 0.4, w_mm=wide * 0.6, h_mm=high * 0.2,
                        text=said),)  # fmt: skip


def _read(text: str) -> tuple[AnyElement, ...]:
    try:
        rows: list[dict[str, Any]] = json.loads(text)["elements"]
        known = [row for row in rows if row["kind"] in ELEMENT_TYPES]
        return tuple(element_of(row) for row in known)
    except (ValueError, KeyError, TypeError) as error:
        raise OutOfRange("label.clip") from error
