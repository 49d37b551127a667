"""Settings of the file: declared once, with defaults that work."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app import edit
from wickbench.app.settings import DEFAULTS, SETTING_FIELDS, Settings

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

BY_NAME = {spec.name: spec for spec in SETTING_FIELDS}


def test_each_setting_is_declared_once() -> None:
    assert len(BY_NAME) == len(SETTING_FIELDS)
    assert set(DEFAULTS) <= set(BY_NAME)


def test_each_default_can_be_typed_into_its_own_field(workshop: Workspace) -> None:
    for name, value in DEFAULTS.items():
        text = edit.shown(workshop, BY_NAME[name], value)
        assert edit.read_field(workshop, BY_NAME[name], text) == value, name


def test_unknown_and_unset_settings_are_empty() -> None:
    settings = Settings({})
    assert settings.text("business_name") == ""
    assert settings["no_such_setting"] is None
    assert settings.number("business_name") == 0.0


def test_regions_lead_to_imperial_measures_only_where_nothing_else_is_sold() -> None:
    both = Settings({"sold_in_us": 1, "sold_in_uk": 1})
    assert both.regions == ("US", "UK")
    assert not both.units.imperial
    assert Settings({"sold_in_us": 0, "sold_in_uk": 1}).units.imperial


def test_a_change_reaches_texts_at_once_and_stays(workshop: Workspace) -> None:
    assert workshop.texts.quantity(1000.0, "mass") == "1000 g · 2 lb 3.3 oz"
    edit.set_field(workshop, BY_NAME["mass_unit"], 0, "oz")
    edit.set_field(workshop, BY_NAME["mass_unit_2"], 0, "g")
    edit.set_field(workshop, BY_NAME["numbers"], 0, "de_DE")
    assert workshop.texts.quantity(1000.0, "mass") == "35,27 oz · 1000 g"


def test_no_second_unit_is_a_choice_that_stays(workshop: Workspace) -> None:
    edit.set_field(workshop, BY_NAME["temperature_unit_2"], 0, "")
    assert workshop.settings["temperature_unit_2"] == ""
    assert workshop.texts.quantity(80.0, "temperature") == "80 °C"


def test_an_emptied_field_brings_the_default_back(workshop: Workspace) -> None:
    edit.set_field(workshop, BY_NAME["room_c"], 0, "25")
    assert workshop.settings.number("room_c") == pytest.approx(25.0)
    edit.set_field(workshop, BY_NAME["room_c"], 0, "")
    assert workshop.settings.number("room_c") == DEFAULTS["room_c"]
