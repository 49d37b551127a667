"""Settings of the workshop file, declared once: name, kind, default, label, hint."""

from __future__ import annotations

from typing import TYPE_CHECKING, Unpack

from wickbench.app.fields import FieldMore, FieldSpec, choices, field
from wickbench.app.languages import LANGUAGE_NAMES, spoken_languages
from wickbench.app.texts_marker import N_
from wickbench.app.units import Units
from wickbench.app.workday_fields import WORKDAY_DEFAULTS, WORKDAY_FIELDS
from wickbench.domain.lot_codes import USUAL_PATTERN, check_pattern

if TYPE_CHECKING:
    from collections.abc import Mapping

_NONE = {"": N_("no second unit")}
_MASS = {"g": N_("grams"), "oz": N_("ounces"), "lb oz": N_("pounds and ounces")}
_VOLUME = {"mL": N_("millilitres"), "fl oz": N_("fluid ounces")}
_LENGTH = {"mm": N_("millimetres"), "in": N_("inches")}
_TEMPERATURE = {"°C": N_("°C"), "°F": N_("°F")}


def _setting(name: str, label: str, kind: str = "text", **more: Unpack[FieldMore]) -> FieldSpec:
    return field("setting", name, label, kind, **more)


BUSINESS_FIELDS: tuple[FieldSpec, ...] = (
    _setting(
        "business_name",
        N_("Business name"),
        hint=N_("As it shall stand on labels; a corporation gives its own full name."),
    ),
    _setting(
        "business_role",
        N_("You are"),
        "choice",
        choices=choices(
            {
                "maker": N_("the maker"),
                "distributor": N_("the distributor"),
                "made_for": N_("the one it is manufactured for"),
            }
        ),
    ),
    _setting("business_street", N_("Street")),
    _setting(
        "business_street_listed",
        N_("Leave the street off labels in the United States"),
        "yes_no",
        hint=N_("Allowed when anybody can look it up in a public directory or on a website."),
    ),
    _setting("business_city", N_("Town or city")),
    _setting("business_state", N_("State or county")),
    _setting("business_postcode", N_("ZIP or postcode")),
    _setting("business_country", N_("Country")),
    _setting(
        "business_phone", N_("Telephone"), hint=N_("Needed on hazard labels in the EU and the UK.")
    ),
    _setting("business_email", N_("E-mail")),
    _setting("business_web", N_("Web address")),
)

REGION_FIELDS: tuple[FieldSpec, ...] = (
    _setting("sold_in_us", N_("Sold in the United States"), "yes_no", group=N_("Where sold")),
    _setting("sold_in_eu", N_("Sold in the EU"), "yes_no", group=N_("Where sold")),
    _setting("sold_in_uk", N_("Sold in the United Kingdom"), "yes_no", group=N_("Where sold")),
    _setting(
        "currency",
        N_("Currency"),
        "choice",
        group=N_("Money and language"),
        choices=choices(
            {
                "USD": N_("US dollar"),
                "EUR": N_("euro"),
                "GBP": N_("pound sterling"),
                "CAD": N_("Canadian dollar"),
                "AUD": N_("Australian dollar"),
                "CHF": N_("Swiss franc"),
            }
        ),
    ),
    _setting(
        "language_of_papers",
        N_("Language of papers"),
        "choice",
        choices=choices(spoken_languages()),
        group=N_("Money and language"),
    ),
    _setting(
        "paper",
        N_("Paper"),
        "choice",
        choices=choices({"A4": N_("A4 (210 × 297 mm)"), "Letter": N_("Letter (8½ × 11 in)")}),
        group=N_("Money and language"),
        hint=N_("For weigh sheets and cards. Sticker sheets bring their own size."),
    ),
    _setting(
        "language_of_labels",
        N_("Language of labels"),
        "choice",
        choices=choices(LANGUAGE_NAMES),
        group=N_("Money and language"),
    ),
    _setting(
        "numbers",
        N_("Numbers written as"),
        "choice",
        group=N_("Money and language"),
        choices=choices(
            {
                "en_US": N_("1,234.5 (English)"),
                "de_DE": N_("1.234,5 (German)"),
                "fr_FR": N_("1 234,5 (French)"),
                "es_ES": N_("1.234,5 (Spanish)"),
                "de_CH": N_("1’234.5 (Swiss)"),
            }
        ),
    ),
)

UNIT_FIELDS: tuple[FieldSpec, ...] = tuple(
    _setting(
        f"{kind}_unit{suffix}",
        label,
        "choice",
        group=N_("Units"),
        choices=choices(_NONE | table if suffix else table),
    )
    for kind, table, first, second in (
        ("mass", _MASS, N_("Weights in"), N_("Weights also in")),
        ("volume", _VOLUME, N_("Volumes in"), N_("Volumes also in")),
        ("length", _LENGTH, N_("Lengths in"), N_("Lengths also in")),
        ("temperature", _TEMPERATURE, N_("Temperatures in"), N_("Temperatures also in")),
    )
    for suffix, label in (("", first), ("_2", second))
)

