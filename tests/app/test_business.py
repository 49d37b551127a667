"""Name and place on labels, and what the rules of each region find missing."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wickbench.app.business import (
    business_findings,
    business_lines,
    business_name,
    business_place,
    business_views,
    place_rules,
)
from wickbench.app.label_values import LabelSubject, label_values
from wickbench.app.settings import BUSINESS_FIELDS, Settings
from wickbench.app.shelf import Shelf
from wickbench.app.texts import Texts, all_sentences
from wickbench.domain.findings import Rank

TEXTS = Texts()
FULL = {
    "business_name": "Ember & Reed",
    "business_street": "14 Quarry Lane",
    "business_city": "Ashford Falls",
    "business_state": "OR",
    "business_postcode": "97000",
    "business_phone": "+1 555 0100",
    "business_email": "post@ember.example",
}


def settings(**more: object) -> Settings:
    return Settings({**FULL, **more})


def missing(made: Settings, region: str) -> set[str]:
    return {finding.key for finding in business_findings(made, region)}


# -- how it stands on a label ----------------------------------------------------------------------
def test_a_place_in_the_united_states_is_street_city_state_and_zip() -> None:
    """16 CFR 500.5(b), text of 2015: street address, city, state and ZIP code."""
    assert business_lines(settings(), "US", TEXTS) == (
        "Ember & Reed", "14 Quarry Lane", "Ashford Falls, OR 97000",
    )  # fmt: skip


def test_a_listed_street_may_stay_off_in_the_united_states_only() -> None:
    """16 CFR 500.5(b), text of 2015: omitted if shown in a public directory or website."""
    listed = settings(business_street_listed=1)
    assert business_lines(listed, "US", TEXTS) == ("Ember & Reed", "Ashford Falls, OR 97000")
    assert "14 Quarry Lane" in business_lines(listed, "UK", TEXTS)
    assert "14 Quarry Lane" in business_lines(listed, "EU", TEXTS)


def test_one_label_for_two_regions_keeps_the_street_that_one_of_them_wants() -> None:
    alone = settings(business_street_listed=1)
    assert business_place(alone) == "Ashford Falls, OR 97000"
    both = settings(business_street_listed=1, sold_in_uk=1)
    assert business_place(both) == "14 Quarry Lane, Ashford Falls, OR 97000"


def test_the_postcode_stands_before_the_town_in_the_eu_and_at_the_end_in_the_uk() -> None:
    """Order of a postal address: UPU S42, Germany and the United Kingdom, from memory."""
    german = settings(
        business_street="Mühlweg 3", business_city="Lindau", business_state="",
        business_postcode="88131", business_country="Germany",
    )  # fmt: skip
    assert business_lines(german, "EU", TEXTS)[1:4] == ("Mühlweg 3", "88131 Lindau", "Germany")
    british = settings(
        business_city="Hebden", business_state="West Yorkshire", business_postcode="HX7 0AA"
    )
    assert business_lines(british, "UK", TEXTS)[2] == "Hebden, West Yorkshire, HX7 0AA"


def test_telephone_and_one_address_to_write_to_stand_on_labels_of_the_eu_and_the_uk() -> None:
    for region in ("EU", "UK"):
        assert business_lines(settings(), region, TEXTS)[-2:] == (
            "+1 555 0100",
            "post@ember.example",
        )
    web = settings(business_email="", business_web="ember.example")
    assert business_lines(web, "EU", TEXTS)[-1] == "ember.example"
    assert "+1 555 0100" not in business_lines(settings(), "US", TEXTS)


@pytest.mark.parametrize(
    ("role", "said"),
    [
        ("maker", "Ember & Reed"),
        ("made_for", "Manufactured for Ember & Reed"),
        ("distributor", "Distributed by Ember & Reed"),
    ],
)
def test_who_is_not_the_maker_says_so_before_the_name(role: str, said: str) -> None:
    """16 CFR 500.5(c): "Manufactured for", "Distributed by"."""
    assert business_name(settings(business_role=role), TEXTS) == said


def test_nothing_is_said_before_a_name_that_is_not_there() -> None:
    assert business_name(Settings({"business_role": "made_for"}), TEXTS) == ""
    assert business_lines(Settings({}), "US", TEXTS) == ()


def test_labels_take_name_and_place_from_here() -> None:
    made = settings(business_role="distributor")
    values = label_values(Shelf(), made, TEXTS, LabelSubject())
    assert values["business"] == business_name(made, TEXTS)
    assert values["business_address"] == business_place(made)


@given(
    st.sets(st.sampled_from([spec.name for spec in BUSINESS_FIELDS if spec.kind == "text"])),
    st.sampled_from(["US", "EU", "UK"]),
)
def test_no_line_is_empty_or_has_a_mark_that_joins_nothing(names: set[str], region: str) -> None:
    made = Settings({name: name.removeprefix("business_") for name in names})
    for line in business_lines(made, region, TEXTS):
        assert line
        assert line == line.strip(" ,")
        assert ", ," not in line


# -- what is missing -------------------------------------------------------------------------------
def test_nothing_is_missing_when_everything_is_filled_in() -> None:
    for region in ("US", "EU", "UK"):
        assert missing(settings(), region) == set()


def test_the_united_states_want_name_and_place_and_no_telephone() -> None:
    """16 CFR 500.5(a) and (b), text of 2015."""
    assert missing(Settings({}), "US") == {
        "business.no-name", "business.no-street", "business.no-city", "business.no-state",
        "business.no-postcode",
    }  # fmt: skip
    assert all(one.rank is Rank.WATCH for one in business_findings(Settings({}), "US"))


def test_a_listed_street_is_not_missed() -> None:
    bare = {name: value for name, value in FULL.items() if name != "business_street"}
    assert missing(Settings(bare), "US") == {"business.no-street"}
    assert missing(Settings({**bare, "business_street_listed": 1}), "US") == set()
    assert missing(Settings({**bare, "business_street_listed": 1}), "UK") == {"business.no-street"}


def test_an_address_to_write_to_is_an_email_or_a_website() -> None:
    """Regulation (EU) 2023/988, Article 9(6): "postal and electronic address", from memory."""
    without = settings(business_email="")
    assert missing(without, "EU") == {"business.no-electronic"}
    assert missing(settings(business_email="", business_web="ember.example"), "EU") == set()
    assert missing(without, "UK") == set()


def test_a_telephone_is_missed_for_hazard_labels_in_the_eu_and_the_uk() -> None:
    """Regulation (EC) 1272/2008, Article 17(1)(a): name, address and telephone number."""
    without = settings(business_phone="")
    for region in ("EU", "UK"):
        (finding,) = business_findings(without, region)
        assert (finding.key, finding.rank) == ("business.no-phone", Rank.NOTE)
    assert missing(without, "US") == set()


def test_each_finding_says_its_rule_with_source_and_date() -> None:
    for region in ("US", "EU", "UK"):
        for finding in business_findings(Settings({}), region):
            said = TEXTS.say(finding)
            assert finding.key in all_sentences()
            assert any(rule.source in said and rule.date in said for rule in place_rules())


def test_rules_not_read_in_their_own_text_never_warn() -> None:
    unread = {rule.source for rule in place_rules() if rule.tag != "read"}
    for region in ("US", "EU", "UK"):
        for finding in business_findings(Settings({}), region):
            if finding.data["source"] in unread:
                assert finding.rank is Rank.NOTE


def test_every_rule_names_settings_that_exist() -> None:
    known = {spec.name for spec in BUSINESS_FIELDS} | {"electronic"}
    assert {need for rule in place_rules() for need in rule.needs} <= known
    assert {rule.region for rule in place_rules()} == {"US", "EU", "UK"}


def test_a_picture_is_made_for_each_region_sold_in() -> None:
    for count in range(1, 4):
        for regions in combinations(("US", "EU", "UK"), count):
            sold = {f"sold_in_{one.lower()}": int(one in regions) for one in ("US", "EU", "UK")}
            views = business_views(settings(**sold), TEXTS)
            assert tuple(view.region for view in views) == regions
    nowhere = settings(sold_in_us=0)
    assert [view.region for view in business_views(nowhere, TEXTS)] == ["US"]
