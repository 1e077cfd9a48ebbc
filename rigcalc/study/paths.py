"""What each load would take from the battery by every way of feeding it that the rig has."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.formulas.energy import DAY_H, energy_before_wh
from rigcalc.model import Rig
from rigcalc.study.feeding import Feeder, ac_part
from rigcalc.study.results import PathCost, Working
from rigcalc.study.rig_day import Entry, RigDay
from rigcalc.study.working import figure

ALONE, ON_ALREADY = "idle charged to it", "already on"
_INVERTER, _ADAPTER = "inverter", "inverter and adapter"


def path_costs(rig: Rig, design: RigDay, by_id: dict[str, Feeder]) -> tuple[PathCost, ...]:
    """Every load by every way; a way the rig does not have says why it has no figure."""
    known = [load.adapter_efficiency for load in rig.loads if load.adapter_efficiency is not None]
    least = min(known, default=None)
    return tuple(cost for entry in design.entries for cost in _of_load(rig, entry, design, by_id, least))


def _of_load(
    rig: Rig, entry: Entry, design: RigDay, by_id: dict[str, Feeder], least_adapter: float | None
) -> Iterator[PathCost]:
    load_id, energy_wh = entry.load.id, entry.appliance_wh.likely
    if entry.own.missing:
        yield PathCost(load_id, "direct", None, f"{', '.join(entry.own.missing)} not stated")
        return
    yield PathCost(load_id, "direct", energy_wh, "", _working("E_bat = E", f"{figure(energy_wh)} Wh", energy_wh))
    if not rig.converters:
        yield PathCost(load_id, "converter", None, "the rig has no converter")
    for one in rig.converters:
        battery_wh = energy_before_wh(energy_wh, one.efficiency)
        numbers = f"{figure(energy_wh)} Wh / {one.efficiency:g}"
        yield PathCost(load_id, "converter", battery_wh, "", _working("E_bat = E / η", numbers, battery_wh), one.id)
    adapter = entry.load.adapter_efficiency or least_adapter
    for path, efficiency in ((_INVERTER, 1.0), (_ADAPTER, adapter)):
        if not by_id or efficiency is None:
            why = "no load of the rig states the efficiency of an adapter" if by_id else "the rig has no inverter"
            yield from (PathCost(load_id, f"{path}, {how}", None, why) for how in (ALONE, ON_ALREADY))
            continue
        for feeder in by_id.values():
            yield from _by_inverter(entry, path, efficiency, feeder, design)


def _by_inverter(entry: Entry, path: str, adapter: float, feeder: Feeder, design: RigDay) -> Iterator[PathCost]:
    load, one = entry.load, feeder.inverter
    ac_wh = energy_before_wh(entry.appliance_wh.likely, adapter)
    part = ac_part(load, entry.day, ac_wh, one.on_h, adapter)
    others = {other: its for other, its in design.parts[one.id].items() if other != load.id}
    stages = f"{figure(entry.appliance_wh.likely)} Wh" + (f" / {adapter:g}" if path == _ADAPTER else "")
    hours = _hours_on(entry)
    if hours is None:
        why = "its hours of use are not stated"
        yield PathCost(load.id, f"{path}, {ALONE}", None, why, fed_by=one.id)
    else:
        alone, idle_wh = feeder.factor((part,), hours), feeder.idle_wh((part,), hours)
        total = ac_wh * alone + idle_wh
        numbers = f"{stages} · {alone:.4g} + {figure(idle_wh)} Wh"
        working = _working("E_bat = E · f_inverter + P_idle · t", numbers, total)
        yield PathCost(load.id, f"{path}, {ALONE}", total, "", working, one.id)
    shared = feeder.factor((*others.values(), part), one.on_h)
    working = _working("E_bat = E · f_inverter", f"{stages} · {shared:.4g}", ac_wh * shared)
    yield PathCost(load.id, f"{path}, {ON_ALREADY}", ac_wh * shared, "", working, one.id)


def _hours_on(entry: Entry) -> float | None:
    """Hours an inverter would have to be on for this load alone; None where they are not known."""
    if entry.day.hours_h is not None:
        return min(entry.day.hours_h, DAY_H)
    return DAY_H if entry.load.cycles or entry.load.cold_box else None


def _working(equation: str, numbers: str, battery_wh: float) -> Working:
    return Working("A day at the battery by this way", equation, numbers, f"{figure(battery_wh)} Wh")
