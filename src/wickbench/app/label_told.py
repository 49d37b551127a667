"""All that is to be told of labels: what rules want, what was left as it is, what nobody checks."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.label_check import Checked, LabelCheck
from wickbench.app.label_paper import seen_on_kraft
from wickbench.app.required_texts import hazard_findings, required_findings
from wickbench.app.set_aside import SetAside, all_set_aside
from wickbench.app.settings import Settings
from wickbench.app.shelf import Shelf
from wickbench.app.texts_marker import N_
from wickbench.documents.label_checks import PAPER
from wickbench.domain.catalog import Lid
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.label_making import MadeLabel
    from wickbench.app.label_store import StoredLabel
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import Candle

_LOT: Final = "lot"
KRAFT: Final = "#c9a67a"
"""Brown of kraft paper: common practice, no source."""

NOT_CHECKED: Final = (
    N_("where on the vessel a label is stuck"),
    N_("what claims it makes"),
    N_("rules on fragrance allergens and on recycling marks"),
    N_("rules of states, provinces and towns"),
    N_("what the finished candle weighs"),
)
"""What is not looked at, for the line at the end of the findings."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelChecks:
    """Checks labels; holds what they need from the file, read once after a change.

    Attributes:
        settings: of the file.
        shelf: the snapshot.
        aside: findings that were left as they are.
        cautioned: keys of candles with a caution sticker: chosen, or in a print run.
        lot_beside: of these, those whose caution sticker says the lot.
    """

    settings: Settings
    shelf: Shelf
    aside: tuple[SetAside, ...] = ()
    cautioned: frozenset[int] = frozenset()
    lot_beside: frozenset[int] = frozenset()

    def of(self, made: MadeLabel, candle: Candle | None, values: Mapping[str, str]) -> Checked:
        """What rules want of a label as made for a candle.

        Args:
            made: the label laid out.
            candle: it is for; ``None`` for none.
            values: what its fields are filled with.
        """
        checked = required_findings(self.look_at(made, candle, values))
        hazard = hazard_findings(self.settings) if made.laid.design.kind == "jar" else []
        return Checked((*checked.wrong, *hazard), checked.well)

    def look_at(
        self, made: MadeLabel, candle: Candle | None, values: Mapping[str, str]
    ) -> LabelCheck:
        """What a check of this label looks at."""
        shelf = self.shelf
        vessel = shelf.vessels.get(candle.vessel_id or 0) if candle is not None else None
        lid = shelf.materials.get(candle.lid_id or 0) if candle is not None else None
        lot_beside = candle is not None and candle.id in self.lot_beside
        return LabelCheck(
            laid=made.laid,
            values=values,
            settings=self.settings,
            candle=candle,
            vessel=vessel,
            lid_mm=lid.details.diameter_mm if lid and isinstance(lid.details, Lid) else None,
            language=self.settings.text("language_of_labels") or "en",
            caution=candle.id in self.cautioned if candle is not None else None,
            paper=KRAFT if seen_on_kraft(shelf, made.laid.design) else PAPER,
            beside=(values.get(_LOT, ""),) if lot_beside else (),
        )


def label_checks(
    workspace: Workspace, shelf: Shelf, labels: Mapping[int, StoredLabel]
) -> LabelChecks:
    """Read what checks of labels need.

    Args:
        workspace: the open workshop.
        shelf: the snapshot.
        labels: by key.
    """
    with workspace.read() as connection:
        lines = records.fetch_all(connection, "print_line")
    pairs = [(row["candle_id"], row["label_id"]) for row in lines]
    pairs += [(one.id, one.caution_label_id) for one in shelf.candles.values()]
    worn = [
        (int(str(candle)), labels[int(str(label))])
        for candle, label in pairs
        if candle is not None and label is not None and int(str(label)) in labels
    ]
    cautions = [(candle, label) for candle, label in worn if label.caution is not None]
    with_lot = (candle for candle, one in cautions if one.caution and _LOT in one.caution.facts)
    return LabelChecks(
        settings=workspace.settings,
        shelf=shelf,
        aside=all_set_aside(workspace),
        cautioned=frozenset(candle for candle, _ in cautions),
        lot_beside=frozenset(with_lot),
    )


def not_checked(texts: Texts) -> str:
    """The line that says what nobody looked at."""
    said = "; ".join(texts(one) for one in NOT_CHECKED)
    return texts(
        N_("Not checked here: {what}. Local rules and a licensed assessor decide."), what=said
    )
