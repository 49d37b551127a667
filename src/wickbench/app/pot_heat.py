"""What is known of the heat of each pot of a plan, as values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from wickbench.app.cooling_log import PotLoses
from wickbench.app.heatings import Told
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding
from wickbench.domain.heat import Mixed
from wickbench.domain.heat_learned import HeatingTime
from wickbench.domain.plan import PotPlan
from wickbench.domain.pouring_time import PourWindow


@dataclass(frozen=True, slots=True)
class HeatKnown:
    """What earlier pours tell: of each heat source, and of each pot, by their keys."""

    told: Mapping[int, Told] = field(default_factory=dict)
    loses: Mapping[int, PotLoses] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class PotHeat:
    """The figures of one pot; ``None`` where something is missing for it.

    Attributes:
        plan: the pot of the plan.
        heat_to_c, add_c, pour_c: the temperatures of its recipe.
        room_c: the room.
        energy_kj: heat for wax, bath and metal.
        time: minutes on the heat.
        mixed: the pot once the oil is in.
        warm_c: how warm it must be before, to have ``add_c`` with the oil in.
        flakes: the melted rest once the pot's leftovers are in, put in set and cold.
        flakes_warm_c: how warm the rest must be before, to have ``heat_to_c`` with them in.
        window_c: from where to where it can be poured.
        wait_min: minutes until it has come down to ``pour_c``: quickest, middle, slowest.
        window: vessels in time, by the fastest and by the slowest loss that was seen.
        vessels: to be filled from it.
        trouble: why no heat can be told.
        no_time: why no time for pouring can be told.
    """

    plan: PotPlan
    heat_to_c: float | None
    add_c: float | None
    pour_c: float | None
    room_c: float
    energy_kj: float | None = None
    time: HeatingTime | None = None
    mixed: Mixed | None = None
    warm_c: float | None = None
    flakes: Mixed | None = None
    flakes_warm_c: float | None = None
    window_c: tuple[float, float] | None = None
    wait_min: tuple[float, float, float] | None = None
    window: PourWindow | None = None
    vessels: int = 0
    trouble: DomainError | None = None
    no_time: DomainError | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanHeat:
    """What the card shows: a paragraph for each pot, findings, and what was assumed."""

    pots: tuple[PotHeat, ...]
    words: tuple[tuple[str, tuple[str, ...]], ...]
    findings: tuple[Finding, ...]
    assumed: Mapping[str, str]


def in_time(window: PourWindow, vessels: int) -> bool:
    """Whether all vessels are poured before the pot is too cold.

    The lower number of a window never counts the last vessel of a pot that is emptied: what is left
    for it cools in no time when nothing of the loss is left out. Nobody need fear for that one.
    """
    return window.at_best >= vessels and window.sure >= vessels - 1
