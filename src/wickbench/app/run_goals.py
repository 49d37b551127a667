"""Where a finding of a print run, or of the labels of a pour, is mended: which page, what there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.print_run_view import RunView
    from wickbench.app.print_runs import RunLine
    from wickbench.app.shelf import Shelf
    from wickbench.domain.findings import Finding

    Goal = tuple[str, object]

ELEMENT: Final = "labels/element"
"""A label, and one of its elements by number or ``None``: the record is the pair of both."""
LINES: Final = "labels/lines"
"""The run's table; the record is the line or ``None``."""
SHEET: Final = "labels/sheet"
"""The measures of the run's sticker sheet."""
RUN: Final = "labels/run"
"""Another print run; the record is its key."""

_BY_KEY: Final[Mapping[str, str]] = {
    "print.no-candle": LINES,
    "print.lot-empty": LINES,
    "print.business-empty": "business",
    "required.business-empty": "business",
    "required.hazard-label-not-made": "settings/region",
}
_OF_CANDLE: Final[Mapping[str, tuple[str, str]]] = {
    "print.fields-empty": ("candles", "id"),
    "required.panel-unknown": ("vessels", "vessel_id"),
    "required.identity-unknown": ("candles", "id"),
    "required.caution-missing": ("candles/caution_label_id", "id"),
    "print.net-weight-not-declared": ("candles/declared_net_g", "id"),
}
"""Page, and which of the candle's keys is the record there; the line while it has no candle."""
_ONLY_TOLD: Final = frozenset(("sheet.partly-used", "sheet.actual-size"))
_PAGES: Final[Mapping[str, str]] = {
    "candle": "candles",
    "vessel": "vessels",
    "plan": "pour_plan",
    "bench": "bench",
    "business": "business",
    "settings": "settings",
    "run": RUN,
}


def run_goal(finding: Finding, view: RunView, shelf: Shelf) -> Goal | None:
    """Place and record where a finding of a print run is mended; ``None`` for nowhere.

    Args:
        finding: with what it is about: an entry or a line of the run, and what of it.
        view: the placed run.
        shelf: the snapshot.
    """
    line, about = _line_of(finding, view)
    candle = shelf.candles.get(line.candle_id or 0) if line is not None else None
    if finding.key in _ONLY_TOLD:
        return None
    if finding.key in _BY_KEY:
        where = _BY_KEY[finding.key]
        return (where, line.id if line is not None and where == LINES else None)
    if line is not None and finding.key in _OF_CANDLE:
        where, name = _OF_CANDLE[finding.key]
        return (where, getattr(candle, name)) if candle is not None else (LINES, line.id)
    if about and about[0] in _PAGES:
        return _page(about)
    return _of_label(finding, line, about)


def _of_label(finding: Finding, line: RunLine | None, about: tuple[object, ...]) -> Goal | None:
    """An element of the line's label, the whole of it, or the sheet when it is about no line."""
    if line is not None:
        element = about[1] if about[:1] == ("element",) else None
        return (ELEMENT, (line.label_id, element))
    return (SHEET, None) if finding.key.startswith("sheet.") else None


def pour_goal(finding: Finding) -> Goal | None:
    """Place and record where a finding about the labels of a pour is mended."""
    about = finding.about
    if about[:1] == ("label",):
        return (ELEMENT, (about[1], None))
    if about[:1] == ("lot",):
        return ("settings/work", None)
    if about[:1] == ("candle",) and len(about) > 2:  # noqa: PLR2004 - its key and a field
        return (f"candles/{about[2]}", about[1])
    return _page(about) if about and about[0] in _PAGES else None


def _page(about: tuple[object, ...]) -> Goal:
    record = about[1] if len(about) > 1 and isinstance(about[1], int) else None
    return (_PAGES[str(about[0])], record)


def _line_of(finding: Finding, view: RunView) -> tuple[RunLine | None, tuple[object, ...]]:
    """The run's line that a finding is about, and what of it."""
    kind, *rest = finding.about or ("",)
    if kind == "entry" and rest and isinstance(rest[0], int) and rest[0] < len(view.lines):
        return view.lines[rest[0]], tuple(rest[1:])
    if kind == "line" and rest:
        found = next((one for one in view.run.lines if one.id == rest[0]), None)
        return found, tuple(rest[1:])
    return None, finding.about
