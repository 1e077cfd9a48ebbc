"""Conductor, ampacity, protection and fault formulas against published examples and tables.

The source stands beside each case. Cases marked "ours" take a rule that was read and numbers made up for this
project: they guard against change and are no evidence. Where a source is known to be wrong the test says so.
"""

from __future__ import annotations

from math import sqrt

import pytest

from rigcalc.formulas.ampacity import ambient_factor, corrected_ampacity_a
from rigcalc.formulas.conductor import (
    awg_area_mm2,
    awg_circular_mils,
    awg_diameter_mm,
    conductor_temperature_c,
    loop_resistance_ohm,
    resistance_at_ohm,
    resistance_moved,
)
from rigcalc.formulas.fault import bank_resistance_ohm, prospective_current_a, resistance_from_short_circuit_ohm
from rigcalc.formulas.overcurrent import highest_rating_a, least_rating_a, next_rating_a, opening_time_s
from rigcalc.formulas.voltage_drop import (
    circular_mils_needed,
    voltage_drop_circular_mil_v,
    voltage_drop_iec_v,
    voltage_drop_v,
)

FOOT_M = 0.3048
INCH_MM = 25.4
NFPA_70_240_6 = [15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300, 350, 400,
                 450, 500, 600]  # fmt: skip  # NFPA 70, 240.6(A): standard ratings, to 600 A


def _airframe_drop_v(current_a: float, run_ft: float, ohm_per_ft: float) -> float:
    return voltage_drop_v(current_a, run_ft * FOOT_M, 0, ohm_per_ft * 1000 / FOOT_M)


class TestFaaVoltageDrop:
    """FAA AC 43.13-1B CHG 1, Tables 11-7 and 11-8: one conductor, returned through the airframe."""

    @pytest.mark.parametrize(
        ("current_a", "run_ft", "ohm_per_ft", "printed_v", "half_last_digit"),
        [
            pytest.param(20, 107, 0.00044, 0.942, 0.0005, id="6_AWG"),
            # Printed 3.60; the product is 3.555, so the circular rounded to one decimal and wrote two.
            pytest.param(20, 88, 0.00202, 3.6, 0.05, id="12_AWG"),
            pytest.param(20, 39, 0.00126, 0.98, 0.005, id="10_AWG"),
        ],
    )
    def test_printed_drop(self, current_a, run_ft, ohm_per_ft, printed_v, half_last_digit):
        got_v = _airframe_drop_v(current_a, run_ft, ohm_per_ft)
        assert got_v == pytest.approx(printed_v, rel=0, abs=half_last_digit)

    def test_a_printed_drop_that_is_wrong(self):
        # The circular prints 0.366 V for 20 A, 19.5 ft and 0.00126 Ω/ft; the product of its own figures is 0.491 V.
        got_v = _airframe_drop_v(20, 19.5, 0.00126)
        assert got_v == pytest.approx(0.4914, rel=0, abs=0.00005)
        assert abs(got_v - 0.366) > 0.1

    @pytest.mark.parametrize(("drop_v", "printed_ft"), [(1.0, 39), (0.5, 19.5)])
    def test_longest_run(self, drop_v, printed_ft):
        # Worked back from the drop of one foot. 1 ft of room: the circular cuts the run to a round figure.
        assert drop_v / _airframe_drop_v(20, 1, 0.00126) == pytest.approx(printed_ft, rel=0, abs=1)


