"""Cold boxes in other rooms: against the model's own published form, and what must hold for every box."""

from __future__ import annotations

import pytest
from hypothesis import given

from tests.study.load_rigs import FED, energy_of, load, numbers, row_of, unstated

EXACT = {"daily_low_wh": 500.0, "daily_high_wh": 500.0}


def box(inside_c=4.0, own_c=25.0, **fields):
    """A cold box of 500 Wh a day in its own room: 50 W for 10 h of 24."""
    running = {"power_w": 50.0, "daily_use_h": 24.0, "cycles": True, "duty_cycle": 10 / 24, "duty_ambient_c": own_c}
    return load(cold_box={"inside_c": inside_c}, **running | fields)


def cell(study, appliance, ambient_c):
    return next(one for one in study.cold_boxes if (one.appliance, one.ambient_c) == (appliance, ambient_c))


class TestAgainstTheModelNoEvidence:
    """Evaporator 10 K below inside, condenser 15 K above the room (both from memory): figures worked out by hand."""

    @pytest.mark.parametrize(("ambient_c", "all_follows_wh"), [(16, 229.8), (25, 500.0), (32, 768.1)])
    def test_fridge_of_500_wh_at_25_degrees(self, ambient_c, all_follows_wh):
        spread = cell(energy_of(box(**EXACT)), "fridge", ambient_c).battery_wh
        a_third_does_not = 0.3 * 500 + 0.7 * all_follows_wh
        low, high = sorted((all_follows_wh, a_third_does_not))
        assert (spread.low, spread.high) == pytest.approx((low, high), abs=0.05)
        assert spread.likely == pytest.approx((low + high) / 2, abs=0.05)

    @pytest.mark.parametrize(("ambient_c", "relative"), [(16, 0.69), (32, 1.28)])
    def test_freezer_beside_25_degrees(self, ambient_c, relative):
        study = energy_of(box(inside_c=-18.0, **EXACT))
        follows = cell(study, "freezer", ambient_c).battery_wh
        end = follows.low if relative < 1 else follows.high
        assert end / cell(study, "freezer", 25).battery_wh.likely == pytest.approx(relative, abs=0.005)

    @pytest.mark.parametrize(("usual_c", "relative"), [(20, 0.68), (30, 1.37), (35, 1.80), (40, 2.27)])
    def test_the_design_day_stands_in_the_usual_room(self, usual_c, relative):
        row = row_of(energy_of(box(**EXACT), ambient_usual_c=float(usual_c), ambient_hot_c=45.0))
        end = row.appliance_wh.low if relative < 1 else row.appliance_wh.high
        assert end == pytest.approx(500 * relative, abs=2.5)
        assert any("moved from 25.0 °C" in note for note in row.notes)


def test_in_its_own_room_nothing_moves():
    row = row_of(energy_of(box(), ambient_usual_c=25.0))
    assert row.battery_wh.likely == pytest.approx(500)
    assert not row.notes


def test_never_more_than_running_all_day():
    hottest = cell(energy_of(box(own_c=16.0)), "freezer", 32)
    assert hottest.battery_wh.high == 50 * 24
    assert hottest.at_cap
    assert hottest.duty == pytest.approx(1)


def test_at_its_own_setting_the_duty_is_the_stated_one():
    assert cell(energy_of(box(standby_w=1.0)), "fridge", 25).duty == pytest.approx(10 / 24)


def test_the_bank_alone_for_the_box():
    study = energy_of(box(**EXACT))
    one = cell(study, "fridge", 25)
    assert one.days.likely == pytest.approx(100 * 12.8 * 0.8 / 500)
    worst = cell(study, "fridge", 32)
    assert worst.days.low == pytest.approx(100 * 12.8 * 0.8 / 768.1, abs=0.0005)
    assert worst.days.low < worst.days.likely < worst.days.high


def test_losses_on_the_way_count():
    direct = cell(energy_of(box()), "fridge", 32).battery_wh
    fed = cell(energy_of(box(feed="converter", fed_by="dc"), **FED), "fridge", 32).battery_wh
    assert fed.likely == pytest.approx(direct.likely / 0.92)


def test_hot_duty_may_pass_1():
    # Fresh food at 35 °C is 1.80 times 25 °C with nothing constant; 20 h a day become 36.
    study = energy_of(box(duty_cycle=20 / 24), ambient_hot_c=35.0)
    assert study.hot_duty["one"] == pytest.approx(1.80 * 20 / 24, abs=0.005)


@pytest.mark.parametrize("fields", [{"duty_ambient_c": None}, {"duty_ambient_c": 4.0}, {"power_w": None}])
def test_figures_that_cannot_be_moved_give_no_cells(fields):
    stated = {key: value for key, value in (box() | fields).items() if value is not None}
    study = energy_of(stated)
    assert (study.cold_boxes, study.hot_duty) == ((), {})


def test_an_unstated_room_counts_as_it_is_and_says_so():
    stated = box()
    del stated["duty_ambient_c"]
    row = row_of(energy_of(stated))
    assert row.battery_wh.likely == pytest.approx(500)
    assert any("is not stated: not moved" in note for note in row.notes)


def test_the_room_of_the_reading_is_the_box_own():
    reading = {"energy_wh": 500.0, "over_h": 24.0, "at": "dc_at_appliance", "ambient_c": 25.0}
    one = unstated(reading=reading, duty_ambient_c=10.0, cold_box={"inside_c": 4.0}, provenance="measured", **EXACT)
    found = cell(energy_of(one), "fridge", 32)
    assert found.battery_wh.high == pytest.approx(768, abs=0.5)
    assert (found.duty, found.at_cap) == (None, False)


@given(numbers(-25, 10), numbers(11, 43), numbers(0.05, 1), numbers(-10, 45))
def test_bands_are_ordered_and_a_warmer_room_never_costs_less(inside_c, own_c, duty, usual_c):
    study = energy_of(box(inside_c=inside_c, own_c=own_c, duty_cycle=duty), ambient_usual_c=usual_c, ambient_hot_c=60.0)
    for one in study.cold_boxes:
        assert one.battery_wh.low <= one.battery_wh.likely <= one.battery_wh.high <= 24 * 50 * (1 + 1e-12)
        assert one.days.low <= one.days.likely <= one.days.high
    for appliance in ("fridge", "freezer"):
        rooms = [cell(study, appliance, ambient_c).battery_wh.likely for ambient_c in (16, 25, 32)]
        assert rooms == sorted(rooms)
    warmer = energy_of(
        box(inside_c=inside_c, own_c=own_c, duty_cycle=duty), ambient_usual_c=usual_c + 2, ambient_hot_c=60.0
    )
    assert warmer.daily_energy_wh >= study.daily_energy_wh * (1 - 1e-12)
