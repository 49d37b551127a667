"""The words and figures of a vessel card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.air_pressure import pressure_text
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_fields import GLASS_NAMES, LEVEL_NAMES, VESSEL_KIND_NAMES
from wickbench.app.vessel_labels import headspace_lines
from wickbench.app.vessel_results import DOUBT_NAMES, box_line, capacity_lines, contents_lines
from wickbench.app.vessel_texts import estimate_mark, length, masses, set_level, volume
from wickbench.app.vessel_wick import cut_length
from wickbench.documents.vessel_card import VesselCard

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.app.vessels import VesselView
    from wickbench.domain.catalog import WeighingRow
    from wickbench.domain.vessels import Capacity

_HEADINGS = (N_("To the"), N_("Jar"), N_("Empty"), N_("With water"), N_("Water"))


def vessel_card(view: VesselView, texts: Texts, settings: Settings) -> VesselCard:
    """The card of a vessel as it is stored.

    Args:
        view: the vessel worked out, with the recipe that it is filled with.
        texts: language and units of papers.
        settings: regions sold in.
    """
    vessel = view.vessel
    rows = [row for row in vessel.weighings if row.empty_g is not None or row.filled_g is not None]
    return VesselCard(
        title=vessel.name or texts(N_("Vessel without a name")),
        subtitle=_subtitle(view, texts),
        facts=_facts(view, texts, settings),
        headings=tuple(texts(heading) for heading in _HEADINGS),
        weighings=_rows(rows, texts),
        notes=_notes(view, texts, settings),
        drawing=view.drawing,
        scale=texts(N_("Scale")),
    )


def _subtitle(view: VesselView, texts: Texts) -> str:
    vessel = view.vessel
    parts = [
        texts(VESSEL_KIND_NAMES.get(vessel.vessel_kind or "", "")),
        texts(GLASS_NAMES.get(vessel.glass or "", "")),
        vessel.supplier or "",
        vessel.code or "",
    ]
    if vessel.candle_rated and vessel.rated_by:
        parts.append(texts(N_("rated for candles by {who}"), who=vessel.rated_by))
    return " · ".join(part for part in parts if part)


def _facts(view: VesselView, texts: Texts, settings: Settings) -> tuple[tuple[str, str], ...]:
    measures = view.measures
    found = [
        (texts(N_("Fill line (hot)")), _held(measures.line_ml, measures.line_from, texts)),
        (texts(N_("Brim")), _held(measures.brim_ml, measures.brim_from, texts)),
    ]
    if measures.fill_mm is not None:
        height = length(texts, measures.fill_mm)
        found.append((texts(N_("Fill line above the inside of the base")), height))
    if view.levels is not None:
        said, estimate = set_level(texts, view.levels)
        mark = f" {estimate_mark(texts)}" if estimate else ""
        found.append((texts(N_("Set level")), f"{said}{mark}"))
    found.append(
        (texts(N_("Headspace")), ", ".join(headspace_lines(view.measures, view.levels, texts)))
    )
    if view.cut is not None:
        trim = length(texts, view.cut.trim_mm)
        name = texts(N_("Cut wicks to, to stand {trim} above the wax"), trim=trim)
        found.append((name, cut_length(texts, view.cut)))
    if view.contents is not None:
        name = texts(
            N_("{name}, version {n}"), name=view.contents.recipe, n=str(view.contents.version)
        )
        found.append((name, "\n".join(contents_lines(view.contents, texts, settings))))
    return tuple((name, value) for name, value in found if value)


def _ended(sentence: str) -> str:
    return sentence if sentence.endswith(".") else f"{sentence}."


def _spreads(capacity: Capacity | None, texts: Texts) -> tuple[str, ...]:
    """How far jars and repeats lie apart, as standard deviations, and the biggest doubt."""
    if capacity is None:
        return ()
    said = []
    if capacity.spread_between_ml is not None:
        s = texts.number(capacity.spread_between_ml, 1)
        jars = str(capacity.n_vessels)
        said.append(texts(N_("{jars} jars differ by s = {s} mL."), jars=jars, s=s))
    if capacity.spread_within_ml is not None:
        s = texts.number(capacity.spread_within_ml, 1)
        said.append(texts(N_("Repeats in one jar: s = {s} mL."), s=s))
    doubt = texts(DOUBT_NAMES[capacity.biggest_doubt[0]])
    said.append(texts(N_("Biggest doubt: {doubt}."), doubt=doubt))
    return tuple(said)


def _held(value_ml: float | None, source: str, texts: Texts) -> str:
    if value_ml is None:
        return ""
    said = volume(texts, value_ml)
    return said if source == "weighed" else f"{said} {estimate_mark(texts)}"


def _rows(rows: Sequence[WeighingRow], texts: Texts) -> tuple[tuple[str, ...], ...]:
    empty = masses(texts, [row.empty_g for row in rows])
    filled = masses(texts, [row.filled_g for row in rows])
    return tuple(
        tuple(
            shown or "–"
            for shown in (
                texts(LEVEL_NAMES.get(row.level, "")),
                "" if row.vessel_no is None else str(row.vessel_no),
                dry,
                wet,
                "" if row.water_c is None else texts.units.full(row.water_c, "temperature"),
            )
        )
        for row, dry, wet in zip(rows, empty, filled, strict=True)
    )


def _notes(view: VesselView, texts: Texts, settings: Settings) -> tuple[str, ...]:
    notes = []
    for name, capacity in (
        (N_("To the line: {what}"), view.measures.line),
        (N_("To the brim: {what}"), view.measures.brim),
    ):
        lines = [*capacity_lines(capacity, texts), *_spreads(capacity, texts)]
        if lines:
            notes.append(texts(name, what=" ".join(_ended(line) for line in lines)))
    if notes:
        method = texts(
            N_(
                "Measured with water and a scale after ISO 8655-6; ± covers the mean in 95 of "
                "100 cases (JCGM 100:2008)."
            )
        )
        notes.append(f"{method} {pressure_text(settings, texts)}")
    said = box_line(view, texts)
    return (*notes, said) if said else tuple(notes)
