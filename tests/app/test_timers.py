"""Timers: what is typed, what rings when, and that they outlive undo and the closed file."""

from __future__ import annotations

import datetime as dt
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.moments import countdown, moment
from wickbench.app.texts import Texts
from wickbench.app.timers import (
    SNOOZE_MIN,
    ends_at,
    ends_words,
    left_words,
    load_timers,
    next_words,
    over_words,
    ring_due,
    snooze,
    start_timer,
    stop_timer,
)
from wickbench.app.workspace import Workspace
from wickbench.domain.errors import CannotRead, DomainError, OutOfRange

if TYPE_CHECKING:
    from app.told_clock import ToldClock
    from wickbench.app.workspace import Services

MINUTE = 60_000


@pytest.fixture(autouse=True)
def _a_morning(clock: ToldClock) -> None:
    """Half past eight on the clock's own day; it stands still unless told."""
    clock.pace = 0.0
    clock.seconds = moment(clock.day, dt.time(8, 30)) / 1000


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [("20", 20), ("1 h 30 min", 90), ("90 s", 1.5), ("2.5", 2.5), ("14:30", 360), ("2:30 pm", 360),
     ("2 pm", 330), ("8:29", 24 * 60 - 1), ("14.30 Uhr", 360), ("12:10 am", 15 * 60 + 40)],
)  # fmt: skip
def test_minutes_and_times_of_day(workshop: Workspace, typed: str, minutes: float) -> None:
    """Counted by hand from 8:30; a time that is over today is tomorrow's."""
    assert ends_at(workshop, typed) - workshop.clock.now_ms() == minutes * MINUTE


def test_a_day_rings_in_its_morning_or_at_its_own_time(workshop: Workspace) -> None:
    assert ends_at(workshop, "5 Dec") == moment(dt.date(2026, 12, 5), dt.time(9))
    assert ends_at(workshop, "5 Dec 18:15") == moment(dt.date(2026, 12, 5), dt.time(18, 15))


@pytest.mark.parametrize(
    ("typed", "kind"),
    [("", CannotRead), ("soon", CannotRead), ("25:00", CannotRead), ("13 pm", CannotRead),
     ("12:60", CannotRead), ("0", OutOfRange), ("yesterday", OutOfRange), ("1 Nov", OutOfRange),
     ("5 Dec 2031", OutOfRange), ("9999999 min", OutOfRange)],
)  # fmt: skip
def test_what_is_no_time_to_come_gets_a_sentence(
    workshop: Workspace, typed: str, kind: type[DomainError]
) -> None:
    with pytest.raises(kind) as refused:
        ends_at(workshop, typed)
    assert "{" not in workshop.texts.say(refused.value)
    assert not ends_words(workshop, typed)


def test_a_timer_rings_once_and_stays_until_it_was_seen(
    workshop: Workspace, clock: ToldClock
) -> None:
    key = start_timer(workshop, "Stir", ends_at(workshop, "2"))
    clock.seconds += 119
    assert not ring_due(workshop)
    clock.seconds += 1
    assert [one.name for one in ring_due(workshop)] == ["Stir"]
    assert not ring_due(workshop)
    assert next_words(workshop.texts, load_timers(workshop), clock.now_ms()) == "Time is up: Stir"
    snooze(workshop, key)
    assert load_timers(workshop)[0].ends_ms == clock.now_ms() + SNOOZE_MIN * MINUTE
    assert not load_timers(workshop)[0].rings
    stop_timer(workshop, key)
    assert load_timers(workshop) == ()
    stop_timer(workshop, key)
    snooze(workshop, key)


def test_one_that_ended_while_the_file_was_closed_says_so(
    workshop: Workspace, services: Services, clock: ToldClock
) -> None:
    start_timer(workshop, "Cool", ends_at(workshop, "10"))
    workshop.close()
    clock.seconds += 3600
    with closing(Workspace.open(workshop.path, services)) as again:
        (rung,) = ring_due(again)
        (kept,) = load_timers(again)
        assert rung.name == kept.name == "Cool"
        assert "08:40, before" in over_words(again.texts, kept, clock.now_ms())
        assert "08:40" in left_words(again.texts, kept, clock.now_ms())


def test_undo_leaves_timers_alone(workshop: Workspace) -> None:
    start_timer(workshop, "Stir", ends_at(workshop, "2"))
    assert not workshop.may_undo


def test_the_same_name_is_moved_and_a_new_one_is_added(workshop: Workspace) -> None:
    first = start_timer(workshop, "Pot at 57", ends_at(workshop, "30"))
    assert start_timer(workshop, "Pot at 57", ends_at(workshop, "34")) == first
    start_timer(workshop, " ", ends_at(workshop, "40"))
    names = [one.name for one in load_timers(workshop)]
    assert names == ["Pot at 57", "Timer"]


@given(st.integers(-5000, 3_599_000))
def test_below_an_hour_the_countdown_is_read_as_minutes_and_seconds(left_ms: int) -> None:
    """Read back, minutes and seconds are what is left, rounded up to the second."""
    minutes, seconds = countdown(Texts(), left_ms, 0).split(":")
    assert int(minutes) * 60 + int(seconds) == max(0, -(-left_ms // 1000))
