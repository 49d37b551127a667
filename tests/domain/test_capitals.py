"""Capitals on labels."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.domain.capitals import has_small_letters, in_capitals


@pytest.mark.parametrize(
    ("text", "capitals"),
    [
        # unit symbols keep their case: SI Brochure 5.2, NIST SP 811 6.1.2
        ("Net Wt 7.3 oz (207 g)", "NET WT 7.3 OZ (207 g)"),
        ("250 mL 8.45 fl oz", "250 mL 8.45 FL OZ"),
        ("1.5kg net", "1.5kg NET"),
        ("garden 7 grams", "GARDEN 7 GRAMS"),
        ("große", "GROSSE"),
    ],
)
def test_symbols_stay_and_words_rise(text: str, capitals: str) -> None:
    assert in_capitals(text) == capitals


def test_symbols_are_no_small_letters() -> None:
    assert not has_small_letters("NET WT 7.3 OZ (207 g)")
    assert has_small_letters("Net Wt 7.3 oz (207 g)")


@given(st.text(st.characters(categories=("L", "Nd", "P", "Zs")), max_size=40))
def test_capitals_stay_what_they_are_and_lose_no_letter(text: str) -> None:
    once = in_capitals(text)
    assert in_capitals(once) == once
    assert once.upper() == text.upper()
    assert not has_small_letters(once)
