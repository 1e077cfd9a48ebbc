"""Tables of runs and circuits."""

from __future__ import annotations

from rigcalc.model import Run
from rigcalc.outputs.report.markup import call, marked, sheet
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy
from rigcalc.units import show, significant

_RUNS = (
    ("Run", "l", "auto"), ("Name", "l", "1fr"), ("Out", "r", "auto"), ("Back", "r", "auto"), ("Current", "r", "auto"),
    ("Conductor", "l", "auto"), ("Carries", "r", "auto"), ("Drop", "r", "auto"), ("Whole way", "r", "auto"),
    ("Limit", "r", "auto"), ("Decided by", "l", "auto"),
)  # fmt: skip
_CIRCUITS = (
    ("Device", "l", "auto"), ("In run", "l", "auto"), ("Feeds", "l", "1fr"), ("Load", "r", "auto"),
    ("Window", "r", "auto"), ("Rating", "r", "auto"), ("Class", "l", "auto"), ("Interrupts", "r", "auto"),
    ("Short circuit", "r", "auto"), ("From source", "r", "auto"),
)  # fmt: skip
_ABOUT_RUNS = (
    "Out and back are measured along each conductor. Drop is that of the run alone at working temperature; whole way "
    "is from the battery to the end of the run by the rule's own form, which the limit is for. "
    "† marks a figure from memory: confirm it before relying on it."
)
_ABOUT_CIRCUITS = (
    "Window is the span a rating must lie in. Interrupts stands beside the short-circuit current at the device. From "
    "source is along the conductor, with the longest that is allowed. † marks a figure from memory: confirm it on the "
    "maker's sheet."
)


def runs(study: Study) -> str:
    """Each run: its length, current, conductor, drop and what decided."""
    given = {run.id: run for run in study.rig.runs}
    rows = [run_cells(study, given[one.run_id], one) for one in study.network.runs]
    parts = [call("section", "Runs"), sheet(_RUNS, rows, 0.8), call("small", _ABOUT_RUNS)]
    if not study.network.available:
        parts.append(call("say", "The sizes of this rule set are in no read source: it chooses none here."))
    return "".join(parts)


def run_cells(study: Study, run: Run, one: RunStudy) -> tuple[str, ...]:
    """The cells of one run."""
    units, pick = study.rig.units, one.choice
    back = "chassis" if run.length_back_m is None else show(run.length_back_m, "m", units)
    limit = "-" if one.drop_limit_percent is None else f"{one.drop_limit_percent:.3g} %"
    ends = (marked(limit, one.drop_limit_status), one.decided_by)
    start = (one.run_id, one.name, show(run.length_out_m, "m", units), back, f"{significant(one.design_current_a)} A")
    if pick is None:
        return (*start, "none passes" if study.network.available else "not available", "-", "-", "-", *ends)
    carries = "not read" if pick.ampacity_a is None else f"{significant(pick.ampacity_a)} A"
    return (*start, pick.size, carries, f"{significant(pick.drop_v, 2)} V", f"{pick.way_drop_percent:.1f} %", *ends)


def circuits(study: Study) -> str:
    """Each circuit: its device, window and rating, and whether it breaks the short circuit."""
    rows = [_circuit(study, one) for one in study.network.circuits]
    names = {run.id: run.name for run in study.rig.runs}
    parts = [call("section", "Circuits"), sheet(_CIRCUITS, rows, 0.8), call("small", _ABOUT_CIRCUITS)]
    if study.network.unprotected:
        bare = ", ".join(f"{one} ({names[one]})" for one in study.network.unprotected)
        parts.append(call("say", f"No device protects: {bare}."))
    return "".join(parts)


def _circuit(study: Study, one: CircuitStudy) -> tuple[str, ...]:
    most = "not known" if one.most_a is None else significant(one.most_a)
    place = "" if one.conductor == "positive" else ", negative"
    kind = (one.device_class or "not stated").replace("_", " ")
    return (
        one.circuit_id,
        one.run_id + place,
        fed(study, one),
        f"{significant(one.continuous_a)} A",
        f"{significant(one.least_a)} to {most} A",
        rating(one),
        kind,
        "not known" if one.interrupting_a is None else marked(_amps(one.interrupting_a), one.interrupting_status),
        "not known" if one.prospective_a is None else _amps(one.prospective_a),
        _distance(study, one),
    )


def fed(study: Study, one: CircuitStudy) -> str:
    """The loads behind a device by name, or how many there are."""
    rig = study.rig
    names = {load.id: load.name for load in rig.loads} | {one.id: one.name for one in rig.inverters}
    names |= {one.id: one.name for one in rig.converters}
    heard = [names.get(load, load) for load in one.loads]
    return f"{len(heard)} loads" if len(heard) > 2 else ", ".join(heard) or "no load"


def rating(one: CircuitStudy) -> str:
    """The rating, marked where its kind is only remembered."""
    return "none fits" if one.rating_a is None else marked(f"{one.rating_a:g} A", one.rating_status)


def _amps(value: float) -> str:
    return f"{value / 1000:g} kA" if value >= 10_000 else f"{value:.0f} A"


def _distance(study: Study, one: CircuitStudy) -> str:
    units = study.rig.units
    found = "not stated" if one.distance_m is None else show(one.distance_m, "m", units, 2)
    return found if one.distance_limit_m is None else f"{found} of {show(one.distance_limit_m, 'm', units, 2)}"
