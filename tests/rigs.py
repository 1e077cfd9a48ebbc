"""Small rigs for tests. Invented figures; each test changes only what it is about."""

from __future__ import annotations

import copy
import json
from pathlib import Path
from typing import Any

from rigcalc.model import Rig, rig_from_data

EXAMPLES = Path(__file__).parents[1] / "notebooks" / "rigs"

_SMALL: dict[str, Any] = {
    "format": "rigcalc-rig",
    "version": 1,
    "name": "Test rig",
    "rule_set": "na_vehicle",
    "units": "metric",
    "system_v": 12,
    "ambient_usual_c": 20.0,
    "ambient_hot_c": 30.0,
    "bank": {
        "chemistry": "lifepo4",
        "cells_per_unit": 4,
        "unit_capacity_ah": 100.0,
        "rated_h": 20.0,
        "series": 1,
        "parallel": 1,
        "temperature_c": 25.0,
        "depth_of_discharge": 0.8,
        "end_of_life_fraction": 0.8,
        "wanted_autonomy_days": 1.0,
        "lowest_working_v": 12.0,
        "highest_charge_v": 14.4,
        "unit_discharge_max_a": 100.0,
        "unit_short_circuit_a": 700.0,
    },
    "loads": [
        {
            "id": "lamp",
            "name": "Lamp",
            "quantity": 1,
            "provenance": "measured",
            "power_w": 50.0,
            "daily_use_h": 4.0,
            "circuit_use": "lighting",
            "lowest_working_v": 10.5,
            "max_fuse_a": 15.0,
        }
    ],
    "blocks": [{"id": "X2", "name": "Fuse block", "rating_a": 100.0}],
    "runs": [
        {
            "id": "W1",
            "name": "Bank to block",
            "from_id": "bank",
            "to_id": "X2",
            "length_out_m": 1.0,
            "length_back_m": 1.0,
            "conductor": "8 AWG",
            "insulation_c": 75.0,
            "terminal_c": 75.0,
            "conductors_together": 2,
            "installation": "enclosed",
        },
        {
            "id": "W2",
            "name": "Block to lamp",
            "from_id": "X2",
            "to_id": "lamp",
            "length_out_m": 3.0,
            "length_back_m": 3.0,
            "conductor": "14 AWG",
            "insulation_c": 75.0,
            "terminal_c": 75.0,
            "conductors_together": 2,
            "installation": "enclosed",
        },
    ],
    "devices": [
        {"id": "F1", "run_id": "W1", "device_class": "current_limiting", "rating_a": 50.0, "distance_m": 0.1},
        {"id": "F2", "run_id": "W2", "device_class": "blade", "rating_a": 10.0, "distance_m": 0.0},
    ],
}


def small_data() -> dict[str, Any]:
    """A fresh copy of the small rig as plain data."""
    return copy.deepcopy(_SMALL)


def small(**changes: Any) -> Rig:
    """The small rig with top-level keys replaced."""
    return rig_from_data(small_data() | changes)


def example_data(name: str) -> dict[str, Any]:
    """An example rig as plain data."""
    data: dict[str, Any] = json.loads((EXAMPLES / f"{name}.json").read_text(encoding="utf-8"))
    return data


def largest_data() -> dict[str, Any]:
    """As many loads as a rig may have, at the end of 200 bus bars in a row."""
    data = small_data()
    data["buses"] = [{"id": f"B{n}", "name": "Bus"} for n in range(200)]
    loads, runs = data["loads"], data["runs"]
    data["runs"] = runs + [
        runs[0] | {"id": f"R{n}", "from_id": f"B{n - 1}" if n else "bank", "to_id": f"B{n}"} for n in range(200)
    ]
    data["loads"] = loads + [loads[0] | {"id": f"L{n}"} for n in range(499)]
    data["runs"] += [runs[1] | {"id": f"V{n}", "from_id": "B199", "to_id": f"L{n}"} for n in range(499)]
    data["devices"] += [{"id": f"G{n}", "run_id": f"V{n}"} for n in range(499)]
    return data


def thirty_circuits() -> Rig:
    """The small rig with thirty lamps, each on a fused run of its own."""
    data = small_data()
    for n in range(2, 31):
        data["loads"].append(data["loads"][0] | {"id": f"lamp{n}", "name": f"Lamp {n}", "power_w": 10.0})
        data["runs"].append(data["runs"][1] | {"id": f"W{n + 1}", "to_id": f"lamp{n}"})
        data["devices"].append(data["devices"][1] | {"id": f"F{n + 1}", "run_id": f"W{n + 1}"})
    return rig_from_data(data)
