"""How candles read: wicks, weights, tests, and how the net weight came about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wickbench.app.recipe_fields import TEST_STATE_NAMES
from wickbench.app.texts_marker import N_
from wickbench.app.vessel_texts import estimated_mass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.app.candle_net import PlannedNet, Proposal
    from wickbench.app.candle_state import Tested
    from wickbench.app.shelf import Shelf
    from wickbench.app.texts import Texts
    from wickbench.domain.catalog import TestRecord

STATE_LOOKS = {"passed": "fine", "test_again": "watch", "in_test": "", "untested": "quiet"}
STATE_ICONS = {
    "passed": "fine", "test_again": "watch", "in_test": "burn-tests", "untested": "note",
}  # fmt: skip
REGION_NAMES = {
    "US": N_("United States"), "EU": N_("European Union"), "UK": N_("United Kingdom"),
}  # fmt: skip


def wicks_text(texts: Texts, wick_ids: Sequence[int], shelf: Shelf) -> str:
    """Wicks of a candle: "2 × Flat cotton 6"; "no wick" for a melt."""
    if not wick_ids:
        return texts(N_("no wick"))
    names = [shelf.names.get(key, "") for key in wick_ids]
    said = []
    for name in dict.fromkeys(names):
        count = names.count(name)
        said.append(name if count == 1 else f"{count} × {name}")
    return ", ".join(said)


def state_text(texts: Texts, found: Tested) -> str:
    """The tested state with who and when: "passed · 29 September 2026 · Ida"."""
    record = found.record
    parts = [texts(TEST_STATE_NAMES[found.state])]
    if record is not None and found.state == record.state:
        if record.tested_on:
            parts.append(texts.day(record.tested_on))
        if record.tested_by:
            parts.append(record.tested_by)
    return " · ".join(parts)


def verdict_text(texts: Texts, record: TestRecord) -> str:
    """A verdict of the history with day and name."""
    parts = [texts(TEST_STATE_NAMES[record.state])]
    if record.tested_on:
        parts.append(texts.day(record.tested_on))
    if record.tested_by:
        parts.append(record.tested_by)
    return " · ".join(parts)


def given_on_text(texts: Texts, record: TestRecord) -> str:
    """What a verdict was given on: version, vessel, wicks."""
    was = record.made_of or {}
    wicks = was.get("wicks")
    names = ", ".join(map(str, wicks)) if isinstance(wicks, list) and wicks else ""
    parts = [str(was.get("version") or ""), str(was.get("vessel") or "")]
    if was:
        parts.append(names or texts(N_("no wick")))
    return " · ".join(part for part in parts if part)


def net_text(texts: Texts, net: PlannedNet | None) -> str:
    """The planned net weight: "207.3 g · 7.3 oz", or "203–211 g · 7.2–7.4 oz (estimate)"."""
    if net is None:
        return ""
    weight = texts.quantity(net.net_g, "mass")
    if net.estimate and not net.weighed_in:
        weight = estimated_mass(texts, net.low_g, net.high_g)
    if net.weighed_in:
        return texts(N_("{weight} of wax, oil and dye weighed in"), weight=weight)
    said = texts(N_("{weight} of wax, oil and dye to the line"), weight=weight)
    return texts(N_("{said} (estimate)"), said=said) if net.estimate else said


def proposal_lines(texts: Texts, found: Sequence[Proposal]) -> tuple[str, ...]:
    """The largest declaration for each region, rounded down as its rule wants."""
    return tuple(
        texts(
            N_("{region}: {text} at most"),
            region=texts(REGION_NAMES[one.region]),
            text=one.declared.text,
        )
        for one in found
    )


def declared_texts(texts: Texts, lines: Sequence[tuple[str, str]]) -> tuple[str, ...]:
    """The declaration as it would be printed in each region."""
    return tuple(
        texts(N_("{region}: “{text}”"), region=texts(REGION_NAMES[region]), text=text)
        for region, text in lines
    )


def passed_text(texts: Texts, found: Sequence[tuple[str, str]]) -> str:
    """Which wicks passed before in this vessel, and with what."""
    if not found:
        return ""
    said = "; ".join(
        texts(N_("{wicks} with {recipe}"), wicks=wicks or texts(N_("no wick")), recipe=recipe)
        for wicks, recipe in found
    )
    return texts(N_("Passed before in this vessel: {said}."), said=said)


def how_net(texts: Texts, net: PlannedNet | None) -> tuple[str, ...]:
    """How the net weight and its declaration came about."""
    if net is None:
        return ()
    liquid = N_(
        "Net weight is wax, fragrance oil and dye; wick, vessel, lid and other additives "
        "do not count: {volume} to the line × {density} liquid × {share} of the mix."
    )
    full_once_set = N_(
        "Net weight is wax, fragrance oil and dye; wick, vessel, lid and other additives "
        "do not count. The set wax meets the line: {volume} × {density} set × {share} of the mix."
    )
    return (
        texts(
            full_once_set if net.until_set else liquid,
            volume=texts.quantity(net.line_ml, "volume"),
            density=texts.quantity(net.g_per_ml, "density"),
            share=texts.quantity(100 * net.net_share, "percent"),
        ),
        texts(
            N_(
                "A declaration is rounded down, never up, in both units. United States: ounces "
                "first, metric beside (15 U.S.C. 1453, 16 CFR 500). European Union and United "
                "Kingdom: metric (Directive 76/211/EEC, SI 2006/659). Local rules and a licensed "
                "assessor decide."
            )
        ),
    )
