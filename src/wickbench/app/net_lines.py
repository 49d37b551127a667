"""Where the net weight stands on a laid-out label: its lines, the ink of them and round them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import turn
from wickbench.documents.ink import corners_of
from wickbench.documents.label_draws import (
    AnyDraw,
    CurvedDraw,
    LaidOutText,
    PathDraw,
    TextDraw,
)
from wickbench.documents.text import shape
from wickbench.domain.capitals import has_small_letters
from wickbench.domain.label_fields import fields_in
from wickbench.domain.labels import FactsElement, FrameElement, LineElement, TextElement
from wickbench.domain.net_statement import NetStatement, statements_in

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from wickbench.documents.label_layout import LaidOutLabel
    from wickbench.domain.labels import AnyElement

_NET_FIELDS: Final = frozenset({"net_weight", "net_weight_first", "net_weight_second"})
_SLACK_MM: Final = 0.01


@dataclass(frozen=True, slots=True)
class Ink:
    """A box that ink fills, mm from the label's top left corner."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Ink) -> bool:
        """Whether the two share more than an edge."""
        return (
            self.left < other.right - _SLACK_MM
            and other.left < self.right - _SLACK_MM
            and self.top < other.bottom - _SLACK_MM
            and other.top < self.bottom - _SLACK_MM
        )

    def holds(self, other: Ink) -> bool:
        """Whether the other lies within this one."""
        return (
            self.left <= other.left + _SLACK_MM
            and self.top <= other.top + _SLACK_MM
            and self.right >= other.right - _SLACK_MM
            and self.bottom >= other.bottom - _SLACK_MM
        )

    def grown(self, across: float, down: float) -> Ink:
        """The box, larger on every side."""
        return Ink(self.left - across, self.top - down, self.right + across, self.bottom + down)


@dataclass(frozen=True, slots=True)
class NetLine:
    """A weight as it stands on the label.

    Attributes:
        at: place of its element in the design.
        said: what it says.
        text: what came of the element.
        from_field: filled in by the program, not typed by hand.
        draws: the lines that it stands in.
        alone: nothing else stands in these lines.
    """

    at: int
    said: NetStatement
    text: LaidOutText
    from_field: bool
    draws: tuple[TextDraw, ...]
    alone: bool

    @property
    def ink(self) -> Ink | None:
        """Box of its lines; ``None`` when nothing is drawn."""
        return around(self.draws)

    def figures_mm(self) -> float:
        """Height of the lowest of its figures, from the typeface's real glyphs."""
        boxes = [_ink(draw, sign) for draw, sign in self._signs() if sign.isdecimal()]
        return min((top - bottom for _, bottom, _, top in boxes), default=0.0)

    def letters_mm(self) -> float:
        """What rules measure of its letters: an "o", or a capital where there are only such.

        16 CFR 500.21(b): upper case letters count where there are only such; with lower case, the
        lower-case "o". SI symbols such as "g" after a figure are no words.
        """
        mixed = has_small_letters(self.said.text)
        return self.text.o_height_mm if mixed else self.text.cap_height_mm

    def narrowest(self) -> float:
        """Height over width of the letter or figure that is most narrow, without I and 1."""
        ratios = [
            (top - bottom) / (right - left)
            for draw, sign in self._signs()
            if (sign.isdecimal() and sign != "1") or (sign.isupper() and sign != "I")
            for left, bottom, right, top in [
                shape(draw.run.face, sign).ink_mm(draw.size_pt) or (0, 0, 1, 0)
            ]
        ]
        return max(ratios, default=0.0)

    def n_width_mm(self) -> float:
        """Width of the capital N in its type, as free space beside it is measured."""
        left, _, right, _ = _ink(self.draws[0], "N")
        return right - left

    def _signs(self) -> Iterable[tuple[TextDraw, str]]:
        return ((draw, sign) for draw in self.draws for sign in dict.fromkeys(draw.run.text))


def net_lines(laid: LaidOutLabel, net_weight: str) -> tuple[NetLine, ...]:
    """Every weight on a label, from back to front.

    Args:
        laid: the label.
        net_weight: what its field is filled with; empty when not declared.
    """
    return tuple(
        _line(laid, text, said, _solid(net_weight))
        for text in laid.texts
        for said in statements_in(text.text)
    )


def declaration(lines: Sequence[NetLine]) -> NetLine | None:
    """The one that declares the net weight: filled in by the program, else with the word "net"."""
    filled = [one for one in lines if one.from_field]
    worded = [one for one in lines if one.said.says_net]
    return next(iter([*(one for one in filled if one.draws), *worded]), None)


def around(draws: Iterable[AnyDraw]) -> Ink | None:
    """Box of the ink of several draws; ``None`` when there is none."""
    points = [point for draw in draws for point in _points(draw)]
    if not points:
        return None
    xs, ys = zip(*points, strict=True)
    return Ink(min(xs), min(ys), max(xs), max(ys))


