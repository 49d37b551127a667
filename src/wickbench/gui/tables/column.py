"""A column is an object: what it is called, how a row shows in it, sorts and takes typed text."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

Row = TypeVar("Row")


@dataclass(frozen=True, kw_only=True)
class Column(Generic[Row]):
    """One column of a table.

    Attributes:
        key: name for code, unique in its table.
        title: msgid of the header.
        show: text of a row's cell.
        sort: what rows are sorted by; the shown text when absent.
        numeric: figures, set at the right with their header.
        stretch: takes the room that is left; one column of a table does.
        keeps: words that are never cut: the other columns give way.
        hint: text of the tooltip; the full cell text when absent.
        write: takes typed text; raises ``DomainError`` when it cannot be read. The cell can be
            edited when this is given.
        edit_text: text that stands in the open cell; the shown text when absent.
        choices: stored word and label of what can be chosen in the cell.
        about: msgid of the header's tooltip.
        look: "quiet", "stops", "watch" or "fine" for a row's cell; empty for plain ink.
        spare: gives way when the table is too narrow to read; what it says stands elsewhere too.
        icon: name of an icon before the text; empty for none.
    """

    key: str
    title: str
    show: Callable[[Row], str]
    sort: Callable[[Row], object] | None = None
    numeric: bool = False
    stretch: bool = False
    keeps: bool = False
    hint: Callable[[Row], str] | None = None
    write: Callable[[Row, str], None] | None = None
    edit_text: Callable[[Row], str] | None = None
    choices: Callable[[Row | None], Sequence[tuple[str, str]]] | None = None
    about: str = ""
    look: Callable[[Row], str] | None = None
    spare: bool = False
    icon: Callable[[Row], str] | None = None
