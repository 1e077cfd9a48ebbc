"""Schedules: tables that are read, bought from, cut by and signed, each a DataFrame by one call over a study.

Heads carry their units; lengths and temperatures are in the rig's system of units. "not stated" is a fact nobody
gave, "not known" a result that could not be worked out, "–" a fact that does not apply, an empty
cell is written in by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from rigcalc.errors import InputError
from rigcalc.outputs.schedules.battery import battery_card
from rigcalc.outputs.schedules.budget import autonomy, energy_balance, energy_budget
from rigcalc.outputs.schedules.commissioning import commissioning_drops, commissioning_steps
from rigcalc.outputs.schedules.cuts import cut_list, cut_sums, reel_plan
from rigcalc.outputs.schedules.fuses import fuse_schedule
from rigcalc.outputs.schedules.labels import panel_legend, wire_labels
from rigcalc.outputs.schedules.loads import load_sheet, load_sums
from rigcalc.outputs.schedules.maintenance import maintenance
from rigcalc.outputs.schedules.parts import parts_list
from rigcalc.outputs.schedules.wires import wire_schedule
from rigcalc.study import Study

if TYPE_CHECKING:
    import pandas as pd


class Makes(Protocol):
    """A function that makes a schedule; it may take more, such as an order, each with a default."""

    def __call__(self, study: Study, units: str | None = None) -> pd.DataFrame: ...


@dataclass(frozen=True, slots=True)
class Schedule:
    """One schedule: its id in commands and file names, its title on paper, and what makes it."""

    id: str
    title: str
    function: Makes


_ALL = (
    Schedule("load_sheet", "Load sheet", load_sheet),
    Schedule("load_sums", "Load sheet, sums", load_sums),
    Schedule("energy_budget", "Energy budget", energy_budget),
    Schedule("energy_balance", "Energy in and out", energy_balance),
    Schedule("autonomy", "Battery autonomy", autonomy),
    Schedule("wire_schedule", "Wire schedule", wire_schedule),
    Schedule("fuse_schedule", "Fuse schedule", fuse_schedule),
    Schedule("parts_list", "Parts list", parts_list),
    Schedule("cut_list", "Cut list", cut_list),
    Schedule("cut_sums", "Cut list, sums", cut_sums),
    Schedule("reel_plan", "Reel plan", reel_plan),
    Schedule("wire_labels", "Wire labels", wire_labels),
    Schedule("panel_legend", "Panel legend", panel_legend),
    Schedule("battery_card", "Battery card", battery_card),
    Schedule("commissioning_steps", "Commissioning, steps", commissioning_steps),
    Schedule("commissioning_drops", "Commissioning, drops", commissioning_drops),
    Schedule("maintenance", "Maintenance", maintenance),
)
#: Every schedule by its id, in the order of the workbook's sheets.
SCHEDULES: dict[str, Schedule] = {one.id: one for one in _ALL}


def schedule(schedule_id: str) -> Schedule:
    """The schedule of that id.

    Examples
    --------
    >>> schedule("cut_list").title
    'Cut list'
    """
    if schedule_id not in SCHEDULES:
        raise InputError("Schedule", schedule_id, f"one of {', '.join(SCHEDULES)}")
    return SCHEDULES[schedule_id]
