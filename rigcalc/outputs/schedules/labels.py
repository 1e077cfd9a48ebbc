"""Label strips: a wire number for each end of each conductor, and the legend of each panel."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.outputs.schedules.cuts import cuts
from rigcalc.outputs.schedules.frame import BY_HAND, frame, in_order, natural
from rigcalc.outputs.schedules.lookup import names, rating
from rigcalc.study import Study

if TYPE_CHECKING:
    import pandas as pd

_ENDS = ("Label", "End", "Fitted at", "Leads to", "Circuit", "Size")
_LEGEND = ("Panel", "Position", "Circuit", "Device", "Rating [A]", "Wire", "Feeds")


def wire_labels(study: Study, units: str | None = None, order: str = "number") -> pd.DataFrame:
    """One label for each end of each conductor, as cut.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number" or "panel" (by the place where the label is fitted). [-]

    Returns
    -------
    pandas.DataFrame
        End A is nearer the battery; both ends carry the same wire number.
    """
    label, circuit = names(study.rig), {run.id: run.name for run in study.rig.runs}
    rows: list[tuple[str, ...]] = [
        (cut.wire, end, label[here], label[there], circuit[cut.run_id], cut.size)
        for cut in cuts(study)
        for end, here, there in (("A", cut.from_id, cut.to_id), ("B", cut.to_id, cut.from_id))
    ]
    keys = {"number": lambda row: (natural(row[0]), row[1]), "panel": lambda row: natural(row[2])}
    return frame(study, units, _ENDS, in_order(rows, order, keys))


def panel_legend(study: Study, units: str | None = None) -> pd.DataFrame:
    """The legend strip of each bus bar and block: what each way feeds and its fuse.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]

    Returns
    -------
    pandas.DataFrame
        A row a run that leaves a bus bar or block; the position is written in by hand.
    """
    rig, label = study.rig, names(study.rig)
    in_run = {one.run_id: one for one in study.network.circuits if one.conductor == "positive"}
    rows = []
    for panel in [*(bus.id for bus in rig.buses), *(block.id for block in rig.blocks)]:
        for run in sorted((run for run in rig.runs if run.from_id == panel), key=lambda run: natural(run.id)):
            one = in_run.get(run.id)
            device = one.circuit_id if one else "none here"
            rows.append([label[panel], BY_HAND, run.name, device, rating(one) if one else "", run.id, label[run.to_id]])
    return frame(study, units, _LEGEND, rows)
