"""Running numbers of a print run: which number stands on which sticker, and which is the last."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.numbered import is_numbered

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_store import StoredLabel
    from wickbench.app.print_runs import PrintRun, RunLine


def numbers_of(line: RunLine) -> range:
    """Numbers of a line's stickers, from 1 unless it says another; at least one."""
    first = line.first_number or 1
    return range(first, first + max(1, line.count))


def last_number(run: PrintRun, line: RunLine) -> int:
    """The last number of all lines of the run with the same label, candle and lot.

    "No. 7 of 48" on a lot that is printed in two lines, 1 to 24 and 25 to 48.
    """
    key = (line.label_id, line.candle_id, line.lot_code)
    same = [one for one in run.lines if (one.label_id, one.candle_id, one.lot_code) == key]
    return max((numbers_of(one)[-1] for one in (*same, line)), default=1)


def has_numbers(labels: Mapping[int, StoredLabel], line: RunLine) -> bool:
    """Whether the label of a line carries the running number."""
    label = labels.get(line.label_id or 0)
    return label is not None and label.caution is None and is_numbered(label.design)
