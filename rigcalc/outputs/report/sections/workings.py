"""How the deciding numbers came about, each with the number of its source."""

from __future__ import annotations

from collections.abc import Iterable

from rigcalc.outputs.report.markup import Sources, call, sheet, worked
from rigcalc.study import Study
from rigcalc.study.network_results import RunStudy
from rigcalc.study.results import Working

_ABOUT = (
    "Equation, then the numbers put in, the result, and the source by its number in the list at the end of this "
    "section. Workings are in metric units, as the equations are. † marks what is from memory."
)
AMPACITY = "Ampacity"  # the working whose factors have workings of their own
_SOURCES = (("", "r", "auto"), ("Source", "l", "1fr"), ("Clause", "l", "1fr"), ("Status", "l", "auto"))


def workings(study: Study) -> str:
    """Workings of the day, the autonomy, each run and each circuit, then their sources."""
    sources, network = Sources(), study.network
    parts = [call("section", "Workings"), call("small", _ABOUT)]
    parts.append(_of("Energy of the day", study.energy.workings, sources))
    parts.append(_of("Autonomy and currents of the bank", study.autonomy.workings, sources))
    parts.append(_of("Every short circuit", [network.fault], sources))
    parts += [_run(run, sources) for run in network.runs]
    for one in network.circuits:
        chosen = "no rating fits" if one.rating_a is None else f"{one.rating_a:g} A"
        chosen += " as stated" if one.rating_stated else ""
        own = [working for working in one.workings if working != network.fault]
        parts.append(_of(f"{one.circuit_id} in {one.run_id}: {chosen}", own, sources))
    return "".join([*parts, call("part", "Sources of the workings"), sheet(_SOURCES, sources.rows(), 0.8)])


def _run(run: RunStudy, sources: Sources) -> str:
    """A run's workings, the ampacity with all its factors in one row."""
    size = run.choice.size if run.choice else "no conductor"
    why = "as stated" if run.decided_by == "stated" else f"decided by {run.decided_by}"
    rows = []
    for one in run.workings:
        rows.append(_row(one, sources))
        if one.what == AMPACITY and run.factors:
            rows.append(("", _factors(run, sources), "", ""))
    return worked(f"{run.run_id} {run.name}: {size}, {why}", rows)


def _of(name: str, found: Iterable[Working], sources: Sources) -> str:
    rows = [_row(one, sources) for one in found]
    return worked(name, rows) if rows else ""


def _factors(run: RunStudy, sources: Sources) -> str:
    return " · ".join(f"{one.result} ({_numbers(one)}) {sources.number(one)}" for one in run.factors)


def _row(one: Working, sources: Sources) -> tuple[str, str, str, str]:
    return one.what, _numbers(one), one.result, sources.number(one)


def _numbers(one: Working) -> str:
    return "; ".join(filter(None, (one.equation, one.numbers)))
