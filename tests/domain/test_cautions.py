"""Which caution lines a candle carries, against the lists of the standards."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.standards import CAUTION_LANGUAGES, caution_rules
from wickbench.domain.caution_lengths import length_text, trim_text
from wickbench.domain.caution_statements import KINDS, CandleFacts, OwnText, Wanted
from wickbench.domain.cautions import caution_findings, caution_lines
from wickbench.domain.errors import OutOfRange

RULES = caution_rules()
JAR = CandleFacts("container", "cotton", trim_mm=6, longest_burn_h=4, stop_mm=12)


def texts(region: str, facts: CandleFacts = JAR, language: str = "en") -> list[str]:
    return [line.text for line in caution_lines(RULES, region, [language], facts)]


def test_us_begins_with_the_three_statements_in_order() -> None:
    # ASTM F2058-07(2021): three statements, wording and order from memory
    assert texts("US")[:3] == [
        "Burn within sight.",
        "Keep away from things that catch fire.",
        "Keep away from children and pets.",
    ]
    lines = caution_lines(RULES, "US", ["en"], JAR)
    assert [line.mandatory for line in lines[:4]] == [True, True, True, False]


@pytest.mark.parametrize("region", ["EU", "UK"])
def test_eu_and_uk_carry_the_mandatory_statements(region: str) -> None:
    # EN 15494:2019, mandatory for all candles, from summaries of the standard
    assert texts(region)[:3] == [
        "Never leave a burning candle unattended.",
        "Keep away from things that can catch fire.",
        "Keep away from children and pets.",
    ]


@pytest.mark.parametrize(
    ("kind", "statement"),
    [
        # EN 15494:2019, mandatory for some types, from summaries of the standard
        ("freestanding", "Use a heat-resistant candle holder."),
        ("floating", "Use in a suitable bowl filled with water."),
    ],
)
def test_some_types_have_one_more_mandatory_statement(kind: str, statement: str) -> None:
    lines = caution_lines(RULES, "EU", ["en"], CandleFacts(kind))
    assert [line.text for line in lines if line.mandatory][3:] == [statement]


def test_care_lines_carry_the_candle_in_the_units_of_the_region() -> None:
    assert "Trim the wick to 1/4 in (6 mm) before each lighting." in texts("US")
    assert "Trim the wick to 6 mm before each lighting." in texts("EU")
    assert "Stop burning when 1/2 in (12 mm) of wax is left." in texts("US")
    assert "Do not burn for more than 4 hours at a time." in texts("UK")
    wooden = CandleFacts("container", "wooden", trim_mm=3, trim_to_mm=5, longest_burn_h=3.5)
    assert "Trim the wick to 1/8 in (3–5 mm) before each lighting." in texts("US", wooden)
    assert "Docht vor jedem Anzünden auf 3–5 mm kürzen." in texts("EU", wooden, "de")
    assert "Nicht länger als 3,5 Stunden am Stück brennen lassen." in texts("EU", wooden, "de")


@pytest.mark.parametrize(
    ("length_mm", "toward", "inches"),
    [  # common practice, no source: cotton 6 mm, wooden 3-5 mm, half an inch of wax left
        (6, "shorter", "1/4 in (6 mm)"),
        (3, "shorter", "1/8 in (3 mm)"),
        (5, "shorter", "1/8 in (5 mm)"),
        (1, "shorter", "1/8 in (1 mm)"),
        (12, "longer", "1/2 in (12 mm)"),
        (13, "longer", "1/2 in (13 mm)"),
        (10, "longer", "3/8 in (10 mm)"),
        (100, "longer", "4 in (10 cm)"),
        (38, "longer", "1 1/2 in (38 mm)"),
    ],
)
def test_inches_are_rounded_towards_the_careful_side(
    length_mm: float, toward: str, inches: str
) -> None:
    assert length_text(length_mm, "US", "en", toward=toward) == inches


def test_a_range_is_written_once_in_each_unit() -> None:
    assert trim_text(3, 7, "US", "en") == "1/8–1/4 in (3–7 mm)"
    assert trim_text(3, 3, "EU", "de") == "3 mm"


def test_several_wicks_are_trimmed_each_and_melts_have_none() -> None:
    twin = CandleFacts("multiwick", trim_mm=6)
    assert "Trim each wick to 6 mm before each lighting." in texts("EU", twin)
    assert not [text for text in texts("EU", twin) if "the wick to" in text]
    melt = texts("US", CandleFacts("melt", trim_mm=6, longest_burn_h=4, stop_mm=12))
    assert not [text for text in melt if "Trim" in text or "burn for" in text or "Burn" in text]
    assert melt[0] == "Use only in a warmer made for wax melts."


@given(
    st.sampled_from(["US", "EU", "UK"]),
    st.lists(st.sampled_from(CAUTION_LANGUAGES), min_size=1, max_size=4, unique=True),
    st.sampled_from(KINDS),
)
def test_each_language_repeats_every_mandatory_statement(
    region: str, languages: list[str], kind: str
) -> None:
    # ASTM F2058-07 as told by the trade press: the three statements in each language
    lines = caution_lines(RULES, region, languages, CandleFacts(kind))
    by_language = [
        [line.key for line in lines if line.language == language and line.mandatory]
        for language in languages
    ]
    assert len(by_language[0]) >= 3
    assert all(keys == by_language[0] for keys in by_language)
    assert all(line.source and line.date for line in lines)


def test_own_words_replace_a_statement_and_keep_its_source() -> None:
    own = {("caution.unattended", "en"): OwnText("Stay with\n the flame.", "agreed with my shop")}
    line = caution_lines(RULES, "US", ["en"], JAR, Wanted(own=own))[0]
    assert (line.text, line.tag, line.note) == (
        "Stay with the flame.",
        "own",
        "agreed with my shop",
    )
    assert line.source == "ASTM F2058-07(2021)"
    assert line.mandatory


def test_own_words_cannot_be_empty() -> None:
    own = {("caution.unattended", "en"): OwnText("  ")}
    with pytest.raises(OutOfRange):
        caution_lines(RULES, "US", ["en"], JAR, Wanted(own=own))


def test_mandatory_statements_cannot_be_left_out_and_care_lines_can() -> None:
    wanted = Wanted(left_out={"caution.children", "caution.move"}, added={"caution.draught"})
    keys = [line.key for line in caution_lines(RULES, "EU", ["en"], JAR, wanted)]
    assert "caution.children" in keys
    assert "caution.move" not in keys
    assert "caution.draught" in keys


def test_a_missing_fact_leaves_its_line_out_and_says_so() -> None:
    keys = [line.key for line in caution_lines(RULES, "US", ["en"], CandleFacts())]
    assert "caution.trim" not in keys
    found = [finding.key for finding in caution_findings(RULES, "US", ["en"], CandleFacts())]
    assert found == [
        "caution.source-memory",
        "caution.unknown-trim",
        "caution.unknown-hours",
        "caution.unknown-stop",
    ]


def test_findings_name_source_date_and_translations() -> None:
    source, translated = caution_findings(RULES, "EU", ["de", "en"], JAR)
    assert (source.data["source"], source.data["date"]) == ("EN 15494:2019", "2019")
    assert translated.data["languages"] == "de"


@pytest.mark.parametrize(("region", "languages"), [("MOON", ["en"]), ("US", []), ("US", ["tlh"])])
def test_senseless_choices_are_refused(region: str, languages: list[str]) -> None:
    with pytest.raises(OutOfRange):
        caution_lines(RULES, region, languages, JAR)


@pytest.mark.parametrize(
    "bad",
    [{"trim_mm": -1}, {"stop_mm": float("nan")}, {"longest_burn_h": 48}, {"kind": "rocket"},
     {"trim_mm": 6, "trim_to_mm": 3}, {"trim_to_mm": 3}],
)  # fmt: skip
def test_senseless_facts_are_refused(bad: dict[str, object]) -> None:
    with pytest.raises(OutOfRange):
        CandleFacts(**bad)  # type: ignore[arg-type]  # the bad values are the point
