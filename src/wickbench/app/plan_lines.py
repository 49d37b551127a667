"""The lines of a plan as they are typed: candle or recipe, vessel, wicks, count and fill."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app import edit
from wickbench.app.plan_fields import LINE_FIELDS
from wickbench.app.plan_inputs import Resolved, resolve
from wickbench.app.plans import LineRow
from wickbench.app.recipe_fields import FILL_NAMES
from wickbench.app.references import reference_choices
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import Ambiguous, CannotRead, DomainError
from wickbench.storage import records, state

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickbench.app.fields import FieldSpec
    from wickbench.app.plans import PlanRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.workspace import Workspace

Pairs = list[tuple[str, str]]
_SPECS: Final = {spec.name: spec for spec in LINE_FIELDS}
SPEC_OF_CELL: Final[Mapping[str, FieldSpec]] = {
    "what": _SPECS["candle_id"],
    "vessel": _SPECS["vessel_id"],
    "wick": _SPECS["wick_id"],
    "count": _SPECS["count"],
    "fill": _SPECS["net_g"],
}
"""The field of each cell; text that cannot be read is kept as a draft of it."""
MOST_WICKS: Final = 3
_TO_LINE = "line"
_BY_VOLUME: Final = ("line", "set")


class LineWords:
    """What can be chosen in the cells of a plan's lines, read once after a change."""

    def __init__(self, workspace: Workspace, shelf: Shelf) -> None:
        texts = workspace.texts
        self._texts = texts
        self._shelf = shelf
        recipes = reference_choices(workspace, "version")
        candles = reference_choices(workspace, "candle")
        self.what: Pairs = [(f"c{key}", name) for key, name in candles]
        self.what += [(f"v{key}", texts(N_("Recipe: {name}"), name=name)) for key, name in recipes]
        self.vessel: Pairs = [
            (str(key), name) for key, name in reference_choices(workspace, "vessel")
        ]
        wicks = reference_choices(workspace, "wick")
        self.wick: Pairs = [("0", texts(N_("no wick"))), *_wick_pairs(wicks)]

    def fill(self, row: LineRow | None) -> Pairs:
        """To the line hot or set, or to the declared net weight; other weights can be typed."""
        pairs = [(word, self._texts(FILL_NAMES[word])) for word in _BY_VOLUME]
        candle = self._shelf.candles.get(row.candle_id or 0) if row is not None else None
        known = {candle.declared_net_g if candle else None, row.net_g if row else None}
        for net_g in sorted(value for value in known if value):
            shown = self._texts.units.full(net_g, "mass")
            pairs.append((shown, shown))
        return pairs


def _wick_pairs(wicks: Sequence[tuple[int, str]]) -> Pairs:
    return [
        (f"{key}x{count}", name if count == 1 else f"{count} × {name}")
        for count in range(1, MOST_WICKS + 1)
        for key, name in wicks
    ]


# -- a cell as the words that are stored -----------------------------------------------------------
def what_word(row: LineRow) -> str:
    """The word of the candle or recipe of a line; empty for none."""
    if row.candle_id is not None:
        return f"c{row.candle_id}"
    return "" if row.version_id is None else f"v{row.version_id}"


def wick_word(one: Resolved) -> str:
    """The word of the wicks of a line."""
    if not one.wick_ids:
        return "0"
    return f"{one.wick_ids[0]}x{len(one.wick_ids)}"


def fill_text(workspace: Workspace, row: LineRow) -> str:
    """How a line is filled: to the line hot or set, or the net weight."""
    if row.fill_to in _BY_VOLUME:
        return workspace.texts(FILL_NAMES[row.fill_to])
    if row.net_g is None:
        return workspace.texts(N_("net weight…"))
    return workspace.texts.units.full(row.net_g, "mass")


# -- typed text to values --------------------------------------------------------------------------
def line_values(  # noqa: PLR0917 - a cell: where, of what, what was typed
    workspace: Workspace, words: LineWords, shelf: Shelf, row: LineRow, cell: str, typed: str
) -> dict[str, object]:
    """What a line becomes when this is typed into one of its cells.

    Args:
        workspace: for units and locale.
        words: what can be chosen.
        shelf: what the line is looked up on.
        row: the line as it is.
        cell: "what", "vessel", "wick", "count" or "fill".
        typed: a word of ``words``, a name, or a quantity.

    Raises:
        CannotRead: it is none of the choices, or no quantity.
    """
    if cell == "what":
        return _what(shelf, _word(words.what, typed))
    if cell == "vessel":
        word = _word(words.vessel, typed)
        return _without_candle(row, shelf) | {"vessel_id": int(word) if word else None}
    if cell == "wick":
        return _without_candle(row, shelf) | _wicks(_word(words.wick, typed))
    if cell == "count":
        return {"count": edit.read_field(workspace, SPEC_OF_CELL["count"], typed)}
    return _fill(workspace, words.fill(row), typed)


def _what(shelf: Shelf, word: str) -> dict[str, object]:
    if word.startswith("c"):
        candle = shelf.candles[int(word[1:])]
        net = candle.fill_to == "net" and candle.declared_net_g is not None
        return {
            "candle_id": candle.id,
            "version_id": None,
            "vessel_id": None,
            "wick_id": None,
            "wick_count": None,
            "fill_to": "net" if net else "set" if candle.fill_to == "set" else _TO_LINE,
            "net_g": candle.declared_net_g if net else None,
        }
    return {"candle_id": None, "version_id": int(word[1:]) if word else None}


