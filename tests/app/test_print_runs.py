"""Print runs: sheets, stickers used, findings, the PDF read back, and what is recorded."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pdfplumber
import pypdf
import pytest

from app.label_workshop import fill_workshop, keys_of, sheet_in, view_of
from documents.samples import MM
from wickbench.app import (
    label_elements,
    labels,
    print_runs,
    printing,
)
from wickbench.app.label_store import stored_label
from wickbench.app.labels import CAUTION
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Rank
from wickbench.storage import records, state

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.print_run_view import RunView
    from wickbench.app.workspace import Workspace

NEAR_MM = 0.05


def _run(workshop: Workspace, sheet: int, *counts: tuple[str, int, int]) -> int:
    """A run with a new label per (design, candle, count)."""
    run = print_runs.choose_sheet(workshop, None, sheet)
    for design, candle, count in counts:
        label = labels.new_label(workshop, design, sheet_in(workshop, sheet))
        values = {"label_id": label, "candle_id": candle, "lot_code": "26-332-A1", "count": count}
        print_runs.add_line(workshop, run, values)
    return run


def _letters(path: Path, page: int = 0) -> list[tuple[str, float, float, float]]:
    """Letters of a page with their left, right and base, mm from the top left."""
    with pdfplumber.open(path) as document:
        return [
            (one["text"], one["x0"] * MM, one["x1"] * MM, one["top"] * MM)
            for one in document.pages[page].chars
        ]


def _taken(view: RunView, path: Path, page: int = 0) -> dict[int, list[tuple[float, float]]]:
    """Sticker numbers that carry letters, with the letters' places from the sticker's corner."""
    assert view.sheet is not None
    found: dict[int, list[tuple[float, float]]] = {}
    for _, left, right, top in _letters(path, page):
        middle = (left + right) / 2
        for index in range(view.sheet.count):
            box = view.sheet.sticker(index)
            if box.x_mm <= middle <= box.right_mm and box.y_mm <= top <= box.bottom_mm:
                found.setdefault(index, []).append((left - box.x_mm, top - box.y_mm))
                break
        else:
            pytest.fail(f"a letter stands on no sticker at {left:.2f}, {top:.2f} mm")
    return found


@pytest.mark.parametrize(("which", "page_mm"), [
    ("three_by_seven", (210.0, 297.0)),  # ISO 216: A4
    ("circles", (215.9, 279.4)),  # ANSI/ASME Y14.1: Letter, 8 1/2 × 11 in
])  # fmt: skip
def test_the_first_four_stickers_stay_empty_and_the_rest_stand_in_their_places(
    workshop: Workspace, tmp_path: Path, which: str, page_mm: tuple[float, float]
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, getattr(kept, which), ("hush", kept.bramble, 10))
    print_runs.set_used(workshop, run, range(4))
    view = view_of(workshop, run)
    assert view.sheet is not None
    path = tmp_path / "labels.pdf"
    printing.export_labels(workshop, view, path)
    with pdfplumber.open(path) as document:
        page = document.pages[0]
        size = (float(page.width) * MM, float(page.height) * MM)
    assert size == pytest.approx(page_mm, abs=0.02)
    taken = _taken(view, path)
    assert sorted(taken) == list(range(4, 14))
    first = taken[4]
    for index in range(5, 14):
        assert len(taken[index]) == len(first)
        for here, there in zip(taken[index], first, strict=True):
            assert here == pytest.approx(there, abs=NEAR_MM)
    assert pypdf.PdfReader(path).viewer_preferences.print_scaling == "/None"  # type: ignore[union-attr]


def test_several_labels_share_a_sheet_in_their_order(workshop: Workspace, tmp_path: Path) -> None:
    kept = fill_workshop(workshop)
    run = _run(
        workshop, kept.three_by_seven,
        ("hush", kept.bramble, 10), ("sill", kept.cedar, 4), (CAUTION, kept.cedar, 9),
    )  # fmt: skip
    print_runs.set_used(workshop, run, {0, 1, 2, 3, 20})
    view = view_of(workshop, run)
    assert (view.count, view.sheets, view.need.new_sheets) == (23, 2, 1)
    assert view.need.left == 16 + 21 - 23
    # A sticker of 62 × 36 mm lies on a base of 70 mm: its diagonal is longer, so this is told.
    assert "caution.larger-than-base" in keys_of(view)
    assert view.may_print
    path = printing.write_labels(workshop, view, tmp_path / "proof.pdf", proof=True)
    with pdfplumber.open(path) as document:
        words = [document.pages[at].extract_text() for at in (0, 1)]
    assert words[0].count("BRAMBLE & SMOKE") == 10
    assert words[0].count("Cedar porch") == 4
    assert words[0].count("WARNING") == 2
    assert words[1].count("WARNING") == 7


def test_stickers_used_are_toggled_one_by_one(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = print_runs.choose_sheet(workshop, None, kept.circles)
    for index in (0, 5, 0, 7):
        print_runs.toggle_used(workshop, run, index)
    assert print_runs.print_run(workshop, run).used == {5, 7}
    workshop.undo()
    assert print_runs.print_run(workshop, run).used == {5}


def test_a_print_is_recorded_numbered_and_freezes_its_labels(
    workshop: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 3))
    view = view_of(workshop, run)
    numbers = [
        printing.export_labels(workshop, view_of(workshop, run), tmp_path / f"{at}.pdf")
        for at in range(2)
    ]
    assert numbers == [1, 2]
    label = stored_label(workshop, view.labels[0].id)
    assert label.frozen
    with workshop.read() as connection:
        newest = state.prints(connection, "labels")[0]
    snapshot = newest["snapshot"]
    assert isinstance(snapshot, dict)
    assert snapshot["lines"][0]["count"] == 3
    assert "BRAMBLE & SMOKE" in snapshot["lines"][0]["texts"]
    assert [place[1] for place in snapshot["stickers"]] == [3, 4, 5]  # the first three are gone
    workshop.undo()
    with workshop.read() as connection:
        assert len(state.prints(connection, "labels")) == 2


def test_undo_and_redo_of_a_whole_print_run(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    label = labels.new_label(workshop, "hush")
    run = print_runs.choose_sheet(workshop, None, kept.circles)
    states = [print_runs.print_run(workshop, run)]
    acts = (
        lambda: print_runs.add_line(workshop, run, {"label_id": label, "count": 5}),
        lambda: print_runs.change_line(workshop, 1, {"candle_id": kept.cedar}),
        lambda: print_runs.change_line(workshop, 1, {"count": 7}),
        lambda: print_runs.set_used(workshop, run, range(4)),
        lambda: print_runs.choose_printer(workshop, run, "laser", "tray 2"),
        lambda: print_runs.choose_sheet(workshop, run, kept.three_by_seven),
        lambda: print_runs.remove_lines(workshop, [1]),
    )
    for act in acts:
        act()
        states.append(print_runs.print_run(workshop, run))
        assert states[-1] != states[-2]
    for kept_state in reversed(states[:-1]):
        workshop.undo()
        assert print_runs.print_run(workshop, run) == kept_state
    for kept_state in states[1:]:
        workshop.redo()
        assert print_runs.print_run(workshop, run) == kept_state


# -- checks before printing --------------------------------------------------------------------
def _changed(workshop: Workspace, text: str, **more: object) -> RunView:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    label = view_of(workshop, run).labels[0].id
    label_elements.change_element(workshop, label, 1, {"text": text, **more})
    return view_of(workshop, run)


def test_text_too_long_stops_the_print(workshop: Workspace) -> None:
    view = _changed(workshop, "Pneumonoultramicroscopic " * 40)
    assert "label.text-too-long" in keys_of(view)
    assert not view.may_print


def test_a_glyph_that_the_typeface_lacks_stops_the_print(workshop: Workspace) -> None:
    # U+0378 is not assigned in Unicode: no typeface on any machine has it or lends it.
    view = _changed(workshop, "Kerze \u0378")
    assert "label.missing-glyphs" in keys_of(view)
    assert not view.may_print


def test_type_too_small_is_watched(workshop: Workspace) -> None:
    view = _changed(workshop, "small", size_pt=3.0, min_size_pt=3.0)
    assert "label.type-too-small" in keys_of(view)
    assert view.may_print


def test_maker_and_net_weight_missing_are_told(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    before = keys_of(view_of(workshop, run))
    # 16 CFR 500.5(a): the state belongs to the place, and this workshop has none
    assert "required.business-empty" in before
    assert not before & {"required.maker-missing", "required.net-missing"}
    label = view_of(workshop, run).labels[0].id
    label_elements.change_element(workshop, label, 3, {"text": "made by hand"})
    label_elements.change_element(workshop, label, 4, {"text": "about a cup"})
    after = keys_of(view_of(workshop, run))
    assert {"required.maker-missing", "required.net-missing"} <= after


def test_a_damaged_picture_in_the_file_stops_the_print_with_a_finding(
    workshop: Workspace, tmp_path: Path
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    label = view_of(workshop, run).labels[0].id
    at = label_elements.add_element(workshop, label, "picture")
    with workshop.step("Damage") as connection:
        key = state.store_blob(connection, b"\x89PNG\r\n\x1a\nbroken", "image/png")
    label_elements.change_element(workshop, label, at, {"picture": key})
    view = view_of(workshop, run)
    assert "picture.damaged" in keys_of(view)
    assert not view.may_print
    with pytest.raises(DomainError) as refused:
        printing.export_labels(workshop, view, tmp_path / "labels.pdf")
    assert refused.value.key == "print.stopped"
    assert not (tmp_path / "labels.pdf").exists()


def test_figures_are_measured_against_the_table_of_the_region(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    view = view_of(workshop, run)
    # 16 CFR 500.21: 40 % of 70 mm × π × 80 mm = 70.4 cm² (10.9 sq in): above 5 sq in, 1/8 in.
    well = next(one for one in view.well if one.key == "required.figures-well-panel")
    assert well.data["least"] == pytest.approx(25.4 / 8, abs=0.01)
    assert "required.figures-small-panel" not in keys_of(view)
    label = view.labels[0].id
    # with small letters the lower-case "o" counts, which is lower than the capitals
    label_elements.change_element(workshop, label, 4, {"upper": False})
    view = view_of(workshop, run)
    assert "required.figures-small-panel" in keys_of(view)
    assert "required.figures-well-panel" not in {one.key for one in view.well}


def test_hazard_label_is_told_for_eu_and_uk_only(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    assert "required.hazard-label-not-made" not in keys_of(view_of(workshop, run))
    workshop.set_setting("sold_in_eu", 1)
    told = [one for one in view_of(workshop, run).findings if "hazard" in one.key]
    assert [one.rank for one in told] == [Rank.WATCH]


def test_what_is_always_told(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    print_runs.set_used(workshop, run, [0])
    told = keys_of(view_of(workshop, run))
    assert {"print.not-passed", "sheet.partly-used", "sheet.actual-size"} <= told


def test_a_line_without_a_candle_says_so_once(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    label = labels.new_label(workshop, "hush")
    for _ in range(2):
        print_runs.add_line(workshop, run, {"label_id": label, "count": 1})
    told = [one.key for one in view_of(workshop, run).findings]
    assert told.count("print.no-candle") == 1
    assert told.count("print.fields-empty") == 1
    assert "label.field-empty" not in told


@pytest.mark.parametrize(("change", "key"), [
    ({"columns": 4}, "sheet.past-right-edge"),
    ({"pitch_y_mm": 30.0}, "sheet.rows-overlap"),
    ({"sticker_w_mm": None}, "sheet.no-sticker-w"),
])  # fmt: skip
def test_a_sheet_that_cannot_be_is_told_and_nothing_is_placed(
    workshop: Workspace, change: dict[str, object], key: str
) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 1))
    with workshop.step("Change") as connection:
        records.update(connection, "sheet", kept.three_by_seven, change)
    view = view_of(workshop, run)
    assert key in keys_of(view)
    assert view.pages is None
    assert not view.may_print


def test_the_printers_own_edge_counts(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 3))
    with workshop.step("Add") as connection:
        row = {"name": "laser", "tray": "2", "edge_mm": 4.0, "bottom_edge_mm": 4.0}
        printer = records.insert(connection, "printer", row)
    print_runs.choose_printer(workshop, run, "laser", "2")
    assert "print.outside-printable" not in keys_of(view_of(workshop, run))
    with workshop.step("Change") as connection:
        records.update(connection, "printer", printer, {"edge_mm": 16.0})
    assert "print.outside-printable" in keys_of(view_of(workshop, run))


def test_counts_that_cannot_be_are_refused(workshop: Workspace) -> None:
    with pytest.raises(OutOfRange):
        print_runs.add_line(workshop, None, {"count": 20_001})
    assert not print_runs.run_ids(workshop)
    with pytest.raises(DomainError, match=r"print\.nothing"):
        printing.run_drawing(workshop, view_of(workshop, None))


def test_a_sheet_on_a_run_is_put_away_instead_of_removed(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    print_runs.choose_sheet(workshop, None, kept.circles)
    print_runs.remove_sheet(workshop, kept.circles)
    print_runs.remove_sheet(workshop, kept.three_by_seven)
    with workshop.read() as connection:
        items = records.fetch_all(connection, "item", {"kind": "sheet"})
    assert [(row["id"], row["archived"]) for row in items] == [(kept.circles, 1)]


def test_the_pdf_is_called_as_the_run_in_signs_that_every_system_takes(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    run = _run(workshop, kept.three_by_seven, ("hush", kept.bramble, 2))
    print_runs.rename_run(workshop, run, "Fair: jars, lids/bases")
    name = printing.suggested_name(workshop, view_of(workshop, run))
    assert name == f"Fair jars, lidsbases {workshop.clock.today():%Y-%m-%d}.pdf"
    print_runs.rename_run(workshop, run, "")
    assert printing.suggested_name(workshop, view_of(workshop, run)).startswith("Hush ")
