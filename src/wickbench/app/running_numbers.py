"""Running numbers of a print run: which number stands on which sticker, and which is the last."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.documents.numbered import is_numbered

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_store import StoredLabel
    from wickbench.app.print_runs import PrintRun, RunLine


def numbers_of(run: PrintRun, line: RunLine) -> range:
    """Numbers of a line's stickers, at least one.

    From the one that the line says; else they go on where the line before of the same label,
    candle and lot ended; else from 1.
    """
    begin = 1
    for one in run.lines:
        if one.id == line.id:
            break
        if _kind(one) == _kind(line):
            begin = _numbers(one, begin).stop if one.count else begin
    return _numbers(line, begin)


def last_number(run: PrintRun, line: RunLine) -> int:
    """The last number of all lines of the run with the same label, candle and lot.

    "No. 7 of 48" on a lot that is printed in two lines, 1 to 24 and 25 to 48.
    """
    same = [one for one in run.lines if _kind(one) == _kind(line)]
    return max((numbers_of(run, one)[-1] for one in (*same, line)), default=1)


def has_numbers(labels: Mapping[int, StoredLabel], line: RunLine) -> bool:
    """Whether the label of a line carries the running number."""
    label = labels.get(line.label_id or 0)
    return label is not None and label.caution is None and is_numbered(label.design)


def _kind(line: RunLine) -> tuple[int | None, int | None, str]:
    """What lines that are numbered together have in common."""
    return line.label_id, line.candle_id, line.lot_code


def _numbers(line: RunLine, begin: int) -> range:
    first = line.first_number or begin
    return range(first, first + max(1, line.count))
