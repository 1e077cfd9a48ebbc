"""Fault currents and the resistances behind them."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.fault import (
    bank_resistance_ohm,
    lead_unit_resistance_ohm,
    lithium_unit_resistance_ohm,
    prospective_current_a,
    resistance_from_short_circuit_ohm,
)


@given(st.floats(0.0001, 0.1), st.integers(1, 8), st.integers(1, 6), st.floats(0, 1), st.floats(2, 60))
def test_a_longer_loop_never_raises_the_fault_current(unit_ohm, series, parallel, loop_ohm, voltage_v):
    bank_ohm = bank_resistance_ohm(unit_ohm, series, parallel)
    bolted_a = prospective_current_a(voltage_v, bank_ohm, 0)
    assert prospective_current_a(voltage_v, bank_ohm, loop_ohm) <= bolted_a
    assert resistance_from_short_circuit_ohm(voltage_v, bolted_a) == pytest.approx(bank_ohm)


def test_unit_resistances_by_hand():
    # 4 cells of 0.4 mΩ at 100 Ah: half at 200 Ah. Lead: 0.4 Ω·Ah over 80 Ah is 5 mΩ at 12 V, half of it at 6 V.
    assert lithium_unit_resistance_ohm(200, 4, 0.0004) == pytest.approx(0.0008)
    assert lead_unit_resistance_ohm(80, 12, 0.4) == pytest.approx(0.005)
    assert lead_unit_resistance_ohm(80, 6, 0.4) == pytest.approx(0.0025)
