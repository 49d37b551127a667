"""A first label in an empty workshop, by real widgets; how long it takes is reckoned on the way.

The reckoning is the keystroke-level model (Card, Moran and Newell, Communications of the ACM 23
(1980) 7, 396-410; from memory): 0.28 s a key of a person of medium skill, 1.1 s to point, 0.2 s to
press and let go, 0.4 s from keyboard to mouse or back, 1.35 s to make up one's mind before an act.
Looking at the gallery is added as ten seconds: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QPushButton

from scenarios.hands import Hands
from wickbench.domain.findings import Rank
from wickbench.gui.labels.gallery import Gallery
from wickbench.gui.labels.labels_page import LABELS

if TYPE_CHECKING:
    from PySide6.QtWidgets import QAbstractButton, QWidget

    from wickbench.gui.labels.labels_page import LabelsPage

KEY_S, POINT_S, PRESS_S, HOME_S, THINK_S, LOOK_S = 0.28, 1.1, 0.2, 0.4, 1.35, 10.0
TWO_MINUTES_S = 120.0
LEFT = Qt.MouseButton.LeftButton


@dataclass
class Person:
    """Somebody at mouse and keyboard, one at a time.

    Attributes:
        seconds: as the model reckons.
        presses: of the mouse.
        keys: typed.
    """

    hands: Hands
    seconds: float = 0.0
    presses: int = 0
    keys: int = 0
    done: list[str] = field(default_factory=list)

    def point_at(self, what: str) -> None:
        """Decide, reach for the mouse, point and press."""
        self.presses += 1
        self.seconds += THINK_S + HOME_S + POINT_S + PRESS_S
        self.done.append(what)

    def press(self, button: QAbstractButton) -> None:
        """Press a button."""
        self.point_at(button.objectName())
        self.hands.press(button)

    def type(self, text: str, *more: Qt.Key) -> None:
        """Type at whatever has the keyboard."""
        self.keys += len(text) + len(more)
        self.seconds += THINK_S + HOME_S + KEY_S * (len(text) + len(more))
        self.hands.clock.wait(5)
        for sign in text:
            QTest.keyClicks(focused(), sign)
        for key in more:
            QTest.keyClick(focused(), key)
        QApplication.processEvents()


def focused() -> QWidget:
    """What has the keyboard."""
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def gallery_of(page: LabelsPage) -> Gallery:
    """The gallery that is open."""
    (gallery,) = [one for one in page.findChildren(Gallery) if one.isVisible()]
    return gallery


def finding_lead(page: LabelsPage, words: str) -> QPushButton:
    """The button of the finding that says this."""
    leads = page.editor.look.findings.findChildren(QPushButton)
    (lead,) = [one for one in leads if one.isVisible() and words in one.accessibleName()
               and one.accessibleName().startswith("Show where")]  # fmt: skip
    return lead


def texts_of(page: LabelsPage) -> list[str]:
    """What stands on the label, as it is printed."""
    laid = page.editor.look.preview.laid
    assert laid is not None
    return [one.text for one in laid.texts]


def test_a_good_label_in_less_than_two_minutes(hands: Hands) -> None:
    person = Person(hands)
    page: LabelsPage = hands.page("labels")
    person.point_at("the stage Labels")
    person.press(page.run.panel.new_label)
    gallery = gallery_of(page)
    person.seconds += LOOK_S
    person.press(next(one for one in gallery.tiles if one.offered.starting == "quill"))
    assert page.tabs.currentIndex() == LABELS
    assert not gallery.isVisible()
    hands.activate()
    person.type("First snow", Qt.Key.Key_Tab)
    assert "First snow" in texts_of(page)

    lead = finding_lead(page, "business")
    person.press(lead)
    business = hands.window.workbench.pages["business"] if hands.window.workbench else None
    assert business is not None
    assert business.isVisible()
    for name, text in (
        ("business_name", "Tallow & Tide"), ("business_street", "3 Quay Row"),
        ("business_city", "Saltby"), ("business_state", "ME"), ("business_postcode", "04000"),
    ):  # fmt: skip
        person.point_at(name)
        business.form.fields[name].editor.setFocus()
        person.type(text, Qt.Key.Key_Return)
    page = hands.page("labels")
    person.point_at("the stage Labels")

    said = " ".join(texts_of(page))
    for words in ("First snow", "Tallow & Tide", "3 Quay Row", "Saltby"):
        assert words in said
    laid = page.editor.look.preview.laid
    assert laid is not None
    assert [one for one in laid.findings if one.rank is not Rank.NOTE] == []
    assert page.editor.look.findings.sentences in ([], ["Nothing to mend on this label."])
    assert person.seconds < TWO_MINUTES_S, person.done
    assert person.presses <= 10
    assert person.keys <= 60


def test_a_design_is_chosen_by_keys_alone_and_its_name_written_over(hands: Hands) -> None:
    page: LabelsPage = hands.page("labels")
    hands.press(page.run.panel.new_label)
    gallery = gallery_of(page)
    gallery.activateWindow()
    assert QTest.qWaitForWindowActive(gallery)
    assert focused() is gallery.tiles[0]
    QTest.keyClick(focused(), Qt.Key.Key_Right)
    QTest.keyClick(focused(), Qt.Key.Key_Down)
    reached = focused()
    assert reached in gallery.tiles
    assert reached.pos().y() > gallery.tiles[0].pos().y()
    QTest.keyClick(reached, Qt.Key.Key_Up)
    assert focused() is gallery.tiles[1]
    hands.clock.wait(5)
    QTest.keyClick(focused(), Qt.Key.Key_Return)
    QApplication.processEvents()
    assert hands.window.workspace is not None
    assert [one.name for one in page.desk.labels.values()] == ["Sill"]
    hands.window.menus.actions["undo"].trigger()
    assert page.desk.labels == {}


def test_other_words_are_written_by_a_double_click_on_them(hands: Hands) -> None:
    page: LabelsPage = hands.page("labels")
    hands.begin_label(page.run.panel.new_label, "hush")
    hands.activate()
    canvas, stored = page.editor.look.preview, page.editor.stored
    assert stored is not None
    place = next(
        at
        for at, one in enumerate(stored.design.elements)
        if getattr(one, "text", "") == "{identity}"
    )
    one = stored.design.elements[place]
    spot = canvas.scale.to_widget(one.x_mm + one.w_mm / 2, one.y_mm + one.h_mm / 2)
    QTest.mouseDClick(canvas, LEFT, Qt.KeyboardModifier.NoModifier, spot.toPoint())
    hands.clock.wait(5)
    QTest.keyClicks(focused(), "beeswax pillar")
    QTest.keyClick(focused(), Qt.Key.Key_Tab)
    QApplication.processEvents()
    assert "beeswax pillar" in texts_of(page)
    QGuiApplication.clipboard().clear()


def test_each_design_begins_a_label_of_its_kind(hands: Hands) -> None:
    page: LabelsPage = hands.page("labels")
    page.tabs.setCurrentIndex(LABELS)
    for starting, kind in (("seal", "jar"), ("cap", "lid"), ("tie", "tag"), ("caution", "caution")):
        hands.begin_label(page.editor.new_label, starting)
        stored = page.editor.stored
        assert stored is not None
        assert stored.kind == kind
