"""The one error class: three parts, one sentence, nothing longer than a line."""

from __future__ import annotations

import math

import pytest

from rigcalc.errors import InputError, need, shown


def test_the_message_is_one_sentence_and_the_parts_stay():
    error = InputError("Length out", -5, "0 m or more")
    assert str(error) == "Length out is -5; expected 0 m or more."
    assert (error.what, error.given, error.allowed) == ("Length out", -5, "0 m or more")
    assert isinstance(error, ValueError)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, "empty"),
        ("", "empty"),
        (" ", "' '"),
        (True, "true"),
        (False, "false"),
        (0, "0"),
        (2.50, "2.5"),
        (-0.004, "-0.004"),
        (1_234_567.0, "1234567"),
        (math.inf, "inf"),
        (math.nan, "nan"),
        ("6 ftt", "'6 ftt'"),
        ([1, "a"], "[1, 'a']"),
        ("two\nlines", r"'two\nlines'"),
        ("\x1b[31m", r"'\x1b[31m'"),
        ("\ud800", r"'\ud800'"),
        ("abc\u202ecba", r"'abc\u202ecba'"),
    ],
)
def test_a_value_as_the_message_prints_it(value, text):
    assert shown(value) == text


@pytest.mark.parametrize("value", ["x" * 1000, list(range(1000)), 10**100, {"a": "b" * 500}, "\x00" * 50])
def test_a_long_value_is_shortened_in_the_message_only(value):
    error = InputError("Name", value, "something shorter")
    assert len(shown(value)) == 60
    assert "…" in shown(value)
    assert error.given == value


def test_a_number_python_refuses_to_print_still_gets_its_message():
    assert str(InputError("power_w", 10**5000, "a number")) == "power_w is a int too long to print; expected a number."


def test_a_list_in_itself_still_gets_its_message():
    deep: list[object] = []
    for _ in range(100_000):
        deep = [deep]
    assert str(InputError("Rig", deep, "less")) == "Rig is a list too long to print; expected less."


def test_need_passes_and_refuses():
    need(True, "Length out", 2.0, "0 m or more")
    with pytest.raises(InputError, match=r"^Length out is -2; expected 0 m or more\.$"):
        need(False, "Length out", -2.0, "0 m or more")


def test_a_nan_never_passes():
    with pytest.raises(InputError, match="Length out is nan"):
        need(True, "Length out", math.nan, "0 m or more")
