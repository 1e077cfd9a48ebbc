"""Loss curve and the day's losses shared out: they must add up to the DC energy."""

from __future__ import annotations

from itertools import product
from math import prod

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.formulas.inverter import LossCurve, daily_losses_wh, dc_power_w, efficiency, loss_coefficients

RATED_W = 2000.0
curves = st.builds(LossCurve, st.floats(0, 0.03), st.floats(0, 0.05), st.floats(0, 0.1))
rows_of_10_h = st.lists(st.tuples(st.floats(0, 800), st.floats(0, 10)), min_size=1, max_size=4)


@given(st.floats(0.5, 0.99), st.floats(0.5, 0.99), st.floats(0.5, 0.99))
def test_the_curve_gives_back_its_three_efficiencies(at_10, at_50, at_100):
    try:
        curve = loss_coefficients(at_10, at_50, at_100)
    except InputError:
        assume(False)
    for load, expected in ((0.1, at_10), (0.5, at_50), (1.0, at_100)):
        assert efficiency(load, curve) == pytest.approx(expected)
        assert load * RATED_W / dc_power_w(load * RATED_W, RATED_W, curve) == pytest.approx(expected)


@given(curves, st.floats(0, RATED_W), st.floats(0, RATED_W))
def test_input_power_rises_with_output_and_never_falls_below_it(curve, one_w, other_w):
    low_w, high_w = sorted((one_w, other_w))
    assert dc_power_w(low_w, RATED_W, curve) <= dc_power_w(high_w, RATED_W, curve)
    assert dc_power_w(high_w, RATED_W, curve) >= high_w


@given(curves, rows_of_10_h)
def test_rows_and_idle_sum_to_the_mean_dc_energy_of_all_overlaps(curve, rows):
    """Each load on or off with its own chance: every combination, weighted, must give the same day."""
    on_hours = 10.0
    idle_wh, losses_wh = daily_losses_wh(rows, RATED_W, on_hours, curve)
    day_wh = 0.0
    for states in product((True, False), repeat=len(rows)):
        chance = prod(h / on_hours if on else 1 - h / on_hours for on, (_, h) in zip(states, rows, strict=True))
        load_w = sum(power_w for on, (power_w, _) in zip(states, rows, strict=True) if on)
        day_wh += chance * on_hours * dc_power_w(load_w, RATED_W, curve)
    delivered_wh = sum(power_w * hours for power_w, hours in rows)
    assert delivered_wh + idle_wh + sum(losses_wh) == pytest.approx(day_wh, abs=1e-6)


def test_loads_on_all_the_time_are_one_load():
    curve = LossCurve(0.01, 0.01, 0.05)
    idle_wh, losses_wh = daily_losses_wh([(300, 8), (500, 8)], RATED_W, 8, curve)
    assert 800 * 8 + idle_wh + sum(losses_wh) == pytest.approx(8 * dc_power_w(800, RATED_W, curve))
    assert losses_wh[1] / losses_wh[0] == pytest.approx(500 / 300)


def test_the_square_part_is_shared_by_energy():
    # k2 only: 0.1 / 2000 W x (100² x 5 + 400² x 1 + 2 x 500 x 400 / 10) Wh, split 500 to 400.
    _, losses_wh = daily_losses_wh([(100, 5), (400, 1)], RATED_W, 10, LossCurve(0, 0, 0.1))
    assert sum(losses_wh) == pytest.approx(0.1 / 2000 * (50_000 + 160_000 + 40_000))
    assert losses_wh[0] / losses_wh[1] == pytest.approx(500 / 400)


@pytest.mark.parametrize("rows", [[], [(0.0, 5.0)], [(100.0, 0.0)]])
def test_an_unloaded_inverter_only_idles(rows):
    assert daily_losses_wh(rows, RATED_W, 24, LossCurve(0.01, 0.01, 0.05)) == (480.0, (0.0,) * len(rows))


def test_an_inverter_never_switched_on_loses_nothing():
    assert daily_losses_wh([(100.0, 0.0)], RATED_W, 0, LossCurve(0.01, 0.01, 0.05)) == (0.0, (0.0,))


@pytest.mark.parametrize("coefficients", [(0.0101, -0.0201, 0.01), (0.1, 0.0, -0.1)])
def test_a_curve_may_lose_less_than_nothing_beyond_the_rating_only(coefficients):
    # Both reach 0 just at the rating and go below it beyond.
    assert LossCurve(*coefficients).loss(1.0) == pytest.approx(0, abs=1e-12)


def test_a_bent_curve_whose_losses_stay_positive_is_accepted():
    # Efficiencies of 85, 90 and 91 %: k2 is below 0, yet no load loses less than nothing.
    assert loss_coefficients(0.85, 0.90, 0.91).k2 < 0
