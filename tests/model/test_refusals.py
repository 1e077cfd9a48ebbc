"""What a rig file may not hold, and that the message names the field, the value and what is allowed."""

from __future__ import annotations

import json
from typing import Any

import pytest

from rigcalc.errors import InputError
from rigcalc.model import read_rig, rig_from_data
from tests.rigs import example_data, largest_data, small_data


def put(data: dict[str, Any], path: str, value: Any) -> dict[str, Any]:
    """The data with the value at "loads.0.name"."""
    *way, last = [int(key) if key.isdigit() else key for key in path.split(".")]
    at: Any = data
    for key in way:
        at = at[key]
    at[last] = value
    return data


def refusal(data: dict[str, Any]) -> str:
    with pytest.raises(InputError) as caught:
        rig_from_data(data)
    return str(caught.value)


def text_refusal(text: str) -> str:
    with pytest.raises(InputError) as caught:
        read_rig(text)
    return str(caught.value)


@pytest.mark.parametrize(
    ("path", "value", "message"),
    [
        ("loads.0.power_w", -1, "power_w of load lamp is -1; expected 0 or more."),
        ("loads.0.power_w", 1e6, "power_w of load lamp is 1000000; expected 100000 or less."),
        ("loads.0.power_w", 5e-324, "power_w of load lamp is 4.94066e-324; expected 0, or at least 0.000000001."),
        ("loads.0.power_w", "50", "power_w of load lamp is '50'; expected a number."),
        ("loads.0.power_w", "50 W", "power_w of load lamp is '50 W'; expected a number."),
        ("loads.0.power_w", True, "power_w of load lamp is true; expected a number."),
        ("loads.0.power_w", [50], "power_w of load lamp is [50]; expected a number."),
        ("loads.0.power_w", float("nan"), "power_w of load lamp is nan; expected a finite number."),
        ("loads.0.power_w", float("inf"), "power_w of load lamp is inf; expected a finite number."),
        ("loads.0.power_w", 10**400, f"power_w of load lamp is 1{'0' * 58}…; expected a finite number."),
        ("loads.0.quantity", 2.5, "quantity of load lamp is 2.5; expected a whole number."),
        ("loads.0.quantity", True, "quantity of load lamp is true; expected a whole number."),
        ("loads.0.quantity", 0, "quantity of load lamp is 0; expected 1 or more."),
        ("loads.0.cycles", 1, "cycles of load lamp is 1; expected true or false."),
        ("loads.0.duty_cycle", 0, "duty_cycle of load lamp is 0; expected 0.001 or more."),
        ("loads.0.name", 7, "name of load lamp is 7; expected text."),
        ("loads.0.name", "", "name of load lamp is empty; expected text."),
        ("loads.0.feed", "dc", "feed of load lamp is 'dc'; expected 'direct', 'converter', 'inverter' or "
         "'inverter_adapter'."),
        ("loads.0.reading", {"energy_wh": 5, "over_h": -2, "at": "wall_plug"},
         "reading.over_h of load lamp is -2; expected 0.001 or more."),
        ("loads.0.id", "a b", "id of row 1 of loads is 'a b'; expected 1 to 32 letters, digits, dots, dashes, plus "
         "signs or underscores, a letter or digit first."),
        ("runs.1.length_out_m", -3, "length_out_m of run W2 is -3; expected 0 or more."),
        ("runs.1.length_out_m", 2000, "length_out_m of run W2 is 2000; expected 1000 or less."),
        ("devices.0.rating_a", 0, "rating_a of device F1 is 0; expected 0.01 or more."),
        ("devices.0.rating_a", -5, "rating_a of device F1 is -5; expected 0.01 or more."),
        ("blocks.0.rating_a", "100 A", "rating_a of block X2 is '100 A'; expected a number."),
        ("bank.parallel", 0, "bank.parallel is 0; expected 1 or more."),
        ("bank.depth_of_discharge", 1.2, "bank.depth_of_discharge is 1.2; expected 1 or less."),
        ("bank.temperature_c", -300, "bank.temperature_c is -300; expected -60 or more."),
        ("system_v", 13, "system_v is 13; expected 12, 24 or 48."),
        ("date", "30.6.2025", "date is '30.6.2025'; expected a date such as 2025-06-30."),
        ("date", "2025-02-30", "date is '2025-02-30'; expected a date such as 2025-06-30."),
        ("bank", [], "bank is []; expected an object with keys."),
        ("loads", {}, "loads is {}; expected a list."),
        ("loads.0", 3, "row 1 of loads is 3; expected an object with keys."),
    ],
)  # fmt: skip
def test_a_value_out_of_place_is_named(path, value, message):
    data = put(small_data(), path, value)
    assert refusal(data) == message
    assert text_refusal(json.dumps(data)).startswith(("Number is", message[: message.index(" is ")]))


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


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"length_out_m": "3 ft"}, "length_out_m typed as '3 ft' is 3; expected the same quantity in the text and the "
         "value."),
        ({"length_out_m": "3 kg"}, "length_out_m is '3 kg'; expected a length such as 1.8 m or 6 ft."),
        ({"length_out_m": "1,500"}, "length_out_m is '1,500'; expected 1500 or 1.500; the comma can mean both."),
        ({"name": "x"}, "Key in typed is 'name'; expected the name of a field with a unit."),
        ({"lenght_m": "3 m"}, "Key in typed is 'lenght_m'; expected the name of a field with a unit."),
        ({"ambient_c": "68 F"}, "ambient_c typed as '68 F' is empty; expected the same quantity in the text and the "
         "value."),
        ({"length_out_m": 3}, "typed.length_out_m of run W2 is 3; expected text."),
        ({"a\nb": 3}, r"typed.'a\nb' of run W2 is 3; expected text."),
    ],
)  # fmt: skip
def test_typed_text_that_says_something_else_is_refused(typed, message):
    assert refusal(put(small_data(), "runs.1.typed", typed)) == message


