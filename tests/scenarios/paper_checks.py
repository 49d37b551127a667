"""What must stand on the papers of the first day, measured in the PDF."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

import pdfplumber
import pytest

from scenarios.hands import plain

if TYPE_CHECKING:
    from pathlib import Path

    from pdfplumber.page import Page

    from wickbench.gui.plan.plan_page import PlanPage

MM = 25.4 / 72
NEAR_MM = 0.05
# ASTM F2058: the signal word and the three statements that every candle sold in the US bears.
STATEMENTS = ("warning", "within sight", "catch fire", "children")


def check_weigh_sheets(plan: PlanPage, path: Path) -> None:
    """Every figure on the page stands on the paper."""
    figures = [
        plain(one.text())
        for card in plan.cards
        if not card.isHidden()
        for one in card.figures()
        if one.text()
    ]
    assert len(figures) >= 4
    with pdfplumber.open(path) as pdf:
        words = plain(" ".join(page.extract_text() for page in pdf.pages))
    for figure in figures:
        assert figure in words
    assert "18" in words
    assert "12" in words


def on_sticker(index: int) -> tuple[float, float]:
    """Left and top edge in mm of a sticker of the 3 × 7 sheet, by its typed measures."""
    return 9 + 65 * (index % 3), 12.5 + 39.5 * (index // 3)


def check_labels(path: Path, lot: str) -> None:
    """Four stickers are empty, ten have the label, each in the same place within 0.05 mm."""
    with pdfplumber.open(path) as pdf:
        (page,) = pdf.pages
        assert (page.width * MM, page.height * MM) == pytest.approx((210, 297), abs=NEAR_MM)
        chars = [(one["text"], one["x0"] * MM, one["top"] * MM) for one in page.chars]
        drawn = [*page.lines, *page.rects, *page.curves]
        rules = sorted(
            ((one["top"] + one["bottom"]) / 2 * MM, (one["x0"] + one["x1"]) / 2 * MM)
            for one in drawn
        )
    stickers: dict[int, list[tuple[str, float, float]]] = {}
    for index in range(21):
        left, top = on_sticker(index)
        stickers[index] = [
            (text, x - left, y - top)
            for text, x, y in chars
            if left <= x <= left + 62 and top <= y <= top + 36
        ]
    assert sum(len(found) for found in stickers.values()) == len(chars), "nothing in the gaps"
    assert [index for index, found in stickers.items() if found] == list(range(4, 14))
    for index in range(5, 14):
        for one, first in zip(stickers[index], stickers[4], strict=True):
            assert one[0] == first[0]
            assert one[1:] == pytest.approx(first[1:], abs=NEAR_MM)
    # The rule of this design stands in the middle of its sticker.
    wanted = sorted((on_sticker(index)[1], on_sticker(index)[0] + 31) for index in range(4, 14))
    assert [x for _, x in rules] == pytest.approx([x for _, x in wanted], abs=NEAR_MM)
    words = "".join(text for text, _, _ in stickers[4])
    assert "FIG&CEDAR" in words.replace(" ", "").upper()
    assert "Scentedsoycandle" in words.replace(" ", "")
    assert "Lot" + lot in words.replace(" ", "")


def cut_out(page: Page, left: float, top: float) -> Page:
    """The square around one of the circles."""
    found: Page = page.crop((left / MM, top / MM, (left + 42) / MM, (top + 42) / MM))
    return found


def check_cautions(path: Path) -> None:
    """Each of the 24 circles has the three statements of the standard."""
    with pdfplumber.open(path) as pdf:
        (page,) = pdf.pages
        assert (page.width * MM, page.height * MM) == pytest.approx((215.9, 279.4), abs=NEAR_MM)
        for index in range(24):
            left, top = 12 + 50 * (index % 4), 9 + 44 * (index // 4)
            said = cut_out(page, left, top).extract_text(x_tolerance=1)
            words = re.sub(r"\s+", " ", said).lower()
            for statement in STATEMENTS:
                assert statement in words
        corners = [(x, y) for x in (12, 62, 112, 162) for y in (9, 53, 97, 141, 185, 229)]
        inside = [char for x, y in corners for char in cut_out(page, x, y).chars]
        assert len(inside) == len(page.chars)
