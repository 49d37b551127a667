"""Maker, identity, lot, caution and what else rules want on a label."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np
import pypdfium2
import pytest

from app.checked_labels import Case, around_it, found, net_text, settings_for
from app.test_required_texts import INCH
from wickbench.app.label_rules import rule_words
from wickbench.app.net_lines import declaration, net_lines
from wickbench.app.required_texts import hazard_findings, required_findings
from wickbench.app.texts import Texts
from wickbench.domain.labels import TextElement

if TYPE_CHECKING:
    from pathlib import Path

    from wickbench.documents.surface import Surface
from wickbench.documents.label_layout import draw_label
from wickbench.documents.pdf_file import write_pdf


# -- the other texts -----------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("taken", "key"),
    [("Tallow & Tide, ", "maker-missing"), (", ME", "place-missing"), (" 04000", "place-missing")],
)
def test_maker_and_place_are_whole(taken: str, key: str) -> None:
    # 16 CFR 500.5(a): name, street, city, state and ZIP
    *others, who = around_it()
    short = replace(who, text=who.text.replace(taken, ""))
    assert key in found(Case(others=(*others, short)))


def test_an_address_to_write_to_is_asked_for_in_the_eu_only() -> None:
    # Regulation (EU) 2023/988, Article 9(6), from memory
    *others, who = around_it()
    short = replace(who, text=who.text.replace(", hello@tallow.example", ""))
    for region, told in (("EU", True), ("UK", False), ("US", False)):
        case = Case(others=(*others, short), regions=(region,))
        assert ("reach-missing" in found(case)) is told


def test_identity_lot_and_caution() -> None:
    _, _, who = around_it()
    bare = Case(others=(who,), regions=("US", "EU", "UK"), caution=False)
    told = found(bare)
    keys = ("identity-missing", "lot-missing", "caution-missing")
    assert [told[key].data["region"] for key in keys] == ["US + EU + UK", "EU + UK", "US + EU + UK"]
    # Said once, with every rule: ASTM F2058, on the unit of sale; EN 15494
    words = rule_words(Texts(), told["caution-missing"])
    assert "ASTM F2058-07(2021), 2021; EN 15494:2019, 2019 (as others quote it)" in words


def test_a_word_typed_by_hand_says_what_it_is_and_the_makers_name_does_not() -> None:
    _, lot, who = around_it()
    maker = replace(who, text="Candle House, 3 Quay Row, Saltby, ME 04000")
    case = Case(others=(lot, maker))
    check = replace(case.check(), settings=settings_for("US", business_name="Candle House"))
    keys = {one.key for one in required_findings(check).wrong}
    assert "required.identity-missing" in keys
    by_hand = TextElement(x_mm=5, y_mm=4, w_mm=80, h_mm=8, text="Rosemary candle", size_pt=9)
    assert "identity-missing" not in found(Case(others=(by_hand, lot, who)))
    unknown = found(Case(others=(lot, who), values={"identity": ""}))
    assert "identity-unknown" in unknown


def test_fields_that_have_no_value_yet_are_not_told_twice() -> None:
    # Where the field stands on the label, the layout tells that it is empty.
    bare = Case(declared_g=None, values={"lot": ""}, regions=("US", "UK"))
    told = found(bare)
    assert not {"net-missing", "lot-missing"} & set(told)
    empty = [one.data["field"] for one in bare.check().laid.findings if "empty" in one.key]
    assert sorted(empty) == ["{lot}", "{net weight}"]


def test_ounces_are_no_larger_than_grams_in_the_uk() -> None:
    # SI 2006/659 reg. 8: imperial only supplementary and not more prominent
    ounces = TextElement(x_mm=5, y_mm=32, w_mm=80, h_mm=10, text="7.7 oz", size_pt=20)
    case = Case(net=net_text(size_pt=12), others=(*around_it(), ounces), regions=("UK",))
    assert "net-ounces-larger" in found(case)
    small = replace(ounces, size_pt=10.0)
    assert "net-ounces-larger" not in found(replace(case, others=(*around_it(), small)))


@pytest.mark.parametrize("upper", [True, False])
def test_heights_are_those_of_the_ink_on_paper(tmp_path: Path, *, upper: bool) -> None:
    """The PDF drawn by another library at 2400 dots to the inch, and its black rows counted."""
    net = net_text(text="22 g" if upper else "ooo", upper=upper, size_pt=20, min_size_pt=20)
    laid = Case(net=net, others=()).check().laid

    def draw(surface: Surface) -> None:
        surface.begin_page(90, 60)
        draw_label(laid, surface)

    path = write_pdf(tmp_path / "net.pdf", draw, title="Net")
    page = pypdfium2.PdfDocument(path)[0]
    dark = np.asarray(page.render(scale=2400 / 72, grayscale=True).to_numpy()) < 128
    if upper:  # the two figures alone: what is left of the blank before the "g"
        columns = np.flatnonzero(dark.any(axis=0))
        first_gap = columns[np.flatnonzero(np.diff(columns) > 100)[0]]
        dark = dark[:, : first_gap + 1]
    rows = np.flatnonzero(dark.any(axis=1))
    high_mm = (rows[-1] - rows[0] + 1) / 2400 * INCH
    (text,) = laid.texts
    line = Case(net=net, others=(), regions=("EU",)).check().lines
    told = line[0].figures_mm() if upper else text.o_height_mm
    assert told == pytest.approx(high_mm, abs=0.03)


def test_a_lot_on_the_caution_sticker_is_enough() -> None:
    _, _, who = around_it()
    check = Case(others=(who,), regions=("UK",)).check()
    with_sticker = replace(check, beside=("Lot 26-330-A1",))
    keys = {one.key for one in required_findings(with_sticker).wrong}
    assert "required.lot-missing" not in keys
    assert "required.lot-missing" in {one.key for one in required_findings(check).wrong}


def test_the_hazard_label_is_asked_for_in_the_eu_and_the_uk() -> None:
    told = hazard_findings(Case(regions=("US", "EU", "UK")).check().settings)
    assert [one.data["region"] for one in told] == ["EU + UK"]
    assert hazard_findings(Case().check().settings) == []


def test_only_jars_and_lids_are_asked() -> None:
    assert found(Case(net=None, others=(), design={"kind": "tag"})) == {}


def test_weights_are_found_by_line() -> None:
    two = net_text(text="{net weight first}\n{net weight second}", h_mm=12, y_mm=44)
    line = declaration(net_lines(Case(net=two).check().laid, "Net Wt 7.76 oz (220 g)"))
    assert line is not None
    assert (len(line.draws), line.from_field, line.alone) == (2, True, True)
