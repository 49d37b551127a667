"""What can I pour? How far the shelf reaches for a plan, for chosen candles, for each alone."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Final

from wickbench.app.plan_inputs import prepare
from wickbench.app.shelf_makings import (
    for_sale,
    lines_by_thing,
    makings_of,
    makings_of_candles,
    shelf_for,
)
from wickbench.app.texts_marker import N_
from wickbench.domain.costs import share_out
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.from_the_shelf import from_the_shelf, use_of
from wickbench.domain.shelf_purchases import freed_by_one, shelf_findings
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Sequence

    from wickbench.app.plans import PlanRow
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf as Stored
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.shelf_values import Making, Reach, Shelf

HOW_SHELF: Final = (
    N_(
        "Each candle takes its mix by the recipe, its vessel, wicks, lid and packaging; each pot "
        "takes the extra beside that, and one step of the coarsest scale of each material."
    ),
    N_(
        "The most candles for which nothing that was counted runs out, found by halving; pots are "
        "the fewest that hold whole vessels below their safe fill."
    ),
    N_(
        "Several candles keep the ratio of their counts as near as whole candles allow: each count "
        "is rounded half up."
    ),
    N_(
        "Only what runs out first can free anything. The purchase is as much of it as can be used "
        "before the next thing runs out. What was never counted or bought sets no limit here."
    ),
)
_NAMED: Final = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfAnswer:
    """How far the shelf reaches, in words.

    Attributes:
        headline: how many candles, in how many pots.
        makes: how many of each; empty for one candle.
        findings: what runs out, what to buy, what was never counted.
        counts: of each thing that is made, as ``plan_these`` takes it.
    """

    headline: str
    makes: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()
    counts: Mapping[Hashable, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class CandleReach:
    """One candle alone, as if the whole shelf were for it.

    Attributes:
        id: of the candle.
        name: with its code before it, which tells sizes apart.
        makes: how many; ``None`` when nothing that it takes was counted.
        runs_out: what runs out first, or why it cannot be told.
    """

    id: int
    name: str
    makes: int | None
    runs_out: str


def plan_reach(
    plan: PlanRow, stored: Stored, settings: Settings, texts: Texts
) -> ShelfAnswer | None:
    """For the lines of a plan in the ratio of their counts; ``None`` when none can be poured."""
    try:
        prepared = prepare(plan, stored, settings)
        makings = tuple(makings_of(prepared).values())
        return _answer(makings, shelf_for(prepared.inputs), stored, texts) if makings else None
    except DomainError as error:
        return _refused(error, texts)


def chosen_reach(
    chosen: Collection[int], plan: PlanRow, stored: Stored, settings: Settings, texts: Texts
) -> ShelfAnswer | None:
    """For chosen candles, as many of each, from what the other lines of the plan leave."""
    candles = [stored.candles[key] for key in chosen if key in stored.candles]
    try:
        prepared = prepare(plan, stored, settings)
        makings = makings_of_candles(candles, plan, stored, settings)
        if not makings:
            return None
        others = [one for key, one in makings_of(prepared).items() if key not in makings]
        shelf = _without(others, shelf_for(prepared.inputs))
        return _answer(tuple(makings.values()), shelf, stored, texts)
    except DomainError as error:
        return _refused(error, texts)


def _without(others: Sequence[Making], shelf: Shelf) -> Shelf:
    """What other candles of the plan leave."""
    if not others:
        return shelf
    use = use_of(others, shelf, 1)
    left = {
        item: None if have is None else have - use.get(item, 0.0)
        for item, have in shelf.stock.items()
    }
    return replace(shelf, stock=left)


def _answer(makings: Sequence[Making], shelf: Shelf, stored: Stored, texts: Texts) -> ShelfAnswer:
    reach = from_the_shelf(makings, shelf, near=True)
    names = {one.key: one.name for one in makings}
    return ShelfAnswer(
        headline=_headline(reach, texts),
        makes=tuple(
            texts(N_("{count} × {name}"), count=count, name=names[key])
            for key, count in reach.candles.items()
        )
        if len(makings) > 1 and reach.total
        else (),
        findings=shelf_findings(makings, shelf, stored.names, near=True),
        counts=reach.candles if reach.total else {},
    )


def _headline(reach: Reach, texts: Texts) -> str:
    if reach.sets is None:
        return texts(N_("No number can be told"))
    if not reach.total:
        return texts(N_("Not one candle"))
    count = texts.plural("{n} candle", "{n} candles", reach.total)
    return f"{count} {texts.plural('in one pot', 'in {n} pots', reach.pots)}"


def _refused(error: DomainError, texts: Texts) -> ShelfAnswer:
    told = Finding(Rank.WATCH, error.key, error.data)
    return ShelfAnswer(headline=texts(N_("No number can be told")), findings=(told,))


# -- each candle alone -----------------------------------------------------------------------------
def candles_alone(
    plan: PlanRow, stored: Stored, settings: Settings, texts: Texts
) -> tuple[tuple[CandleReach, ...], tuple[Finding, ...]]:
    """Every candle for sale by itself, and the one purchase that frees most of them."""
    candles = for_sale(stored)
    shelf = shelf_for(prepare(plan, stored, settings).inputs)
    makings = makings_of_candles(candles, plan, stored, settings)
    rows, usable = [], []
    for candle in candles:
        making = makings.get(("candle", candle.id))
        name = f"{candle.code} · {candle.name}" if candle.code else candle.name
        if making is None:
            said = texts(N_("its recipe or fill line is missing"))
            rows.append(CandleReach(id=candle.id, name=name, makes=None, runs_out=said))
            continue
        try:
            reach = from_the_shelf([making], shelf)
        except DomainError as error:
            said = texts.say(error)
            rows.append(CandleReach(id=candle.id, name=name, makes=None, runs_out=said))
            continue
        usable.append(making)
        rows.append(_row(candle.id, name, reach, stored, texts))
    return tuple(rows), _frees_most(usable, shelf, stored, texts)


def _row(key: int, name: str, reach: Reach, stored: Stored, texts: Texts) -> CandleReach:
    if reach.sets is None:
        return CandleReach(id=key, name=name, makes=None, runs_out=texts(N_("never counted")))
    first = ", ".join(stored.names.get(one.material, "") for one in reach.runs_out)
    return CandleReach(id=key, name=name, makes=reach.sets, runs_out=first)


def _frees_most(
    makings: Sequence[Making], shelf: Shelf, stored: Stored, texts: Texts
) -> tuple[Finding, ...]:
    """Buying one thing, looked at over candles that each may have the whole shelf."""
    if len(makings) <= 1:
        return ()
    names = {one.key: one.name for one in makings}
    for freed in freed_by_one(makings, shelf)[:1]:
        each = [
            texts(N_("{name} (as many as you like)"), name=names[key])
            if more is None
            else texts(N_("{name} ({n} more)"), name=names[key], n=more)
            for key, more in freed.more.items()
        ]
        shown = (*each[:_NAMED], "…") if len(each) > _NAMED else tuple(each)
        data = {"name": stored.names.get(freed.material, ""), "names": shown}
        return (Finding(Rank.NOTE, "shelf.frees-most", data, ("material", freed.material)),)
    return ()


# -- taking it over --------------------------------------------------------------------------------
def plan_these(
    workspace: Workspace,
    plan: PlanRow,
    stored: Stored,
    counts: Mapping[Hashable, int],
    *,
    origin: object = None,
) -> None:
    """Give the lines of a plan these counts, and add lines for candles that it has not yet.

    Lines of other candles stay as they are. One step, undone as one.
    """
    lines = lines_by_thing(plan, stored)
    position = 1 + max((row.position for row in plan.lines), default=-1)
    with workspace.step(N_("Plan what the shelf makes"), origin=origin) as connection:
        for thing, count in counts.items():
            known = lines.get(thing, ())
            if known:
                for row, part in zip(known, _shared(count, known), strict=True):
                    records.update(connection, "plan_line", row.id, {"count": part})
            elif isinstance(thing, tuple) and thing[0] == "candle":
                values = _new_line(stored, int(str(thing[1])))
                values |= {"plan_id": plan.id, "position": position, "count": count}
                records.insert(connection, "plan_line", values)
                position += 1


def _shared(count: int, rows: Iterable[object]) -> tuple[int, ...]:
    """A count over the lines that make the same, in the ratio of what stood there."""
    weights = [float(getattr(row, "count", 0) or 0) for row in rows]
    return share_out(count, weights if any(weights) else [1.0] * len(weights))


def _new_line(stored: Stored, candle: int) -> dict[str, object]:
    one = stored.candles[candle]
    net_g = one.declared_net_g if one.fill_to == "net" else None
    return {"candle_id": candle, "fill_to": one.fill_to or "line", "net_g": net_g}
