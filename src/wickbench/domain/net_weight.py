"""Declared net weight: proposed and written so that no figure overstates, and checked.

United States (15 U.S.C. 1453, 16 CFR 500): pounds and ounces first, metric beside it; a
converted figure may be rounded down, never up, and of two unequal figures the larger one is
enforced. European Union and United Kingdom (Directive 76/211/EEC, SI 2006/659): metric first,
other units only beside it. Local rules and a licensed assessor decide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.findings import Finding, Rank
from wickbench.domain.rounding import half_up

if TYPE_CHECKING:
    from collections.abc import Sequence

OUNCE_MG = Fraction("28349.523125")  # exact: 453.59237 g / 16, NIST Handbook 44, Appendix C
OUNCES_PER_POUND = 16
HUNDREDTHS = 100  # decimals of an ounce: two at most, 16 CFR 500.17
TOLERANCE_MG = 1  # a weight kept in whole mg may be this much below the one meant
GRAM_MG = 1_000
KILOGRAM_MG = 1_000_000
KILOGRAM_STEP_MG = 10_000  # two decimals of a kilogram, 16 CFR 500.17 read strictly
SMALL_MG = 10_000  # below 10 g the metric figure keeps a tenth of a gram
LIGHTEST_MG = 1_000
HEAVIEST_MG = 25_000_000
REGIONS = ("US", "EU", "UK")
FAR_ABOVE_PERCENT = 5.0
FAR_ABOVE_G = 5.0

# "net" is not abbreviated outside the US (SI 2006/659 reg. 8); translations are ours
_LEAD_US = {"en": "Net Wt", "es": "Peso neto", "fr": "Poids net", "de": "Nettogewicht"}
_LEAD_METRIC = {**_LEAD_US, "en": "Net weight"}


@dataclass(frozen=True, slots=True)
class Declared:
    """A net weight as it may be printed.

    Attributes:
        mass_mg: what the printed figures promise: the larger of them, in mg.
        first: the leading figure with its unit, ``"7.8 oz"`` or ``"220 g"``.
        second: the figure in the other units; empty where it is not asked for.
        lead: ``"Net Wt"`` and the like.
    """

    mass_mg: int
    first: str
    second: str
    lead: str

    @property
    def text(self) -> str:
        """The whole line: ``"Net Wt 7.8 oz (221 g)"``."""
        return " ".join(self.lines)

    @property
    def lines(self) -> tuple[str, ...]:
        """The same on two lines, a system on each; one where there is only one system."""
        first = f"{self.lead} {self.first}"
        return (first, f"({self.second})") if self.second else (first,)


def propose_declared(
    actual_g: float, region: str, *, language: str = "en", step: Fraction | None = None
) -> Declared:
    """The largest declaration that overstates in neither unit.

    Args:
        actual_g: net weight in g: wax, fragrance and dye.
        region: ``US``, ``EU`` or ``UK``.
        language: of the lead word and the decimal mark.
        step: round down to this, in ounces in the US and in grams elsewhere; None for a hundredth
            of an ounce or a whole gram.

    Raises:
        OutOfRange: unknown region, or a weight outside 1 g to 25 kg.
    """
    mass_mg = _checked_mg(actual_g)
    if step is not None:
        mass_mg = _down_to_step(mass_mg, step, region)
    return declared(mass_mg, region, language, other_units=region == "US")


def declared(
    mass_mg: int, region: str, language: str = "en", *, other_units: bool | None = None
) -> Declared:
    """A declaration of a weight, every figure rounded down.

    Args:
        mass_mg: declared weight in mg.
        region: ``US``, ``EU`` or ``UK``.
        language: ``en``, ``de``, ``fr`` or ``es``; others are written with the English lead.
        other_units: whether the other system stands beside; the US asks for it, elsewhere it is
            left out unless wanted.

    Raises:
        OutOfRange: unknown region, or a weight outside 1 g to 25 kg.
    """
    _check_region(region)
    _check_mass(mass_mg)
    in_us = region == "US"
    with_other = in_us if other_units is None else other_units or in_us
    ounces, ounces_mg = _ounces(mass_mg)
    metric, metric_mg = _metric(mass_mg, KILOGRAM_STEP_MG if with_other else GRAM_MG)
    lead = (_LEAD_US if in_us else _LEAD_METRIC).get(language, "Net weight")
    first, second = (ounces, metric) if in_us else (metric, ounces)
    promised = max(metric_mg, ounces_mg) if with_other else metric_mg
    if not in_us and language != "en":
        first, second = first.replace(".", ","), second.replace(".", ",")
    return Declared(math.floor(promised), first, second if with_other else "", lead)


def declared_for(
    mass_mg: int, regions: Sequence[str], language: str = "en", *, both: bool = False
) -> Declared:
    """A declaration that serves every region sold in.

    The US asks for both systems and for no order of them; the EU and the UK want the metric figure
    first and "net" in full. So where both are sold in, metric comes first and ounces beside it.

    Args:
        mass_mg: declared weight in mg.
        regions: sold in; the US when there is none.
        language: as `declared`.
        both: in both systems, even where one is enough.

    Raises:
        OutOfRange: unknown region, or a weight outside 1 g to 25 kg.
    """
    chosen = tuple(regions) or ("US",)
    for region in chosen:
        _check_region(region)
    metric_first = next((region for region in chosen if region != "US"), "US")
    return declared(mass_mg, metric_first, language, other_units=both or "US" in chosen)


def declared_text(mass_mg: int, region: str, language: str = "en") -> str:
    """The declaration as printed: ``"Net Wt 8 oz (226 g)"``, ``"Net weight 220 g"``."""
    return declared(mass_mg, region, language).text


def check_declared(declared_mg: int, planned_mass_g: float, region: str) -> tuple[Finding, ...]:
    """Whether a planned net weight keeps the promise of the declared one.

    Args:
        declared_mg: declared net weight in mg.
        planned_mass_g: planned net weight of one candle in g.
        region: ``US``, ``EU`` or ``UK``.

    Returns:
        ``net-weight.below-declared`` when it falls short by more than a milligram,
        ``net-weight.far-above`` when it gives away more than 5 % and 5 g (common practice, no
        source), else nothing.
    """
    _check_region(region)
    _check_mass(declared_mg)
    planned_mg = _checked_mg(planned_mass_g)
    over_g = (planned_mg - declared_mg) / GRAM_MG
    data: dict[str, object] = {
        "declared_g": declared_mg / GRAM_MG,
        "planned_g": planned_mg / GRAM_MG,
        "difference_g": abs(over_g),
    }
    if planned_mg + TOLERANCE_MG < declared_mg:
        return (Finding(Rank.STOPS, "net-weight.below-declared", data),)
    if over_g > FAR_ABOVE_G and over_g * 100 * GRAM_MG > FAR_ABOVE_PERCENT * declared_mg:
        return (Finding(Rank.NOTE, "net-weight.far-above", data),)
    return ()


def _checked_mg(mass_g: float) -> int:
    if not math.isfinite(mass_g):
        raise OutOfRange("net-weight.out-of-range", given_g=mass_g)
    mass_mg = int(half_up(mass_g * GRAM_MG))
    _check_mass(mass_mg)
    return mass_mg


def _check_mass(mass_mg: int) -> None:
    if not LIGHTEST_MG <= mass_mg <= HEAVIEST_MG:
        raise OutOfRange("net-weight.out-of-range", given_g=mass_mg / GRAM_MG)


def _check_region(region: str) -> None:
    if region not in REGIONS:
        raise OutOfRange("net-weight.region-unknown", region=region)


def _down_to_step(mass_mg: int, step: Fraction, region: str) -> int:
    if step <= 0:
        raise OutOfRange("net-weight.step", given=float(step))
    step_mg = step * (OUNCE_MG if region == "US" else GRAM_MG)
    steps = (mass_mg + TOLERANCE_MG) // step_mg
    return math.floor(steps * step_mg)


def _ounces(mass_mg: int) -> tuple[str, Fraction]:
    """Pounds and ounces as text, and what they weigh in mg."""
    hundredths = (mass_mg + TOLERANCE_MG) * HUNDREDTHS // OUNCE_MG
    pounds, rest = divmod(hundredths, OUNCES_PER_POUND * HUNDREDTHS)
    parts = [f"{pounds} lb"] if pounds else []
    if rest or not pounds:
        parts.append(f"{_plain(Fraction(rest, HUNDREDTHS), 2)} oz")
    return " ".join(parts), hundredths * OUNCE_MG / HUNDREDTHS


def _metric(mass_mg: int, kilogram_step_mg: int) -> tuple[str, Fraction]:
    """Grams, or kilograms from 1000 g on, as text, and what they weigh in mg."""
    step_mg = GRAM_MG // 10 if mass_mg + TOLERANCE_MG < SMALL_MG else GRAM_MG
    if mass_mg + TOLERANCE_MG >= KILOGRAM_MG:
        step_mg = kilogram_step_mg
    shown_mg = (mass_mg + TOLERANCE_MG) // step_mg * step_mg
    if shown_mg >= KILOGRAM_MG:
        return f"{_plain(Fraction(shown_mg, KILOGRAM_MG), 3)} kg", Fraction(shown_mg)
    return f"{_plain(Fraction(shown_mg, GRAM_MG), 1)} g", Fraction(shown_mg)


def _plain(value: Fraction, decimals: int) -> str:
    whole, rest = divmod(value * 10**decimals, 10**decimals)
    return f"{whole}.{int(rest):0{decimals}d}".rstrip("0").rstrip(".")