class TestFaaHotConductor:
    """FAA AC 43.13-1B CHG 1, paragraphs 11-66d and 11-68, example 2: 50 °C around, 200 °C wire, 20 A of 26 A."""

    def test_derated_current(self):
        # Step 1 of the example: 47 A in free air, altitude 0.91, bundle of eight at 60 % load 0.6; printed 26 A.
        assert corrected_ampacity_a(47, 0.91, 0.6) == pytest.approx(26, rel=0, abs=0.5)

    def test_the_printed_temperature_needs_a_square_root(self):
        # The circular's form, (I / Imax) under a root, is an error: heating goes with the square of the current.
        assert 50 + (200 - 50) * sqrt(20 / 26) == pytest.approx(182, rel=0, abs=0.5)
        assert conductor_temperature_c(50, 200, 20, 26) == pytest.approx(139, rel=0, abs=0.5)

    def test_length_at_the_printed_temperature(self):
        # L2 = 254.5 L1 / (234.5 + T2); the example prints 9.5 ft for 15.5 ft at its own 182 °C.
        assert 15.5 / resistance_at_ohm(1, 182) == pytest.approx(9.5, rel=0, abs=0.05)


SAE_ABYC_CMIL = {"16": 2336, "14": 3702, "12": 5833, "10": 9343, "8": 14810}  # least areas, SAE and ABYC, from memory


@pytest.mark.parametrize(("limit", "printed_awg"), [(0.03, "10"), (0.10, "16")])
def test_bilge_pump_of_a_trade_catalogue(limit, printed_awg):
    """Trade catalogue's worked example by ABYC E-11: 12 V, 10 A, 11 ft out and 10 ft back, at 3 % and 10 %."""
    needed = circular_mils_needed(10, 11 + 10, 12 * limit)
    assert next(awg for awg, cmil in SAE_ABYC_CMIL.items() if cmil >= needed) == printed_awg


def test_circular_mil_constant_per_metre():
    # 46 CFR 183.340(p) prints 3.28 for metres, an error: 10.75 Ω·cmil/ft is 35.27 Ω·cmil/m, 3.28 is only the ft in a m.
    per_metre = voltage_drop_circular_mil_v(1, 1 / FOOT_M, 1)
    assert per_metre == pytest.approx(35.27, rel=0, abs=0.005)
    assert per_metre / 3.28 > 10


class TestSolarModuleExample:
    """Sandia, small stand-alone system: module of 3.25 A; NFPA 70 Table 310.17, 90 °C, factor 0.58 at 61-70 °C."""

    def test_rating_for_one_module(self):
        assert least_rating_a(3.25 * 1.25) == pytest.approx(5.08, rel=0, abs=0.005)

    @pytest.mark.parametrize(("table_a", "printed_a"), [(35, 20.3), (55, 31.9)], ids=["14_AWG", "10_AWG"])
    def test_ampacity_in_the_heat(self, table_a, printed_a):
        assert corrected_ampacity_a(table_a, 0.58) == pytest.approx(printed_a, rel=0, abs=0.05)

    def test_fuse_of_five_modules(self):
        assert next_rating_a(NFPA_70_240_6, 5 * least_rating_a(3.25 * 1.25)) == 30

    def test_the_five_modules_need_the_larger_conductor(self):
        # Printed: 20.3 A needed, 10 AWG chosen. 14 AWG gives 20.3 A, a hair too little for 5 x 4.0625 A.
        assert corrected_ampacity_a(35, 0.58) < 5 * 3.25 * 1.25 < corrected_ampacity_a(55, 0.58)


def test_battery_breaker():
    # Note on stationary batteries, author unknown, low trust: 400 A x 1.25 = 500 A, standard rating 500 A.
    assert next_rating_a(NFPA_70_240_6, least_rating_a(400)) == 500


@pytest.mark.parametrize(
    ("table_a", "factors", "expected_a"),
    [
        # 33 CFR 183.425 Table 5 notes 1 and 2: 10 AWG 105 °C, engine space, five conductors.
        pytest.param(60, (0.85, 0.6), 30.6, id="boat_engine_space"),
        # NFPA 70 Table 310.16 and 310.15(C)(1): 10 AWG 90 °C, six current-carrying conductors.
        pytest.param(40, (0.8,), 32.0, id="six_in_a_raceway"),
    ],
)
def test_corrected_ampacity_ours(table_a, factors, expected_a):
    assert corrected_ampacity_a(table_a, *factors) == pytest.approx(expected_a, rel=0, abs=0.05)


