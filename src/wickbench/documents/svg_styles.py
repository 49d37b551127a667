"""How things in an SVG look: attributes, style attributes and simple rules, inherited."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from PIL import ImageColor

if TYPE_CHECKING:
    from wickbench.documents.svg_reading import Node

INHERITED: Final = frozenset(
    {
        "fill", "fill-rule", "fill-opacity", "stroke", "stroke-width", "stroke-opacity",
        "stroke-linecap", "stroke-linejoin", "stroke-miterlimit", "stroke-dasharray",
        "stroke-dashoffset", "color", "visibility", "clip-rule", "marker", "marker-start",
        "marker-mid", "marker-end", "paint-order",
    }
)  # fmt: skip
_OWN: Final = frozenset(
    {
        "opacity", "display", "clip-path", "mask", "filter", "transform", "mix-blend-mode",
        "overflow", "stop-color", "stop-opacity", "vector-effect", "animation",
    }
)  # fmt: skip
PROPERTIES: Final = INHERITED | _OWN
_COMMENT: Final = re.compile(r"/\*.*?\*/", re.DOTALL)
_RULE: Final = re.compile(r"([^{}]*)\{([^{}]*)\}")
_SELECTOR: Final = re.compile(r"(?P<tag>[A-Za-z][\w-]*|\*)?(?P<marks>(?:[.#][\w-]+)*)$")
_MARK: Final = re.compile(r"([.#])([\w-]+)")
_URL: Final = re.compile(r"url\(\s*[\"']?#([^\"')\s]+)[\"']?\s*\)\s*(.*)$", re.DOTALL)
_RGB: Final = re.compile(r"rgba?\(([^)]*)\)$")
_HEX: Final = re.compile(r"#(?:[0-9a-f]{3,4}|[0-9a-f]{6}|[0-9a-f]{8})$")
_SHORT_HEX: Final = 5
_WHITE: Final = 255

Rgb = tuple[int, int, int]


@dataclass(frozen=True, slots=True)
class Rule:
    """A rule of a style sheet with one simple selector.

    Attributes:
        tag: element it is for; empty for any.
        marks: classes (``.name``) and names (``#name``) that it must have.
        values: properties.
        weight: which of two rules wins: names, classes, tag, order.
    """

    tag: str
    marks: frozenset[str]
    values: Mapping[str, str]
    weight: tuple[int, int, int, int]


@dataclass(frozen=True, slots=True)
class Paint:
    """What a figure is filled or stroked with.

    Attributes:
        colour: red, green, blue; None for nothing.
        alpha: 1 for opaque.
        server: name of a gradient or pattern that should be there instead.
        known: False for a colour that cannot be read.
    """

    colour: Rgb | None = None
    alpha: float = 1.0
    server: str = ""
    known: bool = True


@dataclass(slots=True)
class StyleSheet:
    """Rules of all style elements; ``lost`` when some of them cannot be followed."""

    rules: list[Rule] = field(default_factory=list)
    lost: bool = False

    def read(self, text: str) -> None:
        """Take in a style element."""
        text = _COMMENT.sub(" ", text).replace("<!--", " ").replace("-->", " ")
        text = re.sub(r"@(?:charset|import|namespace)[^;]*;", self._lose_import, text)
        if "@" in text:
            self.lost = self.lost or bool(re.search(r"@(?!font-face)", text))
            text = re.sub(r"@[^{]*\{(?:[^{}]|\{[^{}]*\})*\}", " ", text)
        for selectors, body in _RULE.findall(text):
            values = declarations(body)
            for selector in selectors.split(","):
                self._take(selector.strip(), values)

    def _lose_import(self, match: re.Match[str]) -> str:
        self.lost = self.lost or match[0].startswith("@import")
        return " "

    def _take(self, selector: str, values: Mapping[str, str]) -> None:
        match = _SELECTOR.match(selector)
        if match is None or not selector:
            self.lost = self.lost or bool(selector and values)
            return
        marks = [a + b for a, b in _MARK.findall(match["marks"])]
        tag = "" if match["tag"] in {None, "*"} else match["tag"]
        names = sum(mark.startswith("#") for mark in marks)
        weight = (names, len(marks) - names, int(bool(tag)), len(self.rules))
        self.rules.append(Rule(tag, frozenset(marks), values, weight))

    def values_for(self, node: Node) -> dict[str, str]:
        """Properties that the rules give an element."""
        if not self.rules:
            return {}
        has = {f".{one}" for one in node.get("class").split()}
        if node.get("id"):
            has.add("#" + node.get("id"))
        fitting = [rule for rule in self.rules if rule.tag in {"", node.tag} and rule.marks <= has]
        found: dict[str, str] = {}
        for rule in sorted(fitting, key=lambda one: one.weight):
            found |= rule.values
        return found


def declarations(text: str) -> dict[str, str]:
    """Properties of a style attribute or of a rule's body."""
    found: dict[str, str] = {}
    for one in text.split(";"):
        name, colon, value = one.partition(":")
        name = name.strip().lower()
        if colon and name in PROPERTIES:
            found[name] = value.replace("!important", "").strip()
    return found


def style_of(node: Node, above: Mapping[str, str], sheet: StyleSheet) -> dict[str, str]:
    """All properties of an element: its own over what it inherits."""
    own = {name: node.get(name) for name in PROPERTIES if name in node.attributes}
    own.pop("transform", None)
    own |= sheet.values_for(node)
    own |= declarations(node.get("style"))
    style = {name: value for name, value in above.items() if name in INHERITED}
    for name, value in own.items():
        if value == "inherit":
            if name in above:
                style[name] = above[name]
        elif value:
            style[name] = value
    return style


def paint(text: str, style: Mapping[str, str]) -> Paint:
    """What a fill or stroke says."""
    said = text.strip()
    match = _URL.match(said)
    if match is not None:
        behind = paint(match[2], style) if match[2].strip() else Paint()
        return Paint(behind.colour, behind.alpha, match[1])
    word = said.lower()
    if word in {"none", "transparent", ""}:
        return Paint()
    if word == "currentcolor":
        word = style.get("color", "black").lower()
        word = "black" if word in {"currentcolor", "inherit"} else word
    return _colour(word)


def _colour(word: str) -> Paint:
    match = _RGB.match(word)
    try:
        if match is not None:
            return _rgb(match[1])
        if word.startswith("#"):
            return _hex(word)
        found = ImageColor.getrgb(word)
    except ValueError:
        return Paint((0, 0, 0), known=False)
    return Paint((found[0], found[1], found[2]))


def _hex(word: str) -> Paint:
    if not _HEX.match(word):
        raise ValueError(word)
    digits = word[1:]
    if len(word) <= _SHORT_HEX:
        digits = "".join(2 * digit for digit in digits)
    values = [int(digits[at : at + 2], 16) for at in range(0, len(digits), 2)]
    alpha = values[3] / _WHITE if values[3:] else 1.0
    return Paint((values[0], values[1], values[2]), alpha)


def _rgb(said: str) -> Paint:
    parts = [part for part in re.split(r"[\s,/]+", said.strip()) if part]
    colour = [_share(part, _WHITE) for part in parts[:3]]
    alpha = _share(parts[3], 1.0) if parts[3:] else 1.0
    red, green, blue = (round(min(max(value, 0.0), _WHITE)) for value in colour)
    return Paint((red, green, blue), min(max(alpha, 0.0), 1.0))


def _share(text: str, whole: float) -> float:
    return float(text[:-1]) / 100 * whole if text.endswith("%") else float(text)


def part_of(text: str, otherwise: float = 1.0) -> float:
    """An opacity from 0 to 1; what cannot be read is ``otherwise``."""
    try:
        return min(max(_share(text.strip(), 1.0), 0.0), 1.0)
    except ValueError:
        return otherwise


def on_white(colour: Rgb, alpha: float) -> str:
    """A colour as ``#rrggbb``; one that is seen through is mixed with white paper."""
    mixed = [round(_WHITE + (value - _WHITE) * alpha) for value in colour]
    return "#{:02x}{:02x}{:02x}".format(*mixed)
