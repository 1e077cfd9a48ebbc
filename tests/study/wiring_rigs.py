"""Small rigs with sizes and devices left to be chosen, and what is chosen for them."""

from __future__ import annotations

from typing import Any

from rigcalc.model import rig_from_data
from rigcalc.study import study
from rigcalc.study.network_results import NetworkStudy, RunStudy
from tests.rigs import small_data

RULE_SETS = ("us_boat", "na_vehicle", "iec_vehicle", "na_cabin", "iec_cabin", "strictest_of_all")


def free(**changes: Any) -> dict[str, Any]:
    """The small rig with all sizes and devices left to be chosen."""
    data = small_data() | changes
    for run in data["runs"]:
        run.pop("conductor", None)
    for device in data["devices"]:
        device.pop("rating_a", None)
        device.pop("device_class", None)
    return data


def network(data: dict[str, Any]) -> NetworkStudy:
    return study(rig_from_data(data)).network


def run_of(net: NetworkStudy, run_id: str) -> RunStudy:
    return next(run for run in net.runs if run.run_id == run_id)


def at_12_volts(data: dict[str, Any]) -> dict[str, Any]:
    """Lengths next to nothing and a lowest voltage of 12 V: the arithmetic of the trade facts."""
    data["bank"]["lowest_working_v"] = 12.0
    for run in data["runs"]:
        run |= {"length_out_m": 0.01, "length_back_m": 0.01}
    return data
