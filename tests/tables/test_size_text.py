"""Conductor sizes as typed: read as printed on cables, asked back where they can mean two things."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.tables.size_text import parse_size


@pytest.mark.parametrize(
    ("text", "name"),
    [("10 AWG", "10 AWG"), ("AWG 10", "10 AWG"), ("4/0", "4/0 AWG"), ("6 mm²", "6 mm2"), ("2,5 mm2", "2.5 mm2")],
)
def test_sizes_as_printed_on_cables(text, name):
    size, meanings = parse_size(text)
    assert size is not None
    assert (size.name, meanings) == (name, ())


@pytest.mark.parametrize("text", ["6", "10", "6 mm", "2,5"])
def test_sizes_that_can_mean_two_things_are_not_guessed(text):
    size, meanings = parse_size(text)
    assert size is None
    assert len(meanings) == 2


@pytest.mark.parametrize("text", ["", "red", "7 AWG", "5 mm2", "-6 mm2", "6 mm2 or so", "<b>6</b>"])
def test_sizes_that_do_not_exist_are_refused(text):
    with pytest.raises(InputError, match="Conductor is"):
        parse_size(text)
