"""The pour plan as it is shown: every figure already in the person's words and units."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Self

from wickbench.app.mixes import cure_days
from wickbench.app.plan_inputs import Prepared, Resolved, prepare
from wickbench.app.plan_pots import CardMemo, PotCard, celsius, pot_cards
from wickbench.app.plans import PlanRow, pour_day
from wickbench.app.recipe_fields import FILL_NAMES
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.plan import LineMix, PlanMemo, PourPlan, plan_pour

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts

_E4 = 10_000


@dataclass(frozen=True, slots=True, kw_only=True)
class LineShown:
    """One line of the table, in words."""

    id: int
    candle: str
    recipe: str
    vessel: str
    wick: str
    count: str
    fill: str
    mix_each: str
    net: str
    cost: str


@dataclass(frozen=True, slots=True)
class Total:
    """One row of what the plan comes to: a label and a value, both in words."""

    label: str
    value: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """Everything the page shows of a plan."""

    plan: PlanRow
    prepared: Prepared
    result: PourPlan
    lines: tuple[LineShown, ...]
    pots: tuple[PotCard, ...]
    totals: tuple[Total, ...]
    findings: tuple[Finding, ...]


class LineMemo:
    """Lines in words as they were the last time; one that takes the same mix keeps its words."""

    def __init__(self) -> None:
        self._common: tuple[Shelf, Texts] | None = None
        self._known: dict[int, tuple[Resolved, LineMix | None, LineShown]] = {}

    def of(self, shelf: Shelf, texts: Texts) -> Self:
        """Forget everything unless shelf and texts are those of the last time."""
        common = self._common
        if common is None or common[0] is not shelf or common[1] is not texts:
            self._common, self._known = (shelf, texts), {}
        return self

    def line(self, one: Resolved, mix: LineMix | None, shelf: Shelf, texts: Texts) -> LineShown:
        """The line in words."""
        known = self._known.get(one.row.id)
        if known is None or known[0] != one or known[1] != mix:
            known = self._known[one.row.id] = (one, mix, _line(one, mix, shelf, texts))
        return known[2]


@dataclass(frozen=True, slots=True)
class ViewMemo:
    """What the view before this one knew."""

    plan: PlanMemo = field(default_factory=PlanMemo)
    cards: CardMemo = field(default_factory=CardMemo)
    lines: LineMemo = field(default_factory=LineMemo)


def view_plan(
    plan: PlanRow,
    shelf: Shelf,
    settings: Settings,
    texts: Texts,
    *,
    today: dt.date,
    taken_codes: Collection[str] = (),
    memo: ViewMemo | None = None,
    quick: bool = False,
) -> PlanView:
    """Compute the plan and put it into words.

    Args:
        plan: as stored, or with what is being typed in place.
        shelf: snapshot of materials, vessels, recipes, candles, equipment and stock.
        settings: of the file.
        texts: the person's words and units.
        today: the day for a plan without one.
        taken_codes: lot codes that exist already.
        memo: of the view before this one: only what changed is computed and put into words.
        quick: while a person types: the pots may be settled later; ``result.hurried`` says so.
    """
    prepared = prepare(plan, shelf, settings)
    memo = memo or ViewMemo()
    result = plan_pour(prepared.inputs, memo.plan, quick=quick)
    day = pour_day(plan, today)
    mixes = {mix.line_key: mix for mix in result.lines}
    words = memo.lines.of(shelf, texts)
    lines = tuple(words.line(one, mixes.get(one.row.id), shelf, texts) for one in prepared.resolved)
    cards, said = pot_cards(result, settings, texts, day, taken_codes, memo.cards)
    return PlanView(
        plan=plan,
        prepared=prepared,
        result=result,
        lines=lines,
        pots=cards,
        totals=tuple(_totals(prepared, result, lines, shelf, texts, day)),
        findings=sort_findings(
            [*_once(result.findings), *prepared.findings, *said, *_unpriced(result, shelf)]
        ),
    )


def _once(findings: Iterable[Finding]) -> list[Finding]:
    """What two fillings of a pot say in the same words stands once."""
    kept: list[Finding] = []
    for one in findings:
        same = (one.key, one.data)
        if one.about[:1] != ("pot",) or all((it.key, it.data) != same for it in kept):
            kept.append(one)
    return kept


def _line(one: Resolved, mix: LineMix | None, shelf: Shelf, texts: Texts) -> LineShown:
    return LineShown(
        id=one.row.id,
        candle=one.candle.name if one.candle else "",
        recipe=one.version.name if one.version else "",
        vessel=one.vessel.name if one.vessel else "",
        wick=wicks_text(one.wick_ids, shelf, texts),
        count="" if one.row.count is None else str(one.row.count),
        fill=texts(FILL_NAMES[one.row.fill_to]),
        mix_each="" if mix is None else texts.quantity(mix.each_g, "mass", step=0.1, both=False),
        net="" if mix is None else _net(one, mix, texts),
        cost="" if mix is None else texts.money(mix.cost_e4 / _E4),
    )


def wicks_text(wick_ids: tuple[int, ...], shelf: Shelf, texts: Texts) -> str:
    """Wicks in words: "Flat cotton 6", "2 × Flat cotton 6", "no wick"."""
    if not wick_ids:
        return texts(N_("no wick"))
    counted = {key: wick_ids.count(key) for key in dict.fromkeys(wick_ids)}
    return ", ".join(
        shelf.names.get(key, "") if count == 1 else f"{count} × {shelf.names.get(key, '')}"
        for key, count in counted.items()
    )


def _net(one: Resolved, mix: LineMix, texts: Texts) -> str:
    """Net weight in both systems; with the declared one where it differs."""
    net = texts.quantity(mix.each_g, "mass")
    declared = one.candle.declared_net_g if one.candle else None
    if declared is None:
        return net
    return texts(
        N_("{net}, declared {declared}"),
        net=net,
        declared=texts.quantity(declared, "mass", both=False),
    )


def _totals(  # noqa: PLR0917 - what it is made of
    prepared: Prepared,
    result: PourPlan,
    lines: tuple[LineShown, ...],
    shelf: Shelf,
    texts: Texts,
    day: dt.date,
) -> list[Total]:
    pots = len(result.pots)
    count = texts.plural("{n} candle", "{n} candles", result.candles)
    in_pots = texts.plural("in one pot", "in {n} pots", pots)
    totals = [
        Total(texts(N_("Candles")), f"{count} {in_pots}" if pots else count),
        Total(texts(N_("Mix in all")), texts.quantity(result.total_g, "mass")),
        Total(texts(N_("Left over")), texts.quantity(result.leftover_g, "mass")),
    ]
    totals += _pour_at(result, texts)
    mixes = {mix.line_key: mix for mix in result.lines}
    totals += _costs(prepared, mixes, lines, texts)
    totals += _cured(prepared, shelf, texts, day)
    return totals


def _pour_at(result: PourPlan, texts: Texts) -> list[Total]:
    """One row where all are poured alike, else one for each recipe."""
    degrees = {
        pot.recipe.name: celsius(texts, pot.recipe.pour_c)
        for pot in result.pots
        if pot.recipe.pour_c is not None
    }
    if len(set(degrees.values())) == 1:
        return [Total(texts(N_("Pour at")), next(iter(degrees.values())))]
    return [Total(texts(N_("Pour {recipe} at"), recipe=name), hot) for name, hot in degrees.items()]


def _costs(
    prepared: Prepared, mixes: dict[object, LineMix], lines: tuple[LineShown, ...], texts: Texts
) -> list[Total]:
    names = [_called(one) for one in prepared.resolved]
    times = Counter(names)
    totals = []
    for one, name, line in zip(prepared.resolved, names, lines, strict=True):
        mix = mixes.get(one.row.id)
        if mix is None:
            continue
        vessel = one.vessel.name if one.vessel else ""
        shown = f"{name}, {vessel}" if times[name] > 1 else name
        value = line.cost
        if mix.unpriced:
            value = texts(N_("at least {cost}"), cost=value)
        totals.append(Total(shown, value))
    return [Total(texts(N_("Material for each:")), ""), *totals] if totals else []


def _unpriced(result: PourPlan, shelf: Shelf) -> list[Finding]:
    """What was never bought at a price, and is therefore missing from the cost."""
    missing = dict.fromkeys(key for mix in result.lines for key in mix.unpriced)
    return [
        Finding(Rank.NOTE, "plan.unpriced", {"name": shelf.names[key]}, ("item", key))
        for key in missing
        if isinstance(key, int) and key in shelf.names
    ]


def _called(one: Resolved) -> str:
    if one.candle:
        return one.candle.name
    return one.version.name if one.version else ""


def _cured(prepared: Prepared, shelf: Shelf, texts: Texts, day: dt.date) -> list[Total]:
    versions = {one.version.id: one.version for one in prepared.resolved if one.version is not None}
    days = [cure_days(version, shelf) for version in versions.values()]
    if not days:
        return []
    return [Total(texts(N_("All cured")), texts.day(day + dt.timedelta(days=max(days))))]
