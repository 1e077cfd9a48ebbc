"""Spread of a sum, against simulation and against the moments of known distributions."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.spread import largest_contributor, sum_quantile, triangular_moments

SIX_ROWS = [(200, 300, 700), (50, 60, 65), (0, 20, 200), (400, 480, 500), (100, 100, 300), (10, 30, 40)]
DRAWS = 400_000
triples = st.tuples(st.floats(0, 1000), st.floats(0, 1000), st.floats(0, 1000)).map(sorted)


def _simulated(rows: list[tuple[float, float, float]]) -> np.ndarray:
    draw = np.random.default_rng(20240521)
    return sum(draw.triangular(low, likely, high, size=DRAWS) for low, likely, high in rows)


@pytest.mark.parametrize("row", [(0, 0, 3), (0, 3, 3), (1, 2, 6), (10, 20, 30)])
def test_moments_against_simulation(row):
    # Sampling noise of 400 000 draws: about 0.002 σ in the mean, 0.3 % in the variance, 0.006 σ³ in the third moment.
    mean, variance, third = triangular_moments(*row)
    drawn, deviation = _simulated([row]), variance**0.5
    assert drawn.mean() == pytest.approx(mean, abs=0.008 * deviation)
    assert drawn.var() == pytest.approx(variance, rel=0.01)
    assert ((drawn - drawn.mean()) ** 3).mean() == pytest.approx(third, abs=0.025 * deviation**3)


@pytest.mark.parametrize(
    ("row", "mean", "variance", "third"),
    [((0, 0, 3), 1, 1 / 2, 1 / 5), ((1, 2, 6), 3, 7 / 6, 3 / 5), ((1, 3, 5), 3, 2 / 3, 0)],
)
def test_moments_by_integration(row, mean, variance, third):
    # Integrals of the density worked by hand.
    assert triangular_moments(*row) == pytest.approx((mean, variance, third), rel=1e-12, abs=1e-12)


@pytest.mark.parametrize(("rows", "expected"), [(1, 0.664531), (2, 1.118632)])
def test_the_expansion_by_hand(rows, expected):
    # Rows (0, 0, 1) at 90 %, z = 1.281552: one row has γ = 0.565685 and κ = -0.6, w = 1.405154, 1/3 + 0.235702 w;
    # two rows have γ = 0.4 and κ = -0.3, w = 1.355896, 2/3 + w/3.
    assert sum_quantile([triangular_moments(0, 0, 1)] * rows, 0.9) == pytest.approx(expected, rel=0, abs=2e-6)


@pytest.mark.parametrize("probability", [0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95])
@pytest.mark.parametrize(
    ("rows", "tolerance"),
    [
        # Of one standard deviation: 0.003 is sampling noise, the rest is what the expansion leaves out.
        pytest.param([(0, 0, 1), (2, 2, 3), (5, 5, 6)], 0.016, id="three_alike"),
        pytest.param(SIX_ROWS, 0.06, id="six_of_which_one_weighs_most"),
        pytest.param([(0, 0, 1)], 0.2, id="one_lopsided_alone"),
    ],
)
def test_quantiles_against_simulation(rows, tolerance, probability):
    drawn = _simulated(rows)
    got = sum_quantile([triangular_moments(*row) for row in rows], probability)
    assert got == pytest.approx(np.quantile(drawn, probability), rel=0, abs=tolerance * drawn.std())


def test_the_skew_matters():
    # Without it the median of three lopsided rows would be their mean, 0.05 σ too high.
    rows = [triangular_moments(0, 0, 1)] * 3
    drawn = _simulated([(0, 0, 1)] * 3)
    assert abs(sum_quantile(rows, 0.5) - np.median(drawn)) < 0.01 * drawn.std()
    assert abs(1 - np.median(drawn)) > 0.04 * drawn.std()


@given(st.lists(triples, min_size=1, max_size=6), st.floats(0.05, 0.95), st.floats(0.05, 0.95))
def test_a_higher_probability_is_never_a_lower_sum(rows, one, other):
    moments = [triangular_moments(*row) for row in rows]
    low, high = sorted((one, other))
    assert sum_quantile(moments, low) <= sum_quantile(moments, high) + 1e-6


@given(st.floats(0, 1000))
def test_rows_that_are_known_do_not_spread(value):
    moments = [triangular_moments(value, value, value)] * 2
    assert sum_quantile(moments, 0.1) == pytest.approx(sum_quantile(moments, 0.9)) == pytest.approx(2 * value)


def test_a_spread_of_next_to_nothing_does_no_harm():
    assert sum_quantile([triangular_moments(0, 0, 1e-100)], 0.9) == pytest.approx(0)


def test_no_rows_sum_to_nothing():
    assert sum_quantile([], 0.9) == 0


@given(triples)
def test_turning_a_row_round_turns_its_skew(row):
    low, likely, high = row
    mean, variance, third = triangular_moments(low, likely, high)
    turned = triangular_moments(-high, -likely, -low)
    assert turned.mean == pytest.approx(-mean)
    assert turned.variance == pytest.approx(variance)
    assert turned.third_central == pytest.approx(-third)


def test_the_row_that_spreads_most():
    assert largest_contributor([triangular_moments(*row).variance for row in SIX_ROWS]) == 0
    assert largest_contributor([0.0, 2.0, 2.0]) == 1
    assert largest_contributor([]) is None