def test_typed_text_that_says_the_same_is_kept():
    data = put(small_data(), "runs.1.typed", {"length_out_m": "3 m", "length_back_m": "300 cm"})
    assert rig_from_data(data).runs[1].typed == {"length_out_m": "3 m", "length_back_m": "300 cm"}


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "Rig file is 'not JSON at line 1'; expected the text of a saved rig file."),
        (" \n", "Rig file is 'not JSON at line 2'; expected the text of a saved rig file."),
        ("\ufeff", "Rig file is 'not JSON at line 1'; expected the text of a saved rig file."),
        ("{", "Rig file is 'not JSON at line 1'; expected the text of a saved rig file."),
        ("name,power\nlamp,50\n", "Rig file is 'not JSON at line 1'; expected the text of a saved rig file."),
        ("[]", "Rig file is 'list'; expected a JSON object with the keys of a rig."),
        ("3", "Rig file is 'int'; expected a JSON object with the keys of a rig."),
        ("null", "Rig file is 'NoneType'; expected a JSON object with the keys of a rig."),
        ('"x"', "Rig file is 'str'; expected a JSON object with the keys of a rig."),
        ("{}", "format is empty; expected 'rigcalc-rig'."),
        ('{"format": "other"}', "format is 'other'; expected 'rigcalc-rig'."),
        ('{"format": "rigcalc-rig"}', "version is empty; expected 1."),
        ('{"format": "rigcalc-rig", "version": 2}', "version is 2; expected 1."),
        ('{"format": "rigcalc-rig", "version": "1"}', "version is '1'; expected 1."),
        ('{"format": "rigcalc-rig", "version": true}', "version is true; expected 1."),
        ('{"format": "rigcalc-rig", "version": 1.0}', "version is 1; expected 1."),
        ('{"format": "rigcalc-rig", "version": 1, "version": 1}', "Key is 'version'; expected each key once in an "
         "object."),
        ('{"a": NaN}', "Number is 'NaN'; expected a finite number."),
        ('{"a": -Infinity}', "Number is '-Infinity'; expected a finite number."),
        ('{"a": 1' + "0" * 5000 + "}", "Number is 'thousands of digits long'; expected a number of usual length."),
        ("[" * 100_000, "Rig file is 'nested too deep'; expected the text of a saved rig file."),
        ('{"a":' * 100_000, "Rig file is 'nested too deep'; expected the text of a saved rig file."),
    ],
    ids=lambda value: value[:24],
)  # fmt: skip
def test_what_is_no_rig_file_says_so(text, message):
    assert text_refusal(text) == message


