"""The clock that the workshop file is given; nothing in storage reads the time by itself."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    import datetime as dt


class Clock(Protocol):
    """Moments and local days, told by whoever built the program's parts."""

    def now_ms(self) -> int:
        """The moment as UTC milliseconds since 1970."""

    def today(self) -> dt.date:
        """The local calendar day."""

    def monotonic(self) -> float:
        """Seconds that never run backwards, for telling rapid edits apart."""
