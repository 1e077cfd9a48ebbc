"""Cold boxes: moved there and back, and the direction of every effect."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.coldbox import moved_energy_wh, relative_energy, steady_duty
from rigcalc.formulas.energy import running_energy_wh

inside = st.floats(-22, 8)
ambient = st.floats(10, 45)


@given(inside, ambient, inside, ambient, st.floats(1, 2000), st.floats(0, 1))
def test_there_and_back_is_the_start(inside_1_c, ambient_1_c, inside_2_c, ambient_2_c, energy_wh, constant_share):
    constant_wh = constant_share * energy_wh
    there_wh = moved_energy_wh(
        energy_wh, ambient_from_c=ambient_1_c, inside_from_c=inside_1_c, ambient_to_c=ambient_2_c,
        inside_to_c=inside_2_c, constant_wh=constant_wh,
    )  # fmt: skip
    back_wh = moved_energy_wh(
        there_wh, ambient_from_c=ambient_2_c, inside_from_c=inside_2_c, ambient_to_c=ambient_1_c,
        inside_to_c=inside_1_c, constant_wh=constant_wh,
    )  # fmt: skip
    assert back_wh == pytest.approx(energy_wh)


@given(inside, ambient, st.floats(0.1, 10))
def test_a_warmer_room_and_a_colder_box_cost_more(inside_c, ambient_c, step_k):
    here = relative_energy(ambient_c, inside_c)
    assert relative_energy(ambient_c + step_k, inside_c) > here
    assert relative_energy(ambient_c, inside_c - step_k) > here


def test_the_ratio_by_hand():
    # 21 K over COP 267.15/46 at 25 °C, 28 K over COP 267.15/53 at 32 °C: ratio 28 x 53 / (21 x 46).
    assert relative_energy(32, 4) / relative_energy(25, 4) == pytest.approx(28 * 53 / (21 * 46))


def test_another_set_point_by_hand():
    # From 4 to -18 °C at 25 °C: 43 K over COP 245.15/68 against 21 K over COP 267.15/46.
    moved_wh = moved_energy_wh(500, ambient_from_c=25, inside_from_c=4, ambient_to_c=25, inside_to_c=-18)
    assert moved_wh == pytest.approx(500 * (43 * 68 / 245.15) / (21 * 46 / 267.15))


def test_only_the_constant_part_is_left_in_a_room_as_cold_as_the_box():
    day = {"ambient_from_c": 25, "inside_from_c": 4, "inside_to_c": 4, "constant_wh": 60}
    assert moved_energy_wh(500, ambient_to_c=4, **day) == 60
    assert moved_energy_wh(500, ambient_to_c=-30, **day) == 60


@given(st.floats(0, 1), st.floats(0, 3), st.floats(20, 100))
def test_steady_duty_gives_back_the_day(duty, standby_w, running_w):
    daily_wh = max(running_energy_wh(running_w, 24, duty_cycle=duty, standby_w=standby_w), 24 * standby_w)
    assert steady_duty(daily_wh, running_w, standby_w) == pytest.approx(duty, abs=1e-9)


def test_a_box_that_cannot_hold_its_temperature_shows_more_than_all_the_time():
    assert steady_duty(1320, 50) == pytest.approx(1.1)
