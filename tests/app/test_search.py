"""Finding: parts of words, without accents, by a maker's other word, best first."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest

from wickbench.app import shelf_edit
from wickbench.app.questions import Silent
from wickbench.app.references import name_key, reference_choices
from wickbench.app.search import SYNONYMS, find, matches, other_words
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path


class StandingClock:
    def now_ms(self) -> int:
        return 1_795_600_000_000

    def today(self) -> dt.date:
        return dt.date(2026, 11, 25)

    def monotonic(self) -> float:
        return 0.0


@pytest.fixture
def workspace(tmp_path: Path) -> Iterator[Workspace]:
    services = Services(StandingClock(), Texts(), Silent())
    made = Workspace.create(tmp_path / "w.wickbench", services)
    shelf_edit.new_item(made, "vessel", {"name": "Amber 30 cl"})
    shelf_edit.new_item(made, "fragrance", {"name": "Bramble", "supplier": "Söderhamn"})
    shelf_edit.new_item(made, "wax", {"name": "Amber soy", "code": "W-17"})
    shelf_edit.new_recipe(made, "Bramble & smoke")
    yield made
    made.close()


def titles(workspace: Workspace, sought: str) -> list[str]:
    return [hit.title for hit in find(workspace, sought)]


@pytest.mark.parametrize(
    ("sought", "found"),
    [
        ("amber", ["Amber 30 cl", "Amber soy"]),
        ("jar", ["Amber 30 cl", "Seconds from one vessel to the next"]),
        ("amber tumbler", ["Amber 30 cl"]),
        ("scent", ["Bramble"]),
        ("soderhamn", ["Bramble"]),
        ("w-17", ["Amber soy"]),
        ("formula", ["Bramble & smoke"]),
        ("bramble", ["Bramble", "Bramble & smoke"]),
        ("smoke", ["Bramble & smoke"]),
        ("nothing like it", []),
        ("   ", []),
    ],
)
def test_records_are_found(workspace: Workspace, sought: str, found: list[str]) -> None:
    assert titles(workspace, sought) == found


def test_what_was_put_away_is_not_found(workspace: Workspace) -> None:
    wax = next(hit for hit in find(workspace, "soy") if hit.title == "Amber soy")
    assert wax.place == "materials"
    with workspace.step("x") as connection:
        from wickbench.storage import records

        records.update(connection, "item", wax.record, {"archived": 1})
    assert titles(workspace, "soy") == []


def test_every_synonym_leads_to_every_other() -> None:
    for group in SYNONYMS:
        for word in group:
            assert group <= other_words(word)
    assert matches("warning", "Caution sticker")
    assert matches("batch 12", "Lot 12-A")
    assert not matches("wick", "Wax")


def test_names_sort_as_people_sort_them(workspace: Workspace) -> None:
    assert sorted(["Zimt", "äpfel", "Apfel", "Öl"], key=name_key) == [
        "Apfel",
        "äpfel",
        "Öl",
        "Zimt",
    ]
    shelf_edit.new_item(workspace, "wax", {"name": "äpfelwachs"})
    assert [name for _, name in reference_choices(workspace, "wax")] == ["Amber soy", "äpfelwachs"]
    with pytest.raises(ValueError, match="frog"):
        reference_choices(workspace, "frog")
