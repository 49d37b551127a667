"""The parser against its table, whatever is typed, and the marks of all locales."""

import subprocess
import sys
from pathlib import Path
from string import Formatter

import pytest
from babel import localedata
from babel.numbers import get_decimal_symbol
from hypothesis import given, settings
from hypothesis import strategies as st

from domain.quantity_cases import CASES
from wickbench.app.sentences.quantities import SENTENCES
from wickbench.domain.errors import Ambiguous, DomainError, OutOfRange
from wickbench.domain.number_text import decimal_mark, readings
from wickbench.domain.quantities import parse
from wickbench.domain.unit_table import KINDS

LOCALES = ["en_US", "de_DE", "fr_FR", "de_CH", "en_IN", "ar_EG"]


@pytest.mark.parametrize(("text", "kind", "options", "meaning"), CASES)
def test_what_is_typed_means_what_the_table_says(
    text: str, kind: str, options: dict[str, object], meaning: object
) -> None:
    if isinstance(meaning, float):
        assert parse(text, kind, **options) == pytest.approx(meaning, rel=1e-15)
        return
    with pytest.raises(DomainError) as refusal:
        parse(text, kind, **options)
    if isinstance(meaning, str):
        assert refusal.value.key == meaning
    else:
        assert [value for _, value in refusal.value.readings] == pytest.approx(meaning)


def test_the_table_is_long_enough_and_has_no_row_twice() -> None:
    assert len({(text, kind, str(options)) for text, kind, options, _ in CASES}) == len(CASES)
    assert len(CASES) >= 170


_REFUSED = [case[:3] for case in CASES if not isinstance(case[3], float)]


@pytest.mark.parametrize(("text", "kind", "options"), _REFUSED)
def test_each_refusal_has_a_sentence_with_all_its_places_filled(
    text: str, kind: str, options: dict[str, object]
) -> None:
    with pytest.raises(DomainError) as refusal:
        parse(text, kind, **options)
    said = SENTENCES[refusal.value.key].format(**refusal.value.data)
    assert "{" not in said
    assert said.endswith((".", "?"))


def test_every_kind_has_a_sentence_for_units_of_another_kind() -> None:
    for kind, rules in KINDS.items():
        if rules.base and kind != "load":
            assert f"quantity.wants-{kind}" in SENTENCES


def test_sentences_use_named_places_only() -> None:
    for sentence in SENTENCES.values():
        assert all(name != "" for _, name, _, _ in Formatter().parse(sentence))


_ASKING = [case[:3] for case in CASES if isinstance(case[3], tuple)]


@pytest.mark.parametrize(("text", "kind", "options"), _ASKING)
def test_each_offered_text_has_only_its_own_reading(
    text: str, kind: str, options: dict[str, object]
) -> None:
    with pytest.raises(Ambiguous) as question:
        parse(text, kind, **options)
    for offered, value in question.value.readings:
        assert parse(offered, kind, **options) == value


def test_preferring_a_reading_answers_the_question() -> None:
    with pytest.raises(Ambiguous) as question:
        parse("1,234 oz", "mass")
    (decimal, small), (group, large) = question.value.readings
    assert (decimal, group) == ("1.234 oz", "1234 oz")
    assert parse("1,234 oz", "mass", prefer="decimal") == small
    assert parse("1,234 oz", "mass", prefer="group") == large


_LIKELY = st.text("0123456789.,'/ -½⅞°%\"′ozlbgkmfFCinpr٫٣€$³", max_size=14)


@settings(max_examples=400)
@given(
    text=st.one_of(st.text(max_size=40), _LIKELY),
    kind=st.sampled_from(sorted(KINDS)),
    locale=st.sampled_from(LOCALES),
)
def test_no_text_raises_anything_but_an_error_of_the_persons_world(
    text: str, kind: str, locale: str
) -> None:
    try:
        value = parse(text, kind, locale=locale, assume="g" if kind == "mass" else None)
    except DomainError as refusal:
        assert SENTENCES[refusal.key].format(**refusal.data)  # noqa: PT017 - both ways are right
        if isinstance(refusal, Ambiguous):
            assert len({value for _, value in refusal.readings}) > 1  # noqa: PT017 - as above
    else:
        assert abs(value) <= KINDS[kind].largest


def test_a_bare_number_never_changes_by_a_thousand_in_silence() -> None:
    """1,5 and 1.5 are 1.5 in every locale; with three decimals the own mark decides or it asks."""
    for locale in LOCALES:
        for text in ("1,5", "1.5"):
            assert parse(text, "mass", assume="g", locale=locale) == 1.5
        own = decimal_mark(locale)
        other = "," if own == "." else "."
        assert parse(f"1{own}234", "mass", assume="g", locale=locale) == 1.234
        with pytest.raises(Ambiguous):
            parse(f"1{other}234", "mass", assume="g", locale=locale)


@pytest.mark.parametrize("name", sorted(localedata.locale_identifiers()))
def test_each_locales_own_mark_decides(name: str) -> None:
    """Unicode CLDR through Babel, default numbering system of each locale."""
    mark = get_decimal_symbol(name, numbering_system="default")
    assert mark in (",", ".", "٫")
    assert decimal_mark(name) == ("," if mark == "," else ".")
    assert parse(f"1{mark}234", "number", locale=name) == 1.234


@pytest.mark.parametrize(
    ("name", "mark"),
    [("de-DE", ","), ("de_CH.UTF-8", "."), ("ca_ES@valencia", ","), ("C", "."), ("", "."),
     ("DE", ","), ("xx_YY", ".")],
)  # fmt: skip
def test_locale_names_are_read_in_all_their_spellings(name: str, mark: str) -> None:
    assert decimal_mark(name) == mark


def test_malformed_numbers_have_no_reading() -> None:
    for number in ("1,2,3", "1.2,3.4", "12,34", "1,,2", ",", "."):
        found = readings(number, ".")
        assert len(found) == (1 if number == "12,34" else 0)


def test_unknown_kinds_are_a_slip_of_the_program() -> None:
    with pytest.raises(ValueError, match="colour"):
        parse("1", "colour")


def test_too_large_and_too_cold_are_out_of_range() -> None:
    with pytest.raises(OutOfRange):
        parse("2000000 kg", "mass")
    with pytest.raises(OutOfRange):
        parse("-274 °C", "temperature")
    assert parse("-273.15 °C", "temperature") == -273.15


def test_the_unit_registry_is_loaded_by_the_first_foreign_unit_only() -> None:
    """A window that shows grams starts without it; later parses use the kept factors."""
    script = """if True:
        import sys
        from wickbench.domain.quantities import parse
        import wickbench.domain.quantity_format
        parse("1020 g", "mass")
        assert "pint" not in sys.modules
        parse("36 oz", "mass")
        assert "pint" in sys.modules
        import pint
        def refuse(*a, **k): raise AssertionError("a second registry")
        pint.UnitRegistry = refuse
        parse("9 fl oz", "volume"); parse("180 F", "temperature"); parse("7 lb/gal", "density")
    """
    source = Path(__file__).resolve().parents[2] / "src"
    done = subprocess.run(  # noqa: S603 - our own words
        [sys.executable, "-c", script], env={"PYTHONPATH": str(source)}, capture_output=True,
        text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
