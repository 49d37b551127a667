"""Ways to mend the net weight: each that is offered is tried again here, from its own layout."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.checked_labels import Case, around_it, found, net_text
from app.label_workshop import fill_workshop, sheet_in
from wickbench.app import label_elements, labels
from wickbench.app.label_store import stored_label
from wickbench.app.net_lines import covers_something
from wickbench.app.net_proposals import NetProposal, apply_proposal, net_proposals
from wickbench.app.required_heights import height_mm, least_mm
from wickbench.app.required_texts import required_findings
from wickbench.domain.findings import Rank
from wickbench.domain.labels import FactsElement, TextElement

if TYPE_CHECKING:
    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import AnyElement

EIGHTH_MM = 25.4 / 8
"""16 CFR 500.21(b): the jar of these cases has a front panel of 10.9 sq in: 1/8 inch."""


def offered(case: Case, key: str) -> tuple[NetProposal, ...]:
    """Ways to mend one finding of a case."""
    finding = found(case)[key]
    return net_proposals(case.check(), finding, case.lay_out)


def taken(case: Case, proposal: NetProposal) -> Case:
    """The case with a way taken; its net weight is the last element."""
    others: tuple[AnyElement, ...] = case.others
    assert proposal.at in {None, len(others)}
    return replace(case, net=proposal.element)


def ways(case: Case, key: str) -> dict[str, NetProposal]:
    """Ways by their own key."""
    return {one.key: one for one in offered(case, key)}


SMALL = net_text(size_pt=7, min_size_pt=6, upper=False)


def test_larger_type_is_offered_first_and_is_high_enough() -> None:
    case = Case(net=SMALL)
    first = offered(case, "figures-small-panel")[0]
    assert first.key == "larger"
    after = taken(case, first)
    line = after.check().declared
    assert line is not None
    assert height_mm(line, "US") >= EIGHTH_MM
    assert found(after) == {}


def test_capitals_are_offered_where_small_letters_would_have_to_be_too_large() -> None:
    narrow = replace(SMALL, x_mm=18.0, w_mm=54.0, h_mm=6.0)
    case = Case(net=narrow)
    kinds = ways(case, "figures-small-panel")
    assert "larger" not in kinds
    assert kinds["capitals"].element.upper  # type: ignore[union-attr]
    after = taken(case, kinds["capitals"])
    assert found(after) == {}
    assert "(220 g)" in after.check().laid.texts[-1].text


def test_two_lines_are_offered_where_one_is_too_long() -> None:
    tall = replace(SMALL, x_mm=22.0, y_mm=41.0, w_mm=44.0, h_mm=17.0, wrap=False)
    case = Case(net=tall)
    kinds = ways(case, "figures-small-panel")
    assert "lines" in kinds
    after = taken(case, kinds["lines"])
    line = after.check().declared
    assert line is not None
    assert [one.run.text for one in line.draws] == ["Net Wt 7.76 oz", "(220 g)"]
    assert found(after) == {}


def test_a_wider_box_is_offered_up_to_the_safe_edges() -> None:
    narrow = replace(SMALL, x_mm=30.0, w_mm=30.0)
    case = Case(net=narrow)
    wider = ways(case, "figures-small-panel")["wider"].element
    assert (wider.x_mm, wider.w_mm) == (2.0, 86.0)


def test_a_net_weight_that_does_not_fit_is_set_so_that_it_does() -> None:
    stuck = replace(
        SMALL, x_mm=22.0, y_mm=41.0, w_mm=44.0, h_mm=17.0, size_pt=18.0, min_size_pt=18.0
    )
    case = Case(net=replace(stuck, wrap=False))
    check = case.check()
    told = next(one for one in check.laid.findings if one.key == "label.text-too-long")
    kinds = {one.key: one for one in net_proposals(check, told, case.lay_out)}
    assert "lines" in kinds
    after = taken(case, kinds["lines"]).check()
    assert [one.key for one in after.laid.findings if one.rank is Rank.STOPS] == []
    identity = replace(told, about=("element", 0))
    assert net_proposals(check, identity, case.lay_out) == ()


def test_no_way_is_offered_where_none_works() -> None:
    # A label of 20 mm cannot hold figures of 1/8 inch beside its other texts.
    tiny = Case(net=replace(SMALL, x_mm=2, y_mm=14, w_mm=16, h_mm=4), others=(), design={
        "width_mm": 20.0, "height_mm": 20.0,
    })  # fmt: skip
    assert offered(tiny, "figures-small-panel") == ()


def test_a_way_that_would_cover_something_is_not_offered() -> None:
    mark = TextElement(x_mm=2, y_mm=49, w_mm=16, h_mm=7, text="soy", size_pt=12)
    case = Case(net=replace(SMALL, x_mm=32.0, w_mm=26.0), others=(*around_it(), mark))
    assert "wider" not in ways(case, "figures-small-panel")
    free = replace(case, others=around_it())
    assert "wider" in ways(free, "figures-small-panel")


BOXES = st.builds(
    lambda x, w, h: {"x_mm": x, "w_mm": min(w, 88 - x), "y_mm": 57 - h, "h_mm": h},
    st.floats(2.0, 30.0), st.floats(20.0, 80.0), st.floats(4.0, 14.0),
)  # fmt: skip


@settings(max_examples=12, deadline=None)
@given(
    BOXES,
    st.floats(6.0, 16.0),
    st.sampled_from([True, False]),
    st.sampled_from([("US",), ("EU",), ("US", "UK")]),
)
def test_whatever_is_offered_mends_and_breaks_nothing(
    box: dict[str, float], size_pt: float, capitals: object, regions: tuple[str, ...]
) -> None:
    net = net_text(size_pt=size_pt, min_size_pt=5.0, upper=capitals, **box)
    case = Case(net=net, regions=regions)
    before = found(case)
    for key in ("figures-small-panel", "figures-small"):
        if key not in before:
            continue
        for one in offered(case, key):
            after = taken(case, one)
            told = found(after)
            assert key not in told
            assert set(told) <= set(before)
            line = after.check().declared
            assert line is not None
            for region in regions:
                least = least_mm(after.check(), region)
                assert least is not None
                assert height_mm(line, region) >= least - 0.005
            assert not [f for f in after.check().laid.findings if f.key.endswith("-too-long")]


def test_where_no_way_serves_every_region_one_is_served() -> None:
    # Room for the 1/8 inch of the US, none for the 4 mm of the UK.
    low = replace(SMALL, upper=True, size_pt=13.0, h_mm=5.0, y_mm=50.4)
    below = TextElement(x_mm=70, y_mm=55.6, w_mm=18, h_mm=2.4, text="x", size_pt=5, min_size_pt=5)
    case = Case(net=low, others=(*around_it(), below), regions=("US", "UK"))
    told = found(case)
    assert net_proposals(case.check(), told["figures-small"], case.lay_out) == ()
    (way, *_) = net_proposals(case.check(), told["figures-small-panel"], case.lay_out)
    after = found(taken(case, way))
    assert "figures-small-panel" not in after
    assert "figures-small" in after


def test_what_was_typed_by_hand_is_filled_in_by_the_program() -> None:
    case = Case(net=net_text(text="Net Wt 9 oz (255 g)"))
    (fill,) = offered(case, "net-too-much")
    assert fill.element.text == "{net weight}"  # type: ignore[union-attr]
    assert found(taken(case, fill)) == {}


def test_a_missing_net_weight_is_added_at_the_bottom() -> None:
    case = Case(net=None)
    (added,) = offered(case, "net-missing")
    assert added.at is None
    assert found(replace(case, net=added.element)) == {}


def test_one_that_stands_too_high_is_moved_down() -> None:
    case = Case(net=net_text(y_mm=36))
    (moved,) = offered(case, "net-high")
    assert moved.element.y_mm > 36
    assert found(taken(case, moved)) == {}


def test_one_at_the_side_is_moved_to_the_middle() -> None:
    wrap = {"width_mm": 250.0, "height_mm": 60.0, "shape": "wrap"}
    case = Case(net=net_text(x_mm=165, w_mm=80), design=wrap)
    (moved,) = offered(case, "net-not-in-front")
    assert "net-not-in-front" not in found(taken(case, moved))


@pytest.mark.parametrize(
    ("changes", "key"), [({"turn_deg": 180.0}, "net-turned"), ({"colour": "#cccccc"}, "net-pale")]
)
def test_one_that_is_turned_or_pale_is_mended(changes: dict[str, object], key: str) -> None:
    case = Case(net=net_text(**changes))
    (way,) = offered(case, key)
    assert found(taken(case, way)) == {}


def test_a_frame_of_facts_grows_too() -> None:
    facts = FactsElement(
        x_mm=5, y_mm=46, w_mm=80, h_mm=11, facts=("net_weight",), both_systems=False, size_pt=7,
    )  # fmt: skip
    case = Case(net=facts, regions=("EU",))  # type: ignore[arg-type]
    first = offered(case, "figures-small")[0]
    assert first.key == "larger"
    assert "figures-small" not in found(taken(case, first))


def test_taking_a_way_is_one_undoable_act(workshop: Workspace) -> None:
    kept = fill_workshop(workshop)
    label = labels.new_label(workshop, "hush", sheet_in(workshop, kept.three_by_seven))
    before = stored_label(workshop, label).design
    at = next(
        at for at, one in enumerate(before.elements) if "net weight" in getattr(one, "text", "")
    )
    way = NetProposal(
        key="larger",
        words="",
        at=at,
        element=replace(before.elements[at], size_pt=20.0),  # type: ignore[call-arg]
    )
    apply_proposal(workshop, label, way)
    assert stored_label(workshop, label).design.elements[at].size_pt == 20.0  # type: ignore[union-attr]
    added = replace(way, at=None, element=net_text())
    apply_proposal(workshop, label, added)
    assert len(stored_label(workshop, label).design.elements) == len(before.elements) + 1
    assert workshop.undo_label == "Mend a label"
    workshop.undo()
    workshop.undo()
    assert stored_label(workshop, label).design == before
    label_elements.change_element(workshop, label, at, {"text": "x"})


@pytest.mark.parametrize(
    ("gone", "region", "key"),
    [
        (0, "US", "identity-missing"),
        (1, "UK", "lot-missing"),
        (2, "US", "maker-missing"),
        (2, "EU", "maker-missing"),
    ],
)
def test_a_text_that_is_wanted_is_put_where_there_is_room(gone: int, region: str, key: str) -> None:
    others = list(around_it())
    del others[gone]
    values = {"business": "Tallow & Tide", "business_address": "3 Quay Row, Saltby, ME 04000"}
    values["email"] = "hello@tallow.example"
    case = Case(others=tuple(others), regions=(region,), values=values)
    (way,) = offered(case, key)
    assert way.at is None
    after = replace(case, others=(*others, way.element))
    told = set(found(after))
    assert key not in told
    assert told <= set(found(case))
    laid = after.check().laid
    assert not covers_something(laid, len(others))
    assert not [one for one in laid.findings if one.about == ("element", len(others))]


def test_a_full_label_is_offered_no_further_text() -> None:
    # A line every 3 mm: no gap is as high as a line of the smallest type, 2.6 mm.
    rows = [
        TextElement(x_mm=2, y_mm=2 + 3 * at, w_mm=86, h_mm=3, text="Hearth " * 9, size_pt=7)
        for at in range(19)
    ]
    case = Case(others=(around_it()[2], *rows), net=None)
    assert offered(case, "identity-missing") == ()
    assert offered(replace(case, others=(around_it()[2], *rows[:9])), "identity-missing")


def test_nothing_is_put_between_large_letters() -> None:
    # The box of a large title holds a small line whole; that makes the title no ground for it.
    title = TextElement(x_mm=2, y_mm=2, w_mm=86, h_mm=38, text="Agy", size_pt=110, min_size_pt=110)
    _, lot, who = around_it()
    case = Case(others=(title, replace(lot, y_mm=40.0), replace(who, y_mm=44.0, h_mm=3.0)))
    for way in offered(case, "identity-missing"):
        laid = replace(case, others=(*case.others, way.element)).check().laid
        assert not covers_something(laid, 3)
    over = replace(title, x_mm=30.0, y_mm=18.0, w_mm=10.0, h_mm=4.0, text="x", size_pt=6.0)
    covered = replace(case, others=(*case.others, replace(over, min_size_pt=6.0))).check().laid
    assert covers_something(covered, 3)


def test_findings_about_other_things_have_no_ways() -> None:
    told = required_findings(Case(caution=False).check()).wrong
    case = Case(caution=False)
    assert [net_proposals(case.check(), one, case.lay_out) for one in told] == [()]
