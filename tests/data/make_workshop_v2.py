"""Makes workshop-v2.wickbench, a file as version 2 writes it: labels and a print run with stickers.

The file stays as it is for ever. The script tells what is in it; only a program whose present
version is 2 can run it.
"""

from __future__ import annotations

import sqlite3
import sys
from pathlib import Path
from typing import TYPE_CHECKING

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE))

from make_workshop_v1 import StillClock, fill  # noqa: E402 - needs the path above

from wickbench.storage import records, workshop_file  # noqa: E402 - as above
from wickbench.storage.migrations import current_version  # noqa: E402 - as above

if TYPE_CHECKING:
    from wickbench.storage.workshop_file import Connection

TARGET = HERE / "workshop-v2.wickbench"
FILE_ID = "00000000-0000-4000-8000-000000000002"


def fill_labels(c: Connection) -> None:
    """A label in two versions, a sheet, and three print runs on it."""
    label = int(str(records.fetch_all(c, "label")[0]["id"]))
    second = {"label_id": label, "number": 2, "width_mm": 62.0, "height_mm": 36.0,
              "shape": "rounded", "corner_mm": 3.0, "safe_mm": 2.0}  # fmt: skip
    version = records.insert(c, "label_version", second)
    placed = {"version_id": version, "kind": "frame", "x_mm": -1.0, "y_mm": 2.5, "w_mm": 20.0,
              "h_mm": 8.0, "turn_deg": 90.0, "properties": {"version": 1}}  # fmt: skip
    records.insert(c, "label_element", placed)
    sheet = records.insert(c, "item", {"kind": "sheet", "name": "Twelve on a page"})
    records.insert(
        c, "sheet", {"item_id": sheet, "page": "A4", "columns": 3, "rows": 4, "sticker_w_mm": 62.0,
                     "sticker_h_mm": 36.0, "shape": "rounded"},
    )  # fmt: skip
    candle = int(str(records.fetch_all(c, "candle")[0]["id"]))
    for gone in ([0, 1, 5], [], [2]):
        used = {"version": 1, "sheets": [gone]} if gone else None
        run = records.insert(c, "print_run", {"sheet_id": sheet, "used": used})
        line = {"run_id": run, "label_id": label, "candle_id": candle, "lot_code": "260316A",
                "poured_on": "2026-03-16", "count": 18}  # fmt: skip
        records.insert(c, "print_line", line)


def main() -> None:
    """Make the file anew."""
    if current_version() != 2:
        raise SystemExit("Only the program of version 2 writes a file of version 2.")
    TARGET.unlink(missing_ok=True)
    workshop = workshop_file.create(TARGET, clock=StillClock(), made_by="0.2.0")
    fill(workshop)
    with workshop.step("Fill labels") as connection:
        fill_labels(connection)
    workshop.close()
    raw = sqlite3.connect(TARGET)
    raw.execute("UPDATE workshop SET file_id = ?", (FILE_ID,))
    raw.commit()
    raw.execute("VACUUM")
    raw.close()


if __name__ == "__main__":
    main()
