"""Colours that things on a label have, and inks that print well, by name."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.labels import CodeElement, FrameElement, PictureElement

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.domain.labels import AnyElement


@dataclass(frozen=True, slots=True)
class Coloured:
    """One colour of an element.

    Attributes:
        name: its attribute.
        label: msgid of what has this colour.
        without: msgid for having none; empty when there is always one.
    """

    name: str
    label: str
    without: str = ""


INKS: Final[Mapping[str, str]] = {
    "#000000": N_("Black"),
    "#3a2a1c": N_("Dark brown"),
    "#7a3b12": N_("Russet"),
    "#a8540f": N_("Amber"),
    "#2f4a35": N_("Forest green"),
    "#6b7a3a": N_("Moss green"),
    "#1f3a52": N_("Night blue"),
    "#54203f": N_("Plum"),
    "#8a1f1f": N_("Brick red"),
    "#f4e8d0": N_("Cream"),
    "#ffffff": N_("White"),
}
"""Plain inks from dark to light: our own choice."""

_PLAIN: Final = (Coloured("colour", N_("Colour")),)
_FRAME: Final = (
    Coloured("colour", N_("Line")),
    Coloured("fill", N_("Filling"), N_("No filling")),
)
_CODE: Final = (
    Coloured("colour", N_("Bars or squares")),
    Coloured("ground", N_("Ground behind it"), N_("No ground")),
)
_DRAWING: Final = (Coloured("ink", N_("All in one colour"), N_("Its own colours")),)


def colours_of_element(element: AnyElement, *, is_drawing: bool = False) -> tuple[Coloured, ...]:
    """The colours that can be chosen for an element.

    Args:
        element: as it is.
        is_drawing: its picture is an SVG, which can be printed in one colour.
    """
    if isinstance(element, PictureElement):
        return _DRAWING if is_drawing else ()
    if isinstance(element, FrameElement):
        return _FRAME
    return _CODE if isinstance(element, CodeElement) else _PLAIN
