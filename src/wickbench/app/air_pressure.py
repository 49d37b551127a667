"""The air pressure that weighings with water are computed at: as entered, else by the altitude."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.texts_marker import N_
from wickbench.domain.water import pressure_at_altitude

if TYPE_CHECKING:
    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts

FROM_ALTITUDE_ERROR_HPA: Final = 20.0
"""How far the weather takes the pressure from the usual one of a height (common practice)."""
ENTERED_ERROR_HPA: Final = 5.0
"""How far it moves between reading a barometer and the weighing (common practice)."""


@dataclass(frozen=True, slots=True)
class AirPressure:
    """Air pressure in the workroom.

    Attributes:
        hectopascal: the pressure.
        error_hpa: how far it may be off.
        entered: read from a barometer or a weather report, not from the height above the sea.
        altitude_m: that height.
    """

    hectopascal: float
    error_hpa: float
    entered: bool
    altitude_m: float


def air_pressure(settings: Settings) -> AirPressure:
    """The pressure entered in the settings; without one the usual pressure at the altitude."""
    altitude_m, entered = settings.number("altitude_m"), settings["air_pressure_hpa"]
    if isinstance(entered, (int, float)):
        return AirPressure(float(entered), ENTERED_ERROR_HPA, True, altitude_m)  # noqa: FBT003 - as named
    usual = pressure_at_altitude(altitude_m)
    return AirPressure(usual, FROM_ALTITUDE_ERROR_HPA, False, altitude_m)  # noqa: FBT003 - as named


def pressure_text(settings: Settings, texts: Texts) -> str:
    """The pressure in hPa and where it comes from."""
    air = air_pressure(settings)
    hpa = texts.number(air.hectopascal, 0)
    if air.entered:
        return texts(N_("Air pressure {hpa} hPa, as entered in Settings."), hpa=hpa)
    metres = texts.number(air.altitude_m, 0)
    return texts(
        N_("Air pressure {hpa} hPa, as usual at {metres} m above the sea (Settings)."),
        hpa=hpa,
        metres=metres,
    )
