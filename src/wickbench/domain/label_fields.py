"""Fields in the text of a label: ``{candle}`` or ``{net weight}``, filled in at printing."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Mapping

FIELD_NAMES: Final = (
    "candle",
    "identity",
    "recipe",
    "vessel",
    "wax",
    "fragrance",
    "code",
    "lot",
    "poured_on",
    "net_weight",
    "net_weight_first",
    "net_weight_second",
    "burn_time",
    "ingredients",
    "price",
    "business",
    "business_address",
    "phone",
    "email",
    "web",
    "number",
    "of",
)
"""Fields that a label may hold; the app fills them in, an unknown one stays as typed."""

NUMBER: Final = "number"
"""Running number of a sticker; the last one of its lot is ``of``."""

_FIELD: Final = re.compile(r"\{\s*([^{}]+?)\s*\}")


@dataclass(frozen=True, slots=True)
class FilledText:
    """A text with its fields filled in.

    Attributes:
        text: what will stand on the label.
        unknown: names in braces that are no fields, as typed.
        empty: fields that have no value yet.
    """

    text: str
    unknown: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()


def field_name(typed: str) -> str:
    """The field's name for what stands in braces: ``Net weight`` is ``net_weight``."""
    return "_".join(typed.lower().split())


def fields_in(text: str) -> tuple[str, ...]:
    """Names of the fields in a text, each once, in order, known or not."""
    return tuple(dict.fromkeys(field_name(typed) for typed in _FIELD.findall(text)))


def fill_in(text: str, values: Mapping[str, str]) -> FilledText:
    """Put the values of fields into a text; an unknown field stays as typed.

    Args:
        text: with fields in braces.
        values: value of each field by its name.
    """
    unknown: dict[str, None] = {}
    empty: dict[str, None] = {}

    def value(match: re.Match[str]) -> str:
        name = field_name(match[1])
        # Values with a colon in their name are for frames of facts, not for a text.
        if name not in FIELD_NAMES and (name not in values or ":" in name):
            unknown[match[1]] = None
            return match[0]
        filled = values.get(name, "").strip()
        if not filled:
            empty[name] = None
        return filled

    return FilledText(_FIELD.sub(value, text), tuple(unknown), tuple(empty))
