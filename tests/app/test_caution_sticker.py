"""A candle's caution sticker, from its facts to what is told beside it."""

import re
from pathlib import Path

import pytest

import wickbench
from wickbench.app.caution_sticker import (
    CautionChoice,
    CautionSticker,
    base_of,
    facts_of,
    make_caution_sticker,
)
from wickbench.app.sentences import cautions, net_weight
from wickbench.app.texts import Texts
from wickbench.documents.caution_checks import Base
from wickbench.documents.sticker_shape import StickerShape
from wickbench.documents.typefaces import TypefaceShelf
from wickbench.domain.catalog import Vessel, Wick
from wickbench.domain.caution_statements import OwnText, Wanted
from wickbench.domain.findings import Rank

SHELF = TypefaceShelf([])
JAR = Vessel(id=1, name="Amber jar", vessel_kind="jar", base_mm=60.0)
MOULD = Vessel(id=2, name="Ball mould", vessel_kind="mould")
COTTON = Wick(wick_kind="cotton", trim_mm=6.0)
SOURCE = Path(wickbench.__file__).parent


def sticker(choice: CautionChoice, across_mm: float = 55) -> CautionSticker:
    shape = StickerShape("circle", across_mm, across_mm)
    return make_caution_sticker(choice, shape, SHELF.nearest, base=base_of(JAR))


def test_facts_follow_vessel_and_wicks() -> None:
    assert facts_of(JAR, [COTTON]).kind == "container"
    assert facts_of(JAR, [COTTON, COTTON]).kind == "multiwick"
    assert facts_of(MOULD, [COTTON]).kind == "freestanding"
    assert facts_of(MOULD, []).kind == "melt"
    assert facts_of(JAR, [COTTON]).trim_mm == 6.0


def test_trim_length_is_the_wicks_own_or_the_usual_one() -> None:
    # common practice, no source: cotton 6 mm, wooden 3 to 5 mm
    wooden = facts_of(JAR, [Wick(wick_kind="wooden_booster")])
    assert (wooden.trim_mm, wooden.trim_to_mm) == (3.0, 5.0)
    hemp = facts_of(JAR, [Wick(wick_kind="hemp")])
    assert (hemp.trim_mm, hemp.trim_to_mm) == (6.0, None)
    assert facts_of(JAR, [Wick(wick_kind="wooden", trim_mm=4.0)]).trim_mm == 4.0


def test_source_and_date_are_told_and_every_finding_has_a_sentence() -> None:
    made = sticker(CautionChoice("EU", ("de", "en"), facts_of(JAR, [COTTON])))
    said = " ".join(Texts().say(finding) for finding in made.findings)
    assert "EN 15494:2019" in said
    assert "2019" in said
    assert "licensed assessor" in said
    assert "our own translation" in said
    assert not re.search(r"\{\w+\}|caution\.", said)


def test_drawings_replace_words_only_where_the_rule_lets_them() -> None:
    # EN 15494:2019: text or pictogram; ASTM F2058: pictograms only beside the text (summaries)
    facts = facts_of(JAR, [COTTON])
    us = sticker(CautionChoice("US", ("en",), facts, pictures="instead"))
    eu = sticker(CautionChoice("EU", ("en",), facts, pictures="instead"))
    assert "caution.drawings-only-beside" in [finding.key for finding in us.findings]
    assert "caution.drawings-only-beside" not in [finding.key for finding in eu.findings]
    assert "Burn within sight." in us.laid.label.texts[1].text
    assert "unattended" not in eu.laid.label.texts[1].text


def test_own_words_are_watched_and_printed() -> None:
    own = Wanted(own={("caution.unattended", "en"): OwnText("Stay with the flame.", "clearer")})
    made = sticker(CautionChoice("US", ("en",), facts_of(JAR, [COTTON]), own))
    assert "Stay with the flame." in made.laid.label.texts[1].text.replace("\n", " ")
    (watched,) = [f for f in made.findings if f.key == "caution.own-words"]
    assert watched.rank is Rank.WATCH


def test_a_sticker_larger_than_the_base_is_told() -> None:
    assert base_of(JAR) == Base(60.0)
    assert base_of(MOULD) is None
    made = sticker(CautionChoice("US", ("en",), facts_of(JAR, [COTTON])), across_mm=64)
    (told,) = [one for one in made.findings if one.key == "caution.larger-than-base"]
    assert told.rank is Rank.WATCH


@pytest.mark.parametrize("module", [cautions, net_weight])
def test_sentences_claim_no_conformity(module: object) -> None:
    said = " ".join(module.SENTENCES.values()).lower()  # type: ignore[attr-defined]
    assert "complian" not in said
    assert "invalid" not in said


def test_every_key_of_these_rooms_has_a_sentence() -> None:
    table = {**cautions.SENTENCES, **net_weight.SENTENCES}
    used = set()
    for path in SOURCE.rglob("*.py"):
        if "sentences" not in path.parts:
            raised = r'(?:OutOfRange|Finding)\([^"]*?"((?:caution|net-weight)\.[a-z-]+)"'
            used.update(re.findall(raised, path.read_text(encoding="utf-8")))
    assert len(used) > 15
    used |= {f"caution.source-{tag}" for tag in ("read", "secondary", "memory", "practice")}
    used |= {f"caution.unknown-{fact}" for fact in ("trim", "hours", "stop", "apart", "edge")}
    short = ("does-not-fit", "too-small", "symbol-small")
    used |= {f"caution.{what}{where}" for what in short for where in ("", "-anywhere")}
    assert used <= set(table)
