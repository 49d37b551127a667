"""What a new workshop starts with."""

from __future__ import annotations

import pytest

from wickbench.app.edit import read_field, shown
from wickbench.app.first_settings import settings_for
from wickbench.app.settings import SETTING_FIELDS
from wickbench.app.workspace import Workspace  # noqa: TC001 - a fixture's type


@pytest.mark.parametrize(
    ("locale", "expected"),
    [
        # currencies by ISO 4217, membership by the Treaty on European Union
        ("en_US", {"currency": "USD", "sold_in_us": 1, "sold_in_eu": 0, "mass_unit": "oz"}),
        ("de_AT", {"currency": "EUR", "sold_in_us": 0, "sold_in_eu": 1, "numbers": "de_DE"}),
        ("en_GB", {"currency": "GBP", "sold_in_uk": 1, "sold_in_us": 0, "mass_unit": "g"}),
        ("de_CH.UTF-8", {"currency": "CHF", "numbers": "de_CH", "temperature_unit": "°C"}),
        ("sv_SE", {"sold_in_eu": 1, "mass_unit": "g"}),
    ],
)
def test_a_country_brings_its_units_money_and_region(
    locale: str, expected: dict[str, object]
) -> None:
    found = settings_for(locale)
    assert {name: found.get(name) for name in expected} == expected


@pytest.mark.parametrize(
    ("locale", "paper"),
    [
        # glibc 2.36, LC_PAPER of each locale: height 279 for Letter, 297 for A4
        ("en_US", "Letter"), ("fr_CA", "Letter"), ("es_MX", "Letter"), ("fil_PH", "Letter"),
        ("en_GB", "A4"), ("de_DE", "A4"), ("es_AR", "A4"), ("en_AU", "A4"), ("es_PE", "A4"),
    ],
)  # fmt: skip
def test_a_country_brings_its_paper(locale: str, paper: str) -> None:
    assert settings_for(locale)["paper"] == paper


def test_a_currency_that_is_not_offered_is_not_guessed() -> None:
    assert "currency" not in settings_for("sv_SE")
    assert "sold_in_us" not in settings_for("en_NZ")


@pytest.mark.parametrize("locale", ["C", "en", ""])
def test_no_country_leaves_everything_as_it_is(locale: str) -> None:
    assert settings_for(locale) == {}


@pytest.mark.parametrize("locale", ["en_US", "de_AT", "en_GB", "fr_FR", "es_ES", "de_CH", "pt_BR"])
def test_every_value_is_one_that_the_settings_offer(workshop: Workspace, locale: str) -> None:
    fields = {field.name: field for field in SETTING_FIELDS}
    for name, value in settings_for(locale).items():
        if fields[name].kind == "choice":
            typed = shown(workshop, fields[name], value)
            assert str(read_field(workshop, fields[name], typed) or "") == str(value)
