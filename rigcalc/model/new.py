"""A new rig: valid from the start, on figures that say they are starting figures."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.errors import InputError, need
from rigcalc.model.bank import CELL_V
from rigcalc.model.edit import Change, change
from rigcalc.model.file import rig_from_data
from rigcalc.model.rig import Rig
from rigcalc.tables.battery import battery_figure, chemistry
from rigcalc.tables.rule_sets import rule_set

PRACTICE = "common practice, no source"
OWN = "this project's own starting figure"
USUAL_C, HOT_C, BANK_C = 20.0, 40.0, 20.0
FEEDER_M = {"metric": (1.0, "1 m"), "us": (0.9144, "3 ft")}
EMPTY_CELL_V = {"lead": 1.75, "lithium": 3.0}  # under load; common practice, no source
NOTE = (
    "New rig. The bank's temperature, depth of discharge, end of life and voltages, the air around the rig and the "
    "length of the main feeder are starting figures: replace them with your own."
)


@dataclass(frozen=True, slots=True)
class StartingFigure:
    """One figure a new rig starts with."""

    field: str  # of the bank
    value: float
    source: str
    locator: str
    status: str


def new_rig(
    name: str = "New vehicle",
    rule_set_id: str = "na_vehicle",
    system_v: int = 12,
    chemistry_id: str = "lifepo4",
    capacity_ah: float = 100.0,
    units: str | None = None,
) -> Rig:
    """A rig without loads: one string of batteries, a main fuse, a feeder and a fuse block.

    Parameters
    ----------
    name : str
        Of the rig. [-]
    rule_set_id : str
        Key of `RULE_SETS`. [-]
    system_v : int
        12, 24 or 48. [V]
    chemistry_id : str
        flooded, agm, gel or lifepo4. [-]
    capacity_ah : float
        Of the bank. [Ah]
    units : str, optional
        "metric" or "us"; left out, feet and °F in North America. [-]

    Examples
    --------
    >>> rig = new_rig("Trailer", "iec_vehicle", 24, "agm", 80)
    >>> rig.bank.nominal_v, rig.units, [run.name for run in rig.runs]
    (24.0, 'metric', ['Bank to fuse block'])
    """
    system = units or ("us" if rule_set(rule_set_id).region == "north_america" else "metric")
    figures = {one.field: one.value for one in starting_figures(chemistry_id, system_v)}
    bank = {"chemistry": chemistry_id, "cells_per_unit": chemistry(chemistry_id).cells_per_12v, **figures}
    bank |= {"unit_capacity_ah": float(capacity_ah), "series": system_v // 12, "parallel": 1}
    return rig_from_data(
        {
            "format": "rigcalc-rig",
            "version": 1,
            "name": name,
            "note": NOTE,
            "rule_set": rule_set_id,
            "units": system,
            "system_v": system_v,
            "ambient_usual_c": USUAL_C,
            "ambient_hot_c": HOT_C,
            "bank": bank,
            "blocks": [{"id": "X1", "name": "Fuse block"}],
            "runs": [_feeder(system)],
            "devices": [{"id": "F1", "run_id": "W1"}],
        }
    )


def _feeder(system: str) -> dict[str, object]:
    length_m, typed = FEEDER_M[system]
    ends = {"id": "W1", "name": "Bank to fuse block", "from_id": "bank", "to_id": "X1"}
    fields = ("length_out_m", "length_back_m")
    return {**ends, **dict.fromkeys(fields, length_m), "typed": dict.fromkeys(fields, typed)}


def starting_figures(chemistry_id: str, system_v: int) -> tuple[StartingFigure, ...]:
    """Figures of a new bank, each with where it comes from.

    Notes
    -----
    Where the chemistry's own charge voltage was not read, the highest of its family stands in: devices must stand
    it. The lead-acid end of life stands in for lithium. All are to be replaced from the battery's own sheet.
    """
    units, family = system_v // 12, chemistry(chemistry_id).family
    need(system_v in (12, 24, 48), "System voltage", system_v, "12, 24 or 48 V")
    empty_v = EMPTY_CELL_V[family] * chemistry(chemistry_id).cells_per_12v * units
    return (
        StartingFigure("temperature_c", BANK_C, OWN, "", "memory"),
        _read("depth_of_discharge", chemistry_id, "depth_of_discharge"),
        _read("end_of_life_fraction", chemistry_id, "end_of_life_fraction", "agm"),
        StartingFigure("lowest_working_v", empty_v, PRACTICE, f"{EMPTY_CELL_V[family]:g} V a cell", "memory"),
        _read("highest_charge_v", chemistry_id, "charge_v_per_12v_unit", "agm", units),
    )


def _read(field: str, chemistry_id: str, quantity: str, stand_in: str = "", times: int = 1) -> StartingFigure:
    row = battery_figure(chemistry_id, quantity)
    by = row or (battery_figure(stand_in, quantity) if stand_in else None)
    if by is None:
        raise InputError(f"Starting figure {field}", chemistry_id, "a chemistry whose figures are in the tables")
    locator = by.locator if row is not None else f"{by.locator}; of {stand_in}, standing in for {chemistry_id}"
    return StartingFigure(field, by.value * times, by.source, locator, by.status)


def at_voltage(rig: Rig, system_v: int) -> tuple[Change, ...]:
    """Changes that bring the rig to another system voltage: more or fewer of the same units in series.

    Raises
    ------
    InputError
        Where no whole number of the bank's units makes that voltage.
    """
    unit_v = rig.bank.cells_per_unit * CELL_V[rig.bank.chemistry]
    series = round(system_v / unit_v)
    if series < 1 or not 0.9 * system_v <= series * unit_v <= 1.1 * system_v:
        given = f"{system_v} V, with battery units of {unit_v:g} V"
        raise InputError("System voltage", given, "a voltage that whole units in series make; change the bank first")
    ratio = series / rig.bank.series
    lowest, highest = rig.bank.lowest_working_v * ratio, rig.bank.highest_charge_v * ratio
    return (
        change("rig", system_v=system_v),
        change("bank", series=series, lowest_working_v=lowest, highest_charge_v=highest),
    )
