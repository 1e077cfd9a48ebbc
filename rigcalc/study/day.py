"""One load's day where it is known: at the appliance, at the socket, or at the battery.

Power, standby and a meter reading are of one appliance, times ``quantity``; a typed low and high day are of the
whole row. What is not stated makes the row 0 Wh and is named; nothing is guessed.
"""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.formulas.energy import DAY_H, charge_energy_wh, reading_energy_wh_per_day, running_energy_wh
from rigcalc.model import Load, Reading
from rigcalc.study.results import Working
from rigcalc.study.tree import running_w
from rigcalc.study.working import figure

APPLIANCE, SOCKET, BATTERY = "appliance", "socket", "battery"
_POINTS = {"wall_plug": SOCKET, "ac_behind_inverter": SOCKET, "dc_at_appliance": APPLIANCE, "at_battery": BATTERY}
_AC_FEEDS = ("inverter", "inverter_adapter")


@dataclass(frozen=True, slots=True)
class LoadDay:
    """One load on one type of day."""

    energy_wh: float  # at ``point``, all of the quantity
    point: str
    running_w: float  # all of the quantity, at the appliance; 0 where not stated
    hours_h: float | None  # in use; None where not stated
    running_h: float | None  # in use and running; None where not known
    missing: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    scaled: str = ""  # by the hours of this type of day, where a reading is of another


def on_ac(load: Load) -> bool:
    """Whether an inverter feeds it."""
    return load.feed in _AC_FEEDS


def hours_of(load: Load, day_type: str | None) -> float | None:
    """Hours in use on that type of day: its own, or else those of every day; None where not stated. [h]"""
    for use in load.day_use:
        if use.day_type == day_type:
            return use.daily_use_h
    if load.events_per_day is not None and load.event_min is not None:
        return load.events_per_day * load.event_min / 60
    return load.daily_use_h


def load_day(load: Load, day_type: str | None) -> LoadDay:
    """The load's energy on that type of day; a reading goes before power times hours."""
    hours = hours_of(load, day_type)
    if hours is not None and hours > DAY_H:
        note = f"{figure(hours)} h of use is more than a day has; counted as 0 Wh until it is corrected"
        return LoadDay(0.0, APPLIANCE, running_w(load), hours, None, (), (note,))
    if load.reading is not None:
        return _from_reading(load, load.reading, hours)
    return _from_power(load, hours)


def _from_power(load: Load, hours: float | None) -> LoadDay:
    power_w = running_w(load)
    duty = 1.0 if load.duty_cycle is None and not load.cycles else load.duty_cycle
    stated = load.power_w is not None or load.current_a is not None
    named = ((stated, "power"), (hours is not None, "hours of use"), (duty is not None, "duty cycle"))
    missing = tuple(word for known, word in named if not known)
    if missing or hours is None or duty is None:
        return LoadDay(0.0, APPLIANCE, power_w, hours, None, missing)
    standby_w = load.quantity * (load.standby_w or 0.0)
    energy = running_energy_wh(power_w, hours, duty_cycle=duty, standby_w=standby_w)
    return LoadDay(energy, APPLIANCE, power_w, hours, hours * duty)


def _from_reading(load: Load, reading: Reading, hours: float | None) -> LoadDay:
    energy = load.quantity * _read_wh_per_day(reading)
    point, notes, scaled = _POINTS[reading.at], list[str](), ""
    if point == SOCKET and not on_ac(load):
        point = APPLIANCE
        notes.append("read on the AC side: the loss of a mains adapter is inside and counted as the appliance's own")
    if point == BATTERY and on_ac(load):
        notes.append("read at the battery: the inverter's idle draw is inside and stands in its own row again")
    if reading.over_h < DAY_H and (load.cycles or load.cold_box):
        notes.append(f"read over {figure(reading.over_h)} h: of a load that cycles, less than a day can be far off")
    usual = hours_of(load, None)
    if hours == 0 or (hours is not None and usual and hours != usual):
        energy, scaled = energy * hours / (usual or 1.0), f" · {figure(hours)} h / {figure(usual or 0.0)} h"
    elif hours != usual:
        notes.append("its hours by type of day are not used: the reading is of a whole day")
    return LoadDay(energy, point, running_w(load), hours, None, (), tuple(notes), scaled)


def _read_wh_per_day(reading: Reading) -> float:
    if reading.charge_ah is not None and reading.voltage_v is not None:
        return reading_energy_wh_per_day(charge_energy_wh(reading.charge_ah, reading.voltage_v), reading.over_h)
    return reading_energy_wh_per_day(reading.energy_wh or 0.0, reading.over_h)


def day_working(load: Load, day: LoadDay) -> Working:
    """How the day's energy came about, as typed or as read."""
    what = f"A day of {load.name} at the {day.point}"
    status, result = load.provenance or "not stated", f"{figure(day.energy_wh)} Wh"
    if day.missing:
        return Working(what, "", f"not stated: {', '.join(day.missing)}", "0 Wh", "stated for this load", "", status)
    reading = load.reading
    if reading is not None:
        read = f"{figure(reading.energy_wh or 0.0)} Wh"
        if reading.charge_ah is not None and reading.voltage_v is not None:
            read = f"{figure(reading.charge_ah)} Ah · {figure(reading.voltage_v)} V"
        meter = ", ".join(text for text in ("meter reading", reading.meter, reading.date) if text)
        numbers = f"{load.quantity} · 24 h · {read} / {figure(reading.over_h)} h{day.scaled}"
        return Working(what, "E = n · 24 h · E_read / t", numbers, result, meter, f"read {_words(reading.at)}", status)
    numbers = f"{figure(day.running_w)} W · {figure(day.running_h or 0.0)} h"
    if load.standby_w:
        numbers += f" + {load.quantity} · {figure(load.standby_w)} W · {figure(DAY_H - (day.running_h or 0.0))} h"
    equation = "E = n (P · h · d + P_sb · (24 h − h · d))" if load.standby_w else "E = n · P · h · d"
    return Working(what, equation, numbers, result, "stated for this load", "", status)


def _words(at: str) -> str:
    return {"wall_plug": "at the wall plug", "ac_behind_inverter": "on the AC side of the inverter",
            "dc_at_appliance": "on the DC side at the appliance", "at_battery": "at the battery"}[at]  # fmt: skip
