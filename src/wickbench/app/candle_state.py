"""The tested state of a candle: what its last verdict was given on, and what changed since."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from wickbench.app.texts_marker import N_
from wickbench.domain.catalog import TestRecord
from wickbench.domain.errors import CannotRead
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import records
from wickbench.storage.catalog import load_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle, RecipeVersion

VERDICTS = ("in_test", "passed", "test_again")
MadeOf = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """The tested state as it stands today.

    Attributes:
        state: "untested", "in_test", "passed" or "test_again".
        record: the last verdict; ``None`` when there is none.
        reasons: what changed after it passed, in words; empty when nothing did.
    """

    state: str
    record: TestRecord | None
    reasons: tuple[Finding, ...] = ()


def made_of(candle: Candle, shelf: Shelf) -> MadeOf:
    """What a verdict is given on: version, load, oils and their suppliers, vessel, wicks.

    Names are kept beside the keys so that a change can be said in words later.
    """
    version = shelf.versions.get(candle.version_id) if candle.version_id is not None else None
    load = version.load if version is not None else None
    return {
        "version_id": candle.version_id,
        "version": _named_version(version),
        "load_percent": None if load is None else load.percent,
        "load_basis": None if load is None else load.basis,
        "oils": _oils(version, shelf),
        "vessel_id": candle.vessel_id,
        "vessel": shelf.names.get(candle.vessel_id or 0, ""),
        "wick_ids": sorted(candle.wick_ids),
        "wicks": [shelf.names.get(key, "") for key in sorted(candle.wick_ids)],
    }


def _named_version(version: RecipeVersion | None) -> str:
    return "" if version is None else f"{version.name} v{version.number}"


def _oils(version: RecipeVersion | None, shelf: Shelf) -> list[MadeOf]:
    parts = version.parts if version is not None else ()
    found = []
    for part in sorted(parts, key=lambda one: one.item_id or 0):
        material = shelf.materials.get(part.item_id or 0)
        if part.role == "fragrance" and material is not None:
            supplier = (material.supplier or "").strip()
            found.append({"id": material.id, "name": material.name, "supplier": supplier})
    return found


def state_of(candle: Candle, shelf: Shelf) -> Tested:
    """The state of a candle: its last verdict, reopened when what it was given on changed."""
    record = candle.tests[-1] if candle.tests else None
    if record is None:
        return Tested(state="untested", record=None)
    if record.state != "passed":
        return Tested(state=record.state, record=record)
    reasons = changed_since(record.made_of or {}, made_of(candle, shelf))
    return Tested(state="test_again" if reasons else "passed", record=record, reasons=reasons)


def changed_since(was: Mapping[str, Any], now: Mapping[str, Any]) -> tuple[Finding, ...]:
    """What differs between what was tested and what would be made now; each in one sentence.

    A record that does not say what it was given on (made by hand, or before this was kept) is
    taken at its word: only what it names is compared.
    """
    return tuple(
        one for check in (_version, _load, _oil, _vessel, _wicks) for one in check(was, now)
    )


def _version(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Finding]:
    if "version_id" in was and was["version_id"] != now["version_id"]:
        data = {"was": was.get("version") or "–", "now": now["version"] or "–"}
        yield Finding(Rank.WATCH, "candle.version-changed", data)


def _load(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Finding]:
    if "load_percent" not in was:
        return
    before = load_of(was["load_percent"], was.get("load_basis"))
    after = load_of(now["load_percent"], now["load_basis"])
    if before != after:
        data = {
            "was_percent": before.of_wax if before else 0.0,
            "now_percent": after.of_wax if after else 0.0,
        }
        yield Finding(Rank.WATCH, "candle.load-changed", data)


def _oil(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Finding]:
    if "oils" not in was:
        return
    before = {oil["id"]: oil for oil in was["oils"]}
    after = {oil["id"]: oil for oil in now["oils"]}
    if before.keys() != after.keys():
        data = {"was": _names(before), "now": _names(after)}
        yield Finding(Rank.WATCH, "candle.oil-changed", data)
    for key in before.keys() & after.keys():
        supplier, other = before[key].get("supplier") or "", after[key]["supplier"]
        if supplier != other:
            data = {"name": after[key]["name"], "was": supplier or "–", "now": other or "–"}
            yield Finding(Rank.WATCH, "candle.supplier-changed", data)


def _names(oils: Mapping[Any, Mapping[str, Any]]) -> str:
    return ", ".join(str(oil.get("name") or "") for oil in oils.values()) or "–"


def _vessel(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Finding]:
    if "vessel_id" in was and was["vessel_id"] != now["vessel_id"]:
        data = {"was": was.get("vessel") or "–", "now": now["vessel"] or "–"}
        yield Finding(Rank.WATCH, "candle.vessel-changed", data)


def _wicks(was: Mapping[str, Any], now: Mapping[str, Any]) -> Iterator[Finding]:
    if "wick_ids" in was and list(was["wick_ids"]) != list(now["wick_ids"]):
        data = {
            "was": ", ".join(was.get("wicks") or ()) or "–",
            "now": ", ".join(now["wicks"]) or "–",
        }
        yield Finding(Rank.WATCH, "candle.wicks-changed", data)


def record_test(
    workspace: Workspace,
    shelf: Shelf,
    candle: Candle,
    verdict: str,
    *,
    tested_by: str | None = None,
    tested_on: str | None = None,
    note: str | None = None,
    origin: object = None,
) -> int:
    """Record a verdict with what it was given on; the version is frozen from then on.

    Args:
        workspace: the open workshop.
        shelf: fresh, as the candle is.
        candle: what was tested.
        verdict: "in_test", "passed" or "test_again".
        tested_by: who says so.
        tested_on: ISO date; today when not given.
        note: what was seen.
        origin: who began it.

    Raises:
        CannotRead: the candle has no recipe or no vessel yet, or the day is still to come.
    """
    if verdict not in VERDICTS:
        raise ValueError(verdict)
    if candle.version_id is None or candle.vessel_id is None:
        raise CannotRead("candle.test-needs-recipe-and-vessel")
    today = workspace.clock.today().isoformat()
    if tested_on is not None and tested_on > today:
        raise CannotRead("candle.tested-in-future", tested_on=tested_on)
    values = {
        "candle_id": candle.id,
        "state": verdict,
        "tested_by": tested_by,
        "tested_on": tested_on or today,
        "note": note,
        "at_ms": workspace.clock.now_ms(),
        "version_id": candle.version_id,
        "vessel_id": candle.vessel_id,
        "made_of": made_of(candle, shelf),
    }
    with workspace.step(N_("Record a test"), origin=origin) as connection:
        records.update(connection, "recipe_version", candle.version_id, {"frozen": 1})
        return records.insert(connection, "test_record", values)
