"""Words and small parts that the screens of leftovers share."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QVBoxLayout, QWidget

from wickbench.app.texts_marker import N_
from wickbench.gui.page import label

if TYPE_CHECKING:
    from wickbench.gui.fields.field import Field

HOW_WORKED_IN: Final = (
    N_(
        "Each material of a leftover is followed by itself: its share of what was really weighed "
        "× the mass that goes in."
    ),
    N_(
        "What the recipe has too counts towards it. Wax of other recipes stands for as much wax, "
        "oil for as much oil, so that the load is kept. What is missing is weighed new: the whole "
        "− what the leftover brings."
    ),
    N_(
        "The most that fits: of each material the room in the batch / what one gram of the "
        "leftover brings of it; the smallest of these. Source: balance of masses."
    ),
)
HOW_LAYERED: Final = (
    N_(
        "Even layers: the height of the fill line / the number of layers; the volume of each "
        "follows from the shape of the vessel, and its mass is volume × density of the set mix."
    ),
    N_("The density of a mix: 1 / density = the sum of each share of weight / its density."),
    N_(
        "Limits: of each oil its mass in all layers / the mass of all layers, against the most "
        "that its certificate allows in a candle, in percent of total; then in each layer by "
        "itself."
    ),
)


def named_field(name: str, field: Field) -> QWidget:
    """A field with its name above it."""
    part = QWidget()
    box = QVBoxLayout(part)
    box.setContentsMargins(0, 0, 0, 0)
    box.setSpacing(2)
    above = label(name, "quiet")
    above.setBuddy(field.editor)
    box.addWidget(above)
    box.addWidget(field)
    return part
