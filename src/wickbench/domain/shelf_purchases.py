"""What to buy: which purchase lets the shelf make most candles more, and in what order."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.findings import Finding, Rank
from wickbench.domain.from_the_shelf import from_the_shelf, use_of
from wickbench.domain.recipes import Material, mix_parts

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from wickbench.domain.shelf_values import Making, Reach, Shelf


@dataclass(frozen=True, slots=True)
class Purchase:
    """Something bought, and how far the shelf then reaches.

    Attributes:
        materials: what is bought; more than one where they run out together.
        before: sets without it.
        after: sets with as much of it as they can use; None when nothing else sets a limit.
        amounts: grams or pieces of each to buy for that; empty without a limit.
        candles_before: candles without it.
        candles_after: candles with it; None when nothing else sets a limit.
    """

    materials: tuple[Material, ...]
    before: int
    after: int | None
    amounts: Mapping[Material, float]
    candles_before: int = 0
    candles_after: int | None = None

    @property
    def more(self) -> int | None:
        """Sets more; None when nothing else sets a limit."""
        return None if self.after is None else self.after - self.before

    @property
    def more_candles(self) -> int | None:
        """Candles more; None when nothing else sets a limit."""
        if self.candles_after is None:
            return None
        return self.candles_after - self.candles_before


def purchases(
    makings: Sequence[Making], shelf: Shelf, *, rungs: int = 5, near: bool = False
) -> tuple[Purchase, ...]:
    """What to buy first, and what next: each rung buys what stopped the one before.

    Only what runs out can free anything; where several things run out together no single one of
    them does, so they stand on one rung.

    Raises:
        OutOfRange: as ``from_the_shelf``.
    """
    return tuple(_rungs(makings, shelf, rungs, near=near))


def _rungs(
    makings: Sequence[Making], shelf: Shelf, rungs: int, *, near: bool
) -> Iterator[Purchase]:
    bought: tuple[Material, ...] = ()
    reach = from_the_shelf(makings, shelf, near=near)
    for _ in range(rungs):
        if reach.sets is None or not reach.runs_out:
            return
        materials = tuple(one.material for one in reach.runs_out)
        bought += materials
        richer = from_the_shelf(makings, shelf.without_limit(*bought), near=near)
        yield Purchase(
            materials,
            reach.sets,
            richer.sets,
            _missing(makings, shelf, materials, richer, near=near),
            reach.total,
            None if richer.sets is None else richer.total,
        )
        reach = richer


def _missing(
    makings: Sequence[Making],
    shelf: Shelf,
    materials: tuple[Material, ...],
    richer: Reach,
    *,
    near: bool,
) -> dict[Material, float]:
    """What the richer shelf would use of each, less what there is."""
    if richer.sets is None:
        return {}
    use = use_of(makings, shelf, richer.sets, near=near)
    return {item: use[item] - max(0.0, shelf.stock.get(item) or 0.0) for item in materials}


@dataclass(frozen=True, slots=True)
class Freed:
    """What buying one thing frees, over candles that each may have the whole shelf.

    Attributes:
        material: what is bought.
        more: candles more of each, by key, where there are any; None: nothing else sets a limit.
    """

    material: Material
    more: Mapping[Hashable, int | None]

    @property
    def unlimited(self) -> int:
        """Candles for which nothing else sets a limit."""
        return sum(count is None for count in self.more.values())

    @property
    def total(self) -> int:
        """All candles more, those without a limit left out."""
        return sum(count for count in self.more.values() if count is not None)


def freed_by_one(makings: Sequence[Making], shelf: Shelf) -> tuple[Freed, ...]:
    """Each single purchase that frees something, the one that frees most first.

    Every candle is looked at by itself, as if the whole shelf were for it: the numbers of one
    purchase compare with those of another, they are no plan.

    Raises:
        OutOfRange: as ``from_the_shelf``.
    """
    freed: defaultdict[Material, dict[Hashable, int | None]] = defaultdict(dict)
    for one in makings:
        for bought in purchases([replace(one, ratio=1)], shelf, rungs=1):
            if len(bought.materials) == 1:
                freed[bought.materials[0]][one.key] = bought.more
    found = [Freed(material, more) for material, more in freed.items()]
    return tuple(sorted(found, key=lambda one: (-one.unlimited, -one.total)))


def shelf_findings(
    makings: Sequence[Making],
    shelf: Shelf,
    names: Mapping[Material, str],
    *,
    near: bool = False,
) -> tuple[Finding, ...]:
    """In sentences: what runs out, which purchase frees most, and what was never counted.

    Each is about ``("material", key)``, where there is one.
    """
    reach = from_the_shelf(makings, shelf, near=near)
    called = _Names(names, makings)
    findings: list[Finding] = []
    if reach.sets is None:
        findings.append(Finding(Rank.WATCH, "shelf.no-limit"))
    else:
        findings += called.run_out(reach)
        findings += called.first(purchases(makings, shelf, rungs=1, near=near))
    if reach.uncounted:
        data = {"names": called.of(reach.uncounted)}
        findings.append(
            Finding(Rank.NOTE, "shelf.uncounted", data, ("material", reach.uncounted[0]))
        )
    return tuple(findings)


class _Names:
    """What materials are called, and which are weighed."""

    def __init__(self, names: Mapping[Material, str], makings: Sequence[Making]) -> None:
        self._names = names
        self._grams = {part.material for one in makings for part in mix_parts(one.recipe)}

    def of(self, materials: Sequence[Material]) -> tuple[str, ...]:
        return tuple(self._names.get(item, str(item)) for item in materials)

    def _measured(self, item: Material, name: str, amount: float) -> tuple[str, dict[str, object]]:
        """Ending of a key, and data: what is bought or missing by weight or by the piece."""
        if item in self._grams:
            return "-mass", {f"{name}_g": amount}
        return "-pieces", {name: math.ceil(amount - 1e-6)}

    def run_out(self, reach: Reach) -> Iterator[Finding]:
        """Each thing that runs out first, with what is missing for one more."""
        key = "shelf.runs-out" if reach.sets else "shelf.not-one"
        for one in reach.runs_out:
            ending, data = self._measured(one.material, "short", one.short)
            data |= {"name": self.of((one.material,))[0], "more": reach.step}
            yield Finding(Rank.WATCH, f"{key}{ending}", data, ("material", one.material))

    def first(self, rungs: Sequence[Purchase]) -> Iterator[Finding]:
        for bought in rungs:
            names = self.of(bought.materials)
            if bought.after is None:
                about = ("material", bought.materials[0])
                yield Finding(Rank.NOTE, "shelf.buy-no-limit", {"names": names}, about)
            elif len(names) > 1:
                data: dict[str, object] = {"names": names, "more": bought.more_candles}
                yield Finding(Rank.NOTE, "shelf.buy-together", data)
            else:
                yield self._single(bought, names[0])

    def _single(self, bought: Purchase, name: str) -> Finding:
        (material, amount), *_ = bought.amounts.items()
        ending, data = self._measured(material, "buy", amount)
        data |= {"name": name, "more": bought.more_candles, "all": bought.candles_after}
        return Finding(Rank.NOTE, f"shelf.buy{ending}", data, ("material", material))
