"""Findings that are mended at once or left as they are, by keys and clicks at the real page."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QPushButton

from app.label_workshop import fill_workshop
from wickbench.app import label_elements, labels, print_runs
from wickbench.app.label_store import stored_label
from wickbench.app.set_aside import LeftAlone, all_set_aside
from wickbench.app.texts import Texts
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.finding_row import FindingCare, FindingRow
from wickbench.gui.findings_list import FindingsList
from wickbench.gui.labels.labels_page import RUN, LabelsPage

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pytestqt.qtbot import QtBot

    from wickbench.app.workspace import Workspace
    from wickbench.gui.labels.not_checked import NotChecked
    from wickbench.gui.main_window import MainWindow

TEXTS = Texts()
SMALL = "required.figures-small-panel"
WATCH = Finding(Rank.WATCH, "required.net-missing", {"source": "16 CFR", "date": "2015"})
STOP = Finding(Rank.STOPS, "plan.no-pot")


@pytest.fixture
def listed(qtbot: QtBot) -> FindingsList:
    made = FindingsList("Nothing to watch out for.")
    qtbot.addWidget(made)
    made.show()
    return made


def button(parent: object, words: str) -> QPushButton:
    """The visible button with these words."""
    found = [
        one
        for one in parent.findChildren(QPushButton)  # type: ignore[attr-defined]
        if one.text() == words and not one.isHidden()
    ]
    assert found, words
    return found[0]


# -- one list ------------------------------------------------------------------------------------
def test_the_rule_stands_below_and_an_offer_tells_its_key(
    qtbot: QtBot, listed: FindingsList
) -> None:
    care = FindingCare(rule=lambda _: "After 16 CFR.", offers=lambda _: (("wider", "Widen it"),))
    listed.show_findings(TEXTS, [WATCH], care=care)
    with qtbot.waitSignal(listed.offer_taken) as taken:
        button(listed, "Widen it").click()
    assert taken.args == ["wider"]


def test_a_note_is_typed_and_left_with_enter_and_escape_keeps_the_finding(
    qtbot: QtBot, listed: FindingsList
) -> None:
    may = FindingCare(may_leave=lambda one: one is WATCH)
    listed.show_findings(TEXTS, [STOP, WATCH], care=may)
    settle()
    leaving = shown_with(listed, "Leave it as")
    assert len(leaving) == 1  # what stops you is not left
    leaving[0].click()
    line = listed.findChild(QLineEdit)
    assert line is not None
    assert line.isVisible()
    QTest.keyClicks(line, "asked the office")
    QTest.keyClick(line, Qt.Key.Key_Escape)
    assert not line.isVisible()
    assert leaving[0].hasFocus()
    QTest.keyClick(leaving[0], Qt.Key.Key_Space)
    assert line.text() == "asked the office"
    with qtbot.waitSignal(listed.left) as left:
        QTest.keyClick(line, Qt.Key.Key_Return)
    assert left.args == [WATCH, "asked the office"]


def test_what_was_left_is_folded_does_not_count_and_is_taken_up(
    qtbot: QtBot, listed: FindingsList
) -> None:
    alone = LeftAlone(finding=WATCH, ids=(4, 7), note="", set_on="2026-11-25")
    care = FindingCare(left=(alone,), left_words=lambda _: "Left as it is on 25 November 2026.")
    listed.show_findings(TEXTS, [], care=care)
    assert listed.sentences == ["Nothing to watch out for."]
    assert (listed.worst, listed.left_sentences) == ("fine", [TEXTS.say(WATCH)])
    assert listed.fold is not None
    assert listed.fold.isVisible()
    row = listed._rows[1]
    assert not row.isVisible()
    QTest.keyClick(listed.fold, Qt.Key.Key_Space)
    assert row.isVisible()
    with qtbot.waitSignal(listed.taken_up) as taken:
        button(row, "Take up again").click()
    assert taken.args == [(4, 7)]
    listed.show_findings(TEXTS, [STOP])
    assert not listed.fold.isVisible()


# -- the page ------------------------------------------------------------------------------------
@pytest.fixture
def shop(window: MainWindow) -> Workspace:
    assert window.workspace is not None
    return window.workspace


@pytest.fixture
def page(window: MainWindow, shop: Workspace) -> Iterator[LabelsPage]:
    """The page with a label whose net weight is far too small, in a run of one line."""
    assert window.workbench is not None
    kept = fill_workshop(shop)
    label = labels.new_label(shop, "hush")
    at = net_of(shop, label)
    label_elements.change_element(shop, label, at, {"size_pt": 7.0, "min_size_pt": 6.0})
    run = print_runs.choose_sheet(shop, None, kept.three_by_seven)
    values = {"label_id": label, "candle_id": kept.bramble, "lot_code": "A1", "count": 2}
    print_runs.add_line(shop, run, values)
    shown = window.workbench.show_page("labels")
    assert isinstance(shown, LabelsPage)
    shown.show_record(label)
    settle()
    yield shown
    shown.tabs.setCurrentIndex(RUN)


def net_of(shop: Workspace, label: int) -> int:
    """Place of the net weight on a label."""
    texts = [getattr(one, "text", "") for one in stored_label(shop, label).design.elements]
    return texts.index("{net weight}")


def settle() -> None:
    """Let what was put off happen."""
    QApplication.processEvents()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    QApplication.processEvents()


def small(listed: FindingsList) -> list[str]:
    """Sentences about figures that are too small."""
    return [one for one in listed.sentences if "at least 3.18 mm" in one]


def test_a_net_weight_that_is_too_small_is_mended_by_one_click_and_undone(
    page: LabelsPage, shop: Workspace
) -> None:
    listed = page.editor.look.findings
    assert len(small(listed)) == 1
    label = page.editor.label_id
    assert label is not None
    before, at = stored_label(shop, label).design, net_of(shop, label)
    # While something is dragged no ways are looked for: the mouse must not wait for them.
    page.editor.look.show_drafts({at: before.elements[at]})
    assert len(small(listed)) == 1
    settle()
    assert not shown_with(listed, "larger")
    page.editor.look.show_drafts({})
    button(listed, "Make it larger: 14.25 pt").click()
    settle()
    assert small(listed) == []
    assert shop.undo_label == "Mend a label"
    after = stored_label(shop, label).design
    pairs = enumerate(zip(before.elements, after.elements, strict=True))
    assert [place for place, (old, new) in pairs if old != new] == [at]
    shop.undo()
    settle()
    assert len(small(listed)) == 1
    assert stored_label(shop, label).design == before


def test_a_finding_is_left_on_the_label_and_stays_left_in_the_run(
    page: LabelsPage, shop: Workspace
) -> None:
    listed = page.editor.look.findings
    says_what_nobody_checks(page.editor.look.checked.not_checked)
    row = next(one for one in rows(listed) if "at least 3.18 mm" in one._said.sentence)
    button(row, "Leave it as it is…").click()
    line = row.findChild(QLineEdit)
    assert line is not None
    QTest.keyClicks(line, "gift size, asked the office")
    QTest.keyClick(line, Qt.Key.Key_Return)
    settle()
    assert small(listed) == []
    assert [one.note for one in all_set_aside(shop)] == ["gift size, asked the office"]
    page.tabs.setCurrentIndex(RUN)
    settle()
    run = page.run.panel.findings
    says_what_nobody_checks(page.run.panel.not_checked)
    assert small(run) == []
    assert len([one for one in run.left_sentences if "at least 3.18 mm" in one]) == 1
    assert run.fold is not None
    run.fold.click()
    left = next(one for one in rows(run) if one._said.look == "left")
    button(left, "Take up again").click()
    settle()
    assert len(small(run)) == 1
    assert all_set_aside(shop) == ()


def rows(listed: FindingsList) -> list[FindingRow]:
    """The rows that stand in a list."""
    return [one for one in listed._rows if isinstance(one, FindingRow)]


def shown_with(listed: FindingsList, word: str) -> list[QPushButton]:
    """Buttons that can be seen and hold this word."""
    every = listed.findChildren(QPushButton)
    return [one for one in every if word in one.text() and one.isVisible()]


def says_what_nobody_checks(below: NotChecked) -> None:
    line = below.words
    assert below.how.isVisible()
    assert line.isVisible()
    assert line.text().startswith("Not checked here: ")
    assert "Local rules and a licensed assessor decide" in line.text()
    assert "safe" not in line.text().lower()
    assert "compliant" not in line.text().lower()
