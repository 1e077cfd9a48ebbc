"""Load inventory, energy budget and autonomy as DataFrames, by one call each; every column carries its unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.model import Rig
from rigcalc.study.day import hours_of
from rigcalc.study.feeding import feeders
from rigcalc.study.rig_day import Entry, rig_day

if TYPE_CHECKING:
    import pandas as pd

    from rigcalc.study import Study


def inventory(rig: Rig) -> pd.DataFrame:
    """Loads as they are stated, each with the day its own figures make at the appliance.

    Parameters
    ----------
    rig : Rig
        A cold box stays at its own ambient here; hours are those of every day, not of a type of day.

    Returns
    -------
    pandas.DataFrame
        A row a load; what is not stated is empty.
    """
    import pandas as pd

    entries = rig_day(rig, None, feeders(rig)).entries
    return pd.DataFrame([_stated(entry) for entry in entries], columns=_INVENTORY)


_INVENTORY = [
    "id", "load", "quantity", "known by", "power_w", "hours_h", "duty_cycle", "standby_w", "starting_w", "read at",
    "feed", "fed by", "day_wh", "low_wh", "high_wh", "not stated", "notes",
]  # fmt: skip


def _stated(entry: Entry) -> list[object]:
    load, own = entry.load, entry.own_wh
    power_w = entry.day.running_w / load.quantity if load.power_w is not None or load.current_a is not None else None
    return [
        load.id,
        load.name,
        load.quantity,
        load.provenance,
        power_w,
        hours_of(load, None),
        load.duty_cycle,
        load.standby_w,
        load.starting_power_w,
        load.reading.at if load.reading else None,
        load.feed,
        load.fed_by,
        own.likely,
        own.low,
        own.high,
        ", ".join(entry.own.missing),
        "; ".join(entry.notes),
    ]


def budget(study: Study) -> pd.DataFrame:
    """The design day at the battery, largest first, inverter idle as rows of its own, shares of the whole.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.

    Returns
    -------
    pandas.DataFrame
        ``battery_wh`` sums to the study's ``daily_energy_wh``; a column more for each type of day.
    """
    import pandas as pd

    energy = study.energy
    rows: list[dict[str, object]] = [
        {
            "id": row.load_id,
            "row": row.name,
            "path": row.path,
            "known by": row.provenance,
            "appliance_wh": row.appliance_wh.likely,
            "battery_wh": row.battery_wh.likely,
            "low_wh": row.battery_wh.low,
            "high_wh": row.battery_wh.high,
            **{f"{kind}_wh": wh for kind, wh in row.by_day_type.items()},
        }
        for row in energy.rows
    ]
    for one in energy.inverters:
        idle = dict.fromkeys(("battery_wh", "low_wh", "high_wh"), one.idle_wh)
        idle |= {f"{kind}_wh": wh for kind, wh in one.idle_by_day_type.items()}
        row = {"id": one.inverter_id, "row": f"{one.name}, idle", "path": "inverter", "appliance_wh": 0.0}
        rows.append(row | idle)
    frame = pd.DataFrame(rows, columns=_BUDGET + [f"{kind}_wh" for kind in energy.by_day_type])
    frame["share"] = frame["battery_wh"] / (energy.daily_energy_wh or 1.0)
    return frame.sort_values("battery_wh", ascending=False, ignore_index=True)


_BUDGET = ["id", "row", "path", "known by", "appliance_wh", "battery_wh", "low_wh", "high_wh"]


def autonomy(study: Study) -> pd.DataFrame:
    """The bank and how long it lasts: a line a figure, with its unit and how it came about.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.

    Returns
    -------
    pandas.DataFrame
        Columns ``what``, ``value``, ``unit``; an empty value is not known or nothing is drawn.
    """
    import pandas as pd

    found = study.autonomy
    lines = [
        ("Rated energy of the bank", found.bank_wh, "Wh"),
        ("Capacity at the day's mean current", found.capacity_at_rate_ah, "Ah"),
        ("Share left at the bank's temperature", found.temperature_fraction, "-"),
        ("Usable energy", found.usable_wh, "Wh"),
        ("Energy of the design day", study.energy.daily_energy_wh, "Wh/d"),
        ("Autonomy", found.autonomy_d, "d"),
        ("Autonomy, low (1 day in 10 is worse)", found.autonomy_10_d, "d"),
        ("Autonomy, high (1 day in 10 is better)", found.autonomy_90_d, "d"),
        ("Autonomy at the end-of-life capacity", found.autonomy_strict_d, "d"),
        ("Nominal days: whole capacity, no losses", found.nominal_d, "d"),
        ("Bank for the wanted days", found.needed_wh, "Wh"),
        ("Running current", found.running_a, "A"),
        ("Starting current", found.starting_a, "A"),
        ("Limit of the bank", found.limit_a, "A"),
    ]
    return pd.DataFrame(lines, columns=["what", "value", "unit"])
