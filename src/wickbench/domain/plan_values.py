"""What goes into a pour plan and what comes out of it."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field

from wickbench.domain.catalog import Price
from wickbench.domain.equipment import LoadReach, Pot, Scale
from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding
from wickbench.domain.leftover_lines import LeftoverLine, LeftoverWanted
from wickbench.domain.recipe_checks import Facts
from wickbench.domain.recipes import Load, Material, Recipe, Role, checked_number
from wickbench.domain.shortages import Shortage

FILL_TO = ("line", "net", "set")


@dataclass(frozen=True, kw_only=True)
class PlanLine:
    """So many candles of one kind.

    Attributes:
        key: names the line for the caller.
        recipe_key: recipes with the same key share pots.
        recipe: the recipe version.
        vessel_key: names the vessel for the caller.
        vessel_name: what the maker calls the vessel.
        count: vessels to fill.
        fill_to: ``"line"`` fills hot to ``fill_ml``, ``"set"`` so that the set wax meets it,
            ``"net"`` weighs ``net_g`` in.
        fill_ml: capacity up to the fill line; for melts of all cells together.
        brim_ml: capacity up to the brim; None when unknown.
        most_ml: hot wax it takes without running over; None when unknown.
        net_g: mix wanted in each vessel.
        declared_net_g: net weight printed on the candle, to compare with.
        items: pieces that each candle uses up: vessel, wicks, lid, stickers.

    Raises:
        OutOfRange: a negative or broken count, fill or mass; a ``fill_to`` without meaning.
    """

    key: Hashable
    recipe_key: Hashable
    recipe: Recipe
    count: int
    vessel_key: Hashable = None
    vessel_name: str = ""
    fill_to: str = "line"
    fill_ml: float | None = None
    brim_ml: float | None = None
    most_ml: float | None = None
    net_g: float | None = None
    declared_net_g: float | None = None
    items: Mapping[Material, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.fill_to not in FILL_TO:
            raise OutOfRange("plan.fill-to", fill_to=self.fill_to)
        if self.count < 0 or self.count != int(self.count):
            raise OutOfRange("plan.count", count=self.count)
        for name in ("fill_ml", "brim_ml", "most_ml", "net_g", "declared_net_g"):
            if (value := getattr(self, name)) is not None:
                checked_number(value, name)


@dataclass(frozen=True, kw_only=True)
class PlanInputs:
    """Everything a plan is computed from.

    Attributes:
        lines: candles × counts.
        pots: pots that may be used; one may be filled several times.
        scales: scales on the bench.
        facts: what is known of the materials, and what heats the pots.
        extra_g: mix made beyond need in each pot, grams.
        extra_percent: and in percent of what the pot's vessels take.
        cup_g: empty mass of the cup in which dye and oil are weighed.
        prices: price of each material and item; what is missing is named in the cost.
        stock: on hand, grams or pieces; None or missing means not counted.
        leftovers: what shall be worked in, by the key of the recipe into whose pots it goes.
    """

    lines: tuple[PlanLine, ...] = ()
    pots: tuple[Pot, ...] = ()
    scales: tuple[Scale, ...] = ()
    facts: Facts = field(default_factory=Facts)
    extra_g: float = 0.0
    extra_percent: float = 0.0
    cup_g: float = 10.0
    prices: Mapping[Material, Price] = field(default_factory=dict)
    stock: Mapping[Material, float | None] = field(default_factory=dict)
    leftovers: Mapping[Hashable, tuple[LeftoverWanted, ...]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for name in ("extra_g", "extra_percent", "cup_g"):
            checked_number(getattr(self, name), name)


@dataclass(frozen=True, slots=True)
class WeighLine:
    """One thing to weigh for a pot.

    Attributes:
        material: its key.
        name: what the maker calls it.
        role: wax, dye, additive or fragrance, in the order in which they go in.
        exact_g: by the recipe.
        weigh_g: as its scale can show it: a whole number of steps.
        step_g: the step it was rounded to.
        scale: the scale to use; None when none is defined.
        in_pot: weighed into the pot standing on the scale, not in a cup.
        portions: in how many goes, when the scale cannot carry it at once.
    """

    material: Material
    name: str
    role: Role
    exact_g: float
    weigh_g: float
    step_g: float
    scale: Scale | None = None
    in_pot: bool = False
    portions: int = 1


@dataclass(frozen=True, slots=True)
class PotFill:
    """Vessels filled from one pot: which line, how many, grams of mix in each.

    ``held_g`` of these are held back for the top-up or the second pour.
    """

    line_key: Hashable
    vessel_name: str
    count: int
    each_g: float
    held_g: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PotPlan:
    """One filling of one pot.

    ``total_g`` (the sum of what is weighed, leftovers and new) = ``filled_g`` + ``leftover_g``,
    to the milligram.

    Attributes:
        number: counted from 1 within its recipe.
        of: pots of this recipe.
        recipe_index: place of the recipe in the plan, from 0.
        recipe_key: as in the lines.
        recipe: the recipe version.
        pot: the pot; None when none is defined.
        weigh: what to weigh new, in order.
        fills: what it fills.
        total_g: mix in the pot as weighed.
        filled_g: mix that goes into vessels.
        extra_g: what was asked for beyond need.
        leftover_g: what is left after the last vessel.
        volume_ml: of the mix at pouring temperature.
        fill_ratio: volume by the pot's safe fill; None without a pot.
        load: what results from the rounded weights, of wax (``.of_total``: of wax and oil).
        oil_percent_of_mix: the same in percent of the whole mix.
        reach: how far the load may be off by the scales' steps; None without oil or wax.
        finish: ``"single"``, ``"top_up"`` or ``"second"``: how its wax is finished.
        leftovers: what is weighed of leftovers, before anything else.
        made: the mix it becomes with them; None without leftovers.
        foreign: materials that they bring and the recipe does not have.
    """

    number: int
    of: int
    recipe_index: int
    recipe_key: Hashable
    recipe: Recipe
    pot: Pot | None
    weigh: tuple[WeighLine, ...]
    fills: tuple[PotFill, ...]
    total_g: float
    filled_g: float
    extra_g: float
    leftover_g: float
    volume_ml: float
    fill_ratio: float | None
    load: Load
    oil_percent_of_mix: float
    reach: LoadReach | None
    finish: str = "single"
    leftovers: tuple[LeftoverLine, ...] = ()
    made: Recipe | None = None
    foreign: tuple[Material, ...] = ()

    @property
    def held_g(self) -> float:
        """Mix that waits for the top-up or the second pour, all vessels together."""
        return sum(round(fill.held_g * 1000) * fill.count for fill in self.fills) / 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class LineMix:
    """What one line takes.

    Attributes:
        line_key: the line.
        each_g: mix poured into each vessel, in tenths of a gram.
        exact_g: the same before rounding.
        low_g, high_g: where it may lie while densities are estimates.
        held_g: of it, what is held back for the top-up or the second pour, in tenths of a gram;
            0 for a single pour. ``held_low_g``, ``held_high_g``: where that may lie.
        each_ml: volume of the whole at pouring temperature.
        all_g: for all vessels of the line.
        over_declared_g: mix beyond the declared net weight, negative when short; None without.
        cost_e4: material and items of one candle, in 1/10 000 of the currency unit.
        unpriced: what has no price and is therefore missing from the cost.
    """

    line_key: Hashable
    each_g: float
    exact_g: float
    low_g: float
    high_g: float
    held_g: float = 0.0
    held_low_g: float = 0.0
    held_high_g: float = 0.0
    each_ml: float
    all_g: float
    over_declared_g: float | None
    cost_e4: int
    unpriced: tuple[Material, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PourPlan:
    """The whole plan.

    Attributes:
        pots: every filling of a pot, recipe by recipe.
        lines: what each line takes, in the order given; lines that cannot be planned are absent.
        total_g: mix of all pots.
        filled_g: mix in vessels.
        leftover_g: the difference.
        candles: vessels filled.
        needs: what is used up: grams for what is mixed, pieces for items.
        shortages: what the stock does not cover.
        findings: what is worth saying, the most pressing first.
        hurried: fewer or more even pots may be found when there is time to look.
    """

    pots: tuple[PotPlan, ...] = ()
    lines: tuple[LineMix, ...] = ()
    total_g: float = 0.0
    filled_g: float = 0.0
    leftover_g: float = 0.0
    candles: int = 0
    needs: Mapping[Material, float] = field(default_factory=dict)
    shortages: tuple[Shortage, ...] = ()
    findings: tuple[Finding, ...] = ()
    hurried: bool = False
