"""Measuring a wax through the panel's own widgets."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app import shelf_edit
from wickbench.app.materials import stored_values
from wickbench.gui.materials.wax_measuring import WaxMeasuring

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.workspace import Workspace
    from wickbench.gui.materials.entry_form import EntryForm

pytestmark = pytest.mark.usefixtures("qapp")


@pytest.fixture
def panel(workspace: Workspace) -> Iterator[WaxMeasuring]:
    made = WaxMeasuring(workspace)
    made.resize(310, 600)
    made.show()
    yield made
    made.close()
    made.deleteLater()


def typed(form: EntryForm, **texts: str) -> None:
    for name, text in texts.items():
        line = form.fields[name].line  # type: ignore[attr-defined]
        line.setText(text)
        line.textEdited.emit(text)


def test_readings_are_typed_shown_kept_and_used(panel: WaxMeasuring, workspace: Workspace) -> None:
    wax = shelf_edit.new_item(workspace, "wax", {"name": "Soy"}, {"wax_class": "soy"})
    panel.show_item(wax)
    assert panel.rows.isHidden()
    panel.ways["hot"].click()
    assert panel.form is not None
    typed(panel.form, volume_ml="250", wax_c="80")
    assert panel.form.note.isHidden()
    typed(panel.form, mass_g="215.85")
    # 215.85 / 250 + 0.0066, worked by hand.
    assert panel.form.note.text().startswith("Liquid, at 70 °C: 0.870 ±")
    panel.form.accept.click()
    assert panel.form is None
    assert len(panel.model.rows) == 1
    panel.liquid.use.click()
    values = stored_values(workspace, wax)
    assert values["liquid_g_per_ml"] == pytest.approx(0.87)
    assert values["liquid_measured"]
    assert panel.liquid.use.isHidden()
    assert not panel.liquid.how.isHidden()
    panel.leave_out.click()
    assert panel.liquid.isHidden()
    assert panel.leave_out.text() == "Count again"


def test_nonsense_stays_with_its_sentence(panel: WaxMeasuring, workspace: Workspace) -> None:
    panel.show_item(shelf_edit.new_item(workspace, "wax", {"name": "Soy"}, {}))
    panel.ways["drop"].click()
    assert panel.form is not None
    panel.form.accept.click()
    assert panel.form.trouble.sentence.startswith("Enter Level while hot first.")
    typed(panel.form, hot_mm="60", set_mm="64", wax_c="70")
    assert "Wax sinks as it sets" in panel.form.note.text()
    panel.form.accept.click()
    assert panel.form.fields["set_mm"].text() == "64"
    assert panel.model.rows == []


def test_it_is_for_waxes_only(panel: WaxMeasuring, workspace: Workspace) -> None:
    panel.show_item(shelf_edit.new_item(workspace, "fragrance", {"name": "Fig"}, {}))
    assert panel.isHidden()
