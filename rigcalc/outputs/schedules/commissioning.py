"""Commissioning blank: the checks in their order, and each run's predicted drop with an empty cell beside it.

The band of 20 % either way is a working limit of this project, `common practice, no source`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.formulas.conductor import loop_resistance_ohm, resistance_moved
from rigcalc.model import Run
from rigcalc.outputs.schedules.frame import BY_HAND, NOT_KNOWN, frame, in_order, natural
from rigcalc.outputs.schedules.lookup import names
from rigcalc.study import Study
from rigcalc.study.conductors import loop_ohm
from rigcalc.study.network_results import RunStudy, SizeCheck
from rigcalc.tables.conductors import conductor

if TYPE_CHECKING:
    import pandas as pd

BAND = 0.20  # common practice, no source

_STEPS = (
    ("1 Look", "Every cable is supported, kept from edges and covered where it could be touched or chafed."),
    (
        "1 Look",
        "Lugs sit metal on metal, nothing under them; each joint is tightened to its maker's torque and marked.",
    ),
    ("1 Look", "Every tool that went in has come out."),
    ("1 Look", "Each wire carries its number at both ends; each fuse is the one in the fuse schedule."),
    ("2 Cold", "Each conductor is continuous from end to end."),
    ("2 Cold", "With all loads off there is no path from positive to negative."),
    ("2 Cold", "Resistance from positive to chassis."),
    ("2 Cold", "Where mains is on board: insulation, by a licensed electrician."),
    ("3 Polarity", "Before the main switch is closed: signed voltage at each branch."),
    ("4 Open circuit", "Voltage of each battery; those to be paralleled are alike."),
    ("4 Open circuit", "Voltage of each solar string, its temperature noted."),
    (
        "5 First power",
        "Through a small fuse or a limited supply first; the battery to its controller before the array.",
    ),
    ("6 Under load", "Drop of each run on the positive and on the negative side, in the table of predicted drops."),
    ("7 Sharing", "Current of each battery in parallel at a large load and while charging."),
    ("8 Standing current", "All off."),
    ("8 Standing current", "Inverter on, no load."),
    ("9 Inverter", "Start of the largest motor: lowest voltage at the inverter's terminals."),
    ("9 Inverter", "Mains side, earth bond and residual-current device: tested by a licensed electrician."),
    ("10 Charging", "Each source alone: current and voltage."),
    ("10 Charging", "What happens when the battery's own protection opens, and when it is too cold to charge."),
    ("11 Heat", "After 30 minutes at high load: each heavy joint against its like."),
    ("12 Record", "Instruments and their dates, photos, revision of the drawing, names and signatures."),
)


def commissioning_steps(study: Study, units: str | None = None) -> pd.DataFrame:
    """The checks after building, in order, each with room for its reading.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        Readings, dates and names are written in by hand.
    """
    heads = ("Stage", "Check", "Reading", "In order, yes or no", "Date", "By", "Remarks")
    return frame(study, units, heads, [[stage, text, *[BY_HAND] * 5] for stage, text in _STEPS])


_HEADS = (
    "Wire", "Circuit", "From", "To", "At a current of [A]", "Predicted, positive side [V]",
    "Predicted, negative side [V]", "Predicted, both [V]", "Both, 20 % less [V]", "Both, 20 % more [V]",
    "Predicted resistance, both [mΩ]", "Measured current [A]", "Measured at the source [V]",
    "Measured at the load [V]", "Measured, positive side [V]", "Measured, negative side [V]",
    "Inside the band, yes or no", "Remarks",
)  # fmt: skip


def commissioning_drops(study: Study, units: str | None = None, order: str = "number") -> pd.DataFrame:
    """Each run's predicted drop on either side, the band around it, and empty cells for what is measured.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number" or "panel" (where the run comes from). [-]

    Returns
    -------
    pandas.DataFrame
        A row a run, at its design current and working temperature, battery at its lowest; at another current the
        predicted resistance times that current.
    """
    runs, label = {run.id: run for run in study.rig.runs}, names(study.rig)
    keys = {
        "number": lambda one: natural(one.run_id),
        "panel": lambda one: natural(runs[one.run_id].from_id),
    }
    rows = []
    for one in in_order(study.network.runs, order, keys):
        run = runs[one.run_id]
        where = [run.id, run.name, label[run.from_id], label[run.to_id]]
        rows.append([*where, *_predicted(run, one), *[BY_HAND] * 6, _remark(run, one)])
    return frame(study, units, _HEADS, rows)


def _predicted(run: Run, one: RunStudy) -> list[object]:
    pick = one.choice
    if pick is None or one.unknown or not one.solved:
        return [NOT_KNOWN] * 7
    out_v = positive_drop_v(run, pick)
    band = [pick.drop_v * (1 - BAND), pick.drop_v * (1 + BAND)]
    ohm = loop_ohm(run, conductor(pick.size), pick.temperature_c)
    return [pick.current_a, out_v, pick.drop_v - out_v, pick.drop_v, *band, 1000 * ohm]


def positive_drop_v(run: Run, pick: SizeCheck) -> float:
    """Drop over the way out alone, as the study works it out; the rest of the run's drop is the way back's. [V]"""
    size = conductor(pick.size)
    ohm_per_km = resistance_moved(size.resistance_ohm_per_km, size.resistance_at_c, pick.temperature_c)
    return pick.current_a * loop_resistance_ohm(run.length_out_m, 0.0, ohm_per_km, ohm_per_km)


def _remark(run: Run, one: RunStudy) -> str:
    if run.return_path == "chassis" and run.chassis_resistance_ohm is None:
        return "resistance of the chassis not stated: counted as none"
    if one.ambiguous:
        return f"{run.conductor} on the cable can mean {' or '.join(one.ambiguous)}"
    return ""
