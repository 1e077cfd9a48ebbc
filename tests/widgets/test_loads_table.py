"""The table of loads: cells, rows, and how a load is fed. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.model.edit import change
from tests.widgets.hands import press, type_in
from tests.widgets.load_pages import INVERTER, cell, field, load, page


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
    press(loads.bar, "units")
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
    press(loads.notice, "undo")
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
    type_in(loads.pick, "load", "load-2")
    assert loads.running.part_id == "load-2"
    assert "<h2>Fan</h2>" in loads.one.html


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
