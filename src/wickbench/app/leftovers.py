"""Leftovers as they are shown: how much is left of each, what it is made of, where it went."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from wickbench.app.dates import short_date
from wickbench.app.fields import field
from wickbench.app.leftover_store import LeftoverRow
from wickbench.app.leftovers_wanted import mix_of
from wickbench.app.recipe_words import both_bases, load_text, percent
from wickbench.app.references import name_key
from wickbench.app.texts_marker import N_
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.recipes import actual_load

if TYPE_CHECKING:
    from wickbench.app.leftover_store import UseRow
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts

LEFTOVER_FIELDS: Final = (
    field("leftover", "name", N_("Name"), "text"),
    field("leftover", "kept_on", N_("Kept on"), "date"),
    field("leftover", "note", N_("Notes"), "note"),
)
_SOURCES: Final = {
    "pot": N_("Left in a pot"),
    "scooped": N_("Scooped out of candles"),
    "other": N_("Kept by its recipe"),
}
_ROLES: Final = {
    "wax": N_("Wax"),
    "fragrance": N_("Fragrance oil"),
    "dye": N_("Dye"),
    "additive": N_("Additive"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverShown:
    """One line of the list, in words; ``left_g`` and ``kept_on`` to sort by."""

    id: int
    name: str
    left: str
    left_g: float
    recipe: str
    load: str
    oils: str
    since: str
    kept_on: str
    lot: str
    put_away: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartShown:
    """One material of a leftover: what is left of it, and its share of the whole."""

    key: int
    name: str
    role: str
    amount: str
    share: str
    mass_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class UseShown:
    """Where some of it went; ``goal`` is the page and the record that show it."""

    key: int
    what: str
    day: str
    amount: str
    goal: tuple[str, int] | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftoverView:
    """Everything the page shows of one leftover.

    Attributes:
        row: as stored.
        facts: where it came from, what was kept, its load.
        parts: materials of what is left.
        uses: where the rest went.
        findings: what is worth saying.
    """

    row: LeftoverRow
    facts: tuple[str, ...]
    parts: tuple[PartShown, ...]
    uses: tuple[UseShown, ...]
    findings: tuple[Finding, ...]


def leftover_rows(
    shelf: Shelf, texts: Texts, *, put_away: bool = False
) -> tuple[LeftoverShown, ...]:
    """The list, the latest first; those that were put away only when asked for."""
    listed = [row for row in shelf.leftovers.values() if put_away or not row.archived]
    listed.sort(key=lambda row: (row.kept_on or "", row.id), reverse=True)
    return tuple(_shown(row, shelf, texts) for row in listed)


def in_use(shelf: Shelf) -> tuple[LeftoverRow, ...]:
    """Leftovers of which something is left, by name."""
    there = [row for row in shelf.leftovers.values() if not row.archived and row.left_g > 0]
    return tuple(sorted(there, key=lambda row: (name_key(row.name), row.id)))


def name_with_mass(row: LeftoverRow, texts: Texts, plan: int | None = None) -> str:
    """A leftover in a list to choose from: "412 g: Bramble, 3 November 2026"."""
    left = texts.quantity(row.left_for(plan), "mass", step=0.1, both=False)
    return texts(N_("{mass}: {name}"), name=row.name, mass=left)


def _shown(row: LeftoverRow, shelf: Shelf, texts: Texts) -> LeftoverShown:
    oils = ", ".join(
        dict.fromkeys(
            shelf.names.get(part.item_id, "") for part in row.parts if part.role == "fragrance"
        )
    )
    recipe, lot = _recipe(row, shelf, texts), row.lot_code
    return LeftoverShown(
        id=row.id,
        name=row.name,
        left=texts.quantity(row.left_g, "mass", step=0.1, both=False),
        left_g=row.left_g,
        recipe=recipe,
        load=_load_of_total(row, shelf, texts),
        oils=oils,
        since=short_date(row.kept_on) if row.kept_on else "",
        kept_on=row.kept_on or "",
        lot=lot,
        put_away=bool(row.archived),
        words=" ".join((row.name, recipe, oils, lot, row.note or "")),
    )


def _recipe(row: LeftoverRow, shelf: Shelf, texts: Texts) -> str:
    version = shelf.versions.get(row.version_id) if row.version_id is not None else None
    if version is None:
        return ""
    return texts(N_("{name} v{number}"), name=version.name, number=version.number)


def _load_of_total(row: LeftoverRow, shelf: Shelf, texts: Texts) -> str:
    mix = mix_of(row, shelf)
    if mix is None or mix.load is None:
        return ""
    return load_text(texts, mix.load)


# -- one of them -----------------------------------------------------------------------------------
def view_leftover(row: LeftoverRow, shelf: Shelf, texts: Texts) -> LeftoverView:
    """Put one leftover into words."""
    return LeftoverView(
        row=row,
        facts=tuple(_facts(row, shelf, texts)),
        parts=tuple(_parts(row, shelf, texts)),
        uses=tuple(_use(at, use, texts) for at, use in enumerate(row.uses)),
        findings=tuple(_findings(row, shelf)),
    )


def _facts(row: LeftoverRow, shelf: Shelf, texts: Texts) -> list[str]:
    came = texts(_SOURCES[row.source])
    if row.lot_code:
        came = texts(N_("{source}, lot {lot}"), source=came, lot=row.lot_code)
    kept = texts.quantity(row.mass_g, "mass", step=0.1)
    left = texts.quantity(row.left_g, "mass", step=0.1)
    facts = [came, texts(N_("{left} left of {kept}"), left=left, kept=kept)]
    if recipe := _recipe(row, shelf, texts):
        facts.append(texts(N_("Mixed by {recipe}"), recipe=recipe))
    mix = mix_of(row, shelf)
    if mix is not None and mix.load is not None:
        said = both_bases(texts, actual_load(mix))
        facts.append(texts(N_("Load {load}"), load=said))
    return facts


def _parts(row: LeftoverRow, shelf: Shelf, texts: Texts) -> list[PartShown]:
    whole = row.mass_g
    if not whole:
        return []
    return [
        PartShown(
            key=at,
            name=shelf.names.get(part.item_id, ""),
            role=texts(_ROLES[part.role]),
            amount=texts.quantity(part.mass_g * row.left_g / whole, "mass", step=0.01, both=False),
            share=percent(texts, 100 * part.mass_g / whole),
            mass_g=part.mass_g * row.left_g / whole,
        )
        for at, part in enumerate(row.parts)
    ]


def _use(at: int, use: UseRow, texts: Texts) -> UseShown:
    goal = None
    if use.kind == "pour":
        what = texts(N_("Into a pot, lot {lot}"), lot=use.name or "–")
        goal = None if use.plan_id is None else ("pour_plan", use.plan_id)
    else:
        what = texts(N_("Into a layered jar: {name}"), name=use.name)
        goal = None if use.candle_id is None else ("candles", use.candle_id)
    return UseShown(
        key=at,
        what=what,
        day=texts.day(use.used_on) if use.used_on else "",
        amount=texts.quantity(use.mass_g, "mass", step=0.1, both=False),
        goal=goal,
    )


def _findings(row: LeftoverRow, shelf: Shelf) -> list[Finding]:
    used_g = sum(use.mass_g for use in row.uses)
    found = []
    if used_g > row.mass_g + 1.0:
        data = {"used_g": used_g, "kept_g": row.mass_g}
        found.append(Finding(Rank.NOTE, "leftovers.used-more-than-kept", data))
    if row.left_g <= 0 and not row.archived:
        found.append(Finding(Rank.NOTE, "leftovers.all-used"))
    if row.mass_g and mix_of(row, shelf) is None:
        found.append(Finding(Rank.WATCH, "leftovers.no-wax-in-it"))
    return found
