"""Finished candles on the scale against the declared net weight.

European Union and United Kingdom: the three packers' rules of SI 2006/659 reg. 4 and, as a small
maker weighs every candle of a batch below a hundred, Sched. 2: at most 5 % short by more than the
tolerable error, the plain average not below the declared weight. United States: 16 CFR 500.25 and
the maximum allowable variation of NIST Handbook 133. Local rules and a licensed assessor decide.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank, sort_findings
from wickbench.domain.net_rules import maximum_variation_mg, tolerable_error_mg
from wickbench.domain.net_weight import GRAM_MG, TOLERANCE_MG
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from collections.abc import Sequence

    from wickbench.domain.net_rules import NetRules

SHORT_OF_A_HUNDRED = 5  # at most so many in a hundred may be short by more than the error


def check_weighed(
    rules: NetRules, declared_mg: int, net_g: Sequence[float], region: str
) -> tuple[Finding, ...]:
    """What the net weights of a whole batch say about the declared one.

    Args:
        rules: tables.
        declared_mg: declared net weight in mg.
        net_g: net weight of each candle in g.
        region: ``US``, ``EU`` or ``UK``.

    Returns:
        ``net-weight.average-below``, ``net-weight.far-short``, ``net-weight.too-many-short``;
        nothing when none applies.

    Raises:
        OutOfRange: unknown region, nothing weighed, a weight that is not positive, or a declared
            weight that the region's table does not cover.
    """
    net_mg = [_checked_mg(mass_g) for mass_g in net_g]
    if not net_mg:
        raise OutOfRange("net-weight.none-weighed")
    found = _average(declared_mg, net_mg)
    if region == "US":
        allowed_mg = maximum_variation_mg(rules, declared_mg)
        found += _far_short(declared_mg, net_mg, allowed_mg)
    elif region in rules.tolerable.rule.regions:
        error_mg = tolerable_error_mg(rules, declared_mg)
        found += _far_short(declared_mg, net_mg, 2 * error_mg)
        found += _too_many_short(declared_mg, net_mg, error_mg)
    else:
        raise OutOfRange("net-weight.region-unknown", region=region)
    return sort_findings(found)


def _checked_mg(mass_g: float) -> int:
    if not (math.isfinite(mass_g) and mass_g > 0.0):
        raise OutOfRange("net-weight.out-of-range", given_g=mass_g)
    return int(half_up(mass_g * GRAM_MG))


def _average(declared_mg: int, net_mg: list[int]) -> list[Finding]:
    count = len(net_mg)
    if sum(net_mg) + count * TOLERANCE_MG >= declared_mg * count:
        return []
    average_g = sum(net_mg) / count / GRAM_MG
    data = {"average_g": average_g, "declared_g": declared_mg / GRAM_MG, "count": count}
    return [Finding(Rank.STOPS, "net-weight.average-below", data)]


def _far_short(declared_mg: int, net_mg: list[int], allowed_mg: int) -> list[Finding]:
    short = [mass_mg for mass_mg in net_mg if mass_mg < declared_mg - allowed_mg]
    if not short:
        return []
    data = {
        "count": len(short),
        "least_g": (declared_mg - allowed_mg) / GRAM_MG,
        "lightest_g": min(short) / GRAM_MG,
    }
    return [Finding(Rank.STOPS, "net-weight.far-short", data)]


def _too_many_short(declared_mg: int, net_mg: list[int], error_mg: int) -> list[Finding]:
    short = sum(mass_mg < declared_mg - error_mg for mass_mg in net_mg)
    if short * 100 <= SHORT_OF_A_HUNDRED * len(net_mg):
        return []
    data = {"count": short, "of": len(net_mg), "least_g": (declared_mg - error_mg) / GRAM_MG}
    return [Finding(Rank.STOPS, "net-weight.too-many-short", data)]
