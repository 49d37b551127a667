"""An afternoon at the bench: pots on the heat, read as they cool, rung for, and learned from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.test_pouring import bench_with_plan
from scenarios.hands import Hands, plain
from wickbench.app.heatings import load_heatings
from wickbench.gui.plan.heat_card import HeatCard
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Callable

    from gui.conftest import StandingClock
    from wickbench.gui.bench.bench_page import BenchPage
    from wickbench.gui.bench.value_line import ValueLine
    from wickbench.gui.main_window import MainWindow

MINUTE = 60.0


def type_into(line: ValueLine, text: str) -> None:
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Qt.Key.Key_Return)
    QApplication.processEvents()


def heat_card(hands: Hands) -> HeatCard:
    page = hands.page("pour_plan")
    (section,) = (one for one in page.sections if isinstance(one.panel, HeatCard))
    if not section.header.isChecked():
        hands.press(section.header)  # folded until somebody wants it
    card: HeatCard = section.panel
    return card


def said_of(hands: Hands) -> str:
    """What the card beside the plan says of the first pot."""
    pot = heat_card(hands).pots[0]
    assert pot.isVisible()
    return plain(pot.said.text())


def enter_heat(hands: Hands) -> None:
    """The hot plate and the thermometer, in their own words."""
    page = hands.page("equipment")
    source = page.sections["heat_source"]
    hands.press(source.list.make_first)
    hands.fill(
        source.editor.form,
        {"name": "Plate", "heater": "hot plate", "power_w": "1500", "bath_g": "1.5 kg"},
    )
    probe = page.sections["thermometer"]
    hands.press(probe.list.make_first)
    hands.fill(probe.editor.form, {"name": "Probe", "reads_to_c": "0.1"})


def heat(hands: Hands, bench: BenchPage, minutes: float) -> None:
    """Put the pot on the heat, and press again when it is hot."""
    hands.press(bench.heat.heating.press)
    hands.clock.wait(minutes * MINUTE - 5.0)
    hands.press(bench.heat.heating.press)


def weigh(bench: BenchPage) -> None:
    while bench.view is not None and bench.view.phase == "weigh":
        QTest.keyClick(bench.step.weight, Qt.Key.Key_Space)
        QApplication.processEvents()


@pytest.fixture
def ready(hands: Hands) -> Hands:
    """A shelf with one recipe, and a plan of two pots on the hot plate."""
    workspace = hands.window.workspace
    assert workspace is not None
    enter_heat(hands)
    bench_with_plan(workspace)
    with workspace.step("set") as connection:
        for row in records.fetch_all(connection, "wax"):
            values = {"melts_from_c": 50.0, "melts_to_c": 50.0, "pour_c": 57.0}
            records.update(connection, "wax", int(str(row["item_id"])), values)
    return hands


def start(hands: Hands) -> Any:  # noqa: ANN401 - the bench
    page = hands.page("pour_plan")
    hands.window.ask.agree = True  # type: ignore[attr-defined]  # the answers of the test
    hands.press(page.start)
    return hands.window.workbench.pages["bench"]  # type: ignore[union-attr]  # it is open


def test_two_timed_pots_replace_what_is_usual(ready: Hands) -> None:
    assert "at best" in said_of(ready)
    bench = start(ready)
    heat(ready, bench, 40.0)
    assert "hot after 40 min" in plain(bench.heat.heating.said.text())
    weigh(bench)
    ready.press(bench.fills.finish)
    heat(ready, bench, 24.0)
    rows = load_heatings(bench.workspace)
    assert [row.seconds for row in rows] == [24 * 60, 40 * 60]
    assert "by your own 2 pours: about" in said_of(ready)
    log = ready.page("equipment").sections["heat_source"].editor.log
    assert "By 2 heatings" in log.said.text()
    ready.press(log.out)
    assert "Time 1 more heating" in log.said.text()
    assert "at best" in said_of(ready)
    ready.window.undo()
    assert "by your own 2 pours" in said_of(ready)


def test_the_pot_is_read_rung_for_and_everything_outlives_the_window(
    ready: Hands, new_window: Callable[[], MainWindow], clock: StandingClock
) -> None:
    bench = start(ready)
    ready.activate()
    weigh(bench)
    cooling = bench.heat.cooling
    assert cooling.read.hasFocus()
    type_into(cooling.read, "82")
    assert "One more reading" in cooling.needed.text()
    clock.wait(10 * MINUTE)
    type_into(cooling.read, "165.2 F")  # 74 °C
    # 82 → 74 °C in 10 min at 21 °C: 57 °C 37.51 min after the first, 27.51 after this (by hand)
    (answer,) = [cooling.answer.text()]
    assert "57 °C" in plain(answer)
    assert cooling.curve.isVisible()
    assert cooling.curve.drawn.target[0] == pytest.approx(37.5123, abs=1e-3)
    ready.press(cooling.ring)
    status = ready.window.status_line.timer
    assert "at 57 °C 27:2" in plain(status.text())  # the press came five seconds later
    assert "Rings at" in cooling.ring.text()
    assert not cooling.ring.isEnabled()
    # nothing of it is lost with the window, and what rang meanwhile says so
    path = ready.window.workspace.path  # type: ignore[union-attr]  # it is open
    ready.window.close()
    clock.wait(40 * MINUTE)
    window = new_window()
    assert window.open_workshop(path)
    (said,) = window.timers.banner.sentences
    assert "before Wickbench could ring" in said
    again: Any = window.workbench.show_page("bench")  # type: ignore[union-attr]  # it is open
    QApplication.processEvents()
    assert len(again.heat.cooling.view.readings) == 2
    assert again.heat.cooling.answer.text().startswith("It came down to 57")
    (row,) = window.timers.banner.rows.values()
    QTest.mouseClick(row.seen, Qt.MouseButton.LeftButton)
    assert not window.timers.banner.isVisible()
    # the earlier readings tell the plan how long a pot can be poured
    later = Hands(window, clock)
    assert "vessels take" in said_of(later)


IMPOSSIBLE = {
    "83": "not colder", "45": "begun to set", "20": "colder than the pot",
    "warm": "number and its unit", "12 g": "", "400 °C": "at most",
}  # fmt: skip


def test_a_reading_that_cannot_be_stays_typed_with_its_sentence(
    ready: Hands, clock: StandingClock
) -> None:
    bench = start(ready)
    weigh(bench)
    cooling = bench.heat.cooling
    type_into(cooling.read, "82")
    clock.wait(5 * MINUTE)
    for typed, why in IMPOSSIBLE.items():
        type_into(cooling.read, typed)
        assert cooling.trouble.isVisible(), typed
        assert why in cooling.trouble.text(), typed
        assert cooling.read.text() == typed
        assert len(cooling.view.readings) == 1


def test_the_room_must_be_colder_and_a_wrong_reading_is_taken_back(
    ready: Hands, clock: StandingClock
) -> None:
    bench = start(ready)
    weigh(bench)
    cooling = bench.heat.cooling
    type_into(cooling.read, "82")
    clock.wait(5 * MINUTE)
    type_into(cooling.read, "78")
    type_into(cooling.room, "90")
    assert "too large" in cooling.trouble.text()
    type_into(cooling.room, "22")
    assert not cooling.trouble.isVisible()
    ready.press(cooling.last_back)
    assert len(cooling.view.readings) == 1
    ready.press(cooling.anew)
    assert not cooling.view.readings
    ready.window.undo()
    assert len(cooling.view.readings) == 1


def test_a_slow_hand_is_warned_beside_the_plan(ready: Hands, clock: StandingClock) -> None:
    bench = start(ready)
    weigh(bench)
    type_into(bench.heat.cooling.read, "82")
    clock.wait(10 * MINUTE)
    type_into(bench.heat.cooling.read, "74")
    ready.press(bench.fills.finish)
    card = heat_card(ready)
    ready.type(card.form, "vessel_seconds", "120")
    assert any("cools too soon" in one for one in card.findings.sentences)
    ready.type(card.form, "vessel_seconds", "15")
    assert not any("too soon" in one for one in card.findings.sentences)
