"""What was found out about a vessel, in sentences, and how it was computed."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.app.air_pressure import pressure_text
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_texts import (
    doubt,
    estimate_mark,
    estimated_mass,
    length,
    next_vessel,
    volume,
)
from wickbench.app.vessel_wick import cut_text, how_cut
from wickbench.domain.errors import DomainError
from wickbench.domain.net_weight import propose_declared

if TYPE_CHECKING:
    from wickbench.app.settings import Settings
    from wickbench.app.texts import Texts
    from wickbench.app.vessels import Contents, VesselView
    from wickbench.domain.vessels import Capacity

_SAME_PERCENT = 1.0
_HUNDREDTH = 0.01
DOUBT_NAMES = {
    "repeats": N_("how well filling repeats"),
    "vessels": N_("how much the vessels differ"),
    "reading": N_("the step the scale reads to"),
    "scale": N_("the scale itself"),
    "temperature": N_("the temperature of the water"),
    "pressure": N_("the air pressure"),
    "line": N_("seeing where the water stands"),
}


def capacity_lines(capacity: Capacity | None, texts: Texts) -> tuple[str, ...]:
    """A measured capacity with its doubt, and what the next vessel out of the box may differ by."""
    if capacity is None:
        return ()
    first = texts(
        N_("{volume}, {doubt}"),
        volume=volume(texts, capacity.volume_ml),
        doubt=doubt(texts, capacity),
    )
    if capacity.next_vessel_ml is None:
        return (first,)
    about = next_vessel(texts, capacity.next_vessel_ml)
    return first, texts(N_("The next jar out of the box: within about {volume}."), volume=about)


def box_line(view: VesselView, texts: Texts) -> str:
    """What the box says beside what was weighed; empty when they agree or one is unknown."""
    nominal, measures = view.vessel.nominal_ml, view.measures
    brim = measures.brim_ml if measures.brim_from == "weighed" else None
    line = measures.line_ml if measures.line_from == "weighed" else None
    if nominal is None or (brim is None and line is None) or _agree(nominal, brim, line):
        return ""
    data = {
        "nominal": volume(texts, nominal, both=False),
        "brim": "" if brim is None else volume(texts, brim, both=False),
        "line": "" if line is None else volume(texts, line, both=False),
    }
    if line is None:
        return texts(N_("The box says {nominal}; it holds {brim} to the brim."), **data)
    if brim is None:
        return texts(N_("The box says {nominal}; it holds {line} to the line."), **data)
    return texts(
        N_("The box says {nominal}; it holds {brim} to the brim, {line} to the line."), **data
    )


def _agree(nominal: float, brim: float | None, line: float | None) -> bool:
    """Whether the box tells the volume to the line: that is what is poured."""
    told = line if line is not None else brim
    return told is not None and abs(told / nominal - 1) * 100 < _SAME_PERCENT


def contents_lines(contents: Contents | None, texts: Texts, settings: Settings) -> tuple[str, ...]:
    """What it holds of the chosen recipe, and the net weight that may be printed."""
    if contents is None:
        return ()
    weight = _weight(contents, texts, contents.low_g, contents.mix_g, contents.high_g)
    said = texts(N_("{weight} of mix to the hot line"), weight=weight)
    if contents.estimate:
        said = f"{said} {estimate_mark(texts)}"
    lines = [said]
    cells = round(contents.mix_g / contents.per_cell_g) if contents.per_cell_g else 1
    if cells > 1:
        ends = (contents.low_g / cells, contents.per_cell_g, contents.high_g / cells)
        each = _weight(contents, texts, *ends)
        lines.append(texts(N_("{n} cells of {weight} each"), n=str(cells), weight=each))
    printed = _printed(contents, settings)
    if printed:
        lines.append(texts(N_("Net weight at most: {weights}"), weights=" · ".join(printed)))
    return tuple(lines)


def _weight(contents: Contents, texts: Texts, low_g: float, mix_g: float, high_g: float) -> str:
    """A weight; as a range, in one unit so that it stays short, where it is an estimate."""
    if contents.estimate:
        return estimated_mass(texts, low_g, high_g, both=False)
    return texts.quantity(mix_g, "mass")


def _printed(contents: Contents, settings: Settings) -> tuple[str, ...]:
    """The largest declaration for each region sold in; each text once.

    Of an estimate the lower end counts: a printed weight may not be more than what is in.
    """
    sure_g = contents.low_g if contents.estimate else contents.mix_g
    found: list[str] = []
    for region in settings.regions:
        try:
            text = propose_declared(sure_g, region).text
        except DomainError:
            continue
        if text not in found:
            found.append(text)
    return tuple(found)


def cut_line(view: VesselView, texts: Texts) -> str:
    """How long to cut the wicks; empty while that is not known."""
    return cut_text(texts, view.cut)


def how_measured(capacity: Capacity | None, texts: Texts, settings: Settings) -> tuple[str, ...]:
    """How a capacity and its doubt were computed, with formulas and sources."""
    if capacity is None:
        return ()
    return (
        texts(
            N_(
                "Each weighing: (with water − empty) × Z. Z is what a gram of water fills, weighed "
                "in air: Z = (1 − air/8.000) ÷ (water − air), densities in g/mL; about 1.003 mL "
                "at 20 °C. Density of water: Tanaka and others, Metrologia 38 (2001) 301; of air: "
                "OIML R 111, E.3. Procedure as in ISO 8655-6 and ISO 4787."
            )
        ),
        pressure_text(settings, texts),
        texts(
            N_(
                "The mean counts every jar once, however often it was weighed; repeats in one jar "
                "and differences between jars are kept apart (JCGM 100:2008, H.5)."
            )
        ),
        texts(
            N_(
                "The next jar: t · s · √(1 + 1/n), with s the spread of n jars and t of Student’s "
                "distribution: 95 of 100 jars are within it."
            )
        ),
        texts(
            N_(
                "The doubt behind ± joins all of these, u = √Σuᵢ² (JCGM 100:2008, 5.1.2); what can "
                "only be off by so much either way counts as a ÷ √3 (4.3.7):"
            )
        ),
        *_contributions(capacity, texts),
        _expanded(capacity, texts),
    )


def _contributions(capacity: Capacity, texts: Texts) -> tuple[str, ...]:
    parts = sorted(capacity.contributions, key=lambda part: -part[1])
    return tuple(
        texts(
            N_("{doubt}: u = {u} mL, {share} percent of u²"),
            doubt=texts(DOUBT_NAMES[name]),
            u=texts.number(u_ml, 2 if u_ml >= _HUNDREDTH else 4),
            share=_share(100 * (u_ml / capacity.standard_uncertainty_ml) ** 2, texts),
        )
        for name, u_ml in parts
    )


def _share(percent: float, texts: Texts) -> str:
    return texts.number(percent, 0) if percent >= 1 else f"< {texts.number(1, 0)}"


def _expanded(capacity: Capacity, texts: Texts) -> str:
    """Effective degrees of freedom, coverage factor and what they make of the doubt."""
    data = {
        "u": texts.number(capacity.standard_uncertainty_ml, 2),
        "k": texts.number(capacity.coverage_factor, 2),
        "doubt": texts.number(capacity.expanded_uncertainty_ml, 2),
    }
    if math.isinf(capacity.effective_degrees):
        return texts(
            N_(
                "Together u = {u} mL. Nothing was repeated, so no degrees of freedom are lost: "
                "k = {k}, and ± is k · u = {doubt} mL, 95 of 100 cases. How well it repeats is not "
                "in it."
            ),
            **data,
        )
    return texts(
        N_(
            "Together u = {u} mL. Effective degrees of freedom ν = u⁴ ÷ Σ(uᵢ⁴ ÷ νᵢ) = {degrees} "
            "(Welch–Satterthwaite, JCGM 100:2008, G.4.1). Student’s t for them and 95 of 100 cases "
            "is k = {k}, and ± is k · u = {doubt} mL."
        ),
        degrees=texts.number(math.floor(capacity.effective_degrees), 0),
        **data,
    )


def how_filled(view: VesselView, texts: Texts) -> tuple[str, ...]:
    """How the weight of the mix and the set level were computed."""
    if view.contents is None:
        return ()
    said = [
        texts(
            N_(
                "Weight = volume to the line × density of the liquid mix: "
                "1 ÷ ρ = Σ share ÷ density of each part (volumes add up), each at its pouring "
                "temperature: ρ = ρ at 70 °C − 0.00066 × (°C − 70)."
            )
        ),
    ]
    if view.levels is not None:
        fill = length(texts, view.levels.fill_mm)
        said.append(
            texts(
                N_(
                    "Set level: the mass stays, the volume shrinks by liquid ÷ set density. From "
                    "the line at {fill} the volume is taken off along the measured shape."
                ),
                fill=fill,
            )
        )
        if view.levels.estimate:
            said.append(
                texts(
                    N_(
                        "The range comes from the densities that waxes of this class have. A "
                        "measured liquid and set density gives one level."
                    )
                )
            )
    return (*said, *how_cut(texts, view.cut))
