"""One change that could mend the net weight, and the type size that follows from what is asked."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Final

from wickbench.app.required_heights import height_mm, least_mm
from wickbench.domain.labels import AnyElement, FactsElement, TextElement

if TYPE_CHECKING:
    from wickbench.app.label_check import LabelCheck

_STEP_PT: Final = 0.25
_STEPS_ABOVE: Final = 2


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

    def sizes(self, check: LabelCheck, regions: Sequence[str]) -> tuple[float, ...]:
        """Type sizes to try for these regions, the smallest first; 0 where the size stays."""
        if not self.sized:
            return (0.0,)
        capitals = isinstance(self.element, TextElement) and self.element.upper
        least = needed_pt(check, regions, capitals=capitals) or self._least_pt()
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


def needed_pt(check: LabelCheck, regions: Sequence[str], *, capitals: bool) -> float | None:
    """Type size at which the declaration is as high as these regions ask for, in quarter points."""
    line = check.declared
    if line is None or not line.draws:
        return None
    size_pt = line.draws[0].size_pt
    letters = line.text.cap_height_mm if capitals else line.letters_mm()
    needed = 0.0
    for region in regions:
        asked = least_mm(check, region)
        high = min(line.figures_mm(), letters) if region == "US" else height_mm(line, region)
        if asked is not None and high > 0:
            needed = max(needed, asked / (high / size_pt))
    return math.ceil(needed / _STEP_PT - 1e-9) * _STEP_PT or None
