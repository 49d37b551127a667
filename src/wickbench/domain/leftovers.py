"""Mix that was left goes into a new pot: what to add, what it then is, and whether it may be sold.

Each material of a leftover is followed by itself. What the new recipe also has counts towards it;
wax, oil, dye and additives of other recipes take the place of as much wax or oil of the recipe, so
that the load is kept. What is missing is added in the proportions of the recipe's blend.
"""

from __future__ import annotations

import math
from collections import defaultdict
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.leftover_balance import Balance
from wickbench.domain.leftovers_sale import as_recipe, sale_findings
from wickbench.domain.recipe_checks import Facts, recipe_findings
from wickbench.domain.recipes import (
    Material,
    Recipe,
    Role,
    checked_number,
    mix_parts,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    Key = tuple[Role, Material]
    Masses = Mapping[Key, float]

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Leftover:
    """Mix that was left in a pot, or scooped out of vessels.

    Attributes:
        recipe: what it was mixed by; ``Reworked.recipe`` for a pot that took leftovers itself.
        mass_g: how much of it there is.

    Raises:
        OutOfRange: ``recipe.number`` for a senseless mass, ``recipe.no-wax``.
    """

    recipe: Recipe
    mass_g: float

    def __post_init__(self) -> None:
        checked_number(self.mass_g, "mass_g")
        mix_parts(self.recipe)

    def masses(self) -> dict[Key, float]:
        """Grams of each material in it."""
        return {(part.role, part.material): part.share * self.mass_g
                for part in mix_parts(self.recipe)}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Amount:
    """So much of a material.

    Attributes:
        material: its key.
        role: what it does in the mix.
        mass_g: grams.
    """

    material: Material
    role: Role
    mass_g: float


@dataclass(frozen=True, slots=True)
class Reworked:
    """A pot that takes leftovers.

    Attributes:
        add: what is weighed in new, in the order in which it goes in; nothing of 0 g.
        holds: everything in the pot once done, leftovers counted in.
        recipe: what the mix then is, to be planned, checked or left over again.
        foreign: materials in it that the recipe does not have.
        findings: limits and what else is worth saying, most pressing first.
    """

    add: tuple[Amount, ...]
    holds: tuple[Amount, ...]
    recipe: Recipe
    foreign: tuple[Material, ...]
    findings: tuple[Finding, ...]

    @property
    def own_kind(self) -> bool:
        """It is another candle than the recipe's: what that one passed does not hold for it."""
        return bool(self.foreign)


def work_in(
    leftovers: Iterable[Leftover], recipe: Recipe, total_g: float, facts: Facts | None = None
) -> Reworked:
    """What to add to leftovers so that they become ``total_g`` by a recipe.

    Raises:
        OutOfRange: ``pour.leftover-larger``; ``leftovers.too-much`` when they bring more of one
            material than the batch takes, ``leftovers.other-oil`` or ``leftovers.other-wax`` when
            they bring more oil or wax of other recipes than it takes at all: the data say how much
            of the leftovers can be used (``most_g``) and how large the batch must be
            (``least_g``); ``leftovers.no-place`` when no amount would do.
    """
    known = facts or Facts()
    total = checked_number(total_g, "total_g")
    brought = together(leftovers)
    whole_g = math.fsum(brought.values())
    if whole_g > total * (1 + _SLACK):
        raise OutOfRange("pour.leftover-larger", leftover_g=whole_g, total_g=total)
    balance = Balance.of(recipe)
    rooms = balance.rooms(brought, total)
    _refuse(rooms, balance.rooms({}, total), whole_g, total, known)
    add = {key: max(room, 0.0) for key, room in rooms.items() if isinstance(key, tuple)}
    return _reworked(recipe, brought, add, known)


def together(leftovers: Iterable[Leftover]) -> dict[Key, float]:
    """Grams of each material, by role and material, in all of them."""
    masses: defaultdict[Key, list[float]] = defaultdict(list)
    for leftover in leftovers:
        for key, mass_g in leftover.masses().items():
            masses[key].append(mass_g)
    return {key: math.fsum(each) for key, each in masses.items() if any(each)}


def _refuse(
    rooms: Mapping[Key | Role, float],
    empty: Mapping[Key | Role, float],
    whole_g: float,
    total_g: float,
    facts: Facts,
) -> None:
    """Refuse when something has no room, naming what allows least of the leftovers."""
    slack = _SLACK * max(total_g, 1.0)
    short = {key: room for key, room in rooms.items() if room < -slack}
    if not short:
        return
    used = {key: empty[key] / (empty[key] - room) for key, room in short.items()}
    key = min(used, key=lambda one: used[one])
    name = facts.name(key[1]) if isinstance(key, tuple) else ""
    if used[key] <= _SLACK:
        raise OutOfRange("leftovers.no-place", leftover_g=whole_g, over_g=-short[key])
    data = {
        "over_g": -short[key],
        "most_g": used[key] * whole_g,
        "least_g": total_g / used[key],
        "name": name,
    }
    raise OutOfRange(_reason(key), **data)


def _reason(key: Key | Role) -> str:
    if isinstance(key, tuple):
        return "leftovers.too-much"
    return "leftovers.other-wax" if key is Role.WAX else "leftovers.other-oil"


def _reworked(recipe: Recipe, brought: Masses, add: Masses, facts: Facts) -> Reworked:
    holds = {key: add.get(key, 0.0) + brought.get(key, 0.0) for key in (*add, *brought)}
    balance = Balance.of(recipe)
    foreign = tuple(key[1] for key in brought if not balance.has(key))
    made = as_recipe(holds, recipe) if any(holds.values()) else recipe
    findings = [*recipe_findings(made, facts)]
    if foreign:
        names = tuple(facts.name(material) for material in foreign)
        data = {"names": names, "name": recipe.name}
        findings = [one for one in findings if not one.key.startswith("recipe.oil-")]
        findings += sale_findings(made, facts)
        findings.append(Finding(Rank.WATCH, "leftovers.own-kind", data))
    return Reworked(
        add=tuple(_amounts(add)),
        holds=tuple(_amounts(holds)),
        recipe=made,
        foreign=foreign,
        findings=sort_findings(findings),
    )


def _amounts(masses: Masses) -> Iterator[Amount]:
    order = list(Role)
    for role, material in sorted(masses, key=lambda key: order.index(key[0])):
        if (mass_g := masses[role, material]) > _SLACK:
            yield Amount(material, role, mass_g)
