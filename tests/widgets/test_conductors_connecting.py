"""Connecting what no run reaches, and adding buses and blocks, on the page on conductors."""

from __future__ import annotations

from tests.widgets.conductor_pages import lone, page
from tests.widgets.hands import press, type_in_cell


class TestConnecting:
    def test_what_no_run_reaches_is_listed(self):
        shown = lone()
        assert list(shown.open.open_parts().values()) == ["Lamp"]
        assert shown.open_box.children == (shown.open.table,)
        assert "1 part is not connected yet" in shown.answer.html

    def test_both_lengths_lay_a_run_with_a_device(self):
        shown = lone()
        table = shown.open.table
        type_in_cell(table, "lamp", "length_out_m", "6 ft")
        assert len(shown.session.rig.runs) == 1
        assert table.row("lamp")["other"]["length_back_m"] == "now the length back"
        type_in_cell(table, "lamp", "length_back_m", "2 m")
        laid = shown.session.rig.runs[1]
        assert (laid.id, laid.name, laid.from_id, laid.to_id) == ("W2", "Lamp", "X2", "lamp")
        assert laid.typed == {"length_out_m": "6 ft"}
        assert shown.session.rig.devices[1].model_dump(exclude_unset=True) == {
            "id": "F2", "run_id": "W2", "distance_m": 0.0,
        }  # fmt: skip
        assert shown.picked == "W2"
        assert shown.open_box.children == ()

    def test_it_starts_where_it_is_told_to(self):
        shown = lone()
        for key, text in (("from", "bank"), ("length_out_m", "1 m"), ("length_back_m", "1 m")):
            type_in_cell(shown.open.table, "lamp", key, text)
        assert shown.session.rig.runs[1].from_id == "bank"
        assert shown.session.rig.devices[1].distance_m is None

    def test_a_length_that_cannot_be_read_lays_nothing(self):
        shown = lone()
        type_in_cell(shown.open.table, "lamp", "length_out_m", "far")
        type_in_cell(shown.open.table, "lamp", "length_back_m", "1 m")
        row = shown.open.table.row("lamp")
        assert row["cells"]["length_out_m"] == "far"
        assert "expected a length" in row["errors"]["length_out_m"]
        assert len(shown.session.rig.runs) == 1

    def test_a_length_below_zero_is_refused_in_its_own_cell_as_typed(self):
        shown = lone()
        type_in_cell(shown.open.table, "lamp", "length_out_m", "-5 ft")
        row = shown.open.table.row("lamp")
        assert row["errors"] == {"length_out_m": "Length out is '-5 ft'; expected 0 or more."}

    def test_a_new_bus_is_connected_like_a_load_and_can_be_taken_out_while_nothing_is_on_it(self):
        shown = page()
        press(shown.meeting.buttons, "buses")
        assert [one.id for one in shown.session.rig.buses] == ["X3"]
        assert shown.open.open_parts() == {"X3": "Bus X3"}
        type_in_cell(shown.meeting.tables["buses"].table, "X3", "name", "Main bus")
        assert shown.session.rig.buses[0].name == "Main bus"
        shown.meeting.tables["buses"].table._handle({"type": "remove", "id": "X3"})
        assert shown.session.rig.buses == ()

    def test_a_block_with_runs_on_it_stays(self):
        shown = page()
        shown.meeting.tables["blocks"].table._handle({"type": "remove", "id": "X2"})
        assert [one.id for one in shown.session.rig.blocks] == ["X2"]
        assert "remove W1, W2" in shown.meeting.tables["blocks"].table.row("X2")["errors"]["name"]

    def test_a_ring_is_refused_in_its_row(self):
        shown = page()
        for kind in ("buses", "buses"):
            shown.meeting.add(kind)
        table = shown.open.table
        lengths = [("length_out_m", "1 m"), ("length_back_m", "1 m")]
        for node, start in (("X3", "X4"), ("X4", "X3")):
            for key, text in [("from", start), *lengths]:
                type_in_cell(table, node, key, text)
        assert "ring" in table.row("X4")["errors"]["length_back_m"]
