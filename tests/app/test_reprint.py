"""What was printed is printed again as it was, whatever became of label, candle, sheet or printer.

Texts are read back with pypdf; the page streams of both files are compared byte by byte.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

import pypdf
import pytest

from app.label_workshop import Kept, fill_workshop, sheet_in, view_of
from documents.samples import png
from wickbench.app import (
    calibrations,
    label_elements,
    labels,
    print_history,
    print_jobs,
    print_runs,
    printing,
)
from wickbench.app.label_making import typeface_shelf
from wickbench.app.label_store import stored_label
from wickbench.app.moments import local
from wickbench.app.print_history import printed_before, reprint, run_from_print
from wickbench.documents.calibration import crosshairs
from wickbench.documents.pdf_file import pdf_bytes
from wickbench.domain.errors import DomainError
from wickbench.storage import records, state

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.app.workspace import Workspace
    from wickbench.documents.surface import Surface


@pytest.fixture
def kept(workshop: Workspace) -> Kept:
    return fill_workshop(workshop)


def _printed(workshop: Workspace, kept: Kept, path: Path) -> int:
    """A run of a label with a picture and a caution sticker on a begun sheet, written; its key."""
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    print_runs.set_used(workshop, run, [0, 1, 5])
    front = labels.new_label(
        workshop, "hush", sheet_in(workshop, kept.three_by_seven), name="Front"
    )
    with workshop.step("Picture") as connection:
        picture = state.store_blob(connection, png(40, 40), "image/png")
    at = label_elements.add_element(workshop, front, "picture")
    label_elements.change_element(workshop, front, at, {"picture": picture})
    caution = labels.new_label(workshop, labels.CAUTION, name="Base")
    for label, candle, count in ((front, kept.bramble, 22), (caution, kept.cedar, 9)):
        line = {"label_id": label, "candle_id": candle, "lot_code": "26-332-A1", "count": count}
        print_runs.add_line(workshop, run, {**line, "poured_on": "2026-11-28"})
    printing.export_labels(workshop, view_of(workshop, run), path)
    return run


def _again(workshop: Workspace, path: Path, at: int = 0) -> Path:
    again = reprint(workshop, printed_before(workshop)[at].id)
    print_jobs.done_at_once(print_jobs.written(again.job, path))
    return path


def _streams(path: Path) -> list[bytes]:
    """The content of each page and of each form on it, unpacked."""
    found = []
    for page in pypdf.PdfReader(path).pages:
        contents = page.get_contents()
        assert contents is not None
        found.append(contents.get_data())
        for _, form in sorted(page["/Resources"].get("/XObject", {}).items()):  # type: ignore[union-attr]  # a dictionary
            found.append(form.get_object().get_data())
    return found


def _texts(path: Path) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(path).pages]


def _change_everything(workshop: Workspace, kept: Kept) -> None:
    """Label, words of the caution sticker, candle, net weight, business, sheet: all another."""
    for label in (1, 2):
        labels.change_design(workshop, label, {"background": "#ffee00"})
    label_elements.add_element(workshop, 1, "text")
    with workshop.step("Change") as connection:
        for candle in (kept.bramble, kept.cedar):
            changed = {"name": "Other", "declared_net_g": 99.0}
            records.update(connection, "candle", candle, changed)
        records.update(connection, "sheet", kept.three_by_seven, {"left_mm": 3.0, "rows": 5})
    workshop.set_setting("business_name", "Somebody else")
    workshop.set_setting("language_of_labels", "de")


def test_a_reprint_is_the_same_to_the_byte_whatever_changed_since(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    _printed(workshop, kept, tmp_path / "first.pdf")
    _change_everything(workshop, kept)
    again = reprint(workshop, printed_before(workshop)[0].id)
    # the first stickers stood on a begun sheet; nothing else is another today
    assert {one.key for one in again.findings} == {"print-again.begun"}
    path = _again(workshop, tmp_path / "again.pdf")
    assert _texts(path) == _texts(tmp_path / "first.pdf")
    assert "221" in _texts(path)[0]
    assert _streams(path) == _streams(tmp_path / "first.pdf")


def test_a_reprint_survives_that_everything_it_was_made_of_is_gone(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    run = _printed(workshop, kept, tmp_path / "first.pdf")
    print_runs.remove_run(workshop, run)
    for label in (1, 2):
        labels.remove_label(workshop, label)
    with workshop.step("Remove") as connection:
        records.delete(connection, "candle", kept.bramble)
        records.delete(connection, "item", kept.three_by_seven)
    path = _again(workshop, tmp_path / "again.pdf")
    assert _streams(path) == _streams(tmp_path / "first.pdf")


def test_the_list_says_what_was_printed_and_a_reprint_stands_in_it(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    _printed(workshop, kept, tmp_path / "first.pdf")
    _again(workshop, tmp_path / "again.pdf")
    newest, first = printed_before(workshop)
    assert (first.number, newest.number, newest.again_of) == (1, 2, 1)
    assert (first.count, first.file_name) == (31, "first.pdf")
    # 31 stickers: the begun sheet has 21 - 3 = 18 left, 13 stand on a new one
    assert first.sheets == 2
    assert first.sheet_name == "Kraft"
    assert first.day == local(workshop.clock.now_ms()).date().isoformat()
    assert [line.label for line in first.lines] == ["Front", "Base"]
    assert first.lines[0].candle == "Bramble & smoke"
    assert any("221" in text for text in first.lines[0].texts)
    for sought in ("26-332-A1", "first.pdf", "Front"):
        assert sought in first.words
    # the reprint of a reprint is still the same
    path = _again(workshop, tmp_path / "third.pdf")
    assert _streams(path) == _streams(tmp_path / "first.pdf")


def test_the_record_holds_design_values_and_typefaces(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    _printed(workshop, kept, tmp_path / "first.pdf")
    with workshop.read() as connection:
        stored = state.prints(connection, "labels")[0]["snapshot"]
    assert isinstance(stored, dict)
    front, caution = stored["lines"]
    label = stored_label(workshop, 1)
    assert front["label_version"] == [1, label.number]
    assert front["design"]["width_mm"] == label.design.width_mm
    assert len(front["elements"]) == len(label.design.elements)
    assert front["values"]["lot"].endswith("26-332-A1")
    assert caution["caution"]["languages"] == ["en"]
    for family, style, sha256 in stored["drawing"]["typefaces"]:
        assert typeface_shelf().find(family, style).file_hash == sha256


def test_a_changed_typeface_file_is_told(
    workshop: Workspace, kept: Kept, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _printed(workshop, kept, tmp_path / "first.pdf")
    with workshop.read() as connection:
        row = state.prints(connection, "labels")[0]
    stored = json.loads(json.dumps(row["snapshot"]))
    for face in stored["drawing"]["typefaces"]:
        face[2] = "0" * 64
    monkeypatch.setattr(print_history, "_snapshot", lambda _row: stored)
    again = reprint(workshop, int(str(row["id"])))
    assert {one.key for one in again.findings} == {"print-again.typeface", "print-again.begun"}
    assert all(workshop.texts.say(one) for one in again.findings)


def test_the_printer_measured_since_is_told_and_corrects_the_reprint(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    _printed(workshop, kept, tmp_path / "first.pdf")
    page = (210.0, 297.0)
    measured = [(x + 1.5, y + 0.8) for x, y in crosshairs(*page)]
    calibrations.keep_calibration(workshop, "", "", page, measured)
    again = reprint(workshop, printed_before(workshop)[0].id)
    assert {one.key for one in again.findings} == {"print-again.position", "print-again.begun"}
    path = _again(workshop, tmp_path / "again.pdf")
    assert _texts(path) == _texts(tmp_path / "first.pdf")
    assert _streams(path) != _streams(tmp_path / "first.pdf")


def test_a_new_run_from_a_print_takes_todays_data(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    old = _printed(workshop, kept, tmp_path / "first.pdf")
    _change_everything(workshop, kept)
    with workshop.step("Page") as connection:
        records.update(connection, "sheet", kept.three_by_seven, {"left_mm": 9.0, "rows": 7})
    run = run_from_print(workshop, printed_before(workshop)[0].id)
    assert run != old
    view = view_of(workshop, run)
    assert [line.count for line in view.lines] == [22, 9]
    assert {line.lot_code for line in view.lines} == {"26-332-A1"}
    texts = [text.text for made in view.made for text in made.laid.texts]
    assert any("other" in text.casefold() for text in texts)
    labels.remove_label(workshop, 2)  # put away: it is still printed with
    workshop.undo()
    with workshop.step("Gone") as connection:
        for line in records.fetch_all(connection, "print_line", {"label_id": 2}):
            records.delete(connection, "print_line", int(str(line["id"])))
        records.delete(connection, "label", 2)
    fewer = print_runs.print_run(workshop, run_from_print(workshop, printed_before(workshop)[0].id))
    assert [line.label_id for line in fewer.lines] == [1]


def test_a_print_of_an_earlier_version_is_listed_and_says_why_it_cannot_be_repeated(
    workshop: Workspace,
) -> None:
    old = {
        "version": 1, "number": 4, "run": 1, "sheet": {}, "used": [], "printer": ["", ""],
        "lines": [{"label": "Front", "label_version": [1, 1], "candle": None, "lot": "A",
                   "count": 3, "texts": ["Bramble"]}],
        "stickers": [[0, 0, 0], [0, 1, 0], [0, 2, 0]],
    }  # fmt: skip
    with workshop.unjournalled("print_runs") as connection:
        state.record_print(connection, at_ms=0, kind="labels", title="Front", snapshot=old)
    listed = printed_before(workshop)[0]
    assert (listed.number, listed.count, listed.sheets, listed.whole) == (4, 3, 1, False)
    with pytest.raises(DomainError) as refused:
        reprint(workshop, listed.id)
    assert workshop.texts.say(refused.value).startswith("This print kept only its words")
    run_from_print(workshop, listed.id)


def test_a_label_changed_while_it_is_written_is_kept_as_it_was_and_stays_free(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    label = labels.new_label(workshop, "hush", sheet_in(workshop, kept.three_by_seven))
    line = {"label_id": label, "candle_id": kept.bramble, "count": 60}
    print_runs.add_line(workshop, run, line)
    work = print_jobs.written(
        printing.run_job(workshop, view_of(workshop, run)), tmp_path / "first.pdf"
    )
    assert next(work) == 1
    labels.change_design(workshop, label, {"background": "#ffee00"})
    assert print_jobs.done_at_once(work) == 1
    assert not stored_label(workshop, label).frozen
    path = _again(workshop, tmp_path / "again.pdf")
    assert _streams(path) == _streams(tmp_path / "first.pdf")


def test_stopped_half_way_nothing_is_left_and_nothing_recorded(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    label = labels.new_label(workshop, "hush", sheet_in(workshop, kept.three_by_seven))
    line = {"label_id": label, "candle_id": kept.bramble, "count": 3000}
    print_runs.add_line(workshop, run, line)
    job = printing.run_job(workshop, view_of(workshop, run))
    assert len(job.draws) == 143  # 3000 stickers, 21 to a sheet
    folder = tmp_path / "out"
    folder.mkdir()
    work = print_jobs.written(job, folder / "labels.pdf")
    assert [next(work) for _ in range(70)][-1] == 70
    work.close()
    assert list(folder.iterdir()) == []
    assert printed_before(workshop) == ()
    assert not stored_label(workshop, label).frozen


def test_written_page_by_page_it_is_the_file_that_is_written_at_once(
    workshop: Workspace, kept: Kept, tmp_path: Path
) -> None:
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    label = labels.new_label(workshop, "hush", sheet_in(workshop, kept.three_by_seven))
    print_runs.add_line(workshop, run, {"label_id": label, "candle_id": kept.bramble, "count": 50})
    view = view_of(workshop, run)
    whole = printing.write_labels(workshop, view, tmp_path / "whole.pdf")
    printing.export_labels(workshop, view, tmp_path / "pages.pdf")
    assert _streams(tmp_path / "pages.pdf") == _streams(whole)
    job = printing.run_job(workshop, view)

    def draw(surface: Surface) -> None:
        for one in job.draws:
            one(surface)

    once = pdf_bytes(draw, title="x", invariant=True)
    assert once == pdf_bytes(printing.run_drawing(workshop, view), title="x", invariant=True)
