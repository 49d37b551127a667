"""Lines of text in a room: broken between words, shrunk to fit, narrower where the room is."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from wickbench.documents.text import MM_PER_POINT, Run, Typeface, mm_per_unit, shape

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.sheets import Rect

Room = Callable[[float, float], tuple[float, float]]
"""From top and bottom of a line (mm) to the left and right edge it has there."""

_STEP_PT: Final = 0.25
# A blank, but not the one between a figure and its unit ("207 g", "7.3 oz").
_BREAK: Final = re.compile(r"(?<!\d) | (?!(?:mg|g|kg|oz|lb|mL|ml|L|mm|cm|in|OZ|LB)\b)")
_HAIR_MM: Final = 1e-6
_MOST_LIFTED: Final = 30


@dataclass(frozen=True, slots=True)
class TextStyle:
    """How a text is set.

    Attributes:
        face: the typeface.
        size_pt: size wanted.
        min_size_pt: smallest size it may shrink to.
        align: left, centre or right.
        vertical: top, middle or bottom.
        leading: distance of base lines, times the size.
        letter_spacing_em: extra space between letters.
        wrap: lines may be broken between words.
    """

    face: Typeface
    size_pt: float
    min_size_pt: float
    align: str = "left"
    vertical: str = "top"
    leading: float = 1.2
    letter_spacing_em: float = 0.0
    wrap: bool = True


@dataclass(frozen=True, slots=True)
class SetLine:
    """A line at its place: start of its base line and width, mm."""

    run: Run
    x_mm: float
    y_mm: float
    width_mm: float


@dataclass(frozen=True, slots=True)
class SetText:
    """A text set in its room.

    Attributes:
        lines: from top to bottom.
        size_pt: the size it came to.
        fits: False when it runs over even at the smallest size.
        height_mm: from the top of the first capital to the last descender.
    """

    lines: tuple[SetLine, ...]
    size_pt: float
    fits: bool
    height_mm: float


@dataclass(frozen=True, slots=True)
class _Measures:
    """Vertical measures at one size, mm."""

    ascent: float
    descent: float
    leading: float

    def height(self, lines: int) -> float:
        return self.ascent + (lines - 1) * self.leading + self.descent


def fit_text(style: TextStyle, text: str, box: Rect, room: Room | None = None) -> SetText:
    """Set a text in a box at the largest size that fits, not above the size wanted.

    Args:
        style: how it is set.
        text: may hold line breaks.
        box: the room, mm.
        room: narrower edges within the box at a height, for round stickers.

    Returns:
        The lines; when nothing fits, lines of the smallest size that run over.
    """
    if not text.strip():
        return SetText((), style.size_pt, fits=True, height_mm=0.0)
    for size in sizes(style.size_pt, min(style.min_size_pt, style.size_pt)):
        lines = _set_at(style, text, box, room, size)
        if lines is not None:
            return _finished(style, text, lines, size)
    return _run_over(style, text, box, min(style.min_size_pt, style.size_pt))


def fit_size(
    face: Typeface, text: str, width_mm: float, size_pt: float, minimum_pt: float
) -> float | None:
    """Largest size, not above ``size_pt``, at which one line is no wider; None when none is."""
    natural = shape(face, text).width_mm(1.0)
    size = size_pt if natural == 0 else min(size_pt, width_mm / natural)
    return size if size >= minimum_pt else None


def words_of(text: str) -> list[str]:
    """Pieces between which a line may end: a figure and its unit stay together."""
    return _BREAK.split(text)


def wrap(
    face: Typeface, text: str, width_mm: float, size_pt: float, letter_spacing_em: float = 0.0
) -> tuple[Run, ...]:
    """Break a text into lines no wider than this; a longer word is broken between letters."""
    lines: list[Run] = []
    for paragraph in text.splitlines() or [""]:
        words = _split_long(face, words_of(paragraph), width_mm / size_pt, letter_spacing_em)
        line = ""
        for word in words:
            longer = f"{line} {word}" if line else word
            wide = shape(face, longer, letter_spacing_em).width_mm(size_pt) > width_mm + _HAIR_MM
            if line and wide:
                lines.append(shape(face, line, letter_spacing_em))
                line = word
            else:
                line = longer
        lines.append(shape(face, line, letter_spacing_em))
    return tuple(lines)


def sizes(size_pt: float, least_pt: float) -> list[float]:
    """Type sizes to try, from the one wanted down to the least, by quarters of a point."""
    count = int((size_pt - least_pt) / _STEP_PT + 1e-9)
    sizes = [size_pt - step * _STEP_PT for step in range(count + 1)]
    return sizes if sizes[-1] - least_pt < _HAIR_MM else [*sizes, least_pt]


def _measures(style: TextStyle, text: str, size_pt: float) -> _Measures:
    top, bottom = _reach(style.face, text)
    k = mm_per_unit(style.face, size_pt)
    return _Measures(top * k, -bottom * k, style.leading * size_pt * MM_PER_POINT)


@lru_cache(1024)
def _reach(face: Typeface, text: str) -> tuple[float, float]:
    """Capitals and descenders of the face, or the text's own ink where that reaches further."""
    top, bottom = float(face.cap_height), 0.0
    unit = mm_per_unit(face, 1.0)
    for line in (*text.splitlines(), "p"):
        ink = shape(face, line).ink_mm(1.0)
        if ink is not None:
            top, bottom = max(top, ink[3] / unit), min(bottom, ink[1] / unit)
    return top, bottom


