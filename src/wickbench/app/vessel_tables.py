"""The two small tables of a vessel as data, and what a spreadsheet's cells mean in them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from wickbench.app.fields import FieldSpec
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_fields import DIAMETER_FIELDS, NET_CHECK_FIELDS, WEIGHING_FIELDS

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from wickbench.app.workspace import Workspace


@dataclass(frozen=True, slots=True, kw_only=True)
class PartTable:
    """One of the small tables.

    Attributes:
        table: where its rows are stored.
        specs: its columns.
        heading, adding, add, paste, remove: msgids of its title, of the inviting last row, and
            of the acts.
        level: "line" or "brim" for weighings, empty for others.
        owner: column that names whose rows they are.
        stretch: the column that takes the room that is left.
        kept: columns that a new row takes from the row before it; a numbered table also counts
            its ``vessel_no`` on.
        first: column and value that the very first row starts with.
    """

    table: str
    specs: tuple[FieldSpec, ...]
    heading: str
    adding: str
    add: str
    paste: str
    remove: str
    level: str = ""
    owner: str = "vessel_id"
    stretch: str = "filled_g"
    kept: tuple[str, ...] = ()
    first: tuple[tuple[str, object], ...] = ()

    @property
    def numbered(self) -> bool:
        """Whether its rows carry the number of a jar."""
        return "vessel_no" in self.names

    def spec(self, name: str) -> FieldSpec:
        """The column of a name."""
        return next(spec for spec in self.specs if spec.name == name)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the columns from left to right."""
        return tuple(spec.name for spec in self.specs)


_READINGS = tuple(
    spec for spec in WEIGHING_FIELDS if spec.name in {"vessel_no", "empty_g", "filled_g", "water_c"}
)


def _weighings(level: str, heading: str) -> PartTable:
    return PartTable(
        table="weighing",
        specs=_READINGS,
        heading=heading,
        adding=N_("Add a weighing…"),
        add=N_("Add a weighing"),
        paste=N_("Paste weighings"),
        remove=N_("Remove weighings"),
        level=level,
        kept=("water_c", "scale_id"),
    )


LINE_WEIGHINGS = _weighings("line", N_("Weighings to the fill line"))
BRIM_WEIGHINGS = _weighings("brim", N_("Weighings to the brim"))
DIAMETERS = PartTable(
    table="vessel_diameter",
    specs=DIAMETER_FIELDS,
    heading=N_("Inner diameters"),
    adding=N_("Add a height…"),
    add=N_("Add a diameter"),
    paste=N_("Paste diameters"),
    remove=N_("Remove diameters"),
    stretch="diameter_mm",
)
NET_CHECKS = PartTable(
    table="net_check",
    specs=NET_CHECK_FIELDS,
    heading=N_("Filled candles weighed"),
    adding=N_("Add a filled candle…"),
    add=N_("Add a filled candle"),
    paste=N_("Paste filled candles"),
    remove=N_("Remove filled candles"),
    owner="candle_id",
    stretch="own_tare",
    kept=("own_tare", "scale_id"),
    first=(("own_tare", 1),),
)


_HEADINGS: Mapping[str, tuple[str, ...]] = {
    "vessel_no": ("jar", "vessel", "no", "nr", "number", "#", "glas", "bocal", "tarro"),
    "empty_g": ("empty", "dry", "tare", "leer", "vide", "vacío", "vacio"),
    "own_tare": ("own", "whose", "tare is", "empty weight is"),
    "filled_g": ("with water", "filled", "full", "gross", "voll", "gefüllt", "plein", "lleno"),
    "water_c": ("water", "temperature", "temp", "wasser", "eau", "agua", "°c", "°f"),
    "height_mm": ("at height", "height", "höhe", "hauteur", "altura", "h"),
    "diameter_mm": ("diameter", "inner", "inside", "ø", "durchmesser", "diamètre", "d"),
}


def columns_of(
    workspace: Workspace, part: PartTable, cells: Sequence[Sequence[str]], left: int
) -> tuple[list[str], Sequence[Sequence[str]]]:
    """Column names of the cells, and the rows below the headings if there are any."""
    if cells and _is_heading(cells[0]):
        named = [_named(workspace, part, cell) for cell in cells[0]]
        if any(named):
            return named, cells[1:]
        return list(part.names[left:]), cells[1:]
    return list(part.names[left:]), cells


def _is_heading(row: Sequence[str]) -> bool:
    """Whether no cell of a row begins like a number, and at least one is a word."""
    texts = [cell.strip() for cell in row if cell.strip()]
    return bool(texts) and not any(text[0].isdigit() or text[0] in "-+.,½¼¾" for text in texts)


def _named(workspace: Workspace, part: PartTable, heading: str) -> str:
    """Column that a heading means: its own label first, then other words for it; else empty."""
    said = heading.casefold().split("(")[0].split("[")[0].strip()
    for spec in part.specs:
        if said in {spec.label.casefold(), workspace.texts(spec.label).casefold()}:
            return spec.name
    hits = [
        (said.find(word), -len(word), name)
        for name in part.names
        for word in _HEADINGS.get(name, ())
        if _stands_in(word, said)
    ]
    return min(hits)[2] if hits else ""


def _stands_in(word: str, said: str) -> bool:
    return word in said.split() if len(word) <= 2 else word in said  # noqa: PLR2004 - initials


def has_decimal_comma(rows: Iterable[Sequence[str]]) -> bool:
    """Whether a number here has a comma that cannot stand between thousands."""
    for row in rows:
        for cell in row:
            head, comma, tail = cell.strip().partition(",")
            digits = tail[: len(tail) - len(tail.lstrip("0123456789"))]
            plain = head.isdigit() and "." not in tail and "," not in tail
            if comma and plain and digits and len(digits) != 3:  # noqa: PLR2004 - thousands
                return True
    return False
