"""Several things on a label at once: each act is one step that undo takes back whole."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from app.label_workshop import fill_workshop
from wickbench.app import label_arranging as arranging
from wickbench.app.label_store import stored_label
from wickbench.app.labels import new_label
from wickbench.domain.arranging import box_of
from wickbench.domain.labels import LineElement

if TYPE_CHECKING:
    from collections.abc import Callable

    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import LabelDesign


@pytest.fixture
def label(workshop: Workspace) -> int:
    fill_workshop(workshop)
    made = new_label(workshop, "hush")
    arranging.remove_elements(workshop, made, range(len(design(workshop, made).elements)))
    lines = [LineElement(x_mm=x, y_mm=y, w_mm=w, h_mm=2.0) for x, y, w in PLACES]
    arranging.paste_elements(workshop, made, lines, by_mm=(0.0, 0.0))
    return made


PLACES = [(5.0, 3.0, 10.0), (12.0, 10.0, 6.0), (30.0, 20.0, 20.0), (8.0, 28.0, 4.0)]


def design(workshop: Workspace, label: int) -> LabelDesign:
    return stored_label(workshop, label).design


def lefts(workshop: Workspace, label: int) -> list[float]:
    return [one.x_mm for one in design(workshop, label).elements]


ACTS: dict[str, Callable[[Workspace, int], object]] = {
    "align": lambda w, n: arranging.align_elements(w, n, design(w, n), (0, 1, 2), "left"),
    "space": lambda w, n: arranging.distribute_elements(
        w, n, design(w, n), (0, 1, 2, 3), across=False
    ),
    "group": lambda w, n: arranging.group_elements(w, n, (0, 2)),
    "remove": lambda w, n: arranging.remove_elements(w, n, (1, 3)),
    "front": lambda w, n: arranging.order_elements(w, n, (0,), "front"),
    "paste": lambda w, n: arranging.paste_elements(w, n, design(w, n).elements[:2]),
}


@pytest.mark.parametrize("act", ACTS)
def test_every_act_is_one_step(workshop: Workspace, label: int, act: str) -> None:
    before = design(workshop, label)
    ACTS[act](workshop, label)
    after = design(workshop, label)
    assert after != before
    workshop.undo()
    assert design(workshop, label) == before
    workshop.redo()
    assert design(workshop, label) == after


def test_several_align_with_each_other_and_one_with_the_label(
    workshop: Workspace, label: int
) -> None:
    ACTS["align"](workshop, label)
    assert lefts(workshop, label) == [5.0, 5.0, 5.0, 8.0]
    now = design(workshop, label)
    arranging.align_elements(workshop, label, now, (3,), "centre")
    box = box_of(design(workshop, label).elements[3])
    assert box.middle[0] == pytest.approx(now.width_mm / 2, abs=1e-3)


def test_a_group_is_chosen_moved_and_copied_as_a_whole(workshop: Workspace, label: int) -> None:
    arranging.group_elements(workshop, label, (0, 2))
    now = design(workshop, label)
    assert arranging.whole_groups(now, (2,)) == (0, 2)
    assert arranging.whole_groups(now, (1,)) == (1,)
    arranging.align_elements(workshop, label, now, (0, 1, 2), "right")
    after = design(workshop, label)
    assert after.elements[2].x_mm - after.elements[0].x_mm == pytest.approx(25.0)
    assert box_of(after.elements[1]).right == pytest.approx(50.0)
    copies = arranging.paste_elements(workshop, label, [after.elements[at] for at in (0, 2)])
    pasted = design(workshop, label)
    assert copies == (4, 5)
    assert pasted.elements[4].group == pasted.elements[5].group != pasted.elements[0].group
    arranging.ungroup_elements(workshop, label, copies)
    assert arranging.whole_groups(design(workshop, label), (4,)) == (4,)


def test_copies_lie_beside_what_was_copied(workshop: Workspace, label: int) -> None:
    [copy] = arranging.paste_elements(workshop, label, design(workshop, label).elements[:1])
    now = design(workshop, label).elements
    assert now[copy] == replace(now[0], x_mm=7.0, y_mm=5.0)


@pytest.mark.parametrize(
    ("chosen", "to", "order", "places"),
    [
        ((0, 1), "front", [30.0, 8.0, 5.0, 12.0], (2, 3)),
        ((3,), "back", [8.0, 5.0, 12.0, 30.0], (0,)),
        ((1, 2), "forwards", [5.0, 8.0, 12.0, 30.0], (2, 3)),
        ((0, 2), "backwards", [5.0, 30.0, 12.0, 8.0], (0, 1)),
        ((3,), "forwards", [5.0, 12.0, 30.0, 8.0], (3,)),
    ],
)
def test_order_from_back_to_front(  # noqa: PLR0917 - pytest gives arguments by name
    workshop: Workspace,
    label: int,
    chosen: tuple[int, ...],
    to: str,
    order: list[float],
    places: tuple[int, ...],
) -> None:
    assert arranging.order_elements(workshop, label, chosen, to) == places
    assert lefts(workshop, label) == order
