"""Codes to be scanned: what may stand in them, check digits, sizes and the clear space round them.

Measures of EAN and UPC codes read at a till: GS1 General Specifications, table for symbols at the
point of sale (width of the narrowest bar 0.264 to 0.660 mm, usual 0.330; heights; clear space in
bar widths). Code 128: ISO/IEC 15417 (ten bar widths clear on either side); QR: ISO/IEC 18004 (four
modules clear all round). The least module of 0.4 mm for QR codes is common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeRule:
    """What holds for one kind of code.

    Attributes:
        digits: how many digits it has with its check digit; 0: no fixed number.
        least_mm: narrowest bar or module that scanners read well.
        usual_mm: as it is printed when nothing else is asked for.
        most_mm: widest.
        clear_left: clear space on the left, in bars or modules.
        clear_right: on the right.
        clear_above: above and below.
        least_high_mm: least height of the bars at the least width; grows with the width.
        usual_high_mm: usual height of the bars at the usual width.
    """

    digits: int = 0
    least_mm: float
    usual_mm: float
    most_mm: float
    clear_left: int
    clear_right: int
    clear_above: int = 0
    least_high_mm: float = 0.0
    usual_high_mm: float = 0.0


_EAN_13: Final = CodeRule(
    digits=13, least_mm=0.264, usual_mm=0.330, most_mm=0.660, clear_left=11, clear_right=7,
    least_high_mm=18.28, usual_high_mm=22.85,
)  # fmt: skip
RULES: Final[Mapping[str, CodeRule]] = MappingProxyType(
    {
        "qr": CodeRule(
            least_mm=0.4, usual_mm=0.5, most_mm=5.0, clear_left=4, clear_right=4, clear_above=4
        ),
        "ean13": _EAN_13,
        "upca": CodeRule(
            digits=12, least_mm=0.264, usual_mm=0.330, most_mm=0.660, clear_left=9, clear_right=9,
            least_high_mm=18.28, usual_high_mm=22.85,
        ),
        "ean8": CodeRule(
            digits=8, least_mm=0.264, usual_mm=0.330, most_mm=0.660, clear_left=7, clear_right=7,
            least_high_mm=14.58, usual_high_mm=18.23,
        ),
        "code128": CodeRule(
            least_mm=0.25, usual_mm=0.33, most_mm=1.0, clear_left=10, clear_right=10,
            least_high_mm=5.0, usual_high_mm=10.0,
        ),
    }
)  # fmt: skip
"""By kind of code."""

_MOST_128: Final = 48
_MOST_QR: Final = 800
_ASCII: Final = range(32, 127)
_BENDS_PART: Final = 6.0


def check_digit(digits: str) -> int:
    """The digit that makes the sum right: weights 3, 1, 3, … from the right, modulo ten.

    Args:
        digits: the digits before it.

    Raises:
        OutOfRange: ``code.not-digits`` for anything but digits.
    """
    if not digits or not (digits.isascii() and digits.isdigit()):
        raise OutOfRange("code.not-digits", text=digits)
    total = sum(int(sign) * (1 if at % 2 else 3) for at, sign in enumerate(reversed(digits)))
    return -total % 10


def coded(kind: str, typed: str) -> str:
    """What stands in a code: spaces and hyphens taken out, a missing check digit put on.

    Args:
        kind: one of ``RULES``.
        typed: as the person wrote it, with its fields filled in.

    Raises:
        OutOfRange: ``code.empty``; ``code.not-digits``; ``code.digits`` when there are too many or
            too few; ``code.check-digit`` when the last one is wrong, with the right one;
            ``code.letters`` for letters that Code 128 does not have; ``code.too-long``.
    """
    text = typed.strip()
    if not text:
        raise OutOfRange("code.empty")
    wanted = RULES[kind].digits
    if wanted:
        return _with_check_digit(text.replace(" ", "").replace("-", ""), wanted)
    if kind == "code128":
        if strange := sorted({sign for sign in text if ord(sign) not in _ASCII}):
            raise OutOfRange("code.letters", letters=" ".join(strange))
        return _not_longer(text, len(text), _MOST_128)
    return _not_longer(text, len(text.encode()), _MOST_QR)


def _with_check_digit(digits: str, wanted: int) -> str:
    if not (digits.isascii() and digits.isdigit()):
        raise OutOfRange("code.not-digits", text=digits)
    if len(digits) == wanted - 1:
        return f"{digits}{check_digit(digits)}"
    if len(digits) != wanted:
        raise OutOfRange("code.digits", have=len(digits), wanted=wanted, without=wanted - 1)
    right = check_digit(digits[:-1])
    if int(digits[-1]) != right:
        raise OutOfRange("code.check-digit", last=digits[-1], right=right)
    return digits


def _not_longer(text: str, length: int, most: int) -> str:
    if length > most:
        raise OutOfRange("code.too-long", have=length, most=most)
    return text


def bends_too_much(width_mm: float, vessel_mm: float) -> bool:
    """Whether a code this wide, without its clear space, bends round a vessel too far to be read.

    The whole of it takes no more than a sixth of the circumference: then its ends stand at no more
    than 30° to its middle (GS1 General Specifications, symbols on curved surfaces).

    Args:
        width_mm: along the circumference.
        vessel_mm: outer diameter.

    Raises:
        OutOfRange: ``code.vessel`` for a diameter that is none.
    """
    if not math.isfinite(vessel_mm) or vessel_mm <= 0:
        raise OutOfRange("code.vessel")
    return width_mm > math.pi * vessel_mm / _BENDS_PART * (1 + 1e-9)
