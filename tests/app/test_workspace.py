"""The open workshop: steps, undo and who is told."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app import edit, shelf_edit
from wickbench.app.kinds_of_change import changes_of
from wickbench.app.material_fields import fields_of
from wickbench.app.texts import PSEUDO, Texts
from wickbench.app.workspace import Services, Workspace, act
from wickbench.storage import records
from wickbench.storage.schema import METADATA
from wickbench.storage.workshop_file import FileRefused

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from wickbench.app.kinds_of_change import Changes

NAME = next(spec for spec in fields_of("wax") if spec.name == "name")


def test_everybody_is_told_what_changed_and_by_whom(workshop: Workspace) -> None:
    heard: list[Changes] = []
    stop = workshop.subscribe(heard.append)
    me = object()
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"}, origin=me)
    assert heard[-1].touch("materials")
    assert not heard[-1].touch("recipes")
    assert heard[-1].origin is me
    workshop.undo(origin=me)
    workshop.redo()
    assert len(heard) == 3
    assert heard[-1].origin is None
    stop()
    stop()
    shelf_edit.remove_item(workshop, key)
    assert len(heard) == 3


def test_one_that_was_closed_meanwhile_is_not_told(workshop: Workspace) -> None:
    heard: list[str] = []
    stops: list[Callable[[], None]] = []

    def first(_changes: Changes) -> None:
        heard.append("first")
        stops[1]()

    stops.append(workshop.subscribe(first))
    stops.append(workshop.subscribe(lambda _changes: heard.append("second")))
    shelf_edit.new_item(workshop, "wax")
    assert heard == ["first"]


def test_a_step_that_fails_leaves_nothing_and_tells_nobody(workshop: Workspace) -> None:
    heard: list[Changes] = []
    workshop.subscribe(heard.append)
    with pytest.raises(ValueError, match="no column"):
        _half_a_step(workshop)
    with workshop.read() as connection:
        assert records.fetch_all(connection, "item") == []
    assert heard == []
    assert not workshop.may_undo


def _half_a_step(workshop: Workspace) -> None:
    with workshop.step("Add") as connection:
        records.insert(connection, "item", {"name": "half"})
        records.insert(connection, "item", {"no_such": 1})


def test_a_step_that_changes_nothing_is_no_step(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"})
    edit.set_field(workshop, NAME, key, "Soft")
    assert workshop.undo_label == "Add to the shelf"


def test_undo_names_the_field(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax")
    edit.set_field(workshop, NAME, key, "Soft")
    assert workshop.undo_label == "Change “Name”"
    workshop.undo()
    assert workshop.redo_label == "Change “Name”"


def test_both_parts_of_an_act_are_translated(tmp_path: Path, services: Services) -> None:
    other = Services(services.clock, Texts(PSEUDO), services.ask)
    workshop = Workspace.create(tmp_path / "w.wickbench", other)
    with workshop.step(act("Change “{what}”", "Name")) as connection:
        records.insert(connection, "item", {"kind": "wax"})
    assert workshop.undo_label == "⟦Change “⟦Name⟧”⟧"
    workshop.close()


def test_all_is_there_after_closing_and_opening(tmp_path: Path, services: Services) -> None:
    path = tmp_path / "Candles.wickbench"
    first = Workspace.create(path, services)
    key = shelf_edit.new_item(first, "wax", {"name": "Soft"}, {"wax_class": "soy"})
    first.set_setting("currency", "EUR")
    first.close()
    again = Workspace.open(path, services)
    with again.read() as connection:
        assert records.fetch(connection, "wax", key)["wax_class"] == "soy"
    assert again.settings["currency"] == "EUR"
    assert again.texts.money(2.0) == "2.00 €"
    assert again.name == "Candles"
    assert not again.may_undo
    again.close()


def test_a_file_that_is_there_is_not_written_over(workshop: Workspace, services: Services) -> None:
    with pytest.raises(FileRefused) as refused:
        Workspace.create(workshop.path, services)
    assert refused.value.key == "file.exists"


def test_every_table_that_undo_knows_has_a_kind() -> None:
    unknown = [
        name
        for name, table in METADATA.tables.items()
        if table.info.get("journalled", True)
        and changes_of([name]).kinds == frozenset({name})
        and name not in _NAMED_BY_THEMSELVES
    ]
    assert unknown == []


_NAMED_BY_THEMSELVES = {"workshop", "counter", "blob", "print_record"}
