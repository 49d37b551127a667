"""Vessels layered from leftovers: candles of their own kind, and whether they may be sold."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.leftovers import Leftover, together
from wickbench.domain.leftovers_sale import as_recipe, sale_findings
from wickbench.domain.recipe_checks import Facts
from wickbench.domain.recipes import Recipe

if TYPE_CHECKING:
    from collections.abc import Sequence


@dataclass(frozen=True, slots=True)
class Layered:
    """A vessel filled with leftovers, one above the other.

    Attributes:
        recipe: all of it together, as one mix.
        findings: which oil keeps it from being sold, and what else is worth saying.
    """

    recipe: Recipe
    findings: tuple[Finding, ...]

    @property
    def for_sale(self) -> bool:
        """Every oil's limit is known and holds. Nothing else was looked at."""
        return not any(one.rank is Rank.STOPS for one in self.findings)


def layered(layers: Sequence[Leftover], facts: Facts | None = None) -> Layered:
    """A vessel of leftovers: a candle of its own kind, and whether each oil's limit holds.

    A limit is of the finished candle, so it is checked on the whole vessel; a layer that is over
    it by itself is told as well, because a candle burns one layer at a time.

    Raises:
        OutOfRange: ``leftovers.no-layer`` when there is nothing in the vessel.
    """
    known = facts or Facts()
    masses = together(layers)
    if not masses:
        raise OutOfRange("leftovers.no-layer")
    whole = replace(as_recipe(masses, layers[0].recipe), name="")
    findings = [*sale_findings(whole, known)]
    over = {one.about for one in findings if one.rank is Rank.STOPS}
    for place, layer in enumerate(layers, start=1):
        for one in sale_findings(layer.recipe, known):
            if one.key == "leftovers.oil-over" and one.about not in over:
                data = {**one.data, "layer": place}
                findings.append(
                    Finding(Rank.WATCH, "leftovers.layer-over", data, (*one.about, place))
                )
    findings.append(Finding(Rank.WATCH, "leftovers.layers-untested"))
    return Layered(whole, sort_findings(findings))
