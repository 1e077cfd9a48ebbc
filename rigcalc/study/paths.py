"""What each load would take from the battery by every way of feeding it that the rig has.

An inverter's loss is that of the load alone on it, but for the way the load is fed now, which agrees with its row.
"""

from __future__ import annotations

from rigcalc.formulas.energy import DAY_H, energy_before_wh
from rigcalc.model import Rig
from rigcalc.study.feeding import Feeder, ac_part
from rigcalc.study.results import PathCost, Working
from rigcalc.study.rig_day import Entry, RigDay
from rigcalc.study.working import figure

ALONE, ON_ALREADY = "idle charged to it", "already on"
_INVERTER, _ADAPTER = "inverter", "inverter and adapter"
_PATHS = {"inverter": _INVERTER, "inverter_adapter": _ADAPTER}


def path_costs(rig: Rig, design: RigDay, by_id: dict[str, Feeder]) -> tuple[PathCost, ...]:
    """Every load by every way; a way the rig does not have says why it has no figure."""
    known = [load.adapter_efficiency for load in rig.loads if load.adapter_efficiency is not None]
    least, found = min(known, default=None), list[PathCost]()
    converters = [(one, energy_before_wh(1.0, one.efficiency)) for one in rig.converters]
    for entry in design.entries:
        load_id, energy_wh = entry.load.id, entry.appliance_wh.likely
        if entry.own.missing:
            found.append(PathCost(load_id, "direct", None, f"{', '.join(entry.own.missing)} not stated"))
            continue
        stages = f"{figure(energy_wh)} Wh"
        found.append(_cost(load_id, "direct", energy_wh, "E_bat = E", stages))
        for one, factor in converters:
            numbers = f"{stages} / {one.efficiency:g}"
            found.append(_cost(load_id, "converter", energy_wh * factor, "E_bat = E / η", numbers, one.id))
        for feeder in by_id.values():
            found += _by_inverter(entry, _INVERTER, 1.0, stages, feeder, design)
            adapter = entry.load.adapter_efficiency or least
            if adapter is not None:
                found += _by_inverter(entry, _ADAPTER, adapter, f"{stages} / {adapter:g}", feeder, design)
        found += _not_there(rig, load_id, least)
    return tuple(found)


def _not_there(rig: Rig, load_id: str, adapter: float | None) -> list[PathCost]:
    """The ways this rig does not have."""
    found = [] if rig.converters else [PathCost(load_id, "converter", None, "the rig has no converter")]
    no_adapter = "no load of the rig states the efficiency of an adapter" if adapter is None else ""
    for path, why in ((_INVERTER, ""), (_ADAPTER, no_adapter)):
        why_not = why if rig.inverters else "the rig has no inverter"
        if why_not:
            found += [PathCost(load_id, f"{path}, {how}", None, why_not) for how in (ALONE, ON_ALREADY)]
    return found


def _by_inverter(
    entry: Entry, path: str, adapter: float, stages: str, feeder: Feeder, design: RigDay
) -> list[PathCost]:
    load, one = entry.load, feeder.inverter
    ac_wh = entry.appliance_wh.likely / adapter
    part = ac_part(load, entry.day, ac_wh, one.on_h, adapter)
    factor, hours = feeder.factor((part,), one.on_h), _hours_on(entry)
    if hours is None:
        why = "its hours of use are not stated"
        alone = PathCost(load.id, f"{path}, {ALONE}", None, why, None, one.id)
    else:
        idle_wh = feeder.idle_wh((part,), hours)
        numbers, equation = f"{stages} · {factor:.4g} + {figure(idle_wh)} Wh", "E_bat = E · f_inverter + P_idle · t"
        alone = _cost(load.id, f"{path}, {ALONE}", ac_wh * factor + idle_wh, equation, numbers, one.id, idle_wh)
    if load.fed_by == one.id and _PATHS[load.feed] == path:
        factor = design.inverter_factors[one.id]  # as it is fed now, beside the inverter's other loads
    numbers = f"{stages} · {factor:.4g}"
    return [alone, _cost(load.id, f"{path}, {ON_ALREADY}", ac_wh * factor, "E_bat = E · f_inverter", numbers, one.id)]


def _hours_on(entry: Entry) -> float | None:
    """Hours an inverter would have to be on for this load alone; None where they are not known."""
    if entry.day.hours_h is not None:
        return min(entry.day.hours_h, DAY_H)
    return DAY_H if entry.load.cycles or entry.load.cold_box else None


def _cost(
    load_id: str, path: str, battery_wh: float, equation: str, numbers: str, fed_by: str | None = None,
    idle_wh: float = 0.0,
) -> PathCost:  # fmt: skip
    working = Working("A day at the battery by this way", equation, numbers, f"{figure(battery_wh)} Wh")
    return PathCost(load_id, path, battery_wh, "", working, fed_by, idle_wh)
