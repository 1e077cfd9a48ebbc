"""Page 10 without a browser: the table, pasting, details, readings, days, what is told. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model.edit import Change, change
from rigcalc.widgets import loads_page
from rigcalc.widgets.load_results import answer
from rigcalc.widgets.loads import LoadsPage
from rigcalc.widgets.session import Session
from tests.rigs import small, small_data

INVERTER = {"id": "V1", "name": "Inverter", "rated_w": 300.0, "on_h": 5.0, "efficiency": 0.9, "idle_w": 4.0}


def page(**changes: object) -> LoadsPage:
    made = LoadsPage(Session(small(**changes)))
    made.view()
    return made


@pytest.fixture
def loads() -> LoadsPage:
    return page()


def load(at: LoadsPage, load_id: str = "lamp"):
    return next(one for one in at.session.rig.loads if one.id == load_id)


def cell(at: LoadsPage, load_id: str, key: str, text: str) -> None:
    at.table._handle({"type": "edit", "id": load_id, "key": key, "text": text})


def field(form, key: str, text: str | bool) -> None:
    form.fields._handle({"type": "edit", "key": key, "text": text})


# ---- the table -------------------------------------------------------------------------------------------


def test_a_cell_changes_the_load_its_day_and_the_answer(loads):
    cell(loads, "lamp", "power", "4 A at 12,5 V")
    assert (load(loads).current_a, load(loads).voltage_v, load(loads).power_w) == (4.0, 12.5, None)
    row = loads.table.row("lamp")
    assert (row["cells"]["power"], row["other"]["power"], row["cells"]["day"]) == ("4 A at 12,5 V", "50.0 W", "200 Wh")
    assert "<strong>200 Wh a day</strong>" in loads.answer.html


def test_a_cell_that_cannot_be_used_keeps_its_text_and_leaves_the_rig(loads):
    before = loads.session.rig
    cell(loads, "lamp", "use", "all evening")
    loads.refresh()
    row = loads.table.row("lamp")
    assert loads.session.rig is before
    assert row["cells"]["use"] == "all evening"
    assert row["errors"]["use"].startswith("Use a day is 'all evening'; expected 5 h, 20 min or")
    cell(loads, "lamp", "use", "5 h")
    assert (loads.table.row("lamp")["errors"], load(loads).daily_use_h) == ({}, 5.0)


def test_a_waiting_text_survives_another_edit_and_goes_when_the_rig_states_something_else(loads):
    cell(loads, "lamp", "use", "all evening")
    cell(loads, "lamp", "name", "Reading lamp")
    assert loads.table.row("lamp")["cells"]["use"] == "all evening"
    loads.session.apply(change("loads", "lamp", daily_use_h=2.0))
    assert (loads.table.row("lamp")["cells"]["use"], loads.table.row("lamp")["errors"]) == ("2 h", {})


def test_the_same_value_typed_another_way_is_shown_with_its_unit(loads):
    cell(loads, "lamp", "power", "50")
    assert loads.table.row("lamp")["cells"]["power"] == "50 W"


def test_units_of_the_other_system_do_not_touch_what_was_typed(loads):
    cell(loads, "lamp", "power", "0,05 kW")
    loads.bar._handle({"type": "act", "act": "units", "arg": ""})
    assert loads.table.row("lamp")["cells"]["power"] == "0,05 kW"
    field(loads.running, "duty_ambient_c", "77")
    assert load(loads).duty_ambient_c == pytest.approx(25.0)
    assert (loads.running.fields.text("duty_ambient_c"), loads.running.fields.spec("duty_ambient_c")["other"]) == (
        "77 °F",
        "25.0 °C",
    )


def test_a_row_is_added_copied_moved_and_removed(loads):
    loads.table._handle({"type": "add"})
    assert [(one.id, one.name) for one in loads.session.rig.loads] == [("lamp", "Lamp"), ("load-2", "Load 2")]
    assert loads.chosen == "load-2"
    assert loads.table.row("load-2")["cells"]["day"] == "not known"
    assert "power, hours of use" in loads.table.row("load-2")["other"]["day"]
    loads.table._handle({"type": "copy", "id": "lamp"})
    assert [one.id for one in loads.session.rig.loads] == ["lamp", "lamp-2", "load-2"]
    assert "Nothing leads to the copy yet" in loads.notice.html
    loads.table._handle({"type": "move", "id": "load-2", "step": -1})
    assert [one.id for one in loads.session.rig.loads] == ["lamp", "load-2", "lamp-2"]
    loads.table._handle({"type": "remove", "id": "load-2"})
    assert [one.id for one in loads.session.rig.loads] == ["lamp", "lamp-2"]
    assert "Load 2 was removed." in loads.notice.html


def test_a_removed_load_takes_its_run_and_device_says_so_and_comes_back(loads):
    before = loads.session.rig
    loads.table._handle({"type": "remove", "id": "lamp"})
    assert "Lamp was removed, and with it run W2 and device F2." in loads.notice.html
    assert ([run.id for run in loads.session.rig.runs], loads.session.rig.loads) == (["W1"], ())
    assert "No load yet" in loads.answer.html
    assert loads.pick.spec("load")["choices"] == [("", "no load yet")]
    loads.notice._handle({"type": "act", "act": "undo", "arg": ""})
    assert loads.session.rig == before
    assert "Undone." in loads.notice.html
    assert loads.running.fields.text("max_fuse_a") == "15 A"


def test_what_was_told_goes_with_the_next_change(loads):
    loads.table._handle({"type": "copy", "id": "lamp"})
    cell(loads, "lamp", "power", "9 W")
    assert loads.notice.html == ""


def test_details_follow_the_row_that_is_worked_on(loads):
    loads.table._handle({"type": "add"})
    cell(loads, "load-2", "name", "Fan")
    assert (loads.running.part_id, loads.reading.part_id, loads.day.part_id) == ("load-2",) * 3
    assert [loads.table.row(i)["picked"] for i in ("lamp", "load-2")] == [False, True]
    loads.table._handle({"type": "pick", "id": "lamp"})
    assert (loads.running.part_id, loads.pick.text("load"), loads.table.row("lamp")["picked"]) == ("lamp", "lamp", True)
    loads.pick._handle({"type": "edit", "key": "load", "text": "load-2"})
    assert loads.running.part_id == "load-2"
    assert "<h2>Fan</h2>" in loads.one.html


# ---- pasting ---------------------------------------------------------------------------------------------


def test_a_block_goes_into_rows_and_past_the_end(loads):
    block = [
        ["Lamp", "2", "5 W", "4 h", "", "", "measured", "direct"],
        ["Pump", "1", "4 A at 12 V", "6 × 3 min", "", "", "label", "direct"],
        ["Pump", "1", "60 W", "1 h", "", "0.5 W", "guess", ""],
        ["", "", "", ""],
    ]
    loads.table._handle({"type": "paste", "id": "lamp", "key": "name", "block": block})
    rig = loads.session.rig
    assert [(one.id, one.quantity, one.provenance) for one in rig.loads] == [
        ("lamp", 2, "measured"),
        ("pump", 1, "label"),
        ("pump-2", 1, "guess"),
    ]
    assert (rig.loads[1].current_a, rig.loads[1].events_per_day, rig.loads[2].standby_w) == (4.0, 6.0, 0.5)
    assert "4 lines pasted, 2 of them new." in loads.notice.html
    loads.session.undo()
    assert len(loads.session.rig.loads) == 1


def test_pasted_cells_that_cannot_be_used_stay_and_the_others_count(loads):
    block = [["45 watts please", "5 h"], ["9 W", "sometimes"]]
    loads.table._handle({"type": "paste", "id": "lamp", "key": "power", "block": block})
    lamp, new = loads.table.row("lamp"), loads.table.row("load-2")
    assert (load(loads).power_w, load(loads).daily_use_h, load(loads, "load-2").power_w) == (50.0, 5.0, 9.0)
    assert (lamp["cells"]["power"], "power" in lamp["errors"], new["cells"]["use"]) == (
        "45 watts please",
        True,
        "sometimes",
    )
    assert "2 lines pasted, 1 of them new. 2 cells could not be used" in loads.notice.html


def test_pasting_an_empty_cell_unstates_and_a_name_is_never_lost(loads):
    loads.table._handle({"type": "paste", "id": "lamp", "key": "name", "block": [["", "", ""]]})
    assert (load(loads).name, load(loads).power_w) == ("Lamp", None)
    assert "Load is empty" in loads.table.row("lamp")["errors"]["name"]


def test_a_block_beyond_what_a_rig_holds_says_so():
    many = [{**small_data()["loads"][0], "id": f"l{n}", "name": f"L{n}"} for n in range(499)]
    at = page(loads=many, runs=small_data()["runs"][:1], devices=[])
    at.table._handle({"type": "paste", "id": "l498", "key": "name", "block": [["a"], ["b"], ["c"], ["d"]]})
    assert len(at.session.rig.loads) == 500
    assert "4 lines pasted, 1 of them new. The rest was left out: a rig takes at most 500 loads." in at.notice.html


def test_a_pasted_name_that_is_none_is_refused_in_its_cell(loads):
    loads.table._handle({"type": "paste", "id": "lamp", "key": "name", "block": [["Lamp"], ["N" * 81, "2"]]})
    new = loads.table.row("load-2")
    assert (new["cells"]["name"], load(loads, "load-2").name, load(loads, "load-2").quantity) == ("N" * 81, "Load 2", 2)
    assert "expected at most 80 characters" in new["errors"]["name"]


# ---- feeding ---------------------------------------------------------------------------------------------


def test_an_adapter_waits_for_its_efficiency_then_the_run_goes_too():
    at = page(inverters=[INVERTER])
    cell(at, "lamp", "feed", "inverter_adapter:V1")
    assert "Adapter efficiency is empty" in at.table.row("lamp")["errors"]["feed"]
    assert load(at).feed == "direct"
    field(at.running, "adapter_efficiency", "85 %")
    assert (load(at).feed, load(at).fed_by, load(at).adapter_efficiency) == ("inverter_adapter", "V1", 0.85)
    assert (at.table.row("lamp")["errors"], [run.id for run in at.session.rig.runs]) == ({}, ["W1"])
    assert "run W2 and device F2 went with the old one" in at.notice.html
    field(at.running, "adapter_efficiency", "")
    assert (load(at).feed, load(at).adapter_efficiency) == ("inverter", None)
    assert "and the idle draw of 1 inverter take" in at.answer.html


def test_an_adapter_without_an_inverter_is_refused(loads):
    field(loads.running, "adapter_efficiency", "85 %")
    assert "nothing, unless an inverter feeds it" in loads.running.fields.spec("adapter_efficiency")["error"]
    field(loads.running, "adapter_efficiency", "")
    assert loads.running.fields.spec("adapter_efficiency")["error"] == ""


def test_fed_another_way_in_the_table_tells_what_went():
    at = page(inverters=[INVERTER])
    cell(at, "lamp", "feed", "inverter:V1")
    assert "Lamp is fed another way, so run W2 and device F2 went with the old one." in at.notice.html
    assert at.table.row("lamp")["choices"]["feed"][0] == ("direct", "direct")


# ---- details ---------------------------------------------------------------------------------------------


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
    loads.days._handle({"type": "edit", "id": "day-1", "key": "name", "text": "Camp day"})
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
    loads.days._handle({"type": "edit", "id": "day-1", "key": "name", "text": " "})
    assert loads.days.row("day-1")["errors"]["name"].startswith("Type of day is ' '; expected")
    loads.days._handle({"type": "remove", "id": "day-2"})
    assert "The type of day Day 2 was removed, and with it its hours of Lamp." in loads.notice.html
    assert load(loads).day_use == ()


# ---- words -----------------------------------------------------------------------------------------------


def _answer(*loads: dict[str, object]) -> str:
    return answer(Session(small(loads=list(loads), runs=small_data()["runs"][:1], devices=[])).study)


LAMP = {"id": "a", "name": "Lamp", "power_w": 10.0, "daily_use_h": 3.0, "provenance": "measured"}
FAN = {"id": "b", "name": "Fan", "power_w": 10.0, "daily_use_h": 1.0, "provenance": "guess"}


@pytest.mark.parametrize(
    ("loads", "sentence"),
    [
        ([LAMP], "1 load takes <strong>30.0 Wh a day</strong> at the battery; none of it is guessed."),
        (
            [LAMP, FAN],
            "2 loads take <strong>40.0 Wh a day</strong> at the battery; "
            "25 % of it rests on guesses: measure Fan first.",
        ),
        (
            [{**FAN, "provenance": "label"}],
            "1 load takes <strong>10.0 Wh a day</strong> at the battery; none of it is guessed, "
            "and measuring Fan would settle the most.",
        ),
        (
            [{"id": "c", "name": "Tap"}],
            "1 load takes <strong>0 Wh a day</strong> at the battery; 1 load says too little and counts as 0 Wh.",
        ),
    ],
)
def test_the_answer_is_one_sentence(loads, sentence):
    assert _answer(*loads) == sentence


def test_names_of_people_never_become_markup():
    at = page(loads=[{**LAMP, "name": "<img src=x> & co", "id": "a"}], runs=small_data()["runs"][:1], devices=[])
    cell(at, "a", "provenance", "guess")
    shown = at.one.html + at.answer.html + at.spread.html
    assert "<img" not in shown
    assert "&lt;img src=x&gt; &amp; co" in at.one.html
    at.table._handle({"type": "remove", "id": "a"})
    assert "<img" not in at.notice.html


def test_the_spread_shows_the_table_it_comes_from(loads):
    for words in ("measured", "read from a label", "guessed", "Common practice, no source", "▲ memory"):
        assert words in loads.spread.html
    loads.session.apply(Change("loads", "lamp", (("provenance", None),)))
    assert "taken as a guess" in loads.spread.html


def test_notes_and_working_of_the_chosen_load_are_shown(loads):
    field(loads.day, "inside_c", "4 °C")
    assert "not moved to" in loads.one.html
    assert "Working: the day of Lamp" in loads.one.html


def test_the_page_is_one_widget():
    assert len(loads_page(Session(small())).children) > 6
