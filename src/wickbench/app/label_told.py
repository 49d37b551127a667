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


HOW: Final = (
    N_(
        "Front panel in the US: 40 % of height × circumference of a round vessel, without "
        "shoulder, neck and base, whatever the label’s size. On a lid: all of its top. "
        "(16 CFR 500.21(a))"
    ),
    N_(
        "Its size says how high the net weight must be: 1/16 in up to 5 sq in, 1/8 in up to 25, "
        "3/16 in up to 100, 1/4 in up to 400, else 1/2 in. (16 CFR 500.21(b), from memory)"
    ),
    N_(
        "In the EU and the UK the net weight itself says it: 2 mm up to 50 g, 3 mm up to 200 g, "
        "4 mm up to 1 kg, else 6 mm. (SI 2006/659 reg. 8; Directive 76/211/EEC from memory)"
    ),
    N_(
        "Measured on the drawn letters of the typeface: the lowest figure; in the US also the "
        "small “o”, or a capital where there are only capitals. Unit signs such as “g” are no "
        "words."
    ),
    N_(
        "Free space in the US: the height of the letters above and below, twice the width of an N "
        "on either side. (16 CFR 500.6(b), UPLR)"
    ),
    N_(
        "Low on the label in the US: in the lowest 30 % of its area, unless the front panel has "
        "5 sq in or less. On a round label that part reaches higher up. (16 CFR 500.6(b))"
    ),
    N_(
        "Figures are rounded down, never up: ounces to hundredths, grams to whole ones, so that "
        "neither promises more than the candle declares. (UPLR, NIST)"
    ),
)
"""How the checks are made, with their sources."""


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


def how_checked(texts: Texts) -> tuple[str, ...]:
    """How the checks are made, step by step."""
    return tuple(texts(one) for one in HOW)