def test_a_number_too_large_for_a_float_is_named():
    text = json.dumps(small_data()).replace('"power_w": 50.0', '"power_w": 1e999')
    assert text_refusal(text) == "power_w of load lamp is inf; expected a finite number."


@pytest.mark.parametrize("depth", [50, 190, 900])
def test_lists_within_lists_are_refused_wherever_they_stand(depth):
    text = json.dumps(small_data()).replace('"Lamp"', "[" * depth + "]" * depth)
    assert text_refusal(text).startswith(("name of load lamp is [[", "Rig file is 'nested too deep'"))


@pytest.mark.parametrize("text", ["a\nb", "\x00", "\x1b[31mred", "\x7f", "\x85", "a\u202eb", "\u2028", " ", "\u00a0"])
def test_a_name_is_one_line_that_can_be_seen(text):
    message = refusal(put(small_data(), "loads.0.name", text))
    assert message == f"name of load lamp is {text!r}; expected one line of text without control characters."


@pytest.mark.parametrize("text", ["\ud800", "a\udfffb", "\udc00\ud800"])
@pytest.mark.parametrize("path", ["loads.0.name", "note", "\ud83d"])
def test_half_a_character_is_refused(path, text):
    message = refusal(put(small_data(), path, text))
    assert message.endswith("; expected whole characters, not half of a pair.")
    message.encode()


def test_a_long_name_is_shortened_in_the_message():
    message = refusal(put(small_data(), "loads.0.name", "x" * 5000))
    assert message == f"name of load lamp is '{'x' * 57}…'; expected at most 80 characters."


@pytest.mark.parametrize(
    "value", [{1, 2}, b"x", object, 10**5000, {(1, 2): 3}], ids=["set", "bytes", "class", "digits", "key"]
)
def test_data_that_no_file_can_hold_is_refused(value):
    assert "; expected text" in refusal(put(small_data(), "note", value))


def test_a_list_that_holds_itself_is_refused():
    ring: list[Any] = []
    ring.append(ring)
    assert refusal(put(small_data(), "note", ring)).startswith("Rig is 'made of values that no file can hold'")


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


_HEAD = '{"format": "rigcalc-rig", "version": 1, '


@pytest.mark.parametrize(
    ("text", "start"),
    [
        ("x" * 5_000_000, "Rig file is '5000000 characters long'; expected at most 2000000."),
        ("[" + "1," * 900_000 + "1]", "List in the rig file is '900001 entries long'"),
        (_HEAD + '"loads": [' + "0," * 900_000 + "0]}", "List in the rig file is '900001 entries long'"),
        (_HEAD + '"loads": [' + ("[" + "0," * 900 + "0],") * 900 + "0]}", "name is empty"),
        (_HEAD + '"loads": [' + ("{" + '"a":[' + "0," * 900 + "0]},") * 900 + "0]}", "name is empty"),
        (_HEAD + '"name": "' + "x" * 1_900_000 + '"}', "name is 'xxx"),
        (_HEAD + '"name": ' + "1" * 4000 + "}", "name is 1111"),
        ("{" + ",".join(f'"{n}":1' for n in range(150_000)) + "}", "Object in the rig file is '150000 keys long'"),
        (_HEAD + '"typed": {' + ",".join(f'"{n}":1' for n in range(64)) + "}}", "typed.'0' is 1; expected text."),
        ('{"a": "' + "\\ud800" * 300_000 + '"}', "format is empty"),
    ],
    ids=lambda text: text[:40],
)
def test_megabytes_of_junk_end_in_one_sentence(text, start):
    message = text_refusal(text)
    assert message.startswith(start)
    assert len(message) < 300


def test_a_rig_with_too_many_parts_says_how_many_it_may_have():
    data = small_data()
    data["loads"] = [data["loads"][0] | {"id": f"L{n}"} for n in range(501)]
    assert refusal(data) == "loads is '501 entries long'; expected at most 500 entries."


def test_the_largest_rig_allowed_is_read():
    assert len(read_rig(json.dumps(largest_data())).loads) == 500
