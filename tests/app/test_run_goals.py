"""Where each finding of a print run, and of the labels of a pour, is mended."""

from __future__ import annotations

import pytest

from wickbench.app.print_run_view import RunView
from wickbench.app.print_runs import PrintRun, RunLine
from wickbench.app.run_goals import ELEMENT, LINES, RUN, SHEET, pour_goal, run_goal
from wickbench.app.shelf import Shelf
from wickbench.app.texts import all_sentences
from wickbench.domain.catalog import Candle
from wickbench.domain.findings import Finding, Rank

LINE = RunLine(id=7, label_id=3, candle_id=5, count=2)
BARE = RunLine(id=8, label_id=4, count=1)
VIEW = RunView(run=PrintRun(id=1, lines=(LINE, BARE)), lines=(LINE, BARE))
SHELF = Shelf(candles={5: Candle(id=5, name="Bramble", vessel_id=11)})


@pytest.mark.parametrize(("key", "about", "goal"), [
    ("label.text-too-long", ("entry", 0, "element", 2), (ELEMENT, (3, 2))),
    ("label.text-too-long", ("line", 8, "element", 1), (ELEMENT, (4, 1))),
    ("label.larger-than-sticker", ("entry", 1), (ELEMENT, (4, None))),
    ("caution.text-too-small", ("entry", 0, "statement", "never-unattended"), (ELEMENT, (3, None))),
    ("print.not-passed", ("line", 7, "candle", 5), ("candles", 5)),
    ("wrap.zone-unsure", ("line", 7, "vessel", 11), ("vessels", 11)),
    ("required.panel-unknown", ("line", 7), ("vessels", 11)),
    ("required.caution-missing", ("line", 7), ("candles/caution_label_id", 5)),
    ("print.net-weight-not-declared", ("line", 7, "candle", 5), ("candles/declared_net_g", 5)),
    ("required.business-empty", ("line", 7), ("business", None)),
    ("required.hazard-label-not-made", (), ("settings/region", None)),
    ("print.fields-empty", ("entry", 0, "element", 2), ("candles", 5)),
    ("print.fields-empty", ("entry", 1, "element", 2), (LINES, 8)),
    ("print.lot-empty", ("entry", 1, "element", 2), (LINES, 8)),
    ("print.no-candle", ("line", 8), (LINES, 8)),
    ("sheet.past-right-edge", (), (SHEET, None)),
    ("sheet.actual-size", (), None),
    ("print.all-fits", (), None),
    # an entry or a line that is no longer there leads nowhere
    ("label.text-too-long", ("entry", 9, "element", 2), None),
    ("label.text-too-long", ("line", 99, "element", 2), None),
])  # fmt: skip
def test_a_finding_of_the_run_leads_to_its_place(
    key: str, about: tuple[object, ...], goal: tuple[str, object] | None
) -> None:
    assert run_goal(Finding(Rank.WATCH, key, {}, about), VIEW, SHELF) == goal


@pytest.mark.parametrize(("about", "goal"), [
    (("candle", 5), ("candles", 5)),
    (("candle", 5, "jar_label_id"), ("candles/jar_label_id", 5)),
    (("plan", 2), ("pour_plan", 2)),
    (("bench", 2), ("bench", 2)),
    (("label", 3), (ELEMENT, (3, None))),
    (("lot",), ("settings/work", None)),
    (("run", 4), (RUN, 4)),
    ((), None),
])  # fmt: skip
def test_a_finding_about_a_pour_leads_to_its_place(
    about: tuple[object, ...], goal: tuple[str, object] | None
) -> None:
    assert pour_goal(Finding(Rank.WATCH, "pour-labels.no-lot", {}, about)) == goal


def test_every_key_that_has_a_place_of_its_own_has_a_sentence() -> None:
    from wickbench.app import run_goals

    keys = {*run_goals._BY_KEY, *run_goals._OF_CANDLE, *run_goals._ONLY_TOLD}
    assert keys <= set(all_sentences())
