"""What is worth saying while pouring."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from wickbench.domain.bench import BenchPot, BenchState, expected_g, total_of
from wickbench.domain.bench_outcome import SLACK_G, STEPS_TOLD, Outcome, outcome, wax_offer
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.recipes import Material, Role

if TYPE_CHECKING:
    from collections.abc import Iterator

_LOAD_OFF = 0.02
"""A load that is off by less than a fiftieth of itself is what scales do anyway."""

_BLEND_OFF = 0.05
"""A twentieth of its part: less is not smelt or seen (common practice, no source)."""

_SLACK = 1e-9


def bench_findings(state: BenchState) -> tuple[Finding, ...]:
    """What is worth saying about the session, each about ``("pot", index)``."""
    found: list[Finding] = []
    for index, pot in enumerate(state.pots):
        if any(step.weighed_g is not None for step in pot.steps):
            found += [replace(one, about=("pot", index, *one.about)) for one in _about_pot(pot)]
    return sort_findings(found)


def _about_pot(pot: BenchPot) -> Iterator[Finding]:
    now = outcome(pot)
    about_load = tuple(_about_load(pot, now))
    yield from about_load or _about_blend(pot)
    yield from _about_limits(pot, now)
    for fill in now.unfilled:
        data = {"vessel": fill.vessel_name, "n": fill.count}
        yield Finding(Rank.WATCH, "bench.not-enough", data, ("line", fill.line_key))
    if pot.holds_g is not None and now.total_g > pot.holds_g + SLACK_G:
        data = {"total_g": now.total_g, "most_g": pot.holds_g}
        yield Finding(Rank.STOPS, "bench.over-pot", data)


def _about_load(pot: BenchPot, now: Outcome) -> Iterator[Finding]:
    planned = now.planned_load.percent
    steps_g = math.fsum(step.step_g for step in pot.steps if step.role is Role.FRAGRANCE)
    off_g = now.oil_g - planned / 100 * now.wax_g
    if abs(off_g) <= steps_g * STEPS_TOLD:
        return
    data: dict[str, object] = {"load_percent": now.load.percent, "planned_percent": planned}
    if now.load.percent > planned * (1 + _LOAD_OFF):
        offer = wax_offer(pot)
        key = "bench.load-high"
        if offer is not None:
            data |= {"add_g": offer.wax_g, "total_g": offer.total_g}
            key = "bench.load-high-no-room" if offer.fits is False else "bench.load-high-add-wax"
        yield Finding(Rank.WATCH, key, data)
    elif now.load.percent < planned * (1 - _LOAD_OFF):
        data["add_g"] = -off_g
        yield Finding(Rank.WATCH, "bench.load-low", data)


def _about_blend(pot: BenchPot) -> Iterator[Finding]:
    """Waxes or oils whose share of their kind is no longer the recipe's."""
    for role in (Role.WAX, Role.FRAGRANCE):
        whole_g, planned_g = total_of(pot, [role]), pot.planned(role)
        there: dict[Material, float] = {}
        for step in pot.new:
            if step.role is role:
                there.setdefault(step.material, pot.saved_g(step))
                there[step.material] += expected_g(pot, step)
        for step in pot.new:
            if step.role is not role or step.top_up:
                continue
            wanted_g = pot.whole_g(step) * whole_g / planned_g if planned_g else 0.0
            off_g = there[step.material] - wanted_g
            if abs(off_g) > max(_BLEND_OFF * wanted_g, step.step_g):
                data = {
                    "name": step.name,
                    "share_percent": 100 * there[step.material] / whole_g,
                    "planned_percent": 100 * pot.whole_g(step) / planned_g,
                }
                yield Finding(Rank.NOTE, f"bench.blend-of-{role}", data, ("step", step.material))


def _about_limits(pot: BenchPot, now: Outcome) -> Iterator[Finding]:
    limit = pot.max_load
    if limit is not None and now.load.of_wax > limit.of_wax + _SLACK:
        data = {
            "load_percent": getattr(now.load, f"of_{limit.basis}"),
            "limit_percent": limit.percent,
        }
        yield Finding(Rank.WATCH, f"bench.over-wax-limit-of-{limit.basis}", data)
    names = {step.material: step.name for step in pot.new}
    for step in pot.steps:
        names |= step.leftover.names if step.leftover is not None else {}
    for oil, share in now.oils_percent.items():
        most = pot.certificate_percent.get(oil)
        if most is not None and share > most + _SLACK:
            data = {"name": names[oil], "share_percent": share, "limit_percent": most}
            yield Finding(Rank.STOPS, "bench.oil-over-certificate", data, ("oil", oil))
