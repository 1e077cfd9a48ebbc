"""Every formula refuses what it cannot use: not a number, endless, of the wrong sign, out of range.

`VALID` holds one good call of every public formula; each numeric argument is spoilt in turn.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Callable, Iterator
from math import inf, nan
from typing import Any

import pytest

import rigcalc.formulas
from rigcalc.errors import InputError
from rigcalc.formulas import (
    ampacity,
    autonomy,
    capacity,
    coldbox,
    conductor,
    energy,
    fault,
    inverter,
    overcurrent,
    spread,
)
from rigcalc.formulas import voltage_drop as drop

CURVE = inverter.LossCurve(0.01, 0.01, 0.05)
ALLOWANCES = {"temperature_fraction": 0.9, "depth_of_discharge": 0.5, "end_of_life_fraction": 0.8}
LENGTHS = {"length_out_m": 5.0, "length_back_m": 4.0}

VALID: list[tuple[Callable[..., Any], dict[str, Any]]] = [
    (energy.running_energy_wh,
     {"power_w": 50.0, "hours_per_day": 12.0, "quantity": 2.0, "duty_cycle": 0.5, "standby_w": 1.0}),
    (energy.power_from_current_w, {"current_a": 2.0, "voltage_v": 12.0}),
    (energy.event_hours_per_day, {"events_per_day": 6.0, "minutes_per_event": 5.0}),
    (energy.reading_energy_wh_per_day, {"energy_wh": 980.0, "hours": 31.28}),
    (energy.charge_energy_wh, {"charge_ah": 100.0, "voltage_v": 12.8}),
    (energy.charge_ah, {"energy_wh": 320.0, "voltage_v": 12.0}),
    (energy.energy_before_wh, {"energy_wh": 60.0}),
    (energy.duty_cycle, {"average_w": 20.0, "running_w": 50.0, "standby_w": 1.0}),
    (energy.share, {"part": 1.0, "whole": 2.0}),
    (inverter.LossCurve, {"k0": 0.01, "k1": 0.01, "k2": 0.05}),
    (inverter.loss_coefficients, {"efficiency_10": 0.85, "efficiency_50": 0.93, "efficiency_100": 0.91}),
    (inverter.efficiency, {"load_fraction": 0.2, "curve": CURVE}),
    (inverter.dc_power_w, {"ac_power_w": 100.0, "rated_w": 2000.0, "curve": CURVE}),
    (inverter.daily_losses_wh, {"rows": [(100.0, 5.0)], "rated_w": 2000.0, "on_hours": 10.0, "curve": CURVE}),
    (coldbox.carnot_cop, {"cold_c": -6.0, "hot_c": 40.0, "fraction": 0.3}),
    (coldbox.relative_energy,
     {"ambient_c": 25.0, "inside_c": 4.0, "evaporator_below_k": 10.0, "condenser_above_k": 15.0}),
    (coldbox.moved_energy_wh,
     {"energy_wh": 500.0, "ambient_from_c": 25.0, "inside_from_c": 4.0, "ambient_to_c": 32.0, "inside_to_c": 4.0,
      "constant_wh": 50.0, "evaporator_below_k": 10.0, "condenser_above_k": 15.0}),
    (coldbox.steady_duty, {"energy_wh": 600.0, "running_w": 50.0, "standby_w": 1.0}),
    (capacity.peukert_exponent, {"hours_1": 20.0, "capacity_1_ah": 40.0, "hours_2": 5.0, "capacity_2_ah": 34.0}),
    (capacity.peukert_hours, {"capacity_ah": 100.0, "rated_hours": 20.0, "current_a": 10.0, "exponent": 1.1}),
    (capacity.capacity_at_current_ah, {"points": [(20, 40), (5, 34)], "current_a": 3.0}),
    (capacity.bank_capacity_wh, {"unit_ah": 100.0, "cell_v": 3.2, "cells_per_unit": 4, "series": 2, "parallel": 2}),
    (capacity.units_in_series, {"system_v": 24.0, "unit_v": 12.0}),
    (capacity.strings_needed, {"capacity_ah": 250.0, "unit_ah": 100.0}),
    (capacity.interpolate, {"x": 68.0, "points": [(65, 1.08), (70, 1.04)], "what": "Temperature"}),
    (capacity.size_factor_to_fraction, {"k": 1.19}),
    (autonomy.autonomy_d, {"capacity_wh": 2560.0, "daily_wh": 500.0, **ALLOWANCES}),
    (autonomy.autonomy_strict_d, {"capacity_wh": 2560.0, "daily_wh": 500.0, **ALLOWANCES}),
    (autonomy.nominal_autonomy_d, {"capacity_wh": 2560.0, "daily_wh": 500.0}),
    (autonomy.bank_needed_wh, {"daily_wh": 500.0, "days": 2.0, **ALLOWANCES}),
    (autonomy.runtime_h, {"usable_wh": 1500.0, "power_w": 300.0}),
    (spread.triangular_moments, {"low": 10.0, "likely": 20.0, "high": 60.0}),
    (spread.sum_quantile, {"moments": [(30.0, 116.7, 600.0)], "probability": 0.9}),
    (spread.largest_contributor, {"variances": [4.0, 9.0]}),
    (conductor.awg_diameter_mm, {"awg_number": 10}),
    (conductor.awg_area_mm2, {"awg_number": 10}),
    (conductor.awg_circular_mils, {"awg_number": 10}),
    (conductor.resistance_moved, {"resistance_ohm": 3.3, "from_c": 20.0, "to_c": 75.0}),
    (conductor.resistance_at_ohm, {"resistance_20c_ohm": 3.3, "temperature_c": 75.0}),
    (conductor.loop_resistance_ohm,
     {**LENGTHS, "resistance_out_ohm_per_km": 3.3, "resistance_back_ohm_per_km": 1.91}),
    (conductor.conductor_temperature_c,
     {"ambient_c": 50.0, "rating_c": 105.0, "current_a": 20.0, "ampacity_a": 26.0}),
    (conductor.copper_kg, {"area_mm2": 16.0, "length_m": 10.0}),
    (drop.voltage_drop_v, {"current_a": 20.0, **LENGTHS, "resistance_ohm_per_km": 3.3}),
    (drop.voltage_drop_circular_mil_v,
     {"current_a": 15.0, "loop_length_ft": 60.0, "circular_mils": 25910.0, "k": 10.75}),
    (drop.circular_mils_needed, {"current_a": 15.0, "loop_length_ft": 60.0, "drop_v": 0.36, "k": 10.75}),
    (drop.voltage_drop_iec_v,
     {"current_a": 50.0, **LENGTHS, "area_mm2": 16.0, "resistivity_ohm_mm2_per_m": 0.0225}),
    (drop.voltage_drop_iso_v, {"current_a": 20.0, "loop_length_m": 10.0, "area_mm2": 6.0}),
    (drop.constant_power_current_a, {"power_w": 120.0, "source_v": 12.0, "resistance_ohm": 0.1}),
    (ampacity.corrected_ampacity_a, {"table_a": 60.0}),
    (ampacity.ambient_factor, {"rating_c": 75.0, "ambient_c": 50.0, "table_ambient_c": 30.0}),
    (overcurrent.least_rating_a, {"continuous_a": 20.0, "continuous_share": 0.8, "rerating": 0.85}),
    (overcurrent.next_rating_a, {"ratings": [15, 20, 30], "at_least_a": 18.0}),
    (overcurrent.highest_rating_a,
     {"ampacity_a": 32.0, "ratings": [30, 35, 40], "next_size_up": True, "cap_ratio": 1.5}),
    (overcurrent.rerating_fraction, {"points": [(20, 1.0), (65, 0.85)], "ambient_c": 40.0}),
    (overcurrent.opening_time_s, {"gates": [(135, 60, 1800), (200, 2, 60)], "current_over_rating": 1.5}),
    (fault.bank_resistance_ohm, {"unit_resistance_ohm": 0.0025, "series": 2, "parallel": 3}),
    (fault.lithium_unit_resistance_ohm, {"capacity_ah": 200.0, "cells": 4, "cell_100ah_ohm": 0.0004}),
    (fault.lead_unit_resistance_ohm, {"c20_ah": 100.0, "unit_v": 6.0, "ohm_ah_per_12v": 0.32}),
    (fault.prospective_current_a, {"voltage_v": 12.8, "bank_resistance_ohm": 0.0016, "loop_resistance_ohm": 0.0048}),
    (fault.resistance_from_short_circuit_ohm, {"voltage_v": 6.0, "short_circuit_a": 2400.0}),
]  # fmt: skip

MAY_BE_NEGATIVE = {"k1", "k2", "low", "awg_number"}  # temperatures are told by their name's end


def _public() -> set[str]:
    names = set()
    for found in pkgutil.iter_modules(rigcalc.formulas.__path__):
        module = importlib.import_module(f"rigcalc.formulas.{found.name}")
        members = inspect.getmembers(module, inspect.isfunction)
        own = [name for name, member in members if member.__module__ == module.__name__ and not name.startswith("_")]
        names.update(f"{found.name}.{name}" for name in own if not found.name.startswith("_"))
    return names


def _name(formula: Callable[..., Any]) -> str:
    return f"{formula.__module__.rpartition('.')[2]}.{formula.__name__}"


def _spoilt() -> Iterator[Any]:
    for formula, good in VALID:
        for argument, value in good.items():
            if isinstance(value, bool) or not isinstance(value, int | float):
                continue
            bad = [nan, inf, -inf]
            if argument not in MAY_BE_NEGATIVE and not argument.endswith("_c"):
                bad.append(-1)
            for spoil in bad:
                yield pytest.param(formula, {**good, argument: spoil}, id=f"{_name(formula)}-{argument}-{spoil}")


def test_every_formula_has_a_good_call():
    assert {_name(formula) for formula, _ in VALID} - {"inverter.LossCurve"} == _public()


@pytest.mark.parametrize(("formula", "good"), [pytest.param(*case, id=_name(case[0])) for case in VALID])
def test_the_good_call_works(formula, good):
    assert formula(**good) is not None


@pytest.mark.parametrize(("formula", "bad"), list(_spoilt()))
def test_a_spoilt_number_is_refused(formula, bad):
    with pytest.raises(InputError):
        formula(**bad)


@pytest.mark.parametrize(
    ("call", "message"),
    [
        (lambda: drop.voltage_drop_v(20, -5, 5, 3.3), "Length out is -5; expected 0 m or more."),
        (lambda: energy.running_energy_wh(10, 25), "Hours a day is 25; expected 0 to 24 h."),
        (lambda: energy.running_energy_wh(10, 5, duty_cycle=40), "Duty cycle is 40; expected 0 to 1."),
        (lambda: energy.event_hours_per_day(100, 15),
         "Events times minutes is 1500; expected at most the 1440 min of a day."),
        (lambda: energy.energy_before_wh(60, 0.9, 1.2), "Efficiency is 1.2; expected above 0 and up to 1."),
        (lambda: energy.energy_before_wh(60, 1.005), "Efficiency is 1.005; expected above 0 and up to 1."),
        (lambda: energy.running_energy_wh(10, 5, duty_cycle=1.005), "Duty cycle is 1.005; expected 0 to 1."),
        (lambda: inverter.loss_coefficients(1.2, 0.9, 0.9),
         "Efficiency at 10% load is 1.2; expected above 0 and up to 1."),
        (lambda: inverter.loss_coefficients(0.9, 1.2, 0.9),
         "Efficiency at 50% load is 1.2; expected above 0 and up to 1."),
        (lambda: inverter.loss_coefficients(0.9, 0.9, 1.2),
         "Efficiency at 100% load is 1.2; expected above 0 and up to 1."),
        (lambda: inverter.daily_losses_wh([], 2000, 24.1, CURVE),
         "Hours the inverter is on is 24.1; expected 0 to 24 h."),
        (lambda: ampacity.corrected_ampacity_a(60, 2.01),
         "Correction factor is 2.01; expected 0 to 2, a fraction and not a percentage."),
        (lambda: spread.sum_quantile([(1, 1, 0)], 0.955), "Probability is 0.955; expected 0.05 to 0.95."),
        (lambda: conductor.awg_diameter_mm(10.5), "AWG number is 10.5; expected a whole number from -3 (4/0) to 40."),
        (lambda: fault.bank_resistance_ohm(0.01, 1, 1.5),
         "Strings in parallel is 1.5; expected a whole number, 1 or more."),
        (lambda: energy.energy_before_wh(60, 0.0), "Efficiency is 0; expected above 0 and up to 1."),
        (lambda: energy.duty_cycle(60, 50, 1),
         "Average power is 60; expected from the standby power to the running power, 1 to 50 W."),
        (lambda: energy.duty_cycle(1, 1, 1), "Running power is 1; expected above the standby power of 1 W."),
        (lambda: inverter.loss_coefficients(0.99, 0.90, 0.91),
         "Idle loss of the inverter (k0) is -0.0153858; expected 0 or more; check the three efficiencies."),
        (lambda: inverter.LossCurve(0.001, -0.02, 0.05),
         "Lowest loss of the inverter is -0.001; expected 0 or more; check the three efficiencies."),
        (lambda: inverter.daily_losses_wh([(100, 12)], 2000, 10, CURVE),
         "Hours of an AC load is 12; expected 0 to the 10 h the inverter is on."),
        (lambda: inverter.daily_losses_wh([(-100, 1)], 2000, 10, CURVE), "AC power is -100; expected 0 W or more."),
        (lambda: coldbox.carnot_cop(40, 40), "Condensing temperature is 40; expected above the evaporating "
         "temperature of 40 °C."),
        (lambda: coldbox.moved_energy_wh(500, ambient_from_c=4, inside_from_c=4, ambient_to_c=30, inside_to_c=4),
         "Ambient temperature of the measurement is 4; expected above the inside temperature of 4 °C."),
        (lambda: coldbox.moved_energy_wh(
            500, ambient_from_c=25, inside_from_c=4, ambient_to_c=30, inside_to_c=4, constant_wh=501),
         "Constant part of the energy is 501; expected 0 to 500 Wh."),
        (lambda: coldbox.steady_duty(20, 50, 1), "Energy a day is 20; expected at least the standby's 24 Wh."),
        (lambda: capacity.capacity_at_current_ah([(20, 40), (5, 34)], 7),
         "Current is 7; expected at most 6.8 A; the capacity data go from 2 to 6.8 A."),
        (lambda: capacity.capacity_at_current_ah([(20, 40)], 2.1),
         "Current is 2.1; expected at most 2 A; the capacity data go from 2 to 2 A."),
        (lambda: capacity.capacity_at_current_ah([(20, 40), (5, 41)], 3),
         "Capacity at 8.2 A is 41; expected at most the 40 Ah at 2 A, as capacity does not rise with current."),
        (lambda: capacity.capacity_at_current_ah([(20, 40), (10, 20)], 1),
         "Current of two points is 2; expected a different current for each point."),
        (lambda: capacity.capacity_at_current_ah([], 1),
         "Capacity data is empty; expected one pair of hours and ampere-hours or more."),
        (lambda: capacity.peukert_exponent(20, 40, 10, 20),
         "Ratio of the two currents is 1; expected two rates of different current."),
        (lambda: capacity.peukert_hours(100, 20, 10, 0.9), "Peukert exponent is 0.9; expected 1 or more."),
        (lambda: capacity.units_in_series(32, 12),
         "Unit voltage is 12; expected a voltage of which a whole number makes 32 V."),
        (lambda: capacity.units_in_series(12, 24),
         "Unit voltage is 24; expected a voltage of which a whole number makes 12 V."),
        (lambda: capacity.interpolate(71, [(65, 1.08), (70, 1.04)], "Temperature"),
         "Temperature is 71; expected 65 to 70, the range of the data."),
        (lambda: capacity.interpolate(65, [(65, 1), (65, 2)], "Temperature"),
         "Table of Temperature is [65, 65]; expected no value twice."),
        (lambda: capacity.interpolate(65, [], "Temperature"),
         "Table of Temperature is empty; expected one point or more."),
        (lambda: spread.triangular_moments(20, 10, 60),
         "Low, likely and high is (20, 10, 60); expected three values in this order."),
        (lambda: spread.sum_quantile([(1, 1, 0)], 0.99), "Probability is 0.99; expected 0.05 to 0.95."),
        (lambda: spread.largest_contributor([1, -1]), "Variance is -1; expected 0 or more."),
        (lambda: conductor.awg_diameter_mm(41), "AWG number is 41; expected a whole number from -3 (4/0) to 40."),
        (lambda: conductor.awg_diameter_mm(-4), "AWG number is -4; expected a whole number from -3 (4/0) to 40."),
        (lambda: conductor.conductor_temperature_c(105, 105, 1, 10),
         "Ambient temperature is 105; expected below the rating of 105 °C."),
        (lambda: drop.constant_power_current_a(361, 12, 0.1),
         "Power is 361; expected at most 360 W, the most these conductors can deliver."),
        (lambda: ampacity.corrected_ampacity_a(60, 80),
         "Correction factor is 80; expected 0 to 2, a fraction and not a percentage."),
        (lambda: ampacity.ambient_factor(30, 20), "Insulation rating is 30; expected above the table's 30 °C."),
        (lambda: overcurrent.next_rating_a([], 10), "Ratings is empty; expected one rating or more."),
        (lambda: overcurrent.next_rating_a([0, 15], 10), "Rating is 0; expected above 0 A."),
        (lambda: overcurrent.highest_rating_a(32, [35], True, 0.8),
         "Cap on the next size is 0.8; expected 1 or more times the ampacity."),
        (lambda: overcurrent.rerating_fraction([(20, 1.0), (125, 0.55)], 130),
         "Ambient temperature of the fuse is 130; expected 20 to 125, the range of the data."),
        (lambda: overcurrent.rerating_fraction([(65, 0.85), (85, 0.75)], 30),
         "Rerating at the coolest point is 0.85; expected 1."),
        (lambda: overcurrent.rerating_fraction([], 30), "Rerating data is empty; expected one point or more."),
        (lambda: overcurrent.opening_time_s([(200, 0, 5)], 2), "Opening time is 0; expected above 0 s."),
        (lambda: overcurrent.opening_time_s([(0, 1, 5)], 2), "Percent of rating is 0; expected above 0 %."),
        (lambda: fault.bank_resistance_ohm(0.01, 0, 1), "Units in series is 0; expected a whole number, 1 or more."),
    ],
)  # fmt: skip
def test_the_message_says_what_and_what_is_allowed(call, message):
    with pytest.raises(InputError) as caught:
        call()
    assert str(caught.value) == message
