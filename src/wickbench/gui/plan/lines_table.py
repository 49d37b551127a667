"""The lines of a plan, changed in place; every figure follows while a count is typed."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, Qt, QTimer, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app import plan_lines, plans
from wickbench.app.plan_inputs import resolve
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.trouble_line import TroubleLine
from wickbench.gui.naming import name_attributes
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.plan_lines import LineWords
    from wickbench.app.plan_view import LineShown, PlanView
    from wickbench.app.plans import LineRow, PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

COUNT = 1
"""Place of the column where a new line goes on: beside the name, as pasted lists have it."""


class LinesTable(QWidget):
    """Candle or recipe, vessel, wicks, count and fill; the last row invites another line.

    Signals:
        typed: key of a line, key of a cell and its text while it is typed; the text is ``None``
            when the cell is closed.
        candle_requested: key of the candle that the person wants to see.
    """

    typed = Signal(object, str, object)
    candle_requested = Signal(int)

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        self.workspace = workspace
        texts = workspace.texts
        self._plan: PlanRow | None = None
        self._shelf: Shelf | None = None
        self._words: LineWords | None = None
        self._shown: dict[int, LineShown] = {}
        self._looks: dict[int, str] = {}
        self._drafts: dict[tuple[int, str], str] = {}
        self._goal: int | None = None
        self.model: RowModel[LineRow] = RowModel(
            lambda: workspace.texts, self._columns(), lambda row: row.id,
            add=self._add, adding=N_("Add a line…"),
        )  # fmt: skip
        self.table = TableView(
            self.model, texts(N_("Lines of the plan")), most_rows=14, fewest_rows=2
        )
        self.trouble = TroubleLine()
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(4)
        box.addWidget(self.table)
        box.addWidget(self.trouble)
        self._add_actions()
        self._connect()
        name_attributes(self)

    def _connect(self) -> None:
        self.model.refused.connect(self._tell)
        self.model.cell_typed.connect(self.typed)
        self.model.rows_shown.connect(self._go)
        self.table.remove_requested.connect(self._remove)
        self.table.opened.connect(self._open_candle)

    def _add_actions(self) -> None:
        """What can be done with a line, by key and by the right button."""
        texts = self.workspace.texts
        self.up = self._action(texts(N_("Move up")), "Alt+Up", partial(self._move, -1))
        self.down = self._action(texts(N_("Move down")), "Alt+Down", partial(self._move, 1))
        self.take_out = self._action(texts(N_("Take the line out")), "", self._remove_selected)
        self.open = self._action(texts(N_("Open the candle")), "Ctrl+Return", self._open_candle)
        self.table.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)

    def _action(self, text: str, keys: str, do: object) -> QAction:
        action = QAction(text, self.table)
        action.setShortcut(QKeySequence(keys))
        action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        action.triggered.connect(do)
        self.table.addAction(action)
        return action

    def _columns(self) -> list[Column[LineRow]]:
        return [*self._typed_columns(), *self._computed_columns()]

    def _typed_columns(self) -> list[Column[LineRow]]:
        return [
            Column(
                key="what", title=N_("Candle or recipe"), stretch=True, show=self._what,
                edit_text=plan_lines.what_word, write=partial(self._write, "what"),
                choices=lambda _row: self._words.what if self._words else [],
                look=partial(self._look, "what"),
            ),
            Column(
                key="count", title=N_("Count"), numeric=True,
                show=self._count, edit_text=self._count_text,
                write=partial(self._write, "count"), look=partial(self._look, "count"),
            ),
            Column(
                key="vessel", title=N_("Vessel"), show=partial(self._cell, "vessel"),
                edit_text=self._vessel_word, write=partial(self._write, "vessel"),
                choices=lambda _row: self._words.vessel if self._words else [],
                look=partial(self._look, "vessel"),
            ),
            Column(
                key="wick", title=N_("Wicks"), show=partial(self._cell, "wick"), spare=True,
                edit_text=self._wick_word, write=partial(self._write, "wick"),
                choices=lambda _row: self._words.wick if self._words else [],
                look=partial(self._look, "wick"),
            ),
            Column(
                key="fill", title=N_("Fill"), show=self._fill,
                edit_text=self._fill_word, write=partial(self._write, "fill"),
                choices=lambda row: self._words.fill(row) if self._words else [],
                look=partial(self._look, "fill"),
                about=N_("To the fill line, or the net weight of each: type a weight"),
            ),
        ]  # fmt: skip

    def _computed_columns(self) -> list[Column[LineRow]]:
        return [
            Column(
                key="mix_each", title=N_("Mix each"), numeric=True,
                show=partial(self._cell, "mix_each"), look=lambda row: self._looks.get(row.id, ""),
                hint=partial(self._cell, "net"),
                icon=lambda row: self._looks.get(row.id, ""),
            ),
            Column(
                key="declared", title=N_("Declared"), numeric=True, spare=True,
                show=self._declared, look=lambda _row: "quiet",
                about=N_("Declared net weight"),
            ),
        ]  # fmt: skip

    # -- cells -----------------------------------------------------------------------------------
    def _cell(self, name: str, row: LineRow) -> str:
        draft = self._drafts.get((row.id, name))
        if draft is not None:
            return draft
        shown = self._shown.get(row.id)
        said = str(getattr(shown, name)) if shown is not None else ""
        return said or (self.workspace.texts(N_("choose…")) if name == "vessel" else "")

    def _count(self, row: LineRow) -> str:
        return self._count_text(row) or self.workspace.texts(N_("how many?"))

    def _count_text(self, row: LineRow) -> str:
        """The stored count, not the one that the figures follow while it is typed."""
        stored = "" if row.count is None else str(row.count)
        return self._drafts.get((row.id, "count"), stored)

    def _what(self, row: LineRow) -> str:
        shown, draft = self._shown.get(row.id), self._drafts.get((row.id, "what"))
        if draft is not None or shown is None:
            return draft or ""
        return shown.candle or shown.recipe or self.workspace.texts(N_("choose…"))

    def _fill(self, row: LineRow) -> str:
        return self._drafts.get((row.id, "fill")) or plan_lines.fill_text(self.workspace, row)

    def _fill_word(self, row: LineRow) -> str:
        return self._fill(row) if row.fill_to == "net" else row.fill_to

    def _declared(self, row: LineRow) -> str:
        candle = self._shelf.candles.get(row.candle_id or 0) if self._shelf else None
        if candle is None or candle.declared_net_g is None:
            return ""
        return self.workspace.texts.quantity(candle.declared_net_g, "mass", both=False)

    def _vessel_word(self, row: LineRow) -> str:
        vessel = resolve(row, self._shelf).vessel if self._shelf else None
        return "" if vessel is None else str(vessel.id)

    def _wick_word(self, row: LineRow) -> str:
        return plan_lines.wick_word(resolve(row, self._shelf)) if self._shelf else ""

    def _look(self, cell: str, row: LineRow) -> str:
        if (row.id, cell) in self._drafts:
            return "stops"
        missing = {
            "what": row.candle_id is None and row.version_id is None,
            "vessel": row.candle_id is None and row.vessel_id is None,
            "count": row.count is None,
        }
        return "quiet" if missing.get(cell) else ""

    # -- showing ---------------------------------------------------------------------------------
    def show_lines(self, plan: PlanRow, shelf: Shelf, words: LineWords) -> None:
        """Show the lines of a plan; they wait while a cell is open. A begun plan is read only."""
        self._plan, self._shelf, self._words = plan, shelf, words
        self._load_drafts()
        open_to_change = plan.state == "planned"
        self.model.add = self._add if open_to_change else None
        triggers = TableView.EditTrigger
        self.table.setEditTriggers(
            triggers.DoubleClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed
            | triggers.SelectedClicked if open_to_change else triggers.NoEditTriggers
        )  # fmt: skip
        for action in (self.up, self.down, self.take_out):
            action.setEnabled(open_to_change)
        self.model.set_rows(plan.lines)

    def show_figures(self, view: PlanView) -> None:
        """Show what follows from the lines, also while a cell is open."""
        shown = {line.id: line for line in view.lines}
        looks = {
            int(str(mix.line_key)): "stops"
            for mix in view.result.lines
            if mix.over_declared_g is not None and mix.over_declared_g < 0
        }
        changed = {key for key, line in shown.items() if _seen(line) != _seen(self._shown.get(key))}
        changed |= {key for key, _ in looks.items() ^ self._looks.items()}
        self._shown, self._looks = shown, looks
        if changed:
            self.table.viewport().update()
            self.table.fit_columns()

    def _load_drafts(self) -> None:
        lines = self._plan.lines if self._plan else ()
        self._drafts = plan_lines.line_drafts(self.workspace, lines)
        said = [self._sentence(row, cell) for row in lines for cell in plan_lines.SPEC_OF_CELL]
        self.trouble.say("\n".join(dict.fromkeys(one for one in said if one)))

    def _sentence(self, row: LineRow, cell: str) -> str:
        draft = self._drafts.get((row.id, cell))
        if draft is None or self._words is None or self._shelf is None:
            return ""
        try:
            plan_lines.line_values(self.workspace, self._words, self._shelf, row, cell, draft)
        except DomainError as error:
            return self.workspace.texts.say(plan_lines.plain_refusal(error))
        return ""

    def _tell(self, sentence: str) -> None:
        if sentence:
            self.trouble.say(sentence)
        else:
            self._load_drafts()

    def _go(self) -> None:
        """Go to the line that was just added; Tab goes on to its count by itself."""
        at = self.model.row_of(self._goal) if self._goal is not None else -1
        if at >= 0:
            self._select(at, 0)
            QTimer.singleShot(0, self, self._go_to_count)

    def _go_to_count(self) -> None:
        """After Enter nothing moves by itself: go on to the count."""
        at = self.model.row_of(self._goal) if self._goal is not None else -1
        self._goal = None
        current = self.table.currentIndex()
        if at >= 0 and not self.model.editing and (current.row(), current.column()) == (at, 0):
            self._select(at, COUNT)

    def _select(self, row: int, column: int) -> None:
        flags = QItemSelectionModel.SelectionFlag
        index = self.model.index(row, column)
        self.table.selectionModel().setCurrentIndex(index, flags.ClearAndSelect | flags.Rows)

    # -- changing --------------------------------------------------------------------------------
    def begin_line(self) -> None:
        """Open the inviting last row."""
        index = self.model.index(self.model.rowCount() - 1, 0)
        self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        self.table.setCurrentIndex(index)
        self.table.edit(index)

    def _write(self, cell: str, row: LineRow, typed: str) -> None:
        if self._words is not None and self._shelf is not None:
            plan_lines.write_cell(self.workspace, self._words, self._shelf, row, cell, typed)

    def _add(self, typed: dict[str, str]) -> None:
        if self._plan is not None and self._words is not None and self._shelf is not None:
            self._goal = plan_lines.add_typed_line(
                self.workspace, self._words, self._shelf, self._plan, typed
            )

    def _remove_selected(self, *_: object) -> None:
        self._remove(self.table.selected_keys())

    def _remove(self, keys: list[int]) -> None:
        if keys and self.model.add is not None:
            plans.remove_lines(self.workspace, tuple(keys))

    def _open_candle(self, *_: object) -> None:
        """Show the candle of the current line where it is kept."""
        row = self.model.at(self.table.currentIndex())
        if row is not None and row.candle_id is not None:
            self.candle_requested.emit(row.candle_id)

    def _move(self, down: int, *_: object) -> None:
        key = self.table.current_key
        if self._plan is not None and isinstance(key, int):
            plan_lines.move_line(self.workspace, self._plan, key, down)


def _seen(line: LineShown | None) -> tuple[str, ...]:
    """What the cells show of a line; the rest of it is said on demand."""
    if line is None:
        return ()
    return line.candle, line.recipe, line.vessel, line.wick, line.mix_each
