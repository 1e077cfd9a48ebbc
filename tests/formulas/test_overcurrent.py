"""Ratings, rerating and time-current gates."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.overcurrent import (
    highest_rating_a,
    least_rating_a,
    next_rating_a,
    opening_time_s,
    rerating_fraction,
)

RATINGS = [5, 7.5, 10, 15, 20, 25, 30, 40, 50, 60, 80, 100]
TYPE_E = [(100, 360000, None), (135, 60, 1800), (200, 2, 60), (350, 0.2, 7), (600, 0.04, 1)]  # ISO 8820, type E blade
RERATING = [(20, 1.0), (65, 0.85), (85, 0.75), (110, 0.625), (125, 0.55)]  # fuse maker's sheet, type E, 40 A


@given(st.floats(0.1, 70), st.floats(0.5, 1), st.floats(0.5, 1))
def test_the_rating_found_carries_the_current_and_the_one_below_does_not(current_a, share, rerating):
    rating_a = next_rating_a(RATINGS, least_rating_a(current_a, share, rerating))
    if rating_a is None:
        assert max(RATINGS) * share * rerating < current_a
        return
    assert rating_a * share * rerating >= current_a * (1 - 1e-8)
    below = [rating for rating in RATINGS if rating < rating_a]
    assert not below or max(below) * share * rerating < current_a


def test_125_percent_is_a_share_of_80():
    assert least_rating_a(16) == pytest.approx(20)


def test_float_noise_does_not_skip_a_rating():
    assert next_rating_a([0.3, 0.4], 0.1 + 0.2) == 0.3


@given(st.floats(5, 90), st.booleans(), st.floats(1, 2))
def test_the_highest_rating_is_the_ampacity_or_one_standard_rating_within_the_cap(ampacity_a, size_up, cap):
    limit_a = highest_rating_a(ampacity_a, RATINGS, size_up, cap)
    assert ampacity_a * (1 - 1e-8) <= limit_a <= cap * ampacity_a * (1 + 1e-8)
    assert not [rating for rating in RATINGS if ampacity_a < rating < limit_a]
    if not size_up:
        assert limit_a == ampacity_a


@pytest.mark.parametrize(
    ("ampacity_a", "size_up", "cap", "limit_a"),
    [
        (32, True, 1.5, 40),  # 40 A is the next rating and within 48 A
        (32, True, 1.2, 32),  # 40 A is above 38.4 A
        (32, True, 1.25, 40),  # just at the cap
        (30, True, 1.5, 30),  # a standard rating already
        (110, True, 1.5, 110),  # the series ends below
    ],
)
def test_next_size_up_cases(ampacity_a, size_up, cap, limit_a):
    assert highest_rating_a(ampacity_a, RATINGS, size_up, cap) == limit_a


@pytest.mark.parametrize(("ambient_c", "fraction"), [(-10, 1), (20, 1), (65, 0.85), (75, 0.8), (125, 0.55)])
def test_rerating(ambient_c, fraction):
    assert rerating_fraction(RERATING, ambient_c) == pytest.approx(fraction)


@pytest.mark.parametrize(
    ("times", "least_s", "most_s"),
    [(1.0, 360000, None), (1.35, 60, 1800), (2.0, 2, 60), (6.0, 0.04, 1), (0.9, None, None), (6.1, None, None)],
)
def test_gates_are_met_and_not_passed(times, least_s, most_s):
    assert opening_time_s(TYPE_E, times) == (least_s, most_s)


def test_between_gates_on_logarithmic_axes():
    # The geometric mean of two currents has the geometric mean of their times.
    least_s, most_s = opening_time_s(TYPE_E, sqrt(2.0 * 3.5))
    assert least_s == pytest.approx(sqrt(2 * 0.2))
    assert most_s == pytest.approx(sqrt(60 * 7))


def test_least_and_most_are_read_apart():
    gates = [(350, 0.08, 0.5), (600, None, 0.15)]
    assert opening_time_s(gates, 4.0)[0] is None
    assert 0.15 < opening_time_s(gates, 4.0)[1] < 0.5
    assert opening_time_s([], 2.0) == (None, None)


@given(st.floats(1.35, 6), st.floats(1.35, 6))
def test_more_current_never_opens_later(one, other):
    low, high = sorted((one, other))
    for slow, fast in zip(opening_time_s(TYPE_E, low), opening_time_s(TYPE_E, high), strict=True):
        assert fast <= slow * (1 + 1e-9)
