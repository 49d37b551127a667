"""Recipes: what a mix is made of, and how much of each for a given total."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Any, TypeAlias

from wickbench.domain.errors import OutOfRange

Material: TypeAlias = Any
"""What a caller calls a material: any hashable key, which is only compared. (``Any``, because
the key of a ``Mapping`` is invariant: callers with ``dict[int, float]`` must fit.)"""

_BASES = {"wax": "wax", "of wax": "wax", "total": "total", "of total": "total"}
_WHOLE_PERCENT = 100.0


def checked_number(value: float, name: str, *, least: float = 0.0) -> float:
    """A finite number that is not below ``least``.

    Raises:
        OutOfRange: ``recipe.number`` with the field's name.
    """
    if not math.isfinite(value) or value < least:
        raise OutOfRange("recipe.number", field=name, value=value)
    return value


class Role(StrEnum):
    """What a material does in a mix, in the order in which it goes into the pot."""

    WAX = "wax"
    DYE = "dye"
    ADDITIVE = "additive"
    FRAGRANCE = "fragrance"


@dataclass(frozen=True, slots=True)
class Load:
    """A fragrance load: a percentage that always says of what.

    Attributes:
        percent: oil in percent of the basis.
        basis: ``"wax"`` or ``"total"`` (``"of wax"`` and ``"of total"`` are understood).
            *Of total* means oil and wax together.

    Raises:
        OutOfRange: a negative load, 100 % of the total or more, or a basis without meaning.
    """

    percent: float
    basis: str = "wax"

    def __post_init__(self) -> None:
        basis = _BASES.get(self.basis)
        if basis is None:
            raise OutOfRange("recipe.load-basis", basis=self.basis)
        object.__setattr__(self, "basis", basis)
        if not math.isfinite(self.percent) or self.percent < 0:
            raise OutOfRange("recipe.load-negative", load_percent=self.percent)
        if basis == "total" and self.percent >= _WHOLE_PERCENT:
            raise OutOfRange("recipe.load-whole", load_percent=self.percent)

    @property
    def of_wax(self) -> float:
        """Oil in percent of the wax: w = p / (1 - p)."""
        if self.basis == "wax":
            return self.percent
        return _WHOLE_PERCENT * self.percent / (_WHOLE_PERCENT - self.percent)

    @property
    def of_total(self) -> float:
        """Oil in percent of wax and oil together: p = w / (1 + w)."""
        if self.basis == "total":
            return self.percent
        return _WHOLE_PERCENT * self.percent / (_WHOLE_PERCENT + self.percent)


@dataclass(frozen=True, kw_only=True)
class Recipe:
    """One version of a recipe.

    Attributes:
        wax: parts of each wax by mass; any positive numbers, normalised when used.
        fragrance: parts of each fragrance oil by mass, normalised likewise.
        load: fragrance load, or None for a mix without scent.
        dye: each dye in percent of the wax.
        additives: each additive in percent of the wax.
        name: what the maker calls it.
        version: number of the version, counted from 1.
        heat_to_c: how hot the wax is made, °C.
        add_c: temperature at which the oil goes in, °C.
        pour_c: pouring temperature, °C.
        stir_min: how long to stir after the oil, minutes.
        cure_days: days until the candle is cured.

    Raises:
        OutOfRange: a negative or non-finite part, percentage or time.
    """

    wax: Mapping[Material, float] = field(default_factory=dict)
    fragrance: Mapping[Material, float] = field(default_factory=dict)
    load: Load | None = None
    dye: Mapping[Material, float] = field(default_factory=dict)
    additives: Mapping[Material, float] = field(default_factory=dict)
    name: str = ""
    version: int = 1
    heat_to_c: float | None = None
    add_c: float | None = None
    pour_c: float | None = None
    stir_min: float | None = None
    cure_days: int | None = None

    def __post_init__(self) -> None:
        for name in ("wax", "fragrance", "dye", "additives"):
            given = getattr(self, name)
            for amount in given.values():
                checked_number(amount, name)
            object.__setattr__(self, name, MappingProxyType(dict(given)))
        for name in ("heat_to_c", "add_c", "pour_c"):
            if (celsius := getattr(self, name)) is not None:
                checked_number(celsius, name, least=-273.15)
        for name in ("stir_min", "cure_days"):
            if (span := getattr(self, name)) is not None:
                checked_number(span, name)


@dataclass(frozen=True, slots=True)
class Part:
    """One material of a mix.

    Attributes:
        material: its key.
        role: what it does there.
        share: its mass as a fraction of the whole mix.
    """

    material: Material
    role: Role
    share: float


def normalised(parts: Mapping[Material, float]) -> dict[Material, float]:
    """Parts as fractions of their sum; parts of zero are left out."""
    whole = math.fsum(parts.values())
    if whole <= 0:
        return {}
    return {material: amount / whole for material, amount in parts.items() if amount > 0}


def _shares_of_kinds(recipe: Recipe) -> tuple[float, float]:
    """Fractions of the mix that are wax and fragrance oil.

    With w and a_i as fractions of the wax the mix is W (1 + w + sum a_i). A load *of total* is
    kept exactly even when dye and additives are in the mix: limits of safety sheets are in
    percent of the finished product.
    """
    beside_wax = math.fsum([*recipe.dye.values(), *recipe.additives.values()]) / _WHOLE_PERCENT
    load = recipe.load if normalised(recipe.fragrance) else None
    if load is None:
        return 1 / (1 + beside_wax), 0.0
    if load.basis == "total":
        oil = load.percent / _WHOLE_PERCENT
        return (1 - oil) / (1 + beside_wax), oil
    on_wax = load.percent / _WHOLE_PERCENT
    wax = 1 / (1 + on_wax + beside_wax)
    return wax, wax * on_wax


def mix_parts(recipe: Recipe) -> tuple[Part, ...]:
    """Every material of the mix with its share, wax first, fragrance last.

    Raises:
        OutOfRange: ``recipe.no-wax`` when the recipe has no wax.
    """
    waxes = normalised(recipe.wax)
    if not waxes:
        raise OutOfRange("recipe.no-wax")
    wax, oil = _shares_of_kinds(recipe)
    parts = [Part(key, Role.WAX, wax * share) for key, share in waxes.items()]
    parts += [Part(key, Role.DYE, wax * p / 100) for key, p in recipe.dye.items() if p > 0]
    parts += [
        Part(key, Role.ADDITIVE, wax * p / 100) for key, p in recipe.additives.items() if p > 0
    ]
    if oil > 0:
        oils = normalised(recipe.fragrance)
        parts += [Part(key, Role.FRAGRANCE, oil * share) for key, share in oils.items()]
    return tuple(parts)


def mix_amounts(recipe: Recipe, total_g: float) -> dict[Material, float]:
    """Grams of each material for a mix of ``total_g``; they sum to the total.

    Raises:
        OutOfRange: a negative or non-finite total, or a recipe without wax.
    """
    checked_number(total_g, "total_g")
    amounts: dict[Material, float] = {}
    for part in mix_parts(recipe):
        amounts[part.material] = amounts.get(part.material, 0.0) + part.share * total_g
    largest = max(amounts, key=lambda material: amounts[material])
    amounts[largest] += total_g - math.fsum(amounts.values())
    return amounts


def actual_load(recipe: Recipe) -> Load:
    """The load of the mix against its wax alone, whatever basis the recipe states."""
    if not normalised(recipe.wax):
        raise OutOfRange("recipe.no-wax")
    wax, oil = _shares_of_kinds(recipe)
    return Load(_WHOLE_PERCENT * oil / wax, "wax")


def oil_shares(recipe: Recipe) -> dict[Material, float]:
    """Each fragrance oil in percent of the finished mix."""
    return {
        part.material: _WHOLE_PERCENT * part.share
        for part in mix_parts(recipe)
        if part.role is Role.FRAGRANCE
    }


def share_percents(parts: Mapping[Material, float], *, digits: int = 1) -> dict[Material, float]:
    """Parts as percentages with ``digits`` decimals that sum to exactly 100 (largest remainder).

    An empty mapping, or one of zeros only, gives zeros.
    """
    shares = normalised(parts)
    steps = 10**digits
    exact = {material: share * _WHOLE_PERCENT * steps for material, share in shares.items()}
    whole = {material: math.floor(value) for material, value in exact.items()}
    missing = round(_WHOLE_PERCENT * steps) - sum(whole.values()) if shares else 0
    by_remainder = sorted(exact, key=lambda material: whole[material] - exact[material])
    for material in by_remainder[:missing]:
        whole[material] += 1
    return {material: whole.get(material, 0) / steps for material in parts}
