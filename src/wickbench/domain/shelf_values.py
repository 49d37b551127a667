"""What is asked of the shelf, and how far it reaches.

All sums are whole numbers: nanograms, or billionths of a piece, so that a thousand candles of a
third of the stock each come out as they should. One milligram over what is on hand is no shortage.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, field, replace

from wickbench.domain.errors import OutOfRange
from wickbench.domain.recipes import Material, Recipe, checked_number, mix_parts

UNITS = 10**9
MOST = 1_000_000


def units_of(amount: float) -> int:
    """Whole units of an amount in grams or pieces; what is missing on the shelf is no stock."""
    return round(checked_number(amount, "amount", least=-math.inf) * UNITS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """A candle to be made.

    Attributes:
        key: names it for the caller.
        name: what the maker calls it.
        recipe: its recipe.
        recipe_key: candles with the same key share pots.
        each_g: mix in one of them.
        items: pieces that one of them uses up.
        ratio: so many of them to a set, when several are made together.
        pot_g: mix that a pot may hold; None: all is made in one.

    Raises:
        OutOfRange: ``shelf.each``, ``shelf.ratio``, ``pour.vessel-over-pot``; ``recipe.no-wax``.
    """

    key: Hashable
    recipe: Recipe
    each_g: float
    recipe_key: Hashable = None
    name: str = ""
    items: Mapping[Material, int] = field(default_factory=dict)
    ratio: int = 1
    pot_g: float | None = None

    def __post_init__(self) -> None:
        mix_parts(self.recipe)
        if not 0 < self.each_g < MOST:
            raise OutOfRange("shelf.each", name=self.name)
        if self.ratio != int(self.ratio) or not 1 <= self.ratio <= MOST:
            raise OutOfRange("shelf.ratio", name=self.name)
        for pieces in self.items.values():
            checked_number(pieces, "items")


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """What there is, and what a pot takes beyond its vessels.

    Attributes:
        stock: on hand, grams or pieces; None or missing: never counted, so it sets no limit here.
        extra_g: mix made beyond need in each pot.
        extra_percent: and in percent of what its vessels take.
        rounding_g: so much more of each material may be weighed into a pot, by the scale's steps.

    Raises:
        OutOfRange: ``recipe.number`` for a senseless number.
    """

    stock: Mapping[Material, float | None]
    extra_g: float = 0.0
    extra_percent: float = 0.0
    rounding_g: float = 0.0

    def __post_init__(self) -> None:
        for name in ("extra_g", "extra_percent", "rounding_g"):
            checked_number(getattr(self, name), name)
        for amount in self.stock.values():
            if amount is not None:
                units_of(amount)

    def without_limit(self, *materials: Material) -> Shelf:
        """The same shelf with as much of these as anyone wants."""
        return replace(self, stock={**self.stock, **dict.fromkeys(materials)})


@dataclass(frozen=True, slots=True)
class RunsOut:
    """What is missing for one set more.

    Attributes:
        material: what runs out.
        need: grams or pieces for one set more than can be made.
        have: on hand.
    """

    material: Material
    need: float
    have: float

    @property
    def short(self) -> float:
        """What is missing."""
        return self.need - self.have


@dataclass(frozen=True, slots=True)
class Reach:
    """How far the shelf reaches.

    Attributes:
        sets: whole sets that can be made (candles, when it is one candle); None: no limit known.
        candles: of each candle, by key; empty without a limit.
        pots: pots that it takes.
        runs_out: what is missing for one set more; several when they run out together.
        uncounted: what was never counted, although it is used.
        left: on hand afterwards, grams or pieces, of what was counted.
        step: candles in one set more, for which ``runs_out`` is told.
    """

    sets: int | None
    candles: Mapping[Hashable, int]
    pots: int
    runs_out: tuple[RunsOut, ...]
    uncounted: tuple[Material, ...]
    left: Mapping[Material, float]
    step: int = 1

    @property
    def total(self) -> int:
        """All candles."""
        return sum(self.candles.values())
