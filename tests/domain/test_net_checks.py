"""Weighed candles against the declared weight, by the published rules."""

import pytest

from wickbench.app.standards import net_rules
from wickbench.domain.errors import OutOfRange
from wickbench.domain.net_checks import check_weighed


def batch(mean_g: float, *odd_g: float, count: int = 24) -> list[float]:
    """A batch with the given odd ones, the rest alike, of the given mean."""
    rest_g = (mean_g * count - sum(odd_g)) / (count - len(odd_g))
    return [*odd_g, *([rest_g] * (count - len(odd_g)))]


def keys(net_g: list[float], region: str, declared_g: int = 200) -> list[str]:
    found = check_weighed(net_rules(), declared_g * 1000, net_g, region)
    return [finding.key for finding in found]


@pytest.mark.parametrize("region", ["EU", "UK"])
@pytest.mark.parametrize(
    ("net_g", "expected"),
    [
        # SI 2006/659 reg. 4 and Sched. 2: 200 g, tolerable error 9 g, batch below 100
        (batch(200.3, 190.5), []),
        (batch(200.3, 190.5, 190.5), ["net-weight.too-many-short"]),
        (batch(200.3, 181.9), ["net-weight.far-short"]),
        (batch(200.3, 182.0), []),
        (batch(200.3, 191.0, 191.0), []),
        (batch(199.9), ["net-weight.average-below"]),
        (batch(200.0), []),
    ],
)
def test_the_three_rules_of_the_average_system(
    net_g: list[float], expected: list[str], region: str
) -> None:
    assert keys(net_g, region) == expected


def test_us_average_and_single_variation() -> None:
    # 16 CFR 500.25; NIST Handbook 133 Table 2-5 from memory: 12.7 g at 226 g
    assert keys(batch(226.2, 213.3), "US", 226) == []
    assert keys(batch(226.2, 213.2), "US", 226) == ["net-weight.far-short"]
    low = [225.1, 224.4, 225.3, 224.9, 225.8, 225.1, 225.0, 224.2, 225.7, 225.5, 225.9, 224.6]
    assert keys(low, "US", 226) == ["net-weight.average-below"]


@pytest.mark.parametrize(
    ("net_g", "region"), [([], "EU"), ([200.0], "MOON"), ([float("nan")], "EU"), ([-1.0], "US")]
)
def test_senseless_input_is_refused(net_g: list[float], region: str) -> None:
    with pytest.raises(OutOfRange):
        check_weighed(net_rules(), 200_000, net_g, region)
