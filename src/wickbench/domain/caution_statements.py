"""Values of the caution sticker: statements of a rule, facts of a candle, lines to print."""

from __future__ import annotations

import math
from collections.abc import Collection, Mapping  # read when the dataclasses are made
from dataclasses import dataclass, field

from wickbench.domain.errors import OutOfRange

KINDS = ("container", "multiwick", "freestanding", "floating", "melt")
OWN_WORDS = "own"
LONGEST_BURN_H = 24.0
LONGEST_LENGTH_MM = 1000.0


@dataclass(frozen=True, slots=True)
class Statement:
    """One statement of a rule or of good practice.

    Attributes:
        key: names the statement, for example ``"caution.unattended"``.
        texts: language code to wording; may hold ``{trim} {hours} {stop} {apart} {edge}``.
        mandatory: the rule asks for it.
        usual: printed unless the person leaves it out; what is mandatory is usual.
        kinds: kinds of candle it is for.
        needs: facts without which the line cannot be written.
        pictogram: name of our drawing, or empty.
        source: where the rule stands.
        date: year or day of the source.
        tag: how well it is known: read, secondary, memory or practice.
    """

    key: str
    texts: Mapping[str, str]
    mandatory: bool
    usual: bool
    kinds: frozenset[str]
    needs: tuple[str, ...]
    pictogram: str
    source: str
    date: str
    tag: str


@dataclass(frozen=True, slots=True)
class StatementSet:
    """The statements for some regions and kinds of candle.

    Attributes:
        title: what the set is, in English.
        regions: among ``US``, ``EU`` and ``UK``.
        kinds: among ``KINDS``.
        basis: ``standard`` or ``practice``.
        symbol: name of the drawing that opens the label.
        signal: language code to signal word, in capitals.
        statements: in the order of the rule.
        translated_by_us: languages whose wording is our own translation.
        source: the standard.
        date: its year.
        tag: how well its wording is known.
        drawings_may_replace_text: the rule lets a drawing stand in place of a statement.
    """

    title: str
    regions: frozenset[str]
    kinds: frozenset[str]
    basis: str
    symbol: str
    signal: Mapping[str, str]
    statements: tuple[Statement, ...]
    translated_by_us: frozenset[str]
    source: str
    date: str
    tag: str
    drawings_may_replace_text: bool = False


@dataclass(frozen=True, slots=True)
class CandleFacts:
    """What the lines say about this candle.

    Attributes:
        kind: one of ``KINDS``; ``multiwick`` for two or three wicks, ``melt`` for none.
        wick_kind: ``cotton``, ``wooden`` or empty; only told, the lengths decide.
        trim_mm: length to trim the wick to, in mm; the lower end where there is a range.
        trim_to_mm: upper end of the range, in mm, or None.
        longest_burn_h: longest burn in hours.
        stop_mm: depth of wax left at which to stop, in mm.
        apart_mm: least distance between burning candles, in mm.
        edge_mm: height of a standing edge above which it is trimmed, in mm.
    """

    kind: str = "container"
    wick_kind: str = ""
    trim_mm: float | None = None
    trim_to_mm: float | None = None
    longest_burn_h: float | None = None
    stop_mm: float | None = None
    apart_mm: float | None = None
    edge_mm: float | None = None

    def __post_init__(self) -> None:
        if self.kind not in KINDS:
            raise OutOfRange("caution.kind-unknown", kind=self.kind)
        lengths = (self.trim_mm, self.trim_to_mm, self.stop_mm, self.apart_mm, self.edge_mm)
        for length_mm in lengths:
            _check_within(length_mm, LONGEST_LENGTH_MM, "caution.length-out-of-range", "given_mm")
        _check_within(self.longest_burn_h, LONGEST_BURN_H, "caution.burn-out-of-range", "given_h")
        if self.trim_to_mm is not None and (self.trim_mm is None or self.trim_to_mm < self.trim_mm):
            raise OutOfRange("caution.trim-range", given_mm=self.trim_to_mm)


@dataclass(frozen=True, slots=True)
class OwnText:
    """A statement in the person's own words, and why."""

    text: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class CautionLine:
    """One line as it is printed.

    Attributes:
        key: the statement's key.
        language: language code of the text.
        text: ready to print.
        mandatory: never dropped by a layout.
        source: the rule it stems from, also when the words are the person's own.
        date: of that rule.
        tag: how well the rule is known; ``own`` when the words are the person's own.
        pictogram: name of our drawing, or empty.
        note: the person's reason for their own words.
    """

    key: str
    language: str
    text: str
    mandatory: bool
    source: str
    date: str
    tag: str
    pictogram: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the person chose beside region and language.

    Attributes:
        own: (statement key, language) to own words.
        left_out: keys of statements that are not mandatory and not wanted.
        added: keys of optional statements wanted beyond the usual ones.
    """

    own: Mapping[tuple[str, str], OwnText] = field(default_factory=dict)
    left_out: Collection[str] = ()
    added: Collection[str] = ()


def _check_within(value: float | None, most: float, key: str, name: str) -> None:
    if value is not None and not (math.isfinite(value) and 0.0 < value <= most):
        raise OutOfRange(key, **{name: value})
