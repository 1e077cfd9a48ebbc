"""Blocks of cells pasted into the table of loads. Invented figures."""

from __future__ import annotations

from tests.rigs import small_data
from tests.widgets.load_pages import load, page


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
