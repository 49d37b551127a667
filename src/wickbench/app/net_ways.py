"""What could be changed to mend the net weight: larger, capitals, two lines, a wider box, moved."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any, Final

from wickbench.app.label_rules import REQUIRED, rule_of
from wickbench.app.net_lines import printed_beside
from wickbench.app.required_heights import height_mm, least_mm
from wickbench.app.standards import net_rules
from wickbench.app.texts_marker import N_
from wickbench.domain.label_panel import front_part, lowest_share_mm
from wickbench.domain.labels import AnyElement, FactsElement, TextElement
from wickbench.domain.net_statement import statements_in

if TYPE_CHECKING:
    from wickbench.app.label_check import LabelCheck
    from wickbench.app.net_lines import Ink, NetLine
    from wickbench.domain.findings import Finding

WHOLE: Final = "{net weight}"
TWO_LINES: Final = "{net weight first}\n{net weight second}"
_STEP_PT: Final = 0.25
_STEPS_ABOVE: Final = 2
_MOVE_MM: Final = 0.5
_FARTHEST_MM: Final = 12.0
_SMALLEST_PT: Final = 6.0
_INK: Final = "#000000"
_WHITE: Final = "#ffffff"
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One change of one element, before it is tried.

    Attributes:
        key: tells it from the others.
        words: msgid of what it does.
        data: for the words.
        parts: the simple changes that it is made of.
        at: place of the element; ``None`` for a new one.
        element: as it would stand.
        sized: the type size follows from the height asked for.
        whatever: offered though something else becomes to be mended by it: the right figure may
            need more room than the wrong one.
    """

    key: str
    words: str
    data: Mapping[str, object] = field(default_factory=dict)
    parts: frozenset[str]
    at: int | None
    element: AnyElement
    sized: bool = False
    whatever: bool = False

    def sizes(self, check: LabelCheck) -> tuple[float, ...]:
        """Type sizes to try, the smallest first; 0 where the size stays."""
        if not self.sized:
            return (0.0,)
        capitals = isinstance(self.element, TextElement) and self.element.upper
        least = needed_pt(check, capitals=capitals) or self._least_pt()
        return tuple(least + step * _STEP_PT for step in range(_STEPS_ABOVE)) if least else ()

    def _least_pt(self) -> float:
        """The smallest size that the element may come to, where no rule asks for a height."""
        if isinstance(self.element, TextElement | FactsElement):
            return self.element.min_size_pt
        return 0.0

    def at_size(self, size_pt: float) -> Way:
        """The same at a type size below which it does not shrink; 0 leaves the size."""
        if not size_pt or not isinstance(self.element, TextElement | FactsElement):
            return self
        wanted = max(size_pt, self.element.size_pt)
        sized = replace(self.element, size_pt=wanted, min_size_pt=size_pt)
        return replace(self, element=sized)


def ways_of(check: LabelCheck, finding: Finding) -> Iterator[Way]:
    """Every way worth trying for a finding, the simplest first."""
    key = finding.key.removeprefix(REQUIRED)
    line = check.declared
    if key == "net-missing":
        yield from _added(check)
    elif line is None:
        return
    elif key.startswith("figures-small") or key == "label.text-too-long":
        yield from _larger(check, line)
    elif key in {"net-crowded", "net-high", "net-not-in-front"}:
        yield from _moved(check, line, key)
    elif key == "net-turned":
        yield from _levelled(check, line)
    elif key == "net-pale":
        yield from _inked(check, line)
    else:
        yield from _filled_in(check, finding)


def needed_pt(check: LabelCheck, *, capitals: bool) -> float | None:
    """Type size at which the declaration is as high as every region asks for, in quarter points."""
    line = check.declared
    least = [mm for one in check.regions if (mm := least_mm(check, one)) is not None]
    if line is None or not line.draws or not least:
        return None
    size_pt = line.draws[0].size_pt
    letters = line.text.cap_height_mm if capitals else line.letters_mm()
    needed = 0.0
    for region in check.regions:
        asked = least_mm(check, region)
        if asked is not None:
            high = min(line.figures_mm(), letters) if region == "US" else height_mm(line, region)
            needed = max(needed, asked / (high / size_pt)) if high > 0 else needed
    return math.ceil(needed / _STEP_PT - 1e-9) * _STEP_PT or None


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


def _moved(check: LabelCheck, line: NetLine, key: str) -> Iterator[Way]:
    ink = line.ink
    element = check.laid.design.elements[line.at]
    if ink is None:
        return
    for across, down in _shifts(check, line, ink, key):
        moved = replace(element, x_mm=element.x_mm + across, y_mm=element.y_mm + down)
        yield Way(
            key="move",
            words=_move_words(across, down),
            data={"by_mm": abs(across or down)},
            parts=frozenset({"move"}),
            at=line.at,
            element=moved,
        )


def _move_words(across: float, down: float) -> str:
    if across:
        return N_("Move it to the middle")
    return N_("Move it down by {by_mm}") if down > 0 else N_("Move it up by {by_mm}")


def _shifts(check: LabelCheck, line: NetLine, ink: Ink, key: str) -> Iterator[tuple[float, float]]:
    """How far it could be moved, the shortest way first, where nothing else is met."""
    design = check.laid.design
    if key == "net-not-in-front":
        yield (design.width_mm - design.overlap_mm) / 2 - (ink.left + ink.right) / 2, 0.0
        return
    rule = rule_of("net-low", "US")
    low_mm = lowest_share_mm(design, rule.numbers["share"]) if rule is not None else 0.0
    others = printed_beside(check.laid, line)
    bottom = design.height_mm - design.safe_mm
    for step in range(1, int(_FARTHEST_MM / _MOVE_MM) + 1):
        for down in (step * _MOVE_MM, -step * _MOVE_MM):
            top = ink.top + down
            there = replace(ink, top=top, bottom=ink.bottom + down)
            inside = low_mm <= top + 1e-6 and there.bottom <= bottom
            if inside and not any(there.meets(other) for other in others):
                yield 0.0, down


def _levelled(check: LabelCheck, line: NetLine) -> Iterator[Way]:
    element = check.laid.design.elements[line.at]
    changes: dict[str, Any] = {"turn_deg": 0.0}
    if isinstance(element, TextElement):
        changes["curve"] = ""
    yield Way(
        key="level",
        words=N_("Set it level"),
        parts=frozenset({"level"}),
        at=line.at,
        element=replace(element, **changes),
    )


def _inked(check: LabelCheck, line: NetLine) -> Iterator[Way]:
    element = check.laid.design.elements[line.at]
    if not isinstance(element, TextElement | FactsElement):
        return
    for colour, words in ((_INK, N_("Print it in black")), (_WHITE, N_("Print it in white"))):
        yield Way(
            key=colour,
            words=words,
            parts=frozenset({colour}),
            at=line.at,
            element=replace(element, colour=colour),
        )
