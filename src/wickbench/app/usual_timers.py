"""Timers that the work of today offers: stirring, cooling, the end of pouring, curing."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.cooling_view import cooling_offers
from wickbench.app.mixes import cure_days
from wickbench.app.moments import moment, time_words
from wickbench.app.plans import load_plans
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.app.timers import MORNING

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

STIR_MIN: Final = 2
"""How long oil is stirred in: common practice, no source; the recipe's own where it says one."""
_MS_PER_MIN: Final = 60_000
_RECENT: Final = dt.timedelta(days=60)


@dataclass(frozen=True, slots=True)
class UsualTimer:
    """A timer that is offered: after so many minutes, or at a moment."""

    name: str
    words: str
    minutes: float | None = None
    ends_ms: int | None = None

    def ends_from(self, now_ms: int) -> int:
        """When it ends if it is begun now."""
        if self.ends_ms is not None:
            return self.ends_ms
        return now_ms + round((self.minutes or 0.0) * _MS_PER_MIN)


def usual_timers(workspace: Workspace) -> tuple[UsualTimer, ...]:
    """What is offered now, the quickest first."""
    shelf, plans = load_shelf(workspace), load_plans(workspace)
    return (*_stirs(workspace, plans, shelf), *_cools(workspace, plans, shelf),
            *_cures(workspace, plans, shelf))  # fmt: skip


def _stirs(workspace: Workspace, plans: tuple[PlanRow, ...], shelf: Shelf) -> Iterator[UsualTimer]:
    """As long as the recipes say that are being poured; two minutes where none does."""
    begun = [
        version for plan in plans if plan.state == "pouring" for version in _versions(plan, shelf)
    ]
    minutes = dict.fromkeys(
        stir for key in begun if (stir := shelf.versions[key].stir_min) is not None and stir > 0
    )
    for stir in list(minutes) or [STIR_MIN]:
        words = workspace.texts(N_("Stir, {n} min"), n=stir)
        yield UsualTimer(workspace.texts(N_("Stir")), words, minutes=float(stir))


def _cools(workspace: Workspace, plans: tuple[PlanRow, ...], shelf: Shelf) -> Iterator[UsualTimer]:
    now_ms = workspace.clock.now_ms()
    for plan in plans:
        if plan.state != "pouring":
            continue
        for name, ends_ms in cooling_offers(workspace, plan.id, shelf):
            if ends_ms > now_ms:
                at = time_words(workspace.texts, ends_ms, now_ms)
                words = workspace.texts(N_("{name}, {time}"), name=name, time=at)
                yield UsualTimer(name, words, ends_ms=ends_ms)


def _cures(workspace: Workspace, plans: tuple[PlanRow, ...], shelf: Shelf) -> Iterator[UsualTimer]:
    texts, now_ms = workspace.texts, workspace.clock.now_ms()
    for plan in plans:
        if plan.state == "planned" or not plan.pour_on:
            continue
        poured = dt.date.fromisoformat(plan.pour_on)
        for key in _versions(plan, shelf):
            version = shelf.versions[key]
            ends_ms = moment(poured + dt.timedelta(days=cure_days(version, shelf)), MORNING)
            if now_ms < ends_ms and workspace.clock.today() - poured < _RECENT:
                name = texts(N_("{recipe} is cured"), recipe=version.name)
                at = texts.day(poured + dt.timedelta(days=cure_days(version, shelf)))
                yield UsualTimer(
                    name, texts(N_("{name}, {time}"), name=name, time=at), ends_ms=ends_ms
                )


def _versions(plan: PlanRow, shelf: Shelf) -> list[int]:
    """Keys of the recipe versions that a plan pours."""
    found: dict[int, None] = {}
    for line in plan.lines:
        candle = shelf.candles.get(line.candle_id) if line.candle_id is not None else None
        key = candle.version_id if candle else line.version_id
        if key is not None and key in shelf.versions:
            found[key] = None
    return list(found)
