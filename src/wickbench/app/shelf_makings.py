"""Candles and plan lines as what the shelf is asked for: mix, pieces, and the pot it comes from."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from wickbench.app.plan_inputs import prepare, resolve
from wickbench.app.plan_names import line_names, made_of_line
from wickbench.app.plans import LineRow
from wickbench.domain.plan_fill import mix_of_line, recipe_mix
from wickbench.domain.shelf_values import Making, Shelf

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Mapping, Sequence

    from wickbench.app.plan_inputs import Prepared
    from wickbench.app.plans import PlanRow
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf as Stored
    from wickbench.domain.catalog import Candle
    from wickbench.domain.plan import PlanInputs, PlanLine


def candle_row(candle: Candle) -> LineRow:
    """A plan line of one candle, filled as the candle says."""
    net_g = candle.declared_net_g if candle.fill_to == "net" else None
    fill_to = candle.fill_to or "line"
    return LineRow(id=candle.id, candle_id=candle.id, count=1, fill_to=fill_to, net_g=net_g)


def for_sale(stored: Stored) -> tuple[Candle, ...]:
    """Candles in use whose recipe is for sale, by name."""
    found = (
        candle
        for candle in stored.candles.values()
        if not candle.archived
        and (version := stored.versions.get(candle.version_id or 0)) is not None
        and version.state == "for_sale"
    )
    return tuple(sorted(found, key=lambda one: (one.name.casefold(), one.id)))


def makings_of_candles(
    candles: Sequence[Candle], plan: PlanRow, stored: Stored, settings: Settings
) -> dict[Hashable, Making]:
    """Candles as if each were a line of this plan; those that cannot be planned are left out."""
    lines = tuple(candle_row(one) for one in candles)
    return makings_of(prepare(replace(plan, lines=lines), stored, settings))


def makings_of(prepared: Prepared) -> dict[Hashable, Making]:
    """What the lines make, by what they are made of; lines that make the same are one."""
    names = line_names(prepared.resolved)
    things = {one.row.id: made_of_line(one) for one in prepared.resolved}
    found: dict[Hashable, Making] = {}
    for line, each_g, pot_g in _mixed(prepared.inputs):
        thing = things[_id_of(line)]
        if thing in found:
            found[thing] = replace(found[thing], ratio=found[thing].ratio + line.count)
            continue
        found[thing] = Making(
            key=thing,
            name=names[_id_of(line)],
            recipe=line.recipe,
            recipe_key=line.recipe_key,
            each_g=each_g,
            items=line.items,
            ratio=line.count,
            pot_g=pot_g,
        )
    return found


def _id_of(line: PlanLine) -> int:
    return int(str(line.key))


def _mixed(inputs: PlanInputs) -> Iterator[tuple[PlanLine, float, float | None]]:
    """Each line that can be poured, its mix, and what the largest pot holds of it."""
    pot = max(inputs.pots, key=lambda one: one.safe_ml, default=None)
    for line in inputs.lines:
        mix, _ = recipe_mix(line.recipe, inputs.facts)
        line_mix = mix_of_line(line, mix)[0] if mix is not None and line.count else None
        if mix is None or line_mix is None:
            continue
        room_g = None
        if pot is not None:
            room_g = pot.safe_ml * mix.density_g_per_ml - coarsest_g(inputs) * len(mix.parts)
        yield line, line_mix.each_g, room_g


def coarsest_g(inputs: PlanInputs) -> float:
    """Step of the coarsest scale: so much more of each material may go into a pot."""
    return max((scale.reads_to_g for scale in inputs.scales), default=0.0)


def shelf_for(inputs: PlanInputs) -> Shelf:
    """The stock, and what each pot takes beyond its vessels."""
    return Shelf(
        stock=inputs.stock,
        extra_g=inputs.extra_g,
        extra_percent=inputs.extra_percent,
        rounding_g=coarsest_g(inputs),
    )


def lines_by_thing(plan: PlanRow, stored: Stored) -> Mapping[Hashable, tuple[LineRow, ...]]:
    """The lines of a plan by what they make."""
    found: dict[Hashable, tuple[LineRow, ...]] = {}
    for row in plan.lines:
        thing = made_of_line(resolve(row, stored))
        found[thing] = (*found.get(thing, ()), row)
    return found
