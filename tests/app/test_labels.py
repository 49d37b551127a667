"""Labels in a real workshop file: begun, changed, doubled, frozen by a print, undone and redone."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

import pytest

from app.label_workshop import fill_workshop, sheet_in
from documents.samples import png
from wickbench.app import label_arranging, label_elements, labels, print_runs
from wickbench.app.label_caution import caution_rows, with_note, with_printed, with_words
from wickbench.app.label_making import LabelMaker, caution_choice
from wickbench.app.label_store import stored_label, stored_labels
from wickbench.app.label_values import LabelSubject, label_values, sample_values
from wickbench.app.labels import CAUTION, STARTING_NAMES
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.label_fields import FIELD_NAMES
from wickbench.domain.labels import PictureElement, TextElement
from wickbench.domain.starting_labels import STARTING_DESIGNS, starting_design
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickbench.app.label_caution import CautionRow
    from wickbench.app.label_store import CautionWish
    from wickbench.app.workspace import Workspace


def test_every_starting_design_has_its_words() -> None:
    assert set(STARTING_NAMES) == set(STARTING_DESIGNS)


@pytest.mark.parametrize("name", STARTING_DESIGNS)
def test_a_label_is_kept_as_it_was_designed(workshop: Workspace, name: str) -> None:
    sheet = sheet_in(workshop, fill_workshop(workshop).three_by_seven)
    stored = stored_label(workshop, labels.new_label(workshop, name, sheet))
    meant = starting_design(name, 62.0, 36.0, shape="rounded", corner_mm=2.0)
    assert stored.design.elements[0].x_mm == pytest.approx(meant.elements[0].x_mm, abs=0.0006)
    assert len(stored.design.elements) == len(meant.elements)
    for kept, wanted in zip(stored.design.elements, meant.elements, strict=True):
        assert type(kept) is type(wanted)
        assert kept.w_mm == pytest.approx(wanted.w_mm, abs=0.0006)
        assert getattr(kept, "text", "") == getattr(wanted, "text", "")
        assert getattr(kept, "colour", "") == getattr(wanted, "colour", "")
    assert (stored.design.background, stored.number, stored.frozen) == (meant.background, 1, False)


def test_each_act_is_one_step_and_undo_and_redo_give_each_state_back(
    workshop: Workspace, tmp_path: Path
) -> None:
    sheet = sheet_in(workshop, fill_workshop(workshop).three_by_seven)
    picture = tmp_path / "leaf.png"
    picture.write_bytes(png(300, 200))
    label = labels.new_label(workshop, "hush", sheet)
    states = [stored_labels(workshop)]
    acts = (
        lambda: labels.rename_label(workshop, label, "Jar front"),
        lambda: labels.change_design(workshop, label, {"safe_mm": 3.0}),
        lambda: label_elements.change_element(workshop, label, 1, {"text": "{candle} forever"}),
        lambda: label_elements.change_element(workshop, label, 1, {"x_mm": 4.5, "y_mm": 9.5}),
        lambda: label_elements.add_element(workshop, label, "picture"),
        lambda: label_elements.set_picture(workshop, label, 5, picture),
        lambda: label_elements.add_element(workshop, label, "frame"),
        lambda: label_elements.add_element(workshop, label, "line"),
        lambda: label_elements.add_element(workshop, label, "text"),
        lambda: label_arranging.order_elements(workshop, label, (5,), "back"),
        lambda: label_arranging.remove_elements(workshop, label, (3,)),
        lambda: labels.duplicate_label(workshop, label),
        lambda: labels.new_label(workshop, CAUTION, sheet),
        lambda: labels.remove_label(workshop, label),
    )
    for act in acts:
        act()
        states.append(stored_labels(workshop))
        assert states[-1] != states[-2]
    for state in reversed(states[:-1]):
        workshop.undo()
        assert stored_labels(workshop) == state
    for state in states[1:]:
        workshop.redo()
        assert stored_labels(workshop) == state


def test_a_printed_version_stays_and_the_next_change_begins_a_new_one(workshop: Workspace) -> None:
    label = labels.new_label(workshop, "sill")
    with workshop.step("Print") as connection:
        labels.freeze(connection, [stored_label(workshop, label)])
    printed = stored_label(workshop, label)
    label_elements.change_element(workshop, label, 2, {"text": "Another line"})
    now = stored_label(workshop, label)
    assert (printed.number, now.number, now.frozen) == (1, 2, False)
    assert now.design.elements[2].text == "Another line"  # type: ignore[union-attr]
    with workshop.read() as connection:
        old = records.fetch_all(connection, "label_element", {"version_id": printed.version_id})
    assert [row["properties"]["text"] for row in old if row["kind"] == "text"] == [  # type: ignore[index]
        one.text for one in printed.design.elements if isinstance(one, TextElement)
    ]
    workshop.undo()
    assert stored_label(workshop, label) == printed


def test_a_label_on_a_print_run_is_put_away_instead_of_removed(workshop: Workspace) -> None:
    label = labels.new_label(workshop, "ember")
    print_runs.add_line(workshop, None, {"label_id": label, "count": 1})
    labels.remove_label(workshop, label)
    assert not stored_labels(workshop)
    assert [one.id for one in stored_labels(workshop, archived=True)] == [label]


def test_fitting_to_another_sheet_keeps_everything_on_the_sticker(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    label = labels.new_label(workshop, "ledger", sheet_in(workshop, kept.three_by_seven))
    labels.fit_to_sheet(workshop, label, sheet_in(workshop, kept.circles))
    design = stored_label(workshop, label).design
    assert (design.width_mm, design.height_mm, design.shape) == (42.0, 42.0, "circle")
    for one in design.elements:
        assert one.x_mm >= 0
        assert one.y_mm + one.h_mm <= 42.001


@pytest.mark.parametrize(
    ("data", "key"),
    [
        (b"not a picture", "picture.damaged"),
        (png(400, 400, noise=True)[:2000], "picture.damaged"),
        (png(20, 20, kind="GIF"), "label.picture-kind"),
    ],
    ids=["text", "cut off", "another kind"],
)
def test_a_picture_that_cannot_be_printed_is_refused_with_a_sentence(
    workshop: Workspace, tmp_path: Path, data: bytes, key: str
) -> None:
    label = labels.new_label(workshop, "hush")
    at = label_elements.add_element(workshop, label, "picture")
    path = tmp_path / "bad.png"
    path.write_bytes(data)
    before = stored_labels(workshop)
    with pytest.raises(DomainError) as refused:
        label_elements.set_picture(workshop, label, at, path)
    assert refused.value.key == key
    assert "picture" in workshop.texts.say(refused.value).lower()
    assert stored_labels(workshop) == before


def test_a_picture_that_is_not_there_is_refused(workshop: Workspace, tmp_path: Path) -> None:
    label = labels.new_label(workshop, "hush")
    at = label_elements.add_element(workshop, label, "picture")
    with pytest.raises(DomainError, match="picture-unreadable"):
        label_elements.set_picture(workshop, label, at, tmp_path / "gone.png")


def test_a_picture_is_kept_in_the_workshop_and_found_again(
    workshop: Workspace, tmp_path: Path
) -> None:
    label = labels.new_label(workshop, "hush")
    at = label_elements.add_element(workshop, label, "picture")
    path = tmp_path / "leaf.jpg"
    path.write_bytes(png(640, 480, kind="JPEG"))
    label_elements.set_picture(workshop, label, at, path)
    element = stored_label(workshop, label).design.elements[at]
    assert isinstance(element, PictureElement)
    path.unlink()
    assert LabelMaker(workshop).picture(element.picture) is not None


def test_a_measure_that_cannot_be_changes_nothing(workshop: Workspace) -> None:
    label = labels.new_label(workshop, "hush")
    before = stored_labels(workshop)
    for changes in ({"w_mm": -1.0}, {"colour": "red"}, {"size_pt": 0.0}):
        with pytest.raises(OutOfRange):
            label_elements.change_element(workshop, label, 1, changes)
    with pytest.raises(OutOfRange):
        label_elements.change_element(workshop, label, 99, {"x_mm": 1.0})
    assert stored_labels(workshop) == before


def test_fields_are_filled_from_candle_recipe_lot_and_business(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    subject = LabelSubject(candle_id=kept.bramble, lot_code="26-332-A1", poured_on="2026-11-28")
    values = label_values(load_shelf(workshop), workshop.settings, workshop.texts, subject)
    assert values["candle"] == "Bramble & smoke"
    assert (values["recipe"], values["vessel"], values["wax"]) == ("Bramble", "Tumbler", "soy")
    # 221 g is 7.795 oz (NIST SP 811, Appendix B: 1 oz = 28.349 523 125 g); never rounded up.
    assert values["net_weight"] == "Net Wt 7.79 oz (221 g)"
    assert values["lot"] == "Lot 26-332-A1"
    assert values["poured_on"] == "28 November 2026"
    assert values["business"] == "Tallow & Tide"
    assert values["business_address"] == "3 Quay Row, Saltby, 00000"
    fields = {name for name in values if ":" not in name} - {"net_weight_both"}
    assert fields <= set(FIELD_NAMES)


def test_net_weight_follows_the_region_and_who_is_responsible_is_said(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    workshop.set_setting("sold_in_us", 0)
    workshop.set_setting("sold_in_uk", 1)
    workshop.set_setting("business_role", "distributor")
    subject = LabelSubject(candle_id=kept.cedar)
    values = label_values(load_shelf(workshop), workshop.settings, workshop.texts, subject)
    # SI 2006/659 reg. 8: metric, with the word "net" not abbreviated.
    assert values["net_weight"] == "Net weight 221 g"
    # 16 CFR 500.5(c): a name that is not the manufacturer's is qualified.
    assert values["business"] == "Distributed by Tallow & Tide"


def test_a_label_can_be_looked_at_before_there_is_a_candle(workshop: Workspace) -> None:
    values = sample_values(workshop.settings, workshop.texts)
    assert all(values.values())


def test_statements_can_be_reworded_left_out_and_added_but_not_those_required(
    workshop: Workspace,
) -> None:
    kept = fill_workshop(workshop)
    key = labels.new_label(workshop, CAUTION)
    shelf = load_shelf(workshop)
    candle = shelf.candles[kept.bramble]

    def rows() -> dict[str, CautionRow]:
        wish = stored_label(workshop, key).caution
        assert wish is not None
        choice = caution_choice(wish, shelf, candle, workshop.settings.regions)
        return {row.key: row for row in caution_rows(choice)}

    def change(make: Callable[[CautionWish, CautionRow], CautionWish], name: str) -> None:
        wish = stored_label(workshop, key).caution
        assert wish is not None
        labels.change_caution(workshop, key, make(wish, rows()[name]))

    assert rows()["caution.unattended"].mandatory
    change(partial(with_printed, printed=False), "caution.unattended")
    assert rows()["caution.unattended"].printed
    change(partial(with_printed, printed=False), "caution.surface")
    assert not rows()["caution.surface"].printed
    change(partial(with_printed, printed=True), "caution.draught")
    assert rows()["caution.draught"].printed
    change(partial(with_words, text="Keep it away from small hands."), "caution.children")
    change(partial(with_note, note="says the same, kinder"), "caution.children")
    own = rows()["caution.children"]
    assert (own.text, own.own, own.note) == (
        "Keep it away from small hands.", True, "says the same, kinder",
    )  # fmt: skip
    change(partial(with_words, text=""), "caution.children")
    assert not rows()["caution.children"].own


def test_a_caution_sticker_is_laid_out_for_the_candle_it_is_for(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    sheet = sheet_in(workshop, kept.circles)
    stored = stored_label(workshop, labels.new_label(workshop, CAUTION, sheet))
    shelf = load_shelf(workshop)
    assert stored.caution is not None
    maker = LabelMaker(workshop)
    made = maker.caution(stored.caution, stored.design, shelf, shelf.candles[kept.bramble])
    again = maker.caution(stored.caution, stored.design, shelf, shelf.candles[kept.cedar])
    assert made is again  # the same facts are laid out once
    assert made.caution is not None
    assert made.caution.source.source
    assert (made.laid.design.width_mm, made.laid.design.shape) == (42.0, "circle")
