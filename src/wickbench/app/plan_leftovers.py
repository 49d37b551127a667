"""Leftovers in a plan: which, how much, for which recipe; what is then new and what a pot holds."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.app.fields import field
from wickbench.app.leftovers import in_use, name_with_mass
from wickbench.app.leftovers_wanted import wanted_leftovers
from wickbench.app.plan_pots import pot_title
from wickbench.app.plans import PlannedLeftover
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.plan import plan_pour
from wickbench.domain.recipes import Recipe, mix_parts
from wickbench.storage import records

if TYPE_CHECKING:
    from wickbench.app.plan_view import PlanView
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.plan import PotPlan, PourPlan

Pairs = tuple[tuple[str, str], ...]
LEFTOVER_MASS: Final = field(
    "plan_leftover", "mass_g", N_("How much of it"), "mass", low=0.1, high=1_000_000
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedShown:
    """A leftover that is in the plan: "300 g of Bramble, 3 November 2026 into Bramble"."""

    id: int
    leftover_id: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PotHolds:
    """A pot that takes leftovers.

    Attributes:
        title: recipe and pot.
        leftovers: what is weighed of them.
        new: what is weighed new.
        holds: what the pot then holds in all, with shares of the total.
        foreign: names of what the recipe does not have; empty when it stays the same candle.
        made: the mix, to be written as a recipe.
        name: what such a recipe would be called.
    """

    title: str
    leftovers: str
    new: str
    holds: str
    foreign: str
    made: Recipe
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverCardView:
    """What the card shows: what can be chosen, what is planned, what the pots then hold."""

    offered: Pairs
    recipes: Pairs
    planned: tuple[PlannedShown, ...]
    pots: tuple[PotHolds, ...]


def card_view(view: PlanView, shelf: Shelf, texts: Texts) -> LeftoverCardView:
    """Put the leftovers of a plan into words."""
    offered = tuple(
        (str(row.id), name_with_mass(row, texts, view.plan.id)) for row in in_use(shelf)
    )
    return LeftoverCardView(
        offered=offered,
        recipes=_recipes(view),
        planned=tuple(_planned(one, view, shelf, texts) for one in view.plan.leftovers),
        pots=pots_hold(view.result, shelf, texts),
    )


def _recipes(view: PlanView) -> Pairs:
    """Recipe versions of the plan, each once."""
    named = {
        str(one.version.id): one.version.name
        for one in view.prepared.resolved
        if one.version is not None
    }
    return tuple(named.items())


def _planned(one: PlannedLeftover, view: PlanView, shelf: Shelf, texts: Texts) -> PlannedShown:
    row = shelf.leftovers.get(one.leftover_id)
    name = row.name if row is not None else ""
    recipe = dict(_recipes(view)).get(str(one.version_id), "")
    used_g = sum(
        line.weigh_g
        for pot in view.result.pots
        if pot.recipe_key == one.version_id
        for line in pot.leftovers
        if line.brings.key == one.leftover_id
    )
    used = texts.quantity(used_g, "mass", step=0.1, both=False)
    words = N_("{mass} of “{name}” into {recipe}")
    if one.mass_g is None:
        words = N_("{mass} of “{name}” into {recipe}: as much as fits")
    if not recipe:
        words = N_("“{name}” goes nowhere: its recipe is not in this plan any more")
    return PlannedShown(
        id=one.id,
        leftover_id=one.leftover_id,
        words=texts(words, mass=used, name=name, recipe=recipe),
    )


def pots_hold(result: PourPlan, shelf: Shelf, texts: Texts) -> tuple[PotHolds, ...]:
    """Each pot that takes leftovers, in words."""
    return tuple(_holds(pot, pot.made, shelf, texts) for pot in result.pots if pot.made is not None)


def _holds(pot: PotPlan, made: Recipe, shelf: Shelf, texts: Texts) -> PotHolds:
    names = shelf.names
    foreign = ", ".join(names.get(int(str(key)), "") for key in pot.foreign)
    holds = [
        texts(
            N_("{name} {mass} ({share} of total)"),
            name=names.get(int(str(part.material)), ""),
            mass=_grams(part.share * pot.total_g, texts),
            share=f"{texts.number(100 * part.share, 2)} %",
        )
        for part in mix_parts(made)
    ]
    old = ", ".join(
        f"{_grams(line.weigh_g, texts, line.step_g)} {line.name}" for line in pot.leftovers
    )
    new = ", ".join(f"{line.name} {_grams(line.weigh_g, texts, line.step_g)}" for line in pot.weigh)
    return PotHolds(
        title=pot_title(pot, texts),
        leftovers=texts(N_("Leftovers: {what}"), what=old),
        new=texts(N_("New: {what}"), what=new) if new else texts(N_("Nothing new to weigh.")),
        holds=texts(N_("In the pot: {what}"), what="; ".join(holds)),
        foreign=foreign,
        made=made,
        name=texts(N_("{recipe} with {others}"), recipe=pot.recipe.name, others=foreign),
    )


def _grams(mass_g: float, texts: Texts, step_g: float = 0.1) -> str:
    return texts.quantity(mass_g, "mass", step=step_g, both=False)


# -- trying and changing ---------------------------------------------------------------------------
def tried(
    view: PlanView, shelf: Shelf, leftover: int, version: int, mass_g: float | None
) -> tuple[PourPlan, Finding | None]:
    """The plan with a leftover worked in, and what refuses it. A pure look: nothing is stored."""
    kept = [one for one in view.plan.leftovers if not _same(one, leftover, version)]
    more = PlannedLeftover(id=0, leftover_id=leftover, version_id=version, mass_g=mass_g)
    plan = replace(view.plan, leftovers=(*kept, more))
    inputs = replace(view.prepared.inputs, leftovers=wanted_leftovers(plan, shelf))
    result = plan_pour(inputs)
    about = ("leftover", leftover)
    refusal = next(
        (
            one
            for one in result.findings
            if one.about[:2] == about and one.rank >= Rank.WATCH and one.key.startswith(_REFUSES)
        ),
        None,
    )
    return result, refusal


_REFUSES: Final = (
    "leftovers.too-much", "leftovers.other-", "leftovers.no-place", "leftovers.not-so-much",
    "leftovers.used-up", "leftovers.no-room-beside", "pour.leftover-larger",
)  # fmt: skip


def _same(one: PlannedLeftover, leftover: int, version: int) -> bool:
    return one.leftover_id == leftover and one.version_id == version


def plan_leftover(
    workspace: Workspace,
    view: PlanView,
    shelf: Shelf,
    leftover: int,
    version: int,
    *,
    mass_g: float | None = None,
    origin: object = None,
) -> None:
    """Work a leftover into the pots of a recipe, as one act; its mass there is replaced.

    Raises:
        OutOfRange: it does not fit; the data say how much would, and how large the pour must be.
    """
    refusal = tried(view, shelf, leftover, version, mass_g)[1]
    if refusal is not None:
        raise OutOfRange(refusal.key, **refusal.data)
    there = next((one for one in view.plan.leftovers if _same(one, leftover, version)), None)
    with workspace.step(N_("Work a leftover in"), origin=origin) as connection:
        if there is not None:
            records.update(connection, "plan_leftover", there.id, {"mass_g": mass_g})
            return
        row = {
            "plan_id": view.plan.id,
            "position": len(view.plan.leftovers),
            "leftover_id": leftover,
            "version_id": version,
            "mass_g": mass_g,
        }
        records.insert(connection, "plan_leftover", row)


def take_out(workspace: Workspace, planned: int, *, origin: object = None) -> None:
    """Take a leftover out of a plan."""
    with workspace.step(N_("Take a leftover out"), origin=origin) as connection:
        records.delete(connection, "plan_leftover", planned)
