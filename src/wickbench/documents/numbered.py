"""Labels that differ in a running number: what stays is one shared form, numbers are drawn on it.

A label is laid out once, with the widest number of the run. Elements without the number become
forms; of a straight text that holds it each line keeps its place, size and alignment, and only its
glyphs are set anew for each sticker. Anything else with the number in it (a code, a curved text)
is laid out anew for each sticker.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache, partial
from itertools import pairwise
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import shift, turn
from wickbench.documents.joined_runs import joined, stand_alone
from wickbench.documents.label_draws import TextDraw
from wickbench.documents.label_layout import LaidOutLabel, draw_label
from wickbench.documents.text import shape
from wickbench.domain.capitals import in_capitals
from wickbench.domain.label_fields import NUMBER, fields_in, fill_in
from wickbench.domain.labels import TextElement

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.documents.surface import Surface
    from wickbench.documents.text import Run, Typeface
    from wickbench.domain.labels import AnyElement, LabelDesign

LayOut = Callable[["LabelDesign", Mapping[str, str]], LaidOutLabel]
"""Lays out a design with the values of its fields."""

_MARK: Final = "\ue000"  # private use: nobody types it, and if so the text is laid out anew
_FIGURES: Final = "0123456789"
_SHARES: Final = {"left": 0.0, "centre": 0.5, "right": 1.0}


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label goes.

    Attributes:
        x_mm: left edge of its top left corner's place.
        y_mm: top edge of it.
        turn_deg: turn about that corner, clockwise.
        bleed_mm: how far it may run over its edge there.
    """

    x_mm: float
    y_mm: float
    turn_deg: float = 0.0
    bleed_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class NumberLine:
    """A line with the number in it, at its place on the label.

    Attributes:
        pieces: what stands before, between and after the number.
        draw: the line with the widest number.
        share: which part of the width lies before the line's fixed point: 0, a half or 1.
        letter_spacing_em: extra space between letters.
        alone: whether figures and pieces stand each for themselves, so that nothing has to be
            shaped anew.
    """

    pieces: tuple[str, ...]
    draw: TextDraw
    share: float
    letter_spacing_em: float = 0.0
    alone: bool = False

    def paint(self, surface: Surface, number: str, spot: Spot) -> None:
        """Draw it with a number."""
        draw = self.draw
        run = self._run(number)
        back = self.share * (draw.run.width_mm(draw.size_pt) - run.width_mm(draw.size_pt))
        x, y = draw.x_mm + back, draw.y_mm
        if draw.turn_deg:
            angle = math.radians(draw.turn_deg)
            x, y = draw.x_mm + back * math.cos(angle), y + back * math.sin(angle)
        if spot.turn_deg:
            x, y = turn(spot.turn_deg).apply(x, y)
        at = (spot.x_mm + x, spot.y_mm + y)
        turned = draw.turn_deg + spot.turn_deg
        surface.glyphs(run, draw.size_pt, *at, colour=draw.colour, turn_deg=turned)

    def _run(self, number: str) -> Run:
        face, text = self.draw.run.face, number.join(self.pieces)
        if not self.alone:
            return shape(face, text, self.letter_spacing_em)
        figures = [shape(face, figure) for figure in number]
        runs = [shape(face, self.pieces[0])]
        for piece in self.pieces[1:]:
            runs += [*figures, shape(face, piece)]
        return joined(face, text, [run for run in runs if run.glyphs])


@dataclass(frozen=True, slots=True)
class Still:
    """Elements without the number, drawn as a form that all stickers share."""

    label: LaidOutLabel

    def paint(self, surface: Surface, _number: str, spot: Spot) -> None:
        """Refer to the form, made at the first sticker."""
        size = (self.label.width_mm, self.label.height_mm)
        key = f"{self.label.key}-{spot.bleed_mm:.3f}"
        draw = partial(draw_label, self.label)
        surface.form(key, *size, draw, margin_mm=spot.bleed_mm)
        surface.place(key, spot.x_mm, spot.y_mm, turn_deg=spot.turn_deg)


@dataclass(frozen=True, slots=True)
class Fresh:
    """An element that is laid out anew for each number."""

    lay_out: Callable[[str], LaidOutLabel]

    def paint(self, surface: Surface, number: str, spot: Spot) -> None:
        """Draw it where the label lies."""
        surface.push_transform(shift(spot.x_mm, spot.y_mm).after(turn(spot.turn_deg)))
        draw_label(self.lay_out(number), surface)
        surface.pop()


@dataclass(frozen=True, slots=True)
class NumberedLabel:
    """A label for a run of numbers.

    Attributes:
        label: with the widest number, for checks and for what it weighs on paper.
        layers: from back to front.
        first: number of the first sticker.
    """

    label: LaidOutLabel
    layers: tuple[Still | NumberLine | Fresh, ...]
    first: int

    def paint(self, surface: Surface, nth: int, spot: Spot) -> None:
        """Draw the label of the nth sticker, from 0."""
        number = str(self.first + nth)
        for layer in self.layers:
            layer.paint(surface, number, spot)


def is_numbered(design: LabelDesign) -> bool:
    """Whether a running number stands anywhere on the label."""
    return any(_varies(element) for element in design.elements)


