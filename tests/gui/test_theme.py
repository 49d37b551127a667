"""Contrast after WCAG 2.2, success criterion 1.4.3: text at least 4.5:1 on its ground.

Source of the formula: https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio and #dfn-relative-luminance.
"""

from __future__ import annotations

import re

import pytest

from wickbench.app.resources import resource_path
from wickbench.gui.theme import DARK, LIGHT, Colours

ENOUGH = 4.5
GROUNDS = ("paper", "bar", "sheet", "stripe", "chosen", "hover")
INKS = ("ink", "quiet", "accent", "fine", "watch", "stops")


def luminance(colour: str) -> float:
    parts = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    )
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_formula_gives_the_published_extremes() -> None:
    assert contrast("#000000", "#FFFFFF") == pytest.approx(21.0)
    assert contrast("#777777", "#FFFFFF") == pytest.approx(4.48, abs=0.005)  # WebAIM's example


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("ink", INKS)
@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_ink_is_legible_on_every_ground(colours: Colours, ink: str, ground: str) -> None:
    assert contrast(getattr(colours, ink), getattr(colours, ground)) >= ENOUGH


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_the_primary_button_is_legible(colours: Colours) -> None:
    assert contrast(colours.on_accent, colours.accent) >= ENOUGH
    assert contrast(colours.on_accent, colours.accent_hover) >= ENOUGH


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_no_state_has_the_colour_of_a_button(colours: Colours) -> None:
    states = {colours.fine, colours.watch, colours.stops}
    assert len(states | {colours.accent, colours.accent_hover, colours.sheet}) == 6


def test_icons_follow_the_theme_and_one_stroke() -> None:
    files = sorted(resource_path("icons").glob("*.svg"))
    assert len(files) > 30
    for file in files:
        text = file.read_text(encoding="utf-8")
        if file.stem == "arrow-down":
            continue
        assert 'stroke="currentColor"' in text, file.stem
        assert 'stroke-width="1.75"' in text, file.stem
        assert 'viewBox="0 0 24 24"' in text, file.stem
        assert not re.search(r'(fill|stroke)="#', text), file.stem