NFPA_70_AMBIENT = {  # NFPA 70 Table 310.15(B)(1): upper end of each row, factors at 60, 75 and 90 °C
    10: (1.29, 1.20, 1.15), 15: (1.22, 1.15, 1.12), 20: (1.15, 1.11, 1.08), 25: (1.08, 1.05, 1.04), 30: (1, 1, 1),
    35: (0.91, 0.94, 0.96), 40: (0.82, 0.88, 0.91), 45: (0.71, 0.82, 0.87), 50: (0.58, 0.75, 0.82),
    55: (0.41, 0.67, 0.76), 60: (None, 0.58, 0.71), 65: (None, 0.47, 0.65), 70: (None, 0.33, 0.58),
    75: (None, None, 0.50), 80: (None, None, 0.41), 85: (None, None, 0.29),
}  # fmt: skip  # rows from 65 °C on are from memory


@pytest.mark.parametrize(
    ("ambient_c", "rating_c", "printed"),
    [
        (ambient_c, rating_c, printed)
        for ambient_c, row in NFPA_70_AMBIENT.items()
        for rating_c, printed in zip((60, 75, 90), row, strict=True)
        if printed is not None
    ],
)
def test_ambient_factor_against_nfpa_70(ambient_c, rating_c, printed):
    assert ambient_factor(rating_c, ambient_c) == pytest.approx(printed, rel=0, abs=0.005)


@pytest.mark.parametrize(
    ("rating_c", "printed"), [(60, 0.58), (75, 0.75), (80, 0.78), (90, 0.82), (105, 0.85), (125, 0.89)]
)
def test_engine_space_factor_of_33_cfr(rating_c, printed):
    # 33 CFR 183.425 Table 5 note 1 is a 50 °C space. 0.007 of room: it prints 0.78 for 0.7746 and 0.85 for 0.8563.
    assert ambient_factor(rating_c, 50) == pytest.approx(printed, rel=0, abs=0.007)


def test_engine_space_factor_at_200_c_is_not_derived():
    # The same note prints 1.00 at 200 °C, where the formula gives 0.94: the printed factor must be used there.
    assert ambient_factor(200, 50) == pytest.approx(0.94, rel=0, abs=0.005)


@pytest.mark.parametrize(("awg", "printed_in"), [(-3, 0.4600), (10, 0.1019), (36, 0.0050)])
def test_awg_diameter_of_astm_b258(awg, printed_in):
    assert awg_diameter_mm(awg) == pytest.approx(printed_in * INCH_MM, rel=0, abs=0.00005 * INCH_MM)


NFPA_70_TABLE_8 = [  # NFPA 70 Chapter 9 Table 8: AWG, circular mils, Ω/kft at 75 °C of the solid uncoated conductor
    (18, 1620, 7.77), (16, 2580, 4.89), (12, 6530, 1.93), (10, 10380, 1.21), (8, 16510, 0.764)
]  # fmt: skip
NFPA_70_TABLE_8_STRANDED = [
    (6, 26240), (4, 41740), (3, 52620), (2, 66360), (1, 83690), (0, 105600), (-1, 133100), (-2, 167800), (-3, 211600)
]  # fmt: skip


@pytest.mark.parametrize(
    ("awg", "printed_cmil"), [(row[0], row[1]) for row in NFPA_70_TABLE_8] + NFPA_70_TABLE_8_STRANDED
)
def test_awg_circular_mils_of_nfpa_70(awg, printed_cmil):
    # 0.3 %: the table keeps the older rounded diameters in mils, squared (40.3 mil for 18 AWG gives 1620).
    assert awg_circular_mils(awg) == pytest.approx(printed_cmil, rel=0.003)


def test_awg_10_area_ours():
    # Arithmetic on ASTM B258: 101.9 mil, 10 383 cmil, 5.261 mm².
    assert awg_circular_mils(10) == pytest.approx(10383, rel=0, abs=0.5)
    assert awg_area_mm2(10) == pytest.approx(5.261, rel=0, abs=0.0005)


