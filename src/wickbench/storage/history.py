"""Which steps can be undone and redone, which merge, and which must stay."""

from __future__ import annotations

import datetime as dt
from collections.abc import Hashable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.storage.refusals import CannotUndo

if TYPE_CHECKING:
    from wickbench.storage.clock import Clock

LIMIT = 1000
MERGE_WITHIN_S = 1.5


@dataclass(slots=True)
class Step:
    """One act in the history.

    Attributes:
        number: its key in the log.
        label: names the act.
        merge: rapid steps with the same key become one.
        at_s: when it was made, by the clock that never runs backwards.
        tables: journalled tables that it touched.
        booked_on: the local day, when it booked a fact.
        on_paper: what it booked was printed or exported since.
    """

    number: int
    label: str
    merge: Hashable | None
    at_s: float = 0.0
    tables: frozenset[str] = frozenset()
    booked_on: dt.date | None = None
    on_paper: bool = False

    def take_in(self, later: Step) -> None:
        """Make a rapid edit of the same thing part of this step."""
        self.at_s = later.at_s
        self.tables |= later.tables
        self.booked_on = self.booked_on or later.booked_on


class History:
    """The steps done and undone since the file was opened."""

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._done: list[Step] = []
        self._undone: list[Step] = []
        self._last_number = 0

    def joins(self, merge: Hashable | None) -> Step | None:
        """The step that an edit of the same thing becomes part of now."""
        top = self._done[-1] if self._done else None
        if merge is None or top is None or self._undone or top.merge != merge:
            return None
        late = self._clock.monotonic() - top.at_s > MERGE_WITHIN_S
        return None if late or self._why_not(top) else top

    def next_number(self) -> int:
        """The key of a step that is not part of the last one."""
        return self._last_number + 1

    def forgotten_by(self, joined: Step | None) -> list[int]:
        """Keys of the steps that go once another step is kept."""
        overflow = self._done[:1] if joined is None and len(self._done) >= LIMIT else []
        return [step.number for step in (*self._undone, *overflow)]

    def remember(self, step: Step, joined: Step | None) -> None:
        """Put a step that was kept on top."""
        self._undone.clear()
        if joined:
            joined.take_in(step)
            return
        self._done.append(step)
        del self._done[:-LIMIT]
        self._last_number = step.number

    def to_undo(self) -> Step:
        """The step to take back. Raises ``CannotUndo``."""
        return self._may(self._done)

    def to_redo(self) -> Step:
        """The step to do again. Raises ``CannotUndo``."""
        return self._may(self._undone)

    def moved(self, step: Step) -> None:
        """A step was taken back or done again; what follows does not merge with it."""
        undone = bool(self._done) and self._done[-1] is step
        source, target = (self._done, self._undone) if undone else (self._undone, self._done)
        target.append(source.pop())
        step.merge = None

    @property
    def may_undo(self) -> bool:
        """Whether the last step can be taken back now."""
        return bool(self._done) and not self._why_not(self._done[-1])

    @property
    def may_redo(self) -> bool:
        """Whether the step taken back last can be done again now."""
        return bool(self._undone) and not self._why_not(self._undone[-1])

    @property
    def undo_label(self) -> str | None:
        """The act on top of the history."""
        return self._done[-1].label if self._done else None

    @property
    def redo_label(self) -> str | None:
        """The act that was taken back last."""
        return self._undone[-1].label if self._undone else None

    def seal(self, tables: frozenset[str]) -> None:
        """Steps that booked something in these tables stay: it was printed or exported."""
        for step in (*self._done, *self._undone):
            if step.booked_on is not None and step.tables & tables:
                step.on_paper = True

    def _may(self, steps: list[Step]) -> Step:
        if not steps:
            raise CannotUndo("storage.nothing-to-undo")
        if reason := self._why_not(steps[-1]):
            raise CannotUndo(reason)
        return steps[-1]

    def _why_not(self, step: Step) -> str:
        """The key of the sentence that says why a step must stay; empty when it need not."""
        if step.booked_on is None:
            return ""
        if step.on_paper:
            return "storage.on-paper"
        return "" if step.booked_on == self._clock.today() else "storage.booked-earlier"
