"""The Labels page: a print run on its sheet, and the labels themselves."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, ClassVar

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QTabBar
from typing_extensions import override

from wickbench.app import run_goals
from wickbench.app.labels import CAUTION, new_label
from wickbench.app.paper_sizes import paper_size
from wickbench.app.pour_label_words import done_text
from wickbench.app.print_history import run_from_print
from wickbench.app.starting_choices import title_at
from wickbench.gui.labels.calibration_dialog import CalibrationDialog
from wickbench.gui.labels.caution_panel import CautionPanel
from wickbench.gui.labels.desk import Desk
from wickbench.gui.labels.element_panel import ElementPanel
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.label_editor import LabelEditor
from wickbench.gui.labels.outgoing import Outgoing
from wickbench.gui.labels.pour_dialog import PourDialog
from wickbench.gui.labels.print_history import PrintHistory
from wickbench.gui.labels.run_view import RunWidget
from wickbench.gui.labels.scan_dialog import open_scan
from wickbench.gui.labels.sending import Sending
from wickbench.gui.labels.side_panel import SidePanel
from wickbench.gui.labels.work_bar import WorkBar
from wickbench.gui.naming import accessible, name_attributes
from wickbench.gui.page import Page, button

if TYPE_CHECKING:
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.questions import Ask
    from wickbench.app.runs_from_pour import PourRuns
    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import AnyElement

RUN, LABELS, PRINTED = 0, 1, 2
_WIDE_RUN, _WIDE_LABELS = 180, 112


class LabelsPage(Page):
    """Two tabs: the print run with its sheet, and the labels with their texts."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {
            "labels", "print_runs", "sheets", "materials", "vessels", "candles", "recipes",
            "equipment", "calibrations", "settings", "stock",
        }
    )  # fmt: skip
    needs_width = True

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        texts = workspace.texts
        self.desk = Desk(workspace)
        self.title.setText(texts("Labels"))
        self.tabs = accessible(QTabBar(), texts("Print run or labels"))
        self.run = RunWidget(self.desk)
        self.caution_panel = CautionPanel(self.desk)
        self.editor = LabelEditor(self.desk, self.caution_panel)
        self.side_panel = SidePanel(self.desk)
        self.element_panel = ElementPanel(workspace, ask)
        self.history = PrintHistory(workspace)
        self.work = WorkBar(texts)
        self.sending = Sending(workspace, ask, self.work)
        self.out = Outgoing(self.desk, ask, self.sending, self)
        self.proof = button(texts("Proof on plain paper"))
        self.print_button = button(texts("Print…"))
        self.export = button(texts("Export PDF"), "primary")
        self._lay_out()
        self._connect()
        name_attributes(self)
        self._show_tab()

    def _lay_out(self) -> None:
        self.tabs.addTab(self.texts("Print run"))
        self.tabs.addTab(self.texts("Label designs"))
        self.tabs.addTab(self.texts("Printed before"))
        self.tabs.setDrawBase(False)
        self.tabs.setExpanding(False)
        self.title.setVisible(False)
        self.top.insertWidget(0, self.tabs)
        self.top.insertStretch(1, 1)
        for one in (self.proof, self.print_button, self.export):
            self.buttons.addWidget(one)
        self.main.addWidget(self.work)
        self.main.addWidget(self.run)
        self.main.addWidget(self.editor)
        self.main.addWidget(self.history)
        self.main.addStretch(1)
        for aside in (self.side_panel, self.element_panel, self.editor.look.vessel_card.view):
            self.side.addWidget(aside)
        self.side.addStretch(1)
        self.show_side()

    def _connect(self) -> None:
        self.tabs.currentChanged.connect(self._show_tab)
        self.export.clicked.connect(self.out.export_pdf)
        self.proof.clicked.connect(self.out.export_proof)
        self.print_button.clicked.connect(self.out.print_sheets)
        history = self.history
        history.export_requested.connect(lambda: self.out.export_again(history.shown))
        history.print_requested.connect(lambda: self.out.print_again(history.shown))
        self.history.run_requested.connect(self._begin_again)
        for told in (self.run.panel, self.history):
            self.sending.done.connect(told.say_done)
        self.sending.changed.connect(self._show_buttons)
        self.run.panel.position_requested.connect(self.correct_position)
        self.run.panel.sheet_box.scan_requested.connect(self.find_in_scan)
        self.run.panel.run_chosen.connect(self._show_run)
        for place in (self.run.panel, self.editor):
            place.new_label_requested.connect(self.begin_label)
        self.run.panel.pour_requested.connect(self.show_pour)
        self.run.panel.findings.go_requested.connect(self.lead)
        self.run.placed.connect(self._show_buttons)
        self.run.candle_shown.connect(self._show_candle)
        self.run.label_opened.connect(self.show_record)
        self.side_panel.edit_requested.connect(self.show_record)
        self.side_panel.make_requested.connect(self._begin_caution)
        self.editor.label_shown.connect(self._show_panels)
        self.editor.look.measure_requested.connect(partial(self.go_requested.emit, "vessels"))
        self.editor.look.business_requested.connect(self._go_to_business)
        self.editor.look.preview.write_requested.connect(self.element_panel.write_anew)
        self.element_panel.drafted.connect(self._drafted)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        self.desk.measures = None
        self.desk.load()
        self.run.refresh()
        self.editor.refresh()
        self._show_history()
        self._show_candle()
        self._show_buttons()

    def _show_run(self) -> None:
        """Another print run was chosen; nothing in the file changed."""
        self.refresh(None)

    @override
    def show_record(self, record: int) -> None:
        """Open one label among the designs."""
        self.tabs.setCurrentIndex(LABELS)
        self.editor.show_label(record)

    @override
    def show_part(self, part: str) -> None:
        """Open the labels of a pour: "pour-12"; of any without a number."""
        word, _, number = part.partition("-")
        if word == "pour":
            self.show_pour(int(number) if number.isdigit() else None)

    def lead(self, key: str, record: object) -> None:
        """Go where a finding is mended, on this page or elsewhere."""
        if key == run_goals.ELEMENT and isinstance(record, tuple):
            self.tabs.setCurrentIndex(LABELS)
            self.editor.show_label(*record)
        elif key == run_goals.RUN and isinstance(record, int):
            self.run.panel.choose_run(record)
        elif key in {run_goals.LINES, run_goals.SHEET}:
            self.tabs.setCurrentIndex(RUN)
            self.run.panel.bring(key, record)
        else:
            self.go_requested.emit(key, record)

    def _show_tab(self, _index: int = 0) -> None:
        on_run = self.tabs.currentIndex() == RUN
        self.run.setVisible(on_run)
        self.editor.setVisible(self.tabs.currentIndex() == LABELS)
        self._show_history()
        self.side_panel.setVisible(on_run)
        self._show_panels()
        # An element's form is needed beside its label; caution and vessel may stand below.
        self.wide_characters = _WIDE_RUN if on_run else _WIDE_LABELS
        size = self.viewport().size()
        self.resizeEvent(QResizeEvent(size, size))

    def _show_history(self) -> None:
        """What was printed is read only when it is looked at."""
        on_history = self.tabs.currentIndex() == PRINTED
        self.history.setVisible(on_history)
        for one in (self.proof, self.print_button, self.export):
            one.setVisible(not on_history)
        if on_history:
            self.history.refresh()

    def _show_panels(self) -> None:
        stored = self.editor.stored
        editing = self.tabs.currentIndex() == LABELS and stored is not None
        is_caution = editing and stored is not None and stored.caution is not None
        self.caution_panel.setVisible(is_caution)
        if is_caution and stored is not None:
            self.caution_panel.show_label(stored, self.editor.look.shown_candle)
        at = self.editor.at
        if editing and not is_caution and stored is not None and at is not None:
            record, element = stored.element_ids[at], stored.design.elements[at]
            self.element_panel.show_element(stored.id, at, record, element)
        else:
            chosen = len(self.editor.look.preview.chosen)
            self.element_panel.clear(chosen if editing and chosen > 1 else 0)
        self.element_panel.setVisible(editing and not is_caution)
        self.editor.look.vessel_card.view.setVisible(editing and not is_caution)
        self.show_side(shown=self.tabs.currentIndex() == RUN or (editing and not is_caution))

    def _show_candle(self) -> None:
        self.side_panel.show_candle(self.run.shown_candle(), self.run.shown_entry())

    def _show_buttons(self) -> None:
        view = self.desk.view
        free = not self.sending.working
        for one in (self.export, self.print_button):
            one.setEnabled(view.may_print and free)
        self.proof.setEnabled(view.sheets > 0 and free)
        self.history.set_free(free=free)

    def _drafted(self, element: AnyElement) -> None:
        self.editor.look.show_draft(element)

    # -- doing -----------------------------------------------------------------------------------
    def _go_to_business(self) -> None:
        self.go_requested.emit("business", None)

    def begin_label(self) -> None:
        """Open the gallery of starting designs; the chosen one becomes a label."""
        gallery = Gallery(self.desk, self)
        gallery.setObjectName("gallery")
        gallery.begun.connect(self.show_begun)
        gallery.measure_requested.connect(partial(self.go_requested.emit, "vessels"))
        gallery.finished.connect(gallery.deleteLater)
        gallery.open()

    def show_begun(self, label_id: int) -> None:
        """Show a label just begun, its name chosen so that typing replaces it."""
        self.show_record(label_id)
        stored = self.editor.stored
        at = title_at(stored.design) if stored is not None and stored.caution is None else None
        if at is not None:
            self.editor.show_label(label_id, at)
            self.element_panel.write_anew()

    def _begin_caution(self) -> None:
        self.show_record(new_label(self.workspace, CAUTION, self.desk.sheet))

    def _begin_again(self, record: int) -> None:
        self.run.panel.choose_run(run_from_print(self.workspace, record))
        self.tabs.setCurrentIndex(RUN)

    def show_pour(self, plan: int | None = None) -> None:
        """Open what a pour gives to print; the latest one when none is named."""
        dialog = PourDialog(self.workspace, plan, self)
        dialog.setObjectName("pour_dialog")
        dialog.made.connect(self._show_made)
        dialog.go_requested.connect(self.lead)
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    def _show_made(self, keys: tuple[int, ...], found: PourRuns) -> None:
        self.tabs.setCurrentIndex(RUN)
        self.run.panel.choose_run(keys[0])
        self.run.panel.say_done(done_text(self.texts, found))

    def find_in_scan(self) -> None:
        """Ask for a scan of the empty sheet and show what is found in it."""
        sheet_id = self.desk.run.sheet_id
        if sheet_id is not None:
            open_scan(self.workspace, self.ask, sheet_id, self)

    def correct_position(self) -> None:
        """Open the form for the four measured crosshairs of the run's printer and tray."""
        sheet, run = self.desk.sheet, self.desk.run
        page = paper_size(self.workspace.settings)
        if sheet is not None:
            page = (sheet.page_w_mm, sheet.page_h_mm)
        place = (run.printer, run.tray)
        dialog = CalibrationDialog(self.workspace, self.ask, place, page, self)
        dialog.setObjectName("calibration_dialog")
        dialog.finished.connect(dialog.deleteLater)
        dialog.open()

    @override
    def release(self) -> None:
        self.work.stop()
        super().release()

    def _room(self, wide: int) -> int:
        """Width of the main column on a page of this width."""
        edges, gap = self._box.contentsMargins(), self._box.spacing()
        room = wide - edges.left() - edges.right()
        if self.side_below or self.side_column.isHidden():
            return room
        return room - gap - max(self.side_column.minimumWidth(), (room - gap) // 4)

    def _wanted(self) -> int:
        """Width that tabs and buttons need beside each other, with all their words."""
        return self.tabs.sizeHint().width() + self.top.spacing() + self.buttons.sizeHint().width()

    @override
    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = self._room(event.size().width()) >= self._wanted()
        side_by_side, below = QBoxLayout.Direction.LeftToRight, QBoxLayout.Direction.TopToBottom
        self.top.setDirection(side_by_side if wide else below)
        high = max(320, event.size().height() - 130)
        self.run.set_height(high)
        self.history.set_height(high)
        self.editor.look.preview.setFixedHeight(max(220, int(high * 0.62)))
