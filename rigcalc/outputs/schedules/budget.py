"""Energy budget: the design day by row, what comes in against it, and how long the bank lasts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.outputs.schedules.frame import BY_HAND, NOT_STATED, frame
from rigcalc.study import Study, frames

if TYPE_CHECKING:
    import pandas as pd


def energy_budget(study: Study, units: str | None = None) -> pd.DataFrame:
    """The design day at the battery, largest row first, inverters' idle draw as rows of its own.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        "At the battery [Wh]" sums to the study's day; a column more for each type of day.
    """
    day_names = {day.id: day.name for day in study.rig.day_types}
    found = frames.budget(study)
    found["share"] *= 100
    found["known by"] = [
        NOT_STATED if known is None or known != known else known for known in found["known by"].tolist()
    ]
    found.loc[[row in {one.inverter_id for one in study.energy.inverters} for row in found["id"]], "known by"] = ""
    days = {f"{day}_wh": f"On {day_names.get(day, day)} ({day}) [Wh]" for day in study.energy.by_day_type}
    heads = [days.get(head, _BUDGET.get(head, head)) for head in found.columns]
    return frame(study, units, heads, found.astype(object).values.tolist())


_BUDGET = {
    "id": "Load", "row": "Name", "path": "Fed", "known by": "Known by", "appliance_wh": "At the appliance [Wh]",
    "battery_wh": "At the battery [Wh]", "low_wh": "Low [Wh]", "high_wh": "High [Wh]", "share": "Share [%]",
}  # fmt: skip


def energy_balance(study: Study, units: str | None = None) -> pd.DataFrame:
    """What goes out on each type of day; what comes in is measured or estimated and written in by hand.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`; a rig holds no charging sources, so their columns are empty.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        A row a type of day.
    """
    names = {day.id: day.name for day in study.rig.day_types}
    days = study.energy.by_day_type or {"every day": study.energy.daily_energy_wh}
    rows = [[names.get(day, day), out_wh, *[BY_HAND] * (len(_BALANCE) - 2)] for day, out_wh in days.items()]
    return frame(study, units, _BALANCE, rows)


_BALANCE = (
    "Type of day", "Out, at the battery [Wh]", "In, solar [Wh]", "In, alternator [Wh]", "In, shore [Wh]",
    "In, generator [Wh]", "In less out [Wh]", "Days a month", "Shed first",
)  # fmt: skip


def autonomy(study: Study, units: str | None = None) -> pd.DataFrame:
    """The bank and how long it lasts without charging, a line a figure.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        An empty value is not known, or nothing is drawn.
    """
    found = frames.autonomy(study)
    rows = [[what, value, unit.strip("-")] for what, value, unit in found.astype(object).values.tolist()]
    rows += [
        ["Capacity at the bank's temperature is known by", study.autonomy.temperature_status, ""],
        ["The day's current among the stated rates", study.autonomy.rate_status, ""],
    ]
    return frame(study, units, ("What", "Value", "Unit"), rows)
