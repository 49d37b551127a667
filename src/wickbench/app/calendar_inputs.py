"""From a computed plan and the shelf to what the calendar counts with."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.candle_state import state_of
from wickbench.app.mixes import cure_days
from wickbench.app.plan_inputs import items_of
from wickbench.app.plan_names import line_names
from wickbench.app.workday_fields import SUPPLIER_DAYS_OFF, WORK_DAY_NAMES
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.pour_calendar import Making, Step, Supply, Wanted, burn_test_days
from wickbench.domain.recipes import mix_parts
from wickbench.domain.workdays import WorkDays

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping

    from wickbench.app.plan_inputs import Resolved
    from wickbench.app.plan_view import PlanView
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.domain.plan import LineMix, PlanLine

USUAL_SPARE_DAYS: Final = 1
_G_PER_HOUR_AND_WICK: Final = 5.0
"""Common practice, no source; measured pillar candles burned 4.4 to 7.3 g/h (Indoor Air, 2021)."""
_TEST_CANDLES: Final = 2
_FOR_LABELLING: Final = frozenset({"lid", "sheet", "packaging", "supplies"})
_MOST_BURN_HOURS: Final = 1000.0


def work_days(settings: Settings) -> WorkDays:
    """The days on which the maker pours and labels.

    Raises:
        OutOfRange: ``calendar.no-workday`` when no day is ticked.
    """
    off = (at for at, name in enumerate(WORK_DAY_NAMES) if not settings[name])
    return WorkDays(off=frozenset(off))


def supplier_days(settings: Settings) -> WorkDays:
    """The days that suppliers count and deliver on."""
    return WorkDays(off=SUPPLIER_DAYS_OFF.get(settings.text("supplier_days"), frozenset()))


def wanted_of(
    view: PlanView, shelf: Shelf, settings: Settings, needed_on: dt.date
) -> tuple[Wanted, list[Finding]]:
    """What is asked of the calendar, and what is not known for it.

    Raises:
        OutOfRange: ``calendar.no-makings`` for a plan without a line that can be poured, and as
            ``work_days``.
    """
    makings = _Makings(view, shelf)
    spare = view.plan.spare_days
    wanted = Wanted(
        needed_on=needed_on,
        makings=tuple(makings.each.values()),
        supplies=tuple(makings.supplies()),
        work=work_days(settings),
        supplier_work=supplier_days(settings),
        spare_days=USUAL_SPARE_DAYS if spare is None else spare,
    )
    return wanted, [*makings.unknown(), *makings.untold()]


class _Makings:
    """The candles of a plan, what each takes, and what of it has to be ordered."""

    def __init__(self, view: PlanView, shelf: Shelf) -> None:
        self._shelf = shelf
        self._short = {one.material: one.have for one in view.result.shortages}
        self._names = line_names(view.prepared.resolved)
        self.each: dict[str, Making] = {}
        self.uses: dict[str, dict[object, float]] = {}
        self._loose: list[str] = []
        mixes = {mix.line_key: mix for mix in view.result.lines}
        lines = {line.key: line for line in view.prepared.inputs.lines}
        for one in view.prepared.resolved:
            if one.row.id in mixes:
                self._add(one, lines[one.row.id], mixes[one.row.id])

    def _add(self, one: Resolved, line: PlanLine, mix: LineMix) -> None:
        if one.version is None:
            return
        name = self._names[one.row.id]
        state = "passed" if one.candle is None else state_of(one.candle, self._shelf).state
        if one.candle is None and name not in self._loose:
            self._loose.append(name)
        burns = 0 if state == "passed" else _burn_days(mix.each_g, len(one.wick_ids))
        self.each[name] = Making(
            name=name,
            cure_days=cure_days(one.version, self._shelf),
            burn_days=burns,
            test_poured=state == "in_test",
        )
        grams = {part.material: mix.each_g * part.share for part in mix_parts(line.recipe)}
        self.uses[name] = {**grams, **{item: float(n) for item, n in items_of(one).items()}}

    def supplies(self) -> Iterator[Supply]:
        """What the plan is short of, where it is known how long it takes."""
        for material, have in self._short.items():
            days, in_workdays = self._lead(material)
            names = frozenset(name for name, uses in self.uses.items() if material in uses)
            if days is None or not names:
                continue
            yield Supply(
                name=self._shelf.names.get(material, ""),
                lead_days=days,
                lead_in_workdays=in_workdays,
                needed_for=Step.LABEL if self._for_label(material) else Step.POUR,
                for_test=self._for_test(material, have),
                makings=names,
            )

    def _lead(self, material: int) -> tuple[int | None, bool]:
        found = self._shelf.vessels.get(material) or self._shelf.materials.get(material)
        return (None, False) if found is None else (found.lead_days, found.lead_in_workdays)

    def _for_label(self, material: int) -> bool:
        found = self._shelf.materials.get(material)
        return found is not None and found.kind in _FOR_LABELLING

    def _for_test(self, material: int, have: float) -> bool:
        """Whether what there is does not even do for the test candles."""
        tested = [name for name, making in self.each.items() if making.burn_days]
        need = sum(_TEST_CANDLES * self.uses[name].get(material, 0.0) for name in tested)
        return have < need

    def unknown(self) -> Iterator[Finding]:
        """What is short without anybody having said how long it takes to arrive."""
        for material in self._short:
            if self._lead(material)[0] is None:
                data: Mapping[str, object] = {"name": self._shelf.names.get(material, "")}
                about = ("material", material)
                yield Finding(Rank.WATCH, "calendar.no-lead-days", data, about)

    def untold(self) -> Iterator[Finding]:
        """Lines without a candle have no tested state."""
        if self._loose:
            data: Mapping[str, object] = {"names": tuple(self._loose)}
            yield Finding(Rank.NOTE, "calendar.no-candle", data)


def _burn_days(each_g: float, wicks: int) -> int:
    """Days of burning a candle to its end; a melt has no wick to test."""
    if not wicks:
        return 0
    return burn_test_days(min(each_g / (_G_PER_HOUR_AND_WICK * wicks), _MOST_BURN_HOURS))
