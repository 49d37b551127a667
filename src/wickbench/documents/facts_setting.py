"""Setting words and values: in two columns, one below the other where it is narrow, or centred."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from wickbench.documents.text import MM_PER_POINT, Run, Typeface, mm_per_unit, shape
from wickbench.documents.text_fit import SetLine, sizes, words_of, wrap
from wickbench.domain.labels import FactsElement

if TYPE_CHECKING:
    from collections.abc import Callable

LEADING: Final = 1.2
RULED_GAP: Final = 0.5
OPEN_GAP: Final = 0.12
"""Room between two facts in parts of the type size, with and without a line between them."""
COLUMN_GAP_EM: Final = 0.9
LEAST_SHARE: Final = 0.42
"""Values narrower than this part of the box stand below their words instead of beside them."""
_HAIR_MM: Final = 1e-6
_SHARES: Final = {"left": 0.0, "centre": 0.5, "right": 1.0}


@dataclass(frozen=True, slots=True)
class Fact:
    """One line: its field, the word before it (or nothing) and its value."""

    name: str
    word: str
    value: str


@dataclass(frozen=True, slots=True)
class SetFacts:
    """Facts set in their box.

    Attributes:
        lines: words and values where their base lines start, mm.
        rules_mm: heights of the lines between the facts.
        size_pt: the size it came to.
        fits: False when it runs over even at the smallest size.
        lines_of: how many lines each fact took, by its field.
    """

    lines: tuple[SetLine, ...]
    rules_mm: tuple[float, ...]
    size_pt: float
    fits: bool
    lines_of: dict[str, int] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Work:
    """What stays the same while sizes are tried."""

    element: FactsElement
    facts: Sequence[Fact]
    plain: Typeface
    face: Typeface
    size_pt: float

    @property
    def em_mm(self) -> float:
        return self.size_pt * MM_PER_POINT

    def width(self, text: str, face: Typeface) -> float:
        return shape(face, text).width_mm(self.size_pt)


@dataclass(frozen=True, slots=True)
class _Row:
    """Runs that stand on one base line: run, left edge from the box, width."""

    runs: tuple[tuple[Run, float, float], ...]


def set_facts(
    element: FactsElement, facts: Sequence[Fact], plain: Typeface, face: Typeface
) -> SetFacts:
    """Set facts at the largest size that fits, not above the size wanted.

    Args:
        element: box, sizes and alignment.
        facts: what is said.
        plain: typeface of the words.
        face: typeface of the values.
    """
    least = min(element.min_size_pt, element.size_pt)
    tried = sizes(element.size_pt, least)
    for size in tried:
        done = _set_at(_Work(element, facts, plain, face, size))
        if done.fits:
            return done
    return _set_at(_Work(element, facts, plain, face, tried[-1]))


def _set_at(work: _Work) -> SetFacts:
    element, em = work.element, work.em_mm
    rows = _arrangement(work)
    gap = (RULED_GAP if element.rules else OPEN_GAP) * em
    lines: list[SetLine] = []
    rules: list[float] = []
    rise = (LEADING * em + work.face.cap_height * mm_per_unit(work.face, work.size_pt)) / 2
    top = element.y_mm
    for at, (_, block) in enumerate(rows):
        if at:
            rules.append(top + gap / 2)
            top += gap
        for row in block:
            lines += [
                SetLine(run, element.x_mm + left, top + rise, wide) for run, left, wide in row.runs
            ]
            top += LEADING * em
    high = top - element.y_mm
    fits = high <= element.h_mm + _HAIR_MM and not _any_broken(work)
    counts = {fact.name: len(block) for fact, block in rows}
    return SetFacts(tuple(lines), tuple(rules) if element.rules else (), work.size_pt, fits, counts)


def _arrangement(work: _Work) -> list[tuple[Fact, list[_Row]]]:
    put = _beside(work)
    if work.element.align == "centre":
        put = _centred
    elif put is None:
        put = _below
    return [(fact, put(work, fact)) for fact in work.facts]


def _beside(work: _Work) -> Callable[[_Work, Fact], list[_Row]] | None:
    """Two columns, unless the values would get too narrow."""
    column = _word_column(work)
    room = work.element.w_mm - column
    if column and room < LEAST_SHARE * work.element.w_mm:
        return None
    share = 1.0 if work.element.align == "right" else 0.0

    def put(work: _Work, fact: Fact) -> list[_Row]:
        rows = _values(work, fact.value, column, room, share)
        word = shape(work.plain, fact.word)
        first = ((word, 0.0, word.width_mm(work.size_pt)),) if fact.word else ()
        return [_Row((*first, *rows[0].runs)), *rows[1:]]

    return put


def _below(work: _Work, fact: Fact) -> list[_Row]:
    """The word on a line of its own, the value under it."""
    share = _SHARES[work.element.align]
    words = _plain_rows(work, fact.word, share) if fact.word else []
    return [*words, *_values(work, fact.value, 0.0, work.element.w_mm, share)]


def _centred(work: _Work, fact: Fact) -> list[_Row]:
    """Word and value on one line in the middle; a longer value under its word."""
    word, value = work.width(fact.word, work.plain), work.width(fact.value, work.face)
    gap = work.em_mm * 0.3 if fact.word else 0.0
    room = work.element.w_mm
    if not fact.word or word + gap + value > room:
        return _below(work, fact)
    left = (room - word - gap - value) / 2
    runs = (
        (shape(work.plain, fact.word), left, word),
        (shape(work.face, fact.value), left + word + gap, value),
    )
    return [_Row(runs)]


def _values(work: _Work, text: str, left: float, room: float, share: float) -> list[_Row]:
    return _rows(wrap(work.face, text, max(room, 1.0), work.size_pt), work, left, room, share)


def _plain_rows(work: _Work, text: str, share: float) -> list[_Row]:
    room = work.element.w_mm
    return _rows(wrap(work.plain, text, max(room, 1.0), work.size_pt), work, 0.0, room, share)


def _rows(runs: Sequence[Run], work: _Work, left: float, room: float, share: float) -> list[_Row]:
    rows = []
    for run in runs:
        wide = run.width_mm(work.size_pt)
        rows.append(_Row(((run, left + (room - wide) * share, wide),)))
    return rows


def _word_column(work: _Work) -> float:
    """Width of the column of words with its gap; 0 without words."""
    widest = max((work.width(fact.word, work.plain) for fact in work.facts), default=0.0)
    return widest + COLUMN_GAP_EM * work.em_mm if widest else 0.0


def _any_broken(work: _Work) -> bool:
    """Whether a word of a value is too long for its room and would be broken between letters."""
    column = _word_column(work)
    room = work.element.w_mm - column
    if work.element.align == "centre" or room < LEAST_SHARE * work.element.w_mm:
        room = work.element.w_mm
    return any(
        work.width(word, work.face) > room + _HAIR_MM
        for fact in work.facts
        for word in words_of(fact.value)
    )
