"""Names of widgets: the attribute that holds a widget is its object name."""

from __future__ import annotations

from html import escape
from typing import TypeVar

from PySide6.QtCore import QObject
from PySide6.QtGui import Qt
from PySide6.QtWidgets import QWidget

_Widget = TypeVar("_Widget", bound=QWidget)


def name_attributes(owner: object) -> None:
    """Give each public Qt object held by ``owner`` the name of its attribute.

    Called at the end of a constructor, so that a name is written once.
    """
    for attribute, value in vars(owner).items():
        if isinstance(value, QObject) and not attribute.startswith("_"):
            value.setObjectName(attribute)


def accessible(widget: _Widget, name: str, description: str = "") -> _Widget:
    """Give a widget the name that a screen reader says.

    Args:
        widget: the widget, returned for use in place.
        name: translated, or the user's own text.
        description: a longer sentence, translated.
    """
    widget.setAccessibleName(name)
    if description:
        widget.setAccessibleDescription(description)
    return widget


def plain_action_text(text: str) -> str:
    """User text for an action, tab or button: an ampersand must not become a mnemonic."""
    return text.replace("&", "&&")


def plain_hint(text: str) -> str:
    """User text for a tooltip: Qt reads what looks like markup as markup, so that is escaped."""
    return f"<qt>{escape(text)}</qt>" if Qt.mightBeRichText(text) else text
