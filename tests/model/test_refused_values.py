"""Values out of place and text that is no name: the message names the field, the value and what is allowed."""

from __future__ import annotations

import json

import pytest

from rigcalc.model import rig_from_data
from tests.model.refusing import put, refusal, text_refusal
from tests.rigs import small_data


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


def test_a_number_too_large_for_a_float_is_named():
    text = json.dumps(small_data()).replace('"power_w": 50.0', '"power_w": 1e999')
    assert text_refusal(text) == "power_w of load lamp is inf; expected a finite number."


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
