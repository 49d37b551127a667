"""The page of leftovers: the list, what one is made of, where it went; keeping and layering."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar, Final

from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QPushButton, QSizePolicy, QWidget
from typing_extensions import override

from wickbench.app import leftover_keeping
from wickbench.app.leftovers import LEFTOVER_FIELDS, leftover_rows, view_leftover
from wickbench.app.shelf import load_shelf
from wickbench.app.texts_marker import N_
from wickbench.gui.fields.form import FieldForm
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.icons import set_icon
from wickbench.gui.leftovers.jar_card import JarCard
from wickbench.gui.leftovers.keep_card import KeepCard
from wickbench.gui.naming import accessible, name_attributes, plain_hint
from wickbench.gui.page import Page, button, heading, label, title_label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView
from wickbench.gui.theme import colours_of

if TYPE_CHECKING:
    from wickbench.app.kinds_of_change import Changes
    from wickbench.app.leftovers import LeftoverShown, PartShown, UseShown
    from wickbench.app.questions import Ask
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

_EMPTY: Final = N_(
    "What is left in a pot, or scooped out of candles that did not turn out, is kept here with "
    "everything that is in it, oil by oil. It goes into a later pour, or a jar is layered from it."
)
_PUT_AWAY: Final = N_("It was used already, so it was put away instead of deleted.")


class LeftoversPage(Page):
    """Leftovers with mass, recipe, load of total, oils and lot."""

    kinds: ClassVar[frozenset[str]] = frozenset(
        {"leftovers", "pours", "plans", "recipes", "materials", "vessels", "candles", "settings"}
    )

    def __init__(self, workspace: Workspace, ask: Ask) -> None:
        super().__init__(workspace, ask)
        texts = self.texts
        self.record: int | None = None
        self._shelf: Shelf | None = None
        self._filling = False
        self.title.setText(texts(N_("Leftovers")))
        self.keep = button(texts(N_("Keep a leftover")))
        self.layer = button(texts(N_("Layer a jar")))
        self.put_away_too = QCheckBox(texts(N_("Those that were put away too")))
        self.model: RowModel[LeftoverShown] = RowModel(
            lambda: self.texts, self._columns(), lambda row: row.id
        )
        self.table = TableView(self.model, texts(N_("Leftovers")), most_rows=10, fewest_rows=2)
        self.empty = label(texts(_EMPTY), "quiet")
        self.keep_first = button(texts(N_("Keep a leftover")), "primary")
        self.keep_card = KeepCard(workspace)
        self.jar_card = JarCard(workspace)
        self._make_tables()
        self._make_side()
        self._lay_out()
        self._connect()
        name_attributes(self)

    def _make_tables(self) -> None:
        texts = self.texts
        self.parts_model: RowModel[PartShown] = RowModel(
            lambda: self.texts, _part_columns(), lambda row: row.key
        )
        self.parts = TableView(
            self.parts_model, texts(N_("What it is made of")), most_rows=10, fewest_rows=1
        )
        self.uses_model: RowModel[UseShown] = RowModel(
            lambda: self.texts, _use_columns(), lambda row: row.key
        )
        self.uses = TableView(
            self.uses_model, texts(N_("Where it went")), most_rows=8, fewest_rows=1
        )

    def _make_side(self) -> None:
        texts = self.texts
        self.name = title_label()
        self.facts = label()
        self.findings = FindingsList()
        self.form = FieldForm(self.workspace, LEFTOVER_FIELDS)
        self.into_pour = button(texts(N_("Work it into a pour")), "primary")
        self.put_away = button(texts(N_("Used up or thrown away")))
        self.bring_back = button(texts(N_("Bring back")))
        self.remove: QPushButton = accessible(button("", "flat"), texts(N_("Remove")))
        self.remove.setToolTip(texts(N_("Remove")))
        set_icon(self.remove, "remove", colours_of(self))

    def _columns(self) -> list[Column[LeftoverShown]]:
        return [
            Column(key="name", title=N_("Name"), show=lambda row: row.name, stretch=True),
            Column(
                key="left", title=N_("Left"), show=lambda row: row.left, numeric=True,
                sort=lambda row: row.left_g, keeps=True,
            ),
            Column(key="recipe", title=N_("Recipe"), show=lambda row: row.recipe, spare=True),
            Column(key="load", title=N_("Load"), show=lambda row: row.load, numeric=True),
            Column(key="oils", title=N_("Oils"), show=lambda row: row.oils),
            Column(
                key="since", title=N_("Since"), show=lambda row: row.since,
                sort=lambda row: row.kept_on, spare=True, keeps=True,
            ),
            Column(
                key="lot", title=N_("From lot"), show=lambda row: row.lot, spare=True, keeps=True
            ),
        ]  # fmt: skip

    def _lay_out(self) -> None:
        texts = self.texts
        for new in (self.keep, self.keep_first):
            set_icon(new, "new", colours_of(self))
        self.table.setSelectionMode(TableView.SelectionMode.SingleSelection)
        self.table.allow_sorting()
        self.buttons.addWidget(self.layer)
        self.buttons.addWidget(self.keep)
        self.parts_words = heading(texts(N_("What it is made of")))
        self.uses_words = heading(texts(N_("Where it went")))
        for one in (self.keep_first, self.into_pour, self.put_away, self.bring_back):
            one.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        for part in (
            self.empty, self.keep_first, self.keep_card, self.jar_card, self.put_away_too,
            self.table, self.parts_words, self.parts, self.uses_words, self.uses,
        ):  # fmt: skip
            self.main.addWidget(part)
        self.main.addStretch(1)
        head = QHBoxLayout()
        head.addWidget(self.name, 1)
        head.addWidget(self.remove)
        self.side.addLayout(head)
        for below in (
            self.facts, self.findings, self.into_pour, self.form, self.put_away, self.bring_back,
        ):  # fmt: skip
            self.side.addWidget(below)
        self.side.addStretch(1)
        self.keep_card.setVisible(False)
        self.jar_card.setVisible(False)

    def _connect(self) -> None:
        self.table.chosen.connect(self._choose)
        self.put_away_too.toggled.connect(lambda: self.refresh(None))
        for new in (self.keep, self.keep_first):
            new.clicked.connect(self.begin_keeping)
        self.layer.clicked.connect(self.begin_layering)
        self.keep_card.kept.connect(self._kept)
        self.keep_card.given_up.connect(self._fold)
        self.jar_card.made.connect(self._made)
        self.jar_card.given_up.connect(self._fold)
        self.into_pour.clicked.connect(lambda: self.go_requested.emit("pour_plan", None))
        self.put_away.clicked.connect(self._put_away)
        self.bring_back.clicked.connect(self._bring_back)
        self.remove.clicked.connect(self._remove)
        self.uses.opened.connect(self._open_use)

    # -- showing ---------------------------------------------------------------------------------
    @override
    def refresh(self, changes: Changes | None) -> None:
        self._shelf = shelf = load_shelf(self.workspace)
        every = leftover_rows(shelf, self.texts, put_away=True)
        any_away = any(row.put_away for row in every)
        self.put_away_too.setVisible(any_away)
        too = any_away and self.put_away_too.isChecked()
        rows = [row for row in every if too or not row.put_away]
        if self.record not in [row.id for row in rows]:
            self.record = rows[0].id if rows else None
        self._filling = True
        self.model.set_rows(rows)
        if self.record is not None:
            self.table.go_to(self.record)
        self._filling = False
        busy = self.keep_card.isVisibleTo(self) or self.jar_card.isVisibleTo(self)
        for part, there in (
            (self.table, bool(rows)), (self.empty, not rows and not busy),
            (self.keep_first, not rows and not busy), (self.layer, bool(rows)),
            (self.keep, bool(rows)),
        ):  # fmt: skip
            part.setVisible(there)
        if self.jar_card.isVisibleTo(self):
            self.jar_card.show_shelf(shelf)
        self._fill_form()

    def _fill_form(self) -> None:
        shelf = self._shelf
        row = shelf.leftovers.get(self.record) if shelf and self.record is not None else None
        there = row is not None
        self.show_side(shown=there)
        shown: list[QWidget] = [self.parts_words, self.parts]
        for part in shown:
            part.setVisible(there)
        if row is None or shelf is None:
            self.form.show_record(None, {})
            for part in (self.uses_words, self.uses):
                part.setVisible(False)
            return
        view = view_leftover(row, shelf, self.texts)
        self.name.setText(row.name)
        self.name.setToolTip(plain_hint(row.name))
        self.facts.setText("\n".join(view.facts))
        self.findings.show_findings(self.texts, view.findings)
        self.form.show_record(
            row.id, {spec.name: getattr(row, spec.name) for spec in LEFTOVER_FIELDS}
        )
        self.parts_model.set_rows(view.parts)
        self.uses_model.set_rows(view.uses)
        for part in (self.uses_words, self.uses):
            part.setVisible(bool(view.uses))
        self.put_away.setVisible(not row.archived)
        self.bring_back.setVisible(bool(row.archived))
        self.into_pour.setVisible(not row.archived and row.left_g > 0)

    @override
    def show_record(self, record: int) -> None:
        """Bring a leftover into the form."""
        shelf = load_shelf(self.workspace)
        if record in shelf.leftovers and shelf.leftovers[record].archived:
            self.put_away_too.setChecked(True)
        self.record = record
        self.refresh(None)

    def _choose(self, record: object) -> None:
        if isinstance(record, int) and record != self.record and not self._filling:
            self.record = record
            self._fill_form()

    # -- what can be done ------------------------------------------------------------------------
    def begin_keeping(self) -> None:
        """Open the card for keeping one."""
        self.jar_card.setVisible(False)
        self.keep_card.setVisible(True)
        self.keep_card.begin()
        self.refresh(None)

    def begin_layering(self) -> None:
        """Open the card for layering a jar."""
        self.keep_card.setVisible(False)
        self.jar_card.setVisible(True)
        self.jar_card.begin(load_shelf(self.workspace))
        self.refresh(None)

    def _fold(self) -> None:
        self.keep_card.setVisible(False)
        self.jar_card.setVisible(False)
        self.refresh(None)

    def _kept(self, record: int) -> None:
        self._fold()
        self.show_record(record)

    def _made(self, candle: int) -> None:
        self._fold()
        self.go_requested.emit("candles", candle)

    def _put_away(self) -> None:
        if self.record is not None:
            leftover_keeping.put_away(self.workspace, self.record)

    def _bring_back(self) -> None:
        if self.record is not None:
            leftover_keeping.bring_back(self.workspace, self.record)

    def _remove(self) -> None:
        if self.record is not None and not leftover_keeping.remove(self.workspace, self.record):
            self.ask.tell(self.texts(_PUT_AWAY))

    def _open_use(self, key: object) -> None:
        use = next((one for one in self.uses_model.rows if one.key == key), None)
        if use is not None and use.goal is not None:
            self.go_requested.emit(*use.goal)


def _part_columns() -> list[Column[PartShown]]:
    return [
        Column(key="name", title=N_("Material"), show=lambda row: row.name, stretch=True),
        Column(key="role", title=N_("As"), show=lambda row: row.role, spare=True),
        Column(
            key="amount", title=N_("Left"), show=lambda row: row.amount, numeric=True,
            sort=lambda row: row.mass_g,
        ),
        Column(key="share", title=N_("Of total"), show=lambda row: row.share, numeric=True),
    ]  # fmt: skip


def _use_columns() -> list[Column[UseShown]]:
    return [
        Column(key="what", title=N_("Where it went"), show=lambda row: row.what, stretch=True),
        Column(key="day", title=N_("Day"), show=lambda row: row.day),
        Column(key="amount", title=N_("How much"), show=lambda row: row.amount, numeric=True),
    ]
