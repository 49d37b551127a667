"""Labels to start from, made to the measure of any sticker: our own designs, as tables of rows."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from wickbench.domain.errors import OutOfRange
from wickbench.domain.labels import FrameElement, LabelDesign, LineElement, TextElement

SANS: Final = "Source Sans Pro"
SERIF: Final = "Source Serif Pro"

_MM_PER_POINT: Final = 25.4 / 72
_SAFE_MM: Final = 2.0
_OVER_MM: Final = 2.0
_INK: Final = "#2b2622"
_AMBER: Final = "#a8540f"
_CREAM: Final = "#fbf8f3"
_NAME: Final = "{candle}"
_WHAT: Final = "{identity} · {lot}"
_WHO: Final = "{business}, {business address}"
_WEIGHT: Final = "{net weight}"
_LETTERS: Final = 0.62  # share of a row's height that its type size takes


@dataclass(frozen=True, slots=True)
class _Row:
    """A line of text: where it stands in the label's height, from 0 to 1, and how it is set."""

    text: str
    top: float
    bottom: float
    family: str = SANS
    style: str = "Regular"
    least_pt: float = 5.0
    spacing_em: float = 0.0
    colour: str = _INK
    upper: bool = False


@dataclass(frozen=True, slots=True)
class _Plan:
    """A starting design: rows, and what stands behind them."""

    rows: tuple[_Row, ...]
    align: str = "centre"
    rule_at: float | None = None
    frame_mm: float | None = None
    band: tuple[float, float] | None = None
    background: str = ""


_PLANS: Final[dict[str, _Plan]] = {
    "hush": _Plan(
        (
            _Row(_NAME, 0.06, 0.36, SERIF, upper=True, spacing_em=0.08, least_pt=6),
            _Row(_WHAT, 0.43, 0.54),
            _Row(_WHO, 0.54, 0.66),
            _Row(_WEIGHT, 0.68, 0.96, upper=True),
        ),
        rule_at=0.395,
    ),
    "sill": _Plan(
        (
            _Row(_WHAT, 0.13, 0.24, colour=_AMBER),
            _Row(_NAME, 0.24, 0.51, SERIF, "Semibold", least_pt=6),
            _Row(_WEIGHT, 0.51, 0.77, SANS, upper=True),
            _Row(_WHO, 0.77, 0.89),
        ),
        frame_mm=1.4,
        background=_CREAM,
    ),
    "ember": _Plan(
        (
            _Row(_NAME, 0.08, 0.38, SANS, "Bold", 8.0, colour="#ffffff"),
            _Row(_WHAT, 0.46, 0.57),
            _Row(_WHO, 0.57, 0.68),
            _Row(_WEIGHT, 0.69, 0.96, SANS, upper=True),
        ),
        band=(0.0, 0.42),
    ),
    "ledger": _Plan(
        (
            _Row(_WEIGHT, 0.04, 0.31, SANS, upper=True),
            _Row(_NAME, 0.38, 0.66, SANS, "Light", least_pt=6),
            _Row(_WHAT, 0.70, 0.82),
            _Row(_WHO, 0.82, 0.94),
        ),
        align="left",
        rule_at=0.345,
    ),
}

STARTING_DESIGNS: Final = tuple(_PLANS)
"""Names of the starting designs; the app gives them their words."""


def starting_design(
    name: str,
    width_mm: float,
    height_mm: float,
    *,
    shape: str = "rectangle",
    corner_mm: float = 0.0,
) -> LabelDesign:
    """A starting design made to the measure of a sticker.

    Args:
        name: one of `STARTING_DESIGNS`.
        width_mm: width of the sticker.
        height_mm: height of it.
        shape: rectangle, rounded, circle or oval.
        corner_mm: corner radius of a rounded one.

    Raises:
        OutOfRange: ``label.choice`` for another name; as `LabelDesign`.
    """
    plan = _PLANS.get(name)
    if plan is None:
        raise OutOfRange("label.choice", value=name)
    round_one = shape in {"circle", "oval"}
    align = "centre" if round_one else plan.align
    behind = _behind(plan, width_mm, height_mm, centred=align == "centre")
    texts = tuple(_text(row, width_mm, height_mm, align) for row in plan.rows)
    return LabelDesign(
        width_mm=width_mm,
        height_mm=height_mm,
        shape=shape,
        corner_mm=corner_mm,
        safe_mm=_SAFE_MM,
        bleed_mm=1.0 if plan.background or plan.band else 0.0,
        background=plan.background,
        elements=(*behind, *texts),
    )


def _text(row: _Row, width_mm: float, height_mm: float, align: str) -> TextElement:
    inside = max(0.0, height_mm - 2 * _SAFE_MM)
    high = (row.bottom - row.top) * inside
    side = _SAFE_MM + 0.02 * width_mm
    size_pt = max(row.least_pt, round(high * _LETTERS / _MM_PER_POINT * 2) / 2)
    return TextElement(
        x_mm=side,
        y_mm=_SAFE_MM + row.top * inside,
        w_mm=max(0.0, width_mm - 2 * side),
        h_mm=high,
        text=row.text,
        family=row.family,
        style=row.style,
        size_pt=size_pt,
        min_size_pt=row.least_pt,
        align=align,
        colour=row.colour,
        letter_spacing_em=row.spacing_em,
        upper=row.upper,
        leading=1.15,
    )


def _behind(
    plan: _Plan, width_mm: float, height_mm: float, *, centred: bool
) -> tuple[FrameElement | LineElement, ...]:
    found: list[FrameElement | LineElement] = []
    inside = max(0.0, height_mm - 2 * _SAFE_MM)
    if plan.band:
        # Over the edges, so that a sheet fed a millimetre off shows no white line.
        bottom = _SAFE_MM + plan.band[1] * inside
        found.append(
            FrameElement(
                x_mm=-_OVER_MM,
                y_mm=-_OVER_MM,
                w_mm=width_mm + 2 * _OVER_MM,
                h_mm=bottom + _OVER_MM,
                line_mm=0.0,
                fill=_AMBER,
            )
        )
    if plan.frame_mm is not None:
        found.append(
            FrameElement(
                x_mm=0.0,
                y_mm=0.0,
                w_mm=width_mm,
                h_mm=height_mm,
                figure="sticker",
                inset_mm=plan.frame_mm,
                line_mm=0.35,
                colour=_AMBER,
            )
        )
    if plan.rule_at is not None:
        long = 0.3 * width_mm if centred else max(0.0, 0.96 * width_mm - 2 * _SAFE_MM)
        left, y_mm = (width_mm - long) / 2, _SAFE_MM + plan.rule_at * inside
        found.append(
            LineElement(x_mm=left, y_mm=y_mm, w_mm=long, h_mm=0.0, line_mm=0.3, colour=_AMBER)
        )
    return tuple(found)
