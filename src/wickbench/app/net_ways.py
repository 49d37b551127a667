"""What could be changed to mend the net weight: larger, capitals, two lines, a wider box, moved."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_rules import REQUIRED
from wickbench.app.net_moves import inked, levelled, moved
from wickbench.app.net_way import Way
from wickbench.app.required_heights import least_mm
from wickbench.app.standards import net_rules
from wickbench.app.text_ways import WANTED, added_texts
from wickbench.app.texts_marker import N_
from wickbench.domain.label_panel import front_part
from wickbench.domain.labels import AnyElement, FactsElement, TextElement
from wickbench.domain.net_statement import statements_in

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.label_check import LabelCheck
    from wickbench.app.net_lines import NetLine
    from wickbench.domain.findings import Finding

WHOLE: Final = "{net weight}"
TWO_LINES: Final = "{net weight first}\n{net weight second}"
_SMALLEST_PT: Final = 6.0
_LINES_OF_A_BOX: Final = 1.6
_LOW: Final = 0.3

CAPITALS, LINES, WIDER, LARGER = "capitals", "lines", "wider", "larger"
_MIXES: Final[tuple[tuple[frozenset[str], str], ...]] = (
    (frozenset({LARGER}), N_("Make it larger: {size} pt")),
    (frozenset({CAPITALS}), N_("Set it in capitals: {size} pt")),
    (frozenset({LINES}), N_("Set it on two lines: {size} pt")),
    (frozenset({WIDER}), N_("Give it all the width: {size} pt")),
    (frozenset({CAPITALS, LINES}), N_("Set it in capitals on two lines: {size} pt")),
    (frozenset({CAPITALS, WIDER}), N_("Set it in capitals over all the width: {size} pt")),
    (frozenset({LINES, WIDER}), N_("Set it on two lines over all the width: {size} pt")),
    (
        frozenset({CAPITALS, LINES, WIDER}),
        N_("Set it in capitals on two lines over all the width: {size} pt"),
    ),
)


def ways_of(check: LabelCheck, finding: Finding) -> Iterator[Way]:
    """Every way worth trying for a finding, the simplest first."""
    key = finding.key.removeprefix(REQUIRED)
    line = check.declared
    if key in WANTED:
        yield from added_texts(check, key)
    elif key == "net-missing":
        yield from _added(check)
    elif line is None:
        return
    elif key.startswith("figures-small") or key == "label.text-too-long":
        yield from _larger(check, line)
    elif key in {"net-crowded", "net-high", "net-not-in-front"}:
        yield from moved(check, line, key)
    elif key == "net-turned":
        yield from levelled(check, line)
    elif key == "net-pale":
        yield from inked(check, line)
    else:
        yield from _filled_in(check, finding)


def _larger(check: LabelCheck, line: NetLine) -> Iterator[Way]:
    element = check.laid.design.elements[line.at]
    for parts, words in _MIXES:
        changed = _mixed(check, element, parts)
        if changed is not None:
            key = "+".join(sorted(parts))
            yield Way(key=key, words=words, parts=parts, at=line.at, element=changed, sized=True)


def _mixed(check: LabelCheck, element: AnyElement, parts: frozenset[str]) -> AnyElement | None:
    """The element with some simple changes; ``None`` where one of them changes nothing."""
    if isinstance(element, FactsElement):
        if parts == {LARGER}:
            return element
        return _widened(check, element) if parts == {WIDER} else None
    if not isinstance(element, TextElement):
        return None
    changes: dict[str, Any] = {}
    if CAPITALS in parts:
        changes["upper"] = True
    if LINES in parts:
        changes["text"] = element.text.replace(WHOLE, TWO_LINES)
    unchanged = any(getattr(element, name) == value for name, value in changes.items())
    if unchanged or (LINES in parts and (element.curve or not _two_systems(check))):
        return None
    changed: AnyElement = replace(element, **changes)
    if WIDER in parts:
        return None if element.curve or element.turn_deg else _widened(check, changed)
    return changed


def _two_systems(check: LabelCheck) -> bool:
    return bool(check.values.get("net_weight_second"))


def _widened(check: LabelCheck, element: AnyElement) -> AnyElement | None:
    """The box from one safe edge to the other, and down to the safe edge when it lies lowest."""
    design = check.laid.design
    left, right = _edges(check)
    bottom = design.height_mm - design.safe_mm
    lowest = all(
        other.y_mm + other.h_mm <= element.y_mm + element.h_mm + 1e-6
        for other in design.elements
        if isinstance(other, TextElement | FactsElement)
    )
    high = max(element.h_mm, bottom - element.y_mm) if lowest else element.h_mm
    if element.x_mm <= left and element.x_mm + element.w_mm >= right and high <= element.h_mm:
        return None
    return replace(element, x_mm=left, w_mm=max(0.0, right - left), h_mm=high)


def _edges(check: LabelCheck) -> tuple[float, float]:
    """Left and right end of what a line may fill: the safe zone, on a wrap the front of it."""
    design = check.laid.design
    left, right = design.safe_mm, design.width_mm - design.overlap_mm - design.safe_mm
    if check.around_mm is None:
        return left, right
    front = front_part(design, check.around_mm, net_rules().panel_share)
    return max(left, front[0]), min(right, front[1])


def _added(check: LabelCheck) -> Iterator[Way]:
    """A new text in capitals, low on the label."""
    design = check.laid.design
    least = [mm for one in check.regions if (mm := least_mm(check, one)) is not None]
    high = max([*least, 2.0]) * _LINES_OF_A_BOX
    size_pt = max(_SMALLEST_PT, math.ceil(max([*least, 2.0]) / 0.225 * 4) / 4)
    left, right = _edges(check)
    for up in range(int(design.height_mm * _LOW)):
        yield Way(
            key="add",
            words=N_("Add it at the bottom"),
            parts=frozenset({"add"}),
            at=None,
            element=TextElement(
                x_mm=left,
                y_mm=max(0.0, design.height_mm - design.safe_mm - high - up),
                w_mm=max(0.0, right - left),
                h_mm=high,
                text=WHOLE,
                size_pt=size_pt,
                min_size_pt=size_pt,
                upper=True,
            ),
        )


def _filled_in(check: LabelCheck, finding: Finding) -> Iterator[Way]:
    """The program fills in what was typed by hand."""
    at = finding.about[1] if finding.about[:1] == ("element",) else None
    element = check.laid.design.elements[at] if isinstance(at, int) else None
    if not isinstance(at, int) or not isinstance(element, TextElement):
        return
    typed = next(
        (one for one in statements_in(element.text) if one.text.casefold() == _said(finding)), None
    )
    if typed is None:
        return
    start = element.text.index(typed.text)
    text = element.text[:start] + WHOLE + element.text[start + len(typed.text) :]
    yield Way(
        key="fill",
        words=N_("Let the program fill it in"),
        parts=frozenset({"fill"}),
        at=at,
        element=replace(element, text=text),
        whatever=True,
    )


def _said(finding: Finding) -> str:
    return str(finding.data.get("text", "")).casefold()