def numbered_label(
    design: LabelDesign,
    values: Mapping[str, str],
    numbers: range,
    lay_out: LayOut,
) -> NumberedLabel:
    """Lay out a label for a run of numbers.

    Args:
        design: the label.
        values: of its fields but the number.
        numbers: first number to the one after the last; not empty.
        lay_out: lays out a label.
    """
    widest = _widest(numbers)
    label = lay_out(design, {**values, NUMBER: widest})
    layers: list[Still | NumberLine | Fresh] = []
    still: list[int] = []
    moving: list[AnyElement] = []
    for at, element in enumerate(design.elements):
        if _varies(element):
            layers += _stilled(label, still, len(layers))
            still = []
            layers += _moving(label, at, values, widest, lay_out)
            moving.append(element)
        elif not still and layers and not any(_touch(element, one) for one in moving):
            layers[0] = _joined(label, layers[0], at)
        else:
            still.append(at)
    layers += _stilled(label, still, len(layers))
    return NumberedLabel(label, tuple(layers), numbers.start)


def _varies(element: AnyElement) -> bool:
    text = getattr(element, "text", "")
    return NUMBER in fields_in(text) or NUMBER in getattr(element, "facts", ())


def _widest(numbers: range) -> str:
    """The number that takes the most room: most figures, and of these the fewest ones."""
    last = numbers[-1]
    long = range(max(numbers.start, 10 ** (len(str(last)) - 1)), last + 1)
    return str(min(long, key=lambda number: (str(number).count("1"), -number)))


def _stilled(label: LaidOutLabel, elements: Sequence[int], layer: int) -> list[Still]:
    """Elements as a layer; the one at the back carries the background."""
    if not elements and (layer or not label.design.background):
        return []
    draws = tuple(draw for at in elements for draw in label.draws_of(at))
    bent = label.bent and label.bent.only(label.parts[at] for at in elements)
    design = label.design if not layer else replace(label.design, background="")
    key = f"{label.key}-still-{layer}"
    return [Still(replace(label, design=design, draws=draws, key=key, bent=bent))]


def _joined(
    label: LaidOutLabel, layer: Still | NumberLine | Fresh, at: int
) -> Still | NumberLine | Fresh:
    """The layer at the back with one element more, which nothing that moves lies under."""
    assert isinstance(layer, Still)  # noqa: S101 - see numbered_label
    still = layer.label
    draws, bent = still.draws + label.draws_of(at), still.bent
    if bent is not None and label.bent is not None:
        bent = replace(bent, draws=bent.draws + label.bent.only([label.parts[at]]).draws)
    return Still(replace(still, draws=draws, bent=bent))


def _moving(
    label: LaidOutLabel, at: int, values: Mapping[str, str], widest: str, lay_out: LayOut
) -> list[NumberLine | Fresh]:
    """Lines of a straight text; what is not one is laid out anew each time."""
    element = label.design.elements[at]
    if isinstance(element, TextElement) and label.bent is None:
        lines = _number_lines(label, at, element, values, widest)
        if lines is not None:
            return list(lines)
    alone = replace(label.design, elements=(element,), background="")
    return [Fresh(lambda number: lay_out(alone, {**values, NUMBER: number}))]


def _number_lines(
    label: LaidOutLabel,
    at: int,
    element: TextElement,
    values: Mapping[str, str],
    widest: str,
) -> list[NumberLine] | None:
    """The lines of a text as pieces round the number; None when they cannot be told apart."""
    marked = fill_in(element.text, {**values, NUMBER: _MARK}).text
    draws = label.draws_of(at)
    lines: list[NumberLine] = []
    rest = in_capitals(marked) if element.upper else marked
    for draw in draws:
        if not isinstance(draw, TextDraw):
            return None
        taken = _taken(rest, draw.run.text, widest)
        if taken is None:
            return None
        pieces, rest = taken
        share = _SHARES[element.align]
        spacing = element.letter_spacing_em
        alone = not spacing and _stand_alone(draw.run.face, pieces)
        lines.append(NumberLine(pieces, draw, share, spacing, alone))
    return lines if not rest.strip() else None


def _stand_alone(face: Typeface, pieces: tuple[str, ...]) -> bool:
    """Whether no figure touches another one, or the words beside it, by kerning or ligature."""
    return _figures_alone(face) and all(
        stand_alone(face, (before, *figure, after))
        for before, after in pairwise(pieces)
        for figure in (*_FIGURES, _FIGURES)
    )


@lru_cache(64)
def _figures_alone(face: Typeface) -> bool:
    pairs = (one + other for one in _FIGURES for other in _FIGURES)
    return all(stand_alone(face, tuple(pair)) for pair in pairs)


def _taken(rest: str, line: str, widest: str) -> tuple[tuple[str, ...], str] | None:
    """Pieces of a line at the beginning of the text, and the text after it."""
    rest = rest.lstrip()
    end, said = 0, ""
    while end < len(rest) and len(said) < len(line):
        said += widest if rest[end] == _MARK else rest[end]
        end += 1
    return (tuple(rest[:end].split(_MARK)), rest[end:]) if said == line else None


def _touch(one: AnyElement, other: AnyElement) -> bool:
    """Whether two elements may overlap, turned or not."""
    gaps = [
        abs((one.x_mm + one.w_mm / 2) - (other.x_mm + other.w_mm / 2)),
        abs((one.y_mm + one.h_mm / 2) - (other.y_mm + other.h_mm / 2)),
    ]
    if one.turn_deg % 180 or other.turn_deg % 180:
        reach = math.hypot(one.w_mm, one.h_mm) + math.hypot(other.w_mm, other.h_mm)
        return math.hypot(*gaps) < reach / 2
    return gaps[0] < (one.w_mm + other.w_mm) / 2 and gaps[1] < (one.h_mm + other.h_mm) / 2
