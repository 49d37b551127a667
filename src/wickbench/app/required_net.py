"""What the printed net weight says: both systems, never too much, no half words round it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from wickbench.app.label_rules import rule_of, ruled
from wickbench.domain.errors import OutOfRange
from wickbench.domain.net_statement import (
    METRIC,
    POUNDS,
    says_fluid_ounces,
    statements_in,
    words_in,
)
from wickbench.domain.net_weight import GRAM_MG, TOLERANCE_MG, declared_for

if TYPE_CHECKING:
    from collections.abc import Iterator

    from wickbench.app.label_check import LabelCheck
    from wickbench.app.label_rules import TextRule
    from wickbench.app.net_lines import NetLine
    from wickbench.domain.findings import Finding
    from wickbench.domain.net_statement import SaidWeight

_NEAR_MG: Final = 500  # a figure written otherwise than we write it may differ by half a gram
_SAME_MM: Final = 0.05
_NEEDED: Final = {"US": (METRIC, POUNDS), "EU": (METRIC,), "UK": (METRIC,)}


def net_findings(check: LabelCheck) -> list[Finding]:
    """What is wrong with the words and figures of the net weight."""
    found = [one for region in check.regions for one in _missing(check, region)]
    line = check.declared
    if line is not None:
        for region in check.regions:
            found += [*_wording(line, region), *_figures(line, region)]
            found += _prominence(check, line, region)
    return [*found, *_amounts(check), *_fluid(check)]


def declared_mg(check: LabelCheck) -> int | None:
    """What the candle declares, in mg; ``None`` while it declares nothing."""
    declared_g = check.candle.declared_net_g if check.candle is not None else None
    return round(declared_g * GRAM_MG) if declared_g else None


def _missing(check: LabelCheck, region: str) -> Iterator[Finding]:
    """No net weight, or not in every system that the region asks for."""
    rule = rule_of("net-systems", region)
    if rule is None or check.laid.design.kind != "jar":
        return
    line = check.declared
    if line is None:
        # A field that has no value yet is told as such: the candle declares nothing.
        if not check.holds("net_weight", "net_weight_first"):
            yield ruled(rule, "net-missing")
        return
    for system in _NEEDED[region]:
        if line.said.of(system) is None:
            key = "net-no-grams" if system == METRIC else "net-no-ounces"
            yield _about(rule, key, line)


def _amounts(check: LabelCheck) -> Iterator[Finding]:
    """Weights on the label against the declared one; of two figures the larger is enforced."""
    mass_mg = declared_mg(check)
    rule = next((rule for one in check.regions if (rule := rule_of("net-amount", one))), None)
    if mass_mg is None or rule is None:
        return
    try:
        right = declared_for(mass_mg, check.regions, check.language)
    except OutOfRange:
        return
    wanted = {weight.system: weight for one in statements_in(right.text) for weight in one.weights}
    for line in check.lines:
        data = {"right": right.text}
        largest = max(line.said.weights, key=lambda one: one.mass_mg)
        if largest.mass_mg > mass_mg + TOLERANCE_MG:
            yield _about(rule, "net-too-much", line, **data)
        elif line is check.declared and _differs(line, wanted):
            yield _about(rule, "net-differs", line, **data)


def _differs(line: NetLine, wanted: dict[str, SaidWeight]) -> bool:
    return any(
        abs(one.mass_mg - wanted[one.system].mass_mg) > _NEAR_MG
        for one in line.said.weights
        if one.system in wanted
    )


def _wording(line: NetLine, region: str) -> Iterator[Finding]:
    """The word before it, its order, and words that belong to no net weight."""
    if (rule := rule_of("net-word", region)) and not line.said.says_net:
        yield _about(rule, "net-word", line)
    if (rule := rule_of("net-order", region)) and line.said.weights[0].system != METRIC:
        yield _about(rule, "net-metric-first", line)
    rule = rule_of("net-plain", region)
    said = words_in(line.text.text, rule.words) if rule is not None else ()
    if rule is not None and said:
        yield _about(rule, "net-plain", line, words=said)


def _prominence(check: LabelCheck, line: NetLine, region: str) -> Iterator[Finding]:
    """Ounces anywhere no larger than the grams of the declaration."""
    rule = rule_of("net-order", region)
    for other in check.lines:
        if rule is None or other is line or other.said.of(POUNDS) is None or not other.draws:
            continue
        if other.figures_mm() > line.figures_mm() + _SAME_MM:
            yield _about(rule, "net-ounces-larger", other)


def _figures(line: NetLine, region: str) -> Iterator[Finding]:
    """Decimals and fractions."""
    if rule := rule_of("net-decimals", region):
        most, finest = rule.numbers["most_decimals"], rule.numbers["largest_denominator"]
        if any(one.decimals > most for one in line.said.weights):
            yield _about(rule, "net-decimals", line, most=int(most))
        if any(not _common(one, int(finest)) for one in line.said.weights):
            yield _about(rule, "net-fraction", line)
    rule = rule_of("net-fractions", region)
    if rule is not None and any(one.fraction for one in line.said.weights):
        yield _about(rule, "net-no-fractions", line)


def _common(weight: SaidWeight, finest: int) -> bool:
    """Halves, quarters, eighths, sixteenths or thirty-seconds in lowest terms."""
    if weight.fraction is None:
        return True
    over, under = weight.fraction
    power_of_two = under > 1 and under & (under - 1) == 0
    return weight.system == POUNDS and power_of_two and under <= finest and over % 2 == 1


def _fluid(check: LabelCheck) -> Iterator[Finding]:
    rule = rule_of("net-fluid", check.regions[0])
    for text in check.laid.texts:
        if rule is not None and says_fluid_ounces(text.text):
            yield ruled(rule, "net-fluid", ("element", text.element))


def _about(rule: TextRule, key: str, line: NetLine, **data: object) -> Finding:
    return ruled(rule, key, ("element", line.at), {"text": line.said.text, **data})
