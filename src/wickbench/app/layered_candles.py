"""Candles that were layered from leftovers: what keeps them from being sold, wherever they show."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.mixes import facts_of, recipe_of
from wickbench.domain.errors import DomainError
from wickbench.domain.leftovers_sale import sale_findings

if TYPE_CHECKING:
    from wickbench.app.shelf import Shelf
    from wickbench.domain.catalog import Candle
    from wickbench.domain.findings import Finding


def is_layered(candle: Candle, shelf: Shelf) -> bool:
    """Whether leftovers were layered to make it."""
    uses = (use for row in shelf.leftovers.values() for use in row.uses)
    return any(use.candle_id == candle.id for use in uses)


def layered_findings(candle: Candle, shelf: Shelf) -> tuple[Finding, ...]:
    """Every oil that keeps a layered candle from being sold; nothing for other candles."""
    version = shelf.versions.get(candle.version_id) if candle.version_id is not None else None
    if version is None or not is_layered(candle, shelf):
        return ()
    try:
        return tuple(sale_findings(recipe_of(version, shelf), facts_of(shelf)))
    except DomainError:
        return ()
