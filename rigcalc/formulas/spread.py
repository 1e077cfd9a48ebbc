"""Spread of a sum of uncertain rows, each known by a low, a likely and a high value.

Rows are taken as independent. Where rows move together (one hot week raises them all) the true
spread is wider than the one computed here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import inf, sqrt
from statistics import NormalDist
from typing import NamedTuple

from rigcalc.errors import need
from rigcalc.formulas._inputs import at_least_0

TRIANGULAR_KURTOSIS = -0.6  # excess kurtosis of every triangular distribution, whatever its mode


class Moments(NamedTuple):
    """Mean, variance and third central moment, which of independent rows simply add."""

    mean: float
    variance: float
    third_central: float


def triangular_moments(low: float, likely: float, high: float) -> Moments:
    """Moments of the triangular distribution of one row.

    Parameters
    ----------
    low, likely, high : float
        Least, most likely and largest value, in this order; equal values are allowed. [any one unit]

    Returns
    -------
    Moments
        Mean [unit], variance [unit²] and third central moment [unit³].

    Notes
    -----
    With a, c, b = low, likely, high: mean (a + b + c) / 3, variance (a² + b² + c² - ab - ac - bc) / 18,
    third central moment (a + b - 2c)(2a - b - c)(a - 2b + c) / 270.

    References
    ----------
    Exact mathematics; the distribution is one of those in JCGM 101:2008 (from memory, clause not recorded).

    Examples
    --------
    >>> mean, variance, third = triangular_moments(10, 20, 60)
    >>> mean, round(variance, 1), round(third)
    (30.0, 116.7, 600)
    """
    need(-inf < low <= likely <= high < inf, "Low, likely and high", (low, likely, high), "three values in this order")
    spread_1, spread_2, spread_3 = low + high - 2 * likely, 2 * low - high - likely, low - 2 * high + likely
    variance = ((high - low) ** 2 + (likely - low) * (likely - high)) / 18
    return Moments((low + likely + high) / 3, variance, spread_1 * spread_2 * spread_3 / 270)


def sum_quantile(moments: Iterable[tuple[float, float, float]], probability: float) -> float:
    """Value the sum of independent rows stays below with a given probability.

    Parameters
    ----------
    moments : iterable of (mean, variance, third_central)
        Moments of each row, from `triangular_moments`. [unit, unit², unit³]
    probability : float
        Probability, 0.05 to 0.95: further out the moments say too little. [-]

    Returns
    -------
    float
        Quantile of the sum. [unit]

    Notes
    -----
    Cornish-Fisher expansion of the third order: x = μ + σ w with w = z + (z² - 1) γ / 6 + (z³ - 3z) κ / 24
    - (2z³ - 5z) γ² / 36, γ = μ3 / σ³ and κ = -0.6 Σ σ_i⁴ / σ⁴ as the rows are triangular.
    Off by up to 0.2 σ where one fully lopsided row outweighs the rest, by about 0.01 σ where three weigh alike.

    References
    ----------
    Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.49 (from memory).

    Examples
    --------
    >>> rows = [triangular_moments(10, 20, 60), triangular_moments(100, 110, 150)]
    >>> [round(sum_quantile(rows, p), 1) for p in (0.1, 0.5, 0.9)]
    [130.5, 149.1, 170.6]
    """
    need(0.05 <= probability <= 0.95, "Probability", probability, "0.05 to 0.95")
    rows = list(moments)
    mean, variance, third = (sum(row[part] for row in rows) for part in range(3))
    at_least_0("Variance of the sum", variance)
    if variance == 0:
        return float(mean)
    z, deviation = NormalDist().inv_cdf(probability), sqrt(variance)
    skewness = third / variance / deviation
    kurtosis = TRIANGULAR_KURTOSIS * sum((row[1] / variance) ** 2 for row in rows)
    bent = (z**2 - 1) * skewness / 6 + (z**3 - 3 * z) * kurtosis / 24 - (2 * z**3 - 5 * z) * skewness**2 / 36
    return mean + deviation * (z + bent)


def largest_contributor(variances: Sequence[float]) -> int | None:
    """Which row spreads the sum most, so measuring it first settles most.

    Parameters
    ----------
    variances : sequence of float
        Variance of each row, each 0 or more. [unit²]

    Returns
    -------
    int or None
        Index of the largest, the first of equals; None where no row varies. [-]

    Notes
    -----
    Variances of independent rows add, so the largest is the largest share.

    Examples
    --------
    >>> largest_contributor([4.0, 9.0, 1.0]), largest_contributor([0.0])
    (1, None)
    """
    for variance in variances:
        at_least_0("Variance", variance)
    return variances.index(max(variances)) if any(variances) else None
