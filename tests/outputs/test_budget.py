"""Tables of text on energy and the bank: what stands in them is what the study says. Invented figures."""

from __future__ import annotations

from rigcalc.outputs.budget import bank_lines, cold_lines, day_lines, way_lines
from rigcalc.study import study
from rigcalc.widgets.session import open_rig
from tests.rigs import small


def test_the_day_ends_with_its_sum_and_range():
    """One measured lamp of 200 Wh: the sum is the lamp, its range within the lamp's own 180 to 220 Wh."""
    lines = day_lines(study(small()))
    assert lines[1].split() == ["Lamp", "direct", "measured", "180.00", "200.00", "220.00", "200.00"]
    low, likely, high = map(float, lines[-1].split()[-3:])
    assert 180 < low < likely == 200 < high < 220


def test_an_inverter_has_a_row_of_its_own():
    rig = open_rig().rig
    idle = next(line for line in day_lines(study(rig)) if "being on" in line)
    assert float(idle.split()[-1]) == rig.inverters[0].idle_w * rig.inverters[0].on_h


def test_ways_that_are_not_there_say_why():
    lines = way_lines(study(small()), "lamp")
    assert any("the rig has no converter" in line for line in lines)
    assert lines[1].split()[:2] == ["direct", "200.00"]


def test_cold_boxes_stand_at_two_set_points_in_three_rooms():
    lines = cold_lines(study(open_rig().rig))
    boxes = [load for load in open_rig().rig.loads if load.cold_box]
    assert len(lines) == 1 + 6 * len(boxes)
    assert any("no longer holds its temperature" in line for line in lines)


def test_what_is_not_known_is_said():
    found = study(small(loads=[], runs=[], devices=[]))
    assert any(line.split("  ")[0] == "Lasts without charging" and "not known" in line for line in bank_lines(found))
