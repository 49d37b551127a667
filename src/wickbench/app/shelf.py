"""A snapshot of the shelf: everything that calculations need, read once after a change."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING

from wickbench.app.leftover_store import LeftoverRow, read_leftovers
from wickbench.domain.catalog import Candle, Equipment, Material, Price, RecipeVersion, Vessel
from wickbench.storage import catalog

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace


@dataclass(frozen=True, kw_only=True)
class Shelf:
    """Materials, vessels, versions, candles, equipment, stock, prices, leftovers, by their keys.

    ``on_hand`` in grams for what is weighed, pieces otherwise; ``None`` when never counted.
    Removed (archived) things are kept here, since old candles still name them.
    """

    materials: Mapping[int, Material] = field(default_factory=dict)
    vessels: Mapping[int, Vessel] = field(default_factory=dict)
    versions: Mapping[int, RecipeVersion] = field(default_factory=dict)
    candles: Mapping[int, Candle] = field(default_factory=dict)
    equipment: Equipment = field(default_factory=Equipment)
    on_hand: Mapping[int, float | None] = field(default_factory=dict)
    prices: Mapping[int, Price] = field(default_factory=dict)
    leftovers: Mapping[int, LeftoverRow] = field(default_factory=dict)

    @cached_property
    def names(self) -> dict[int, str]:
        """Names of all items, materials and vessels alike."""
        materials = {key: one.name for key, one in self.materials.items()}
        return materials | {key: one.name for key, one in self.vessels.items()}

    @cached_property
    def measured(self) -> dict[tuple[int, object], object]:
        """Measures of vessels by key and settings; only ``measures.measure_once`` looks inside."""
        return {}

    @cached_property
    def mixed(self) -> dict[int, object]:
        """Recipes by version; only ``mixes.recipe_once`` looks inside."""
        return {}

    def of_kind(self, kind: str) -> tuple[Material, ...]:
        """Materials of a kind that are still in use, by name."""
        found = (one for one in self.materials.values() if one.kind == kind and not one.archived)
        return tuple(sorted(found, key=lambda one: one.name.casefold()))

    def newest_versions(self) -> tuple[RecipeVersion, ...]:
        """The newest version of each recipe, by name."""
        newest: dict[int, RecipeVersion] = {}
        for version in self.versions.values():
            known = newest.get(version.recipe_id)
            if known is None or version.number > known.number:
                newest[version.recipe_id] = version
        return tuple(sorted(newest.values(), key=lambda one: one.name.casefold()))


def load_shelf(workspace: Workspace) -> Shelf:
    """Read the snapshot."""
    with workspace.read() as connection:
        return Shelf(
            materials={one.id: one for one in catalog.materials(connection, archived=True)},
            vessels={one.id: one for one in catalog.vessels(connection, archived=True)},
            versions={one.id: one for one in catalog.recipe_versions(connection)},
            candles={one.id: one for one in catalog.candles(connection, archived=True)},
            equipment=catalog.equipment(connection),
            on_hand=catalog.on_hand(connection),
            prices=catalog.prices(connection),
            leftovers=read_leftovers(connection),
        )
