"""The pouring session: one ingredient at a time; what was really weighed moves the rest."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, NamedTuple

from wickbench.domain.errors import OutOfRange
from wickbench.domain.leftover_lines import LeftoverIn
from wickbench.domain.plan_values import PotFill
from wickbench.domain.recipe_checks import Facts, strictest_load
from wickbench.domain.recipes import Load, Material, Role
from wickbench.domain.rounding import to_step

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from wickbench.domain.plan_values import PotPlan

_HEAVIEST_G = 1e6


class Place(NamedTuple):
    """Where a step stands: pot and step, both counted from 0."""

    pot: int
    step: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStep:
    """One ingredient of one pot. Stored as it is, it brings the session back.

    Attributes:
        material: its key.
        name: what the maker calls it.
        role: wax, dye, additive or fragrance.
        planned_g: as on the weigh sheet; for a top-up what the offer said.
        step_g: what its scale reads to.
        weighed_g: what was really weighed, None until then.
        top_up: added on the way to bring the load back; not part of the plan.
        leftover: what it brings, when a leftover is weighed instead of one material.
    """

    material: Material
    name: str
    role: Role
    planned_g: float
    step_g: float = 0.1
    weighed_g: float | None = None
    top_up: bool = False
    leftover: LeftoverIn | None = None

    def of(self, roles: Collection[Role]) -> float:
        """How much of each gram of it is of some roles."""
        if self.leftover is not None:
            return self.leftover.share(roles)
        return 1.0 if self.role in roles else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPot:
    """One filling of one pot.

    Attributes:
        name: recipe and pot, for the person.
        steps: in the order of weighing.
        fills: what it fills.
        holds_g: mix within the pot's safe fill; None when unknown.
        max_load: the strictest limit of its waxes; None when none is known.
        certificate_percent: most of each oil in the finished mix, percent of total, where the
            certificate sets a limit.
    """

    name: str
    steps: tuple[BenchStep, ...]
    fills: tuple[PotFill, ...] = ()
    holds_g: float | None = None
    max_load: Load | None = None
    certificate_percent: Mapping[Material, float] = field(default_factory=dict)

    def planned(self, role: Role) -> float:
        """Grams planned of one role, new or in leftovers."""
        return math.fsum(s.planned_g * s.of({role}) for s in self.steps if not s.top_up)

    @property
    def new(self) -> tuple[BenchStep, ...]:
        """The steps that weigh one material from the shelf."""
        return tuple(step for step in self.steps if step.leftover is None)

    def saved_g(self, step: BenchStep, *, planned: bool = False) -> float:
        """Grams of a step's material for which leftovers stand, as weighed or as planned."""
        key = (step.role, step.material)
        return math.fsum(
            one.leftover.gives.get(key, 0.0)
            * (one.planned_g if planned or one.weighed_g is None else one.weighed_g)
            for one in self.steps
            if one.leftover is not None
        )

    def whole_g(self, step: BenchStep) -> float:
        """What was planned of a step's material, counting what leftovers bring for it."""
        return step.planned_g + self.saved_g(step, planned=True)


@dataclass(frozen=True, slots=True)
class BenchState:
    """The whole session."""

    pots: tuple[BenchPot, ...] = ()

    def at(self, place: Place) -> BenchStep:
        """The step at a place.

        Raises:
            OutOfRange: ``bench.no-such-step``.
        """
        if not 0 <= place.pot < len(self.pots):
            raise OutOfRange("bench.no-such-step")
        steps = self.pots[place.pot].steps
        if not 0 <= place.step < len(steps):
            raise OutOfRange("bench.no-such-step")
        return steps[place.step]


def begin(pots: Sequence[PotPlan], facts: Facts, names: Sequence[str] = ()) -> BenchState:
    """A session from the pots of a plan, nothing weighed yet.

    Args:
        pots: as planned.
        facts: limits of waxes and oils.
        names: what each pot is called, for example its lot code; the recipe's name otherwise.
    """
    named = list(names) + [pot.recipe.name for pot in pots[len(names) :]]
    return BenchState(
        tuple(_begun(pot, facts, name) for pot, name in zip(pots, named, strict=True))
    )


def _steps(pot: PotPlan) -> Iterator[BenchStep]:
    """Leftovers are melted first, then what is new goes in."""
    for old in pot.leftovers:
        yield BenchStep(
            material=("leftover", old.brings.key),
            name=old.name,
            role=Role.WAX,
            planned_g=old.weigh_g,
            step_g=old.step_g,
            leftover=old.brings,
        )
    for line in pot.weigh:
        yield BenchStep(
            material=line.material,
            name=line.name,
            role=line.role,
            planned_g=line.weigh_g,
            step_g=line.step_g,
        )


def _begun(pot: PotPlan, facts: Facts, name: str) -> BenchPot:
    mix = pot.made or pot.recipe
    strictest = strictest_load(mix, facts)
    limits = {
        oil: limit
        for oil in mix.fragrance
        if (limit := facts.oil(oil).ifra_percent) is not None and limit < 100  # noqa: PLR2004
    }
    density = pot.total_g / pot.volume_ml if pot.volume_ml else None
    return BenchPot(
        name=name,
        steps=tuple(_steps(pot)),
        fills=pot.fills,
        holds_g=pot.pot.safe_ml * density if pot.pot and density else None,
        max_load=strictest[1] if strictest else None,
        certificate_percent=limits,
    )


