"""Labels made ready for stickers, each laid out once and kept while nothing of it changes."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache, partial
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.caution_sticker import (
    LONGEST_BURN_H,
    STOP_MM,
    CautionChoice,
    CautionSticker,
    base_of,
    facts_of,
    make_caution_sticker,
)
from wickbench.app.caution_wish_fields import facts_line
from wickbench.documents.caution_checks import Base
from wickbench.documents.label_layout import LaidOutLabel, lay_out_label
from wickbench.documents.numbered import NumberedLabel, is_numbered, numbered_label
from wickbench.documents.sheet_layout import StickerContent, label_content
from wickbench.documents.sticker_shape import StickerShape
from wickbench.documents.typefaces import TypefaceShelf
from wickbench.domain.catalog import Lid, Wick
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.storage import state
from wickbench.storage.refusals import Gone

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Mapping

    from wickbench.app.label_store import CautionWish, StoredLabel
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle
    from wickbench.domain.errors import DomainError
    from wickbench.domain.labels import LabelDesign
    from wickbench.domain.sheets import StickerSheet

_MOST_KEPT: Final = 400


@cache
def typeface_shelf() -> TypefaceShelf:
    """All typefaces that can be printed with; installed ones are read when first asked for."""
    return TypefaceShelf()


@dataclass(frozen=True, slots=True)
class MadeLabel:
    """A label ready to be placed on stickers.

    Attributes:
        content: for the sheet.
        laid: the layout.
        caution: with its source and lines, when it is a caution sticker.
        numbered: how its stickers differ, when they carry a running number.
    """

    content: StickerContent
    laid: LaidOutLabel
    caution: CautionSticker | None = None
    numbered: NumberedLabel | None = None


class LabelMaker:
    """Lays out labels and keeps what was laid out, by all that it depends on."""

    def __init__(self, workspace: Workspace) -> None:
        self._workspace = workspace
        self._kept: dict[Hashable, Any] = {}
        self._pictures: dict[str, bytes | None] = {}

    def label(
        self,
        design: LabelDesign,
        values: Mapping[str, str],
        *,
        around_mm: float | None = None,
        numbers: range | None = None,
    ) -> MadeLabel:
        """A jar, lid or tag label with its fields filled in.

        Args:
            design: the label.
            values: of its fields.
            around_mm: outer diameter of the vessel that it goes round; None: flat or unknown.
            numbers: running numbers, first to the one after the last; None: as ``values`` say.
        """
        run = numbers if numbers is not None and is_numbered(design) else None
        key = (design, tuple(sorted(values.items())), around_mm, run)
        if run is not None:
            return self._made(key, lambda: self._numbered(design, values, run, around_mm))
        return self._made(key, lambda: self._label(design, values, around_mm))

    def caution(
        self,
        wish: CautionWish,
        design: LabelDesign,
        shelf: Shelf,
        candle: Candle | None,
        *,
        values: Mapping[str, str] = MappingProxyType({}),
    ) -> MadeLabel:
        """A caution sticker for a candle, in the size and shape of a design.

        Args:
            wish: what it says beside the candle's own facts.
            design: its size and shape.
            shelf: the snapshot.
            candle: ``None`` while none is chosen.
            values: value of each field, for lot and net weight below the statements.
        """
        choice = caution_choice(wish, shelf, candle, self._workspace.settings.regions)
        below, unknown = facts_line(wish, values)
        choice = replace(choice, below=below)
        base = _base(shelf, candle)
        own = tuple(sorted((key, said.text) for key, said in wish.wanted.own.items()))
        wanted = (own, tuple(wish.wanted.left_out), tuple(wish.wanted.added))
        size = (design.width_mm, design.height_mm, design.shape, design.corner_mm, design.safe_mm)
        said = (choice.region, choice.languages, choice.facts, choice.pictures, wanted, below)
        key = (*said, size, base, unknown)
        return self._made(key, lambda: _caution(choice, size, base, unknown))

    def picture(self, key: str) -> bytes | None:
        """A picture kept in the workshop file; ``None`` when it is not there."""
        if key not in self._pictures:
            try:
                with self._workspace.read() as connection:
                    self._pictures[key] = state.blob(connection, key)
            except Gone:
                return None
        return self._pictures[key]

    def _label(
        self, design: LabelDesign, values: Mapping[str, str], around_mm: float | None
    ) -> MadeLabel:
        laid = self._laid(design, values, around_mm=around_mm)
        return MadeLabel(label_content(laid), laid)

    def _numbered(
        self,
        design: LabelDesign,
        values: Mapping[str, str],
        numbers: range,
        around_mm: float | None,
    ) -> MadeLabel:
        lay_out = partial(self._laid, around_mm=around_mm)
        made = numbered_label(design, values, numbers, lay_out)
        return MadeLabel(label_content(made.label), made.label, numbered=made)

    def _laid(
        self, design: LabelDesign, values: Mapping[str, str], *, around_mm: float | None
    ) -> LaidOutLabel:
        nearest = typeface_shelf().nearest
        return lay_out_label(design, values, nearest, self.picture, around_mm=around_mm)

    def _made(self, key: Hashable, make: Callable[[], MadeLabel]) -> MadeLabel:
        if key not in self._kept:
            if len(self._kept) >= _MOST_KEPT:
                self._kept.clear()
            self._kept[key] = make()
        made: MadeLabel = self._kept[key]
        return made


def caution_choice(
    wish: CautionWish, shelf: Shelf, candle: Candle | None, regions: tuple[str, ...]
) -> CautionChoice:
    """What a caution sticker says of a candle; of a container with a cotton wick without one."""
    vessel = shelf.vessels.get(candle.vessel_id) if candle and candle.vessel_id else None
    materials = [shelf.materials.get(key) for key in candle.wick_ids] if candle else []
    wicks = [one.details for one in materials if one and isinstance(one.details, Wick)]
    facts = facts_of(
        vessel,
        wicks if candle else [Wick()],
        longest_burn_h=wish.longest_burn_h or LONGEST_BURN_H,
        stop_mm=wish.stop_mm or STOP_MM,
    )
    region = wish.region or next(iter(regions), "US")
    return CautionChoice(region, wish.languages, facts, wish.wanted, wish.pictures)


def around_of(kind: str, candle: Candle | None, shelf: Shelf) -> float | None:
    """Outer diameter that a jar's label goes round; ``None`` for flat labels, or when unknown."""
    if kind != "jar" or candle is None or candle.vessel_id is None:
        return None
    vessel = shelf.vessels.get(candle.vessel_id)
    if vessel is None:
        return None
    known = [mm for mm in (vessel.outer_top_mm, vessel.outer_bottom_mm) if mm]
    return sum(known) / len(known) if known else None


