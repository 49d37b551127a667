"""Codes to be scanned, as bars and modules: encoded by libraries, drawn as our own rectangles.

All lies in millimetres from the top left corner of the code's box, before it is turned.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import groupby
from typing import TYPE_CHECKING, Final

from wickbench.documents.outlines import rectangle
from wickbench.documents.surface import Path
from wickbench.documents.text import MM_PER_POINT, Run, shape
from wickbench.domain.codes import RULES, coded

if TYPE_CHECKING:
    from wickbench.documents.text import Typeface
    from wickbench.domain.labels import CodeElement

_GUARD: Final = 5
"""The guard bars of a till's code stand so many bar widths further down than the others."""
_GUARDS: Final = {
    "ean13": (range(3), range(45, 50), range(92, 95)),
    "upca": (range(10), range(45, 50), range(85, 95)),
    "ean8": (range(3), range(31, 36), range(64, 67)),
}
# Where the digits stand: how many, and the bars (from, to) that they stand under or beside.
_DIGITS: Final = {
    "ean13": ((1, -9, -1), (6, 3, 45), (6, 50, 92)),
    "upca": ((1, -8, -1), (5, 10, 45), (5, 50, 85), (1, 96, 103)),
    "ean8": ((4, 3, 31), (4, 36, 64)),
}
_MARGIN: Final = 0.6
"""Part of the width above that digits fill."""
_SIGN_HIGH: Final = 0.18
_MOST_SIGN_MM: Final = 3.2
_LEAST_SIGN_MM: Final = 1.4
_CAP: Final = 0.7


@dataclass(frozen=True, slots=True)
class SetSigns:
    """A run of plain letters below the bars: start of its base line."""

    run: Run
    size_pt: float
    x_mm: float
    y_mm: float


@dataclass(frozen=True, slots=True)
class LaidOutCode:
    """A code in its box.

    Attributes:
        path: all bars or modules, to be filled.
        signs: what it says, in plain letters.
        module_mm: width of the narrowest bar or of a module, as it came out.
        bars_high_mm: height of the bars without their guards; of a QR code its height.
        wide_mm: width of the bars or modules, without the clear space.
        clear: the box with the clear space: left, top, width, height.
        text: what stands in it.
    """

    path: Path
    signs: tuple[SetSigns, ...]
    module_mm: float
    bars_high_mm: float
    wide_mm: float
    clear: tuple[float, float, float, float]
    text: str


@lru_cache(256)
def bars_of(symbol: str, text: str) -> str:
    """The bars of a code as ones and zeros from left to right.

    Args:
        symbol: ean13, upca, ean8 or code128.
        text: with its check digit, as ``domain.codes.coded`` gives it.
    """
    from barcode.codex import Code128  # noqa: PLC0415 - only a label with a code needs it
    from barcode.ean import EAN8, EAN13  # noqa: PLC0415 - as above
    from barcode.upc import UPCA  # noqa: PLC0415 - as above

    makers = {"ean13": EAN13, "upca": UPCA, "ean8": EAN8, "code128": Code128}
    return str(makers[symbol](text).build()[0])


@lru_cache(256)
def modules_of(text: str, level: str) -> tuple[str, ...]:
    """The rows of a QR code as ones and zeros; the smallest that holds the text.

    Args:
        text: what it says.
        level: L, M, Q or H.
    """
    import segno  # noqa: PLC0415 - only a label with a code needs it

    made = segno.make(text, error=level, micro=False, boost_error=False)
    return tuple("".join("1" if dark else "0" for dark in row) for row in made.matrix)


def lay_out_code(
    element: CodeElement, text: str, size_mm: tuple[float, float], face: Typeface
) -> LaidOutCode:
    """Lay a code out in a box.

    Args:
        element: what it shall be.
        text: its text with the fields filled in.
        size_mm: width and height of the box, as the code lies before it is turned.
        face: for what stands below the bars.

    Raises:
        OutOfRange: as ``domain.codes.coded``.
    """
    said = coded(element.symbol, text)
    if element.symbol == "qr":
        return _square(element, said, size_mm)
    return _bars(element, said, size_mm, face)


def _square(element: CodeElement, said: str, size_mm: tuple[float, float]) -> LaidOutCode:
    rule = RULES["qr"]
    rows = modules_of(said, element.level)
    across = len(rows) + rule.clear_left + rule.clear_right
    module = min(element.module_mm or rule.most_mm, min(size_mm) / across)
    side = module * across
    left, top = (size_mm[0] - side) / 2, (size_mm[1] - side) / 2
    x0, y0 = left + rule.clear_left * module, top + rule.clear_above * module
    path = tuple(
        command
        for row, bits in enumerate(rows)
        for start, count in _runs(bits)
        for command in rectangle(x0 + start * module, y0 + row * module, count * module, module)
    )
    wide = len(rows) * module
    return LaidOutCode(path, (), module, wide, wide, (left, top, side, side), said)


def _bars(
    element: CodeElement, said: str, size_mm: tuple[float, float], face: Typeface
) -> LaidOutCode:
    rule, bits = RULES[element.symbol], bars_of(element.symbol, said)
    across = len(bits) + rule.clear_left + rule.clear_right
    module = min(element.module_mm or rule.most_mm, size_mm[0] / across)
    left = (size_mm[0] - module * across) / 2
    x0 = left + rule.clear_left * module
    sign_mm = min(max(_LEAST_SIGN_MM, size_mm[1] * _SIGN_HIGH), _MOST_SIGN_MM, size_mm[1] / 2)
    below = sign_mm * 1.25 if element.signs else 0.0
    guards = _GUARDS.get(element.symbol, ())
    deep = min(_GUARD * module, below) if element.signs else 0.0
    high = max(0.0, size_mm[1] - below)
    path: list[tuple[str | float, ...]] = []
    for start, count in _runs(bits):
        tall = high + (deep if any(start in guard for guard in guards) else 0.0)
        path += rectangle(x0 + start * module, 0.0, count * module, tall)
    signs = _signs(element, said, face, (x0, module, len(bits), sign_mm, size_mm[1]))
    clear = (left, 0.0, module * across, size_mm[1])
    return LaidOutCode(tuple(path), signs, module, high, len(bits) * module, clear, said)


def _runs(bits: str) -> list[tuple[int, int]]:
    """Start and length of every run of ones."""
    found, at = [], 0
    for bit, group in groupby(bits):
        count = len(tuple(group))
        if bit == "1":
            found.append((at, count))
        at += count
    return found


def _signs(
    element: CodeElement, said: str, face: Typeface, place: tuple[float, float, int, float, float]
) -> tuple[SetSigns, ...]:
    if not element.signs:
        return ()
    x0, module, bars, sign_mm, bottom = place
    groups = _DIGITS.get(element.symbol, ((len(said), 0, bars),))
    size_pt = sign_mm / _CAP / MM_PER_POINT
    widest = max(shape(face, said[:count] or said).width_mm(size_pt) / (to - start)
                 for count, start, to in groups)  # fmt: skip
    if widest > module * (1 - (1 - _MARGIN) / 4):
        size_pt *= module * (1 - (1 - _MARGIN) / 4) / widest
    found, at = [], 0
    for count, start, to in groups:
        run = shape(face, said[at : at + count])
        middle = x0 + module * (start + to) / 2
        found.append(SetSigns(run, size_pt, middle - run.width_mm(size_pt) / 2, bottom))
        at += count
    return tuple(found)
