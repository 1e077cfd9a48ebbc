"""Capacity at a current, table reading, and banks of equal units."""

from __future__ import annotations

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.capacity import (
    bank_capacity_wh,
    capacity_at_current_ah,
    interpolate,
    peukert_exponent,
    peukert_hours,
    size_factor_to_fraction,
    strings_needed,
    units_in_series,
)


@st.composite
def rate_tables(draw):
    """Hours and capacities with shorter times and less capacity, shuffled."""
    hours = sorted(draw(st.sets(st.sampled_from([1, 2, 5, 10, 20, 100]), min_size=2)), reverse=True)
    factors = draw(st.lists(st.floats(0.9, 1), min_size=len(hours), max_size=len(hours)))
    capacity_ah, table = 100.0, []
    for time_h, factor in zip(hours, factors, strict=True):
        capacity_ah *= factor
        table.append((time_h, capacity_ah))
    return draw(st.permutations(table))


@given(rate_tables(), st.floats(0, 1), st.floats(0, 1))
def test_capacity_never_rises_with_current(table, one, other):
    fastest_a = max(ah / hours for hours, ah in table)
    low_a, high_a = sorted((one * fastest_a, other * fastest_a))
    longest = max(table)
    assert longest[1] >= capacity_at_current_ah(table, low_a) >= capacity_at_current_ah(table, high_a) - 1e-9


def test_capacity_halfway_in_the_logarithm():
    # 2 A and 8 A: their geometric mean, 4 A, lies halfway between 40 and 32 Ah.
    assert capacity_at_current_ah([(20, 40), (4, 32)], sqrt(2 * 8)) == pytest.approx(36)


def test_one_point_serves_its_own_current_and_slower():
    assert capacity_at_current_ah([(20, 100)], 5) == 100
    assert capacity_at_current_ah([(20, 100)], 0.1) == 100


@given(st.floats(1.0, 1.4), st.floats(10, 400), st.floats(1, 19))
def test_peukert_exponent_comes_back_from_its_own_law(exponent, c20_ah, hours):
    current_a = c20_ah / 20 * (20 / hours) ** (1 / exponent)
    assert peukert_hours(c20_ah, 20, current_a, exponent) == pytest.approx(hours)
    assert peukert_exponent(20, c20_ah, hours, hours * current_a) == pytest.approx(exponent)


@given(st.floats(-10, 10))
def test_a_straight_table_is_read_straight(x):
    assert interpolate(x, [(10, 21), (-10, -19), (0, 1)], "x") == pytest.approx(2 * x + 1)


def test_a_bent_table_is_read_between_its_neighbours():
    table = [(0, 0), (10, 10), (20, 100)]
    assert interpolate(5, table, "x") == 5
    assert interpolate(15, table, "x") == 55
    assert interpolate(20, table, "x") == 100


def test_a_table_of_one_row_is_read_at_that_row():
    assert interpolate(20, [(20, 100)], "Discharge time") == 100


def test_one_cell_is_a_bank():
    assert bank_capacity_wh(100, 3.2, 1, 1, 1) == pytest.approx(320)


def test_a_bank_by_hand():
    # 4 cells of 3.2 V and 100 Ah, 2 units in series, 3 strings: 25.6 V x 300 Ah.
    assert bank_capacity_wh(100, 3.2, 4, 2, 3) == pytest.approx(7680)


@pytest.mark.parametrize(
    ("system_v", "unit_v", "units"), [(12, 12, 1), (24, 12, 2), (48, 6, 8), (12, 2, 6), (51.2, 12.8, 4), (25.6, 3.2, 8)]
)
def test_units_in_series(system_v, unit_v, units):
    assert units_in_series(system_v, unit_v) == units


@given(st.floats(1, 2000), st.floats(10, 300))
def test_strings_hold_the_capacity_and_one_fewer_does_not(capacity_ah, unit_ah):
    strings = strings_needed(capacity_ah, unit_ah)
    assert strings * unit_ah >= capacity_ah * (1 - 1e-8)
    assert (strings - 1) * unit_ah < capacity_ah


def test_float_noise_buys_no_string():
    assert strings_needed(0.1 + 0.2, 0.1) == 3


def test_a_size_factor_and_its_fraction():
    assert size_factor_to_fraction(1.25) == pytest.approx(0.8)
