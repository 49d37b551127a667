"""A recipe as the person sees it: the list, one version with amounts, checks and findings."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from wickbench.app.mixes import MixDensities, densities_or_none, facts_of, recipe_of
from wickbench.app.recipe_density import DensePart, dense_parts
from wickbench.app.recipe_findings import findings_of
from wickbench.app.recipe_words import load_text, version_name
from wickbench.app.references import name_key
from wickbench.domain.catalog import RecipeVersion
from wickbench.domain.costs import share_out
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.oil_blend import OilBlend, oil_blend
from wickbench.domain.recipe_checks import (
    Checked,
    oil_checks,
    strictest_load,
)
from wickbench.domain.recipes import Load, Recipe, Role, mix_parts
from wickbench.domain.rounding import half_up
from wickbench.storage import records
from wickbench.storage.catalog import load_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace
    from wickbench.domain.catalog import RecipePart

_SCALARS = ("heat_to_c", "add_oil_c", "pour_c", "stir_min", "cure_days", "note")


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeRow:
    """A recipe in the list, told by its newest version."""

    id: int
    name: str
    number: int
    state: str
    load: Load | None
    put_away: bool
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """How much is to be made: ``mass_g`` of the whole mix, or of wax alone."""

    mass_g: float = 1000.0
    of: str = "mix"


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountRow:
    """One material of the mix; masses are whole steps and sum to the total of the table."""

    material: int
    name: str
    role: str
    mass_g: float
    share_percent: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OilRow:
    """An oil against its certificate; shares are percent of the finished candle."""

    material: int
    name: str
    share_percent: float
    limit_percent: float | None
    state: Checked
    flash_c: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeView:
    """Everything that is shown of one version.

    Attributes:
        version: stored, or as it is being typed.
        step_g: whole steps in which the amounts are told.
        amounts: each material of the mix; empty until there is wax.
        total_g: what the amounts sum to.
        oils: each oil against its certificate.
        blend: the oils as one: density and lowest flash point.
        limit: the wax that allows least oil, and its limit.
        mix: densities hot and set.
        dense: what they are made of.
        findings: everything worth saying, most pressing first.
    """

    version: RecipeVersion
    step_g: float
    amounts: tuple[AmountRow, ...]
    total_g: float
    oils: tuple[OilRow, ...]
    limit: tuple[str, Load] | None
    mix: MixDensities | None
    findings: tuple[Finding, ...]
    blend: OilBlend | None = None
    dense: tuple[DensePart, ...] = ()


def recipe_rows(
    workspace: Workspace, shelf: Shelf, *, put_away: bool = False
) -> tuple[RecipeRow, ...]:
    """The list by name; recipes that were put away only when asked for."""
    with workspace.read() as connection:
        known = records.fetch_all(connection, "recipe")
    recipes = [recipe for recipe in known if put_away or not recipe["archived"]]
    newest = {version.recipe_id: version for version in shelf.newest_versions()}
    rows = [
        _row(recipe, newest[recipe_id], shelf, workspace.texts)
        for recipe in recipes
        if (recipe_id := int(str(recipe["id"]))) in newest
    ]
    return tuple(sorted(rows, key=lambda row: (name_key(row.name), row.id)))


def _row(
    recipe: Mapping[str, object], version: RecipeVersion, shelf: Shelf, texts: Texts
) -> RecipeRow:
    materials = [shelf.names.get(part.item_id or 0, "") for part in version.parts]
    words = [
        recipe["name"], recipe["scent_words"], recipe["note"], version_name(texts, version),
        load_text(texts, version.load), *materials,
    ]  # fmt: skip
    return RecipeRow(
        id=version.recipe_id,
        name=str(recipe["name"] or ""),
        number=version.number,
        state=version.state,
        load=version.load,
        put_away=bool(recipe["archived"]),
        words=" ".join(str(word) for word in words if word),
    )


def recipe_values(workspace: Workspace, recipe: int | None) -> dict[str, object]:
    """Presented row of a recipe: name, scent words, notes; empty for ``None``."""
    if recipe is None:
        return {}
    with workspace.read() as connection:
        return records.fetch(connection, "recipe", recipe)


def versions_of(shelf: Shelf, recipe: int) -> tuple[RecipeVersion, ...]:
    """Versions of a recipe, the newest first."""
    own = [version for version in shelf.versions.values() if version.recipe_id == recipe]
    return tuple(sorted(own, key=lambda version: -version.number))


def drafted(
    version: RecipeVersion,
    typed: Mapping[str, object],
    amounts: Mapping[int, float | None] | None = None,
) -> RecipeVersion:
    """The version with values that are being typed in place of the stored ones.

    Args:
        version: as stored.
        typed: fields of the version by presented name.
        amounts: amounts of parts by the part's key.
    """
    changed: dict[str, Any] = {name: typed[name] for name in _SCALARS if name in typed}
    if "load_percent" in typed or "load_basis" in typed:
        changed["load"] = load_of(typed.get("load_percent"), typed.get("load_basis"))
    parts = tuple(_with_amount(part, amounts or {}) for part in version.parts)
    return replace(version, parts=parts, **changed)


def _with_amount(part: RecipePart, amounts: Mapping[int, float | None]) -> RecipePart:
    if part.id not in amounts:
        return part
    if part.role in {"wax", "fragrance"}:
        return replace(part, parts=amounts[part.id])
    return replace(part, of_wax_percent=amounts[part.id])


def view_recipe(
    version: RecipeVersion,
    shelf: Shelf,
    wanted: Wanted,
    step_g: float = 0.1,
    *,
    basis_missing: bool = False,
) -> RecipeView:
    """Work one version out, stored or as it is being typed.

    Args:
        version: stored, or `drafted`.
        shelf: materials, candles, what heats the pots.
        wanted: how much is to be made.
        step_g: amounts are told in whole steps of this.
        basis_missing: a load is filled in without saying of what.
    """
    try:
        recipe = recipe_of(version, shelf)
    except DomainError as error:
        return _unreadable(version, step_g, error)
    facts = facts_of(shelf)
    rows, total_g = _amounts(recipe, shelf, wanted, step_g)
    strictest = strictest_load(recipe, facts)
    mix = densities_or_none(version, shelf)
    findings = findings_of(version, recipe, shelf)
    if basis_missing:
        findings = (Finding(Rank.WATCH, "recipe-dock.basis-missing"), *findings)
    return RecipeView(
        version=version,
        step_g=step_g,
        amounts=rows,
        total_g=total_g,
        oils=_oils(recipe, shelf) if rows else (),
        limit=(facts.wax(strictest[0]).name, strictest[1]) if strictest else None,
        mix=mix,
        findings=sort_findings(list(findings)),
        blend=oil_blend(recipe, facts) if rows else None,
        dense=dense_parts(recipe, facts, mix) if mix is not None else (),
    )


def _unreadable(version: RecipeVersion, step_g: float, error: DomainError) -> RecipeView:
    said = Finding(Rank.STOPS, error.key, error.data)
    return RecipeView(
        version=version, step_g=step_g, amounts=(), total_g=0.0, oils=(), limit=None, mix=None,
        findings=(said,),
    )  # fmt: skip


def _amounts(
    recipe: Recipe, shelf: Shelf, wanted: Wanted, step_g: float
) -> tuple[tuple[AmountRow, ...], float]:
    """Whole steps of each material, shared by largest remainder so that they close."""
    try:
        parts = mix_parts(recipe)
    except DomainError:
        return (), 0.0
    wax = sum(part.share for part in parts if part.role is Role.WAX)
    total_g = wanted.mass_g / wax if wanted.of == "wax" else wanted.mass_g
    steps = int(half_up(total_g / step_g))
    shared = share_out(steps, [part.share for part in parts])
    rows = tuple(
        AmountRow(
            material=part.material,
            name=shelf.names.get(part.material, ""),
            role=part.role.value,
            mass_g=whole * step_g,
            share_percent=100 * part.share,
        )
        for part, whole in zip(parts, shared, strict=True)
    )
    return rows, steps * step_g


def _oils(recipe: Recipe, shelf: Shelf) -> tuple[OilRow, ...]:
    facts = facts_of(shelf)
    return tuple(
        OilRow(
            material=check.material,
            name=facts.oil(check.material).name,
            share_percent=check.share_percent,
            limit_percent=check.limit_percent,
            state=check.state,
            flash_c=facts.oil(check.material).flash_c,
        )
        for check in oil_checks(recipe, facts)
    )
