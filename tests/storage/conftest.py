"""A clock that stands still until told otherwise, and a workshop file of its own for each test."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from typing import TYPE_CHECKING

import pytest

from wickbench.storage import workshop_file
from wickbench.storage.tables import METADATA

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from wickbench.storage.workshop_file import WorkshopFile

Dump = dict[str, list[tuple[object, ...]]]


@dataclass
class FakeClock:
    day: dt.date = dt.date(2026, 3, 14)
    moment_ms: int = 1_773_489_600_000
    seconds: float = 100.0

    def now_ms(self) -> int:
        return self.moment_ms

    def today(self) -> dt.date:
        return self.day

    def monotonic(self) -> float:
        return self.seconds


@pytest.fixture
def clock() -> FakeClock:
    return FakeClock()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "Larch & Ümlaut 50%.wickbench"


@pytest.fixture
def workshop(path: Path, clock: FakeClock) -> Iterator[WorkshopFile]:
    opened = workshop_file.create(path, clock=clock, made_by="tests")
    yield opened
    opened.close()


@pytest.fixture
def dump() -> Callable[[WorkshopFile], Dump]:
    """Every row of every journalled table, for comparing states as a whole."""

    names = [table.name for table in METADATA.sorted_tables if table.info["journalled"]]

    def dump_of(workshop: WorkshopFile) -> Dump:
        raw = workshop._raw
        return {
            name: raw.execute(f"SELECT * FROM {name} ORDER BY 1").fetchall()  # noqa: S608
            for name in names
        }

    return dump_of
