"""Lot codes of pots: made from a pattern such as ``{yy}-{ddd}-{letter}{pot}`` → ``26-332-A1``."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Collection, Sequence

USUAL_PATTERN = "{yy}-{ddd}-{letter}{pot}"
LONGEST_CODE = 24

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""Without I and O, which are read as 1 and 0 on a small sticker."""

_PLACES = {
    "yy": "%y",
    "yyyy": "%Y",
    "mm": "%m",
    "dd": "%d",
    "ddd": "%j",
}
_KNOWN = (*_PLACES, "letter", "pot")
_PLAIN = re.compile(r"[A-Za-z0-9 ./_-]*")
_FIELD = re.compile(r"\{([^{}]*)\}")
_MOST_LETTERS = 10_000


def check_pattern(pattern: str) -> None:
    """Refuse a pattern under which two pots could get the same code.

    Raises:
        OutOfRange: ``lot.unknown-place`` for an unknown word in braces, ``lot.character`` for a
            character that is neither letter, digit, space nor one of ``- . / _``,
            ``lot.no-day``, ``lot.no-letter`` or ``lot.no-pot`` when that part is missing so that
            codes would repeat, ``lot.run-together`` when letters of the pattern stand beside
            the recipe's letter or digits beside the pot's number so that two codes could read
            the same.
    """
    fields = _FIELD.findall(pattern)
    for name in fields:
        if name not in _KNOWN:
            raise OutOfRange("lot.unknown-place", name=name, known=", ".join(_KNOWN))
    plain = _FIELD.sub("", pattern)
    if not _PLAIN.fullmatch(plain):
        raise OutOfRange("lot.character", pattern=pattern)
    has_year = {"yy", "yyyy"} & set(fields)
    if not has_year or not ("ddd" in fields or {"mm", "dd"} <= set(fields)):
        raise OutOfRange("lot.no-day", pattern=pattern)
    for name in ("letter", "pot"):
        if name not in fields:
            raise OutOfRange(f"lot.no-{name}", pattern=pattern)
    if re.search(r"[A-Za-z]\{letter\}|\{letter\}[A-Za-z]", pattern):
        raise OutOfRange("lot.run-together", pattern=pattern)
    _check_length(pattern)


def _check_length(pattern: str) -> None:
    longest = _FIELD.sub(lambda field: "0" * max(2, min(4, len(field[1]))), pattern)
    if len(longest) > LONGEST_CODE:
        raise OutOfRange("lot.too-long", most=LONGEST_CODE)


def recipe_letter(index: int) -> str:
    """A, B, … Z without I and O, then AA, AB and so on; ``index`` counts from 0.

    Raises:
        OutOfRange: a negative index.
    """
    if index < 0:
        raise OutOfRange("lot.index", index=index)
    letters = ""
    number = index + 1
    while number:
        number, place = divmod(number - 1, len(_LETTERS))
        letters = _LETTERS[place] + letters
    return letters


def lot_code(pattern: str, day: dt.date, recipe_index: int, pot_number: int) -> str:
    """The code of one pot.

    Args:
        pattern: words in braces: yy, yyyy, mm, dd, ddd (day of the year), letter, pot.
        day: the local day of the pour.
        recipe_index: which recipe of that day, from 0.
        pot_number: which pot of that recipe, from 1.

    Raises:
        OutOfRange: a pattern that repeats (see ``check_pattern``), or a number out of place.
    """
    check_pattern(pattern)
    if pot_number < 1:
        raise OutOfRange("lot.index", index=pot_number)
    words = {name: day.strftime(form) for name, form in _PLACES.items()}
    words |= {
        "yyyy": f"{day.year:04}",
        "letter": recipe_letter(recipe_index),
        "pot": str(pot_number),
    }
    return _FIELD.sub(lambda field: words[field[1]], pattern)


def lot_codes(
    pattern: str,
    day: dt.date,
    pots: Sequence[tuple[int, int]],
    taken: Collection[str] = (),
) -> tuple[str, ...]:
    """Codes of all pots of a pour, none of them used before.

    Args:
        pattern: as in ``lot_code``.
        day: the local day of the pour.
        pots: (recipe index from 0, pot number from 1) of each pot.
        taken: codes that exist; a second pour on one day goes on with the next free letters.

    Raises:
        OutOfRange: as ``lot_code``; two pots that are the same.
    """
    if len(set(pots)) != len(pots):
        raise OutOfRange("lot.same-pot")
    used = set(taken)
    for shift in range(_MOST_LETTERS):
        codes = tuple(lot_code(pattern, day, index + shift, number) for index, number in pots)
        if not used & set(codes):
            return codes
    raise OutOfRange("lot.none-left")
