"""Going through an SVG from back to front: what is drawn, where, and what must be left out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from wickbench.documents.affine import IDENTITY, Affine, shift
from wickbench.documents.outlines import rectangle
from wickbench.documents.pictograms import path_bounds
from wickbench.documents.surface import Path, map_path
from wickbench.documents.svg_geometry import (
    control_box,
    length,
    path_of,
    shape_path,
    transform,
    view_box,
)
from wickbench.documents.svg_painting import painted
from wickbench.documents.svg_styles import StyleSheet, part_of, style_of
from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from wickbench.documents.label_draws import PathDraw
    from wickbench.documents.svg_reading import Node

MOST_DRAWS: Final = 10_000
FARTHEST: Final = 1e7
"""Coordinates beyond this are a mistake, and too much for painters."""
MOST_COMMANDS: Final = 150_000
MOST_EXACT: Final = 8_000
"""After so many pieces of paths lines are drawn plainly: exact areas would take too long."""
DEEPEST: Final = 60
_CONTAINERS: Final = frozenset({"g", "a", "svg", "switch"})
_SHAPES: Final = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_SILENT: Final = frozenset(
    {
        "", "defs", "title", "desc", "metadata", "symbol", "clipPath", "style", "linearGradient",
        "radialGradient", "pattern", "mask", "filter", "marker", "view", "cursor", "font-face",
        "stop",
    }
)  # fmt: skip
_WORDS: Final = {
    "text": "text", "tspan": "text", "textPath": "text", "font": "text", "image": "image",
    "video": "image", "foreignObject": "other", "animate": "animation", "animateMotion":
    "animation", "animateTransform": "animation", "set": "animation", "script": "script",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class State:
    """Where the walk is.

    Attributes:
        affine: from the user units here to those of the drawing.
        style: properties that are inherited.
        alpha: opacity of all groups around.
        clips: seen only inside all of these, in units of the drawing.
        view: width and height of the viewport, for percentages.
        depth: how deep it stands.
        within: names of what is being used, so that nothing uses itself.
    """

    affine: Affine
    style: Mapping[str, str]
    alpha: float
    clips: tuple[Path, ...]
    view: tuple[float, float]
    depth: int = 0
    within: frozenset[str] = frozenset()


class Walk:
    """Draws an SVG into a list of paths.

    Attributes:
        draws: from back to front.
        left_out: words for what could not be drawn, or not as it was.
    """

    def __init__(self, root: Node, wide: float, high: float) -> None:
        self.draws: list[PathDraw] = []
        self.left_out: set[str] = set()
        self.sheet = StyleSheet()
        self.named: dict[str, Node] = {}
        self._root, self._view = root, (wide, high)
        self._commands = 0
        for node in root.every():
            if node.get("id"):
                self.named.setdefault(node.get("id"), node)
            if node.tag == "style":
                self.sheet.read(node.text)
            elif _WORDS.get(node.tag) in {"animation", "script"}:
                self.left_out.add(_WORDS[node.tag])
        if self.sheet.lost:
            self.left_out.add("style")

    def draw_root(self, box: Affine | None) -> None:
        """Draw all of it; ``box`` maps its view box to its size, None when it has no size."""
        wide, high = self._view
        view = rectangle(0.0, 0.0, wide, high)
        clips = (view,) if box is not None and self._root.get("overflow") != "visible" else ()
        state = State(box or IDENTITY, {}, 1.0, clips, self._box_of(self._root, wide, high))
        inner = self._entered(self._root, state)
        if inner is not None:
            self._children(self._root, inner)

    def moved(self, x: float, y: float) -> tuple[PathDraw, ...]:
        """All of it somewhere else."""
        by = shift(x, y)
        return tuple(
            replace(
                one,
                path=map_path(by, one.path),
                clips=tuple(map_path(by, clip) for clip in one.clips),
            )
            for one in self.draws
        )

    # -- going -----------------------------------------------------------------------------------
    def _children(self, node: Node, state: State) -> None:
        if state.depth > DEEPEST or len(self.draws) > MOST_DRAWS:
            raise DomainError("svg.too-large")
        deeper = replace(state, depth=state.depth + 1)
        children = node.children
        if node.tag == "switch":
            children = [one for one in children if one.tag in _CONTAINERS | _SHAPES][:1]
        for child in children:
            self._node(child, deeper)

    def _node(self, node: Node, state: State) -> None:
        if node.tag in _SILENT:
            return
        inner = self._entered(node, state)
        if inner is None:
            return
        if node.tag in _SHAPES:
            self._shape(node, inner)
        elif node.tag == "svg":
            self._viewport(node, inner)
        elif node.tag in _CONTAINERS:
            self._children(node, inner)
        elif node.tag == "use":
            self._use(node, inner)
        else:
            self.left_out.add(_WORDS.get(node.tag, "other"))

    def _entered(self, node: Node, state: State) -> State | None:
        """The state within an element; None when nothing of it is seen."""
        style = style_of(node, state.style, self.sheet)
        if style.get("display") == "none":
            return None
        alpha = state.alpha * part_of(style.get("opacity", "1"))
        for name, word in (("filter", "filter"), ("mask", "mask")):
            if style.get(name, "none") != "none":
                self.left_out.add(word)
        if style.get("mix-blend-mode", "normal") != "normal":
            self.left_out.add("blend")
        said = style.get("transform", "") or node.get("transform")
        affine = state.affine.after(transform(said)) if said not in {"", "none"} else state.affine
        inner = replace(state, affine=affine, style=style, alpha=alpha)
        return self._clipped(style.get("clip-path", "none"), node, inner)

    def _shape(self, node: Node, state: State) -> None:
        if state.style.get("visibility", "visible") != "visible":
            return
        if node.tag == "path" and not path_of(node.get("d"))[1]:
            self.left_out.add("path")
        path = shape_path(node, *state.view)
        if path is None:
            return
        self._commands += len(path)
        if self._commands > MOST_COMMANDS:
            raise DomainError("svg.too-large")
        look = (state.style, state.affine, state.alpha, self.named)
        found, lost = painted(path, *look, exact=self._commands <= MOST_EXACT)
        self.left_out |= lost
        self.draws += [one for draw in found if (one := self._seen(draw, state.clips))]

    def _seen(self, draw: PathDraw, clips: tuple[Path, ...]) -> PathDraw | None:
        """A draw with the clips that really cut something off; None when it is beyond measure."""
        box = control_box(draw.path)
        if not all(abs(side) < FARTHEST for side in (*box, draw.width_mm)):
            self.left_out.add("path")
            return None
        half = draw.width_mm if draw.stroke else 0.0
        needed = tuple(clip for clip in clips if not _holds(clip, box, half))
        return replace(draw, clips=needed) if needed else draw

    def _viewport(self, node: Node, state: State) -> None:
        wide, high = state.view
        x, y = length(node.get("x"), wide), length(node.get("y"), high)
        own = (
            length(node.get("width", "100%"), wide, wide),
            length(node.get("height", "100%"), high, high),
        )
        self._inside(node, replace(state, affine=state.affine.after(shift(x, y))), own)

    def _inside(self, node: Node, state: State, size: tuple[float, float]) -> None:
        """The children of a viewport of this size whose corner is the origin."""
        if min(size) <= 0:
            return
        clips = state.clips
        if state.style.get("overflow", node.get("overflow", "hidden")) not in {"visible", "auto"}:
            clips = (*clips, map_path(state.affine, rectangle(0.0, 0.0, *size)))
        affine = state.affine.after(view_box(node, *size))
        view = self._box_of(node, *size)
        self._children(node, replace(state, affine=affine, clips=clips, view=view))

    def _use(self, node: Node, state: State) -> None:
        link = node.get("href")
        name = link[1:] if link.startswith("#") else ""
        target = self.named.get(name)
        if target is None or name in state.within:
            self.left_out.add("link")
            return
        wide, high = state.view
        by = shift(length(node.get("x"), wide), length(node.get("y"), high))
        state = replace(
            state, affine=state.affine.after(by), within=state.within | {name},
            depth=state.depth + 1,
        )  # fmt: skip
        if state.depth > DEEPEST:
            raise DomainError("svg.too-large")
        if target.tag not in {"symbol", "svg"}:
            self._node(target, state)
            return
        inner = self._entered(target, state)
        if inner is not None:
            size = (
                length(node.get("width") or target.get("width", "100%"), wide, wide),
                length(node.get("height") or target.get("height", "100%"), high, high),
            )
            self._inside(target, inner, size)

    @staticmethod
    def _box_of(node: Node, wide: float, high: float) -> tuple[float, float]:
        box = node.get("viewBox").replace(",", " ").split()
        try:
            return (float(box[2]), float(box[3])) if len(box) == 4 else (wide, high)  # noqa: PLR2004
        except ValueError:
            return wide, high

    # -- clips -----------------------------------------------------------------------------------
    def _clipped(self, said: str, node: Node, state: State) -> State | None:
        """The state with an element's clip; None when it clips everything away."""
        if said in {"none", ""}:
            return state
        name = said.partition("#")[2].rstrip("'\") ")
        target = self.named.get(name)
        if target is None or target.tag != "clipPath":
            self.left_out.add("clip")
            return state
        affine = state.affine
        if target.get("clipPathUnits") == "objectBoundingBox":
            box = self._bounds(node, state)
            if box is None:
                self.left_out.add("clip")
                return state
            affine = affine.after(
                Affine(box[2] - box[0], 0.0, 0.0, box[3] - box[1], box[0], box[1])
            )
        affine = affine.after(transform(target.get("transform")))
        commands = self._clip_path(target, replace(state, affine=affine))
        if not commands:
            return None
        if not all(abs(side) < FARTHEST for side in control_box(commands)):
            self.left_out.add("clip")
            return state
        return replace(state, clips=(*state.clips, commands))

    def _bounds(self, node: Node, state: State) -> tuple[float, float, float, float] | None:
        path = shape_path(node, *state.view) if node.tag in _SHAPES else None
        return path_bounds(path) if path else None

    def _clip_path(self, target: Node, state: State) -> Path:
        """All shapes of a clip as one path."""
        found: list[tuple[str | float, ...]] = []
        for child in target.children:
            style = style_of(child, state.style, self.sheet)
            affine = state.affine.after(transform(child.get("transform")))
            if child.tag == "use":
                by = shift(length(child.get("x"), 0.0), length(child.get("y"), 0.0))
                child = self.named.get(child.get("href")[1:], child)  # noqa: PLW2901
                affine = affine.after(by).after(transform(child.get("transform")))
            path = shape_path(child, *state.view) if child.tag in _SHAPES else None
            if path is None:
                if child.tag not in _SILENT:
                    self.left_out.add("clip")
                continue
            holes = sum(command[0] == "m" for command in path) > 1
            if style.get("clip-rule", "nonzero") == "evenodd" and holes:
                self.left_out.add("clip")
            if style.get("clip-path", "none") != "none":
                self.left_out.add("clip")
            found += map_path(affine, path)
        return tuple(found)


def _holds(clip: Path, box: tuple[float, float, float, float], half: float) -> bool:
    """Whether a clip is an upright rectangle that holds a box with a line round it."""
    if len(clip) != 5 or any(one[0] == "c" for one in clip):  # noqa: PLR2004 - four corners, z
        return False
    corners = {(float(one[1]), float(one[2])) for one in clip[:-1]}
    left, top = min(x for x, _ in corners), min(y for _, y in corners)
    right, bottom = max(x for x, _ in corners), max(y for _, y in corners)
    if corners != {(left, top), (right, top), (right, bottom), (left, bottom)}:
        return False
    return (
        left <= box[0] - half
        and top <= box[1] - half
        and right >= box[2] + half
        and bottom >= box[3] + half
    )
