"""Vessels as the person sees them: the list, one vessel with its results, the recipe it is for."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import TYPE_CHECKING, Any

from wickbench.app.measures import Levels, VesselMeasures, levels, measure
from wickbench.app.mixes import densities_or_none, set_lighter
from wickbench.app.references import name_key
from wickbench.app.vessel_advice import advice, usual_wicks, wick_diameter_mm
from wickbench.app.vessel_drawing import VesselDrawing, draw_vessel
from wickbench.app.vessel_fields import VESSEL_KIND_NAMES
from wickbench.app.vessel_labels import DrawnWick
from wickbench.app.vessel_wick import WickCut, wick_cut
from wickbench.domain.catalog import RecipeVersion, Vessel, Wick
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.storage import state

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.app.workspace import Workspace

_REMEMBERED = "vessels_recipe"
_USUAL_TRIM_MM = 6.0
_USUAL_BOARD_MM = 13.0
_TELL_ESTIMATE_PERCENT = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselRow:
    """A vessel in the list; ``line_measured`` is false for what nobody weighed."""

    id: int
    name: str
    brim_ml: float | None
    line_ml: float | None
    brim_measured: bool
    line_measured: bool
    on_hand: float | None
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """What a vessel holds of a recipe, filled hot to its line. Weights are of all cells.

    Attributes:
        recipe: name of the recipe.
        version: its number.
        mix_g: wax, fragrance, dye and additives: what stays in it when it sets.
        low_g, high_g: where the weight may lie when a density is an estimate.
        per_cell_g: weight in one cell.
        estimate: a density or the volume was not measured.
    """

    recipe: str
    version: int
    mix_g: float
    low_g: float
    high_g: float
    per_cell_g: float
    estimate: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselView:
    """Everything that is shown of one vessel.

    Attributes:
        vessel: stored, or as it is being typed.
        measures: what it holds, and its shape.
        levels: hot fill line and set level; ``None`` while the mix is unknown.
        contents: what it holds of the chosen recipe.
        cut: how long to cut its wicks; ``None`` while the set level is unknown.
        drawing: to scale; ``None`` while the inside is unknown.
        findings: everything worth saying, most pressing first.
    """

    vessel: Vessel
    measures: VesselMeasures
    levels: Levels | None
    contents: Contents | None
    cut: WickCut | None
    drawing: VesselDrawing | None
    findings: tuple[Finding, ...]

    def about_weighings(self, level: str) -> tuple[Finding, ...]:
        """Findings about the weighings of a level, most pressing first."""
        rows = {row.id for row in self.vessel.weighings if row.level == level}
        return tuple(
            one
            for one in self.findings
            if one.about[:1] == ("weighing",) and (one.about[1] == level or one.about[1] in rows)
        )

    @property
    def about_shape(self) -> tuple[Finding, ...]:
        """Findings about the inner diameters."""
        return tuple(one for one in self.findings if one.about[:1] == ("shape",))

    @property
    def beside_fields(self) -> dict[str, Finding]:
        """What stops the shape, by the name of the field that it is told beside."""
        told = [one for one in self.findings if one.about[:1] == ("field",)]
        return {str(one.about[1]): one for one in reversed(told)}

    @property
    def general(self) -> tuple[Finding, ...]:
        """All other findings."""
        return tuple(one for one in self.findings if not one.about)


def vessel_rows(shelf: Shelf, settings: Settings, texts: Texts) -> tuple[VesselRow, ...]:
    """The list: vessels that are in use, by name."""
    used = [vessel for vessel in shelf.vessels.values() if not vessel.archived]
    rows = [_row(vessel, shelf, settings, texts) for vessel in used]
    return tuple(sorted(rows, key=lambda row: name_key(row.name)))


def _row(vessel: Vessel, shelf: Shelf, settings: Settings, texts: Texts) -> VesselRow:
    found = measure(vessel, shelf, settings)
    kind = texts(VESSEL_KIND_NAMES.get(vessel.vessel_kind or "", ""))
    words = (vessel.name, vessel.supplier, vessel.code, vessel.note, kind)
    return VesselRow(
        id=vessel.id,
        name=vessel.name,
        brim_ml=found.brim_ml,
        line_ml=found.line_ml,
        brim_measured=found.brim_from == "weighed",
        line_measured=found.line_from == "weighed",
        on_hand=shelf.on_hand.get(vessel.id),
        words=" ".join(word for word in words if word),
    )


def view_vessel(
    vessel: Vessel,
    shelf: Shelf,
    settings: Settings,
    texts: Texts,
    version: RecipeVersion | None = None,
) -> VesselView:
    """Work one vessel out, stored or as it is being typed.

    Args:
        vessel: stored values, or `drafted` ones.
        shelf: scales, candles, materials.
        settings: height above the sea.
        texts: words and units of the drawing.
        version: the recipe whose mix is to fill it; ``None`` for none.
    """
    measures = measure(vessel, shelf, settings)
    mix = densities_or_none(version, shelf)
    found_levels = levels(vessel, measures, mix)
    contents, told = _contents(measures, shelf, version)
    wick = wick_of(vessel, measures, shelf)
    findings = (*measures.findings, *advice(vessel, measures), *told, *set_lighter(mix))
    return VesselView(
        vessel=vessel,
        measures=measures,
        levels=found_levels,
        contents=contents,
        cut=wick_cut(measures, found_levels, wick),
        drawing=draw_vessel(vessel, measures, found_levels, wick, texts),
        findings=sort_findings(list(findings)),
    )


def _contents(
    measures: VesselMeasures, shelf: Shelf, version: RecipeVersion | None
) -> tuple[Contents | None, tuple[Finding, ...]]:
    if version is None or measures.line_ml is None:
        return None, ()
    mix = densities_or_none(version, shelf)
    if mix is None:
        return None, (Finding(Rank.NOTE, "vessel.mix-unknown", {"recipe": version.name}),)
    hot, volume_ml = mix.hot, measures.line_ml
    contents = Contents(
        recipe=version.name,
        version=version.number,
        mix_g=volume_ml * hot.g_per_ml,
        low_g=volume_ml * hot.low,
        high_g=volume_ml * hot.high,
        per_cell_g=volume_ml * hot.g_per_ml / measures.cells,
        estimate=hot.estimate or measures.line_from != "weighed",
    )
    wide = 100 * (hot.high - hot.low) / hot.g_per_ml
    if not hot.estimate or wide < _TELL_ESTIMATE_PERCENT:
        return contents, ()
    data = {"recipe": version.name, "low_g": contents.low_g, "high_g": contents.high_g}
    return contents, (Finding(Rank.NOTE, "vessel.mix-is-estimate", data),)


def wick_of(vessel: Vessel, measures: VesselMeasures, shelf: Shelf) -> DrawnWick:
    """The wicks of a candle in this vessel, else what is usual for its diameter."""
    usual = usual_wicks(vessel, wick_diameter_mm(measures))
    for candle in shelf.candles.values():
        if candle.vessel_id != vessel.id or candle.archived or not candle.wick_ids:
            continue
        details = [
            shelf.materials[key].details for key in candle.wick_ids if key in shelf.materials
        ]
        known = [wick for wick in details if isinstance(wick, Wick)]
        if known:
            return _drawn_wick(known)
    return DrawnWick(count=usual, trim_mm=_USUAL_TRIM_MM)


def _drawn_wick(wicks: list[Wick]) -> DrawnWick:
    first = wicks[0]
    wooden = (first.wick_kind or "").startswith("wooden")
    usual = 4.0 if wooden else _USUAL_TRIM_MM
    return DrawnWick(
        count=len(wicks),
        trim_mm=first.trim_mm if first.trim_mm is not None else usual,
        width_mm=(first.width_mm or _USUAL_BOARD_MM) if wooden else None,
    )


def drafted(vessel: Vessel, typed: Mapping[str, object]) -> Vessel:
    """The vessel with values that are being typed in place of the stored ones."""
    known = {field.name for field in fields(Vessel)} - {"id", "diameters", "weighings"}
    changed = {name: value for name, value in typed.items() if name in known}
    changed["candle_rated"] = bool(changed.get("candle_rated", vessel.candle_rated))
    changed["cells"] = changed.get("cells", vessel.cells) or 1
    changed["name"] = changed.get("name", vessel.name) or ""
    known_values: dict[str, Any] = changed
    return replace(vessel, **known_values)


def remembered_version(workspace: Workspace, shelf: Shelf) -> RecipeVersion | None:
    """Newest version of the recipe chosen last; of the first recipe by name when none was."""
    newest = shelf.newest_versions()
    with workspace.read() as connection:
        recipe = state.setting(connection, _REMEMBERED)
    if recipe == 0:
        return None
    chosen = (version for version in newest if version.recipe_id == recipe)
    return next(chosen, newest[0] if newest else None)


def remember_recipe(workspace: Workspace, recipe: int | None, *, origin: object = None) -> None:
    """Keep which recipe vessels are compared with; ``None`` for none. Undo leaves it alone."""
    with workspace.unjournalled("view", origin=origin) as connection:
        state.set_setting(connection, _REMEMBERED, recipe or 0)
