"""Settings of the days on which there is work, as data."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.fields import FieldSpec, choices, field
from wickbench.app.texts_marker import N_

if TYPE_CHECKING:
    from collections.abc import Mapping

_WORK_DAYS: Final = N_("Days on which you pour and label")
_SUPPLIERS: Final = N_("Working days of suppliers")

WORK_DAY_NAMES: Final[Mapping[str, str]] = {
    "work_mon": N_("Monday"),
    "work_tue": N_("Tuesday"),
    "work_wed": N_("Wednesday"),
    "work_thu": N_("Thursday"),
    "work_fri": N_("Friday"),
    "work_sat": N_("Saturday"),
    "work_sun": N_("Sunday"),
}
"""Setting and name of each day of the week, Monday first as ``date.weekday`` counts."""

SUPPLIER_DAYS_OFF: Final[Mapping[str, frozenset[int]]] = {
    "mon_fri": frozenset({5, 6}),
    "mon_sat": frozenset({6}),
    "every_day": frozenset(),
}

WORKDAY_FIELDS: Final[tuple[FieldSpec, ...]] = (
    *(
        field("setting", name, label, "yes_no", group=_WORK_DAYS)
        for name, label in WORK_DAY_NAMES.items()
    ),
    field(
        "setting",
        "supplier_days",
        N_("They count and deliver"),
        "choice",
        group=_SUPPLIERS,
        choices=choices(
            {
                "mon_fri": N_("Monday to Friday"),
                "mon_sat": N_("Monday to Saturday"),
                "every_day": N_("every day"),
            }
        ),
        hint=N_("For suppliers that count working days; which do, stands with each material."),
    ),
)

WORKDAY_DEFAULTS: Final[Mapping[str, object]] = {
    **dict.fromkeys(WORK_DAY_NAMES, 1),
    "supplier_days": "mon_fri",
}
