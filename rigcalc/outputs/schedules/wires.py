"""Wire schedule: every run from end to end, what it carries, its conductor and what protects it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.model import Run
from rigcalc.outputs.schedules.cuts import SLACK_M, cuts
from rigcalc.outputs.schedules.frame import (
    BY_HAND,
    NOT_KNOWN,
    NOT_STATED,
    frame,
    in_order,
    known,
    natural,
    stated,
)
from rigcalc.outputs.schedules.lookup import always_live, names, protecting, route, size_back, size_out
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy, RunStudy

if TYPE_CHECKING:
    import pandas as pd

_HEADS = (
    "Wire", "Circuit", "From", "From terminal", "To", "To terminal", "Return", "Length out [m]", "Length back [m]",
    "Size out", "Size back", "Size is", "Smallest of the other series", "Insulation [°C]", "Strand class", "Colour",
    "Route", "Air around it [°C]", "Conductors together", "Design current [A]", "Corrected ampacity [A]",
    "Protected by", "Fuse rating [A]", "Drop of this run, battery lowest [V]", "Drop of this run, battery lowest [%]",
    "Drop by the rule, whole way [%]", "Drop limit [%]", "Voltage at its end, battery lowest [V]", "Lug A", "Lug B",
    "Length to cut out [m]", "Length to cut back [m]", "Label at A", "Label at B", "Status", "Remarks",
)  # fmt: skip


def wire_schedule(
    study: Study, units: str | None = None, order: str = "number", slack_m: float = SLACK_M
) -> pd.DataFrame:
    """Every run of the rig, each once.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number", "route" (where it lies), "reel" (its size) or "panel" (where it comes from). [-]
    slack_m : float
        Added at each end of a cut; a builder's value. [m]

    Returns
    -------
    pandas.DataFrame
        A row a run. A size is a name, never converted; beside it the smallest of the other series that passes.
    """
    label, guards = names(study.rig), protecting(study)
    own = {run.id: run for run in study.rig.runs}
    cut_m = {(cut.run_id, cut.function): cut.length_m for cut in cuts(study, slack_m)}
    sized = {one.run_id for one in study.network.runs if one.choice}
    keys = {
        "number": lambda one: natural(one.run_id),
        "route": lambda one: route(own[one.run_id]),
        "reel": lambda one: natural(size_out(one)),
        "panel": lambda one: natural(own[one.run_id].from_id),
    }
    rows = []
    for one in in_order(study.network.runs, order, keys):
        run = own[one.run_id]
        carries = _carries(one, guards.get(run.id), sized.issuperset(one.way))
        rows.append([*_way(run, one, label), *carries, *_ends(run, cut_m, label), BY_HAND, _remarks(study, run, one)])
    return frame(study, units, _HEADS, rows)


def _way(run: Run, one: RunStudy, label: dict[str, str]) -> list[object]:
    other = one.other_series
    return [
        run.id,
        run.name,
        label[run.from_id],
        BY_HAND,
        label[run.to_id],
        BY_HAND,
        run.return_path,
        run.length_out_m,
        "chassis" if run.length_back_m is None else run.length_back_m,
        size_out(one),
        size_back(run, one),
        "stated" if one.stated else "chosen" if one.choice else "not chosen",
        other.size if other else "none passes",
        stated(run.insulation_c),
        BY_HAND,
        BY_HAND,
        route(run),
        stated(run.ambient_c),
        stated(run.conductors_together),
    ]


def _carries(one: RunStudy, guard: CircuitStudy | None, sized: bool) -> list[object]:
    pick = one.choice
    return [
        NOT_KNOWN if one.unknown else one.design_current_a,
        known(pick and pick.ampacity_a),
        guard.circuit_id if guard else "nothing",
        (NOT_KNOWN if guard.rating_a is None else guard.rating_a) if guard else NOT_STATED,
        known(pick and pick.drop_v),
        known(pick and pick.drop_percent),
        known(pick and pick.way_drop_percent),
        known(one.drop_limit_percent),
        one.load_v if sized and one.solved and not one.unknown else NOT_KNOWN,
        BY_HAND,
        BY_HAND,
    ]


def _ends(run: Run, cut_m: dict[tuple[str, str], float], label: dict[str, str]) -> list[object]:
    """What is cut, and the text of the label at either end."""
    to_cut: list[object] = [cut_m[run.id, "L+"], cut_m.get((run.id, "L−"), "no conductor")]
    return [*to_cut, f"{run.id} to {label[run.to_id]}", f"{run.id} from {label[run.from_id]}"]


_FAILS = {
    "ampacity": "carries less than its current",
    "terminal": "its terminals run too hot",
    "drop": "drops more than the limit",
    "fuse": "thinner than its fuse allows",
    "voltage": "leaves its load too little voltage",
    "not available": "its ampacity is not available from a read source",
}


def _remarks(study: Study, run: Run, one: RunStudy) -> str:
    """What a builder must know of the run that no other column says."""
    found = []
    if one.choice and one.choice.fails:
        found.append(f"does not pass: {', '.join(_FAILS[fail] for fail in one.choice.fails)}")
    if one.choice is None and not one.unknown:
        found.append("no size passes, or none is available from a read source")
    if one.ambiguous:
        found.append(f"{run.conductor} on the cable can mean {' or '.join(one.ambiguous)}")
    if one.unknown:
        found.append(f"carries at least {one.design_current_a:.3g} A; not stated: power of {', '.join(one.unknown)}")
    if not one.solved:
        found.append("the power does not get through it")
    if run.id in study.network.unprotected:
        found.append("no device protects it")
    if run.id == study.rig.main_switch_run:
        found.append("the main switch is in it")
    if run.id in (always_live(study.rig) or ()):
        found.append("always live, also with the main switch off")
    if run.purpose != "power":
        found.append(f"purpose: {run.purpose}")
    return "; ".join([*found, *([run.note] if run.note else [])])
