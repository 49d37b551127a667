"""Finding anything by its name or by a maker's other word for it."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.references import name_key
from wickbench.app.settings import (
    BUSINESS_FIELDS,
    REGION_FIELDS,
    SETTING_FIELDS,
    UNIT_FIELDS,
    WORK_FIELDS,
)
from wickbench.app.texts_marker import N_
from wickbench.storage import records

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from wickbench.app.workspace import Workspace

MOST_HITS: Final = 40

SYNONYMS: Final[tuple[frozenset[str], ...]] = (
    frozenset({"vessel", "jar", "container", "glass", "tumbler", "tin", "cup", "mould", "mold"}),
    frozenset({"fragrance", "oil", "scent", "perfume", "fo"}),
    frozenset({"essential oil", "eo", "fragrance"}),
    frozenset({"caution", "warning", "safety"}),
    frozenset({"lot", "batch"}),
    frozenset({"sheet", "sticker", "stationery", "labels"}),
    frozenset({"recipe", "formula", "blend"}),
    frozenset({"dye", "colour", "color", "pigment"}),
    frozenset({"additive", "stearin", "vybar", "uv"}),
    frozenset({"pour", "make", "production"}),
    frozenset({"pot", "pitcher", "melter", "jug"}),
    frozenset({"load", "percent", "percentage"}),
    frozenset({"scale", "balance", "weigh"}),
    frozenset({"melt", "tart", "clamshell"}),
    frozenset({"cure", "curing", "rest"}),
    frozenset({"settings", "preferences", "options", "units"}),
    frozenset({"leftover", "remainder", "surplus"}),
    frozenset({"packaging", "box", "shipping"}),
    frozenset({"candle", "product", "sku"}),
)
"""Words of the trade that stand for each other in a search."""

ON_THIS_COMPUTER: Final = (N_("Language of the window"), N_("Colours"), N_("Backups"))
"""What is set for this computer, in the order of its card."""

_ITEM_WORDS: Final[Mapping[str, str]] = {
    "wax": N_("Wax"), "fragrance": N_("Fragrance oil"), "wick": N_("Wick"), "dye": N_("Dye"),
    "additive": N_("Additive"), "lid": N_("Lid"), "sheet": N_("Sticker sheet"),
    "packaging": N_("Packaging"), "supplies": N_("Supplies"), "vessel": N_("Vessel"),
}  # fmt: skip
_TABLE_WORDS: Final[Mapping[str, tuple[str, str]]] = {
    "recipe": ("recipes", N_("Recipe")), "candle": ("candles", N_("Candle")),
    "label": ("labels", N_("Label")), "plan": ("pour_plan", N_("Pour plan")),
    "leftover": ("leftovers", N_("Leftover")),
    "scale": ("equipment/scale", N_("Scale")), "pot": ("equipment/pot", N_("Pot")),
    "heat_source": ("equipment/heat_source", N_("Heat source")),
    "thermometer": ("equipment/thermometer", N_("Thermometer")),
    "printer": ("equipment/printer", N_("Printer")),
}  # fmt: skip
_ICONS: Final[Mapping[str, str]] = {
    "vessel": "vessels", "sheet": "sheet", "recipe": "recipes", "candle": "candle",
    "label": "labels", "plan": "pour-plan", "leftover": "leftover",
    "scale": "scale", "pot": "pot", "printer": "printer",
    "heat_source": "burn-tests", "thermometer": "thermometer",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Hit:
    """Something found.

    Attributes:
        place: where it is shown: "materials", "vessels", "recipes", "candles", …
        record: its number there.
        title: its name as the person wrote it.
        detail: what it is, translated.
        icon: name of an icon.
        words: what it was found by.
    """

    place: str
    record: int
    title: str
    detail: str
    icon: str
    words: str


def plain(text: str) -> str:
    """Text without accents and case, for comparing."""
    parts = unicodedata.normalize("NFKD", text)
    return "".join(letter for letter in parts if not unicodedata.combining(letter)).casefold()


def matches(sought: str, words: str) -> bool:
    """Whether every sought word stands in the text, or a word there begins with another for it."""
    text = plain(words)
    return all(word in text or _said_otherwise(word, text) for word in plain(sought).split())


def _said_otherwise(word: str, text: str) -> bool:
    # A "tin" is no part of "settings".
    return any(re.search(rf"\b{re.escape(other)}", text) for other in other_words(word))


def other_words(word: str) -> frozenset[str]:
    """The word itself and what else the trade calls it."""
    found = {word}
    for group in SYNONYMS:
        if word in group or word.rstrip("s") in group:
            found |= group
    return frozenset(found)


def find(workspace: Workspace, sought: str) -> tuple[Hit, ...]:
    """Records found by name, code, supplier, or by what they are; best first.

    Args:
        workspace: the open workshop.
        sought: what the person typed; empty finds nothing.
    """
    if not sought.strip():
        return ()
    found = [hit for hit in _everything(workspace) if matches(sought, hit.words)]
    first = plain(sought.strip())

    def rank(hit: Hit) -> tuple[bool, bool, tuple[str, str]]:
        title = plain(hit.title)
        return not title.startswith(first), first not in title, name_key(hit.title)

    return tuple(sorted(found, key=rank)[:MOST_HITS])


def _everything(workspace: Workspace) -> Iterator[Hit]:
    with workspace.read() as connection:
        items = records.fetch_all(connection, "item", where={"archived": 0}, order=("id",))
        named = {
            table: records.fetch_all(connection, table, order=("id",)) for table in _TABLE_WORDS
        }
    yield from _setting_hits(workspace)
    for row in items:
        yield _item_hit(workspace, row)
    for table, rows in named.items():
        place, word = _TABLE_WORDS[table]
        for row in rows:
            yield _hit(workspace, row, place=place, kind=table, word=word)


def _setting_hits(workspace: Workspace) -> Iterator[Hit]:
    """Each setting by its label; its number is its place among the settings."""
    texts = workspace.texts
    parts = (
        (BUSINESS_FIELDS, "business", N_("Business details"), "business"),
        (REGION_FIELDS, "settings/region", N_("Settings"), "settings"),
        (UNIT_FIELDS, "settings/units", N_("Settings"), "settings"),
        (WORK_FIELDS, "settings/work", N_("Settings"), "settings"),
    )
    for specs, place, where, icon in parts:
        for spec in specs:
            title, detail = texts(spec.label), texts(where)
            words = " ".join((title, detail, texts(spec.group), spec.name.replace("_", " ")))
            yield Hit(place, SETTING_FIELDS.index(spec), title, detail, icon, words)
    for at, label in enumerate(ON_THIS_COMPUTER):
        title, detail = texts(label), texts(N_("This computer"))
        yield Hit("settings/computer", at, title, detail, "settings", f"{title} {detail}")


def _item_hit(workspace: Workspace, row: Mapping[str, object]) -> Hit:
    kind = str(row["kind"])
    place = "vessels" if kind == "vessel" else "materials"
    return _hit(workspace, row, place=place, kind=kind, word=_ITEM_WORDS[kind])


def _hit(
    workspace: Workspace, row: Mapping[str, object], *, place: str, kind: str, word: str
) -> Hit:
    detail = workspace.texts(word)
    title = str(row.get("name") or "") or detail
    parts = (title, detail, kind, word, str(row.get("code") or ""), str(row.get("supplier") or ""))
    icon = _ICONS.get(kind, "materials")
    return Hit(place, int(str(row["id"])), title, detail, icon, " ".join(parts))