def _wicks(word: str) -> dict[str, object]:
    wick, _, count = word.partition("x")
    return {"wick_id": int(wick) or None, "wick_count": int(count)} if count else {
        "wick_id": None, "wick_count": 0,
    }  # fmt: skip


def _without_candle(row: LineRow, shelf: Shelf) -> dict[str, object]:
    """Another vessel or wick makes it no longer that candle: recipe and vessel stay."""
    if row.candle_id is None:
        return {}
    one = resolve(row, shelf)
    return {
        "candle_id": None,
        "version_id": one.version.id if one.version else None,
        "vessel_id": one.vessel.id if one.vessel else None,
        "wick_id": one.wick_ids[0] if one.wick_ids else None,
        "wick_count": len(one.wick_ids),
    }


def _fill(workspace: Workspace, offered: Pairs, typed: str) -> dict[str, object]:
    by_volume = offered[: len(_BY_VOLUME)]
    named = _named(by_volume, typed) if typed.strip() else [_TO_LINE]
    if len(named) > 1:
        raise CannotRead("plan.many-choices", typed=typed)
    if named:
        return {"fill_to": named[0], "net_g": None}
    return {"fill_to": "net", "net_g": edit.read_field(workspace, SPEC_OF_CELL["fill"], typed)}


def _word(offered: Pairs, typed: str) -> str:
    """The word that was chosen, or whose name was typed; empty for nothing typed.

    Raises:
        CannotRead: nothing, or more than one thing, is called that.
    """
    text = typed.strip()
    if not text or any(word == text for word, _ in offered):
        return text
    found = _named(offered, text)
    if len(found) != 1:
        raise CannotRead("plan.no-such-choice" if not found else "plan.many-choices", typed=text)
    return found[0]


def _named(offered: Pairs, typed: str) -> list[str]:
    text = typed.strip().casefold()
    exact = [word for word, name in offered if text in {name.casefold(), word.casefold()}]
    return exact or [word for word, name in offered if text in name.casefold()]


# -- changing --------------------------------------------------------------------------------------
def write_cell(  # noqa: PLR0917 - a cell: where, of what, what was typed
    workspace: Workspace, words: LineWords, shelf: Shelf, row: LineRow, cell: str, typed: str
) -> None:
    """Change one cell as one step; text that cannot be read is kept as its draft.

    Raises:
        DomainError: as ``line_values``.
    """
    spec = SPEC_OF_CELL[cell]
    try:
        values = line_values(workspace, words, shelf, row, cell, typed)
    except DomainError as error:
        edit.keep_draft(workspace, spec, row.id, typed)
        raise plain_refusal(error) from error
    edit.drop_draft(workspace, spec, row.id)
    with workspace.step(N_("Change a line"), merge=("plan_line", row.id, cell)) as connection:
        records.update(connection, "plan_line", row.id, values)


def plain_refusal(error: DomainError) -> DomainError:
    """A cell has no buttons for the readings of a number: they are named in the sentence."""
    if isinstance(error, Ambiguous):
        readings = " / ".join(text for text, _ in error.readings)
        return CannotRead("plan.which-number", readings=readings)
    return error


def add_typed_line(
    workspace: Workspace, words: LineWords, shelf: Shelf, plan: PlanRow, typed: Mapping[str, str]
) -> int:
    """A new line from typed cells; returns its key.

    Raises:
        DomainError: a cell that cannot be read; nothing is added then.
    """
    row = LineRow(id=0)
    for cell in SPEC_OF_CELL:
        if text := typed.get(cell, "").strip():
            try:
                values: dict[str, Any] = line_values(workspace, words, shelf, row, cell, text)
            except DomainError as error:
                raise plain_refusal(error) from error
            row = replace(row, **values)
    stored = {name: getattr(row, name) for name in _SPECS}
    position = 1 + max((line.position for line in plan.lines), default=-1)
    with workspace.step(N_("Add a line")) as connection:
        return records.insert(
            connection, "plan_line", {"plan_id": plan.id, "position": position, **stored}
        )


def move_line(workspace: Workspace, plan: PlanRow, line: int, down: int) -> None:
    """Move a line down (up for a negative number) among its plan's lines."""
    order = [row.id for row in plan.lines]
    at = order.index(line)
    to = min(max(at + down, 0), len(order) - 1)
    if to == at:
        return
    order.insert(to, order.pop(at))
    with workspace.step(N_("Move a line")) as connection:
        for position, key in enumerate(order):
            records.update(connection, "plan_line", key, {"position": position})


def line_drafts(workspace: Workspace, lines: Iterable[LineRow]) -> dict[tuple[int, str], str]:
    """Typed text that could not be read, by line and cell."""
    cells = {spec.name: cell for cell, spec in SPEC_OF_CELL.items()}
    with workspace.read() as connection:
        return {
            (row.id, cells[name]): typed
            for row in lines
            for name, typed in state.drafts(connection, "plan_line", row.id).items()
            if name in cells
        }
