"""Tables of text on energy and autonomy: the day by row, one load by each way, cold boxes, the bank."""

from __future__ import annotations

from rigcalc.outputs.summary import columns
from rigcalc.study import Study
from rigcalc.study.results import LoadEnergy, Spread
from rigcalc.units import significant

Lines = list[str]


def day_lines(study: Study) -> Lines:
    """The design day at the battery by load, idle draw as rows of its own, and the range of the whole."""
    energy = study.energy
    rows = [("Row", "Way", "Known by", "Low, Wh", "Likely, Wh", "High, Wh", "At the appliance, Wh")]
    rows += [_load(one) for one in energy.rows]
    rows += [(f"{one.name}, being on", "inverter", "", "", _wh(one.idle_wh), "", "") for one in energy.inverters]
    whole = (_wh(energy.daily_10_wh), _wh(energy.daily_energy_wh), _wh(energy.daily_90_wh))
    return columns([*rows, ("All together, 8 of 10 days", "", "", *whole, "")])


def _load(one: LoadEnergy) -> tuple[str, str, str, str, str, str, str]:
    return one.name, one.path, one.provenance or "not stated", *_three(one.battery_wh), _wh(one.appliance_wh.likely)


def load_lines(study: Study) -> Lines:
    """The inventory as stated, each load with the day its own figures make at the appliance."""
    rows = [("Load", "Number", "Known by", "Running, W", "Hours", "Low, Wh", "Likely, Wh", "High, Wh")]
    number = {load.id: str(load.quantity) for load in study.rig.loads}
    for one in study.energy.rows:
        known = one.provenance or "not stated"
        figures = (f"{one.running_w:.2f}", f"{one.hours_h:.3f}", *_three(one.appliance_wh))
        rows.append((one.name, number[one.load_id], known, *figures))
    return columns(rows)


def way_lines(study: Study, load_id: str) -> Lines:
    """One load by each way of feeding it."""
    rows = [("Way", "Fed by", "A day, Wh", "Of it idle, Wh")]
    for one in study.energy.paths:
        if one.load_id == load_id:
            energy = one.why_not if one.battery_wh is None else _wh(one.battery_wh)
            rows.append((one.path, one.fed_by or "", energy, _wh(one.idle_wh)))
    return columns(rows)


def cold_lines(study: Study) -> Lines:
    """Cold boxes as refrigerator and as freezer in three rooms; days are of this bank, the box alone on it."""
    rows = [("Load", "As", "Inside", "Room", "Low, Wh", "Likely, Wh", "High, Wh", "Days", "Running")]
    for one in study.energy.cold_boxes:
        running = "not known" if one.duty is None else f"{one.duty:.4f}"
        running += ", no longer holds its temperature" if one.at_cap else ""
        at = (f"{one.inside_c:g} °C", f"{one.ambient_c:g} °C")
        rows.append((one.load_id, one.appliance, *at, *_three(one.battery_wh), f"{one.days.likely:.3f}", running))
    return columns(rows)


def bank_lines(study: Study) -> Lines:
    """The bank from its rating to the days it lasts, and the currents it must give."""
    found = study.autonomy
    rows = [
        ("Rated energy", found.bank_wh, "Wh"),
        ("Mean current of the day", found.rate_current_a, "A"),
        ("Capacity at that current", found.capacity_at_rate_ah, "Ah"),
        ("Share of it at the bank's temperature", found.temperature_fraction, ""),
        ("May be used", found.usable_wh, "Wh"),
        ("Lasts without charging", found.autonomy_d, "d"),
        ("  one day in ten is worse than", found.autonomy_10_d, "d"),
        ("  one day in ten is better than", found.autonomy_90_d, "d"),
        ("Aged, and kept to its depth (strict)", found.autonomy_strict_d, "d"),
        ("Nominal, no losses (never the answer)", found.nominal_d, "d"),
        ("Rated bank for the days wanted", found.needed_wh, "Wh"),
        ("All that may run at once", found.running_a, "A"),
        ("Largest start on top of it", found.starting_a, "A"),
        ("Continuous limit of the bank", found.limit_a, "A"),
    ]
    return columns([(what, _figure(value, unit)) for what, value, unit in rows])


def _figure(value: float | None, unit: str) -> str:
    return "not known" if value is None else f"{significant(value, 6)} {unit}"


def _three(spread: Spread) -> tuple[str, str, str]:
    return _wh(spread.low), _wh(spread.likely), _wh(spread.high)


def _wh(value: float) -> str:
    return f"{value:.2f}"
