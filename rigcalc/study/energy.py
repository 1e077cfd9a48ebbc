"""The day of the whole rig: each load's energy at the appliance and at the battery, inverters, range, day types.

The design day is the largest of the rig's types of day; an average over a week never sizes a bank.
"""

from __future__ import annotations

from rigcalc.formulas.energy import share
from rigcalc.formulas.spread import Moments, largest_contributor, sum_quantile, triangular_moments
from rigcalc.model import Rig
from rigcalc.study import coldbox
from rigcalc.study.bank import bank_state
from rigcalc.study.day import on_ac
from rigcalc.study.energy_workings import inverter_working, row_workings, study_workings
from rigcalc.study.feeding import Feeder, converter_efficiency, feeders
from rigcalc.study.paths import path_costs
from rigcalc.study.results import ColdBoxCell, EnergyStudy, InverterEnergy, Later, LoadEnergy, Spread
from rigcalc.study.rig_day import Entry, RigDay, rig_day

IDLE = "inverter_idle"  # beside the paths of the loads


def energy_study(rig: Rig) -> EnergyStudy:
    """Everything about the rig's energy on its design day.

    Parameters
    ----------
    rig : Rig
        May be incomplete: a load that does not say enough counts as 0 Wh and names what is missing.

    Returns
    -------
    EnergyStudy
        Loads and inverters whose energies add up to the day, its range, ways of feeding, cold boxes.
    """
    by_id = feeders(rig)
    days = _days(rig, by_id)
    design = max(days.values(), key=lambda day: day.total_wh)
    rows = tuple(_row(rig, days, design, at, by_id) for at in range(len(rig.loads)))
    total, quantiles = design.total_wh, _quantiles(rig, rows, design)
    by_day = {kind: day.total_wh for kind, day in days.items() if kind is not None}
    guess_share = share(sum(row.battery_wh.likely for row in rows if _guessed(row)), total) if total else 0.0
    return EnergyStudy(
        day_type=design.day_type,
        rows=rows,
        inverters=tuple(_inverter(by_id[one.id], design, days) for one in rig.inverters),
        daily_energy_wh=total,
        daily_10_wh=quantiles[0],
        daily_90_wh=quantiles[1],
        by_path=_by_path(rows, design),
        by_day_type=by_day,
        guess_share=guess_share,
        measure_first=_largest([row for row in rows if row.provenance != "measured"]),
        adds_most=_adds_most(rig, rows),
        every_way=Later(lambda: path_costs(rig, design, by_id)),
        every_box=Later(lambda: tuple(_cells(rig, design))),
        hot_duty=_hot_duties(rig, design),
        work_out=Later(lambda: study_workings(rig, by_day, rows, design, quantiles, guess_share)),
    )


def _days(rig: Rig, by_id: dict[str, Feeder]) -> dict[str | None, RigDay]:
    kinds: list[str | None] = [one.id for one in rig.day_types]
    return {kind: rig_day(rig, kind, by_id) for kind in kinds or [None]}


def _guessed(row: LoadEnergy) -> bool:
    """Guessed, or it does not say how its figures are known."""
    return row.provenance in (None, "guess")


def _row(rig: Rig, days: dict[str | None, RigDay], design: RigDay, at: int, by_id: dict[str, Feeder]) -> LoadEnergy:
    entry, factor = design.entries[at], design.factors[at]
    load = entry.load
    return LoadEnergy(
        load_id=load.id,
        name=load.name,
        path=load.feed,
        provenance=load.provenance,
        running_w=entry.day.running_w,
        battery_running_w=_battery_running_w(rig, entry, by_id),
        hours_h=entry.day.hours_h or 0.0,
        appliance_wh=entry.appliance_wh,
        battery_wh=entry.appliance_wh.times(factor),
        by_day_type={kind: _battery_wh(day, at) for kind, day in days.items() if kind is not None},
        missing=entry.day.missing,
        work_out=Later(lambda: row_workings(rig, entry, factor, design)),
        notes=entry.notes + ((entry.room_note,) if entry.room_note else ()),
    )


def _battery_wh(day: RigDay, at: int) -> float:
    return day.entries[at].appliance_wh.likely * day.factors[at]


