"""What a new label can be made for, and what the gallery offers; without Qt."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.label_workshop import fill_workshop
from wickbench.app import starting_choices
from wickbench.app.label_making import LabelMaker
from wickbench.app.label_paper import is_kraft, seen_on_kraft, sheet_is_kraft
from wickbench.app.label_store import stored_label, stored_labels
from wickbench.app.labels import CAUTION, STARTING_NAMES
from wickbench.app.shelf import load_shelf
from wickbench.domain.labels import LabelDesign, TextElement
from wickbench.domain.starting_labels import STARTING
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.starting_choices import MadeFor, Offered
    from wickbench.app.workspace import Workspace


def choices(workshop: Workspace, first: int | None = None) -> tuple[MadeFor, ...]:
    return starting_choices.made_for(workshop, load_shelf(workshop), first)


def offered(workshop: Workspace, what: MadeFor) -> dict[str, Offered]:
    maker, shelf = LabelMaker(workshop), load_shelf(workshop)
    found = starting_choices.offer(workshop, maker, shelf, what)
    return {one.starting: one for one in found}


def test_an_empty_workshop_offers_a_usual_sticker_in_sample_words(workshop: Workspace) -> None:
    (usual,) = choices(workshop)
    assert (usual.key, usual.width_mm, usual.height_mm) == ("usual", 62.0, 36.0)
    every = offered(workshop, usual)
    assert set(every) == {*STARTING_NAMES, CAUTION}
    assert all(one.made is not None and not one.trouble for one in every.values())
    hush = every["hush"]
    assert (hush.name, hush.kind) == ("Hush", "jar")
    assert hush.made is not None
    assert "NAME OF CANDLE" in [one.text for one in hush.made.laid.texts]
    assert "kraft" in hush.ink
    assert "colour" in every["dusk"].ink


def test_the_sheet_in_hand_comes_first_and_its_paper_is_known(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    _write_surface(workshop, kept.circles, "Kraft, brown")
    found = choices(workshop, kept.circles)
    assert found[0].key == f"sheet-{kept.circles}"
    assert (found[0].shape, found[0].width_mm, found[0].kraft) == ("circle", 42.0, True)
    assert {one.key for one in found} >= {f"sheet-{kept.three_by_seven}"}
    assert "usual" not in {one.key for one in found}
    assert choices(workshop)[0].key == "usual"


def test_the_words_are_the_workshops_own(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    what = choices(workshop, kept.three_by_seven)[0]
    made = offered(workshop, what)["hush"].made
    assert made is not None
    assert "BRAMBLE & SMOKE" in [one.text for one in made.laid.texts]


@pytest.mark.parametrize("starting", [*STARTING_NAMES, CAUTION])
def test_each_is_begun_as_one_step_in_the_measures_asked_for(
    workshop: Workspace, starting: str
) -> None:
    kept = fill_workshop(workshop)
    what = choices(workshop, kept.circles)[0]
    label = stored_label(workshop, starting_choices.begin(workshop, starting, what))
    assert (label.design.width_mm, label.design.shape) == (42.0, "circle")
    assert label.kind == (CAUTION if starting == CAUTION else STARTING[starting].kind)
    assert (label.caution is not None) == (starting == CAUTION)
    workshop.undo()
    assert label.id not in {one.id for one in stored_labels(workshop)}


def test_a_second_label_of_a_design_has_a_name_of_its_own(workshop: Workspace) -> None:
    (usual,) = choices(workshop)
    for _ in range(3):
        starting_choices.begin(workshop, "hush", usual)
    assert {one.name for one in stored_labels(workshop)} == {"Hush", "Hush 2", "Hush 3"}


def test_a_vessel_is_gone_round_by_what_belongs_on_its_wall(workshop: Workspace) -> None:
    fill_workshop(workshop)
    (round_it,) = [one for one in choices(workshop) if one.key.startswith("vessel-")]
    assert round_it.words == "All round Tumbler"
    # 80 mm across: π × 80 = 251.3 mm round, and the ends lie over each other.
    assert round_it.width_mm > 251.3
    every = offered(workshop, round_it)
    assert every["cap"].made is None
    assert every["cap"].trouble == ""
    assert every["band"].made is not None
    label = stored_label(workshop, starting_choices.begin(workshop, "band", round_it))
    assert label.design.shape == "wrap"
    assert (label.design.wrap_bottom_mm, label.design.wrap_top_mm) == (80.0, 80.0)
    assert label.design.overlap_mm > 0


def test_the_name_is_what_is_written_first() -> None:
    named = TextElement(x_mm=0, y_mm=0, w_mm=9, h_mm=9, text="{candle}", size_pt=9)
    larger = TextElement(x_mm=0, y_mm=0, w_mm=9, h_mm=9, text="{net weight}", size_pt=20)
    bent = TextElement(x_mm=0, y_mm=0, w_mm=9, h_mm=9, text="{candle}", size_pt=30, curve="over")
    assert starting_choices.title_at(_design(larger, bent, named)) == 2
    assert starting_choices.title_at(_design(larger, bent)) == 0
    assert starting_choices.title_at(_design()) is None


def test_kraft_is_known_by_its_word_and_a_label_by_its_size(workshop: Workspace) -> None:
    assert is_kraft("Kraftpapier, braun")
    assert not is_kraft("white matt")
    assert not is_kraft(None)
    kept = fill_workshop(workshop)
    design = LabelDesign(width_mm=42.0, height_mm=42.0, shape="circle")
    assert not seen_on_kraft(load_shelf(workshop), design)
    _write_surface(workshop, kept.circles, "kraft")
    assert seen_on_kraft(load_shelf(workshop), design, kept.circles)
    assert sheet_is_kraft(load_shelf(workshop), kept.circles)
    assert not sheet_is_kraft(load_shelf(workshop), kept.three_by_seven)
    assert not sheet_is_kraft(load_shelf(workshop), None)
    assert not seen_on_kraft(load_shelf(workshop), LabelDesign(width_mm=40.0, height_mm=42.0))


def _write_surface(workshop: Workspace, sheet: int, words: str) -> None:
    with workshop.step("Paper") as connection:
        records.update(connection, "sheet", sheet, {"surface": words})


def _design(*elements: TextElement) -> LabelDesign:
    return LabelDesign(width_mm=60, height_mm=40, elements=elements)
