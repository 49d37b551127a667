"""A form is a table of fields in data: what a field is called, holds, and where it is stored."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, TypedDict, Unpack

if TYPE_CHECKING:
    from collections.abc import Mapping

QUANTITIES = frozenset(
    {
        "mass",
        "volume",
        "length",
        "temperature",
        "load",
        "percent",
        "count",
        "money",
        "number",
        "density",
        "days",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One thing to choose: the stored word and its sentence (a msgid)."""

    value: object
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FieldSpec:
    """One field of a form.

    Attributes:
        name: presented name of the column, for example ``max_load_percent``.
        label: msgid shown beside the field.
        kind: "text", "note", "choice", "yes_no", "date", "reference", or a quantity kind.
        table: where it is stored; "setting" for the settings of the file.
        hint: msgid of a short explanation under the field.
        choices: for "choice".
        refers_to: for "reference": "wax", "lid", "vessel", "scale" … (what can be chosen).
        low, high: smallest and largest sensible value in the kind's unit.
        group: msgid of the heading it stands under; empty for the first group.
        check: refuses text that can be read but makes no sense here, with a ``DomainError``.
        estimate: whether an empty field falls back on a class default, shown as a hint.
    """

    name: str
    label: str
    kind: str
    table: str
    hint: str = ""
    choices: tuple[Choice, ...] = ()
    refers_to: str = ""
    low: float | None = None
    high: float | None = None
    group: str = ""
    check: Callable[[str], None] | None = None
    estimate: bool = False

    @property
    def is_quantity(self) -> bool:
        """Whether it is typed as a number with or without a unit."""
        return self.kind in QUANTITIES


class FieldMore(TypedDict, total=False):
    """What a field may have beyond its name, label, kind and table."""

    hint: str
    choices: tuple[Choice, ...]
    refers_to: str
    low: float | None
    high: float | None
    group: str
    check: Callable[[str], None] | None
    estimate: bool


def field(table: str, name: str, label: str, kind: str, **more: Unpack[FieldMore]) -> FieldSpec:
    """One row of a form's table."""
    return FieldSpec(name=name, label=label, kind=kind, table=table, **more)


def choices(table: Mapping[str, str]) -> tuple[Choice, ...]:
    """Choices from stored word to msgid, in the order given."""
    return tuple(Choice(value=value, label=label) for value, label in table.items())
