"""Random runs on random sheets: no sticker gets another one's ink, none is used twice."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickbench.documents.affine import Affine, shift, turn
from wickbench.documents.outlines import rectangle
from wickbench.documents.sheet_layout import (
    RunEntry,
    SheetPages,
    StickerContent,
    draw_sheets,
    lay_out_sheets,
)
from wickbench.documents.surface import RecordingSurface
from wickbench.domain.findings import Rank
from wickbench.domain.run_order import SORTINGS, RunItem, run_order
from wickbench.domain.sheets import SHAPES, StickerSheet, check_sheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.documents.surface import Surface

    Box = tuple[float, float, float, float]

HAIR_MM = 1e-6


@dataclass
class Cuts(RecordingSurface):
    """Keeps for every form that is placed the page and the box that it is cut to."""

    sizes: dict[str, tuple[float, float, float]] = field(default_factory=dict)
    boxes: list[tuple[int, Box]] = field(default_factory=list)

    def form(
        self,
        key: str,
        width_mm: float,
        height_mm: float,
        draw: Callable[[Surface], None],
        *,
        margin_mm: float = 0.0,
    ) -> None:
        self.sizes.setdefault(key, (width_mm, height_mm, margin_mm))
        super().form(key, width_mm, height_mm, draw, margin_mm=margin_mm)

    def place(self, key: str, x_mm: float, y_mm: float, *, turn_deg: float = 0.0) -> None:
        width, height, margin = self.sizes[key]
        put = shift(x_mm, y_mm).after(turn(turn_deg))
        corners = [
            put.apply(x, y) for x in (-margin, width + margin) for y in (-margin, height + margin)
        ]
        xs, ys = zip(*corners, strict=True)
        self.boxes.append((len(self.pages), (min(xs), min(ys), max(xs), max(ys))))


def _content(name: int, width: float, height: float, bleed: float) -> StickerContent:
    def draw(surface: Surface) -> None:
        surface.path(
            rectangle(-bleed, -bleed, width + 2 * bleed, height + 2 * bleed), fill="#000000"
        )

    return StickerContent(f"content-{name}", width, height, draw, bleed_mm=bleed)


def _length(least: float, most: float) -> st.SearchStrategy[float]:
    return st.one_of(st.integers(int(least), int(most)).map(float), st.floats(least, most))


@st.composite
def runs(draw: st.DrawFn) -> tuple[SheetPages, list[frozenset[int]]]:
    """A run on a sheet: often one that can be, sometimes one that cannot."""
    page = draw(st.sampled_from(((210.0, 297.0), (215.9, 279.4), (105.0, 148.0))))
    columns, rows = draw(st.integers(1, 6)), draw(st.integers(1, 8))
    gaps = [draw(st.one_of(st.just(0.0), _length(0, 4))) for _ in range(2)]
    margins = draw(_length(0, 12)), draw(_length(0, 12))
    pitch = [
        (side - 2 * margin + gap) / count
        for side, margin, gap, count in zip(page, margins, gaps, (columns, rows), strict=True)
    ]
    size = [
        one - gap + draw(st.sampled_from((0.0,) * 7 + (0.3,)))
        for one, gap in zip(pitch, gaps, strict=True)
    ]
    sheet = StickerSheet(
        *page, *margins, columns, rows, *pitch, *size, draw(st.sampled_from(SHAPES[:2]))
    )
    entries = []
    for number in range(draw(st.integers(1, 4))):
        wide, high = (side + draw(st.sampled_from((0.0, 0.4, 0.4, -3.0, 0.6))) for side in size)
        if draw(st.booleans()):
            wide, high = high, wide
        content = _content(
            number, max(1.0, wide), max(1.0, high), draw(st.sampled_from((0.0, 1.0, 6.0)))
        )
        entries.append(RunEntry(content, draw(st.integers(0, 40))))
    used = draw(st.lists(st.frozensets(st.integers(0, 47)), max_size=3))
    items = [RunItem(entry.count, at % 2, f"lot {at % 3}") for at, entry in enumerate(entries)]
    order = run_order(items, draw(st.sampled_from(SORTINGS)))
    apart = draw(st.sampled_from((0, columns, columns * rows)))
    return lay_out_sheets(sheet, entries, used, order=order, apart=apart), used


@settings(max_examples=120)
@given(runs())
def test_no_ink_comes_onto_another_sticker_without_being_stopped(
    run: tuple[SheetPages, list[frozenset[int]]],
) -> None:
    pages, used = run
    spots = [(one.sheet_no, one.index) for one in pages.placements]
    assert len(set(spots)) == len(spots) == sum(entry.count for entry in pages.entries)
    assert not any(no < len(used) and index in used[no] for no, index in spots)
    if not pages.placements or any(one.rank is Rank.STOPS for one in pages.findings):
        return
    surface = Cuts()
    draw_sheets(surface, pages)
    assert len(surface.boxes) == len(spots)
    for (page, box), (sheet_no, index) in zip(surface.boxes, sorted(spots), strict=True):
        assert pages.sheet_numbers[page - 1] == sheet_no
        for other in range(pages.sheet.count):
            if other != index:
                assert not _share(box, pages.sheet, other), (index, other)


def _share(box: Box, sheet: StickerSheet, index: int) -> bool:
    """Whether ink comes onto a sticker."""
    left, top, right, bottom = box
    place = sheet.sticker(index)
    across = min(right, place.right_mm) - max(left, place.x_mm)
    down = min(bottom, place.bottom_mm) - max(top, place.y_mm)
    return across > HAIR_MM and down > HAIR_MM


@settings(max_examples=100)
@given(grid=st.tuples(*[st.integers(1, 5)] * 2), sides=st.tuples(*[st.floats(0, 60)] * 4))
def test_stickers_of_a_sheet_that_passes_do_not_overlap(
    grid: tuple[int, int], sides: tuple[float, float, float, float]
) -> None:
    sheet = StickerSheet(210, 297, 5, 5, *grid, *sides)
    if any(one.rank is Rank.STOPS for one in check_sheet(sheet)):
        return
    places = [sheet.sticker(index) for index in range(sheet.count)]
    boxes = [(one.x_mm, one.y_mm, one.right_mm, one.bottom_mm) for one in places]
    for index, box in enumerate(boxes):
        assert 0 <= box[0] <= box[2] <= 210 + HAIR_MM
        assert 0 <= box[1] <= box[3] <= 297 + HAIR_MM
        assert not any(_share(box, sheet, other) for other in range(sheet.count) if other != index)


@pytest.mark.parametrize("over", [0.0, 0.4])
def test_a_label_a_little_too_large_is_cut_at_its_own_sticker(over: float) -> None:
    # Stickers that touch each other: nothing may run over.
    sheet = StickerSheet(210, 297, 5, 5, 4, 4, 50, 70, 50, 70)
    content = _content(0, 50 + over, 70 + over, 1.0)
    surface = Cuts()
    draw_sheets(surface, lay_out_sheets(sheet, [RunEntry(content, 16)]), correction=Affine())
    for index, (_, box) in enumerate(surface.boxes):
        place = sheet.sticker(index)
        wanted = (place.x_mm, place.y_mm, place.right_mm, place.bottom_mm)
        assert box == pytest.approx(wanted, abs=1e-6)
