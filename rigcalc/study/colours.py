"""Which colour each run's wires have: as stated for the run, else by the rig's scheme."""

from __future__ import annotations

from dataclasses import dataclass

from rigcalc.model import Rig, Run
from rigcalc.tables.colours import wire_colour


@dataclass(frozen=True, slots=True)
class RunColours:
    """Colours of a run's two wires; None where neither a scheme nor the run states one, or the chassis returns."""

    positive: str | None
    negative: str | None


def run_colours(rig: Rig) -> dict[str, RunColours]:
    """Colours of every run by its id.

    Examples
    --------
    >>> from rigcalc.model.new import new_rig
    >>> run_colours(new_rig())["W1"]
    RunColours(positive=None, negative=None)
    """
    uses = {load.id: load.circuit_use for load in rig.loads}
    return {run.id: _of_run(rig, run, uses.get(run.to_id, "positive")) for run in rig.runs}


def _of_run(rig: Rig, run: Run, use: str) -> RunColours:
    scheme = rig.colour_scheme
    positive = wire_colour(scheme, use).colour if scheme else None
    negative = wire_colour(scheme, "negative").colour if scheme else None
    back = None if run.return_path == "chassis" else run.return_colour or negative
    return RunColours(run.colour or positive, back)