def _first_baseline(style: TextStyle, box: Rect, measures: _Measures, lines: int) -> float:
    spare = box.h_mm - measures.height(lines)
    share = {"top": 0.0, "middle": 0.5, "bottom": 1.0}[style.vertical]
    return box.y_mm + spare * share + measures.ascent


def _set_at(
    style: TextStyle, text: str, box: Rect, room: Room | None, size_pt: float
) -> list[SetLine] | None:
    measures = _measures(style, text, size_pt)
    least = len(text.splitlines())
    most = int((box.h_mm - measures.ascent - measures.descent + _HAIR_MM) / measures.leading) + 1
    if measures.height(1) > box.h_mm + _HAIR_MM:
        return None
    counts = _counts(style, text, least, most, lifted=room is not None)
    if room is None and counts:
        # All lines are equally wide: however many there are, words break alike.
        texts = _broken(style, text, [box.w_mm] * counts[-1], size_pt)
        counts = (len(texts),) if texts is not None else ()
    edges = room or (lambda _top, _bottom: (box.x_mm, box.right_mm))
    for count in counts:
        first = _first_baseline(style, box, measures, count)
        baselines = [first + at * measures.leading for at in range(count)]
        rooms = [edges(y - measures.ascent, y + measures.descent) for y in baselines]
        texts = _broken(style, text, [right - left for left, right in rooms], size_pt)
        if texts is not None:
            return [
                _aligned(style, line, spot, y, size_pt)
                for line, spot, y in zip(texts, rooms, baselines, strict=False)
            ]
    return None


def _counts(style: TextStyle, text: str, least: int, most: int, *, lifted: bool) -> Sequence[int]:
    """How many lines to try: no more than there are words.

    Blank lines below lift a text from the narrow foot of a round sticker, but not without end.
    """
    words = sum(len(words_of(line)) for line in text.splitlines()) if style.wrap else least
    more = _MOST_LIFTED if style.wrap and lifted else 0
    return range(least, min(words + more, most) + 1)


def _broken(style: TextStyle, text: str, widths: list[float], size_pt: float) -> list[str] | None:
    """The text in lines of these widths; None when it does not go."""
    lines: list[str] = []
    for paragraph in text.splitlines():
        words = words_of(paragraph) if style.wrap else [paragraph]
        while True:
            if len(lines) == len(widths):
                return None
            taken = _words_that_fit(style, words, widths[len(lines)], size_pt)
            if not taken:
                return None
            lines.append(" ".join(words[:taken]))
            words = words[taken:]
            if not words:
                break
    return lines


def _words_that_fit(style: TextStyle, words: list[str], width: float, size_pt: float) -> int:
    taken = 0
    while taken < len(words):
        line = " ".join(words[: taken + 1])
        run = shape(style.face, line, style.letter_spacing_em)
        if run.width_mm(size_pt) > width + _HAIR_MM:
            break
        taken += 1
    return taken


def _aligned(
    style: TextStyle, line: str, spot: tuple[float, float], y_mm: float, size_pt: float
) -> SetLine:
    run = shape(style.face, line.strip(), style.letter_spacing_em)
    width = run.width_mm(size_pt)
    share = {"left": 0.0, "centre": 0.5, "right": 1.0}[style.align]
    return SetLine(run, spot[0] + (spot[1] - spot[0] - width) * share, y_mm, width)


def _finished(style: TextStyle, text: str, lines: list[SetLine], size_pt: float) -> SetText:
    height = _measures(style, text, size_pt).height(len(lines))
    return SetText(tuple(lines), size_pt, fits=True, height_mm=height)


def _run_over(style: TextStyle, text: str, box: Rect, size_pt: float) -> SetText:
    measures = _measures(style, text, size_pt)
    if style.wrap:
        runs = wrap(style.face, text, max(box.w_mm, 1.0), size_pt, style.letter_spacing_em)
    else:
        runs = tuple(shape(style.face, one, style.letter_spacing_em) for one in text.splitlines())
    first = _first_baseline(style, box, measures, len(runs))
    spot = (box.x_mm, box.right_mm)
    lines = tuple(
        _aligned(style, run.text, spot, first + at * measures.leading, size_pt)
        for at, run in enumerate(runs)
    )
    return SetText(lines, size_pt, fits=False, height_mm=measures.height(len(lines)))


def _split_long(
    face: Typeface, words: list[str], width_per_pt: float, letter_spacing_em: float
) -> list[str]:
    pieces: list[str] = []
    for word in words:
        rest = word
        while rest:
            count = _letters_that_fit(face, rest, width_per_pt, letter_spacing_em)
            pieces.append(rest[:count])
            rest = rest[count:]
        if not word:
            pieces.append(word)
    return pieces


def _letters_that_fit(
    face: Typeface, word: str, width_per_pt: float, letter_spacing_em: float
) -> int:
    """How many signs of a word fit, at least one letter with its marks; by halving."""

    def fits(count: int) -> bool:
        return shape(face, word[:count], letter_spacing_em).width_mm(1) <= width_per_pt

    low, high = 1, 2
    while high <= len(word) and fits(high):
        low, high = high, 2 * high
    high = min(high, len(word) + 1)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if fits(middle) else (low, middle)
    return _with_its_marks(word, low)


def _with_its_marks(word: str, count: int) -> int:
    """A place to break that does not part a mark from its letter."""
    back = count
    while 0 < back < len(word) and unicodedata.combining(word[back]):
        back -= 1
    if back:
        return back
    while count < len(word) and unicodedata.combining(word[count]):
        count += 1
    return count
