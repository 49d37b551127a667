"""What a key pressed in a plan costs: the whole plan in words beside the bare arithmetic.

Not collected with the tests:  python tests/benchmarks/bench_plan.py
"""

# ruff: noqa: T201  (a benchmark prints)

from __future__ import annotations

import datetime as dt
import math
import statistics
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from wickbench.app import plans, shelf_edit, stock
from wickbench.app.plan_view import ViewMemo, view_plan
from wickbench.app.questions import Silent
from wickbench.app.shelf import Shelf, load_shelf
from wickbench.app.texts import Texts
from wickbench.app.workspace import Services, Workspace
from wickbench.storage import records

RECIPES = 10
ROUNDS = 40
FRAME_MS = 16.0


class Watch:
    """A clock for the workshop file."""

    def now_ms(self) -> int:
        """UTC milliseconds."""
        return time.time_ns() // 1_000_000

    def today(self) -> dt.date:
        """A fixed day."""
        return dt.date(2026, 11, 28)

    def monotonic(self) -> float:
        """Seconds."""
        return time.monotonic()


def bench_workshop(folder: Path, lines: int, each: int) -> tuple[Workspace, int]:
    """Ten recipes of two waxes, two oils and a dye; each line a vessel weighed five times."""
    services = Services(Watch(), Texts(), Silent())
    workspace = Workspace.create(folder / f"{lines}.wickbench", services)
    for name, most, step in (("Bench", 6000.0, 1.0), ("Oil", 500.0, 0.1), ("Dye", 50.0, 0.01)):
        values = {"name": name, "maximum_g": most, "step_g": step}
        shelf_edit.new_equipment(workspace, "scale", values)
    shelf_edit.new_equipment(workspace, "pot", {"name": "P", "brim_ml": 5000.0, "empty_g": 400.0})
    plan = plans.new_plan(workspace)
    versions = [recipe(workspace, number) for number in range(RECIPES)]
    for number in range(lines):
        line = {
            "version_id": versions[number % RECIPES],
            "vessel_id": vessel(workspace, number),
            "wick_count": 0,
            "count": each,
        }
        plans.add_line(workspace, plan, line)
    return workspace, plan


def recipe(workspace: Workspace, number: int) -> int:
    """One recipe; returns the key of its version."""
    parts: dict[str, tuple[tuple[str, float, dict[str, object]], ...]] = {
        "wax": (("Soy", 80.0, {"liquid_g_per_ml": 0.87}), ("Palm", 20.0, {})),
        "fragrance": (("Fig", 70.0, {"density_g_per_ml": 0.97}), ("Moss", 30.0, {})),
    }
    made = shelf_edit.new_recipe(workspace, f"Recipe {number}")
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "recipe_version", {"recipe_id": made})
    version = int(str(rows[0]["id"]))
    for role, materials in parts.items():
        for name, share, details in materials:
            item = shelf_edit.new_item(workspace, role, {"name": f"{name} {number}"}, details)
            stock.buy(workspace, item, 50_000.0, 300.0)
            with workspace.step("part") as connection:
                row = {"version_id": version, "role": role, "item_id": item, "parts": share}
                records.insert(connection, "recipe_part", row)
    with workspace.step("load") as connection:
        records.update(connection, "recipe_version", version, {"load_percent": 7.0})
    return version


def vessel(workspace: Workspace, number: int) -> int:
    """One vessel, weighed five times up to its line."""
    made = shelf_edit.new_item(
        workspace, "vessel", {"name": f"Jar {number}"}, {"nominal_ml": 250.0, "vessel_kind": "jar"}
    )
    with workspace.step("weigh") as connection:
        for jar in range(5):
            weighing = {
                "vessel_id": made, "vessel_no": jar + 1, "level": "line", "empty_g": 200.0 + jar,
                "filled_g": 430.0 + jar + number / 10, "water_c": 21.0,
            }  # fmt: skip
            records.insert(connection, "weighing", weighing)
    return made


def bare(lines: list[tuple[int, float, int]], shares: list[tuple[float, float]]) -> float:
    """The same sums in plain Python: fills, fewest pots, rounding, leftover; no words.

    Args:
        lines: recipe, volume to the line in mL, count.
        shares: share of the mix and density, for each part.
    """
    left = 0.0
    density = 1 / sum(share / own for share, own in shares)
    for number in range(RECIPES):
        each = [(round(ml * density, 1), count) for made, ml, count in lines if made == number]
        vessels = [grams for grams, count in each for _ in range(count)]
        pots = max(1, math.ceil(sum(vessels) / (4000.0 * density)))
        for pot in range(pots):
            need = sum(vessels[pot::pots]) + 30.0
            left += sum(round(need * share, 1) for share, _ in shares) - (need - 30.0)
    return left


def timed(plan: plans.PlanRow, shelf: Shelf, workspace: Workspace) -> list[float]:
    """Seconds for each of many counts typed into the first line."""
    seconds = []
    memo = ViewMemo()
    for number in range(ROUNDS):
        first = replace(plan.lines[0], count=1 + number % 9)
        typed = replace(plan, lines=(first, *plan.lines[1:]))
        began = time.perf_counter()
        view_plan(
            typed,
            shelf,
            workspace.settings,
            workspace.texts,
            today=dt.date(2026, 11, 28),
            memo=memo,
        )
        seconds.append(time.perf_counter() - began)
    return seconds


def floor_seconds(lines: int, each: int) -> list[float]:
    """Seconds for the bare arithmetic of the same plan."""
    rows = [(number % RECIPES, 230.0 + number / 10, each) for number in range(lines)]
    shares = [(0.75, 0.87), (0.18, 0.88), (0.05, 0.97), (0.02, 1.0)]
    seconds = []
    for _ in range(ROUNDS):
        began = time.perf_counter()
        bare(rows, shares)
        seconds.append(time.perf_counter() - began)
    return seconds


def milliseconds(seconds: list[float]) -> str:
    """Median and worst."""
    return f"{statistics.median(seconds) * 1000:7.2f} ms (worst {max(seconds) * 1000:6.2f})"


def main() -> None:
    """Print both, side by side."""
    with tempfile.TemporaryDirectory() as folder:
        print(f"a key may take {FRAME_MS:g} ms;   the whole plan in words  |  bare arithmetic")
        for lines, each in ((3, 12), (20, 10), (200, 1)):
            workspace, plan = bench_workshop(Path(folder), lines, each)
            shelf, row = load_shelf(workspace), plans.load_plan(workspace, plan)
            whole = milliseconds(timed(row, shelf, workspace))
            bare_ms = milliseconds(floor_seconds(lines, each))
            print(f"{lines:4d} lines, {lines * each:4d} vessels: {whole}  |  {bare_ms}")
            workspace.close()


if __name__ == "__main__":
    main()
