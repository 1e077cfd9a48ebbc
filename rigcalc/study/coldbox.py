"""Cold boxes in another room or at another set-point, with the band the model cannot narrow.

Low and high differ by the part of the energy that does not follow the room, 0 or 30 %; likely is midway.
"""

from __future__ import annotations

from functools import lru_cache

from rigcalc.formulas.coldbox import moved_energy_wh, steady_duty
from rigcalc.formulas.energy import DAY_H, running_energy_wh
from rigcalc.model import Load, Rig
from rigcalc.study.bank import BankState, lasts_d
from rigcalc.study.day import LoadDay
from rigcalc.study.results import ColdBoxCell, Spread, Working
from rigcalc.study.working import band, figure, sourced
from rigcalc.tables.battery import coldbox_assumption

FREEZER_C = -18.0  # common practice, no source
LEAST_DIFFERENCE_K = 1.0  # own choice: nearer to its inside, a room says nothing about a warmer one
AMBIENTS_C = (16.0, 25.0, 32.0)
EQUATION = "E2 = E0 + (E1 − E0) · (T2 − T_i2)/(T1 − T_i1) · COP1/COP2"


def own_ambient_c(load: Load) -> float | None:
    """Air temperature that the load's figures belong to; None where not stated. [°C]"""
    if load.reading is not None and load.reading.ambient_c is not None:
        return load.reading.ambient_c
    return load.duty_ambient_c


def move(load: Load, ambient_c: float, inside_c: float) -> Spread | None:
    """Energy there over the energy of the load's own figures; None where they do not say enough. [-]"""
    own_c = own_ambient_c(load)
    if load.cold_box is None or own_c is None or own_c < load.cold_box.inside_c + LEAST_DIFFERENCE_K:
        return None
    if (own_c, load.cold_box.inside_c) == (ambient_c, inside_c):
        return Spread(1.0, 1.0, 1.0)
    return _move(own_c, load.cold_box.inside_c, ambient_c, inside_c)


@lru_cache(maxsize=512)
def _move(own_c: float, own_inside_c: float, ambient_c: float, inside_c: float) -> Spread:
    ends = sorted(
        moved_energy_wh(
            1.0,
            ambient_from_c=own_c,
            inside_from_c=own_inside_c,
            ambient_to_c=ambient_c,
            inside_to_c=inside_c,
            constant_wh=coldbox_assumption(share).value,
            evaporator_below_k=coldbox_assumption("evaporator_below_inside_k").value,
            condenser_above_k=coldbox_assumption("condenser_above_ambient_k").value,
        )
        for share in ("constant_share_low", "constant_share_high")
    )
    return Spread(ends[0], (ends[0] + ends[1]) / 2, ends[1])


def most_wh(load: Load, day: LoadDay) -> float | None:
    """Energy of a day without a pause; None where the running power is not stated. [Wh]"""
    if not day.running_w:
        return None
    return running_energy_wh(day.running_w, _hours(day), standby_w=_standby_w(load))


def _hours(day: LoadDay) -> float:
    """Hours it is switched on: a box that does not state them is on all day. [h]"""
    return day.hours_h if day.hours_h is not None and day.hours_h <= DAY_H else DAY_H


def _standby_w(load: Load) -> float:
    return load.quantity * (load.standby_w or 0.0)


def moved(own: Spread, factors: Spread, most: float | None) -> Spread:
    """The row's spread and the model's band together, never more than running without a pause."""
    ends = (own.low * factors.low, own.likely * factors.likely, own.high * factors.high)
    if most is None or own.likely > most:  # a reading above its own running power: nothing to hold it to
        return Spread(*ends)
    return Spread(*(min(end, most) for end in ends))


def move_working(load: Load, own: Spread, there: Spread, ambient_c: float, inside_c: float) -> Working:
    """How the energy in the other room came about."""
    box_c = load.cold_box.inside_c if load.cold_box else inside_c
    below, above = (coldbox_assumption(name) for name in ("evaporator_below_inside_k", "condenser_above_ambient_k"))
    low, high = (coldbox_assumption(name).value for name in ("constant_share_low", "constant_share_high"))
    numbers = (
        f"E1 = {figure(own.likely)} Wh at T1 = {_degrees(own_ambient_c(load) or 0.0)}, T_i1 = {_degrees(box_c)}; "
        f"T2 = {_degrees(ambient_c)}, T_i2 = {_degrees(inside_c)}; E0 from {100 * low:g} to {100 * high:g} % of E1; "
        f"evaporator {below.value:g} K below inside, condenser {above.value:g} K above the room"
    )
    what = f"A day of {load.name} at {_degrees(ambient_c)}, {_degrees(inside_c)} inside"
    return sourced(what, EQUATION, numbers, band(there, "Wh"), below)


def _degrees(value_c: float) -> str:
    return f"{round(value_c, 1):g} °C"


def cells(load: Load, day: LoadDay, own: Spread, factor: float, bank: BankState) -> list[ColdBoxCell]:
    """The same box as fridge and as freezer in three rooms; none where its own air is not stated.

    Parameters
    ----------
    load, day : Load, LoadDay
        The box and its day by its own figures.
    own : Spread
        That day at the appliance. [Wh]
    factor : float
        Battery energy over energy at the appliance. [-]
    bank : BankState
        The bank it shall last on, alone.
    """
    if not own.likely:
        return []
    found = []
    for appliance, inside_c in (("fridge", coldbox_assumption("fresh_food_c").value), ("freezer", FREEZER_C)):
        for ambient_c in AMBIENTS_C:
            factors = move(load, ambient_c, inside_c)
            if factors is not None:
                there = moved(own, factors, most_wh(load, day))
                found.append(_cell(load, appliance, inside_c, ambient_c, there, factor, day, own, bank))
    return found


def _cell(
    load: Load, appliance: str, inside_c: float, ambient_c: float, there: Spread, factor: float, day: LoadDay,
    own: Spread, bank: BankState,
) -> ColdBoxCell:  # fmt: skip
    battery, most = there.times(factor), most_wh(load, day)
    return ColdBoxCell(
        load_id=load.id,
        appliance=appliance,
        inside_c=inside_c,
        ambient_c=ambient_c,
        battery_wh=battery,
        days=Spread(*(lasts_d(bank, wh) for wh in (battery.high, battery.likely, battery.low))),
        duty=_duty(load, day, there.likely),
        at_cap=most is not None and there.likely >= most,
        working=move_working(load, own, there, ambient_c, inside_c),
    )


def _duty(load: Load, day: LoadDay, energy_wh: float) -> float | None:
    """Share of its hours that the compressor runs for that energy; None where that is not known."""
    standby_w = _standby_w(load)
    if day.running_w <= standby_w or not _hours(day):
        return None
    if energy_wh <= DAY_H * standby_w:
        return 0.0
    return steady_duty(energy_wh, day.running_w, standby_w) * DAY_H / _hours(day)


def hot_duty(rig: Rig, load: Load, day: LoadDay, own_wh: float) -> float | None:
    """Duty at the rig's hot ambient, upper end of the band; above 1 the box cannot hold its temperature."""
    factors = move(load, rig.ambient_hot_c, load.cold_box.inside_c) if load.cold_box else None
    return None if factors is None or not own_wh else _duty(load, day, own_wh * factors.high)
