"""Names and facts of a rig's parts in words, as the schedules print them."""

from __future__ import annotations

from rigcalc.model import Rig, Run
from rigcalc.model.network import BANK
from rigcalc.outputs.schedules.frame import NOT_STATED
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy
from rigcalc.tables.overcurrent import device_class
from rigcalc.tables.size_text import parse_size

NOT_CHOSEN = "not chosen"
CHEMISTRY = {
    "flooded": "lead, flooded",
    "agm": "lead, AGM",
    "gel": "lead, gel",
    "lifepo4": "lithium iron phosphate",
}


def names(rig: Rig) -> dict[str, str]:
    """Name of every node that a run can begin or end at."""
    found = {BANK: "Battery bank"}
    for nodes in (rig.buses, rig.blocks, rig.converters, rig.inverters, rig.loads):
        found |= {one.id: one.name for one in nodes}
    return found


def protecting(study: Study) -> dict[str, CircuitStudy]:
    """Run id to the circuit whose device protects it."""
    return {run_id: one for one in study.network.circuits for run_id in one.runs}


def size_out(run: RunStudy) -> str:
    """The conductor's named size, or why there is none."""
    return run.choice.size if run.choice else NOT_CHOSEN


def size_back(rig_run: Run, run: RunStudy) -> str:
    """Named size of the return conductor: its own where stated, else that of the way out."""
    if rig_run.return_path == "chassis":
        return "chassis"
    own = parse_size(rig_run.return_conductor)[0] if rig_run.return_conductor else None
    return own.name if own else size_out(run)


def route(run: Run) -> str:
    """Where the run lies, as far as the rig says."""
    laid = run.installation.replace("_", " ") if run.installation else NOT_STATED
    return f"engine space, {laid}" if run.engine_space else laid


def always_live(rig: Rig) -> frozenset[str] | None:
    """Runs that the main switch does not cut off from the bank, converters counted as on; None where none is stated."""
    if rig.main_switch_run is None:
        return None
    feeding = {run.to_id: run for run in rig.runs}
    found = set()
    for run in rig.runs:
        way = [run]
        while way[-1].from_id in feeding:
            way.append(feeding[way[-1].from_id])
        if way[-1].from_id == BANK and rig.main_switch_run not in {one.id for one in way}:
            found.add(run.id)
    return frozenset(found)


def source_voltage_v(study: Study, run_id: str) -> float:
    """The highest voltage a device in the run sees: while charging, or that of the converter it hangs on. [V]"""
    rig = study.rig
    way = next(run.way for run in study.network.runs if run.run_id == run_id)
    start = next(run.from_id for run in rig.runs if run.id == way[0])
    outputs = {one.id: one.output_v for one in rig.converters}
    return outputs.get(start, rig.bank.highest_charge_v)


def rating(one: CircuitStudy) -> float | str:
    """A device's rating, or why it has none. [A]"""
    if one.rating_a is not None:
        return one.rating_a
    return NOT_STATED if one.conductor == "negative" else "none fits"


def class_text(class_id: str | None) -> str:
    """A device class in words."""
    return device_class(class_id).title if class_id else NOT_STATED
