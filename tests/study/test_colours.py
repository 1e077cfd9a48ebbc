"""Colours of wires: by the rig's one scheme, by the use of what the run feeds, or as stated for the run."""

from __future__ import annotations

import pytest

from rigcalc.study.colours import run_colours
from tests.rigs import small, small_data

# ABYC E-11 as quoted: supply of lights dark blue, of pumps brown; minus yellow. IEC 60445 is from memory.


@pytest.mark.parametrize(
    ("scheme", "use", "positive", "negative"),
    [
        (None, "pump", None, None),
        ("abyc", "lighting", "dark blue", "yellow"),
        ("abyc", "pump", "brown", "yellow"),
        ("abyc", "other", "red", "yellow"),
        ("iso", "lighting", "red", "black"),
        ("iec", "pump", "red", "white"),
    ],
)
def test_a_run_has_the_colours_of_its_scheme_and_use(scheme, use, positive, negative):
    data = small_data() | {"colour_scheme": scheme}
    data["loads"][0]["circuit_use"] = use
    found = run_colours(small(**data))
    assert (found["W2"].positive, found["W2"].negative) == (positive, negative)
    assert found["W1"].positive == (None if scheme is None else "red")


def test_what_is_stated_for_a_run_wins_and_a_chassis_has_no_colour():
    data = small_data() | {"colour_scheme": "abyc", "chassis_bond": "8 AWG"}
    data["runs"][0] |= {"colour": "orange", "return_colour": "black"}
    data["runs"][1] |= {"return_path": "chassis", "length_back_m": None}
    found = run_colours(small(**data))
    assert (found["W1"].positive, found["W1"].negative) == ("orange", "black")
    assert found["W2"].negative is None
