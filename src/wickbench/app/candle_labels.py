"""Which labels a candle carries: chosen with the candle, else proposed from earlier runs."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.label_store import StoredLabel, stored_labels
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle

KINDS: Final = ("jar", "lid", "caution")
"""In the order in which they are printed."""

FIELD_OF_KIND: Final = {kind: f"{kind}_label_id" for kind in KINDS}
CHOSEN: Final = "chosen"
_WHY: Final[Mapping[str, str]] = {
    "used": N_("{label} (proposed: used last for this candle)"),
    "only": N_("{label} (proposed: the only one there is)"),
}

UsedLast = dict[tuple[int, str], int]
"""From candle and kind of label to the label that was on a print run last."""


@dataclass(frozen=True, slots=True)
class CandleLabel:
    """One of a candle's labels.

    Attributes:
        label: which.
        why: ``chosen`` with the candle; ``used`` last for it, or the ``only`` one of its kind:
            proposals both.
    """

    label: StoredLabel
    why: str

    @property
    def proposed(self) -> bool:
        """Whether nobody chose it."""
        return self.why != CHOSEN


def used_last(workspace: Workspace, labels: Mapping[int, StoredLabel]) -> UsedLast:
    """The label of each kind that was last put on a print run for each candle."""
    with workspace.read() as connection:
        rows = records.fetch_all(connection, "print_line", order=("-run_id", "-id"))
    found: UsedLast = {}
    for row in rows:
        label = labels.get(int(str(row["label_id"]))) if row["label_id"] else None
        if label is not None and not label.archived and row["candle_id"]:
            found.setdefault((int(str(row["candle_id"])), _kind(label)), label.id)
    return found


def label_of_candle(
    candle: Candle, kind: str, labels: Mapping[int, StoredLabel], used: UsedLast
) -> CandleLabel | None:
    """The candle's label of a kind; ``None`` where none is chosen and none can be proposed.

    A lid label is proposed only for a candle with a lid.

    Args:
        candle: whose.
        kind: ``jar``, ``lid`` or ``caution``.
        labels: all of the workshop.
        used: from `used_last`.
    """
    chosen = getattr(candle, FIELD_OF_KIND[kind])
    if chosen in labels:
        return CandleLabel(labels[chosen], CHOSEN)
    last = used.get((candle.id, kind))
    if last is not None:
        return CandleLabel(labels[last], "used")
    if kind == "lid" and candle.lid_id is None:
        return None
    there = of_kind(labels.values(), kind)
    return CandleLabel(there[0], "only") if len(there) == 1 else None


def of_kind(labels: Iterable[StoredLabel], kind: str) -> list[StoredLabel]:
    """Labels in use of a kind; a tag stands in for a jar's label."""
    return [one for one in labels if not one.archived and _kind(one) == kind]


def proposal_texts(workspace: Workspace, candle: Candle) -> dict[str, str]:
    """What stands greyed in an empty field for a candle's label, by the field's name."""
    labels = {one.id: one for one in stored_labels(workspace, archived=True)}
    used = used_last(workspace, labels)
    found = {
        FIELD_OF_KIND[kind]: label_of_candle(candle, kind, labels, used)
        for kind in KINDS
        if getattr(candle, FIELD_OF_KIND[kind]) is None
    }
    return {name: why_text(workspace.texts, one) for name, one in found.items() if one is not None}


def why_text(texts: Texts, one: CandleLabel) -> str:
    """A proposal in words: "Jar front, kraft (proposed: used last for this candle)"."""
    return texts(_WHY[one.why], label=one.label.name) if one.proposed else one.label.name


def candle_words(candle: Candle) -> str:
    """A candle with its code: the same scent is sold in several vessels under one name."""
    return f"{candle.name} · {candle.code}" if candle.code else candle.name


def _kind(label: StoredLabel) -> str:
    return "jar" if label.kind == "tag" else label.kind