def printed_beside(laid: LaidOutLabel, line: NetLine) -> list[Ink]:
    """Ink of all other information: texts line by line, codes, pictures and drawings.

    Frames, rules and pictures that lie behind the whole line are its ground, and no information.
    """
    own = line.ink
    every = ink_beside(laid, line.at, line.draws) if own is not None else []
    return [box for box, drawn in every if own is None or not (drawn and box.holds(own))]


def ink_beside(laid: LaidOutLabel, at: int, own: Sequence[TextDraw]) -> list[tuple[Ink, bool]]:
    """Ink of everything but frames, rules and these draws of one element.

    Args:
        laid: the label.
        at: place of the element.
        own: those of its draws that do not count.

    Returns:
        boxes, and whether each is drawn rather than written: that can be a ground for text.
    """
    boxes: list[tuple[Ink | None, bool]] = []
    for place, element in enumerate(laid.design.elements):
        draws = laid.draws_of(place)
        if isinstance(element, TextElement | FactsElement):
            mine = own if place == at else ()
            others = (one for one in _runs(draws) if not any(one is other for other in mine))
            boxes += [(around([one]), False) for one in others]
        elif not isinstance(element, FrameElement | LineElement):
            boxes.append((around(draws), True))
    return [(box, drawn) for box, drawn in boxes if box is not None]


def lies_on(ink: Ink, others: Iterable[tuple[Ink, bool]]) -> bool:
    """Whether ink lies on any other but its ground."""
    return any(ink.meets(other) and not (drawn and other.holds(ink)) for other, drawn in others)


def covers_something(laid: LaidOutLabel, at: int) -> bool:
    """Whether an element's letters lie over any other ink but their ground."""
    own = _runs(laid.draws_of(at))
    others = ink_beside(laid, at, own)
    return any(lies_on(ink, others) for one in own if (ink := around([one])) is not None)


def _line(laid: LaidOutLabel, text: LaidOutText, said: NetStatement, net_weight: str) -> NetLine:
    elements = laid.design.elements
    element = elements[text.element] if text.element < len(elements) else None
    draws = _runs(laid.draws_of(text.element))
    mine, alone = _lines_of(text.text, said, draws)
    return NetLine(text.element, said, text, _is_filled(element, said, net_weight), mine, alone)


def _is_filled(element: AnyElement | None, said: NetStatement, net_weight: str) -> bool:
    if isinstance(element, FactsElement):
        return "net_weight" in element.facts
    if not isinstance(element, TextElement) or _NET_FIELDS.isdisjoint(fields_in(element.text)):
        return False
    words = _solid(said.text)
    return bool(net_weight) and (words in net_weight or net_weight in words)


def _lines_of(
    text: str, said: NetStatement, draws: Sequence[TextDraw]
) -> tuple[tuple[TextDraw, ...], bool]:
    """The draws that a statement stands in, and whether they hold nothing else.

    Compared without blanks, for a line may break at any of them, and letters on a curve are drawn
    one by one.
    """
    whole = "".join(_solid(one.run.text) for one in draws)
    wanted = _solid(said.text)
    start = len(_solid(text[: said.start]))
    if whole[start : start + len(wanted)] != wanted:
        start = whole.find(wanted)
    if start < 0 or not wanted:
        return (), False
    end, at, found = start + len(wanted), 0, []
    covered = 0
    for draw in draws:
        long = len(_solid(draw.run.text))
        if at < end and at + long > start:
            found.append(draw)
            covered += long
        at += long
    return tuple(found), covered == len(wanted)


def _solid(text: str) -> str:
    return "".join(text.split()).casefold()


def _ink(draw: TextDraw, sign: str) -> tuple[float, float, float, float]:
    """Left, bottom, right and top of one sign at the size of a draw; nothing for a blank."""
    return shape(draw.run.face, sign).ink_mm(draw.size_pt) or (0.0, 0.0, 0.0, 0.0)


def _points(draw: AnyDraw) -> list[tuple[float, float]]:
    if isinstance(draw, TextDraw | CurvedDraw):
        return list(corners_of(draw))
    if isinstance(draw, PathDraw):
        numbers = [[part for part in step if not isinstance(part, str)] for step in draw.path]
        return [(row[at], row[at + 1]) for row in numbers for at in range(0, len(row) - 1, 2)]
    turned = turn(draw.turn_deg, draw.x_mm, draw.y_mm)
    right, bottom = draw.x_mm + draw.w_mm, draw.y_mm + draw.h_mm
    return [turned.apply(x, y) for x in (draw.x_mm, right) for y in (draw.y_mm, bottom)]


def _runs(draws: Iterable[AnyDraw]) -> list[TextDraw]:
    """Runs of text; letters on a curve one by one."""
    return [
        one
        for draw in draws
        for one in (draw.letters if isinstance(draw, CurvedDraw) else (draw,))
        if isinstance(one, TextDraw)
    ]
