"""A text that rules want, put onto the label where there is room: maker, place, identity, lot."""

from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING, Final

from wickbench.app.net_lines import Ink, ink_beside, lies_on
from wickbench.app.net_way import Way
from wickbench.app.texts_marker import N_
from wickbench.documents.rooms import is_inside
from wickbench.domain.label_fields import fields_in
from wickbench.domain.labels import TextElement

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from wickbench.app.label_check import LabelCheck
    from wickbench.domain.labels import LabelDesign

WANTED: Final[Mapping[str, tuple[str, ...]]] = {
    "maker-missing": (
        "{business}\n{business address}",
        "{business}\n{business address}\n{email}",
        "{business}\n{business address}\n{web}",
    ),
    "place-missing": ("{business address}",),
    "reach-missing": ("{email}", "{web}"),
    "identity-missing": ("{identity}",),
    "lot-missing": ("{lot}",),
}
"""What is put on for a finding, by its key without ``required.``: one of these that has a value."""

_SIZES_PT: Final = (7.0, 5.0)
_WIDTHS: Final = (0.94, 0.5)
_MM_PER_POINT: Final = 25.4 / 72
_LINE: Final = 1.45  # height of a line with its leading, in type sizes
_MOST_LINES: Final = 3
_STEPS: Final = 24


def added_texts(check: LabelCheck, key: str) -> Iterator[Way]:
    """The text in falling sizes, each where it lies on nothing; nothing where there is no room."""
    design = check.laid.design
    texts = [one for one in WANTED[key] if _has_values(check, one)]
    taken = ink_beside(check.laid, -1, ())
    inner = max(0.0, design.width_mm - design.overlap_mm - 2 * design.safe_mm)
    for text, size_pt, share in product(texts, _SIZES_PT, _WIDTHS):
        for lines in range(text.count("\n") + 1, _MOST_LINES + 1):
            spot = _free_spot(design, taken, inner * share, lines * _LINE * size_pt * _MM_PER_POINT)
            if spot is not None:
                yield Way(
                    key="text",
                    words=N_("Add it to the label"),
                    parts=frozenset({"text"}),
                    at=None,
                    element=TextElement(
                        x_mm=spot.left, y_mm=spot.top, w_mm=spot.right - spot.left,
                        h_mm=spot.bottom - spot.top, text=text, size_pt=size_pt,
                        min_size_pt=size_pt,
                    ),
                )  # fmt: skip


def _free_spot(
    design: LabelDesign, taken: Sequence[tuple[Ink, bool]], wide: float, high: float
) -> Ink | None:
    """A box that lies on no ink, as near to the middle as can be; ``None`` without room.

    Looked for on a coarse grid: three places across, in steps down.
    """
    left, right = design.safe_mm, design.width_mm - design.overlap_mm - design.safe_mm - wide
    lowest = design.height_mm - design.safe_mm - high
    spots = [
        Ink(x, y, x + wide, y + high)
        for x in dict.fromkeys(((left + right) / 2, left, right))
        for y in _steps(design.safe_mm, lowest)
    ]
    middle = (design.height_mm - high) / 2
    free = (
        spot
        for spot in sorted(spots, key=lambda one: abs(one.top - middle))
        if _lies_inside(design, spot) and not lies_on(spot, taken)
    )
    return next(free, None)


def _steps(first: float, last: float) -> list[float]:
    if last < first:
        return []
    return [first + (last - first) * step / _STEPS for step in range(_STEPS + 1)]


def _lies_inside(design: LabelDesign, spot: Ink) -> bool:
    corners = product((spot.left, spot.right), (spot.top, spot.bottom))
    return all(is_inside(design, x, y, margin_mm=design.safe_mm) for x, y in corners)


def _has_values(check: LabelCheck, text: str) -> bool:
    return all(check.values.get(name, "") for name in fields_in(text))
