"""What a caution sticker says: region, languages, drawings, and each statement with its source."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QCheckBox, QGridLayout, QSizePolicy, QVBoxLayout, QWidget

from wickbench.app.caution_wish_fields import (
    CAUTION_FIELDS,
    usual_values,
    wish_values,
    with_value,
)
from wickbench.app.label_caution import (
    CautionRow,
    caution_rows,
    rule_of,
    with_note,
    with_printed,
    with_words,
)
from wickbench.app.label_making import caution_choice
from wickbench.app.label_store import CautionWish
from wickbench.app.labels import change_caution
from wickbench.app.languages import LANGUAGE_NAMES
from wickbench.app.standards import CAUTION_LANGUAGES
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.net_weight import REGIONS
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.labels.value_form import ValueForm
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import heading, label
from wickbench.gui.tables.column import Column
from wickbench.gui.tables.row_model import RowModel
from wickbench.gui.tables.table_view import TableView

if TYPE_CHECKING:
    from wickbench.app.label_store import StoredLabel
    from wickbench.domain.catalog import Candle
    from wickbench.gui.labels.desk import Desk

REGION_WORDS = {"US": N_("United States"), "EU": N_("European Union"), "UK": N_("United Kingdom")}
PICTURE_WORDS = {
    "none": N_("no drawings"),
    "beside": N_("drawings beside the text"),
    "instead": N_("drawings instead of text, where the rule lets them"),
}


class CautionPanel(QWidget):
    """Form and statements of a caution sticker."""

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self._label: StoredLabel | None = None
        texts = desk.workspace.texts
        regions = [(word, texts(REGION_WORDS[word])) for word in REGIONS]
        self.region = ChoiceField(texts("Sold in"), regions)
        self.languages = {
            code: QCheckBox(texts(LANGUAGE_NAMES[code])) for code in CAUTION_LANGUAGES
        }
        drawings = [(word, texts(said)) for word, said in PICTURE_WORDS.items()]
        self.pictures = ChoiceField(texts("Drawings"), drawings)
        self.model: RowModel[CautionRow] = RowModel(
            lambda: desk.workspace.texts, self._columns(), lambda row: (row.key, row.language)
        )
        self.statements = TableView(self.model, texts("Statements"), most_rows=14)
        self.statements.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.source = label("", "quiet")
        self.more = ValueForm(desk.workspace, CAUTION_FIELDS, self._take)
        self.more.prepare_narrow()
        self._lay_out()
        self.region.committed.connect(lambda word: self._change(region=word))
        self.pictures.committed.connect(lambda word: self._change(pictures=word))
        for code, box in self.languages.items():
            box.setObjectName(f"language_{code}")
            box.clicked.connect(partial(self._language, code))
        name_attributes(self)

    def _lay_out(self) -> None:
        texts = self._desk.workspace.texts
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(8)
        box.addWidget(heading(texts("What it says")))
        box.addWidget(label(texts("Sold in"), "quiet"))
        box.addWidget(self.region)
        box.addWidget(label(texts("Languages"), "quiet"))
        grid = QGridLayout()
        for at, one in enumerate(self.languages.values()):
            grid.addWidget(one, at // 2, at % 2)
        box.addLayout(grid)
        box.addWidget(self.pictures)
        box.addWidget(self.more)
        box.addWidget(self.statements)
        box.addWidget(self.source)
        box.addStretch(1)

    def _columns(self) -> tuple[Column[CautionRow], ...]:
        texts = self._desk.workspace.texts
        answers = [("1", texts(N_("yes"))), ("0", texts(N_("no")))]
        return (
            Column(
                key="text",
                title=N_("Statement"),
                show=lambda row: row.text,
                write=lambda row, typed: self._store(with_words(self._wish(), row, typed)),
                stretch=True,
                about=N_("Type your own words over it; emptied, the rule’s words come back."),
                look=lambda row: "" if row.printed else "quiet",
            ),
            Column(
                key="printed",
                title=N_("Printed"),
                keeps=True,
                show=self._printed_words,
                edit_text=lambda row: "1" if row.printed else "0",
                choices=lambda row: answers[:1] if row is not None and row.mandatory else answers,
                write=lambda row, typed: self._store(
                    with_printed(self._wish(), row, printed=typed == "1")
                ),
            ),
            Column(
                key="note",
                title=N_("Why own words"),
                show=lambda row: row.note if row.own else "",
                write=lambda row, typed: self._store(with_note(self._wish(), row, typed)),
            ),
        )

    def _printed_words(self, row: CautionRow) -> str:
        texts = self._desk.workspace.texts
        if row.mandatory:
            return texts(N_("required"))
        return texts(N_("yes")) if row.printed else texts(N_("no"))

    # -- showing ---------------------------------------------------------------------------------
    def show_label(self, stored: StoredLabel, candle: Candle | None) -> None:
        """Show a caution sticker as it is for a candle."""
        self._label = stored
        wish = self._wish()
        regions = self._desk.workspace.settings.regions
        choice = caution_choice(wish, self._desk.shelf, candle, regions)
        self.region.show_stored(choice.region)
        self.pictures.show_stored(wish.pictures)
        for code, box in self.languages.items():
            box.setChecked(code in wish.languages)
        self.more.show_record(stored.id, wish_values(wish))
        self.more.show_assumed(usual_values(self._desk.workspace.texts))
        try:
            self.model.set_rows(caution_rows(choice))
            rule = rule_of(choice)
            said = N_("After {source}, {date}. Local rules and a licensed assessor decide.")
            self.source.setText(
                self._desk.workspace.texts(said, source=rule.source, date=rule.date)
            )
        except DomainError as error:
            self.model.set_rows([])
            self.source.setText(self._desk.workspace.texts.say(error))

    # -- doing -----------------------------------------------------------------------------------
    def _wish(self) -> CautionWish:
        found = self._label.caution if self._label is not None else None
        return found or CautionWish()

    def _change(self, *, region: str | None = None, pictures: str | None = None) -> None:
        wish = self._wish()
        self._store(replace(wish, region=region or wish.region, pictures=pictures or wish.pictures))

    def _language(self, code: str, *_: object) -> None:
        wish = self._wish()
        kept = [one for one in wish.languages if one != code]
        languages = (*kept, code) if self.languages[code].isChecked() else tuple(kept)
        if not languages:
            self.languages[code].setChecked(True)
            return
        self._store(replace(wish, languages=languages))

    def _take(self, name: str, value: object) -> None:
        self._store(with_value(self._wish(), name, value))

    def _store(self, wish: CautionWish) -> None:
        if self._label is not None:
            change_caution(self._desk.workspace, self._label.id, wish)
