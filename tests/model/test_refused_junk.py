"""Text that is no rig file, nested or endless data, and how large a rig may be."""

from __future__ import annotations

import json
from typing import Any

import pytest

from rigcalc.model import read_rig
from tests.model.refusing import put, refusal, text_refusal
from tests.rigs import largest_data, small_data


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


@pytest.mark.parametrize("depth", [50, 190, 900])
def test_lists_within_lists_are_refused_wherever_they_stand(depth):
    text = json.dumps(small_data()).replace('"Lamp"', "[" * depth + "]" * depth)
    assert text_refusal(text).startswith(("name of load lamp is [[", "Rig file is 'nested too deep'"))


@pytest.mark.parametrize(
    "value", [{1, 2}, b"x", object, 10**5000, {(1, 2): 3}], ids=["set", "bytes", "class", "digits", "key"]
)
def test_data_that_no_file_can_hold_is_refused(value):
    assert "; expected text" in refusal(put(small_data(), "note", value))


def test_a_list_that_holds_itself_is_refused():
    ring: list[Any] = []
    ring.append(ring)
    assert refusal(put(small_data(), "note", ring)).startswith("Rig is 'made of values that no file can hold'")


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