def resume(state: BenchState, weighed: Mapping[Place, float]) -> BenchState:
    """The session as it was left: stored readings put back.

    Raises:
        OutOfRange: a reading for a step that is not there, or a senseless one.
    """
    for place, actual_g in weighed.items():
        state = weigh(state, place, actual_g)
    return state


def with_top_ups_marked(steps: Iterable[BenchStep]) -> tuple[BenchStep, ...]:
    """Steps as stored rows give them: what comes a second time in its role is a top-up."""
    seen: set[tuple[Role, Material]] = set()
    marked = []
    for step in steps:
        key = (step.role, step.material)
        marked.append(replace(step, top_up=key in seen))
        seen.add(key)
    return tuple(marked)


def weigh(state: BenchState, place: tuple[int, int], actual_g: float) -> BenchState:
    """Note what was really weighed; a second reading replaces the first.

    Targets of what is not weighed yet follow by themselves, see ``target_g``.

    Raises:
        OutOfRange: ``bench.weight`` for a negative, non-finite or absurd mass, ``bench.no-wax``
            for an empty wax reading, ``bench.no-such-step``.
    """
    step = state.at(Place(*place))
    if not math.isfinite(actual_g) or not 0 <= actual_g <= _HEAVIEST_G:
        raise OutOfRange("bench.weight", weighed_g=actual_g)
    if step.role is Role.WAX and actual_g == 0 and not step.top_up and step.leftover is None:
        raise OutOfRange("bench.no-wax", name=step.name)
    return _with_step(state, Place(*place), replace(step, weighed_g=actual_g))


def unweigh(state: BenchState, place: tuple[int, int]) -> BenchState:
    """Take a reading back.

    Raises:
        OutOfRange: ``bench.no-such-step``.
    """
    step = state.at(Place(*place))
    return _with_step(state, Place(*place), replace(step, weighed_g=None))


def _with_step(state: BenchState, place: Place, step: BenchStep) -> BenchState:
    pot = state.pots[place.pot]
    steps = (*pot.steps[: place.step], step, *pot.steps[place.step + 1 :])
    return with_pot(state, place.pot, replace(pot, steps=steps))


def with_pot(state: BenchState, index: int, pot: BenchPot) -> BenchState:
    """The session with one pot replaced."""
    return BenchState((*state.pots[:index], pot, *state.pots[index + 1 :]))


def next_place(state: BenchState) -> Place | None:
    """The first step that is not weighed; None when all are."""
    for pot_index, pot in enumerate(state.pots):
        for step_index, step in enumerate(pot.steps):
            if step.weighed_g is None:
                return Place(pot_index, step_index)
    return None


def is_done(state: BenchState) -> bool:
    """Whether everything is weighed."""
    return next_place(state) is None


def target_g(state: BenchState, place: tuple[int, int]) -> float:
    """What to weigh at a step now, as its scale can show it.

    Waxes follow the waxes that are already weighed, so that the blend holds; dye, additives and
    oils follow all the wax, so that the load holds. What leftovers bring is counted as it was
    weighed: less of a leftover is made up with new. What is weighed already does not move.

    Raises:
        OutOfRange: ``bench.no-such-step``.
    """
    step = state.at(Place(*place))
    return to_step(exact_target_g(state.pots[place[0]], step), step.step_g)


def exact_target_g(pot: BenchPot, step: BenchStep) -> float:
    """The same before rounding to the scale."""
    if step.top_up or step.leftover is not None:
        return step.planned_g
    factor = _blend_factor(pot) if step.role is Role.WAX else wax_factor(pot)
    return max(0.0, pot.whole_g(step) * factor - pot.saved_g(step))


def expected_g(pot: BenchPot, step: BenchStep) -> float:
    """What was weighed, or else what will be."""
    if step.weighed_g is not None:
        return step.weighed_g
    return to_step(exact_target_g(pot, step), step.step_g)


def wax_factor(pot: BenchPot) -> float:
    """All wax, weighed or still to come and topped up, by the wax that was planned."""
    waxes = [step for step in pot.new if step.role is Role.WAX]
    first = [step for step in waxes if not step.top_up]
    planned_g = math.fsum(pot.whole_g(step) for step in first)
    new_g = (
        exact_target_g(pot, step) if step.weighed_g is None else step.weighed_g for step in waxes
    )
    there_g = math.fsum((*new_g, *(pot.saved_g(step) for step in first)))
    return there_g / planned_g if planned_g else 1.0


def _blend_factor(pot: BenchPot) -> float:
    """Wax weighed by what was planned of the same; 1 before the first."""
    weighed = [
        (step.weighed_g + pot.saved_g(step), pot.whole_g(step))
        for step in pot.new
        if step.role is Role.WAX and step.weighed_g is not None and not step.top_up
    ]
    planned_g = math.fsum(planned for _, planned in weighed)
    return math.fsum(actual for actual, _ in weighed) / planned_g if planned_g else 1.0


def total_of(pot: BenchPot, roles: Iterable[Role]) -> float:
    """Grams weighed, or still to be weighed, of some roles together, new or in leftovers."""
    wanted = frozenset(roles)
    return math.fsum(expected_g(pot, step) * step.of(wanted) for step in pot.steps)
