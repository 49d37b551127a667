"""Columns of the print run's table: which label, for which candle and lot, how many."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app import print_runs
from wickbench.app.candle_labels import candle_words
from wickbench.app.edit import read_field
from wickbench.app.fields import field
from wickbench.app.poured_lots import lots_of, poured_lots
from wickbench.app.running_numbers import has_numbers, numbers_of
from wickbench.app.texts_marker import N_
from wickbench.gui.tables.column import Column

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.print_runs import RunLine
    from wickbench.gui.labels.desk import Desk

COUNT = field("print_line", "count", N_("Stickers"), "count", low=0, high=print_runs.MOST_STICKERS)
FIRST = field("print_line", "first_number", N_("Numbers"), "count", low=1, high=1_000_000)
LOT = field("print_line", "lot_code", N_("Lot"), "text")
DAY = field("print_line", "poured_on", N_("Poured on"), "date")


class RunColumns:
    """What the table shows and how typed text gets into a print run."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk

    def columns(self) -> tuple[Column[RunLine], ...]:
        """From left to right."""
        return (
            Column(
                key="label_id",
                title=N_("Label"),
                show=self._label,
                choices=lambda _row: self._labels(),
                edit_text=lambda row: str(row.label_id or ""),
                write=lambda row, typed: self._set(row, {"label_id": int(typed)}),
                stretch=True,
            ),
            Column(
                key="candle_id",
                title=N_("For"),
                show=self._candle,
                choices=lambda _row: self._candles(),
                edit_text=lambda row: str(row.candle_id or ""),
                write=lambda row, typed: self._set(row, self._candle_value(typed)),
            ),
            *self._lot_columns(),
            Column(
                key="count",
                title=COUNT.label,
                show=lambda row: str(row.count),
                write=lambda row, typed: self._set(row, self._count_value(typed)),
                numeric=True,
            ),
        )

    def _lot_columns(self) -> tuple[Column[RunLine], ...]:
        """The lot, and the day on which it was poured."""
        return (
            Column(
                key="lot_code",
                title=LOT.label,
                show=lambda row: row.lot_code,
                choices=self._lots,
                edit_text=lambda row: row.lot_code,
                write=lambda row, typed: self._set(row, self._lot_value(typed)),
            ),
            Column(
                key="poured_on",
                title=DAY.label,
                show=self._day,
                edit_text=lambda row: row.poured_on,
                write=lambda row, typed: self._set(row, self._day_value(typed)),
                about=N_("Stands on a label that has the day, and goes with the lot."),
                spare=True,
            ),
            Column(
                key="first_number",
                title=FIRST.label,
                show=self._numbers,
                edit_text=lambda row: str(row.first_number or ""),
                write=lambda row, typed: self._set(row, self._first_value(typed)),
                about=N_("Running numbers, on labels with the field {number}. Type the first one."),
                spare=True,
            ),
        )

    def add(self, typed: dict[str, str]) -> None:
        """Make a line of what was typed or chosen in the inviting row."""
        values = self.usual()
        readers: dict[str, Callable[[str], dict[str, object]]] = {
            "label_id": lambda text: {"label_id": int(text)},
            "candle_id": self._candle_value,
            "lot_code": self._lot_value,
            "poured_on": self._day_value,
            "first_number": self._first_value,
            "count": self._count_value,
        }
        for name, text in typed.items():
            values |= readers[name](text)
        run, _ = print_runs.add_line(self._desk.workspace, self._desk.run_id, values)
        self._desk.run_id = run

    def usual(self) -> dict[str, object]:
        """What a new line begins with: the last line's candle and lot, and what is left free."""
        view, lines = self._desk.view, self._desk.run.lines
        candles = self._candles()
        left = view.need.left or (view.sheet.count if view.sheet is not None else 1)
        values: dict[str, object] = {"count": max(1, left)}
        if lines:
            last = lines[-1]
            values |= {"candle_id": last.candle_id, "lot_code": last.lot_code}
            values |= {"poured_on": last.poured_on or None}
        elif len(candles) == 2:  # noqa: PLR2004 - none, and the only one
            values["candle_id"] = int(candles[1][0])
        if len(self._labels()) == 1:
            values["label_id"] = int(self._labels()[0][0])
        return values

    def _set(self, row: RunLine, values: dict[str, object]) -> None:
        print_runs.change_line(self._desk.workspace, row.id, values)

    def _count_value(self, typed: str) -> dict[str, object]:
        return {"count": read_field(self._desk.workspace, COUNT, typed) or 0}

    def _first_value(self, typed: str) -> dict[str, object]:
        return {"first_number": read_field(self._desk.workspace, FIRST, typed)}

    def _numbers(self, row: RunLine) -> str:
        """First and last number of a line, where its label shows them."""
        if not has_numbers(self._desk.labels, row):
            return "–"
        numbers = numbers_of(self._desk.run, row)
        return f"{numbers[0]}–{numbers[-1]}"

    def _lot_value(self, typed: str) -> dict[str, object]:
        """A code as it is typed; a lot that was poured here brings its day along."""
        code = read_field(self._desk.workspace, LOT, typed)
        days = [lot.poured_on for lot in poured_lots(self._desk.workspace) if lot.code == code]
        return {"lot_code": code, "poured_on": days[0] or None if days else None}

    def _day_value(self, typed: str) -> dict[str, object]:
        return {"poured_on": read_field(self._desk.workspace, DAY, typed) or None}

    @staticmethod
    def _candle_value(typed: str) -> dict[str, object]:
        return {"candle_id": int(typed) if typed else None}

    def _label(self, row: RunLine) -> str:
        label = self._desk.labels.get(row.label_id or 0)
        return label.name if label is not None else "–"

    def _candle(self, row: RunLine) -> str:
        candle = self._desk.candle(row.candle_id)
        return candle_words(candle) if candle is not None else "–"

    def _day(self, row: RunLine) -> str:
        return self._desk.workspace.texts.day(row.poured_on) if row.poured_on else "–"

    def _labels(self) -> list[tuple[str, str]]:
        return [(str(one.id), one.name) for one in self._desk.offered_labels()]

    def _lots(self, row: RunLine | None) -> list[tuple[str, str]]:
        """Lots poured of the line's candle; another code can be typed."""
        candle = row.candle_id if row is not None else None
        codes = [lot.code for lot in lots_of(self._desk.workspace, candle)]
        return [("", "–"), *((code, code) for code in dict.fromkeys(codes))]

    def _candles(self) -> list[tuple[str, str]]:
        kept = [one for one in self._desk.shelf.candles.values() if not one.archived]
        kept.sort(key=lambda one: one.name.casefold())
        return [("", "–"), *((str(one.id), candle_words(one)) for one in kept)]
