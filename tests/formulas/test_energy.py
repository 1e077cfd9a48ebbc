"""Daily energy: worked by hand, and what must hold for any load."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.energy import (
    charge_ah,
    charge_energy_wh,
    duty_cycle,
    energy_before_wh,
    event_hours_per_day,
    power_from_current_w,
    reading_energy_wh_per_day,
    running_energy_wh,
)

power = st.floats(0, 5000)
hours = st.floats(0, 24)
part = st.floats(0.01, 1)


def test_running_and_standby_by_hand():
    # 2 x (60 W x 10 h x 0.5 + 3 W x 19 h)
    assert running_energy_wh(60, 10, quantity=2, duty_cycle=0.5, standby_w=3) == pytest.approx(714)


def test_a_load_never_used_still_stands_by():
    assert running_energy_wh(60, 0, standby_w=3) == pytest.approx(72)


def test_a_whole_day_of_events():
    assert event_hours_per_day(24, 60) == 24


@given(power, hours, part, power)
def test_energy_lies_between_all_day_standby_and_all_day_running(power_w, hours_a_day, duty, standby_w):
    got_wh = running_energy_wh(power_w, hours_a_day, duty_cycle=duty, standby_w=standby_w)
    ends = sorted((24 * power_w, 24 * standby_w))
    assert ends[0] - 1e-6 <= got_wh <= ends[1] + 1e-6


@given(power, st.floats(0.5, 2000), st.integers(1, 9))
def test_a_reading_of_constant_power_is_its_day(power_w, interval_h, quantity):
    a_day = reading_energy_wh_per_day(quantity * power_w * interval_h, interval_h)
    assert a_day == pytest.approx(running_energy_wh(power_w, 24, quantity=quantity))


@given(st.floats(0, 1e5), st.floats(1, 60))
def test_charge_and_energy_are_inverse(energy_wh, voltage_v):
    assert charge_energy_wh(charge_ah(energy_wh, voltage_v), voltage_v) == pytest.approx(energy_wh)


@given(power, st.lists(part, max_size=4))
def test_losses_never_reduce_what_must_go_in(energy_wh, efficiencies):
    before_wh = energy_before_wh(energy_wh, *efficiencies)
    assert before_wh >= energy_wh
    assert energy_before_wh(energy_wh, *reversed(efficiencies)) == pytest.approx(before_wh)


@given(part, st.floats(0, 20), st.floats(21, 2000))
def test_duty_cycle_gives_back_the_mean_power(duty, standby_w, running_w):
    mean_w = running_energy_wh(running_w, 24, duty_cycle=duty, standby_w=standby_w) / 24
    assume_inside = min(max(mean_w, standby_w), running_w)  # float noise at either end
    assert duty_cycle(assume_inside, running_w, standby_w) == pytest.approx(duty, abs=1e-9)


@given(st.floats(0, 100), st.floats(1, 60))
def test_power_from_current_is_a_days_charge(current_a, voltage_v):
    daily_wh = running_energy_wh(power_from_current_w(current_a, voltage_v), 24)
    assert charge_ah(daily_wh, voltage_v) == pytest.approx(24 * current_a)
