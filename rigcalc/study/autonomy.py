"""How long the bank lasts without charging, the bank that wanted days need, and how long chosen loads run."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import replace
from math import inf

from rigcalc.errors import InputError
from rigcalc.formulas.autonomy import autonomy_strict_d, bank_needed_wh, nominal_autonomy_d, runtime_h
from rigcalc.formulas.capacity import bank_capacity_wh, strings_needed
from rigcalc.formulas.energy import DAY_H, charge_ah
from rigcalc.model import Load, Rig
from rigcalc.study.autonomy_workings import autonomy_workings
from rigcalc.study.bank import (
    BankState,
    bank_state,
    capacity_at,
    capacity_wh,
    drawn_wh,
    lasts_d,
    mean_current_a,
    usable_wh,
)
from rigcalc.study.currents import currents, mean_power_w
from rigcalc.study.day import load_day
from rigcalc.study.feeding import feeders, read_behind
from rigcalc.study.results import AutonomyStudy, EnergyStudy
from rigcalc.study.tree import running_w
from rigcalc.tables.battery import chemistry

Needed = tuple[float | None, int | None, float | None]  # rated Wh at the design current, strings of this unit, Ah


def autonomy_study(rig: Rig, energy: EnergyStudy) -> AutonomyStudy:
    """The bank against the rig's design day.

    Parameters
    ----------
    rig : Rig
        The bank at its stated temperature, with its stated rates.
    energy : EnergyStudy
        The day it serves, from `energy_study` of the same rig.

    Returns
    -------
    AutonomyStudy
        Days without charging; None where nothing is drawn.
    """
    bank, state, daily_wh = rig.bank, bank_state(rig.bank), energy.daily_energy_wh
    drawn = drawn_wh(bank, daily_wh)
    current_a = mean_current_a(bank, drawn)
    rate, flow = capacity_at(state, current_a), currents(rig)
    cell_v = chemistry(bank.chemistry).cell_v
    rated_wh = bank_capacity_wh(bank.unit_capacity_ah, cell_v, bank.cells_per_unit, bank.series, bank.parallel)
    strict = _strict_d(state, current_a, drawn) if drawn else None
    needed = _needed(state, drawn, bank.wanted_autonomy_days, current_a)
    found = AutonomyStudy(
        bank_wh=rated_wh, capacity_ah=bank.capacity_ah, rate_current_a=current_a,
        capacity_at_rate_ah=rate.capacity_ah, rate_known=rate.known, rate_status=rate.status,
        temperature_fraction=state.cold.fraction, temperature_status=state.cold.status,
        usable_wh=usable_wh(state, current_a), autonomy_d=_days(state, daily_wh),
        autonomy_10_d=_days(state, energy.daily_90_wh), autonomy_90_d=_days(state, energy.daily_10_wh),
        autonomy_strict_d=strict,
        nominal_d=nominal_autonomy_d(rated_wh, daily_wh) if daily_wh else None,
        adds_most=energy.adds_most, needed_wh=needed[0], needed_strings=needed[1], needed_ah=needed[2],
        running_a=flow.running_a, starting_a=flow.starting_a, starting_load=flow.starting_load,
        limit_a=flow.limit_a, peak_limit_a=flow.peak_limit_a,
    )  # fmt: skip
    return replace(found, workings=(*autonomy_workings(state, energy, found), *flow.workings))


def _days(state: BankState, daily_wh: float) -> float | None:
    days = lasts_d(state, daily_wh)
    return None if days == inf else days


def _strict_d(state: BankState, current_a: float, drawn: float) -> float:
    bank = state.bank
    capacity = capacity_wh(state, current_a)
    return autonomy_strict_d(capacity, state.cold.fraction, bank.depth_of_discharge, bank.end_of_life_fraction, drawn)


def _needed(state: BankState, drawn: float, wanted_d: float | None, current_a: float) -> Needed:
    """The bank for the wanted days; more strings share the current and each gives a little more."""
    if not drawn or wanted_d is None:
        return None, None, None
    bank = state.bank
    allowances = (state.cold.fraction, bank.depth_of_discharge, bank.end_of_life_fraction)
    wanted_wh = bank_needed_wh(drawn, wanted_d, *allowances)
    wanted_ah = charge_ah(wanted_wh, bank.nominal_v)
    units = [ah for _, ah in state.points]
    tried = range(strings_needed(wanted_ah, max(units)), strings_needed(wanted_ah, min(units)))
    enough = bisect_left(tried, True, key=lambda n: capacity_at(state, current_a, n).capacity_ah >= wanted_ah)
    return wanted_wh, tried.start + enough, wanted_ah


def runtime_of(rig: Rig, load_ids: Sequence[str]) -> float:
    """Hours the bank runs chosen loads and nothing else, without charging.

    Parameters
    ----------
    rig : Rig
        The bank at its stated temperature and rates.
    load_ids : sequence of str
        Loads that run without a break; one that cycles runs at its duty cycle, or where a reading is all that is
        known at the mean of its day. Inverters among them add their idle draw.

    Returns
    -------
    float
        Hours; infinite where the loads draw nothing. [h]

    Raises
    ------
    InputError
        Where an id is not a load of this rig, or a load states no power.
    """
    by_id = {load.id: load for load in rig.loads}
    for load_id in load_ids:
        if load_id not in by_id:
            raise InputError("Load", load_id, "the id of a load of this rig")
    power_w = mean_power_w(rig, {load_id: _running_mean_w(rig, by_id[load_id]) for load_id in load_ids})
    if not power_w:
        return inf
    drawn_w = drawn_wh(rig.bank, power_w)
    return runtime_h(usable_wh(bank_state(rig.bank), charge_ah(drawn_w, rig.bank.nominal_v)), drawn_w)


def _running_mean_w(rig: Rig, load: Load) -> float:
    """Mean power at the appliance while it is in use. [W]"""
    has_power, has_duty = load.power_w is not None or load.current_a is not None, load.duty_cycle is not None
    if has_power and (has_duty or not load.cycles):
        return running_w(load) * (load.duty_cycle or 1.0)
    if load.reading is not None:
        day = load_day(load, None)
        return day.energy_wh / read_behind(rig, load, day, feeders(rig)) / DAY_H
    if has_power:
        raise InputError(f"Duty cycle of {load.name}", None, "the share of the time it runs, such as 0.35")
    raise InputError(f"Power of {load.name}", None, "a power, a current with its voltage, or a reading")
