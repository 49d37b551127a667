"""What can be done with several things on a label at once; each is one undoable act.

Elements are named by their place in the design, from back to front. Elements of a group are
chosen together; who calls says which are meant.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.app.label_elements import renumber, row_at
from wickbench.app.label_store import element_of, element_rows, element_values
from wickbench.app.labels import editable_version
from wickbench.app.texts_marker import N_
from wickbench.domain.arranging import Box, aligned, bounds, box_of, distributed, moved
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping, Sequence

    from wickbench.app.workspace import Workspace
    from wickbench.domain.labels import AnyElement, LabelDesign

PASTED_BY_MM: Final = 2.0
"""A pasted copy lies so far to the right of and below what was copied."""


def place_elements(
    workspace: Workspace,
    label_id: int,
    placed: Mapping[int, AnyElement],
    words: str = N_("Move on a label"),
    *,
    merge: tuple[object, ...] | None = None,
    origin: object = None,
) -> None:
    """Put changed elements in the place of those of the same number.

    Args:
        workspace: the open workshop.
        label_id: the label.
        placed: by the place in the design.
        words: what undo calls it, a msgid.
        merge: acts with the same value in quick succession are undone as one.
        origin: who began it.

    Raises:
        OutOfRange: no such element.
    """
    if not placed:
        return
    with workspace.step(words, merge=merge, origin=origin) as connection:
        version, _ = editable_version(connection, label_id)
        for at, element in placed.items():
            row = row_at(connection, version, at)
            records.update(connection, "label_element", row["id"], element_values(element))


def align_elements(
    workspace: Workspace,
    label_id: int,
    design: LabelDesign,
    chosen: Collection[int],
    to: str,
    *,
    origin: object = None,
) -> None:
    """Align what is chosen: one thing on the label, several with each other. Groups stay whole."""
    parts = _parts(design, chosen)
    label = Box(0.0, 0.0, design.width_mm, design.height_mm)
    within = label if len(parts) == 1 else bounds(parts.values())
    moves = aligned(parts, to, within)
    placed = _after(design, chosen, moves)
    place_elements(workspace, label_id, placed, N_("Align on a label"), origin=origin)


def distribute_elements(
    workspace: Workspace,
    label_id: int,
    design: LabelDesign,
    chosen: Collection[int],
    *,
    across: bool,
    origin: object = None,
) -> None:
    """Make the gaps between three or more things equal; groups count as one thing."""
    moves = distributed(_parts(design, chosen), across=across)
    placed = _after(design, chosen, moves)
    place_elements(workspace, label_id, placed, N_("Space out on a label"), origin=origin)


def whole_groups(design: LabelDesign, chosen: Collection[int]) -> tuple[int, ...]:
    """What is chosen, with all that is grouped with any of it, from back to front."""
    groups = {design.elements[at].group for at in chosen if at < len(design.elements)} - {""}
    return tuple(
        at for at, one in enumerate(design.elements) if at in chosen or one.group in groups
    )


def group_elements(
    workspace: Workspace, label_id: int, chosen: Collection[int], *, origin: object = None
) -> None:
    """Make one group of what is chosen; what was a group in it is so no more."""
    _regroup(workspace, label_id, chosen, N_("Group on a label"), origin, grouped=True)


def ungroup_elements(
    workspace: Workspace, label_id: int, chosen: Collection[int], *, origin: object = None
) -> None:
    """Take groups apart."""
    _regroup(workspace, label_id, chosen, N_("Ungroup on a label"), origin, grouped=False)


def remove_elements(
    workspace: Workspace, label_id: int, chosen: Collection[int], *, origin: object = None
) -> None:
    """Take several things off a label."""
    with workspace.step(N_("Take off a label"), origin=origin) as connection:
        version, _ = editable_version(connection, label_id)
        rows = element_rows(connection, version)
        for at, row in enumerate(rows):
            if at in chosen:
                records.delete(connection, "label_element", row["id"])
        renumber(connection, [row["id"] for at, row in enumerate(rows) if at not in chosen])


def order_elements(
    workspace: Workspace, label_id: int, chosen: Collection[int], to: str, *, origin: object = None
) -> tuple[int, ...]:
    """Bring what is chosen to the front or back, or one further; gives its new places.

    Args:
        workspace: the open workshop.
        label_id: the label.
        chosen: places in the design.
        to: front, back, forwards or backwards.
        origin: who began it.
    """
    with workspace.step(N_("Order on a label"), origin=origin) as connection:
        version, _ = editable_version(connection, label_id)
        ids = [row["id"] for row in element_rows(connection, version)]
        order = _ordered(list(range(len(ids))), set(chosen), to)
        renumber(connection, [ids[at] for at in order])
    return tuple(place for place, at in enumerate(order) if at in chosen)


def paste_elements(
    workspace: Workspace,
    label_id: int,
    copied: Sequence[AnyElement],
    *,
    by_mm: tuple[float, float] = (PASTED_BY_MM, PASTED_BY_MM),
    origin: object = None,
) -> tuple[int, ...]:
    """Put copies in front of all else; gives their places. Groups become groups of their own."""
    with workspace.step(N_("Paste onto a label"), origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        first = len(design.elements)
        names = _fresh_groups(design, copied)
        for at, one in enumerate(copied, first):
            fresh = replace(moved(one, *by_mm), group=names.get(one.group, ""))
            values = {"version_id": version, "position": at, **element_values(fresh)}
            records.insert(connection, "label_element", values)
    return tuple(range(first, first + len(copied)))


def _parts(design: LabelDesign, chosen: Collection[int]) -> dict[int, Box]:
    """A box for each group and each single thing, by its first number."""
    found: dict[str, list[int]] = {}
    for at in sorted(chosen):
        group = design.elements[at].group
        found.setdefault(group or f"\0{at}", []).append(at)
    return {
        numbers[0]: bounds(box_of(design.elements[at]) for at in numbers)
        for numbers in found.values()
    }


def _after(
    design: LabelDesign, chosen: Collection[int], moves: Mapping[int, tuple[float, float]]
) -> dict[int, AnyElement]:
    """What is chosen at its new places; a group moves as its first member does."""
    by_group = {design.elements[at].group: by for at, by in moves.items()}
    placed: dict[int, AnyElement] = {}
    for at in chosen:
        one = design.elements[at]
        by = by_group[one.group] if one.group else moves[at]
        if any(by):
            placed[at] = moved(one, *by)
    return placed


def _regroup(
    workspace: Workspace,
    label_id: int,
    chosen: Collection[int],
    words: str,
    origin: object,
    *,
    grouped: bool,
) -> None:
    with workspace.step(words, origin=origin) as connection:
        version, design = editable_version(connection, label_id)
        name = _free_name(design) if grouped else ""
        for at in chosen:
            row = row_at(connection, version, at)
            changed = replace(element_of(row), group=name)
            records.update(connection, "label_element", row["id"], element_values(changed))


def _free_name(design: LabelDesign, *taken: str) -> str:
    used = {one.group for one in design.elements} | set(taken)
    number = 1
    while str(number) in used:
        number += 1
    return str(number)


def _fresh_groups(design: LabelDesign, copied: Sequence[AnyElement]) -> dict[str, str]:
    names: dict[str, str] = {}
    for one in copied:
        if one.group and one.group not in names:
            names[one.group] = _free_name(design, *names.values())
    return names


def _ordered(order: list[int], chosen: set[int], to: str) -> list[int]:
    inside = [at for at in order if at in chosen]
    outside = [at for at in order if at not in chosen]
    if to == "front":
        return outside + inside
    if to == "back":
        return inside + outside
    step = 1 if to == "forwards" else -1
    for at in reversed(inside) if step > 0 else inside:
        place = order.index(at)
        beside = place + step
        if 0 <= beside < len(order) and order[beside] not in chosen:
            order[place], order[beside] = order[beside], order[place]
    return order
