"""Currents at the bank: everything that may run at once, and the largest start on top of it.

All units of a row start together; loads that alternate never run together, so of each group only the largest counts.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from rigcalc.formulas.energy import charge_ah, energy_before_wh
from rigcalc.model import Bank, Load, Rig
from rigcalc.study.day import on_ac
from rigcalc.study.feeding import Feeder, converter_efficiency, feeders
from rigcalc.study.results import Working
from rigcalc.study.tree import running_w
from rigcalc.study.working import figure


@dataclass(frozen=True, slots=True)
class Currents:
    """What the bank must give and what it may."""

    running_a: float
    starting_a: float
    starting_load: str | None
    limit_a: float | None
    peak_limit_a: float | None
    workings: tuple[Working, ...]


def currents(rig: Rig) -> Currents:
    """Running and starting current at the lowest working voltage, with the inverters' idle draw, and the limits."""
    by_id, lowest_v = feeders(rig), rig.bank.lowest_working_v
    powers = {load.id: running_w(load) for load in rig.loads}
    running = _at_bank_w(rig, _together(rig, by_id, powers), by_id)
    start_w, starter = running, None
    for load in rig.loads:
        starting_w = load.quantity * (load.starting_power_w or 0.0)
        if starting_w > powers[load.id]:
            with_start = _at_bank_w(rig, _together(rig, by_id, powers | {load.id: starting_w}, load), by_id)
            if with_start > start_w:
                start_w, starter = with_start, load
    limit = _of_bank_a(rig.bank, rig.bank.unit_discharge_max_a)
    peak = _of_bank_a(rig.bank, rig.bank.unit_peak_a)
    shown = _workings(rig, running, start_w, starter, limit)
    starting_load = starter.id if starter else None
    return Currents(charge_ah(running, lowest_v), charge_ah(start_w, lowest_v), starting_load, limit, peak, shown)


def _together(
    rig: Rig, by_id: Mapping[str, Feeder], powers: dict[str, float], starter: Load | None = None
) -> dict[str, float]:
    """Powers at the appliances of what runs at once: of a group the largest at the bank, or the one that starts."""
    chosen: dict[str, tuple[float, str]] = {}
    for load in rig.loads:
        if load.alternates_with is not None:
            rank = float("inf") if load is starter else battery_w(rig, load, powers[load.id], by_id)
            chosen[load.alternates_with] = max(chosen.get(load.alternates_with, (-1.0, "")), (rank, load.id))
    kept = {load_id for _, load_id in chosen.values()}
    return {load.id: powers[load.id] for load in rig.loads if load.alternates_with is None or load.id in kept}


def battery_w(rig: Rig, load: Load, power_w: float, by_id: Mapping[str, Feeder]) -> float:
    """Power a load alone takes from the battery, an inverter's idle draw left out. [W]"""
    if load.feed == "converter":
        return energy_before_wh(power_w, converter_efficiency(rig, load.fed_by))
    if on_ac(load):
        return by_id[load.fed_by or ""].above_idle_w(energy_before_wh(power_w, load.adapter_efficiency or 1.0))
    return power_w


def _at_bank_w(rig: Rig, powers: dict[str, float], by_id: Mapping[str, Feeder]) -> float:
    """Power at the bank: each inverter at the sum of its loads, idle draw included. [W]"""
    ac_w = dict.fromkeys(by_id, 0.0)
    total = 0.0
    for load in rig.loads:
        if load.id not in powers:
            continue
        if on_ac(load):
            ac_w[load.fed_by or ""] += energy_before_wh(powers[load.id], load.adapter_efficiency or 1.0)
        else:
            total += battery_w(rig, load, powers[load.id], by_id)
    return total + sum(_with_idle_w(by_id[one], power_w) for one, power_w in ac_w.items())


def _with_idle_w(feeder: Feeder, ac_w: float) -> float:
    """One typed efficiency has idle inside; at no load the idle draw is what is left. [W]"""
    inside = feeder.curve is None and ac_w > 0
    return feeder.above_idle_w(ac_w) + (0.0 if inside else feeder.idle_w or 0.0)


def mean_power_w(rig: Rig, powers: dict[str, float]) -> float:
    """Power at the bank of chosen loads, idle of the inverters that feed them included. [W]"""
    used = {load.fed_by for load in rig.loads if load.id in powers and on_ac(load)}
    return _at_bank_w(rig, powers, {one: feeder for one, feeder in feeders(rig).items() if one in used})


def _of_bank_a(bank: Bank, unit_a: float | None) -> float | None:
    """What the bank allows where its units share unevenly; None where a limit or the sharing is not stated. [A]"""
    if unit_a is None or (bank.parallel > 1 and bank.largest_share is None):
        return None
    return unit_a / (bank.largest_share or 1.0) if bank.parallel > 1 else unit_a


def _workings(
    rig: Rig, running: float, start_w: float, starter: Load | None, limit: float | None
) -> tuple[Working, ...]:
    lowest_v = rig.bank.lowest_working_v
    unknown = [load.name for load in rig.loads if load.power_w is None and load.current_a is None]
    left_out = f"; not in it, power not stated: {', '.join(unknown)}" if unknown else ""
    numbers = f"{figure(running)} W / {figure(lowest_v)} V{left_out}"
    found = [Working("Running current", "I = Σ P / U_low", numbers, f"{figure(running / lowest_v)} A")]
    if starter:
        numbers = f"{figure(start_w)} W with {starter.name} starting / {figure(lowest_v)} V"
        result = f"{figure(start_w / lowest_v)} A"
        found.append(Working("Starting current", "I = (Σ P + P_start − P) / U_low", numbers, result))
    if limit is not None:
        unit_a = f"{figure(rig.bank.unit_discharge_max_a or 0.0)} A"
        shared = rig.bank.parallel > 1 and rig.bank.largest_share is not None
        numbers = f"{unit_a} / {rig.bank.largest_share:g}" if shared else unit_a
        equation = "I_max = I_unit / share" if shared else "I_max = I_unit"
        found.append(Working("Limit of the bank", equation, numbers, f"{figure(limit)} A", "stated for the bank"))
    return tuple(found)
