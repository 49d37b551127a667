"""Findings that a person has looked at and leaves as they are, with the reason.

One comes back by itself when what it says has changed. What cannot be done on paper, such as text
that does not fit, is never left aside.
"""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.label_rules import REQUIRED
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_OF_THE_LABEL: Final = ("label.", "code.", "caution.")
_STANDARDS: Final = frozenset({"caution.symbol-small", "caution.symbol-small-anywhere"})
"""What stops a print by a standard alone: it can be printed, and a person may know better."""
_DIGITS: Final = 2
_VERSION: Final = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class SetAside:
    """A finding left as it is.

    Attributes:
        id: its key.
        label_id: the label it was told of.
        candle_id: the candle it was told for; ``None`` when it holds for any.
        finding: key of its sentence.
        about: what it said, to see when that changes.
        note: why it is left.
        set_on: ISO date.
    """

    id: int
    label_id: int
    candle_id: int | None
    finding: str
    about: str
    note: str = ""
    set_on: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Owned:
    """A finding of one label printed for one candle."""

    finding: Finding
    label_id: int
    candle_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftAlone:
    """A finding as it is shown once it was set aside.

    Attributes:
        finding: what was found.
        ids: keys of the rows that leave it, one for each label and candle.
        note, set_on: of the newest of them.
    """

    finding: Finding
    ids: tuple[int, ...]
    note: str
    set_on: str


@dataclass(frozen=True, slots=True)
class Settled:
    """Findings that still count, and those that are left as they are."""

    found: tuple[Owned, ...] = ()
    left: tuple[LeftAlone, ...] = ()


def may_set_aside(finding: Finding) -> bool:
    """Whether a person may leave it: a rule, or something to watch; never what cannot be."""
    if finding.rank is Rank.STOPS:
        return finding.key in _STANDARDS
    return finding.rank is Rank.WATCH or finding.key.startswith(REQUIRED)


def fingerprint(finding: Finding) -> str:
    """What a finding says, lengths and weights rounded to hundredths, as text to compare."""
    data = {name: _plain(value) for name, value in finding.data.items()}
    return json.dumps(data, sort_keys=True, ensure_ascii=False, default=str)


def set_aside(
    workspace: Workspace,
    label_id: int,
    candle_id: int | None,
    finding: Finding,
    note: str = "",
    *,
    origin: object = None,
) -> None:
    """Leave a finding of a label as it is, for one candle, until what it says changes.

    What concerns the label's own layout holds for every candle. Nothing happens to a finding that
    may not be left.
    """
    owner = Owned(finding=finding, label_id=label_id, candle_id=candle_id)
    leave_all(workspace, [owner], note, origin=origin)


def leave_all(
    workspace: Workspace, owned: Sequence[Owned], note: str = "", *, origin: object = None
) -> None:
    """Leave the same finding of several labels or candles, as one undoable act."""
    rows = [_row(one) for one in owned if may_set_aside(one.finding)]
    if not rows:
        return
    today = workspace.clock.today().isoformat()
    with workspace.step(N_("Leave a finding as it is"), origin=origin) as connection:
        for row in rows:
            same = records.fetch_all(connection, "set_aside", row)
            said = {"note": note.strip(), "set_on": today}
            if same:
                records.update(connection, "set_aside", int(str(same[0]["id"])), said)
            else:
                records.insert(connection, "set_aside", {**row, **said})


def take_up_again(workspace: Workspace, ids: Iterable[int], *, origin: object = None) -> None:
    """Let findings count again, by the keys of what left them."""
    with workspace.step(N_("Take a finding up again"), origin=origin) as connection:
        for key in ids:
            records.delete(connection, "set_aside", key)


def all_set_aside(workspace: Workspace) -> tuple[SetAside, ...]:
    """Everything that was left as it is, the oldest first."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "set_aside", order=("id",))
    return tuple(
        SetAside(
            id=int(str(row["id"])),
            label_id=int(str(row["label_id"])),
            candle_id=None if row["candle_id"] is None else int(str(row["candle_id"])),
            finding=str(row["finding"]),
            about=_said(row["about"]),
            note=str(row["note"] or ""),
            set_on=str(row["set_on"] or ""),
        )
        for row in rows
    )


def settle(owned: Sequence[Owned], aside: Sequence[SetAside]) -> Settled:
    """Part what still counts from what was left as it is and says the same as then."""
    found: list[Owned] = []
    left: dict[tuple[str, str], tuple[Finding, list[SetAside]]] = {}
    for one in owned:
        row = _left_by(one, aside)
        if row is None:
            found.append(one)
        else:
            key = (one.finding.key, fingerprint(one.finding))
            left.setdefault(key, (one.finding, []))[1].append(row)
    return Settled(tuple(found), tuple(_alone(*pair) for pair in left.values()))


def left_words(texts: Texts, alone: LeftAlone) -> str:
    """Since when a finding is left, and why."""
    day = texts.day(alone.set_on) if alone.set_on else ""
    if alone.note:
        return texts(N_("Left as it is on {day}: {note}"), day=day, note=alone.note)
    return texts(N_("Left as it is on {day}."), day=day)


def _left_by(one: Owned, aside: Sequence[SetAside]) -> SetAside | None:
    said = fingerprint(one.finding)
    for row in reversed(aside):
        if (
            row.label_id == one.label_id
            and row.finding == one.finding.key
            and row.candle_id in {None, one.candle_id}
            and row.about == said
            and may_set_aside(one.finding)
        ):
            return row
    return None


def _alone(finding: Finding, rows: list[SetAside]) -> LeftAlone:
    ids = tuple(dict.fromkeys(row.id for row in rows))
    newest = max(rows, key=lambda row: (row.set_on, row.id))
    return LeftAlone(finding=finding, ids=ids, note=newest.note, set_on=newest.set_on)


def _row(one: Owned) -> dict[str, object]:
    whole = one.finding.key.startswith(_OF_THE_LABEL)
    return {
        "label_id": one.label_id,
        "candle_id": None if whole else one.candle_id,
        "finding": one.finding.key,
        "about": {"version": _VERSION, "said": fingerprint(one.finding)},
    }


def _said(stored: object) -> str:
    return str(stored.get("said", "")) if isinstance(stored, dict) else ""


def _plain(value: object) -> object:
    if isinstance(value, float):
        return round(value, _DIGITS)
    if isinstance(value, tuple | list | frozenset):
        return [_plain(one) for one in value]
    return value
