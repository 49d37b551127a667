"""Leftovers in the pots of a pour: kept with the pot as planned, read back as steps."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from wickbench.domain.bench import BenchStep
from wickbench.domain.leftover_lines import LeftoverIn
from wickbench.domain.recipes import Role
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.plan_pots import PotCard
    from wickbench.app.shelf import Shelf
    from wickbench.storage.workshop_file import Connection

    Key = tuple[Role, Any]


def leftovers_kept(card: PotCard, shelf: Shelf) -> list[dict[str, Any]]:
    """What is kept with a pot of its leftovers: words, lot, step of the scale, what it brings."""
    words = [one for one in card.weigh if one.role == "leftover"]
    return [
        {
            "name": said.name,
            "when": said.when,
            "scale": said.scale,
            "step_g": line.step_g,
            "key": line.brings.key,
            "lot": shelf.leftovers[int(str(line.brings.key))].lot_code,
            "shares": _pairs(line.brings.shares),
            "gives": _pairs(line.brings.gives),
        }
        for said, line in zip(words, card.plan.leftovers, strict=True)
    ]


def _pairs(by_key: Mapping[Key, float]) -> list[list[Any]]:
    return [[role.value, item, share] for (role, item), share in by_key.items()]


def _read(pairs: Sequence[Sequence[Any]]) -> dict[Key, float]:
    return {(Role(role), int(item)): float(share) for role, item, share in pairs}


def _rows(connection: Connection, pour_pot: object) -> list[dict[str, Any]]:
    return records.fetch_all(connection, "pour_leftover", {"pour_pot_id": pour_pot})


def leftover_ids(connection: Connection, pour_pot: object) -> tuple[int, ...]:
    """Keys of the rows of a pot's leftovers, in their order."""
    return tuple(int(str(row["id"])) for row in _rows(connection, pour_pot))


def leftover_steps(
    connection: Connection,
    pour_pot: object,
    plan: Mapping[str, Any],
    names: Mapping[object, str],
) -> tuple[BenchStep, ...]:
    """The steps that weigh leftovers; they stand first."""
    kept = {one["key"]: one for one in plan.get("leftovers") or ()}
    return tuple(_step(row, kept[row["leftover_id"]], names) for row in _rows(connection, pour_pot))


def _step(
    row: Mapping[str, Any], kept: Mapping[str, Any], names: Mapping[object, str]
) -> BenchStep:
    shares = _read(kept["shares"])
    return BenchStep(
        material=("leftover", row["leftover_id"]),
        name=str(kept["name"]),
        role=Role.WAX,
        planned_g=row["planned_g"] or 0.0,
        step_g=float(kept["step_g"]),
        weighed_g=row["weighed_g"],
        leftover=LeftoverIn(
            key=row["leftover_id"],
            shares=shares,
            gives=_read(kept["gives"]),
            names={item: names.get(item, "") for _, item in shares},
        ),
    )


def leftover_words(plan: Mapping[str, Any], name: str, count: int) -> tuple[str, ...]:
    """Words of each leftover's step as on the weigh sheet."""
    kept = [str(one.get(name) or "") for one in plan.get("leftovers") or ()]
    return (*kept, *[""] * count)[:count]


def leftover_lots(plan: Mapping[str, Any]) -> tuple[tuple[str, str], ...]:
    """Each leftover of a pot with the lot that it came from; empty where that is not known."""
    return tuple(
        (str(one["name"]), str(one.get("lot") or "")) for one in plan.get("leftovers") or ()
    )
