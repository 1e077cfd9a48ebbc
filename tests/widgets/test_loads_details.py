"""Details of one load: its fields, its meter reading, its days. Invented figures."""

from __future__ import annotations

import pytest

from tests.rigs import small_data
from tests.widgets.hands import type_in_cell
from tests.widgets.load_pages import field, load, page


@pytest.mark.parametrize(
    ("key", "text", "value"),
    [
        ("cycles", True, True),
        ("duty_ambient_c", "77 F", pytest.approx(25.0)),
        ("starting_power_w", "0.2 kW", pytest.approx(200.0)),
        ("starting_s", "300 ms", pytest.approx(0.3)),
        ("lowest_working_v", "10,5 V", 10.5),
        ("max_fuse_a", "", None),
        ("circuit_use", "pump", "pump"),
        ("priority", "must", "must"),
        ("priority", "", None),
        ("alternates_with", "cooking", "cooking"),
        ("daily_low_wh", "0.1 kWh", pytest.approx(100.0)),
        ("note", "Behind the seat", "Behind the seat"),
    ],
)
def test_each_detail_is_a_field_of_the_load(loads, key, text, value):
    field(loads.running, key, text)
    assert loads.running.fields.spec(key)["error"] == ""
    assert getattr(load(loads), key) == value


def test_a_low_day_above_the_high_day_is_refused(loads):
    field(loads.running, "daily_high_wh", "100 Wh")
    field(loads.running, "daily_low_wh", "200 Wh")
    assert loads.running.fields.spec("daily_low_wh")["error"].startswith("Low day is '200 Wh'; expected at most")
    assert load(loads).daily_low_wh is None


def test_a_reading_counts_once_it_is_complete(loads):
    field(loads.reading, "read", "0.98 kWh")
    field(loads.reading, "over_h", "31.28 h")
    field(loads.reading, "ambient_c", "22 °C")
    assert load(loads).reading is None
    assert loads.reading.fields.text("read") == "0.98 kWh"
    assert "Counts once it says" in loads.reading.fields.spec("read")["help"]
    field(loads.reading, "at", "dc_at_appliance")
    got = load(loads).reading
    assert (got.energy_wh, got.over_h, got.at, got.ambient_c) == (980.0, 31.28, "dc_at_appliance", 22.0)
    assert load(loads).provenance == "measured"
    # a published log of a refrigerator prints 0.752 kWh a day for 0.98 kWh in 31.28 h
    assert loads.table.row("lamp")["cells"]["day"] == "752 Wh"
    assert (loads.reading.fields.text("read"), loads.reading.fields.spec("read")["help"]) == ("0.98 kWh", "")


def test_a_reading_is_changed_box_by_box_and_dropped_with_what_was_read(loads):
    for key, text in (("read", "42 Ah at 12.8 V"), ("over_h", "3 days"), ("at", "at_battery"), ("meter", "Shunt")):
        field(loads.reading, key, text)
    assert (load(loads).reading.charge_ah, load(loads).reading.over_h) == (42.0, 72.0)
    field(loads.reading, "read", "500 Wh")
    assert (load(loads).reading.charge_ah, load(loads).reading.voltage_v, load(loads).reading.energy_wh) == (
        None,
        None,
        500.0,
    )
    field(loads.reading, "over_h", "")
    assert "empty what was read to drop the whole reading" in loads.reading.fields.spec("over_h")["error"]
    field(loads.reading, "date", "2026-02-30")
    assert loads.reading.fields.spec("date")["error"].startswith("Date is '2026-02-30'; expected a date")
    field(loads.reading, "meter", "")
    assert load(loads).reading.meter is None
    field(loads.reading, "read", "")
    assert load(loads).reading is None
    assert loads.reading.fields.text("at") == "at_battery"
    field(loads.reading, "read", "0.6 kWh")
    assert (load(loads).reading.energy_wh, load(loads).reading.over_h) == (600.0, 72.0)


def test_a_reading_that_cannot_be_is_refused_in_its_box(loads):
    for key, text in (("at", "at_battery"), ("over_h", "24 h"), ("read", "-5 Wh")):
        field(loads.reading, key, text)
    assert loads.reading.fields.spec("read")["error"] == "Read on the meter is '-5 Wh'; expected 0 Wh or more."
    assert (loads.reading.fields.text("read"), load(loads).reading) == ("-5 Wh", None)
    field(loads.reading, "over_h", "soon")
    assert "Over is 'soon'" in loads.reading.fields.spec("over_h")["error"]


def test_a_half_typed_reading_belongs_to_its_load(loads):
    field(loads.reading, "read", "0.5 kWh")
    loads.table._handle({"type": "add"})
    assert loads.reading.fields.text("read") == ""
    loads.table._handle({"type": "pick", "id": "lamp"})
    assert loads.reading.fields.text("read") == "0.5 kWh"


def test_a_reading_keeps_what_was_not_edited_as_it_was():
    reading = {"energy_wh": 500.0, "over_h": 24.0, "at": "at_battery", "ambient_c": 21.37}
    at = page(loads=[{**small_data()["loads"][0], "reading": reading}], units="us")
    field(at.reading, "over_h", "25 h")
    assert (load(at).reading.ambient_c, load(at).reading.typed, load(at).reading.over_h) == (21.37, {}, 25.0)


def test_cold_box_and_hours_by_type_of_day(loads):
    field(loads.day, "as_freezer", True)
    assert "stated first" in loads.day.fields.spec("as_freezer")["error"]
    field(loads.day, "inside_c", "-0,4 F")
    assert load(loads).cold_box.inside_c == pytest.approx(-18.0)
    field(loads.day, "as_freezer", True)
    assert (load(loads).cold_box.as_freezer, loads.day.fields.text("inside_c")) == (True, "-0,4 F")
    field(loads.day, "inside_c", "")
    assert load(loads).cold_box is None


def test_types_of_day_are_added_named_used_and_removed(loads):
    loads.days._handle({"type": "add"})
    loads.days._handle({"type": "add"})
    assert [one.name for one in loads.session.rig.day_types] == ["Day 1", "Day 2"]
    type_in_cell(loads.days, "day-1", "name", "Camp day")
    field(loads.day, "day day-2", "30 min")
    field(loads.day, "day day-1", "6 h")
    assert [(one.day_type, one.daily_use_h) for one in load(loads).day_use] == [("day-1", 6.0), ("day-2", 0.5)]
    assert load(loads).day_use[1].typed == {"daily_use_h": "30 min"}
    assert loads.days.row("day-1")["cells"] == {"name": "Camp day", "day": "300 Wh"}
    assert loads.days.row("day-1")["other"]["day"] == "the design counts this one"
    assert "300 Wh a day</strong> at the battery on the largest day, Camp day" in loads.answer.html
    field(loads.day, "day day-1", "a while")
    assert "Use" in loads.day.fields.spec("day day-1")["error"]
    field(loads.day, "day day-1", "")
    assert [one.day_type for one in load(loads).day_use] == ["day-2"]
    type_in_cell(loads.days, "day-1", "name", " ")
    assert loads.days.row("day-1")["errors"]["name"].startswith("Type of day is ' '; expected")
    loads.days._handle({"type": "remove", "id": "day-2"})
    assert "The type of day Day 2 was removed, and with it its hours of Lamp." in loads.notice.html
    assert load(loads).day_use == ()
