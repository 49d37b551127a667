"""A starting design on another sticker: drawn anew to its measure, not stretched."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import DomainError
from wickbench.domain.labels import TextElement
from wickbench.domain.starting_labels import STARTING, starting_design

if TYPE_CHECKING:
    from wickbench.domain.labels import AnyElement, LabelDesign
    from wickbench.domain.sheets import StickerSheet

_SAME: Final = 0.002
"""Places are kept in thousandths of a millimetre."""
_OWN: Final = frozenset({"text", "file_hash", "group"})
"""What may differ: words typed over are taken along."""


def drawn_anew(design: LabelDesign, sheet: StickerSheet) -> LabelDesign | None:
    """The design made to the measure of a sheet's sticker, with the words that stand on it now.

    Args:
        design: a label; ``None`` comes back when things on it were moved or changed since it was
            begun, or when the other size asks for other things.
        sheet: whose sticker it goes on.
    """
    for name, starting in STARTING.items():
        if starting.kind != design.kind:
            continue
        try:
            begun = starting_design(
                name, design.width_mm, design.height_mm, shape=design.shape,
                corner_mm=design.corner_mm, overlap_mm=design.overlap_mm,
            )  # fmt: skip
            if _same(begun.elements, design.elements) and begun.background == design.background:
                return _with_words(
                    starting_design(
                        name, sheet.sticker_w_mm, sheet.sticker_h_mm, shape=sheet.shape,
                        corner_mm=sheet.corner_mm,
                    ),
                    begun,
                    design,
                )  # fmt: skip
        except DomainError:
            continue
    return None


def _same(begun: tuple[AnyElement, ...], now: tuple[AnyElement, ...]) -> bool:
    return len(begun) == len(now) and all(
        _alike(one, other) for one, other in zip(begun, now, strict=True)
    )


def _alike(one: AnyElement, other: AnyElement) -> bool:
    if type(one) is not type(other):
        return False
    for field in fields(one):
        if field.name in _OWN:
            continue
        here, there = getattr(one, field.name), getattr(other, field.name)
        if isinstance(here, float):
            if abs(here - there) > _SAME:
                return False
        elif here != there:
            return False
    return True


def _with_words(fresh: LabelDesign, begun: LabelDesign, now: LabelDesign) -> LabelDesign | None:
    """The fresh design with the words that were typed over; each goes where its field stands."""
    typed = {
        old.text: new.text
        for old, new in zip(begun.elements, now.elements, strict=True)
        if isinstance(old, TextElement) and isinstance(new, TextElement) and old.text != new.text
    }
    held = {one.text for one in fresh.elements if isinstance(one, TextElement)}
    if not held.issuperset(typed):
        return None
    elements = tuple(
        replace(one, text=typed.get(one.text, one.text)) if isinstance(one, TextElement) else one
        for one in fresh.elements
    )
    return replace(fresh, elements=elements, safe_mm=now.safe_mm, bleed_mm=now.bleed_mm)
