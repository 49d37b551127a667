"""What a check of one label looks at: the label as laid out, and what it is printed for."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from wickbench.app.net_lines import NetLine, declaration, net_lines
from wickbench.app.settings import Settings
from wickbench.documents.label_checks import PAPER
from wickbench.documents.label_layout import LaidOutLabel
from wickbench.domain.catalog import Candle, Vessel
from wickbench.domain.findings import Finding
from wickbench.domain.label_fields import fields_in
from wickbench.domain.labels import AnyElement, CodeElement, FactsElement, TextElement


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelCheck:
    """A label as laid out, and what it is printed for.

    Attributes:
        laid: the label.
        values: what its fields are filled with.
        settings: of the file: where sold, name and place.
        candle, vessel: it is for; ``None`` while not chosen.
        lid_mm: diameter of the candle's lid; ``None`` when there is none or it is not measured.
        language: of labels.
        caution: whether the candle has a caution sticker; ``None`` when nobody looked.
        paper: colour of the sticker.
        beside: texts of the candle's other labels, where a lot may stand as well.
        lines: every weight on it.
    """

    laid: LaidOutLabel
    values: Mapping[str, str]
    settings: Settings
    candle: Candle | None = None
    vessel: Vessel | None = None
    lid_mm: float | None = None
    language: str = "en"
    caution: bool | None = None
    paper: str = PAPER
    beside: tuple[str, ...] = ()
    lines: tuple[NetLine, ...] = field(init=False)

    def __post_init__(self) -> None:
        lines = net_lines(self.laid, self.values.get("net_weight", ""))
        object.__setattr__(self, "lines", lines)

    @property
    def declared(self) -> NetLine | None:
        """The weight that declares the net weight."""
        return declaration(self.lines)

    @property
    def regions(self) -> tuple[str, ...]:
        """Where sold; the United States while nothing is chosen."""
        return self.settings.regions or ("US",)

    @property
    def around_mm(self) -> float | None:
        """Outer diameter that the label goes round; ``None`` when flat or unknown."""
        design, vessel = self.laid.design, self.vessel
        if design.kind != "jar":
            return None
        sides = [design.wrap_bottom_mm, design.wrap_top_mm]
        if vessel is not None and not any(sides):
            sides = [vessel.outer_top_mm or 0.0, vessel.outer_bottom_mm or 0.0]
        known = [side for side in sides if side]
        return sum(known) / len(known) if known else None

    @property
    def said(self) -> str:
        """Everything that the label says, on one line, without regard to capitals."""
        return solid(" ".join(text.text for text in self.laid.texts))

    def holds(self, *fields: str) -> bool:
        """Whether one of these fields stands on the label, filled or not yet."""
        return any(not held_by(one).isdisjoint(fields) for one in self.laid.design.elements)

    def says(self, value: str) -> bool:
        """Whether a value stands somewhere on the label."""
        wanted = solid(value)
        return bool(wanted) and wanted in self.said


@dataclass(frozen=True, slots=True)
class Checked:
    """What came of a check: what is to be mended, and what was looked at and is well."""

    wrong: tuple[Finding, ...] = ()
    well: tuple[Finding, ...] = ()


def held_by(element: AnyElement) -> frozenset[str]:
    """Names of the fields that an element is filled in with."""
    if isinstance(element, FactsElement):
        return frozenset(element.facts)
    if isinstance(element, TextElement | CodeElement):
        return frozenset(fields_in(element.text))
    return frozenset()


def solid(text: str) -> str:
    """A text on one line, without regard to capitals."""
    return " ".join(text.split()).casefold()
