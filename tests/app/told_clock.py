"""A clock that moves only when told."""

from __future__ import annotations

import datetime as dt


class ToldClock:
    """Moves on by hand; ``monotonic`` runs fast, so that edits do not merge by chance."""

    def __init__(self) -> None:
        self.day = dt.date(2026, 11, 25)
        self.seconds = 0.0
        self.pace = 10.0

    def now_ms(self) -> int:
        self.seconds += self.pace
        return int(self.seconds * 1000)

    def today(self) -> dt.date:
        return self.day

    def monotonic(self) -> float:
        self.seconds += self.pace
        return self.seconds
