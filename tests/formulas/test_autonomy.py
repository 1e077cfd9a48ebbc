"""Autonomy and the bank it needs are two readings of one rule."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.autonomy import autonomy_d, autonomy_strict_d, bank_needed_wh, nominal_autonomy_d, runtime_h

part = st.floats(0.05, 1)
energy = st.floats(1, 1e5)


@given(energy, part, part, part, energy)
def test_the_bank_needed_lasts_the_days_asked(daily_wh, at_temperature, depth, end_of_life, capacity_wh):
    days = autonomy_d(capacity_wh, at_temperature, depth, end_of_life, daily_wh)
    assert bank_needed_wh(daily_wh, days, at_temperature, depth, end_of_life) == pytest.approx(capacity_wh)


@given(energy, part, part, part, energy)
def test_the_strict_product_never_promises_more_and_the_label_never_less(
    capacity_wh, f_t, depth, end_of_life, daily_wh
):
    rule_d = autonomy_d(capacity_wh, f_t, depth, end_of_life, daily_wh)
    assert autonomy_strict_d(capacity_wh, f_t, depth, end_of_life, daily_wh) <= rule_d * (1 + 1e-12)
    assert rule_d <= nominal_autonomy_d(capacity_wh, daily_wh) * (1 + 1e-12)


@pytest.mark.parametrize(("depth", "end_of_life"), [(0.5, 0.8), (0.8, 0.5)])
def test_the_smaller_allowance_decides(depth, end_of_life):
    # 2000 Wh x 0.9 x 0.5 / 450 Wh a day
    assert autonomy_d(2000, 0.9, depth, end_of_life, 450) == pytest.approx(2)
    assert autonomy_strict_d(2000, 0.9, depth, end_of_life, 450) == pytest.approx(1.6)


@given(energy, st.floats(1, 5000))
def test_runtime_times_power_is_the_energy(usable_wh, power_w):
    assert runtime_h(usable_wh, power_w) * power_w == pytest.approx(usable_wh)


def test_a_run_time_and_an_autonomy_agree():
    daily_wh = 24 * 50
    assert runtime_h(2400, 50) / 24 == pytest.approx(nominal_autonomy_d(2400, daily_wh))