WORK_FIELDS: tuple[FieldSpec, ...] = (
    _setting(
        "lot_word",
        N_("Lots are called"),
        "choice",
        group=N_("Work"),
        choices=choices({"Lot": N_("Lot"), "Batch": N_("Batch")}),
    ),
    _setting(
        "lot_pattern",
        N_("Lot code"),
        group=N_("Work"),
        check=check_pattern,
        hint=N_(
            "{yy} or {yyyy} year, {mm} month, {dd} day, {ddd} day of the year, {letter} recipe of "
            "the day, {pot} pot number."
        ),
    ),
    _setting(
        "room_c", N_("Workroom temperature"), "temperature", group=N_("Work"), low=-10, high=50
    ),
    _setting(
        "vessel_seconds",
        N_("Seconds from one vessel to the next"),
        "count",
        group=N_("Work"),
        low=1,
        high=3600,
        hint=N_("How fast you pour. A plan may have its own."),
    ),
    _setting(
        "altitude_m",
        N_("Height above sea level in metres"),
        "number",
        group=N_("Work"),
        low=-500,
        high=6000,
        hint=N_("Air pressure changes a weighing with water by a little."),
    ),
    _setting(
        "air_pressure_hpa",
        N_("Air pressure in hPa"),
        "number",
        group=N_("Work"),
        low=500,
        high=1100,
        hint=N_(
            "Where you are, as a barometer in the room shows it. Left empty, it follows from the "
            "height above the sea. (A weather report gives it as if you were at sea level.)"
        ),
    ),
    *WORKDAY_FIELDS,
)

SETTING_FIELDS: tuple[FieldSpec, ...] = (
    *BUSINESS_FIELDS,
    *REGION_FIELDS,
    *UNIT_FIELDS,
    *WORK_FIELDS,
)

DEFAULTS: Mapping[str, object] = {
    "sold_in_us": 1,
    "sold_in_eu": 0,
    "sold_in_uk": 0,
    "currency": "USD",
    "language_of_papers": "en",
    "language_of_labels": "en",
    "numbers": "en_US",
    "mass_unit": "g",
    "mass_unit_2": "lb oz",
    "volume_unit": "mL",
    "volume_unit_2": "fl oz",
    "length_unit": "mm",
    "length_unit_2": "",
    "temperature_unit": "°C",
    "temperature_unit_2": "°F",
    "lot_word": "Lot",
    "lot_pattern": USUAL_PATTERN,
    "room_c": 21.0,
    # common practice, no source
    "vessel_seconds": 20.0,
    "altitude_m": 0.0,
    "business_role": "maker",
    **WORKDAY_DEFAULTS,
}

UNIT_PRESETS: Mapping[str, Mapping[str, str]] = {
    "metric": {
        "mass_unit": "g",
        "mass_unit_2": "lb oz",
        "volume_unit": "mL",
        "volume_unit_2": "fl oz",
        "length_unit": "mm",
        "length_unit_2": "in",
        "temperature_unit": "°C",
        "temperature_unit_2": "°F",
    },
    "customary": {
        "mass_unit": "oz",
        "mass_unit_2": "g",
        "volume_unit": "fl oz",
        "volume_unit_2": "mL",
        "length_unit": "in",
        "length_unit_2": "mm",
        "temperature_unit": "°F",
        "temperature_unit_2": "°C",
    },
}
"""Units of every kind at once: metric or US customary first, the other beside it."""


class Settings:
    """Current settings of the file; unknown or unset names give their default or ``None``."""

    def __init__(self, stored: Mapping[str, object]) -> None:
        self._values = dict(DEFAULTS) | {
            name: value for name, value in stored.items() if value is not None
        }

    def __getitem__(self, name: str) -> object:
        if name == "paper" and not self._values.get(name):
            return "Letter" if self.regions[:1] == ("US",) else "A4"
        return self._values.get(name)

    def replaced(self, values: Mapping[str, object]) -> Settings:
        """These settings with others in place of some, as while something is being typed."""
        known = {name: value for name, value in self._values.items() if name not in values}
        return Settings(known | dict(values))

    def text(self, name: str) -> str:
        """A setting as text; empty when not filled in."""
        value = self[name]
        return "" if value is None else str(value)

    def number(self, name: str) -> float:
        """A numeric setting; 0 when not filled in."""
        value = self._values.get(name)
        return float(value) if isinstance(value, (int, float)) else 0.0

    def with_values(self, values: Mapping[str, object]) -> Settings:
        """The same with some values as they are being typed; ``None`` brings the default back."""
        return Settings(self._values | dict(values))

    @property
    def regions(self) -> tuple[str, ...]:
        """Regions sold in, the first one leading where a choice is needed."""
        return tuple(region for region in ("US", "EU", "UK") if self[f"sold_in_{region.lower()}"])

    @property
    def units(self) -> Units:
        """Preferred units of the file."""
        kinds = ("mass", "volume", "length", "temperature")
        shown = {kind: self._shown_units(kind) for kind in kinds}
        return Units(
            locale=self.text("numbers"),
            shown=shown,
            currency=self.text("currency"),
            imperial=self.regions == ("UK",),
        )

    def _shown_units(self, kind: str) -> tuple[str, str]:
        """First and second unit; the same one twice is shown once."""
        first, second = self.text(f"{kind}_unit"), self.text(f"{kind}_unit_2")
        return first, "" if second == first else second
