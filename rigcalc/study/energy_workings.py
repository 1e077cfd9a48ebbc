"""How the energies of a day came about, ready to be shown."""

from __future__ import annotations

from rigcalc.model import Load, Rig
from rigcalc.study.coldbox import move_working
from rigcalc.study.day import day_working, on_ac
from rigcalc.study.feeding import Feeder, converter_efficiency
from rigcalc.study.results import LoadEnergy, Spread, Working
from rigcalc.study.rig_day import UNSTATED_PROVENANCE, Entry, RigDay
from rigcalc.study.working import band, figure, plural, sourced
from rigcalc.tables.battery import provenance_spread

_NO_TIMES = "times of use are not known: each load falls anywhere within the hours on"


def row_workings(rig: Rig, entry: Entry, factor: float, design: RigDay) -> tuple[Working, ...]:
    """From what is stated to the battery, one step a working."""
    load = entry.load
    found = [day_working(load, entry.own)]
    if entry.own.missing:
        return tuple(found)
    found.append(_range(load, entry.own_wh))
    if entry.appliance_wh != entry.own_wh and load.cold_box is not None:
        room_c, inside_c = rig.ambient_usual_c, load.cold_box.inside_c
        found.append(move_working(load, entry.own_wh, entry.appliance_wh, room_c, inside_c))
    found.append(_battery(rig, entry, factor, design))
    return tuple(found)


def _range(load: Load, own: Spread) -> Working:
    row = provenance_spread(load.provenance or UNSTATED_PROVENANCE)
    what, result = f"Low and high day of {load.name} at the appliance", band(own, "Wh")
    by_table = own == Spread(row.low * own.likely, row.mid * own.likely, row.high * own.likely)
    if not by_table:
        return Working(what, "E_low, E_high", "as stated", result, "stated for this load")
    known = f"{load.provenance}" if load.provenance else "how it is known is not stated: as a guess"
    numbers = f"{known}; {row.low:g} and {row.high:g} times {figure(own.likely)} Wh"
    return sourced(what, "E_low = a · E, E_high = b · E", numbers, result, row)


def _battery(rig: Rig, entry: Entry, factor: float, design: RigDay) -> Working:
    load, likely = entry.load, entry.appliance_wh.likely
    what, result = f"A day of {load.name} at the battery", f"{figure(likely * factor)} Wh"
    if entry.read_factor is not None:
        numbers = f"{result} read; {figure(likely)} Wh of it reach the appliance"
        return Working(what, "E_bat = E_read", numbers, result)
    if load.feed == "converter":
        numbers = f"{figure(likely)} Wh / {converter_efficiency(rig, load.fed_by):g}"
        return Working(what, "E_bat = E / η_converter", numbers, result)
    if not on_ac(load):
        return Working(what, "E_bat = E", f"{figure(likely)} Wh", result)
    numbers = f"{figure(likely)} Wh · {design.inverter_factors[load.fed_by or '']:.4g}"
    adapter = "" if load.adapter_efficiency is None else " / η_adapter"
    if load.adapter_efficiency is not None:
        numbers += f" / {load.adapter_efficiency:g}"
    return Working(what, f"E_bat = E · f_inverter{adapter}", numbers, result)


def inverter_working(feeder: Feeder, design: RigDay) -> tuple[Working, ...]:
    """Idle once, and the loss that goes to each load."""
    one, factor = feeder.inverter, design.inverter_factors[feeder.inverter.id]
    idle = f"{figure(design.idle_wh[one.id])} Wh"
    if feeder.curve is None:
        loss = Working(f"Loss of {one.name}", "f_inverter = 1 / η", f"1 / {one.efficiency:g}", f"{factor:.4g}")
        if feeder.idle_w is None:
            nothing = Working(f"Idle of {one.name}", "", "not stated: idle draw", "0 Wh", status="not stated")
            return nothing, loss
        numbers = (
            f"{figure(feeder.idle_w)} W · (hours on without a load, of {figure(one.on_h)} h); the one efficiency has "
            "idle inside; how far loads overlap is not known: the hours of the longest count as loaded"
        )
        return Working(f"Idle of {one.name}", "E_idle = P_idle · (t_on − t_loaded)", numbers, idle), loss
    curve = feeder.curve
    numbers = f"{figure(feeder.idle_w or 0.0)} W · {figure(one.on_h)} h"
    k = f"k1 = {curve.k1:.4g}, k2 = {curve.k2:.4g}, P_rated = {figure(one.rated_w)} W; {_NO_TIMES}"
    return (
        Working(f"Idle of {one.name}", "E_idle = k0 · P_rated · t_on", numbers, idle),
        Working(f"Loss of {one.name}", "f_inverter = 1 + k1 + k2 · Σ P²h / (P_rated · Σ P h)", k, f"{factor:.4g}"),
    )


def study_workings(
    rig: Rig,
    by_day: dict[str, float],
    rows: tuple[LoadEnergy, ...],
    design: RigDay,
    quantiles: tuple[float, float],
    guess_share: float,
) -> tuple[Working, ...]:
    """The design day, its sum, its range and what of it is guessed."""
    total, idle = f"{figure(design.total_wh)} Wh", sum(design.idle_wh.values())
    numbers = f"{figure(design.total_wh - idle)} Wh of {plural(len(rows), 'load')} + {figure(idle)} Wh"
    found = [Working("Energy of the day at the battery", "E_day = Σ E_bat + Σ E_idle", numbers, total)]
    if by_day:
        names = {day.id: day.name for day in rig.day_types}
        numbers = ", ".join(f"{names[kind]} {figure(wh)} Wh" for kind, wh in by_day.items())
        chosen = names[design.day_type or next(iter(names))]
        found.append(Working("Design day", "largest of the types of day", numbers, f"{chosen}, {total}"))
    how = (
        "low, likely and high of each row as a triangle, rows independent but for cold boxes, which one room moves "
        "alike; where most rows lean one way, the sum of the likely figures is not the middle"
    )
    span = f"{figure(quantiles[0])} to {figure(quantiles[1])} Wh"
    found.append(Working("Day in 8 of 10 cases", "10 % and 90 % quantile of the sum", how, span))
    guess = f"loads that are guessed or do not say how they are known, of {total}"
    found.append(Working("Share that is guessed", "Σ E_guess / E_day", guess, f"{100 * guess_share:.0f} %"))
    return tuple(found)
