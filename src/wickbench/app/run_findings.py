"""The findings of a print run: each once, with what it is about, empty fields by their place."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from wickbench.domain.findings import Finding, Rank, sort_findings

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.print_runs import RunLine
    from wickbench.domain.catalog import Candle

_EMPTY: Final = "label.field-empty"
_PLACE_OF_FIELD: Final = {
    **dict.fromkeys(("lot", "poured_on"), "print.lot-empty"),
    **dict.fromkeys(
        ("business", "business_address", "phone", "email", "web"), "print.business-empty"
    ),
}
"""Key of the finding for a field that the candle does not bring."""


def of_line(line: RunLine, candle: Candle | None, findings: Sequence[Finding]) -> list[Finding]:
    """The findings with what they are about: the line, and its candle where nothing else is."""
    place: tuple[object, ...] = ("candle", candle.id) if candle is not None else ()
    return [replace(one, about=("line", line.id, *(one.about or place))) for one in findings]


def once(findings: Sequence[Finding]) -> tuple[Finding, ...]:
    """Each sentence once, worst first, about the first it was told of; empty fields in one."""
    kept: dict[object, Finding] = {}
    told = [one for one in findings if one.key != _EMPTY]
    for one in (*told, *_empty_fields([one for one in findings if one.key == _EMPTY])):
        key = (one.key, tuple(sorted((name, str(value)) for name, value in one.data.items())))
        kept.setdefault(key, one)
    return sort_findings(list(kept.values()))


def _empty_fields(empty: Sequence[Finding]) -> list[Finding]:
    """Fields without a value, told in one for each place where they are filled in."""
    by_place: dict[str, list[Finding]] = {}
    for one in empty:
        name = str(one.data["field"]).strip("{}").replace(" ", "_")
        by_place.setdefault(_PLACE_OF_FIELD.get(name, "print.fields-empty"), []).append(one)
    return [_in_one(key, told) for key, told in by_place.items()]


def _in_one(key: str, told: Sequence[Finding]) -> Finding:
    fields = tuple(dict.fromkeys(str(one.data["field"]) for one in told))
    return Finding(Rank.WATCH, key, {"fields": fields}, told[0].about)
