"""Sharing out money so that the parts sum to the whole, and what used material cost."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence


def to_whole(value: Fraction) -> int:
    """The nearest integer, a half away from zero, exact for fractions of any size."""
    whole = math.floor(abs(value) + Fraction(1, 2))
    return whole if value >= 0 else -whole


def share_out(amount: int, weights: Sequence[float]) -> tuple[int, ...]:
    """Share a whole amount out in proportion to weights, by largest remainder.

    The parts are integers and sum exactly to the amount; where remainders are equal the earlier
    part gets the unit. A weight of zero gets nothing. A negative amount (a refund) is shared
    like its opposite.

    Raises:
        OutOfRange: ``cost.no-weights`` when no weight is above zero, ``cost.weight`` for a
            negative or non-finite one, ``cost.amount`` for an amount that is no integer.
    """
    if amount != int(amount):
        raise OutOfRange("cost.amount", amount=amount)
    for weight in weights:
        if not math.isfinite(weight) or weight < 0:
            raise OutOfRange("cost.weight", weight=weight)
    exact_weights = [Fraction(weight) for weight in weights]
    whole = sum(exact_weights, Fraction(0))
    if whole == 0:
        raise OutOfRange("cost.no-weights", amount=amount)
    return _largest_remainder(int(amount), [weight / whole for weight in exact_weights])


def _largest_remainder(amount: int, shares: list[Fraction]) -> tuple[int, ...]:
    exact = [abs(amount) * share for share in shares]
    parts = [math.floor(value) for value in exact]
    by_remainder = sorted(range(len(parts)), key=lambda place: parts[place] - exact[place])
    for place in by_remainder[: abs(amount) - sum(parts)]:
        parts[place] += 1
    return tuple(parts if amount >= 0 else (-part for part in parts))


def cost_of(quantity: float, paid: float, for_quantity: float) -> Fraction:
    """Exact cost of a quantity of something that cost ``paid`` for ``for_quantity``.

    Raises:
        OutOfRange: ``cost.quantity`` for a negative or non-finite quantity, or a price for
            nothing.
    """
    for value in (quantity, paid, for_quantity):
        if not math.isfinite(value):
            raise OutOfRange("cost.quantity", quantity=value)
    if quantity < 0 or for_quantity <= 0:
        raise OutOfRange("cost.quantity", quantity=min(quantity, for_quantity))
    return Fraction(paid) * Fraction(quantity) / Fraction(for_quantity)


@dataclass(frozen=True, slots=True)
class Layer:
    """One purchase, or what is left of it.

    Attributes:
        quantity: in whole units of stock (mg, µL, pieces).
        cost: of all of it together, in 1/10 000 of the currency unit or any unit of money.
    """

    quantity: int
    cost: Fraction

    @classmethod
    def bought(cls, quantity: int, cost: float) -> Layer:
        """A purchase.

        Raises:
            OutOfRange: ``cost.quantity`` unless the quantity is a whole number above zero.
        """
        if quantity != int(quantity) or quantity <= 0 or not math.isfinite(cost):
            raise OutOfRange("cost.quantity", quantity=quantity)
        return cls(int(quantity), Fraction(cost))

    def split(self, quantity: int) -> tuple[Layer, Layer]:
        """So much of it, and the rest; their costs sum to its cost."""
        cost = self.cost * quantity / self.quantity
        return Layer(quantity, cost), Layer(self.quantity - quantity, self.cost - cost)


@dataclass(frozen=True, slots=True)
class Issued:
    """What left the stock, and what it leaves.

    Attributes:
        costs: cost of each issue, in order.
        left: layers still there, oldest first.
    """

    costs: tuple[Fraction, ...]
    left: tuple[Layer, ...]

    @property
    def cost(self) -> Fraction:
        """All issues together."""
        return sum(self.costs, Fraction(0))

    @property
    def left_cost(self) -> Fraction:
        """Value of what is left."""
        return sum((layer.cost for layer in self.left), Fraction(0))

    @property
    def left_quantity(self) -> int:
        """How much is left."""
        return sum(layer.quantity for layer in self.left)


def fifo(layers: Iterable[Layer], issues: Iterable[int]) -> Issued:
    """Issue from the oldest layer first (IAS 2.25-27, first in, first out).

    Cost issued and value left sum exactly to what the layers cost.

    Raises:
        OutOfRange: ``cost.not-enough`` when an issue is more than is there.
    """
    left = list(layers)
    costs = []
    for issue in issues:
        _check_issue(issue, sum(layer.quantity for layer in left))
        cost, left = _issue(left, issue)
        costs.append(cost)
    return Issued(tuple(costs), tuple(left))


def _check_issue(issue: int, there: int) -> None:
    if issue < 0 or issue != int(issue):
        raise OutOfRange("cost.quantity", quantity=issue)
    if issue > there:
        raise OutOfRange("cost.not-enough", wanted=issue, there=there)


def _issue(layers: list[Layer], quantity: int) -> tuple[Fraction, list[Layer]]:
    cost = Fraction(0)
    left = list(layers)
    while quantity:
        oldest = left.pop(0)
        taken, rest = oldest.split(min(quantity, oldest.quantity))
        cost += taken.cost
        quantity -= taken.quantity
        if rest.quantity:
            left.insert(0, rest)
    return cost, left


def moving_average(moves: Iterable[Layer | int]) -> Issued:
    """Purchases and issues in the order of time, each issue at the average of what is there.

    Args:
        moves: a ``Layer`` comes in, a number goes out.

    Raises:
        OutOfRange: ``cost.not-enough`` when an issue is more than is there.
    """
    quantity, value = 0, Fraction(0)
    costs = []
    for move in moves:
        if isinstance(move, Layer):
            quantity, value = quantity + move.quantity, value + move.cost
            continue
        _check_issue(move, quantity)
        cost = value * move / quantity if move else Fraction(0)
        costs.append(cost)
        quantity, value = quantity - move, value - cost
    left = (Layer(quantity, value),) if quantity else ()
    return Issued(tuple(costs), left)
