"""The little statistics a bench needs: Student's t, effective degrees, what lies far off."""

from __future__ import annotations

import math
from functools import lru_cache
from statistics import NormalDist, median
from typing import TYPE_CHECKING

from wickbench.domain.errors import OutOfRange
from wickbench.domain.ranges import within

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

# From here on the expansion for many degrees is good to eleven digits.
_MANY_DEGREES = 1000.0
_STEPS = 500
_CLOSE = 1e-15
_TINY = 1e-300


@lru_cache(maxsize=512)
def student_t(probability: float, degrees: float) -> float:
    """Value that a Student t variable stays below with the given probability.

    Args:
        probability: 0.5 to 0.999999; 0.975 for an interval with 95 % between its ends.
        degrees: degrees of freedom, 1 or more, whole or not; infinite gives the normal curve.

    Raises:
        OutOfRange: for a probability or degrees outside these.
    """
    within(probability, 0.5, 0.999999, "statistics.probability")
    if math.isnan(degrees) or degrees < 1.0:
        raise OutOfRange("statistics.degrees", value=degrees)
    t = NormalDist().inv_cdf(probability)
    if degrees >= _MANY_DEGREES:
        return _near_normal(t, degrees)
    # The curve bends down right of its middle, so Newton's steps from the left never overshoot.
    for _ in range(_STEPS):
        step = (probability - _t_below(t, degrees)) / _t_curve(t, degrees)
        t += step
        if abs(step) <= 1e-13 * max(1.0, t):
            break
    return t


def chance_beyond(t: float, degrees: float) -> float:
    """Probability that a Student t variable lies beyond ``t`` on either side.

    Args:
        t: distance from the middle; its sign does not matter.
        degrees: degrees of freedom, 1 or more; infinite gives the normal curve.

    Raises:
        OutOfRange: ``statistics.distance`` when t is no number, ``statistics.degrees``.
    """
    if math.isnan(t):
        raise OutOfRange("statistics.distance", value=str(t))
    if math.isnan(degrees) or degrees < 1.0:
        raise OutOfRange("statistics.degrees", value=degrees)
    if math.isinf(degrees):
        return math.erfc(abs(t) / math.sqrt(2.0))
    squared = t * t
    if squared < 1.0:  # Near the middle the share above it would lose the digits of t.
        return 1.0 - _beta_share(0.5, degrees / 2, squared / (degrees + squared))
    return _beta_share(degrees / 2, 0.5, degrees / (degrees + squared))


def effective_degrees(parts: Iterable[tuple[float, float]]) -> float:
    """Degrees of freedom of a combined uncertainty (Welch–Satterthwaite, GUM G.4.1).

    Args:
        parts: pairs of a standard uncertainty and its degrees of freedom; infinite for one
            that comes from limits and not from repeats.

    Returns:
        The degrees, not cut to a whole number; infinite when no part has finite degrees.
    """
    pairs = tuple(parts)
    combined = math.fsum(u * u for u, _ in pairs)
    shares = math.fsum((u * u / combined) ** 2 / nu for u, nu in pairs if u > 0.0)
    return 1.0 / shares if shares > 0.0 else math.inf


def furthest_off(values: Sequence[float], *, least_off: float, fewest: int = 4) -> int | None:
    """Position of the value that lies too far from the others to belong to them, or None.

    A value is too far off when 0.6745·|x - median| / MAD passes 3.5 (Iglewicz and Hoaglin, How to
    Detect and Handle Outliers, 1993) and it also is more than ``least_off`` from the median, so
    that rounding steps of a scale raise no alarm. Too few values give None.
    """
    if len(values) < fewest:
        return None
    middle = median(values)
    distances = [abs(value - middle) for value in values]
    largest = max(distances)
    if largest > least_off and 0.6745 * largest > 3.5 * median(distances):
        return distances.index(largest)
    return None


def _near_normal(z: float, degrees: float) -> float:
    """Student's t from the normal quantile (Abramowitz and Stegun 26.7.5)."""
    q = z * z
    first = z * (q + 1) / 4
    second = z * ((5 * q + 16) * q + 3) / 96
    third = z * (((3 * q + 19) * q + 17) * q - 15) / 384
    fourth = z * ((((79 * q + 776) * q + 1482) * q - 1920) * q - 945) / 92160
    return z + (first + (second + (third + fourth / degrees) / degrees) / degrees) / degrees


def _t_curve(t: float, degrees: float) -> float:
    """Height of the density of Student's t."""
    scale = math.lgamma((degrees + 1) / 2) - math.lgamma(degrees / 2)
    power = (degrees + 1) / 2 * math.log1p(t * t / degrees)
    return math.exp(scale - power) / math.sqrt(degrees * math.pi)


def _t_below(t: float, degrees: float) -> float:
    """Probability below ``t`` ≥ 0."""
    return 1.0 - 0.5 * _beta_share(degrees / 2, 0.5, degrees / (degrees + t * t))


def _beta_share(a: float, b: float, x: float) -> float:
    """Regularised incomplete beta function I_x(a, b) (NIST DLMF 8.17.22)."""
    if x <= 0.0 or x >= 1.0:
        return 0.0 if x <= 0.0 else 1.0
    if x > (a + 1) / (a + b + 2):
        return 1.0 - _beta_share(b, a, 1.0 - x)
    log_front = math.lgamma(a + b) - math.lgamma(a) - math.lgamma(b)
    log_front += a * math.log(x) + b * math.log1p(-x)
    return math.exp(log_front) / (a * _beta_fraction(a, b, x))


def _beta_fraction(a: float, b: float, x: float) -> float:
    """The continued fraction 1 + d1/(1 + d2/(1 + …)) of DLMF 8.17.22, from the front (Lentz)."""
    value = ahead = 1.0
    behind = 0.0
    for step in range(1, _STEPS):
        part = _fraction_part(step, a, b, x)
        behind = 1.0 / (1.0 + part * behind or _TINY)
        ahead = 1.0 + part / ahead or _TINY
        value *= ahead * behind
        if abs(ahead * behind - 1.0) < _CLOSE:
            break
    return value


def _fraction_part(step: int, a: float, b: float, x: float) -> float:
    m = step // 2
    if step % 2:
        return -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1))
    return m * (b - m) * x / ((a + 2 * m - 1) * (a + 2 * m))
