"""SVG files read with care into plain nodes: no entities, nothing from elsewhere, bounded in size.

After Scalable Vector Graphics 2 (W3C Candidate Recommendation, 4 October 2018) and XML 1.0.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Final
from xml.parsers import expat

from wickbench.domain.errors import DomainError

if TYPE_CHECKING:
    from collections.abc import Iterator

MOST_BYTES: Final = 2_000_000
MOST_NODES: Final = 50_000
DEEPEST: Final = 100

_SVG: Final = "http://www.w3.org/2000/svg"
_LINK: Final = "http://www.w3.org/1999/xlink"
_BEGIN: Final = re.compile(rb"<(?:\w+:)?svg[\s>/]")
_FIRST_BYTES: Final = 20_000


@dataclass(slots=True)
class Node:
    """An element of the file.

    Attributes:
        tag: its name; empty for one of another vocabulary.
        attributes: by name; ``href`` whatever its vocabulary.
        children: in order.
        text: what stands directly in it.
    """

    tag: str
    attributes: dict[str, str] = field(default_factory=dict)
    children: list[Node] = field(default_factory=list)
    text: str = ""

    def get(self, name: str, otherwise: str = "") -> str:
        """An attribute, without blanks round it."""
        return self.attributes.get(name, otherwise).strip()

    def every(self) -> Iterator[Node]:
        """It and all within it."""
        waiting = [self]
        while waiting:
            node = waiting.pop()
            yield node
            waiting += reversed(node.children)


def is_svg(data: bytes) -> bool:
    """Whether a file seems to be an SVG, by its beginning."""
    start = data[:_FIRST_BYTES]
    if start.startswith(b"\xef\xbb\xbf"):
        start = start[3:]
    return start.lstrip().startswith(b"<") and _BEGIN.search(start) is not None


def read_svg(data: bytes) -> Node:
    """The root of an SVG file.

    Raises:
        DomainError: ``svg.too-large``, ``svg.damaged`` when it is not well formed or no SVG,
            ``svg.entities`` when it declares entities.
    """
    if len(data) > MOST_BYTES:
        raise DomainError("svg.too-large")
    reader = _Reader()
    try:
        reader.parse(data)
    except (expat.ExpatError, ValueError, LookupError) as error:
        raise DomainError("svg.damaged") from error
    if reader.root is None or reader.root.tag != "svg":
        raise DomainError("svg.damaged")
    return reader.root


class _Reader:
    """Builds nodes from what the parser tells."""

    def __init__(self) -> None:
        self.root: Node | None = None
        self._open: list[Node] = []
        self._count = 0

    def parse(self, data: bytes) -> None:
        parser = expat.ParserCreate(namespace_separator=" ")
        parser.buffer_text = True
        parser.SetParamEntityParsing(expat.XML_PARAM_ENTITY_PARSING_NEVER)
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._text
        parser.EntityDeclHandler = _refuse
        parser.UnparsedEntityDeclHandler = _refuse
        parser.ExternalEntityRefHandler = _refuse
        parser.Parse(data, True)  # noqa: FBT003 - the parser's argument: this is all

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._count += 1
        if self._count > MOST_NODES or len(self._open) >= DEEPEST:
            raise DomainError("svg.too-large")
        node = Node(_own(name, _SVG), {_attribute(key): value for key, value in attributes.items()})
        if self._open:
            self._open[-1].children.append(node)
        else:
            self.root = node
        self._open.append(node)

    def _end(self, _name: str) -> None:
        self._open.pop()

    def _text(self, text: str) -> None:
        if self._open:
            self._open[-1].text += text


def _refuse(*_: Any) -> int:  # noqa: ANN401 - the parser tells much that is not needed
    raise DomainError("svg.entities")


def _own(name: str, vocabulary: str) -> str:
    """The plain name of what belongs to a vocabulary or to none; empty for anything else."""
    space, _, plain = name.rpartition(" ")
    return plain if space in {"", vocabulary} else ""


def _attribute(name: str) -> str:
    space, _, plain = name.rpartition(" ")
    return plain if space in {"", _LINK} else name
