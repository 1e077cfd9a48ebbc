"""Conductors and voltage drop: what must hold for any length, current and size."""

from __future__ import annotations

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.conductor import (
    awg_area_mm2,
    awg_circular_mils,
    awg_diameter_mm,
    conductor_temperature_c,
    copper_kg,
    loop_resistance_ohm,
    resistance_at_ohm,
    resistance_moved,
)
from rigcalc.formulas.voltage_drop import (
    circular_mils_needed,
    constant_power_current_a,
    voltage_drop_circular_mil_v,
    voltage_drop_iec_v,
    voltage_drop_iso_v,
    voltage_drop_v,
)

IEC_60228_CLASS_5 = {  # IEC 60228:2004, class 5, plain: mm² and Ω/km at 20 °C
    0.5: 39.0, 0.75: 26.0, 1: 19.5, 1.5: 13.3, 2.5: 7.98, 4: 4.95, 6: 3.30, 10: 1.91, 16: 1.21, 25: 0.780, 35: 0.554,
    50: 0.386, 70: 0.272, 95: 0.206, 120: 0.161,
}  # fmt: skip
AREAS = sorted(IEC_60228_CLASS_5)
current = st.floats(0, 300)
length = st.floats(0, 50)
area = st.sampled_from(AREAS)
temperature = st.floats(-40, 120)


@given(current, length, length, area, area)
def test_more_copper_of_one_table_never_drops_more(current_a, out_m, back_m, one_mm2, other_mm2):
    thin_mm2, thick_mm2 = sorted((one_mm2, other_mm2))
    thin_v, thick_v = (
        voltage_drop_v(current_a, out_m, back_m, IEC_60228_CLASS_5[mm2]) for mm2 in (thin_mm2, thick_mm2)
    )
    assert thick_v <= thin_v
    assert voltage_drop_iec_v(current_a, out_m, back_m, thick_mm2) <= voltage_drop_iec_v(
        current_a, out_m, back_m, thin_mm2
    )


@given(current, length, length, st.floats(0, 20), area)
def test_a_longer_conductor_never_drops_less(current_a, out_m, back_m, more_m, mm2):
    r = IEC_60228_CLASS_5[mm2]
    here_v = voltage_drop_v(current_a, out_m, back_m, r)
    assert voltage_drop_v(current_a, out_m + more_m, back_m, r) >= here_v
    assert voltage_drop_v(current_a, out_m, back_m + more_m, r) >= here_v


@given(current, length, length, area)
def test_drop_is_current_times_loop_resistance(current_a, out_m, back_m, mm2):
    r = IEC_60228_CLASS_5[mm2]
    assert voltage_drop_v(current_a, out_m, back_m, r) == pytest.approx(
        current_a * loop_resistance_ohm(out_m, back_m, r, r)
    )


def test_a_thin_return_counts_with_its_own_resistance():
    # 5 m of 3.30 Ω/km out, 2 m of 7.98 Ω/km back.
    assert loop_resistance_ohm(5, 2, 3.30, 7.98) == pytest.approx(0.0165 + 0.01596)


@given(st.floats(0, 2000), st.floats(10, 60), st.floats(0, 1))
def test_constant_power_current_delivers_the_power_and_is_never_below_its_ideal(power_w, source_v, share):
    resistance_ohm = share * 0.999 * source_v**2 / (4 * max(power_w, 1))
    current_a = constant_power_current_a(power_w, source_v, resistance_ohm)
    assert current_a >= power_w / source_v * (1 - 1e-12)
    at_load_v = source_v - current_a * resistance_ohm
    assert at_load_v >= source_v / 2 * (1 - 1e-12)
    assert at_load_v * current_a == pytest.approx(power_w, abs=1e-6)


def test_no_resistance_leaves_the_ideal_current():
    assert constant_power_current_a(120, 12, 0) == pytest.approx(10)


def test_the_most_a_run_delivers_leaves_half_the_voltage():
    assert constant_power_current_a(12**2 / (4 * 0.1), 12, 0.1) * 0.1 == pytest.approx(6)


@given(st.floats(0.01, 500), temperature, temperature)
def test_resistance_there_and_back_is_the_start(resistance_ohm, from_c, to_c):
    there = resistance_moved(resistance_ohm, from_c, to_c)
    assert resistance_moved(there, to_c, from_c) == pytest.approx(resistance_ohm)
    assert (there >= resistance_ohm) == (to_c >= from_c) or there == pytest.approx(resistance_ohm)


@given(st.floats(0.01, 500), temperature)
def test_resistance_at_starts_from_20_c(resistance_ohm, to_c):
    assert resistance_at_ohm(resistance_ohm, to_c) == resistance_moved(resistance_ohm, 20, to_c)


def test_resistance_of_hot_copper_by_hand():
    # 3.30 Ω/km at 20 °C is 3.30 x 304.5 / 254.5 at 70 °C.
    assert resistance_at_ohm(3.30, 70) == pytest.approx(3.9483, abs=0.00005)


@given(st.integers(-3, 39))
def test_the_next_gauge_is_thinner_by_the_same_ratio(awg):
    ratio = awg_diameter_mm(awg) / awg_diameter_mm(awg + 1)
    assert ratio == pytest.approx(92 ** (1 / 39))


@given(st.integers(-3, 40))
def test_circular_mils_and_square_millimetres_are_one_area(awg):
    # A circular mil is the area of a circle of one thousandth of an inch.
    assert awg_area_mm2(awg) == pytest.approx(awg_circular_mils(awg) * pi / 4 * 0.0254**2)


@given(current, st.floats(0.1, 200), st.floats(0.05, 5))
def test_the_area_needed_drops_just_what_is_allowed(current_a, loop_ft, drop_v):
    needed = circular_mils_needed(max(current_a, 0.1), loop_ft, drop_v)
    assert voltage_drop_circular_mil_v(max(current_a, 0.1), loop_ft, needed) == pytest.approx(drop_v)


def test_the_rules_disagree_about_the_same_copper():
    # 20 A, 5 m out and back, 6 mm²: ISO 10133 (0.0164) reports 27 % less than IEC 60364-5-52 (0.0225).
    iso_v, iec_v = voltage_drop_iso_v(20, 10, 6), voltage_drop_iec_v(20, 5, 5, 6)
    assert iso_v == pytest.approx(20 * 10 * 0.0164 / 6)
    assert 1 - iso_v / iec_v == pytest.approx(0.27, abs=0.005)


@given(st.floats(-20, 60), st.floats(70, 200), st.floats(0.1, 500))
def test_a_conductor_at_its_ampacity_is_at_its_rating(ambient_c, rating_c, ampacity_a):
    assert conductor_temperature_c(ambient_c, rating_c, ampacity_a, ampacity_a) == pytest.approx(rating_c)
    assert conductor_temperature_c(ambient_c, rating_c, 0, ampacity_a) == ambient_c
    half_c = conductor_temperature_c(ambient_c, rating_c, ampacity_a / 2, ampacity_a)
    assert half_c - ambient_c == pytest.approx((rating_c - ambient_c) / 4)


def test_copper_mass_by_hand():
    # A cubic decimetre of copper is 8.89 kg (from memory, IEC 60028): 100 mm² over 10 m.
    assert copper_kg(100, 10) == pytest.approx(8.89, abs=0.005)
