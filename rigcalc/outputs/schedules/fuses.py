"""Fuse schedule: every protective device, what it guards, its rating and the window it must lie in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from rigcalc.model import Device
from rigcalc.outputs.schedules.frame import BY_HAND, NOT_KNOWN, frame, in_order, known, natural, stated
from rigcalc.outputs.schedules.lookup import class_text, names, rating, route, source_voltage_v
from rigcalc.study import Study
from rigcalc.study.network_results import CircuitStudy

if TYPE_CHECKING:
    import pandas as pd

_HEADS = (
    "Device", "Circuit", "In run", "In conductor", "Panel", "Position", "Feeds", "Type", "Type is", "Rating [A]",
    "Rating is", "Rating of its kind known by", "Load [A]", "Least rating [A]", "Largest rating [A]",
    "Largest because of", "Voltage rating [V]", "Highest voltage of its source [V]", "Interrupting rating [A]",
    "Interrupting rating known by", "Short-circuit current [A]", "Holder rating [A]", "Holder type",
    "Distance from source [m]", "Distance limit [m]", "Air around it [°C]", "Reset", "Spare carried", "Remarks",
)  # fmt: skip


def fuse_schedule(study: Study, units: str | None = None, order: str = "number") -> pd.DataFrame:
    """Every fuse and breaker of the rig, each once.

    Parameters
    ----------
    study : Study
        From `rigcalc.study.study`.
    units : str or None
        "metric" or "us"; None for the rig's own. [-]
    order : str
        "number", "panel" (where its run comes from) or "route" (where its run lies). [-]

    Returns
    -------
    pandas.DataFrame
        A row a device; position, holder type and spares are written in by hand.
    """
    runs = {run.id: run for run in study.rig.runs}
    devices = {device.id: device for device in study.rig.devices}
    keys = {
        "number": lambda one: natural(one.circuit_id),
        "panel": lambda one: natural(runs[one.run_id].from_id),
        "route": lambda one: route(runs[one.run_id]),
    }
    label = names(study.rig)
    rows = []
    for one in in_order(study.network.circuits, order, keys):
        run = runs[one.run_id]
        where = [run.id, one.conductor, label[run.from_id], BY_HAND]
        feeds = ", ".join(label[load_id] for load_id in one.loads)
        rows.append([one.circuit_id, run.name, *where, feeds, *_device(study, one, devices[one.circuit_id])])
    return frame(study, units, _HEADS, rows)


def _device(study: Study, one: CircuitStudy, device: Device) -> list[object]:
    return [
        class_text(one.device_class),
        "stated" if one.class_stated else "chosen" if one.device_class else "not chosen",
        rating(one),
        "stated" if one.rating_stated else "chosen" if one.rating_a is not None else "not chosen",
        one.rating_status if one.rating_a is not None else NOT_KNOWN,
        one.continuous_a,
        one.least_a,
        known(one.most_a),
        one.most_because,
        known(one.voltage_rating_v),
        source_voltage_v(study, one.run_id),
        known(one.interrupting_a),
        one.interrupting_status if one.interrupting_a is not None else NOT_KNOWN,
        known(one.prospective_a),
        stated(device.holder_rating_a),
        BY_HAND,
        stated(device.distance_m),
        known(one.distance_limit_m),
        stated(device.ambient_c),
        "breaker: kind of reset to be stated" if one.device_class == "breaker" else "none: replace",
        BY_HAND,
        _remarks(one),
    ]


def _remarks(one: CircuitStudy) -> str:
    found = []
    if one.conductor == "negative":
        found.append("in the return conductor it protects nothing")
    if one.rating_a is not None and one.most_a is not None and not one.least_a <= one.rating_a <= one.most_a:
        found.append("its rating lies outside the window")
    if any(status.startswith("memory") for status in (one.rating_status, one.interrupting_status)):
        found.append("from memory: confirm on the maker's sheet")
    if one.start_opens:
        found.append("a start would open it")
    return "; ".join(found)
