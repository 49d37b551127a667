"""An empty workshop in a file of its own, with a clock that moves only when told. No window."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from app.told_clock import ToldClock
from wickbench.app.questions import Silent
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path


@pytest.fixture
def clock() -> ToldClock:
    return ToldClock()


@pytest.fixture
def services(clock: ToldClock) -> Services:
    return Services(clock, Texts(), Silent())


@pytest.fixture
def new_workshop(tmp_path: Path, services: Services) -> Iterator[Callable[[], Workspace]]:
    """Makes as many empty workshops as a test wants, and closes them."""
    made: list[Workspace] = []

    def make() -> Workspace:
        made.append(Workspace.create(tmp_path / f"{len(made)}.wickbench", services))
        return made[-1]

    yield make
    for one in made:
        one.close()


@pytest.fixture
def workshop(new_workshop: Callable[[], Workspace]) -> Workspace:
    """One empty workshop, open."""
    return new_workshop()
