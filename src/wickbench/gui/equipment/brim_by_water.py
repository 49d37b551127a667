"""How much a pot holds to its brim, from the weight of the water in it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from wickbench.app import edit
from wickbench.app.air_pressure import air_pressure, pressure_text
from wickbench.app.equipment import brim_of_water
from wickbench.app.equipment_fields import EQUIPMENT_FIELDS
from wickbench.app.equipment_shown import MEASURE_BRIM
from wickbench.app.fields import field
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.gui.fields.made_field import made_field
from wickbench.gui.naming import name_attributes
from wickbench.gui.page import button, heading, label

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace

_WATER: Final = field("pot", "water_g", N_("The water weighs"), "mass", low=1, high=200_000)
_BRIM: Final = next(spec for spec in EQUIPMENT_FIELDS["pot"] if spec.name == "brim_ml")
_WARMEST_C: Final = 40.0


class BrimByWater(QWidget):
    """A line for the weight of the water, and the volume to take."""

    def __init__(self, workspace: Workspace) -> None:
        super().__init__()
        texts = workspace.texts
        self.workspace = workspace
        self._pot: int | None = None
        self._brim_ml: float | None = None
        self.title = heading(texts(N_("Measure it with water")))
        self.how = label(texts(MEASURE_BRIM), "quiet")
        self.water = made_field(workspace, _WATER)
        self.water_name = label(texts(_WATER.label), "quiet")
        self.water_name.setBuddy(self.water.editor)
        self.result = label()
        self.air = label("", "quiet")
        self.take = button(texts(N_("Take it as the brim")))
        self.take.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        box = QVBoxLayout(self)
        box.setContentsMargins(0, 0, 0, 0)
        box.setSpacing(6)
        for widget in (
            self.title, self.how, self.water_name, self.water, self.result, self.air,
            self.take,
        ):  # fmt: skip
            box.addWidget(widget)
        self.water.edited.connect(self._typed)
        self.water.committed.connect(self._left)
        self.water.restored.connect(lambda: self._typed(""))
        self.take.clicked.connect(self._take)
        self._typed("")
        name_attributes(self)

    def show_pot(self, key: int | None) -> None:
        """Another pot begins with an empty line."""
        if key != self._pot:
            self._pot = key
            self._empty()
        self.setEnabled(key is not None)

    def _empty(self) -> None:
        self.water.restore()
        self._typed("")

    def _typed(self, typed: str) -> None:
        """Work out the volume while the weight is typed."""
        try:
            water_g = edit.read_field(self.workspace, _WATER, typed)
            self._brim_ml = self._volume(float(water_g)) if water_g is not None else None
        except DomainError:
            self._brim_ml = None
        self._show_result()

    def _left(self, typed: str) -> None:
        try:
            edit.read_field(self.workspace, _WATER, typed)
        except DomainError as error:
            self.water.show_trouble(self.workspace.texts.say(error))

    def _volume(self, water_g: float) -> float:
        settings = self.workspace.settings
        room_c = min(max(settings.number("room_c"), 0.0), _WARMEST_C)
        air = air_pressure(settings)
        return brim_of_water(water_g, room_c, hectopascal=air.hectopascal)

    def _show_result(self) -> None:
        texts, brim_ml = self.workspace.texts, self._brim_ml
        for shown in (self.result, self.air):
            shown.setVisible(brim_ml is not None)
        self.air.setText(pressure_text(self.workspace.settings, texts))
        self.take.setVisible(brim_ml is not None)
        if brim_ml is not None:
            self.result.setText(
                texts(
                    N_("That is {brim_ml}, with water as warm as the workroom ({room_c})."),
                    brim_ml=brim_ml,
                    room_c=self.workspace.settings.number("room_c"),
                )
            )

    def _take(self) -> None:
        if self._pot is not None and self._brim_ml is not None:
            edit.drop_draft(self.workspace, _BRIM, self._pot)
            edit.store_field(self.workspace, _BRIM, self._pot, round(self._brim_ml))
            self._empty()
