"""Fields of any form: typed, read, stored, shown again; nothing typed is lost."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wickbench.app import edit, shelf_edit
from wickbench.app.equipment_fields import EQUIPMENT_FIELDS
from wickbench.app.fields import FieldSpec
from wickbench.app.material_fields import KIND_NAMES, fields_of
from wickbench.app.texts import Texts
from wickbench.domain.errors import Ambiguous, CannotRead, DomainError, OutOfRange
from wickbench.storage import records, state
from wickbench.storage.presented import columns_of

if TYPE_CHECKING:
    from app.told_clock import ToldClock
    from wickbench.app.workspace import Workspace

ALL_FIELDS = [spec for kind in KIND_NAMES for spec in fields_of(kind)]
WAX = {spec.name: spec for spec in fields_of("wax")}
FRAGRANCE = {spec.name: spec for spec in fields_of("fragrance")}


def of_kind(kind: str, **more: object) -> FieldSpec:
    return FieldSpec(name="x", label="X", kind=kind, table="item", **more)  # type: ignore[arg-type]


READ = [
    ("text", "  Müller & Söhne ", "Müller & Söhne"),
    ("text", "   ", None),
    ("note", "two\nlines", "two\nlines"),
    ("mass", "2 lb 4 oz", 1020.58283),  # NIST SP 811: 1 lb = 453.59237 g
    ("mass", "250", 250.0),
    ("volume", "8 fl oz", 236.5882365),  # NIST SP 811: 1 fl oz = 29.5735295625 mL
    ("length", "2-5/8 in", 66.675),
    ("temperature", "180 F", 82.2222),
    ("load", "1 oz/lb", 6.25),
    ("percent", "6,25 %", 6.25),
    ("money", "12.5", 12.5),
    ("count", "48", 48),
    ("days", "14", 14),
    ("date", "28 Nov", "2026-11-28"),
    ("yes_no", "1", 1),
    ("reference", "7", 7),
]


@pytest.mark.parametrize(("kind", "typed", "expected"), READ)
def test_each_kind_reads_what_people_type(
    workshop: Workspace, kind: str, typed: str, expected: object
) -> None:
    found = edit.read_field(workshop, of_kind(kind), typed)
    assert found == (pytest.approx(expected, rel=1e-6) if isinstance(expected, float) else expected)


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("mass", "12 fl oz"), ("mass", "heavy"), ("volume", "4 oz"), ("length", "2 g"),
        ("temperature", "-400 C"), ("count", "2.5"), ("money", "1.234"), ("date", "soon"),
        ("percent", "5 g"), ("density", "5 g"), ("days", "two"), ("mass", "1e3"),
        ("number", "1 g"), ("text", "a\0b"), ("text", "x" * 301),
    ],
)  # fmt: skip
def test_nonsense_gets_a_sentence(workshop: Workspace, kind: str, typed: str) -> None:
    with pytest.raises(DomainError) as refused:
        edit.read_field(workshop, of_kind(kind), typed)
    assert workshop.texts.say(refused.value) != str(refused.value)


def test_two_readings_are_asked_for_and_each_can_be_chosen(workshop: Workspace) -> None:
    with pytest.raises(Ambiguous) as asked:
        edit.read_field(workshop, of_kind("mass"), "1,234")
    readings = [
        edit.read_field(workshop, of_kind("mass"), text) for text, _ in asked.value.readings
    ]
    assert sorted(map(float, map(str, readings))) == [pytest.approx(1.234), pytest.approx(1234.0)]


def test_what_is_out_of_range_is_told_the_range(workshop: Workspace) -> None:
    with pytest.raises(OutOfRange) as refused:
        edit.read_field(workshop, WAX["heat_to_c"], "20 C")
    assert workshop.texts.say(refused.value) == "That is too small here: 30 °C · 86 °F at least."
    with pytest.raises(OutOfRange) as refused:
        edit.read_field(workshop, WAX["max_load_percent"], "31")
    assert "30 %" in workshop.texts.say(refused.value)


def test_only_one_of_the_choices_is_taken(workshop: Workspace) -> None:
    assert edit.read_field(workshop, WAX["wax_class"], "soy") == "soy"
    with pytest.raises(CannotRead):
        edit.read_field(workshop, WAX["wax_class"], "soya")


def test_what_cannot_be_read_stays_as_a_draft_until_it_is_mended(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", details={"heat_to_c": 85.0})
    with pytest.raises(DomainError):
        edit.set_field(workshop, WAX["heat_to_c"], key, "very hot")
    with workshop.read() as connection:
        assert state.drafts(connection, "wax", key) == {"heat_to_c": "very hot"}
        assert records.fetch(connection, "wax", key)["heat_to_c"] == 85.0
    edit.set_field(workshop, WAX["heat_to_c"], key, "185 F")
    with workshop.read() as connection:
        assert state.drafts(connection, "wax", key) == {}
        assert records.fetch(connection, "wax", key)["heat_to_c"] == pytest.approx(85.0)


def test_rapid_edits_of_one_field_are_one_act(workshop: Workspace, clock: ToldClock) -> None:
    key = shelf_edit.new_item(workshop, "wax")
    clock.pace = 0.1
    for typed in ("S", "So", "Soft"):
        edit.set_field(workshop, WAX["name"], key, typed)
    clock.pace = 10.0
    edit.set_field(workshop, WAX["supplier"], key, "Mill")
    workshop.undo()
    workshop.undo()
    with workshop.read() as connection:
        assert records.fetch(connection, "item", key)["name"] == ""
    assert workshop.undo_label == "Add to the shelf"


def test_emptying_a_name_keeps_the_record(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "wax", {"name": "Soft"})
    edit.set_field(workshop, WAX["name"], key, "  ")
    with workshop.read() as connection:
        assert not records.fetch(connection, "item", key)["name"]


@pytest.mark.parametrize(
    ("kind", "typed", "echo"),
    [
        ("mass", "1020.583 g", "2 lb 4.0 oz"),
        ("mass", "2 lb 4 oz", "1021 g · 2 lb 4.0 oz"),
        ("percent", "6 %", ""),
        ("percent", "6", "6 %"),
        ("money", "7.5", "$7.50"),
        ("count", "7", ""),
        ("date", "28 Nov", "Saturday 28 November 2026"),
        ("text", "7", ""),
    ],
)
def test_the_echo_adds_what_the_typing_does_not_say(
    workshop: Workspace, kind: str, typed: str, echo: str
) -> None:
    assert edit.understood(workshop, of_kind(kind), typed) == echo


def test_every_field_is_a_column_of_its_table() -> None:
    specs = [*ALL_FIELDS, *(spec for table in EQUIPMENT_FIELDS.values() for spec in table)]
    assert len(specs) > 60
    for spec in specs:
        assert spec.name in columns_of(spec.table), spec
        assert spec.label


def test_ranges_and_choices_make_sense() -> None:
    for spec in ALL_FIELDS:
        assert bool(spec.choices) == (spec.kind == "choice"), spec
        if spec.low is not None and spec.high is not None:
            assert spec.low < spec.high


def test_names_in_one_form_are_told_apart() -> None:
    for kind in KIND_NAMES:
        labels = [spec.label for spec in fields_of(kind)]
        assert len(set(labels)) == len(labels), kind


QUANTITIES = [spec for spec in ALL_FIELDS if spec.is_quantity and spec.low is not None]


@given(st.sampled_from(QUANTITIES), st.floats(0.01, 0.99))
@settings(max_examples=150)
def test_what_is_shown_in_a_field_can_be_read_there(spec: FieldSpec, share: float) -> None:
    low, high = spec.low or 0.0, min(spec.high or 100.0, (spec.low or 0.0) + 500)
    value: float = low + share * (high - low)
    if spec.kind in {"count", "days"}:
        value = max(low, round(value))
    here = _Here()
    text = edit.shown(here, spec, value)  # type: ignore[arg-type]  # texts and clock are enough
    again = edit.read_field(here, spec, text)  # type: ignore[arg-type]
    assert edit.shown(here, spec, again) == text  # type: ignore[arg-type]


class _Here:
    """The two things of a workshop that reading needs."""

    texts = Texts()
    clock = None


@given(st.text(max_size=20), st.sampled_from(ALL_FIELDS))
@settings(max_examples=150)
def test_any_text_is_a_value_or_a_sentence(typed: str, spec: FieldSpec) -> None:
    if spec.kind in {"yes_no", "reference", "date"}:
        return
    bare = False
    try:
        edit.read_field(_Here(), spec, typed)  # type: ignore[arg-type]
    except DomainError as error:
        bare = Texts().say(error) == str(error)
    assert not bare


def test_a_field_that_is_never_empty_falls_back_on_its_default(workshop: Workspace) -> None:
    key = shelf_edit.new_item(workshop, "vessel", {"name": "Clamshell"}, {"cells": 6})
    cells = FieldSpec(name="cells", label="Cells", kind="count", table="vessel", low=1)
    edit.set_field(workshop, cells, key, "")
    with workshop.read() as connection:
        assert records.fetch(connection, "vessel", key)["cells"] == 1
