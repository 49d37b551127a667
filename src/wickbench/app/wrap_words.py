"""Ways to fit a label to a vessel, in words, and how their measures came about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.label_wraps import curved_plan, wrap_plan
from wickbench.app.texts_marker import N_
from wickbench.domain.wrap_fit import (
    CLEARANCE_MM,
    FRONT_SHARE,
    MOST_RISE_MM,
    USUAL_OVERLAP_MM,
)
from wickbench.domain.wrap_joins import fits_page

if TYPE_CHECKING:
    from wickbench.app.label_wraps import WrapPlan
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import Vessel
    from wickbench.domain.labels import LabelDesign


def fit_choices(
    vessel: Vessel, texts: Texts, design: LabelDesign, page_mm: tuple[float, float]
) -> tuple[tuple[str, WrapPlan], ...]:
    """All the way round, over the front, and curved as large as it is: words and plan of each.

    Args:
        vessel: what the label goes round.
        texts: for the words.
        design: the label as it is; the overlap of a wrap is kept.
        page_mm: width and height of the page that is usually printed on.

    Raises:
        OutOfRange: ``wrap.measure-first`` or ``wrap.no-room``.
    """
    overlap = design.overlap_mm if design.shape == "wrap" else 0.0
    whole = wrap_plan(vessel, texts, overlap_mm=overlap or USUAL_OVERLAP_MM)
    front = wrap_plan(vessel, texts, share=FRONT_SHARE)
    found = [(N_("All the way round: {size}"), whole), (N_("Over the front: {size}"), front)]
    wall = whole.zone.wall
    rise = wall.rise_mm(whole.zone.middle_mm, design.width_mm)
    if design.shape != "wrap" and rise > MOST_RISE_MM:
        found.append(
            (N_("As large as it is, but curved: {size}"), curved_plan(vessel, texts, design))
        )
    return tuple(
        (texts(words, size=plan_words(texts, plan, page_mm)), plan) for words, plan in found
    )


def plan_words(texts: Texts, plan: WrapPlan, page_mm: tuple[float, float]) -> str:
    """Size of a fitted label; marked when it is an estimate or goes onto no usual page."""
    size = plan.size
    sides = {"width_mm": size.width_mm, "height_mm": size.height_mm}
    said = texts(N_("{width_mm} × {height_mm}"), **sides)
    if plan.bent and size.bottom_mm != size.top_mm:
        said = texts(N_("{size}, curved"), size=said)
    if not fits_page(size.paper_mm, page_mm):
        said = texts(N_("{size}, longer than a page"), size=said)
    return said if plan.sure else texts(N_("{size} (estimate)"), size=said)


def how_fitted(texts: Texts, plan: WrapPlan, design: LabelDesign) -> tuple[str, ...]:
    """How the measures of a label that goes all the way round came about.

    Args:
        texts: for the words.
        plan: all the way round.
        design: the label as it is.
    """
    size, zone = plan.size, plan.zone
    wall = zone.wall
    steps = [
        texts(
            N_(
                "Way round at the label’s middle: π × {diameter_mm} = {around_mm}; with "
                "{overlap_mm} of overlap the label is {width_mm} long. 5 to 6 mm of overlap are "
                "usual (common practice, no source)."
            ),
            diameter_mm=wall.diameter_mm(zone.middle_mm),
            around_mm=wall.around_mm(zone.middle_mm),
            overlap_mm=size.overlap_mm,
            width_mm=size.width_mm,
        ),
        _height_step(texts, plan),
    ]
    if wall.tapers:
        steps += [*_taper_steps(texts, plan), _rise_step(texts, plan, design.width_mm)]
    front = N_(
        "Over the front: {share} of the way round, the share that counts as the front panel of "
        "a round vessel in the United States (16 CFR 500.21)."
    )
    steps.append(texts(front, share=texts.quantity(100 * FRONT_SHARE, "percent")))
    return tuple(steps)


def _height_step(texts: Texts, plan: WrapPlan) -> str:
    zone = plan.zone
    if not plan.sure:
        unsure = N_(
            "Where the wall is straight is not measured: the whole height of the outside less a "
            "wide margin counts, from {from_mm} to {to_mm} (estimate)."
        )
        return texts(unsure, from_mm=zone.from_mm, to_mm=zone.to_mm)
    said = N_(
        "Height: the straight part of the wall less {clearance_mm} above and below, from "
        "{from_mm} to {to_mm} above the table (common practice, no source)."
    )
    return texts(said, clearance_mm=CLEARANCE_MM, from_mm=zone.from_mm, to_mm=zone.to_mm)


def _taper_steps(texts: Texts, plan: WrapPlan) -> list[str]:
    size, wall = plan.size, plan.zone.wall
    edges = N_(
        "Diameters at its edges: {bottom_mm} below, {top_mm} above, on a straight line from "
        "{foot_mm} at the foot to {rim_mm} at the rim."
    )
    ring = N_(
        "Such a wall rolls out to a piece of a ring: its radius is half the diameter divided by "
        "the sine of the wall’s lean, {radius_mm} at the label’s middle (geometry of the cone)."
    )
    return [
        texts(
            edges,
            bottom_mm=size.bottom_mm,
            top_mm=size.top_mm,
            foot_mm=wall.bottom_mm,
            rim_mm=wall.top_mm,
        ),
        texts(ring, radius_mm=wall.flat_radius_mm(plan.zone.middle_mm)),
    ]


def _rise_step(texts: Texts, plan: WrapPlan, width_mm: float) -> str:
    """How far the ends of a straight label as wide would stand off."""
    middle = plan.zone.middle_mm
    said = N_(
        "A straight label of {width_mm} would stand off by {rise_mm} at its ends: r − √(r² − "
        "(length ÷ 2)²) with r = {radius_mm} (the rise of an arc over its chord)."
    )
    return texts(
        said,
        width_mm=width_mm,
        rise_mm=plan.zone.wall.rise_mm(middle, width_mm),
        radius_mm=plan.zone.wall.flat_radius_mm(middle),
    )
