"""Makes workshop-v1.wickbench, a file as version 1 writes it.

The file stays as it is for ever. The script tells what is in it; only a program whose present
version is 1 can run it.
"""

from __future__ import annotations

import datetime as dt
import sqlite3
import sys
from pathlib import Path
from typing import TYPE_CHECKING

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parents[1] / "src"))

from wickbench.storage import records, state, workshop_file  # noqa: E402 - needs the path above
from wickbench.storage.migrations import current_version  # noqa: E402 - as above

if TYPE_CHECKING:
    from wickbench.storage.workshop_file import Connection, WorkshopFile

TARGET = HERE / "workshop-v1.wickbench"
FILE_ID = "00000000-0000-4000-8000-000000000001"


class StillClock:
    """One moment for ever."""

    def now_ms(self) -> int:
        """Noon of that day."""
        return 1_773_489_600_000

    def today(self) -> dt.date:
        """That day."""
        return dt.date(2026, 3, 14)

    def monotonic(self) -> float:
        """No time passes."""
        return 0.0


def fill_shelf(c: Connection) -> tuple[int, int, int]:
    """A wax, an oil and a vessel with what belongs to them."""
    wax = records.insert(c, "item", {"kind": "wax", "name": "Lärchenwachs"})
    records.insert(
        c, "wax", {"item_id": wax, "liquid_g_per_ml": 0.86, "max_load_percent": 10.0,
                   "max_load_basis": "wax", "pour_c": 60.5},
    )  # fmt: skip
    oil = records.insert(c, "item", {"kind": "fragrance", "name": "Winter rain"})
    records.insert(c, "fragrance", {"item_id": oil, "density_g_per_ml": 0.98, "flash_c": 93.0})
    jar = records.insert(c, "item", {"kind": "vessel", "name": "Plain jar"})
    records.insert(c, "vessel", {"item_id": jar, "vessel_kind": "jar", "height_mm": 88.5})
    records.insert(c, "vessel_diameter", {"vessel_id": jar, "height_mm": 0.0, "diameter_mm": 72.25})
    scale = records.insert(c, "scale", {"name": "Bench", "maximum_g": 5000.0, "step_g": 1.0})
    records.insert(
        c, "weighing", {"vessel_id": jar, "vessel_no": 1, "empty_g": 210.4, "filled_g": 512.9,
                        "water_c": 21.5, "scale_id": scale},
    )  # fmt: skip
    lot = {"item_id": wax, "quantity": 5_000_000, "paid_money": 42.5, "bought_on": "2026-03-14"}
    lot_id = records.insert(c, "material_lot", lot)
    move = {"item_id": wax, "lot_id": lot_id, "quantity": 5_000_000, "reason": "bought"}
    records.insert(c, "stock_move", move)
    return wax, oil, jar


def fill_candles(c: Connection, wax: int, oil: int, jar: int) -> None:
    """A recipe, a candle, a plan with a pot that was poured, and a label."""
    recipe = records.insert(c, "recipe", {"name": "Winter evening"})
    version = {"recipe_id": recipe, "load_percent": 6.25, "load_basis": "wax", "state": "testing"}
    version_id = records.insert(c, "recipe_version", version)
    for role, item in (("wax", wax), ("fragrance", oil)):
        part = {"version_id": version_id, "role": role, "item_id": item, "parts": 1.0}
        records.insert(c, "recipe_part", part)
    candle = {"name": "Winter", "version_id": version_id, "vessel_id": jar, "declared_net_g": 200.0}
    candle_id = records.insert(c, "candle", candle)
    plan = records.insert(c, "plan", {"name": "Monday", "pour_on": "2026-03-16"})
    records.insert(c, "plan_line", {"plan_id": plan, "candle_id": candle_id, "count": 18})
    pot = records.insert(c, "pour_pot", {"plan_id": plan, "lot_code": "260316A", "state": "done"})
    records.insert(c, "pour_amount", {"pour_pot_id": pot, "item_id": wax, "weighed_g": 1001.5})
    label = records.insert(c, "label", {"name": "Front"})
    label_version = records.insert(c, "label_version", {"label_id": label, "width_mm": 50.0})
    text = {"version_id": label_version, "properties": {"version": 1, "text": "Winter ö"}}
    records.insert(c, "label_element", text)


def fill(workshop: WorkshopFile) -> None:
    """Something in every corner."""
    with workshop.step("Fill") as connection:
        fill_candles(connection, *fill_shelf(connection))
        state.set_setting(connection, "currency", "EUR")
        state.next_number(connection, "lot")
        state.set_draft(connection, "wax", 1, "flash_c", "hot")
        sha256 = state.store_blob(connection, bytes(range(256)), "image/png")
        blob_id = state.blob_id(connection, sha256)
        records.insert(connection, "attachment", {"name": "photo", "blob_id": blob_id})
        state.record_print(
            connection, at_ms=1_773_489_600_000, kind="labels", title="First", snapshot={"n": 1}
        )


def main() -> None:
    """Make the file anew."""
    if current_version() != 1:
        raise SystemExit("Only the program of version 1 writes a file of version 1.")
    TARGET.unlink(missing_ok=True)
    workshop = workshop_file.create(TARGET, clock=StillClock(), made_by="0.1.0")
    fill(workshop)
    workshop.close()
    raw = sqlite3.connect(TARGET)
    raw.execute("UPDATE workshop SET file_id = ?", (FILE_ID,))
    raw.commit()
    raw.execute("VACUUM")
    raw.close()


if __name__ == "__main__":
    main()