IACS_OHM_CMIL_PER_FT = 10.371  # annealed copper at 20 °C; NBS Handbook 100, from memory


@pytest.mark.parametrize(("awg", "printed_ohm_per_kft"), [(row[0], row[2]) for row in NFPA_70_TABLE_8])
def test_hot_resistance_of_nfpa_70(awg, printed_ohm_per_kft):
    cold = voltage_drop_circular_mil_v(1, 1000, awg_circular_mils(awg), k=IACS_OHM_CMIL_PER_FT)
    # 0.4 %: half the last digit of 1.21, the coarsest of these figures.
    assert resistance_at_ohm(cold, 75) == pytest.approx(printed_ohm_per_kft, rel=0.004)


@pytest.mark.parametrize(("at_c", "printed_per_k"), [(20, 0.00393), (75, 0.00323)])
def test_temperature_coefficient_of_copper(at_c, printed_per_k):
    # IEC 60028 at 20 °C; NFPA 70 Chapter 9 Table 8, note on temperature change, at 75 °C (from memory).
    assert resistance_moved(1, at_c, at_c + 1) - 1 == pytest.approx(printed_per_k, rel=0, abs=0.000005)


def test_wire_resistance_table_at_20_c():
    # Wire table, solid 12 AWG, 20 °C: two wires of 1000 ft at 10 A lose 31.74 V. 0.1 V: its copper is not IACS.
    lost_v = voltage_drop_circular_mil_v(10, 2000, awg_circular_mils(12), k=IACS_OHM_CMIL_PER_FT)
    assert lost_v == pytest.approx(31.74, rel=0, abs=0.1)


def test_temperature_correction_of_iec_60228():
    # IEC 60228, correction to 20 °C at 70 °C, as a ratio 1.2005. 0.006: the standard uses the round 250 / (230 + T).
    assert resistance_at_ohm(1, 70) == pytest.approx(1.2005, rel=0, abs=0.006)


def test_class_5_conductor_drop_ours():
    # IEC 60228 class 5, 2.5 mm²: 7.98 Ω/km at 20 °C (read); 10 m out and back at 10 A is ours.
    assert voltage_drop_v(10, 5, 5, 7.98) == pytest.approx(0.798, rel=0, abs=0.0005)
    assert 10 * loop_resistance_ohm(5, 5, 7.98, 7.98) == pytest.approx(0.798, rel=0, abs=0.0005)


def test_iec_annex_g_drop_ours():
    # IEC 60364-5-52 Annex G, b = 2, ρ1 = 0.0225 (read); 5 m, 16 mm² and 50 A are ours.
    assert voltage_drop_iec_v(50, 5, 5, 16) == pytest.approx(0.7031, rel=0, abs=0.00005)


def test_short_circuit_of_a_bank():
    # ABYC E-11, explanation: six 6 V batteries, two in series, three in parallel, 2400 A each: 7200 A, not 14 400 A.
    unit_ohm = resistance_from_short_circuit_ohm(6, 2400)
    bank_ohm = bank_resistance_ohm(unit_ohm, series=2, parallel=3)
    assert prospective_current_a(12, bank_ohm, 0) == pytest.approx(7200, rel=1e-9)


def test_opening_time_on_a_gate_ours():
    # ISO 8820-3, type E, gate at 200 %: 2 s to 50 s (read; a 40 A fuse at 80 A is ours).
    type_e = [(135, 60, 1800), (200, 2, 50), (350, 0.2, 7)]
    assert opening_time_s(type_e, 80 / 40) == (2, 50)


def test_next_size_up_ours():
    # NFPA 70, 240.4(B), from memory: 32 A of ampacity is no standard rating, so 35 A may follow; 40 A is one and stays.
    assert highest_rating_a(32, NFPA_70_240_6, next_size_up=True, cap_ratio=1.5) == 35
    assert highest_rating_a(40, NFPA_70_240_6, next_size_up=True, cap_ratio=1.5) == 40