def design_for(label: StoredLabel, sheet: StickerSheet | None) -> LabelDesign:
    """A label's design; a caution sticker takes the size and shape of the sheet's stickers."""
    if sheet is None or label.kind != "caution":
        return label.design
    return replace(
        label.design,
        width_mm=max(1.0, sheet.sticker_w_mm),
        height_mm=max(1.0, sheet.sticker_h_mm),
        shape=sheet.shape,
        corner_mm=sheet.corner_mm,
    )


def _base(shelf: Shelf, candle: Candle | None) -> Base | None:
    """The larger of the vessel's base and the lid: the sticker goes onto either."""
    if candle is None:
        return None
    vessel = shelf.vessels.get(candle.vessel_id) if candle.vessel_id else None
    found = [base for base in (base_of(vessel) if vessel else None,) if base]
    lid = shelf.materials.get(candle.lid_id) if candle.lid_id else None
    if lid is not None and isinstance(lid.details, Lid) and lid.details.diameter_mm:
        found.append(Base(lid.details.diameter_mm))
    return max(found, key=lambda base: base.width_mm, default=None)


def _caution(
    choice: CautionChoice,
    size: tuple[float, float, str, float, float],
    base: Base | None,
    unknown: tuple[str, ...],
) -> MadeLabel:
    width, height, shape, corner, safe = size
    sticker = StickerShape(shape, width, height, corner, safe)
    made = make_caution_sticker(choice, sticker, typeface_shelf().nearest, base=base)
    empty = [
        Finding(Rank.WATCH, "label.field-empty", {"field": f"{{{name.replace('_', ' ')}}}"})
        for name in unknown
    ]
    content = replace(
        label_content(made.laid.label), findings=sort_findings([*made.findings, *empty])
    )
    return MadeLabel(content, made.laid.label, made)


def trouble(error: DomainError) -> Finding:
    """A finding that says why a label cannot be made."""
    return Finding(Rank.STOPS, error.key, error.data)
