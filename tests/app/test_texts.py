"""Sentences and quantities in a person's language and units."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from wickbench.app.texts import PSEUDO, Texts, all_sentences
from wickbench.app.units import Units
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.domain.findings import Finding, Rank

if TYPE_CHECKING:
    from pathlib import Path


def test_an_error_is_said_in_the_persons_units() -> None:
    error = OutOfRange("material.wax-heat-near-flash", heat_to_c=190.0, flash_c=204.0, most_c=184.0)
    assert Texts().say(error) == (
        "Heating to 190 °C · 374 °F comes too close to the flash point of 204 °C · 399 °F. "
        "Stay at or below 184 °C · 363 °F."
    )


def test_a_density_is_no_volume() -> None:
    data = {"own_g_per_ml": 0.8555, "low_g_per_ml": 0.855, "high_g_per_ml": 0.885}
    said = Texts().say(Finding(Rank.NOTE, "material.wax-density-unusual", data))
    assert "0.856 g/mL" in said
    assert "fl oz" not in said


def test_an_error_without_a_sentence_still_says_something() -> None:
    assert Texts().say(DomainError("nobody.wrote-this", count=3)) == "nobody.wrote-this (count=3)"


def test_user_text_with_braces_and_percents_is_left_alone() -> None:
    said = Texts().say(Finding(Rank.NOTE, "material.removed", {"name": "{n} 100 %s {"}))
    assert said.startswith("{n} 100 %s { was removed")


def test_several_values_are_listed() -> None:
    assert Texts()("{names}: {masses_g}", names=("a", "b"), masses_g=(1.0, 2.0)) == (
        "a, b: 1.0 g · 0.04 oz, 2.0 g · 0.07 oz"
    )


@pytest.mark.parametrize(
    ("currency", "locale", "expected"),
    [
        ("USD", "en_US", "−$7.50"),
        ("EUR", "de_DE", "−7,50 €"),
        ("GBP", "en_US", "−£7.50"),
        ("CHF", "de_CH", "−CHF 7.50"),
        ("SEK", "en_US", "−SEK 7.50"),
    ],
)
def test_money_in_its_currency(currency: str, locale: str, expected: str) -> None:
    assert Texts(units=Units(locale=locale, currency=currency)).money(-7.5) == expected


def test_dates_in_words() -> None:
    # 28 November 2026 is a Saturday (any calendar).
    assert Texts().date("2026-11-28") == "Saturday 28 November 2026"
    assert Texts().day("2026-11-28") == "28 November 2026"


def test_the_pseudo_language_marks_every_sentence() -> None:
    texts = Texts(PSEUDO)
    assert texts("Name") == "⟦Name⟧"
    assert texts.plural("{n} jar", "{n} jars", 2) == "⟦2 jars⟧"
    assert texts("") == ""
    assert "⟦November⟧" in texts.day("2026-11-28")


def test_a_catalog_is_read_and_units_stay(tmp_path: Path) -> None:
    folder = tmp_path / "de" / "LC_MESSAGES"
    folder.mkdir(parents=True)
    (folder / "wickbench.mo").write_bytes(_catalog({"Name": "Bezeichnung"}))
    units = Units(locale="de_DE")
    texts = Texts("en", units, tmp_path).in_language("de")
    assert texts("Name") == "Bezeichnung"
    assert texts("Nobody translated this") == "Nobody translated this"
    assert texts.units is units


def test_every_sentence_has_its_topic_and_ends_as_one() -> None:
    for key, sentence in all_sentences().items():
        assert "." in key
        assert sentence.rstrip("”)")[-1] in ".?!:…}", key


def _catalog(messages: dict[str, str]) -> bytes:
    """A binary catalog, as GNU gettext's manual lays it out (section 10.3)."""
    pairs = sorted(({"": "Content-Type: text/plain; charset=UTF-8\n"} | messages).items())
    originals = [one.encode() for one, _ in pairs]
    translated = [one.encode() for _, one in pairs]
    start = 28 + 16 * len(pairs)
    table, at = [], start
    for text in (*originals, *translated):
        table.append((len(text), at))
        at += len(text) + 1
    numbers = [0x950412DE, 0, len(pairs), 28, 28 + 8 * len(pairs), 0, 0]
    numbers += [number for entry in table for number in entry]
    body = b"".join(text + b"\0" for text in (*originals, *translated))
    return b"".join(number.to_bytes(4, "little") for number in numbers) + body
