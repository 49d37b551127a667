"""Choosing an ornament or a caution drawing by its picture."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.drawing_words import GROUP_WORDS, ORNAMENT_WORDS, PICTOGRAM_WORDS
from wickbench.app.texts_marker import N_
from wickbench.documents import pictograms
from wickbench.documents.label_draws import PathDraw
from wickbench.documents.ornaments import GROUPS, group_of, ornament_names, place_ornament
from wickbench.domain.labels import OrnamentElement, PictogramElement
from wickbench.domain.sheets import Rect
from wickbench.gui.fields.choice_field import ChoiceField
from wickbench.gui.labels.swatches import SIDE, Swatches
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import label

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from wickbench.app.texts import Texts
    from wickbench.domain.labels import AnyElement

_INSET: Final = 4.0
_ROOM: Final = Rect(_INSET, _INSET, SIDE - 2 * _INSET, SIDE - 2 * _INSET)
_RULE_ROOM: Final = Rect(2.0, SIDE / 2 - 2.0, SIDE - 4.0, 4.0)
_RULES: Final = "rules"


class DrawingChooser(QWidget):
    """A list of groups over the pictures of one group.

    Signals:
        drafted: the element with the drawing that is being looked at.
        picked: the name of its attribute and the key that was chosen.
    """

    drafted = Signal(object)
    picked = Signal(str, str)

    def __init__(self, texts: Texts) -> None:
        super().__init__()
        self._texts = texts
        self._element: OrnamentElement | PictogramElement | None = None
        groups = [(group, texts(GROUP_WORDS[group])) for group in GROUPS]
        self.group = ChoiceField(texts(N_("Kind of ornament")), groups)
        self.swatches = Swatches(texts(N_("Drawings to choose from")), _drawing)
        self.name = label("", "quiet")
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for one in (self.group, self.swatches, self.name):
            box.addWidget(one)
        self.group.committed.connect(self._show_group)
        self.swatches.looked_at.connect(self._look)
        self.swatches.picked.connect(self._pick)
        name_attributes(self)

    def show_element(self, element: AnyElement) -> None:
        """Show what can be chosen for an element; hidden for anything but a drawing."""
        is_drawing = isinstance(element, OrnamentElement | PictogramElement)
        self.setVisible(is_drawing)
        if not isinstance(element, OrnamentElement | PictogramElement):
            self._element = None
            return
        self._element = element
        is_ornament = isinstance(element, OrnamentElement)
        self.group.setVisible(is_ornament)
        if is_ornament:
            self._offer(group_of(_key_of(element)) or GROUPS[0])
        else:
            self.swatches.show_words(self._said(PICTOGRAM_WORDS, pictograms.names()))
        self.swatches.show_chosen(_key_of(element))
        self._say(_key_of(element))

    def _offer(self, group: str) -> None:
        self.group.show_stored(group)
        self.swatches.show_words(self._said(ORNAMENT_WORDS, ornament_names(group)))

    def _said(self, words: Mapping[str, str], keys: Sequence[str]) -> dict[str, str]:
        return {key: self._texts(words[key]) for key in keys}

    def _show_group(self, group: str) -> None:
        self._offer(group)
        if self._element is not None:
            self.swatches.show_chosen(_key_of(self._element))

    def _say(self, key: str) -> None:
        word = ORNAMENT_WORDS.get(key) or PICTOGRAM_WORDS.get(key, "")
        self.name.setText(self._texts(word) if word else key)

    def _look(self, key: str) -> None:
        element = self._element
        if element is None:
            return
        self._say(key or _key_of(element))
        self.drafted.emit(_with(element, key) if key else element)

    def _pick(self, key: str) -> None:
        if self._element is not None:
            self._say(key)
            self.picked.emit(_attribute(self._element), key)


def _attribute(element: OrnamentElement | PictogramElement) -> str:
    return "ornament" if isinstance(element, OrnamentElement) else "pictogram"


def _key_of(element: OrnamentElement | PictogramElement) -> str:
    return element.ornament if isinstance(element, OrnamentElement) else element.pictogram


def _with(
    element: OrnamentElement | PictogramElement, key: str
) -> OrnamentElement | PictogramElement:
    if isinstance(element, OrnamentElement):
        return replace(element, ornament=key)
    return replace(element, pictogram=key)


def _drawing(key: str, ink: str, ground: str) -> tuple[PathDraw, ...]:
    if key in pictograms.names():
        return _pictogram(key, ink, ground)
    room = _RULE_ROOM if group_of(key) == _RULES else _ROOM
    return place_ornament(key, room, ink).draws


def _pictogram(key: str, ink: str, ground: str) -> tuple[PathDraw, ...]:
    high = min(_ROOM.h_mm, _ROOM.w_mm / pictograms.width_mm(key, 1.0))
    wide = pictograms.width_mm(key, high)
    x, y = (SIDE - wide) / 2, (SIDE - high) / 2
    parts = pictograms.placed(key, x, y, high, colour=ink, ground=ground)
    return tuple(PathDraw(one.path, one.fill, one.stroke, one.width_mm) for one in parts)