def _battery_running_w(rig: Rig, entry: Entry, by_id: dict[str, Feeder]) -> float:
    load, running_w = entry.load, entry.day.running_w
    if load.feed == "converter":
        return running_w / converter_efficiency(rig, load.fed_by)
    if on_ac(load):
        return by_id[load.fed_by or ""].above_idle_w(running_w / (load.adapter_efficiency or 1.0))
    return running_w


def _inverter(feeder: Feeder, design: RigDay, days: dict[str | None, RigDay]) -> InverterEnergy:
    one = feeder.inverter
    fed = [(e, f) for e, f in zip(design.entries, design.factors, strict=True) if e.ac_wh and e.load.fed_by == one.id]
    ac_wh = sum(entry.ac_wh for entry, _ in fed)
    return InverterEnergy(
        inverter_id=one.id,
        name=one.name,
        ac_wh=ac_wh,
        idle_wh=design.idle_wh[one.id],
        loss_wh=sum(entry.appliance_wh.likely * factor for entry, factor in fed) - ac_wh,
        idle_stated=feeder.idle_w is not None,
        workings=inverter_working(feeder, design),
        idle_by_day_type={kind: day.idle_wh[one.id] for kind, day in days.items() if kind is not None},
    )


def _by_path(rows: tuple[LoadEnergy, ...], design: RigDay) -> dict[str, float]:
    """Battery energy by way of feeding, the inverters' idle draw as a way of its own."""
    found: dict[str, float] = {}
    for row in rows:
        found[row.path] = found.get(row.path, 0.0) + row.battery_wh.likely
    return found | ({IDLE: sum(design.idle_wh.values())} if design.idle_wh else {})


def _moments(spread: Spread) -> Moments:
    return triangular_moments(spread.low, spread.likely, spread.high)


def _boxes_and_rest(rig: Rig, rows: tuple[LoadEnergy, ...]) -> tuple[list[LoadEnergy], list[LoadEnergy]]:
    boxes = {load.id for load in rig.loads if load.cold_box is not None}
    return [row for row in rows if row.load_id in boxes], [row for row in rows if row.load_id not in boxes]


def _together(rows: list[LoadEnergy]) -> Spread:
    """Rows that one hot week moves alike: their spreads add up end to end."""
    spreads = [row.battery_wh for row in rows]
    return Spread(sum(s.low for s in spreads), sum(s.likely for s in spreads), sum(s.high for s in spreads))


def _quantiles(rig: Rig, rows: tuple[LoadEnergy, ...], design: RigDay) -> tuple[float, float]:
    boxes, rest = _boxes_and_rest(rig, rows)
    moments = [_moments(row.battery_wh) for row in rest]
    moments += [_moments(_together(boxes)), Moments(sum(design.idle_wh.values()), 0.0, 0.0)]
    return sum_quantile(moments, 0.1), sum_quantile(moments, 0.9)


def _largest(rows: list[LoadEnergy]) -> str | None:
    at = largest_contributor([_moments(row.battery_wh).variance for row in rows]) if rows else None
    return None if at is None else rows[at].load_id


def _adds_most(rig: Rig, rows: tuple[LoadEnergy, ...]) -> str | None:
    """The row that adds most to the range; cold boxes count together, and the largest of them is named."""
    boxes, rest = _boxes_and_rest(rig, rows)
    together = _moments(_together(boxes)).variance
    alone = max((_moments(row.battery_wh).variance for row in rest), default=0.0)
    return _largest(boxes if together > alone else rest)


def _cells(rig: Rig, design: RigDay) -> list[ColdBoxCell]:
    bank = bank_state(rig.bank)
    boxes = zip(design.entries, design.factors, strict=True)
    return [
        cell
        for entry, factor in boxes
        if entry.load.cold_box is not None
        for cell in coldbox.cells(entry.load, entry.own, entry.own_wh, factor, bank)
    ]


def _hot_duties(rig: Rig, design: RigDay) -> dict[str, float]:
    found = ((e.load.id, coldbox.hot_duty(rig, e.load, e.own, e.own_wh.likely)) for e in design.entries)
    return {load_id: duty for load_id, duty in found if duty is not None}
