"""Rules about net weight that are tables: height of figures, panel area, errors allowed.

The tables are data with source, date and region; the functions read them. Local rules and a
licensed assessor decide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from wickbench.domain.errors import OutOfRange

GRAM_MG = 1_000
MM2_PER_CM2 = 100.0


@dataclass(frozen=True, slots=True)
class Rule:
    """Where a table stands.

    Attributes:
        source: the law or handbook.
        date: of the text the table was taken from.
        regions: among ``US``, ``EU`` and ``UK``.
        tag: how well it is known: read, secondary or memory.
    """

    source: str
    date: str
    regions: frozenset[str]
    tag: str


@dataclass(frozen=True, slots=True)
class HeightRow:
    """Least height of the figures up to a size: panel area in cm² (US) or nominal grams."""

    up_to: float
    printed_mm: float
    raised_mm: float


@dataclass(frozen=True, slots=True)
class ErrorRow:
    """Error allowed up to a nominal weight: either percent of it or grams."""

    up_to_g: float
    percent: float
    mass_g: float


@dataclass(frozen=True, slots=True)
class HeightTable:
    """Least heights of figures, rows in rising order."""

    rule: Rule
    rows: tuple[HeightRow, ...]


@dataclass(frozen=True, slots=True)
class ErrorTable:
    """Errors allowed, rows in rising order.

    Attributes:
        rule: where it stands.
        from_g: lightest nominal weight it covers, in g.
        up_to_g: heaviest, in g.
        step_mg: percentages are rounded up to this, in mg; 0 for not rounded.
        rows: the table.
    """

    rule: Rule
    from_g: float
    up_to_g: float
    step_mg: int
    rows: tuple[ErrorRow, ...]


@dataclass(frozen=True, slots=True)
class NetRules:
    """All tables about net weight.

    Attributes:
        panel_share: part of height times circumference that is the principal display panel.
        panel_rule: where that stands.
        heights_by_panel: least heights by panel area in cm² (US).
        heights_by_nominal: least heights by nominal weight in g (EU, UK).
        tolerable: tolerable negative error of one pack (EU, UK).
        variation: maximum allowable variation of one pack (US).
    """

    panel_share: float
    panel_rule: Rule
    heights_by_panel: HeightTable
    heights_by_nominal: HeightTable
    tolerable: ErrorTable
    variation: ErrorTable


def pdp_area_cm2(rules: NetRules, height_mm: float, diameter_mm: float) -> float:
    """Area of a cylinder's principal display panel, in cm².

    Args:
        rules: tables.
        height_mm: height without shoulders, neck, top and bottom, in mm.
        diameter_mm: outer diameter in mm.

    Raises:
        OutOfRange: a measure that is not positive.
    """
    for measure_mm in (height_mm, diameter_mm):
        if not (math.isfinite(measure_mm) and measure_mm > 0.0):
            raise OutOfRange("net-weight.measure", given_mm=measure_mm)
    return rules.panel_share * height_mm * math.pi * diameter_mm / MM2_PER_CM2


def min_figure_height_mm(
    rules: NetRules,
    region: str,
    *,
    pdp_area_cm2: float | None = None,
    nominal_g: float | None = None,
    raised: bool = False,
) -> float:
    """Least height of the figures of a net weight, in mm.

    Args:
        rules: tables.
        region: ``US`` reads the panel area, ``EU`` and ``UK`` the nominal weight.
        pdp_area_cm2: area of the principal display panel in cm².
        nominal_g: nominal weight in g.
        raised: blown, embossed or moulded figures (US only; the others make no difference).

    Raises:
        OutOfRange: unknown region, or the size the region needs is missing or not positive.
    """
    table = _height_table(rules, region)
    size = pdp_area_cm2 if table is rules.heights_by_panel else nominal_g
    if size is None or not (math.isfinite(size) and size > 0.0):
        raise OutOfRange("net-weight.size-missing", region=region)
    for row in table.rows:
        if size <= row.up_to:
            return row.raised_mm if raised else row.printed_mm
    raise OutOfRange("net-weight.size-missing", region=region)


def tolerable_error_mg(rules: NetRules, nominal_mg: int) -> int:
    """Tolerable negative error of one pack in the EU and UK, in mg, rounded up to 0.1 g.

    Raises:
        OutOfRange: nominal weight outside 5 g to 25 kg.
    """
    return _allowed_mg(rules.tolerable, nominal_mg)


def maximum_variation_mg(rules: NetRules, labelled_mg: int) -> int:
    """Maximum allowable variation of one pack in the US, in mg.

    Raises:
        OutOfRange: labelled weight that is not positive.
    """
    return _allowed_mg(rules.variation, labelled_mg)


def _height_table(rules: NetRules, region: str) -> HeightTable:
    for table in (rules.heights_by_panel, rules.heights_by_nominal):
        if region in table.rule.regions:
            return table
    raise OutOfRange("net-weight.region-unknown", region=region)


def _allowed_mg(table: ErrorTable, nominal_mg: int) -> int:
    nominal_g = nominal_mg / GRAM_MG
    if not table.from_g <= nominal_g <= table.up_to_g or nominal_mg <= 0:
        raise OutOfRange("net-weight.out-of-range", given_g=nominal_g)
    row = next(row for row in table.rows if nominal_g <= row.up_to_g)
    if not row.percent:
        return round(row.mass_g * GRAM_MG)
    parts_per_1000 = round(row.percent * 10)  # percent in the tables has one decimal at most
    step_mg = table.step_mg or 1
    return -(-nominal_mg * parts_per_1000 // (GRAM_MG * step_mg)) * step_mg
