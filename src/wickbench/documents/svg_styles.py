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
_BRACES: Final = re.compile(r"[{}]")
_HARMLESS: Final = ("@font-face", "@charset", "@namespace")
_LONGEST_WORD: Final = 20
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

    lost: bool = False
    _rules: dict[str, list[Rule]] = field(default_factory=dict)
    _count: int = 0

    def read(self, text: str) -> None:
        """Take in a style element; every step is a search forwards, however it is written."""
        text = _without(_without(text, "<!--", "-->", keep=True), "/*", "*/")
        at = 0
        while at < len(text):
            opened = text.find("{", at)
            selectors = text[at : opened if opened >= 0 else len(text)]
            if "@" in selectors:
                at = self._past_at_rule(text, at)
                continue
            closed = text.find("}", opened) if opened >= 0 else -1
            if closed < 0:
                return
            values = declarations(text[opened + 1 : closed])
            for selector in selectors.split(","):
                self._take(selector.strip(), values)
            at = closed + 1

    def _past_at_rule(self, text: str, at: int) -> int:
        """The place after a rule for pages, screens, typefaces and the like."""
        begin = text.find("@", at)
        semicolon, opened = text.find(";", begin), text.find("{", begin)
        word = text[begin : begin + _LONGEST_WORD].lower()
        if not word.startswith(_HARMLESS):
            self.lost = True
        if semicolon >= 0 and (opened < 0 or semicolon < opened):
            return semicolon + 1
        return _closing(text, opened)

    def _take(self, selector: str, values: Mapping[str, str]) -> None:
        match = _SELECTOR.match(selector)
        if match is None or not selector:
            self.lost = self.lost or bool(selector and values)
            return
        marks = [a + b for a, b in _MARK.findall(match["marks"])]
        tag = "" if match["tag"] in {None, "*"} else match["tag"]
        names = sum(mark.startswith("#") for mark in marks)
        self._count += 1
        weight = (names, len(marks) - names, int(bool(tag)), self._count)
        key = marks[0] if marks else tag
        self._rules.setdefault(key, []).append(Rule(tag, frozenset(marks), values, weight))

    def values_for(self, node: Node) -> dict[str, str]:
        """Properties that the rules give an element."""
        if not self._rules:
            return {}
        has = {f".{one}" for one in node.get("class").split()}
        if node.get("id"):
            has.add("#" + node.get("id"))
        fitting = [
            rule
            for key in (*has, node.tag, "")
            for rule in self._rules.get(key, ())
            if rule.tag in {"", node.tag} and rule.marks <= has
        ]
        found: dict[str, str] = {}
        for rule in sorted(fitting, key=lambda one: one.weight):
            found |= rule.values
        return found


def _without(text: str, begin: str, end: str, *, keep: bool = False) -> str:
    """A text without what stands between two marks, or only without the marks."""
    if keep:
        return text.replace(begin, " ").replace(end, " ")
    kept = []
    at = 0
    while (start := text.find(begin, at)) >= 0:
        kept.append(text[at:start])
        stop = text.find(end, start + len(begin))
        at = stop + len(end) if stop >= 0 else len(text)
    return " ".join([*kept, text[at:]])


def _closing(text: str, opened: int) -> int:
    """The place after the brace that closes one."""
    if opened < 0:
        return len(text)
    deep = 0
    for match in _BRACES.finditer(text, opened):
        deep += 1 if match[0] == "{" else -1
        if deep == 0:
            return match.end()
    return len(text)


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
