"""The bank as it is on the day: capacity at its current and temperature, and what of it may be used."""

from __future__ import annotations

from dataclasses import dataclass
from math import inf

from rigcalc.errors import InputError
from rigcalc.formulas.autonomy import autonomy_d
from rigcalc.formulas.capacity import capacity_at_current_ah
from rigcalc.formulas.energy import DAY_H, charge_ah, charge_energy_wh, energy_before_wh
from rigcalc.model import Bank
from rigcalc.study.cold import Cold, cold

INSIDE_POINTS = "between the stated rates"
SLOWER = "slower than the slowest stated rate, whose capacity is used"
FASTER = "faster than the fastest stated rate, whose capacity is used and is too much"
CONTRADICTED = "the rate points contradict the rating, which alone is used"


@dataclass(frozen=True, slots=True)
class RateCapacity:
    """Capacity of the whole bank at one current."""

    capacity_ah: float
    known: bool
    status: str


@dataclass(frozen=True, slots=True)
class BankState:
    """A bank with everything about it that does not depend on the load."""

    bank: Bank
    cold: Cold
    points: tuple[tuple[float, float], ...]  # hours and Ah of one unit
    slowest_a: float  # currents of the slowest and the fastest stated rate, of one string
    fastest_a: float
    contradicted: bool


def bank_state(bank: Bank) -> BankState:
    """The bank at its temperature, with its stated rates."""
    points = {point.over_h: point.capacity_ah for point in bank.rate_points}
    points.setdefault(bank.rated_h, bank.unit_capacity_ah)
    agrees = points[bank.rated_h] == bank.unit_capacity_ah and _fall_with_current(tuple(points.items()))
    used = tuple(points.items()) if agrees else ((bank.rated_h, bank.unit_capacity_ah),)
    currents = [ah / hours for hours, ah in used]
    return BankState(bank, cold(bank), used, min(currents), max(currents), not agrees)


def _fall_with_current(points: tuple[tuple[float, float], ...]) -> bool:
    """Whether the points can all be true of one battery."""
    try:
        capacity_at_current_ah(points, 0.0)
    except InputError:
        return False
    return True


def capacity_at(state: BankState, current_a: float, strings: int | None = None) -> RateCapacity:
    """Capacity of ``strings`` strings (the bank's own where None) that share a current evenly."""
    count = strings or state.bank.parallel
    string_a = current_a / count
    status = SLOWER if string_a < state.slowest_a else FASTER if string_a > state.fastest_a else INSIDE_POINTS
    unit_ah = capacity_at_current_ah(state.points, min(string_a, state.fastest_a))
    known = len(state.points) > 1 and status != FASTER
    return RateCapacity(count * unit_ah, known, CONTRADICTED if state.contradicted else status)


def drawn_wh(bank: Bank, daily_wh: float) -> float:
    """Energy a day with the wiring's loss, where its efficiency is stated. [Wh]"""
    return energy_before_wh(daily_wh, bank.wiring_efficiency or 1.0)


def mean_current_a(bank: Bank, daily_wh: float) -> float:
    """Mean current of a day at the nominal voltage. [A]"""
    return charge_ah(daily_wh, bank.nominal_v) / DAY_H


def capacity_wh(state: BankState, current_a: float) -> float:
    """Capacity at that current at the nominal voltage. [Wh]"""
    return charge_energy_wh(capacity_at(state, current_a).capacity_ah, state.bank.nominal_v)


def usable_wh(state: BankState, current_a: float) -> float:
    """What may be taken at that current: cold, depth of discharge and end of life counted. [Wh]"""
    bank = state.bank
    capacity = capacity_wh(state, current_a)
    return autonomy_d(  # as many Wh as it lasts days at 1 Wh a day
        capacity, state.cold.fraction, bank.depth_of_discharge, bank.end_of_life_fraction, daily_wh=1.0
    )


def lasts_d(state: BankState, daily_wh: float) -> float:
    """Days the bank serves that energy a day; without end where nothing is drawn. [d]"""
    bank, drawn = state.bank, drawn_wh(state.bank, daily_wh)
    if not drawn:
        return inf
    capacity = capacity_wh(state, mean_current_a(bank, drawn))
    return autonomy_d(capacity, state.cold.fraction, bank.depth_of_discharge, bank.end_of_life_fraction, drawn)
