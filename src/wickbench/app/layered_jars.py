"""A vessel filled with leftovers in layers, while it is put together and when it is made."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from wickbench.app.layered_drawing import JarDrawing, draw_jar
from wickbench.app.leftovers_wanted import mix_of
from wickbench.app.measures import measure_once
from wickbench.app.mixes import facts_of
from wickbench.app.recipe_words import percent
from wickbench.app.texts_marker import N_
from wickbench.domain.errors import DomainError
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.leftover_heights import even_volumes
from wickbench.domain.leftover_layers import Layered, layered
from wickbench.domain.leftovers import Leftover
from wickbench.domain.mixes import densities_of
from wickbench.domain.recipes import mix_parts

if TYPE_CHECKING:
    from wickbench.app.measures import VesselMeasures
    from wickbench.app.settings import Settings
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Vessel

_USUAL_POUR_C = 70.0
_SLACK_G = 1e-6
_OVER = 1.005
"""Half a hundredth over the line is what a hand does anyway."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerDraft:
    """One layer: of which leftover, how much in one vessel; no mass for an even share."""

    leftover_id: int | None = None
    mass_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class JarDraft:
    """What is being put together; layers from bottom to top, ``count`` vessels alike."""

    name: str = ""
    vessel_id: int | None = None
    wick_id: int | None = None
    count: int = 1
    layers: tuple[LayerDraft, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerShown:
    """One layer in words; ``proposed`` says that the mass is the even share."""

    place: int
    leftover_id: int
    name: str
    mass_g: float
    mass: str
    volume: str
    share: str
    proposed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class JarView:
    """What follows from a draft.

    Attributes:
        layers: bottom to top; only those that name a leftover.
        total: mass and volume, and the room up to the fill line, in words.
        verdict: whether every oil's limit holds, and which oil keeps it from being sold.
        for_sale: every oil's limit is known and holds. Nothing else was looked at.
        drawing: the vessel with its layers.
        findings: everything worth saying.
        made: the mix of the whole; ``None`` while there is nothing in it.
        can_make: it can be made as it stands.
    """

    layers: tuple[LayerShown, ...] = ()
    total: str = ""
    verdict: str = ""
    for_sale: bool = False
    drawing: JarDrawing | None = None
    findings: tuple[Finding, ...] = ()
    made: Layered | None = None
    can_make: bool = False


@dataclass(frozen=True, slots=True)
class _Layer:
    """A layer looked up: the leftover's mix with its mass, and its density once set."""

    leftover_id: int
    name: str
    leftover: Leftover
    set_g_per_ml: float
    estimate: bool
    proposed: bool
    there_g: float

    @property
    def volume_ml(self) -> float:
        return self.leftover.mass_g / self.set_g_per_ml


def view_jar(draft: JarDraft, shelf: Shelf, settings: Settings, texts: Texts) -> JarView:
    """Work a layered vessel out as it is being put together."""
    vessel = shelf.vessels.get(draft.vessel_id) if draft.vessel_id is not None else None
    measures = measure_once(vessel, shelf, settings) if vessel is not None else None
    layers = _layers(draft, shelf, measures)
    findings = list(_about_room(layers, measures, draft))
    try:
        made = layered([one.leftover for one in layers], facts_of(shelf))
    except DomainError as error:
        findings.append(Finding(Rank.NOTE, error.key, error.data))
        return JarView(
            findings=sort_findings(findings), drawing=_drawing(vessel, measures, [], texts)
        )
    whole_g = math.fsum(one.leftover.mass_g for one in layers)
    findings += made.findings
    stopped = any(
        one.key in {"leftovers.not-so-much-there", "leftovers.layers-over-brim"} for one in findings
    )
    return JarView(
        layers=tuple(_shown(at, one, whole_g, texts) for at, one in enumerate(layers)),
        total=_total(layers, measures, texts),
        verdict=_verdict(made, texts),
        for_sale=made.for_sale,
        drawing=_drawing(vessel, measures, layers, texts),
        findings=sort_findings(findings),
        made=made,
        can_make=vessel is not None and whole_g > 0 and not stopped,
    )


def _layers(draft: JarDraft, shelf: Shelf, measures: VesselMeasures | None) -> list[_Layer]:
    named = []
    for one in draft.layers:
        row = shelf.leftovers.get(one.leftover_id) if one.leftover_id is not None else None
        mix = mix_of(row, shelf) if row is not None else None
        if row is None or mix is None:
            continue
        pour_c = _USUAL_POUR_C if mix.pour_c is None else mix.pour_c
        density = densities_of(mix_parts(mix), facts_of(shelf), pour_c).set
        left = Leftover(mix, one.mass_g or 0.0)
        named.append(
            _Layer(
                row.id,
                row.name,
                left,
                density.g_per_ml,
                density.estimate,
                one.mass_g is None,
                row.left_g,
            )
        )
    room = measures.line_ml if measures is not None else None
    if not named or room is None or measures is None:
        return named
    typed = [place for place, one in enumerate(named) if not one.proposed]
    there = _there_ml(named, draft.count)
    even = even_volumes(there, room, measures.profile, measures.cells, fixed=typed)
    return [
        replace(one, leftover=Leftover(one.leftover.recipe, _whole_g(volume * one.set_g_per_ml)))
        if one.proposed
        else one
        for one, volume in zip(named, even, strict=True)
    ]


def _whole_g(mass_g: float) -> float:
    """Whole grams, never more than there is."""
    return float(math.floor(mass_g + _SLACK_G))


def _there_ml(layers: list[_Layer], count: int) -> list[float]:
    """What there is of each layer for one vessel: typed layers as typed, the rest evenly."""
    most = []
    for one in layers:
        same = [other for other in layers if other.leftover_id == one.leftover_id]
        open_g = one.there_g / count - math.fsum(
            other.leftover.mass_g for other in same if not other.proposed
        )
        share_g = max(open_g, 0.0) / max(sum(other.proposed for other in same), 1)
        mass_g = share_g if one.proposed else one.leftover.mass_g
        most.append(mass_g / one.set_g_per_ml)
    return most


def _shown(place: int, one: _Layer, whole_g: float, texts: Texts) -> LayerShown:
    share = 100 * one.leftover.mass_g / whole_g if whole_g else 0.0
    return LayerShown(
        place=place,
        leftover_id=one.leftover_id,
        name=one.name,
        mass_g=one.leftover.mass_g,
        mass=texts.quantity(one.leftover.mass_g, "mass", step=0.1, both=False),
        volume=texts.quantity(one.volume_ml, "volume", step=1, both=False),
        share=percent(texts, share),
        proposed=one.proposed,
    )


def _total(layers: list[_Layer], measures: VesselMeasures | None, texts: Texts) -> str:
    mass = texts.quantity(math.fsum(one.leftover.mass_g for one in layers), "mass", step=0.1)
    volume = texts.quantity(
        math.fsum(one.volume_ml for one in layers), "volume", step=1, both=False
    )
    if measures is None or measures.line_ml is None:
        return texts(N_("{mass}, about {volume} once set"), mass=mass, volume=volume)
    room = texts.quantity(measures.line_ml, "volume", step=1, both=False)
    return texts(
        N_("{mass}, about {volume} once set; {room} up to the fill line"),
        mass=mass, volume=volume, room=room,
    )  # fmt: skip


def _verdict(made: Layered, texts: Texts) -> str:
    if made.for_sale:
        return texts(N_("The limit of every oil in it holds. It is untested all the same."))
    names = [str(one.data["name"]) for one in made.findings if one.rank is Rank.STOPS]
    return texts(N_("Not for sale, because of {names}."), names=", ".join(dict.fromkeys(names)))


def _about_room(
    layers: list[_Layer], measures: VesselMeasures | None, draft: JarDraft
) -> list[Finding]:
    found = []
    if draft.vessel_id is None:
        found.append(Finding(Rank.NOTE, "leftovers.choose-vessel"))
    elif measures is not None and measures.line_ml is None:
        found.append(Finding(Rank.NOTE, "leftovers.vessel-unknown"))
    for key in dict.fromkeys(one.leftover_id for one in layers):
        same = [one for one in layers if one.leftover_id == key]
        mass_g = draft.count * math.fsum(one.leftover.mass_g for one in same)
        if mass_g > same[0].there_g + 0.05:
            data = {"name": same[0].name, "mass_g": mass_g, "left_g": same[0].there_g}
            found.append(Finding(Rank.STOPS, "leftovers.not-so-much-there", data))
    volume = math.fsum(one.volume_ml for one in layers)
    if measures is not None and measures.brim_ml is not None and volume > measures.brim_ml:
        data = {"over_ml": volume - measures.brim_ml}
        found.append(Finding(Rank.STOPS, "leftovers.layers-over-brim", data))
    elif measures is not None and measures.line_ml and volume > measures.line_ml * _OVER:
        data = {"over_ml": volume - measures.line_ml}
        found.append(Finding(Rank.WATCH, "leftovers.layers-over-line", data))
    if any(one.estimate for one in layers):
        found.append(Finding(Rank.NOTE, "leftovers.heights-estimated"))
    return found


def _drawing(
    vessel: Vessel | None, measures: VesselMeasures | None, layers: list[_Layer], texts: Texts
) -> JarDrawing | None:
    if measures is None or vessel is None:
        return None
    words = [
        texts(N_("{name}: {mass}"), name=one.name,
              mass=texts.quantity(one.leftover.mass_g, "mass", step=0.1, both=False))
        for one in layers
    ]  # fmt: skip
    return draw_jar(vessel, measures, [one.volume_ml for one in layers], words, texts)
