"""Purchases, counts and their corrections, in real files."""

from __future__ import annotations

import datetime as dt
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from wickbench.app import shelf_edit, stock
from wickbench.app.stock import Purchase
from wickbench.app.stock_fields import count_fields, purchase_fields, purchase_of
from wickbench.app.stock_view import (
    KEPT_AS_COUNTED,
    StockView,
    on_hand_text,
    price_text,
    quantity_text,
    stock_view,
)
from wickbench.app.texts import Texts
from wickbench.app.units import Units
from wickbench.domain.errors import DomainError, OutOfRange
from wickbench.storage import records
from wickbench.storage.refusals import Booked

if TYPE_CHECKING:
    from collections.abc import Callable

    from app.told_clock import ToldClock
    from wickbench.app.workspace import Workspace

METRIC = Texts(units=Units(shown={"mass": ("g", "")}))


@pytest.fixture
def wax(workshop: Workspace) -> int:
    return shelf_edit.new_item(workshop, "wax", {"name": "Soft soy", "supplier": "Mill"})


@pytest.fixture
def jar(workshop: Workspace) -> int:
    return shelf_edit.new_item(workshop, "vessel", {"name": "Tumbler"})


def there(workshop: Workspace, item: int) -> float | None:
    return stock_view(workshop, item).on_hand


# -- what is there -------------------------------------------------------------------------------
def test_what_was_never_counted_is_unknown_and_not_nothing(workshop: Workspace, wax: int) -> None:
    view = stock_view(workshop, wax)
    assert view.on_hand is None
    assert on_hand_text(METRIC, view).startswith("On hand: unknown")
    assert quantity_text(METRIC, None, "wax") == "unknown"
    stock.count(workshop, wax, 0)
    assert there(workshop, wax) == 0.0
    assert on_hand_text(METRIC, stock_view(workshop, wax)).startswith("On hand 0 g")


def test_a_purchase_is_a_lot_and_a_move_and_one_act(workshop: Workspace, wax: int) -> None:
    lot = stock.buy(workshop, wax, 10_000, 62.0, 11.18)
    view = stock_view(workshop, wax)
    assert view.on_hand == 10_000.0
    assert [one.id for one in view.lots] == [lot]
    assert view.lots[0].supplier == "Mill"
    assert view.lots[0].bought_on == "2026-11-25"
    workshop.undo()
    view = stock_view(workshop, wax)
    assert (view.on_hand, view.lots, view.moves) == (None, (), ())
    workshop.redo()
    assert there(workshop, wax) == 10_000.0


def test_a_lots_number_is_never_given_twice(workshop: Workspace, wax: int) -> None:
    first = stock.buy(workshop, wax, 1)
    code = {one.id: one.code for one in stock_view(workshop, wax).lots}[first]
    workshop.undo()
    stock.buy(workshop, wax, 1)
    assert stock_view(workshop, wax).lots[0].code != code


def test_a_count_books_the_difference(workshop: Workspace, wax: int) -> None:
    stock.buy(workshop, wax, 10_000)
    stock.count(workshop, wax, 4200.5)
    view = stock_view(workshop, wax)
    assert view.on_hand == 4200.5
    assert view.moves[0].quantity == pytest.approx(-5799.5)
    assert view.counted_on == "2026-11-25"
    stock.count(workshop, wax, 4200.5)
    assert stock_view(workshop, wax).moves[0].quantity == 0.0


def test_vessels_are_counted_in_pieces(workshop: Workspace, jar: int) -> None:
    stock.buy(workshop, jar, 48, 81.6, 16.09)
    stock.count(workshop, jar, 47)
    assert there(workshop, jar) == 47.0
    with pytest.raises(OutOfRange) as refused:
        stock.count(workshop, jar, 46.5)
    assert refused.value.key == "stock.whole-pieces"
    assert [spec.kind for spec in count_fields("vessel")] == ["count"]
    assert purchase_fields("wax")[0].kind == "mass"


def test_grams_are_kept_to_the_milligram(workshop: Workspace, wax: int) -> None:
    stock.buy(workshop, wax, 28.349523125)  # one ounce (NIST SP 811)
    with workshop.read() as connection:
        (lot,) = records.fetch_all(connection, "material_lot")
    assert lot["quantity"] == 28_350


