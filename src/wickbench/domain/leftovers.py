"""Mix that was left goes into a new pot: what to add, what it then is, and whether it may be sold.

Each material of a leftover is followed by itself. What the new recipe also has counts towards it;
wax, oil, dye and additives of other recipes take the place of as much wax or oil of the recipe, so
that the load is kept. What is missing is added in the proportions of the recipe's blend.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.leftovers_sale import as_recipe, sale_findings
from wickbench.domain.recipe_checks import Facts, recipe_findings
from wickbench.domain.recipes import (
    Material,
    Recipe,
    Role,
    checked_number,
    mix_parts,
    normalised,
)

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    Key = tuple[Role, Material]
    Masses = Mapping[Key, float]

_SLACK = 1e-9
_WHOLE_PERCENT = 100.0
_BLENDED = (Role.WAX, Role.FRAGRANCE)


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
    balance = _Balance.of(recipe)
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


@dataclass(frozen=True, slots=True)
class _Balance:
    """A recipe as a balance of masses.

    Attributes:
        blends: of wax and of oil, the share of each material among its own kind.
        beside: dye and additives, as fractions of the wax.
        of_total: oil as a fraction of all, when the load says so; otherwise None.
        of_wax: oil as a fraction of the wax.
    """

    blends: Mapping[Role, Mapping[Material, float]]
    beside: Mapping[Key, float]
    of_total: float | None
    of_wax: float

    @classmethod
    def of(cls, recipe: Recipe) -> _Balance:
        oils = normalised(recipe.fragrance)
        load = recipe.load if oils else None
        beside: dict[Key, float] = {
            (role, material): percent / _WHOLE_PERCENT
            for role, given in ((Role.DYE, recipe.dye), (Role.ADDITIVE, recipe.additives))
            for material, percent in given.items()
            if percent > 0
        }
        if load is None or not load.percent:
            return cls({Role.WAX: _waxes(recipe), Role.FRAGRANCE: {}}, beside, None, 0.0)
        of_total = load.percent / _WHOLE_PERCENT if load.basis == "total" else None
        blends = {Role.WAX: _waxes(recipe), Role.FRAGRANCE: oils}
        return cls(blends, beside, of_total, load.of_wax / _WHOLE_PERCENT)

    def has(self, key: Key) -> bool:
        """Whether the recipe has this material in this role."""
        role, material = key
        return material in self.blends[role] if role in _BLENDED else key in self.beside

    def rooms(self, brought: Masses, total_g: float) -> dict[Key | Role, float]:
        """Room left for each material of the recipe once the leftovers are in, grams.

        Under a bare role stands the room that others' wax or oil leaves for the recipe's own.
        Negative room is too much. All of it is in proportion: half of everything, half the rooms.
        """
        foreign = dict.fromkeys(Role, 0.0)
        for key, mass_g in brought.items():
            if not self.has(key):
                foreign[key[0]] += mass_g
        wax_g, oil_g = self._wax_and_oil(
            total_g, total_g - foreign[Role.DYE] - foreign[Role.ADDITIVE]
        )
        rooms: dict[Key | Role, float] = {}
        for role, whole_g in ((Role.WAX, wax_g), (Role.FRAGRANCE, oil_g)):
            rooms[role] = whole_g - foreign[role]
            for material, share in self.blends[role].items():
                key = (role, material)
                rooms[key] = rooms[role] * share - brought.get(key, 0.0)
        for key, of_wax in self.beside.items():
            rooms[key] = wax_g * of_wax - brought.get(key, 0.0)
        return rooms

    def _wax_and_oil(self, total_g: float, rest_g: float) -> tuple[float, float]:
        """Wax and oil, when ``rest_g`` of the total is left beside foreign dye and additives."""
        beside = 1 + math.fsum(self.beside.values())
        if self.of_total is not None:
            oil_g = self.of_total * total_g
            return (rest_g - oil_g) / beside, oil_g
        wax_g = rest_g / (beside + self.of_wax)
        return wax_g, wax_g * self.of_wax


def _waxes(recipe: Recipe) -> dict[Material, float]:
    waxes = normalised(recipe.wax)
    if not waxes:
        raise OutOfRange("recipe.no-wax")
    return waxes


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
    balance = _Balance.of(recipe)
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
