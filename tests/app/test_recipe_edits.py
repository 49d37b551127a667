"""Changing a recipe: states, parts, versions, and the list that finds it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.test_recipes_app import ADDITIVE_TABLE, DYE_TABLE, TEXTS, WAX_TABLE, keys, plain, workspace
from wickbench.app import edit, recipe_edit, recipe_parts, recipe_view, shelf_edit
from wickbench.app.recipe_fields import VERSION_FIELDS
from wickbench.app.recipe_view import Wanted, view_recipe
from wickbench.app.shelf import load_shelf
from wickbench.domain.errors import CannotRead, DomainError
from wickbench.domain.recipes import Load
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


__all__ = ["workspace"]


def begun(workspace: Workspace) -> tuple[int, int]:
    """A recipe and its first version."""
    recipe = shelf_edit.new_recipe(workspace, "Bramble")
    return recipe, next(iter(load_shelf(workspace).versions))


def soy(workspace: Workspace) -> int:
    return shelf_edit.new_item(workspace, "wax", {"name": "Meadow soy"}, {"wax_class": "soy"})


def test_states_are_acts_by_name(workspace: Workspace) -> None:
    _, key = begun(workspace)
    for word in ("testing", "for_sale", "retired"):
        recipe_edit.set_state(workspace, key, word)
    assert load_shelf(workspace).versions[key].state == "retired"
    assert workspace.undo_label == "Change the state of a recipe"
    workspace.undo()
    assert load_shelf(workspace).versions[key].state == "for_sale"
    with pytest.raises(DomainError):
        recipe_edit.set_state(workspace, key, "sold out")


def test_the_first_wax_is_a_hundred_parts_and_a_dye_what_is_usual(workspace: Workspace) -> None:
    _, key = begun(workspace)
    wax = soy(workspace)
    dye = shelf_edit.new_item(workspace, "dye", {"name": "Plum"}, {"usual_percent": 0.1})
    known = load_shelf(workspace)
    recipe_parts.add_line(workspace, WAX_TABLE, key, known, {"item_id": str(wax)})
    recipe_parts.add_line(workspace, DYE_TABLE, key, known, {"item_id": str(dye)})
    parts = load_shelf(workspace).versions[key].parts
    assert [(part.role, part.parts, part.of_wax_percent) for part in parts] == [
        ("wax", 100.0, None), ("dye", None, 0.1),
    ]  # fmt: skip
    workspace.undo()
    assert len(load_shelf(workspace).versions[key].parts) == 1


def test_a_frozen_version_stays_as_it_is_and_the_next_one_is_a_copy(workspace: Workspace) -> None:
    recipe, key = begun(workspace)
    wax = soy(workspace)
    known = load_shelf(workspace)
    line = recipe_parts.add_line(workspace, WAX_TABLE, key, known, {"item_id": str(wax)})
    with workspace.step("freeze") as connection:
        records.update(connection, "recipe_version", key, {"frozen": 1})
    for change in (
        lambda: recipe_parts.add_line(workspace, WAX_TABLE, key, known, {"parts": "3"}),
        lambda: recipe_parts.write_line(workspace, WAX_TABLE, line, "parts", "3"),
        lambda: recipe_parts.remove_lines(workspace, WAX_TABLE, [line]),
    ):
        with pytest.raises(DomainError) as raised:
            change()
        assert raised.value.key == "recipe-dock.frozen"
    recipe_edit.set_state(workspace, key, "for_sale")
    fresh = shelf_edit.new_version(workspace, key)
    versions = recipe_view.versions_of(load_shelf(workspace), recipe)
    assert [(one.id, one.number, one.frozen) for one in versions] == [
        (fresh, 2, False), (key, 1, True),
    ]  # fmt: skip
    assert [part.parts for part in versions[0].parts] == [100.0]


@pytest.mark.parametrize("typed", ["a lot", "2 lb 4", "-3", "1e3", "5 g"])
def test_nonsense_in_a_cell_gets_its_sentence_and_is_kept(workspace: Workspace, typed: str) -> None:
    _, key = begun(workspace)
    wax = soy(workspace)
    line = recipe_parts.add_line(
        workspace, WAX_TABLE, key, load_shelf(workspace), {"item_id": str(wax)}
    )
    with pytest.raises(CannotRead):
        recipe_parts.write_line(workspace, WAX_TABLE, line, "parts", typed)
    known = load_shelf(workspace)
    shown = recipe_parts.recipe_lines(workspace, WAX_TABLE, known.versions[key], known)[0]
    assert shown.drafts["parts"][0] == typed
    assert shown.drafts["parts"][1]
    assert shown.amount == 100.0
    recipe_parts.write_line(workspace, WAX_TABLE, line, "parts", "3")
    known = load_shelf(workspace)
    shown = recipe_parts.recipe_lines(workspace, WAX_TABLE, known.versions[key], known)[0]
    assert (shown.amount, dict(shown.drafts)) == (3.0, {})


def test_a_name_that_is_not_on_the_shelf_is_refused_with_what_to_do(workspace: Workspace) -> None:
    _, key = begun(workspace)
    with pytest.raises(CannotRead) as raised:
        recipe_parts.add_line(
            workspace, WAX_TABLE, key, load_shelf(workspace), {"item_id": "Moon wax"}
        )
    assert "Moon wax" in TEXTS.say(raised.value)


def test_what_was_put_away_is_still_named_and_can_stay(workspace: Workspace) -> None:
    _, key = begun(workspace)
    wax = soy(workspace)
    known = load_shelf(workspace)
    recipe_parts.add_line(workspace, WAX_TABLE, key, known, {"item_id": str(wax)})
    assert not shelf_edit.remove_item(workspace, wax)
    known = load_shelf(workspace)
    lines = recipe_parts.recipe_lines(workspace, WAX_TABLE, known.versions[key], known)
    assert (str(wax), "Meadow soy") in recipe_parts.choices_for(WAX_TABLE, known, lines[0])
    assert recipe_parts.choices_for(WAX_TABLE, known, None) == []
    found = view_recipe(known.versions[key], known, Wanted())
    assert "recipe-dock.material-put-away" in keys(found)


def test_too_much_dye_or_additive_is_told(workspace: Workspace) -> None:
    _, key = begun(workspace)
    guard = shelf_edit.new_item(workspace, "additive", {"name": "UV guard"}, {"max_percent": 0.5})
    recipe_parts.add_line(
        workspace, ADDITIVE_TABLE, key, load_shelf(workspace),
        {"item_id": str(guard), "of_wax_percent": "0.8"},
    )  # fmt: skip
    known = load_shelf(workspace)
    view = view_recipe(known.versions[key], known, Wanted())
    said = [TEXTS.say(one) for one in view.findings if one.key == "recipe-dock.over-most"]
    assert [plain(one) for one in said] == [
        "UV guard is 0.8 % of the wax; its sheet says 0.5 % at most."
    ]


def test_the_list_is_searched_by_materials_states_and_scent(workspace: Workspace) -> None:
    recipe, key = begun(workspace)
    wax = soy(workspace)
    recipe_parts.add_line(workspace, WAX_TABLE, key, load_shelf(workspace), {"item_id": str(wax)})
    edit.set_field(workspace, VERSION_FIELDS[1], key, "8")
    with workspace.step("words") as connection:
        records.update(connection, "recipe", recipe, {"scent_words": "dark berries"})
    (row,) = recipe_view.recipe_rows(workspace, load_shelf(workspace))
    assert (row.number, row.state, row.load) == (1, "idea", Load(8, "wax"))
    for word in ("Meadow", "berries", "idea"):
        assert word in row.words
    assert shelf_edit.remove_recipe(workspace, recipe)
    assert recipe_view.recipe_rows(workspace, load_shelf(workspace)) == ()


def test_the_amount_asked_for_is_remembered_and_no_act(workspace: Workspace) -> None:
    assert recipe_edit.remembered_amount(workspace) == Wanted(mass_g=1000.0, of="mix")
    recipe_edit.remember_amount(workspace, Wanted(mass_g=453.59237, of="wax"))
    assert recipe_edit.remembered_amount(workspace) == Wanted(mass_g=453.59237, of="wax")
    assert not workspace.may_undo
