"""Findings left as they are: they stop counting, keep their note, and return when they change."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.label_workshop import fill_workshop, sheet_in, view_of
from wickbench.app import label_elements, labels, print_runs
from wickbench.app.label_store import stored_label
from wickbench.app.labels import CAUTION
from wickbench.app.set_aside import (
    Owned,
    SetAside,
    all_set_aside,
    fingerprint,
    leave_all,
    left_words,
    may_set_aside,
    set_aside,
    settle,
    take_up_again,
)
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from wickbench.app.print_run_view import RunView
    from wickbench.app.workspace import Workspace

SMALL = "required.figures-small-panel"


def a_run(workshop: Workspace, *candles: str) -> int:
    """A print run of a label whose net weight is set with small letters, for these candles."""
    kept = fill_workshop(workshop)
    label = labels.new_label(workshop, "hush", sheet_in(workshop, kept.three_by_seven))
    net = next(
        at
        for at, one in enumerate(labels_of(workshop, label))
        if "net weight" in getattr(one, "text", "")
    )
    label_elements.change_element(workshop, label, net, {"upper": False})
    run = print_runs.choose_sheet(workshop, None, kept.three_by_seven)
    for candle in candles or ("bramble",):
        values = {
            "label_id": label,
            "candle_id": getattr(kept, candle),
            "lot_code": "A1",
            "count": 2,
        }
        print_runs.add_line(workshop, run, values)
    return run


def labels_of(workshop: Workspace, label: int) -> tuple[object, ...]:
    """What stands on a label."""
    return tuple(stored_label(workshop, label).design.elements)


def told(view: RunView, key: str) -> Finding:
    """The finding of a run with this key."""
    return next(one for one in view.findings if one.key == key)


def keys(view: RunView) -> set[str]:
    """Keys of what counts."""
    return {one.key for one in view.findings}


def leave(workshop: Workspace, run: int, key: str, note: str = "") -> None:
    """Leave a finding of a run as it is, for all it was told of."""
    view = view_of(workshop, run)
    leave_all(workshop, view.told.owners_of(told(view, key)), note)


def test_one_that_is_left_no_longer_counts_and_keeps_its_note(workshop: Workspace) -> None:
    run = a_run(workshop)
    leave(workshop, run, SMALL, "  the office said so ")
    view = view_of(workshop, run)
    assert SMALL not in keys(view)
    (left,) = view.told.left
    assert (left.finding.key, left.note) == (SMALL, "the office said so")
    words = left_words(workshop.texts, left)
    assert workshop.texts.day(workshop.clock.today().isoformat()) in words
    assert "the office said so" in words


def test_it_comes_back_by_itself_when_what_it_says_changes(workshop: Workspace) -> None:
    run = a_run(workshop)
    leave(workshop, run, SMALL)
    assert SMALL not in keys(view_of(workshop, run))
    label = view_of(workshop, run).labels[0]
    net = next(
        at
        for at, one in enumerate(label.design.elements)
        if "net weight" in getattr(one, "text", "")
    )
    label_elements.change_element(workshop, label.id, net, {"size_pt": 9.0})
    assert SMALL in keys(view_of(workshop, run))
    workshop.undo()
    assert SMALL not in keys(view_of(workshop, run))


def test_it_is_taken_up_again_and_both_are_undone(workshop: Workspace) -> None:
    run = a_run(workshop)
    leave(workshop, run, SMALL)
    take_up_again(workshop, view_of(workshop, run).told.left[0].ids)
    assert SMALL in keys(view_of(workshop, run))
    assert workshop.undo_label == "Take a finding up again"
    workshop.undo()
    assert SMALL not in keys(view_of(workshop, run))
    assert workshop.undo_label == "Leave a finding as it is"
    workshop.undo()
    assert SMALL in keys(view_of(workshop, run))
    assert all_set_aside(workshop) == ()


def test_one_sentence_told_of_two_candles_is_left_for_both_at_once(workshop: Workspace) -> None:
    run = a_run(workshop, "bramble", "cedar")
    view = view_of(workshop, run)
    assert len(view.told.owners_of(told(view, SMALL))) == 2
    leave(workshop, run, SMALL)
    assert SMALL not in keys(view_of(workshop, run))
    assert len(all_set_aside(workshop)) == 2
    workshop.undo()
    assert SMALL in keys(view_of(workshop, run))


def test_one_left_for_one_candle_still_counts_for_the_other(workshop: Workspace) -> None:
    run = a_run(workshop, "bramble", "cedar")
    view = view_of(workshop, run)
    first = view.told.owners_of(told(view, SMALL))[0]
    set_aside(workshop, first.label_id, first.candle_id, first.finding, "looked at")
    after = view_of(workshop, run)
    assert SMALL in keys(after)
    assert [one.finding.key for one in after.told.left] == [SMALL]


def test_leaving_it_again_changes_the_note(workshop: Workspace) -> None:
    run = a_run(workshop)
    view = view_of(workshop, run)
    owners = view.told.owners_of(told(view, SMALL))
    leave_all(workshop, owners, "first")
    leave_all(workshop, owners, "second")
    assert [one.note for one in all_set_aside(workshop)] == ["second"]


def test_what_cannot_be_on_paper_is_never_left(workshop: Workspace) -> None:
    run = a_run(workshop)
    label = view_of(workshop, run).labels[0]
    label_elements.change_element(
        workshop, label.id, 1, {"text": "x" * 400, "size_pt": 30.0, "min_size_pt": 30.0}
    )
    view = view_of(workshop, run)
    stop = told(view, "label.text-too-long")
    assert view.told.owners_of(stop) == ()
    set_aside(workshop, label.id, None, stop, "never mind")
    assert all_set_aside(workshop) == ()
    assert not view_of(workshop, run).may_print


@pytest.mark.parametrize(
    ("rank", "key", "may"),
    [
        (Rank.WATCH, "label.type-too-small", True),
        (Rank.WATCH, "required.net-high", True),
        (Rank.NOTE, "required.lot-missing", True),
        (Rank.NOTE, "sheet.actual-size", False),
        (Rank.STOPS, "label.larger-than-sticker", False),
        # EN 15494:2019, 4.3: symbols of 5 mm; a smaller one can be printed all the same
        (Rank.STOPS, "caution.symbol-small", True),
    ],
)
def test_rules_and_what_to_watch_may_be_left(rank: Rank, key: str, *, may: bool) -> None:
    assert may_set_aside(Finding(rank, key)) is may


def test_what_concerns_the_layout_is_left_for_every_candle(workshop: Workspace) -> None:
    run = a_run(workshop, "bramble", "cedar")
    label = view_of(workshop, run).labels[0].id
    label_elements.change_element(workshop, label, 1, {"size_pt": 3.0, "min_size_pt": 3.0})
    leave(workshop, run, "label.type-too-small")
    assert [one.candle_id for one in all_set_aside(workshop)] == [None]
    assert "label.type-too-small" not in keys(view_of(workshop, run))


def test_a_label_that_goes_takes_along_what_was_left_of_it(workshop: Workspace) -> None:
    run = a_run(workshop)
    leave(workshop, run, SMALL)
    label = view_of(workshop, run).labels[0].id
    print_runs.remove_run(workshop, run)
    labels.remove_label(workshop, label)
    assert all_set_aside(workshop) == ()


def test_empty_fields_told_in_one_are_left_in_one(workshop: Workspace) -> None:
    run = a_run(workshop)
    label = view_of(workshop, run).labels[0].id
    label_elements.change_element(workshop, label, 1, {"text": "{price} {code}"})
    key = "print.fields-empty"
    assert len(view_of(workshop, run).told.owners_of(told(view_of(workshop, run), key))) == 2
    leave(workshop, run, key)
    assert key not in keys(view_of(workshop, run))


def test_a_caution_sticker_in_any_run_is_one(workshop: Workspace) -> None:
    run = a_run(workshop)
    assert "required.caution-missing" in keys(view_of(workshop, run))
    view = view_of(workshop, run)
    caution = labels.new_label(workshop, CAUTION)
    values = {"label_id": caution, "candle_id": view.lines[0].candle_id, "count": 1}
    print_runs.add_line(workshop, run, values)
    assert "required.caution-missing" not in keys(view_of(workshop, run))


VALUES = st.one_of(st.floats(-1e4, 1e4), st.integers(), st.text(max_size=8), st.booleans())


@given(st.dictionaries(st.text(max_size=6), VALUES, max_size=4), st.sampled_from(list(Rank)))
def test_the_same_finding_is_known_again_whatever_it_is_about(
    data: dict[str, object], rank: Rank
) -> None:
    first = Finding(rank, "required.net-high", data, ("element", 1))
    again = Finding(rank, "required.net-high", dict(reversed(data.items())), ("element", 4))
    assert fingerprint(first) == fingerprint(again)
    row = SetAside(id=3, label_id=1, candle_id=None, finding=first.key, about=fingerprint(first))
    parted = settle([Owned(finding=again, label_id=1, candle_id=9)], [row])
    assert bool(parted.left) is may_set_aside(again)
    other = Owned(finding=again, label_id=2, candle_id=9)
    assert settle([other], [row]).found == (other,)
