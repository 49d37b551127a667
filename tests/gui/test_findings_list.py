"""The list of findings: what stops you first, a way to where it is mended, rows kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from PySide6.QtWidgets import QPushButton

from wickbench.app.texts import Texts
from wickbench.domain.findings import Finding, Rank
from wickbench.gui.findings_list import FindingsList

if TYPE_CHECKING:
    from pytestqt.qtbot import QtBot

TEXTS = Texts()
NOTE = Finding(Rank.NOTE, "plan.wax-estimate", {"name": "Meadow soy"}, ("material", 7))
STOP = Finding(Rank.STOPS, "plan.no-pot")
NO_SCALE = Finding(Rank.STOPS, "plan.no-scale")


@pytest.fixture
def listed(qtbot: QtBot) -> FindingsList:
    made = FindingsList("Nothing to watch out for.")
    qtbot.addWidget(made)
    made.show()
    return made


def goal(finding: Finding) -> tuple[str, object] | None:
    return ("materials", finding.about[1]) if finding.about else None


def test_what_stops_you_stands_first_and_well_is_said(listed: FindingsList) -> None:
    listed.show_findings(TEXTS, [NOTE, STOP])
    assert listed.sentences == [TEXTS.say(STOP), TEXTS.say(NOTE)]
    listed.show_findings(TEXTS, [])
    assert listed.sentences == ["Nothing to watch out for."]


def test_a_finding_with_a_place_leads_there(qtbot: QtBot, listed: FindingsList) -> None:
    listed.show_findings(TEXTS, [NOTE, STOP], goal=goal)
    buttons = listed.findChildren(QPushButton)
    assert [one.accessibleName() for one in buttons] == [f"Show where: {TEXTS.say(NOTE)}"]
    with qtbot.waitSignal(listed.go_requested) as went:
        buttons[0].click()
    assert went.args == ["materials", 7]


def test_rows_that_are_said_again_are_not_made_again(listed: FindingsList) -> None:
    listed.show_findings(TEXTS, [NOTE, STOP])
    stop, note = listed._rows
    listed.show_findings(TEXTS, [NOTE, NO_SCALE, STOP])
    assert listed.sentences == [TEXTS.say(NO_SCALE), TEXTS.say(STOP), TEXTS.say(NOTE)]
    assert listed._rows[1:] == [stop, note]
    places = [listed._box.indexOf(row) for row in listed._rows]
    assert places == [0, 1, 2]
    listed.show_findings(TEXTS, [NOTE])
    assert listed._rows == [note]
    assert listed._box.count() == 1


def test_the_same_sentence_twice_is_shown_twice(listed: FindingsList) -> None:
    listed.show_findings(TEXTS, [STOP, STOP])
    assert len(set(map(id, listed._rows))) == 2
    listed.show_findings(TEXTS, [STOP])
    assert listed._box.count() == 1
