"""The study in a page of text, and as a documented result for other programs.

The result (``as_data``) is one JSON object:

format, version
    ``rigcalc-study``, 1.
rig, revision, rule_set, rule_set_available
    What was studied, by which rules, and whether the rule set's own sizes were read.
daily_energy_wh, daily_10_wh, daily_90_wh
    At the battery on the design day: likely, and its 10 and 90 % points.
autonomy_d, autonomy_10_d, autonomy_90_d, autonomy_strict_d, nominal_d
    Days without charging; nominal_d is arithmetic on the whole capacity without losses.
temperature_status, rate_status
    In words, how the capacity at the bank's temperature is known and where its current lies among the stated rates.
loads
    id, name, path, provenance, battery_wh (low, likely, high), missing.
runs
    id, name, design_current_a, conductor, ampacity_a, drop_v and drop_percent (this run at working temperature),
    rule_drop_percent (whole way, by the rule's form), drop_limit_percent, device_v, decided_by, other_series.
circuits
    The keys of the run that its device is in, then run, runs, loads, prospective_a and fuse: rating_a, class,
    least_a, most_a, most_because, voltage_rating_v, interrupting_a, interrupting_status, status.
findings
    rule, severity, state, subject, sentence, measured, limit, source, status, accepted; with ``--remedies`` also
    remedy, the first single change that was tried through the study and cures it.
assumptions
    Sentences.

Null stands for "not stated" or "not available from a read source", never for zero.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from rigcalc import CAUTION
from rigcalc.rules.finding import SEVERITIES, Finding
from rigcalc.study import Study
from rigcalc.study.bank import CONTRADICTED, FASTER
from rigcalc.study.cold import OUTSIDE
from rigcalc.study.network_results import CircuitStudy, RunStudy
from rigcalc.study.results import AutonomyStudy, LoadEnergy
from rigcalc.units import significant

MARKS = {"stop": "■ stop", "warning": "▲ warning", "advice": "● advice", "info": "○ note"}


Remedies = Sequence[str | None]  # a sentence for each finding, None where none was found


def as_data(study: Study, findings: tuple[Finding, ...], remedies: Remedies | None = None) -> dict[str, Any]:
    """The documented result, of plain dicts, lists, numbers and text; ``remedies`` as sentences, where looked for."""
    runs = {run.run_id: run for run in study.network.runs}
    return {
        "format": "rigcalc-study",
        "version": 1,
        "rig": study.rig.name,
        "revision": study.rig.revision,
        "rule_set": study.rule_set.id,
        "rule_set_available": study.network.available,
        **{key: getattr(study.energy, key) for key in ("daily_energy_wh", "daily_10_wh", "daily_90_wh")},
        **{key: getattr(study.autonomy, key) for key in _AUTONOMY},
        "loads": [_load(row) for row in study.energy.rows],
        "runs": [_run(run, runs) for run in study.network.runs],
        "circuits": [_circuit(one, runs) for one in study.network.circuits],
        "findings": [_finding(*one) for one in _paired(findings, remedies)],
        "assumptions": list(study.assumptions),
    }


_AUTONOMY = (
    "autonomy_d", "autonomy_10_d", "autonomy_90_d", "autonomy_strict_d", "nominal_d", "temperature_status",
    "rate_status",
)  # fmt: skip


def _load(row: LoadEnergy) -> dict[str, Any]:
    return {
        "id": row.load_id,
        "name": row.name,
        "path": row.path,
        "provenance": row.provenance,
        "battery_wh": [row.battery_wh.low, row.battery_wh.likely, row.battery_wh.high],
        "missing": list(row.missing),
    }


def _run(run: RunStudy, runs: Mapping[str, RunStudy]) -> dict[str, Any]:
    pick = run.choice
    known = run.solved and all(runs[one].choice for one in run.way)
    return {
        "id": run.run_id,
        "name": run.name,
        "design_current_a": run.design_current_a,
        "conductor": pick.size if pick else None,
        "ampacity_a": pick.ampacity_a if pick else None,
        "drop_v": pick.drop_v if pick else None,
        "drop_percent": pick.drop_percent if pick else None,
        "rule_drop_percent": pick.way_drop_percent if pick else None,
        "drop_limit_percent": run.drop_limit_percent,
        "device_v": run.load_v if known else None,
        "decided_by": run.decided_by,
        "other_series": run.other_series.size if run.other_series else None,
    }


def _circuit(circuit: CircuitStudy, runs: Mapping[str, RunStudy]) -> dict[str, Any]:
    return _run(runs[circuit.run_id], runs) | {
        "id": circuit.circuit_id,
        "run": circuit.run_id,
        "runs": list(circuit.runs),
        "loads": list(circuit.loads),
        "fuse": {
            "rating_a": circuit.rating_a,
            "class": circuit.device_class,
            "least_a": circuit.least_a,
            "most_a": circuit.most_a,
            "most_because": circuit.most_because,
            "voltage_rating_v": circuit.voltage_rating_v,
            "interrupting_a": circuit.interrupting_a,
            "interrupting_status": circuit.interrupting_status,
            "status": circuit.rating_status,
        },
        "prospective_a": circuit.prospective_a,
    }


def _paired(findings: tuple[Finding, ...], remedies: Remedies | None) -> list[tuple[Finding, dict[str, str | None]]]:
    """Each finding with its remedy, or with nothing where none was looked for."""
    if remedies is None:
        return [(one, {}) for one in findings]
    return [(one, {"remedy": text}) for one, text in zip(findings, remedies, strict=True)]


def _finding(one: Finding, remedy: dict[str, str | None]) -> dict[str, Any]:
    return {
        "rule": one.rule,
        "severity": one.severity,
        "state": one.state,
        "subject": one.subject,
        "sentence": one.sentence,
        "measured": one.measured,
        "limit": one.limit,
        "source": one.source,
        "status": one.status,
        "accepted": one.accepted.model_dump(mode="json") if one.accepted else None,
        **remedy,
    }


def as_text(study: Study, findings: tuple[Finding, ...], remedies: Remedies | None = None) -> str:
    """A readable page: energy, autonomy, circuits, findings, cautions."""
    lines = [f"{study.rig.name}, {study.rig.system_v} V", f"Rules: {study.rule_set.title}", ""]
    lines += [*_energy_lines(study), "", *run_lines(study), "", *circuit_lines(study), ""]
    lines += [*finding_lines(findings, remedies), "", CAUTION]
    return "\n".join(lines) + "\n"


def _energy_lines(study: Study) -> list[str]:
    energy, autonomy = study.energy, study.autonomy
    day = f"Daily energy  {energy.daily_energy_wh:.0f} Wh at the battery"
    lines = [f"{day} (10 to 90 %: {energy.daily_10_wh:.0f} to {energy.daily_90_wh:.0f} Wh)"]
    if autonomy.autonomy_d is None:
        return [*lines, "Autonomy      nothing is drawn"]
    span = ""
    if autonomy.autonomy_10_d is not None and autonomy.autonomy_90_d is not None:
        span = f" (10 to 90 %: {autonomy.autonomy_10_d:.1f} to {autonomy.autonomy_90_d:.1f} d)"
    lines += [f"Autonomy      {autonomy.autonomy_d:.1f} d without charging{span}"]
    return [*lines, *(f"              {text}" for text in _reservations(autonomy))]


def _reservations(autonomy: AutonomyStudy) -> list[str]:
    """What weakens the capacity the days rest on; empty where nothing does."""
    found = []
    if autonomy.temperature_status == OUTSIDE:
        found.append("Capacity at the bank's temperature: outside the table.")
    elif autonomy.temperature_status.startswith("memory"):
        found.append("Capacity at the bank's temperature: from memory; confirm on the maker's sheet.")
    if autonomy.rate_status in (FASTER, CONTRADICTED):
        found.append(f"Capacity at this current: {autonomy.rate_status}.")
    return found


def run_lines(study: Study) -> list[str]:
    """The runs as a table: current, conductor, what it carries, its drop and limit."""
    rows = [("Run", "Name", "Current", "Conductor", "Carries", "Drop", "Limit")]
    for run in study.network.runs:
        pick = run.choice
        rows.append(
            (
                run.run_id,
                run.name,
                f"{significant(run.design_current_a)} A",
                pick.size if pick else "none passes" if study.network.available else "not available",
                f"{significant(pick.ampacity_a)} A" if pick and pick.ampacity_a else "-",
                f"{pick.way_drop_percent:.1f} %" if pick else "-",
                f"{run.drop_limit_percent:.3g} %" if run.drop_limit_percent is not None else "-",
            )
        )
    return columns(rows)


def circuit_lines(study: Study) -> list[str]:
    """The circuits as a table: load, window, fuse, class, short circuit."""
    rows = [("Circuit", "Run", "Load", "Window", "Fuse", "Class", "Short circuit")]
    for one in study.network.circuits:
        most = f"{significant(one.most_a)} A" if one.most_a is not None else "?"
        rows.append(
            (
                one.circuit_id,
                one.run_id,
                f"{significant(one.continuous_a)} A",
                f"{significant(one.least_a)} to {most}",
                f"{one.rating_a:g} A" if one.rating_a is not None else "none fits",
                (one.device_class or "not stated").replace("_", " ")
                + (", confirm on the maker's sheet" if one.rating_status.startswith("memory") else ""),
                f"{one.prospective_a:.0f} A" if one.prospective_a is not None else "not known",
            )
        )
    return columns(rows)


def columns(rows: Sequence[tuple[str, ...]]) -> list[str]:
    """Rows of texts as lines, their columns below each other."""
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    return ["  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip() for row in rows]


def finding_lines(findings: tuple[Finding, ...], remedies: Remedies | None = None) -> list[str]:
    """Each finding on a line, its remedy below it where looked for, then each fact that was not stated."""
    lines = []
    for one, remedy in _paired(findings, remedies):
        if one.state == "found":
            lines.append(_line(MARKS[one.severity], one))
            lines += [f"{'':<12} {text or 'No single change was found that cures it.'}" for text in remedy.values()]
    lines = lines or ["No findings."]
    not_judged = [one for one in findings if one.state != "found"]
    not_judged.sort(key=lambda one: SEVERITIES.index(one.severity))  # those that stops' rules need first
    lines.append(f"Not stated, so neither passed nor failed: {len(not_judged)}.")
    return [*lines, *(_line("? not stated", one) for one in not_judged)]


def _line(mark: str, one: Finding) -> str:
    note = ""
    if one.accepted:
        how = "note by" if one.stops else "accepted by"
        note = f" ({how} {one.accepted.name}: {one.accepted.reason})"
    return f"{mark:<12} {one.rule} {one.subject}: {one.sentence}{note}"
