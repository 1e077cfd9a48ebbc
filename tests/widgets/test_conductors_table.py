"""The table of runs on the page on conductors: what a row says, edits, pasting, removing."""

from __future__ import annotations

import pytest

from rigcalc.model import rig_from_data
from tests.rigs import small_data
from tests.widgets.conductor_pages import edit_cell, page, run


class TestTable:
    def test_each_run_has_a_row_with_current_conductor_and_drop(self):
        row = page().runs.table.row("W2")["cells"]
        assert row["id"] == "W2"
        assert row["to"] == "Lamp"
        assert row["conductor"] == "14 AWG"
        assert row["state"] == "passes"
        assert row["drop"].replace("\u00a0", " ").endswith("of 10 %")

    def test_a_length_takes_units_as_typed_and_shows_them_again(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "6 ft")
        assert run(shown, "W2").length_out_m == pytest.approx(1.8288)
        assert shown.runs.table.row("W2")["cells"]["length_out_m"] == "6 ft"
        assert shown.runs.table.row("W2")["other"]["length_out_m"] == "1.83 m"

    def test_decimal_comma(self):
        shown = page()
        edit_cell(shown, "W2", "length_back_m", "2,5")
        assert run(shown, "W2").length_back_m == 2.5

    def test_a_longer_run_drops_more(self):
        shown = page()
        before = shown.runs.table.row("W2")["cells"]["drop"]
        edit_cell(shown, "W2", "length_out_m", "9 m")
        assert shown.runs.table.row("W2")["cells"]["drop"] != before

    def test_what_cannot_be_used_stays_in_its_cell_with_the_reason(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "six feet")
        row = shown.runs.table.row("W2")
        assert row["cells"]["length_out_m"] == "six feet"
        assert "expected a length such as" in row["errors"]["length_out_m"]
        assert run(shown, "W2").length_out_m == 3.0
        edit_cell(shown, "W1", "length_out_m", "2 m")  # another edit loses nothing
        assert shown.runs.table.row("W2")["cells"]["length_out_m"] == "six feet"
        edit_cell(shown, "W2", "length_out_m", "3 m")
        assert not shown.runs.table.row("W2")["errors"]

    def test_it_waits_only_until_the_rig_states_something_else_there(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "six feet")
        data = small_data()
        data["runs"][1]["length_out_m"] = 5.0
        shown.session.replace(rig_from_data(data))
        row = shown.runs.table.row("W2")
        assert row["cells"]["length_out_m"] == "5 m"
        assert not row["errors"]

    def test_a_block_of_lengths_is_pasted_over_rows(self):
        shown = page()
        block = [["2 m", "3 m"], ["7 ft", "nothing"]]
        shown.runs.table._handle({"type": "paste", "id": "W1", "key": "length_out_m", "block": block})
        assert (run(shown, "W1").length_out_m, run(shown, "W1").length_back_m) == (2.0, 3.0)
        assert run(shown, "W2").length_out_m == pytest.approx(2.1336)
        assert shown.runs.table.row("W2")["cells"]["length_back_m"] == "nothing"

    def test_a_run_can_start_elsewhere(self):
        shown = page()
        edit_cell(shown, "W2", "from_id", "bank")
        assert run(shown, "W2").from_id == "bank"
        assert ("lamp", "Lamp") not in shown.runs.table.row("W2")["choices"]["from_id"]

    def test_removing_takes_the_devices_along_and_undo_brings_all_back(self):
        shown = page(main_switch_run="W2")
        before = shown.session.rig
        shown.runs.table._handle({"type": "remove", "id": "W2"})
        assert [one.id for one in shown.session.rig.runs] == ["W1"]
        assert [one.id for one in shown.session.rig.devices] == ["F1"]
        assert shown.session.rig.main_switch_run is None
        shown.session.undo()
        assert shown.session.rig == before

    def test_a_finding_shows_as_mark_and_word(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "40 m")
        assert shown.runs.table.row("W2")["cells"]["state"] in ("■ stop", "▲ warning")
        assert shown.runs.table.row("W1")["cells"]["state"] == "passes"

    def test_a_chassis_return_says_so_under_the_empty_length(self):
        data = small_data()
        data["runs"][1] |= {"return_path": "chassis"}
        del data["runs"][1]["length_back_m"]
        row = page(runs=data["runs"]).runs.table.row("W2")
        assert (row["cells"]["length_back_m"], row["other"]["length_back_m"]) == ("", "chassis")
