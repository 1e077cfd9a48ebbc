"""How the days of autonomy came about, ready to be shown."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.study.bank import BankState, drawn_wh
from rigcalc.study.results import AutonomyStudy, EnergyStudy, Working
from rigcalc.study.working import figure, plural
from rigcalc.tables.battery import Chemistry, chemistry

_RULE = ("IEEE 1013", "sizing sequence, clause not recorded", "memory")
_BY_ANALOGY = "; the rule is of lead-acid, used by analogy"


def autonomy_workings(state: BankState, energy: EnergyStudy, found: AutonomyStudy) -> Iterator[Working]:
    """From the cells to the days, one step a working."""
    cell = chemistry(state.bank.chemistry)
    yield _rated(state, found, cell)
    yield _rate(state, energy, found)
    yield state.cold.working
    yield _usable(state, found, cell)
    if found.autonomy_d is None:
        return
    drawn = figure(drawn_wh(state.bank, energy.daily_energy_wh))
    days = f"{figure(found.autonomy_d)} d"
    yield Working("Autonomy", "N = E_usable / E_day", f"{figure(found.usable_wh)} Wh / {drawn} Wh", days, *_RULE)
    yield _range(energy, found)
    yield from _beside(state, energy, found, drawn)
    if found.needed_wh is not None:
        yield _needed(state, found, cell, drawn)


def _rated(state: BankState, found: AutonomyStudy, cell: Chemistry) -> Working:
    bank = state.bank
    cells = f"{cell.cell_v:g} V · {bank.cells_per_unit} · {bank.series}"
    numbers = f"{figure(bank.unit_capacity_ah)} Ah · {bank.parallel} · {cells}"
    equation, result = "E = C · n_p · U_cell · n_cells · n_s", f"{figure(found.bank_wh)} Wh"
    return Working("Rated energy of the bank", equation, numbers, result, cell.source, cell.locator, cell.status)


def _rate(state: BankState, energy: EnergyStudy, found: AutonomyStudy) -> Working:
    bank = state.bank
    drawn = drawn_wh(bank, energy.daily_energy_wh)
    points = ", ".join(f"{figure(ah)} Ah over {figure(hours)} h" for hours, ah in sorted(state.points))
    numbers = (
        f"I = {figure(drawn)} Wh / 24 h / {figure(bank.nominal_v)} V = {figure(found.rate_current_a)} A, shared by "
        f"{plural(bank.parallel, 'string')}; a unit has {points}; {found.rate_status}"
    )
    result = f"{figure(found.capacity_at_rate_ah)} Ah"
    return Working("Capacity at the day's mean current", "C(I), linear in ln I", numbers, result)


def _usable(state: BankState, found: AutonomyStudy, cell: Chemistry) -> Working:
    bank = state.bank
    numbers = (
        f"{figure(found.capacity_at_rate_ah)} Ah · {figure(bank.nominal_v)} V · {figure(found.temperature_fraction)} · "
        f"min({bank.depth_of_discharge:g}, {bank.end_of_life_fraction:g}){'' if cell.family == 'lead' else _BY_ANALOGY}"
    )
    result = f"{figure(found.usable_wh)} Wh"
    return Working("Usable energy", "E_usable = C · U · f_T · min(DoD, EoL)", numbers, result, *_RULE)


def _range(energy: EnergyStudy, found: AutonomyStudy) -> Working:
    numbers = f"the day from {figure(energy.daily_10_wh)} to {figure(energy.daily_90_wh)} Wh"
    result = f"{figure(found.autonomy_10_d or 0.0)} to {figure(found.autonomy_90_d or 0.0)} d"
    return Working("Autonomy in 8 of 10 cases", "N at the 90 % and 10 % quantile of E_day", numbers, result)


def _beside(state: BankState, energy: EnergyStudy, found: AutonomyStudy, drawn: str) -> Iterator[Working]:
    """The stricter product, and the plain division that is never the answer."""
    bank = state.bank
    numbers = (
        f"{figure(found.capacity_at_rate_ah)} Ah · {figure(bank.nominal_v)} V · {figure(found.temperature_fraction)} · "
        f"{bank.depth_of_discharge:g} · {bank.end_of_life_fraction:g} / {drawn} Wh"
    )
    days = f"{figure(found.autonomy_strict_d or 0.0)} d"
    yield Working("Autonomy at the end-of-life capacity", "N = C · U · f_T · DoD · EoL / E_day", numbers, days)
    numbers = f"{figure(found.bank_wh)} Wh / {figure(energy.daily_energy_wh)} Wh"
    days = f"{figure(found.nominal_d or 0.0)} d"
    yield Working("Nominal days: the whole capacity, no losses", "N = E / E_day", numbers, days)


def _needed(state: BankState, found: AutonomyStudy, cell: Chemistry, drawn: str) -> Working:
    bank = state.bank
    numbers = (
        f"{drawn} Wh · {figure(bank.wanted_autonomy_days or 0.0)} d / ({figure(found.temperature_fraction)} · "
        f"min({bank.depth_of_discharge:g}, {bank.end_of_life_fraction:g}))"
        f"{'' if cell.family == 'lead' else _BY_ANALOGY}"
    )
    result = (
        f"{figure(found.needed_wh or 0.0)} Wh, {figure(found.needed_ah or 0.0)} Ah, "
        f"{plural(found.needed_strings or 0, 'string')} of {figure(bank.unit_capacity_ah)} Ah"
    )
    equation = "E_needed = E_day · N / (f_T · min(DoD, EoL))"
    return Working("Bank for the wanted days", equation, numbers, result, *_RULE)
