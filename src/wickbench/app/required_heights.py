"""Height of the figures and letters of the net weight against each region's table."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from wickbench.app.label_check import Checked
from wickbench.app.label_rules import TextRule, rule_of, ruled
from wickbench.app.standards import net_rules
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.net_rules import (
    MM2_PER_CM2,
    HeightTable,
    min_figure_height_mm,
    pdp_area_cm2,
)

if TYPE_CHECKING:
    from wickbench.app.label_check import LabelCheck
    from wickbench.app.net_lines import NetLine
    from wickbench.domain.catalog import Vessel

SLACK_MM: Final = 0.005
MM_PER_INCH: Final = 25.4
_SIXTEENTHS: Final = 16


def height_findings(check: LabelCheck) -> Checked:
    """Height of the declaration in each region sold in."""
    line = check.declared
    if line is None or not line.draws or check.candle is None:
        return Checked()
    wrong: list[Finding] = []
    well: list[Finding] = []
    for region in check.regions:
        measured = _measured(check, line, region)
        (well if measured is not None and measured.rank is Rank.NOTE else wrong).extend(
            [measured] if measured is not None else _unknown(region)
        )
        wrong += _narrow(line, region)
    return Checked(tuple(wrong), tuple(well))


def height_mm(line: NetLine, region: str) -> float:
    """Height that a region's rule measures.

    In the US the letters and the figures, whichever is lower (16 CFR 500.21(b)); elsewhere the
    figures (SI 2006/659 reg. 8). All from the typeface's own glyphs at the size they came to.
    """
    figures = line.figures_mm()
    return min(figures, line.letters_mm()) if region == "US" else figures


def least_mm(check: LabelCheck, region: str) -> float | None:
    """Least height in a region; ``None`` when what it follows from is not known."""
    candle = check.candle
    nominal_g = candle.declared_net_g if candle is not None else None
    area_cm2 = panel_of(check)
    if (region == "US" and area_cm2 is None) or (region != "US" and not nominal_g):
        return None
    return min_figure_height_mm(net_rules(), region, pdp_area_cm2=area_cm2, nominal_g=nominal_g)


def panel_of(check: LabelCheck) -> float | None:
    """Area of the principal display panel, whatever the label's size, in cm².

    A lid that carries the label is itself the panel (16 CFR 500.21(a)(3)).
    """
    if check.laid.design.kind == "lid":
        across = check.lid_mm or (check.vessel.outer_top_mm if check.vessel else None)
        return math.pi * across**2 / 4 / MM2_PER_CM2 if across else None
    return panel_cm2(check.vessel)


def panel_cm2(vessel: Vessel | None) -> float | None:
    """Front panel of a round vessel from its straight label zone; ``None`` when not measured."""
    if vessel is None:
        return None
    sides = [side for side in (vessel.outer_top_mm, vessel.outer_bottom_mm) if side]
    if not sides:
        return None
    from_mm, to_mm = vessel.straight_from_mm, vessel.straight_to_mm
    high = to_mm - from_mm if from_mm is not None and to_mm is not None else vessel.outer_height_mm
    if not high or high <= 0:
        return None
    return pdp_area_cm2(net_rules(), high, math.fsum(sides) / len(sides))


def _measured(check: LabelCheck, line: NetLine, region: str) -> Finding | None:
    """The height against the least one; ``None`` when that cannot be told."""
    least = least_mm(check, region)
    if least is None:
        return None
    have = height_mm(line, region)
    small = have + SLACK_MM < least
    by_panel = region == "US"
    # Hundredths, one down and one up, so that they never look the same when one is too small.
    data: dict[str, object] = {
        "height": math.floor(have * 100 + 1e-6) / 100,
        "least": math.ceil(least * 100 - 1e-6) / 100,
    }
    if by_panel:
        data |= {"area_cm2": round(panel_of(check) or 0.0), "inches": inches(least)}
    key = f"figures-{'small' if small else 'well'}{'-panel' if by_panel else ''}"
    told = ruled(_table_rule(region), key, ("element", line.at), data)
    # The heights of the US are from memory, yet nothing is more often wrong on a label: watch.
    return Finding(Rank.WATCH if small else Rank.NOTE, told.key, told.data, told.about)


def inches(height_mm: float) -> str:
    """A height of the table as it stands there, in parts of an inch: ``1/8``."""
    return str(Fraction(height_mm / MM_PER_INCH).limit_denominator(_SIXTEENTHS))


def _unknown(region: str) -> list[Finding]:
    """In the US the panel is not known; elsewhere nothing is declared, which is told already."""
    if region != "US":
        return []
    return [ruled(_table_rule(region), "panel-unknown", rank=Rank.NOTE)]


def _narrow(line: NetLine, region: str) -> list[Finding]:
    rule = rule_of("net-narrow", region)
    if rule is None or line.narrowest() <= rule.numbers["most_high_to_wide"]:
        return []
    return [ruled(rule, "net-narrow", ("element", line.at))]


def _table_rule(region: str) -> TextRule:
    rules = net_rules()
    tables: tuple[HeightTable, ...] = (rules.heights_by_panel, rules.heights_by_nominal)
    rule = next(table.rule for table in tables if region in table.rule.regions)
    return TextRule(key="heights", region=region, source=rule.source, date=rule.date, tag=rule.tag)
