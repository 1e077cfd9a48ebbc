"""One type of day of the whole rig: every load's energy with its range, and the inverters that carry some of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from rigcalc.formulas.energy import DAY_H, energy_before_wh
from rigcalc.model import Load, Rig
from rigcalc.study import coldbox
from rigcalc.study.day import BATTERY, LoadDay, load_day, on_ac
from rigcalc.study.feeding import Feeder, Part, ac_part, converter_efficiency, read_behind
from rigcalc.study.results import Spread
from rigcalc.study.working import band, figure
from rigcalc.tables.battery import provenance_spread
from rigcalc.units import show

UNSTATED_PROVENANCE = "guess"


@dataclass(frozen=True, slots=True)
class Entry:
    """One load on that day. A cold box counts in the rig's usual room; its own figures stay beside it."""

    load: Load
    own: LoadDay  # by its own figures
    own_wh: Spread  # that day at the appliance
    day: LoadDay  # the day that counts
    appliance_wh: Spread
    read_factor: float | None  # battery over appliance where it was read at the battery
    notes: tuple[str, ...]
    room_note: str  # how a cold box was moved, or why it was not

    @property
    def ac_wh(self) -> float:
        """Likely energy at the socket; 0 for a load without one. [Wh]"""
        return self.appliance_wh.likely / (self.load.adapter_efficiency or 1.0) if on_ac(self.load) else 0.0


@dataclass(frozen=True, slots=True)
class RigDay:
    """All loads and inverters on one type of day."""

    day_type: str | None
    entries: tuple[Entry, ...]
    factors: tuple[float, ...]  # battery energy over energy at the appliance, in the order of the entries
    parts: dict[str, dict[str, Part]]  # inverter id -> load id -> AC power and hours
    inverter_factors: dict[str, float]  # battery energy over AC energy, idle left out
    idle_wh: dict[str, float]

    @property
    def total_wh(self) -> float:
        """Likely energy of the day at the battery, idle draw with it. [Wh]"""
        loads = zip(self.entries, self.factors, strict=True)
        return sum(entry.appliance_wh.likely * factor for entry, factor in loads) + sum(self.idle_wh.values())


def rig_day(rig: Rig, day_type: str | None, by_id: dict[str, Feeder]) -> RigDay:
    """The rig on one type of day, None where it has none."""
    entries = tuple(_entry(rig, load, load_day(load, day_type), by_id) for load in rig.loads)
    parts: dict[str, dict[str, Part]] = {one: {} for one in by_id}
    for entry in entries:
        if entry.ac_wh:
            feeder = by_id[entry.load.fed_by or ""]
            part = ac_part(entry.load, entry.day, entry.ac_wh, feeder.inverter.on_h)
            parts[feeder.inverter.id][entry.load.id] = part
    shared = {one: feeder.factor(tuple(parts[one].values()), feeder.inverter.on_h) for one, feeder in by_id.items()}
    idle = {one: feeder.idle_wh(tuple(parts[one].values()), feeder.inverter.on_h) for one, feeder in by_id.items()}
    factors = tuple(_factor(rig, entry, shared) for entry in entries)
    return RigDay(day_type, entries, factors, parts, shared, idle)


def _factor(rig: Rig, entry: Entry, shared: dict[str, float]) -> float:
    load = entry.load
    if entry.read_factor is not None:
        return entry.read_factor
    if load.feed == "converter":
        return energy_before_wh(1.0, converter_efficiency(rig, load.fed_by))
    if on_ac(load):
        return energy_before_wh(shared[load.fed_by or ""], load.adapter_efficiency or 1.0)
    return 1.0


def _entry(rig: Rig, load: Load, day: LoadDay, by_id: dict[str, Feeder]) -> Entry:
    behind = read_behind(rig, load, day, by_id)
    own, range_note = _range(load, day, day.energy_wh / behind)
    counted, there, room_note = _in_the_usual_room(rig, load, day, own)
    notes = (*day.notes, *((range_note,) if range_note else ()), *_inverter_notes(load, day, by_id))
    return Entry(load, day, own, counted, there, behind if day.point == BATTERY else None, notes, room_note)


def _range(load: Load, day: LoadDay, likely: float) -> tuple[Spread, str]:
    """Low and high as typed, else by how the figures are known; not stated counts as a guess."""
    row = provenance_spread(load.provenance or UNSTATED_PROVENANCE)
    by_table = Spread(row.low * likely, row.mid * likely, row.high * likely)
    if day.missing or (load.daily_low_wh is None and load.daily_high_wh is None):
        return by_table, ""
    low = by_table.low if load.daily_low_wh is None else load.daily_low_wh
    high = by_table.high if load.daily_high_wh is None else load.daily_high_wh
    if low <= likely <= high:
        return Spread(low, likely, high), ""
    typed = f"{figure(low)} to {figure(high)} Wh"
    return by_table, f"the stated range, {typed}, does not hold the day of {figure(likely)} Wh and is not used"


def _in_the_usual_room(rig: Rig, load: Load, day: LoadDay, own: Spread) -> tuple[LoadDay, Spread, str]:
    """A cold box moved to the rig's usual ambient; anything else as it is."""
    if load.cold_box is None or day.missing:
        return day, own, ""
    factors = coldbox.move(load, rig.ambient_usual_c, load.cold_box.inside_c)
    own_c, usual = coldbox.own_ambient_c(load), show(rig.ambient_usual_c, "c", rig.units)
    if factors is None:
        why = "not stated" if own_c is None else f"{show(own_c, 'c', rig.units)}, hardly above its inside or below"
        return day, own, f"the air its figures belong to is {why}: not moved to {usual}"
    there = coldbox.moved(own, factors, coldbox.most_wh(load, day))
    if own_c is None or factors.likely == 1:
        return day, there, ""
    note = f"moved from {show(own_c, 'c', rig.units)} to the usual {usual}: {band(there, 'Wh')}"
    return replace(day, running_h=None), there, note


def _inverter_notes(load: Load, day: LoadDay, by_id: dict[str, Feeder]) -> Iterator[str]:
    if not on_ac(load) or day.missing:
        return
    on_h = by_id[load.fed_by or ""].inverter.on_h
    if day.hours_h is not None and on_h < day.hours_h <= DAY_H:
        yield f"runs {figure(day.hours_h)} h but its inverter is on {figure(on_h)} h"
    if load.standby_w and on_h < DAY_H and load.reading is None:
        yield f"standby is counted for the rest of 24 h; its inverter is on {figure(on_h)} h"
