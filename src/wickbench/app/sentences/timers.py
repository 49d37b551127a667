"""Sentences about timers."""

from __future__ import annotations

from wickbench.app.texts_marker import N_

SENTENCES: dict[str, str] = {
    "timer.no-time": N_(
        "“{typed}” is no time. Enter minutes, such as 20, a time, such as 14:30, or a day, such as "
        "28 November."
    ),
    "timer.past": N_("“{typed}” is over already. Enter a time that is still to come."),
    "timer.too-far": N_("A timer rings within {days} days. Enter a nearer day."),
}
