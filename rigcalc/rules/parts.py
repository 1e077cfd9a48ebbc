"""Where a part of the rig sits: small look-ups the rules share."""

from __future__ import annotations

from collections.abc import Iterator

from rigcalc.model import Run
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy, SizeCheck


def rig_run(study: Study, run_id: str) -> Run:
    """The run of that id as the person stated it."""
    return next(run for run in study.rig.runs if run.id == run_id)


def run_study(study: Study, run_id: str) -> RunStudy:
    """What was worked out for the run of that id."""
    return next(one for one in study.network.runs if one.run_id == run_id)


def circuit(study: Study, circuit_id: str) -> CircuitStudy:
    """What was worked out for the circuit of that device."""
    return next(one for one in study.network.circuits if one.circuit_id == circuit_id)


def titled(one: RunStudy) -> str:
    """A run as a sentence names it: "W7 (Block to lamp)"."""
    return f"{one.run_id} ({one.name})"


def judged(one: RunStudy) -> SizeCheck | None:
    """The conductor a rule judges: the run's own, or, where none passes, the last size that was tried.

    None where the current is not known, so that nothing was chosen.
    """
    return one.choice or (None if one.unknown else one.smaller)


def supply_devices(study: Study) -> Iterator[CircuitStudy]:
    """Devices in the supply; one in the return protects nothing and has a rule of its own."""
    return (one for one in study.network.circuits if one.conductor == "positive")


def where(study: Study, one: CircuitStudy) -> str:
    """A device as a sentence names it: "F2 in W2 (Block to lamp)"."""
    return f"{one.circuit_id} in {one.run_id} ({rig_run(study, one.run_id).name})"


def source_of(study: Study, run_id: str) -> str:
    """The bank, or the converter whose output a run hangs on."""
    return rig_run(study, run_study(study, run_id).way[0]).from_id


def voltages(study: Study, run_id: str) -> tuple[float, float]:
    """Nominal and highest voltage of the source a run hangs on: the bank, or a converter's output. [V]"""
    source = source_of(study, run_id)
    for converter in study.rig.converters:
        if converter.id == source:
            return converter.output_v, converter.output_v
    return float(study.rig.system_v), study.rig.bank.highest_charge_v


def taking_power(study: Study) -> dict[str, tuple[str, float | None]]:
    """Name and lowest working voltage, None where not stated, of everything a run can end at that takes power."""
    rig = study.rig
    lowest = {load.id: (load.name, load.lowest_working_v) for load in rig.loads}
    lowest |= {inverter.id: (inverter.name, inverter.lowest_input_v) for inverter in rig.inverters}
    return lowest | {converter.id: (converter.name, converter.lowest_input_v) for converter in rig.converters}
