"""The caution sticker of a candle: the region's statements, the candle's facts, one layout."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from wickbench.app.standards import caution_rules
from wickbench.documents.caution_checks import Base
from wickbench.documents.caution_design import CautionDesign
from wickbench.documents.caution_layout import LaidOutCaution, lay_out_caution
from wickbench.documents.text import Typeface
from wickbench.documents.typefaces import REGULAR, SANS
from wickbench.domain.caution_statements import CandleFacts, CautionLine, StatementSet, Wanted
from wickbench.domain.cautions import caution_findings, caution_lines, choose_set
from wickbench.domain.findings import Finding, Rank, sort_findings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.sticker_shape import StickerShape
    from wickbench.domain.catalog import Vessel, Wick

FindTypeface = Callable[[str, str], tuple[Typeface, bool]]

# common practice, no source: shown as defaults that the maker overrides
LONGEST_BURN_H = 4.0
STOP_MM = 12.0
TRIM_MM = 6.0
WOODEN_TRIM_MM = (3.0, 5.0)


@dataclass(frozen=True, slots=True)
class CautionChoice:
    """What the person chose for a caution sticker.

    Attributes:
        region: ``US``, ``EU`` or ``UK``.
        languages: in the order in which they are printed.
        facts: what the lines say of the candle.
        wanted: own words, lines left out and added.
        pictures: ``none``, ``beside`` or ``instead``.
        below: a line below the statements: lot, net weight; empty for none.
        family: typeface family.
        signal_style: its style for the signal word.
    """

    region: str
    languages: tuple[str, ...]
    facts: CandleFacts
    wanted: Wanted = field(default_factory=Wanted)
    pictures: str = "none"
    below: str = ""
    family: str = SANS
    signal_style: str = "Bold"


@dataclass(frozen=True, slots=True)
class CautionSticker:
    """A caution sticker and everything to tell about it.

    Attributes:
        laid: the layout; ``laid.label`` goes on sheets like any label.
        lines: every line wanted, with its source and date, dropped ones too.
        source: the rule, its date and how well it is known, for showing beside the sticker.
        findings: of the rule and of the layout, most pressing first.
    """

    laid: LaidOutCaution
    lines: tuple[CautionLine, ...]
    source: StatementSet
    findings: tuple[Finding, ...]


def make_caution_sticker(
    choice: CautionChoice,
    shape: StickerShape,
    typefaces: FindTypeface,
    *,
    base: Base | None = None,
) -> CautionSticker:
    """Choose the lines and set them on the sticker.

    Args:
        choice: region, languages, facts and wishes.
        shape: the sticker.
        typefaces: from family and style to a typeface: ``TypefaceShelf.nearest``.
        base: vessel's base or lid, to warn when the sticker is larger.

    Raises:
        OutOfRange: a choice that no rule covers.
    """
    rules = caution_rules()
    source = choose_set(rules, choice.region, choice.facts.kind)
    asked = (rules, choice.region, choice.languages, choice.facts, choice.wanted)
    lines = caution_lines(*asked)
    design, notes = _design(choice, source, typefaces)
    words = [source.signal[language] for language in choice.languages]
    printed = (*lines, *_below(choice, source))
    laid = lay_out_caution(printed, words, source.symbol, shape, design, base=base)
    found = [*laid.findings, *caution_findings(*asked), *notes, *_own_words(lines)]
    return CautionSticker(laid, lines, source, sort_findings(found))


def _below(choice: CautionChoice, source: StatementSet) -> tuple[CautionLine, ...]:
    """The line below the statements: in a block of its own, and never dropped."""
    if not choice.below:
        return ()
    place = (source.source, source.date, "facts")
    return (CautionLine("below", "below", choice.below, True, *place),)  # noqa: FBT003 - a field


def facts_of(
    vessel: Vessel | None,
    wicks: Sequence[Wick],
    *,
    longest_burn_h: float = LONGEST_BURN_H,
    stop_mm: float = STOP_MM,
) -> CandleFacts:
    """Facts of a candle: no wick is a melt, a moulded candle stands free, else a container.

    A wick without a trim length is trimmed as is usual for its kind: cotton 6 mm, wooden
    3 to 5 mm.
    """
    kind = _kind(vessel, len(wicks))
    if kind == "melt":
        return CandleFacts("melt")
    wick_kind = wicks[0].wick_kind or ""
    usual = WOODEN_TRIM_MM if wick_kind.startswith("wooden") else (TRIM_MM, None)
    known = [wick.trim_mm for wick in wicks if wick.trim_mm is not None]
    trim_mm, trim_to_mm = (min(known), max(known)) if known else usual
    return CandleFacts(
        kind,
        wick_kind,
        trim_mm=trim_mm,
        trim_to_mm=None if trim_to_mm == trim_mm else trim_to_mm,
        longest_burn_h=longest_burn_h,
        stop_mm=stop_mm,
    )


def base_of(vessel: Vessel) -> Base | None:
    """The vessel's base; its outer bottom diameter when the base is not measured."""
    across_mm = vessel.base_mm or vessel.outer_bottom_mm
    return Base(across_mm) if across_mm else None


def _kind(vessel: Vessel | None, wicks: int) -> str:
    if wicks == 0:
        return "melt"
    if vessel is not None and vessel.vessel_kind == "mould":
        return "freestanding"
    return "multiwick" if wicks > 1 else "container"


def _design(
    choice: CautionChoice, source: StatementSet, typefaces: FindTypeface
) -> tuple[CautionDesign, list[Finding]]:
    """Typefaces and drawings; drawings only stand for words where the rule lets them."""
    text_face, _ = typefaces(choice.family, REGULAR)
    signal_face, _ = typefaces(choice.family, choice.signal_style)
    design = CautionDesign(text_face, signal_face, choice.pictures)
    if choice.pictures != "instead" or source.drawings_may_replace_text:
        return design, []
    note = Finding(Rank.WATCH, "caution.drawings-only-beside", {"source": source.source})
    return replace(design, pictures="beside"), [note]


def _own_words(lines: Sequence[CautionLine]) -> list[Finding]:
    return [
        Finding(
            Rank.WATCH,
            "caution.own-words",
            {"text": line.text, "source": line.source},
            about=("statement", line.key),
        )
        for line in lines
        if line.tag == "own" and line.mandatory
    ]
