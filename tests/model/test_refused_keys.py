"""Keys that are unknown or missing: the message names the key, its place and the nearest known one."""

from __future__ import annotations

import pytest

from tests.model.refusing import put, refusal
from tests.rigs import small_data


@pytest.mark.parametrize(
    ("path", "message"),
    [
        ("loads.0.powr_w", "Key in load lamp is 'powr_w'; expected 'power_w', the nearest known key."),
        ("loads.0.daily_use", "Key in load lamp is 'daily_use'; expected 'daily_use_h', the nearest known key."),
        ("runs.0.lenght_out_m", "Key in run W1 is 'lenght_out_m'; expected 'length_out_m', the nearest known key."),
        ("bank.unit_capacity", "Key in bank is 'unit_capacity'; expected 'unit_capacity_ah', the nearest known key."),
        ("lods", "Key in the rig is 'lods'; expected 'loads', the nearest known key."),
        ("<b>", "Key in the rig is '<b>'; expected one of typed, format, version, name, revision, date, note,"),
    ],
)
def test_an_unknown_key_is_named_with_the_nearest_known_one(path, message):
    assert refusal(put(small_data(), path, 1)).startswith(message)


def test_an_unknown_key_deep_inside_is_named_with_the_keys_of_its_own_place():
    data = put(small_data(), "loads.0.reading", {"energy_wh": 5, "hours": 2, "over_h": 2, "at": "wall_plug"})
    assert refusal(data).startswith("Key in reading of load lamp is 'hours'; expected one of typed, energy_wh, ")


@pytest.mark.parametrize("key", ["name", "ambient_hot_c", "bank"])
def test_a_missing_key_is_named(key):
    data = small_data()
    del data[key]
    assert refusal(data) == f"{key} is empty; expected a value; this key is needed."


def test_a_missing_key_of_a_part_is_named_with_the_part():
    data = small_data()
    del data["runs"][1]["length_out_m"]
    assert refusal(data) == "length_out_m of run W2 is empty; expected a value; this key is needed."