@pytest.mark.parametrize(
    ("purchase", "key"),
    [
        (Purchase(quantity=0.0), "stock.nothing-bought"),
        (Purchase(quantity=-1.0), "stock.nothing-bought"),
        (Purchase(quantity=1.0, paid_money=-1.0), "stock.paid-below-zero"),
        (Purchase(quantity=1.0, freight_money=-0.01), "stock.paid-below-zero"),
        (Purchase(quantity=1.0, bought_on="2026-11-26"), "stock.day-to-come"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_booked(
    workshop: Workspace, wax: int, purchase: Purchase, key: str
) -> None:
    with pytest.raises(OutOfRange) as refused:
        stock.enter_purchase(workshop, wax, purchase)
    assert refused.value.key == key
    assert workshop.texts.say(refused.value) != str(refused.value)
    with pytest.raises(OutOfRange):
        stock.count(workshop, wax, -1)
    assert stock_view(workshop, wax).moves == ()


def test_a_step_that_fails_half_way_leaves_no_lot(workshop: Workspace, jar: int) -> None:
    with pytest.raises(OutOfRange):
        stock.buy(workshop, jar, 2.5)
    assert stock_view(workshop, jar) == StockView(item_id=jar, kind="vessel")


# -- prices --------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("kind", "bought", "expected"),
    [
        # (62.00 + 11.18) / 10, (44.40 + 1.23) / 1 and (81.60 + 16.09) / 48, by hand.
        ("wax", (10_000, 62.0, 11.18), "$7.32 per kg with freight"),
        ("fragrance", (1000, 44.4, 1.23), "$45.63 per kg with freight"),
        ("vessel", (48, 81.6, 16.09), "$2.04 each with freight"),
        ("wick", (100, 3.12, None), "$0.031 each"),
        ("wax", (10_000, 62.0, None), "$6.20 per kg"),
        ("wax", (1000, 0.0, None), "$0.00 per kg"),
    ],
)
def test_the_price_of_one(
    workshop: Workspace, kind: str, bought: tuple[float, float, float | None], expected: str
) -> None:
    item = shelf_edit.new_item(workshop, kind)
    stock.buy(workshop, item, *bought)
    assert price_text(METRIC, stock_view(workshop, item)) == expected


def test_a_price_per_pound_where_weights_are_read_in_pounds(workshop: Workspace, wax: int) -> None:
    # 1 lb = 453.59237 g, exact (NIST SP 811): 10 lb for $62 is $6.20 a pound, $13.67 a kilogram.
    stock.buy(workshop, wax, 4535.9237, 62.0)
    pounds = Texts(units=Units(shown={"mass": ("lb oz", "g")}))
    assert price_text(pounds, stock_view(workshop, wax)) == "$6.20 per lb · $13.67 per kg"


def test_the_latest_day_sets_the_price(workshop: Workspace, wax: int) -> None:
    stock.buy(workshop, wax, 1000, 8.0, bought_on="2026-11-20")
    stock.buy(workshop, wax, 1000, 6.0, bought_on="2026-10-20")
    stock.buy(workshop, wax, 1000, bought_on="2026-11-24")
    assert price_text(METRIC, stock_view(workshop, wax)) == "$8.00 per kg"
    assert [one.bought_on[5:] for one in stock_view(workshop, wax).lots] == [
        "11-24", "11-20", "10-20",
    ]  # fmt: skip


def test_without_a_purchase_there_is_no_price(workshop: Workspace, wax: int) -> None:
    assert price_text(METRIC, stock_view(workshop, wax)).startswith("No price yet")


# -- corrections ---------------------------------------------------------------------------------
def test_the_next_day_only_a_counter_entry_corrects(
    workshop: Workspace, wax: int, clock: ToldClock
) -> None:
    lot = stock.buy(workshop, wax, 10_000, 62.0)
    assert workshop.may_undo
    clock.day = dt.date(2026, 11, 26)
    assert not workshop.may_undo
    with pytest.raises(Booked), workshop.step("Change") as connection:
        records.update(connection, "material_lot", lot, {"quantity": 1})
    stock.take_back(workshop, lot)
    view = stock_view(workshop, wax)
    assert view.on_hand == 0.0
    assert view.lots[0].taken_back
    assert view.price is None
    assert [one.reason for one in view.moves] == ["correction", "bought"]
    with pytest.raises(OutOfRange) as refused:
        stock.take_back(workshop, lot)
    assert refused.value.key == "stock.taken-back-already"


def test_a_mended_purchase_is_one_act_and_sets_the_price(
    workshop: Workspace, wax: int, clock: ToldClock
) -> None:
    lot = stock.buy(workshop, wax, 10_000, 6.2)
    clock.day = dt.date(2026, 11, 26)
    right = Purchase(quantity=1000.0, paid_money=6.2, bought_on="2026-11-25")
    stock.mend_purchase(workshop, lot, right)
    view = stock_view(workshop, wax)
    assert view.on_hand == 1000.0
    assert price_text(METRIC, view) == "$6.20 per kg"
    assert [one.taken_back for one in view.lots] == [False, True]
    workshop.undo()
    view = stock_view(workshop, wax)
    assert view.on_hand == 10_000.0
    assert not view.lots[0].taken_back


def test_a_mend_that_cannot_be_leaves_the_wrong_entry(workshop: Workspace, wax: int) -> None:
    lot = stock.buy(workshop, wax, 10_000, 6.2)
    with pytest.raises(OutOfRange):
        stock.mend_purchase(workshop, lot, Purchase(quantity=0.0))
    assert there(workshop, wax) == 10_000.0
    assert not stock_view(workshop, wax).lots[0].taken_back


def test_a_count_stands_when_an_earlier_purchase_is_mended(
    workshop: Workspace, wax: int, clock: ToldClock
) -> None:
    lot = stock.buy(workshop, wax, 10_000)
    stock.count(workshop, wax, 800)
    clock.day = dt.date(2026, 11, 27)
    stock.mend_purchase(workshop, lot, Purchase(quantity=1000.0))
    assert there(workshop, wax) == 800.0
    assert stock_view(workshop, wax).counted_on == "2026-11-25"
    assert KEPT_AS_COUNTED in {one.reason for one in stock_view(workshop, wax).moves}


def test_a_count_stands_when_an_earlier_purchase_is_entered_late(
    workshop: Workspace, wax: int
) -> None:
    stock.count(workshop, wax, 4200)
    assert stock.counted_since(workshop, wax, "2026-11-02") == "2026-11-25"
    assert stock.counted_since(workshop, wax, "2026-11-25") is None
    lot = stock.buy(workshop, wax, 10_000, 62.0, bought_on="2026-11-02")
    assert there(workshop, wax) == 4200.0
    assert price_text(METRIC, stock_view(workshop, wax)) == "$6.20 per kg"
    stock.take_back(workshop, lot)
    assert there(workshop, wax) == 4200.0
    stock.buy(workshop, wax, 1000)
    assert there(workshop, wax) == 5200.0


def test_less_than_nothing_is_worth_a_sentence(workshop: Workspace, wax: int) -> None:
    with workshop.step("Use") as connection:
        move = {"item_id": wax, "quantity": -5000, "reason": "used", "moved_on": "2026-11-25"}
        records.insert(connection, "stock_move", move)
    view = stock_view(workshop, wax)
    assert view.on_hand == -5.0
    assert [one.key for one in view.findings] == ["stock.below-nothing"]


ACTS = st.lists(
    st.tuples(
        st.sampled_from(["buy", "buy early", "count", "take back", "mend", "next day"]),
        st.integers(1, 20_000),
    ),
    max_size=10,
)


@given(ACTS)
@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_the_shelf_is_the_last_count_and_what_came_after(
    new_workshop: Callable[[], Workspace], clock: ToldClock, acts: list[tuple[str, int]]
) -> None:
    """Against a plain model: a count forgets everything before it."""
    workshop = new_workshop()
    item = shelf_edit.new_item(workshop, "wick")
    clock.day = dt.date(2026, 11, 25)
    counted, counted_on, since = None, "", {}  # type: ignore[var-annotated]
    lots: list[int] = []
    for act, pieces in acts:
        early = "2026-01-01"
        if act == "next day":
            clock.day += dt.timedelta(days=1)
        elif act == "count":
            stock.count(workshop, item, pieces)
            counted, counted_on, since = pieces, clock.day.isoformat(), {}
        elif act.startswith("buy"):
            bought_on = early if act == "buy early" else clock.day.isoformat()
            lots.append(stock.buy(workshop, item, pieces, bought_on=bought_on))
            since[lots[-1]] = 0 if counted_on > bought_on else pieces
        elif lots and act == "take back":
            lot = lots.pop()
            stock.take_back(workshop, lot)
            since.pop(lot, None)
        elif lots and act == "mend":
            lot = lots.pop()
            lots.append(stock.mend_purchase(workshop, lot, Purchase(quantity=pieces)))
            since[lots[-1]] = pieces if since.pop(lot, 0) else 0
        known = counted is not None or stock_view(workshop, item).moves
        expected = (counted or 0) + sum(since.values()) if known else None
        assert there(workshop, item) == expected


def test_a_purchase_from_the_form() -> None:
    values = {"quantity": 1000.0, "paid_money": 6.2, "freight_money": None, "note": ""}
    assert purchase_of(values) == Purchase(quantity=1000.0, paid_money=6.2)
    assert purchase_of({}).quantity == 0.0


def test_an_item_that_is_gone_is_refused(workshop: Workspace) -> None:
    with pytest.raises(DomainError):
        stock_view(workshop, 99)
