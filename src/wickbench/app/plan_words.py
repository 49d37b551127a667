"""What the plan page says beside its figures: names of plans, how it is computed, where to mend."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.findings import Finding

    Goal = tuple[str, object]

_STATES: Final = {"pouring": N_("being poured"), "poured": N_("poured")}
_HOW: Final = (
    N_(
        "Filled to the line: the volume up to the fill line × the density of the mix at its "
        "pouring temperature. The wax shrinks as it sets; its weight stays."
    ),
    N_(
        "The density of the mix: 1 / density = the sum of each share of weight / its density. "
        "Waxes are taken at the pouring temperature, 0.00066 g/mL less for each °C above 70."
    ),
    N_(
        "Pots: each recipe takes the fewest pots that hold it below their safe fill, filled as "
        "evenly as whole vessels allow; the extra comes on top in each pot."
    ),
    N_(
        "Each amount is rounded to what its scale can show, half up; the load and what is left "
        "over are computed from the rounded amounts, and close to the milligram."
    ),
)


def plan_name(texts: Texts, plan: PlanRow) -> str:
    """A plan in a list: "28 November 2026 · Autumn fair"."""
    day = texts.day(plan.pour_on) if plan.pour_on else texts(N_("without a day"))
    state = texts(_STATES.get(plan.state, ""))
    return " · ".join(part for part in (day, plan.name, state) if part)


def plan_title(texts: Texts, plan: PlanRow) -> str:
    """The heading of the page: "Pour on Saturday 28 November 2026"."""
    if not plan.pour_on:
        return texts(N_("Pour plan"))
    if plan.state == "poured":
        return texts(N_("Poured on {day}"), day=texts.date(plan.pour_on))
    return texts(N_("Pour on {day}"), day=texts.date(plan.pour_on))


def how_planned(texts: Texts) -> tuple[str, ...]:
    """How the plan is computed, step by step."""
    return tuple(texts(step) for step in _HOW)


_OF_EQUIPMENT: Final = {
    "plan.no-pot": "equipment/pot", "plan.pot-no-brim": "equipment/pot",
    "plan.vessel-over-pot": "equipment/pot", "plan.extra-over-pot": "equipment/pot",
    "plan.no-scale": "equipment/scale", "plan.scale-unknown": "equipment/scale",
    "plan.less-than-the-step": "equipment/scale",
    **{
        f"plan.{what}-too-little-to-weigh": "equipment/scale"
        for what in ("oil", "oil-of-blend", "dye", "additive")
    },
    "plan.pot-over-scale": "equipment/scale",
    "plan.pot-over-scale-in-portions": "equipment/scale",
    "plan.pot-and-mix-over-scale": "equipment/scale",
    "plan.pot-and-mix-over-scale-in-portions": "equipment/scale",
}  # fmt: skip
_OF_CANDLE: Final = frozenset(
    ("plan.candle-untested", "plan.candle-in_test", "plan.candle-test_again", "plan.below-declared")
)
_OF_VESSEL: Final = frozenset(
    ("plan.fill-from-nominal", "plan.fill-from-shape", "plan.no-fill-line")
)


def goal_of(finding: Finding, view: PlanView, shelf: Shelf) -> Goal | None:
    """Page or dock, and the record there, where a finding is mended; ``None`` for this page."""
    if finding.key in _OF_EQUIPMENT:
        return (_OF_EQUIPMENT[finding.key], None)
    kind, *rest = finding.about or ("",)
    if kind == "line" and rest:
        return _line_goal(finding.key, rest[0], view)
    if kind == "recipe" and rest:
        return _recipe_goal(rest, shelf)
    if kind == "material" and rest and isinstance(rest[0], int):
        return ("vessels" if rest[0] in shelf.vessels else "materials", rest[0])
    return None


def _line_goal(key: str, line: object, view: PlanView) -> Goal | None:
    one = next((one for one in view.prepared.resolved if one.row.id == line), None)
    if one is not None and key in _OF_CANDLE and one.candle is not None:
        return ("candles", one.candle.id)
    if one is not None and key in _OF_VESSEL and one.vessel is not None:
        return ("vessels", one.vessel.id)
    return None


def _recipe_goal(rest: list[object], shelf: Shelf) -> Goal | None:
    if len(rest) > 2 and isinstance(rest[2], int):  # noqa: PLR2004 - recipe, word, material
        return ("materials", rest[2])
    version = shelf.versions.get(rest[0]) if isinstance(rest[0], int) else None
    return None if version is None else ("recipes", version.recipe_id)
