"""What undo costs: the same steps with the journal's triggers and without, side by side.

Not collected with the tests:  python tests/benchmarks/bench_journal.py
"""

# ruff: noqa: T201  (a benchmark prints)

from __future__ import annotations

import datetime as dt
import statistics
import tempfile
import time
from pathlib import Path

from wickbench.storage import records, workshop_file

ROUNDS = 60
ROWS = (1, 10, 100)


class Watch:
    """A clock for the workshop file."""

    def now_ms(self) -> int:
        """UTC milliseconds."""
        return time.time_ns() // 1_000_000

    def today(self) -> dt.date:
        """The local day."""
        return dt.datetime.now(dt.UTC).astimezone().date()

    def monotonic(self) -> float:
        """Seconds."""
        return time.monotonic()


def one_step(workshop: workshop_file.WorkshopFile, rows: int, number: int) -> float:
    """Seconds for a step that adds and changes rows."""
    began = time.perf_counter()
    with workshop.step("Bench") as connection:
        for _ in range(rows):
            key = records.insert(connection, "item", {"name": f"item {number}"})
            records.update(connection, "item", key, {"note": "changed"})
    return time.perf_counter() - began


def without_triggers(workshop: workshop_file.WorkshopFile) -> None:
    """Take the journal's triggers away."""
    raw = workshop._raw
    for (name,) in raw.execute(
        "SELECT name FROM sqlite_temp_master WHERE type='trigger'"
    ).fetchall():
        raw.execute(f'DROP TRIGGER temp."{name}"')


def milliseconds(seconds: list[float]) -> str:
    """Median and worst."""
    return f"{statistics.median(seconds) * 1000:8.2f} ms (worst {max(seconds) * 1000:.2f})"


def main() -> None:
    """Print medians for both, the rounds taken in turn, and what opening and undo take."""
    with tempfile.TemporaryDirectory() as folder:
        made = [Path(folder) / f"{name}.wickbench" for name in ("with", "without")]
        pair = [workshop_file.create(path, clock=Watch(), made_by="bench") for path in made]
        without_triggers(pair[1])
        for rows in ROWS:
            print(f"{rows:4} rows  {side_by_side(pair, rows)}")
        print(f"undo  {milliseconds(undo_all(pair[0]))}")
        for workshop in pair:
            workshop.close()
        began = time.perf_counter()
        workshop_file.open_workshop(made[0], clock=Watch()).close()
        print(f"open and close {(time.perf_counter() - began) * 1000:.1f} ms")


def side_by_side(pair: list[workshop_file.WorkshopFile], rows: int) -> str:
    """Rounds taken in turn, so that a busy machine is busy for both."""
    taken: list[list[float]] = [[], []]
    for number in range(ROUNDS):
        for workshop, seconds in zip(pair, taken, strict=True):
            seconds.append(one_step(workshop, rows, number))
    return f"journal {milliseconds(taken[0])}  bare {milliseconds(taken[1])}"


def undo_all(workshop: workshop_file.WorkshopFile) -> list[float]:
    """Seconds of each undo, back to the empty file."""
    seconds = []
    while workshop.may_undo:
        began = time.perf_counter()
        workshop.undo()
        seconds.append(time.perf_counter() - began)
    return seconds


if __name__ == "__main__":
    main()
