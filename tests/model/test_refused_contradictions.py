"""Parts that contradict each other: references, runs, feeds and figures that cannot stand together."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model import rig_from_data
from tests.model.refusing import put, refusal
from tests.rigs import example_data, small_data


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        ("loads", "twice", "Id in loads is 'lamp'; expected an id used once; loads has it too."),
        ("blocks.0.id", "lamp", "Id in blocks is 'lamp'; expected an id used once; loads has it too."),
        ("blocks.0.id", "bank", "Id in blocks is 'bank'; expected an id used once; bank has it too."),
        ("runs.0.from_id", "X9", "from_id of run W1 is 'X9'; expected an id from bank, buses, blocks, converters."),
        ("runs.0.from_id", "lamp", "from_id of run W1 is 'lamp'; expected an id from bank, buses, blocks, converters."),
        ("runs.1.to_id", "bank", "to_id of run W2 is 'bank'; expected an id from buses, blocks, converters, inverters, "
         "loads."),
        ("runs.1.to_id", "X2", "to_id of run W2 is 'X2'; expected a node that no other run feeds."),
        ("runs.0.from_id", "X2", "Runs is 'a ring through X2'; expected runs that lead away from the bank."),
        ("devices.0.run_id", "W9", "run_id of device F1 is 'W9'; expected an id from runs."),
        ("devices.0.run_id", "W2", "Devices is 'two in the positive conductor of run W2'; expected one a conductor of "
         "a run."),
        ("main_switch_run", "F1", "main_switch_run is 'F1'; expected an id from runs."),
        ("loads.0.day_use", [{"day_type": "winter", "daily_use_h": 2}],
         "day_use of load lamp is 'winter'; expected an id from day_types."),
        ("runs.1.length_back_m", None, "length_back_m of run W2 is empty; expected a length, or none where the chassis "
         "returns."),
        ("runs.1.return_path", "chassis", "length_back_m of run W2 is 3; expected a length, or none where the chassis "
         "returns."),
        ("loads.0.feed", "converter", "fed_by of load lamp is empty; expected the id of what feeds it (converter)."),
        ("loads.0.fed_by", "X2", "fed_by of load lamp is 'X2'; expected nothing for a load fed directly."),
        ("loads.0.adapter_efficiency", 0.8, "adapter_efficiency of load lamp is 0.8; expected a value only for feed "
         "inverter_adapter."),
        ("loads.0.current_a", 4, "Load lamp is 'power_w and current_a'; expected one of the two."),
        ("loads.0.events_per_day", 4, "Load lamp is 'daily_use_h and events_per_day'; expected one of the two."),
        ("loads.0.event_min", 4, "Load lamp is 'one of events_per_day, event_min'; expected both or neither."),
        ("loads.0.reading", {"over_h": 2, "at": "wall_plug"},
         "Reading is 'energy None, charge None'; expected one of energy_wh, charge_ah."),
        ("loads.0.reading", {"over_h": 2, "at": "at_battery", "charge_ah": 3},
         "voltage_v of the reading is empty; expected the mean voltage at the meter, with a charge in Ah."),
        ("bank.cells_per_unit", 8, "Bank voltage is '25.6 V from 1 units of 8 cells'; expected cells in series that "
         "make the system's 12 V."),
        ("bank.lowest_working_v", 14.5, "lowest_working_v of the bank is 14.5; expected less than highest_charge_v."),
        ("bank.highest_charge_v", 57.6, "highest_charge_v of the bank is 57.6; expected 0.7 to 1.4 times the cells' "
         "nominal 12.8 V."),
        ("bank.rate_points", [{"over_h": 20, "capacity_ah": 90}, {"over_h": 5, "capacity_ah": 99}],
         "rate_points is [(5.0, 99.0), (20.0, 90.0)]; expected more Ah for more hours, each hour once."),
        ("inverters", [{"id": "inv", "name": "Inverter", "rated_w": 500, "on_h": 5, "efficiency_10": 0.8}],
         "Efficiency of inverter inv is [0.8, None, None]; expected three points (10, 50, 100 %) or one efficiency."),
    ],
)  # fmt: skip
def test_parts_that_contradict_each_other_are_named(path, value, message):
    data = small_data()
    if path == "bank.cells_per_unit":
        data["bank"] |= {"lowest_working_v": 24.0, "highest_charge_v": 28.8}
    data = put(data, path, data["loads"] * 2 if value == "twice" else value)
    assert refusal(data) == message


def test_a_ring_of_several_runs_is_found():
    data = small_data()
    data["buses"] = [{"id": f"B{n}", "name": "Bus"} for n in range(3)]
    for n in range(3):
        run = data["runs"][0] | {"id": f"R{n}", "from_id": f"B{n}", "to_id": f"B{(n + 1) % 3}"}
        data["runs"].append(run)
    assert refusal(data) == "Runs is 'a ring through B1'; expected runs that lead away from the bank."


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"feed": "inverter", "fed_by": "inverter"}, "to_id of a run is 'fridge'; expected a load without a run, as "
         "inverter inverter feeds it by mains wiring."),
        ({"feed": "converter", "fed_by": "dc19"}, "fed_by of load fridge is 'dc19'; expected bank, which its runs lead "
         "back to."),
    ],
)  # fmt: skip
def test_a_load_is_wired_to_what_feeds_it(changes, message):
    data = example_data("book-van")
    next(load for load in data["loads"] if load["id"] == "fridge").update(changes)
    assert refusal(data) == message


def test_a_load_behind_a_converter_says_so():
    data = example_data("canal-workboat")
    load = next(load for load in data["loads"] if load["id"] == "radio")
    del load["feed"], load["fed_by"]
    assert refusal(data) == "feed of load radio is 'direct'; expected converter, as its runs lead back to dc12."


def test_no_converter_hangs_on_another():
    data = example_data("weaving-studio")
    next(run for run in data["runs"] if run["to_id"] == "dc12")["from_id"] = "X5"
    assert refusal(data) == "Way to dc12 is 'through dc24'; expected runs that lead to the bank, past no converter."


def test_low_and_high_days_stand_in_order():
    data = small_data()
    data["loads"][0] |= {"daily_low_wh": 300, "daily_high_wh": 200}
    assert refusal(data) == "daily_low_wh of load lamp is 300; expected at most daily_high_wh, which is 200."


def test_a_type_of_day_is_used_once_a_load():
    data = small_data() | {"day_types": [{"id": "winter", "name": "Winter"}]}
    data["loads"][0]["day_use"] = [{"day_type": "winter", "daily_use_h": n} for n in (2, 3)]
    assert refusal(data) == "day_use of load lamp is 'winter, winter'; expected each type of day once."


def test_a_share_below_an_even_one_and_a_hot_day_below_the_usual_are_refused():
    data = small_data()
    data["bank"] |= {"parallel": 2, "largest_share": 0.1}
    with pytest.raises(InputError, match="even share of the 2 strings"):
        rig_from_data(data)
    with pytest.raises(InputError, match="ambient_hot_c is -20"):
        rig_from_data(small_data() | {"ambient_hot_c": -20.0})
