"""Burn, wax left and facts on caution stickers; 4 h and 12 mm are common practice, no source."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.label_workshop import fill_workshop
from wickbench.app.caution_wish_fields import facts_line, usual_values, wish_values, with_value
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_store import (
    CautionWish,
    StoredLabel,
    caution_of,
    caution_values,
    stored_label,
)
from wickbench.app.labels import CAUTION, change_caution, new_label
from wickbench.app.shelf import load_shelf

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


@pytest.fixture
def sticker(workshop: Workspace) -> StoredLabel:
    fill_workshop(workshop)
    return stored_label(workshop, new_label(workshop, CAUTION))


def said(workshop: Workspace, label: StoredLabel, **values: str) -> str:
    shelf = load_shelf(workshop)
    candle = next(iter(shelf.candles.values()))
    assert label.caution is not None
    made = LabelMaker(workshop).caution(label.caution, label.design, shelf, candle, values=values)
    return " ".join(" ".join(text.text for text in made.laid.texts).split())


def changed(workshop: Workspace, label: StoredLabel, **fields: object) -> StoredLabel:
    wish = label.caution or CautionWish()
    for name, value in fields.items():
        wish = with_value(wish, name, value)
    change_caution(workshop, label.id, wish)
    return stored_label(workshop, label.id)


def test_longest_burn_and_wax_left_are_the_persons_own(
    workshop: Workspace, sticker: StoredLabel
) -> None:
    assert "4 hours" in said(workshop, sticker)
    label = changed(workshop, sticker, longest_burn_min=150.0, stop_mm=20.0)
    assert "2.5 hours" in said(workshop, label)
    assert "2 cm" in said(workshop, label)
    label = changed(workshop, label, longest_burn_min=None)
    assert "4 hours" in said(workshop, label)


def test_lot_and_net_weight_stand_below_the_statements(
    workshop: Workspace, sticker: StoredLabel
) -> None:
    label = changed(workshop, sticker, fact_net_weight=1, fact_lot=1)
    words = said(workshop, label, lot="Lot 26-330-A1", net_weight="220 g")
    assert words.endswith("Lot 26-330-A1 · 220 g")
    assert "Lot" not in said(workshop, changed(workshop, label, fact_lot=0), lot="Lot 1")


def test_a_fact_that_is_not_known_is_told_and_leaves_no_hole(
    workshop: Workspace, sticker: StoredLabel
) -> None:
    label = changed(workshop, sticker, fact_net_weight=1, fact_lot=1)
    shelf = load_shelf(workshop)
    assert label.caution is not None
    made = LabelMaker(workshop).caution(
        label.caution, label.design, shelf, None, values={"net_weight": "220 g"}
    )
    empty = [one.data["field"] for one in made.content.findings if one.key == "label.field-empty"]
    assert empty == ["{lot}"]
    assert "·" not in made.laid.texts[-1].text.splitlines()[-1]


def test_wishes_come_back_from_the_file_as_they_were() -> None:
    wish = CautionWish(longest_burn_h=3.0, stop_mm=15.0, facts=("lot", "business"))
    assert caution_of(caution_values(wish)) == wish
    assert wish_values(wish)["longest_burn_min"] == 180.0
    assert caution_of({"version": 1}) == CautionWish()  # as files of earlier versions have it


def test_facts_keep_their_order_whatever_was_ticked_first() -> None:
    wish = with_value(with_value(CautionWish(), "fact_business", 1), "fact_lot", 1)
    assert wish.facts == ("lot", "business")
    line, missing = facts_line(wish, {"lot": "Lot 7", "business": "Hearth & Fern"})
    assert (line.replace("\u00a0", " "), missing) == ("Lot 7 · Hearth & Fern", ())


def test_the_usual_is_said_for_empty_fields(workshop: Workspace) -> None:
    assert usual_values(workshop.texts) == {
        "longest_burn_min": "4 hours, usual",
        "stop_mm": "12 mm, usual",
    }
