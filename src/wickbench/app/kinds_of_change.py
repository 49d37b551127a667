"""Which kinds of thing changed, told from the tables that a step touched."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_MATERIAL_TABLES = (
    "wax",
    "wax_measurement",
    "fragrance",
    "wick",
    "dye",
    "additive",
    "lid",
    "packaging",
    "supplies",
)
_KINDS: Mapping[str, frozenset[str]] = {
    "item": frozenset({"materials", "vessels", "sheets"}),
    **{name: frozenset({"materials"}) for name in _MATERIAL_TABLES},
    "sheet": frozenset({"materials", "sheets"}),
    **{name: frozenset({"vessels"}) for name in ("vessel", "vessel_diameter", "weighing")},
    **{name: frozenset({"stock"}) for name in ("material_lot", "stock_move", "place")},
    **{name: frozenset({"recipes"}) for name in ("recipe", "recipe_version", "recipe_part")},
    **{
        name: frozenset({"candles"})
        for name in ("candle", "candle_wick", "candle_extra", "test_record")
    },
    **{name: frozenset({"plans"}) for name in ("plan", "plan_line", "plan_pot", "plan_leftover")},
    **{
        name: frozenset({"pours"})
        for name in ("pour_pot", "pour_amount", "pour_fill", "temperature_reading")
    },
    "pour_leftover": frozenset({"pours", "leftovers"}),
    **{name: frozenset({"leftovers"}) for name in ("leftover", "leftover_part")},
    **{name: frozenset({"leftovers", "candles"}) for name in ("layered", "layer")},
    "heating": frozenset({"heatings"}),
    "timer": frozenset({"timers"}),
    "net_check": frozenset({"net_checks"}),
    **{
        name: frozenset({"labels"})
        for name in ("label", "label_version", "label_element", "set_aside")
    },
    **{
        name: frozenset({"print_runs"})
        for name in ("print_run", "print_line", "print_record", "begun_sheet")
    },
    **{
        name: frozenset({"equipment"})
        for name in ("scale", "pot", "heat_source", "thermometer", "printer")
    },
    "calibration": frozenset({"calibrations"}),
    "attachment": frozenset({"attachments"}),
    "setting": frozenset({"settings"}),
    "draft": frozenset({"drafts"}),
}


@dataclass(frozen=True, slots=True)
class Changes:
    """What a step changed and who began it (the origin may skip its own refresh)."""

    kinds: frozenset[str]
    origin: object = None

    def touch(self, *kinds: str) -> bool:
        """Whether any of these kinds changed."""
        return not self.kinds.isdisjoint(kinds)


def changes_of(tables: Iterable[str], origin: object = None) -> Changes:
    """Kinds from table names; a table without a kind is named by itself."""
    kinds: set[str] = set()
    for name in tables:
        kinds |= _KINDS.get(name, frozenset({name}))
    return Changes(frozenset(kinds), origin)
