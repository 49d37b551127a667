"""What a new workshop starts with, by where the computer says it stands. All can be changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.paper_sizes import usual_paper
from wickbench.app.settings import UNIT_PRESETS

if TYPE_CHECKING:
    from collections.abc import Mapping

# Members of the European Union by their ISO 3166 codes (Treaty on European Union, 2020 on).
_EU: Final = frozenset(
    (
        "AT", "BE", "BG", "HR", "CY", "CZ", "DK", "EE", "FI", "FR", "DE", "GR", "HU", "IE", "IT",
        "LV", "LT", "LU", "MT", "NL", "PL", "PT", "RO", "SK", "SI", "ES", "SE",
    )
)  # fmt: skip
_NO_EURO: Final = frozenset(("CZ", "DK", "HU", "PL", "RO", "SE"))
_CURRENCIES: Final[Mapping[str, str]] = {
    "US": "USD", "GB": "GBP", "CA": "CAD", "AU": "AUD", "CH": "CHF", "LI": "CHF",
}  # fmt: skip
_NUMBERS: Final[Mapping[str, str]] = {"de": "de_DE", "fr": "fr_FR", "es": "es_ES", "en": "en_US"}


def settings_for(locale: str) -> dict[str, object]:
    """Units, region, paper, currency and way of writing numbers for a locale such as ``de_AT``.

    A locale that names no country leaves everything as it is.
    """
    language, _, country = locale.replace("-", "_").partition(".")[0].partition("_")
    if not country:
        return {}
    found: dict[str, object] = {
        "sold_in_us": int(country == "US"),
        "sold_in_uk": int(country == "GB"),
        "sold_in_eu": int(country in _EU),
    }
    if not any(found.values()):
        found = {}
    found |= UNIT_PRESETS["customary" if country == "US" else "metric"]
    found["paper"] = usual_paper(country)
    currency = _CURRENCIES.get(country)
    if currency is None and country in _EU - _NO_EURO:
        currency = "EUR"
    if currency is not None:
        found["currency"] = currency
    numbers = "de_CH" if country in {"CH", "LI"} else _NUMBERS.get(language)
    if numbers is not None:
        found["numbers"] = numbers
    return found
