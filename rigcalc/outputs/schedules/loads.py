"""Load sheet: what is connected, how its use is known, and what it takes from the battery."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from rigcalc.model import Load
from rigcalc.outputs.schedules.frame import BY_HAND, DOES_NOT_APPLY, NOT_STATED, frame, in_order, known, natural, stated
from rigcalc.outputs.schedules.lookup import names
from rigcalc.study import Study, frames
from rigcalc.study.results import LoadEnergy

if TYPE_CHECKING:
    import pandas as pd

_HEADS = (
    "Load", "Name", "Quantity", "Known by", "Power each [W]", "Use a day [h]", "Times a day", "Minutes each [min]",
    "Duty cycle", "Duty at [°C]", "Standby [W]", "Starting [W]", "Starting for [s]", "Lowest working voltage [V]",
    "Fed by", "AC or DC", "Priority", "Not together with", "Hours by type of day", "Days a week",
    "At the appliance, a day [Wh]", "At the battery, a day [Wh]", "Low [Wh]", "High [Wh]", "At the battery, a day [Ah]",
    "Read at", "Meter", "Date read", "Not stated", "Remarks",
)  # fmt: skip


def load_sheet(study: Study, units: str | None = None, order: str = "number") -> pd.DataFrame:
    """Every load as stated, and its design day at the battery.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number" or "energy" (largest first). [-]

    Returns
    -------
    pandas.DataFrame
        A row a load; ampere-hours are at the bank's nominal voltage. Inverters' idle draw is in the energy budget.
    """
    inventory = {row["id"]: row for row in frames.inventory(study.rig).to_dict("records")}
    loads, label = {load.id: load for load in study.rig.loads}, names(study.rig)
    keys = {"number": lambda one: natural(one.load_id), "energy": lambda one: -one.battery_wh.likely}
    rows = [
        [*_as_stated(loads[one.load_id], inventory[one.load_id], label), *_day(study, one, loads[one.load_id])]
        for one in in_order(study.energy.rows, order, keys)
    ]
    return frame(study, units, _HEADS, rows)


def _as_stated(load: Load, row: dict[object, object], label: dict[str, str]) -> list[object]:
    power = row["power_w"] if load.power_w is not None or load.current_a is not None else NOT_STATED
    return [
        load.id,
        load.name,
        load.quantity,
        stated(load.provenance),
        power,
        *_use(load),
        stated(load.standby_w),
        stated(load.starting_power_w),
        DOES_NOT_APPLY if load.starting_power_w is None else stated(load.starting_s),
        stated(load.lowest_working_v),
        label[load.fed_by] if load.fed_by else "battery",
        "DC" if load.feed in ("direct", "converter") else "AC",
        (load.priority or NOT_STATED).replace("_", " "),
        load.alternates_with or DOES_NOT_APPLY,
        "; ".join(f"{use.day_type} {use.daily_use_h:g} h" for use in load.day_use) or "the same every day",
        BY_HAND,
    ]


def _use(load: Load) -> list[object]:
    """Hours, or times and minutes, and how much of it a load that cycles runs."""
    cycle: list[object] = [DOES_NOT_APPLY] * 2
    if load.cycles or load.cold_box or load.duty_cycle is not None:
        cycle = [stated(load.duty_cycle), stated(load.duty_ambient_c)]
    if load.events_per_day is not None:
        return [DOES_NOT_APPLY, load.events_per_day, stated(load.event_min), *cycle]
    return [stated(load.daily_use_h), DOES_NOT_APPLY, DOES_NOT_APPLY, *cycle]


def _day(study: Study, one: LoadEnergy, load: Load) -> list[object]:
    reading, likely = load.reading, None if one.missing else one.battery_wh
    return [
        known(likely and one.appliance_wh.likely),
        known(likely and likely.likely),
        known(likely and likely.low),
        known(likely and likely.high),
        known(likely and likely.likely / study.rig.bank.nominal_v),
        reading.at.replace("_", " ") if reading else DOES_NOT_APPLY,
        stated(reading.meter) if reading else DOES_NOT_APPLY,
        stated(reading.date) if reading else DOES_NOT_APPLY,
        ", ".join(one.missing),
        "; ".join([*one.notes, *([load.note] if load.note else [])]),
    ]


def load_sums(study: Study, units: str | None = None) -> pd.DataFrame:
    """The foot of the load sheet: the whole day, how much of it is known and how, and what to measure next.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        A line a figure; the shares by provenance and of the inverters' idle draw make up the whole.
    """
    return frame(study, units, ("What", "Value", "Unit"), _sums(study))


def _sums(study: Study) -> Iterator[tuple[object, ...]]:
    energy, name = study.energy, {row.load_id: row.name for row in study.energy.rows}
    yield "Design day", energy.day_type or "every day", ""
    yield "All loads at the battery", energy.daily_energy_wh, "Wh"
    yield "One day in ten is below", energy.daily_10_wh, "Wh"
    yield "One day in ten is above", energy.daily_90_wh, "Wh"
    for kind in ("measured", "label", "guess", None):
        part_wh = sum(row.battery_wh.likely for row in energy.rows if row.provenance == kind)
        yield f"Known by: {kind or NOT_STATED}", _percent(part_wh, energy.daily_energy_wh), "%"
    idle_wh = sum(one.idle_wh for one in energy.inverters)
    yield "Inverters' idle draw", _percent(idle_wh, energy.daily_energy_wh), "%"
    for place, row in enumerate(sorted(energy.rows, key=lambda row: -row.battery_wh.likely)[:5], 1):
        yield f"Largest row {place}: {row.name}", row.battery_wh.likely, "Wh"
    yield "Measuring this would settle most", name.get(energy.measure_first or "", "nothing left to measure"), ""
    yield "This adds most to the range", name.get(energy.adds_most or "", "nothing"), ""


def _percent(part: float, whole: float) -> float:
    return 100 * part / whole if whole else 0.0
