"""The page on conductors without a browser: what it says, what each edit does, and what it refuses."""

from __future__ import annotations

import json

import pytest

from rigcalc.errors import InputError
from rigcalc.model import rig_from_data
from rigcalc.study.compare import other_rule_sets
from rigcalc.tables.rule_sets import RULE_SETS
from rigcalc.widgets.conductors import ConductorsPage
from rigcalc.widgets.session import Session, open_rig
from tests.rigs import small_data


def page(**changes) -> ConductorsPage:
    shown = ConductorsPage(Session(rig_from_data(small_data() | changes)))
    shown.view()
    return shown


def lone() -> ConductorsPage:
    """The lamp's run is not there yet, nor its device."""
    data = small_data()
    data["runs"], data["devices"] = data["runs"][:1], data["devices"][:1]
    return page(runs=data["runs"], devices=data["devices"])


def run(shown: ConductorsPage, run_id: str):
    return next(one for one in shown.session.rig.runs if one.id == run_id)


def edit_cell(shown: ConductorsPage, run_id: str, key: str, text: str) -> None:
    shown.runs.table._handle({"type": "edit", "id": run_id, "key": key, "text": text})


def edit(shown: ConductorsPage, key: str, text: str | bool) -> None:
    shown.form.fields._handle({"type": "edit", "key": key, "text": text})


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


class TestConnecting:
    def test_what_no_run_reaches_is_listed(self):
        shown = lone()
        assert list(shown.open.open_parts().values()) == ["Lamp"]
        assert shown.open_box.children == (shown.open.table,)
        assert "1 part is not connected yet" in shown.answer.html

    def test_both_lengths_lay_a_run_with_a_device(self):
        shown = lone()
        table = shown.open.table
        table._handle({"type": "edit", "id": "lamp", "key": "length_out_m", "text": "6 ft"})
        assert len(shown.session.rig.runs) == 1
        assert table.row("lamp")["other"]["length_back_m"] == "now the length back"
        table._handle({"type": "edit", "id": "lamp", "key": "length_back_m", "text": "2 m"})
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
            shown.open.table._handle({"type": "edit", "id": "lamp", "key": key, "text": text})
        assert shown.session.rig.runs[1].from_id == "bank"
        assert shown.session.rig.devices[1].distance_m is None

    def test_a_length_that_cannot_be_read_lays_nothing(self):
        shown = lone()
        shown.open.table._handle({"type": "edit", "id": "lamp", "key": "length_out_m", "text": "far"})
        shown.open.table._handle({"type": "edit", "id": "lamp", "key": "length_back_m", "text": "1 m"})
        row = shown.open.table.row("lamp")
        assert row["cells"]["length_out_m"] == "far"
        assert "expected a length" in row["errors"]["length_out_m"]
        assert len(shown.session.rig.runs) == 1

    def test_a_new_bus_is_connected_like_a_load_and_can_be_taken_out_while_nothing_is_on_it(self):
        shown = page()
        shown.meeting.buttons._handle({"type": "act", "act": "buses", "arg": ""})
        assert [one.id for one in shown.session.rig.buses] == ["X3"]
        assert shown.open.open_parts() == {"X3": "Bus X3"}
        shown.meeting.tables["buses"].table._handle({"type": "edit", "id": "X3", "key": "name", "text": "Main bus"})
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
                table._handle({"type": "edit", "id": node, "key": key, "text": text})
        assert "ring" in table.row("X4")["errors"]["length_back_m"]


class TestOneRun:
    def test_details_of_another_run(self):
        shown = page()
        shown.runs.table._handle({"type": "pick", "id": "W1"})
        assert shown.picked == "W1"
        assert "What decides W1" in shown.decides.html
        assert shown.runs.table.row("W1")["picked"]
        assert not shown.runs.table.row("W2")["picked"]
        shown.which._handle({"type": "edit", "key": "run", "text": "W2"})
        assert shown.picked == "W2"

    @pytest.mark.parametrize(
        ("key", "text", "value"),
        [
            ("length_out_m", "10 ft", 3.048),
            ("length_back_m", "4 m", 4.0),
            ("drop_limit_percent", "3 %", 3.0),
            ("drop_limit_percent", "14 %", 14.0),  # outside the slider's travel
            ("ambient_c", "104 F", 40.0),
            ("conductors_together", "4", 4),
            ("grouping_factor", "0,8", 0.8),
            ("insulation_c", "90 °C", 90.0),
            ("terminal_c", "60", 60.0),
            ("installation", "free_air", "free_air"),
            ("engine_space", True, True),
            ("sheathed", True, True),
            ("conductor", "6 mm²", "6 mm²"),
            ("return_conductor", "10 AWG", "10 AWG"),
            ("purpose", "sense", "sense"),
            ("note", "behind the panel", "behind the panel"),
            ("name", "Rear lamp", "Rear lamp"),
        ],
    )
    def test_each_input_changes_the_rig(self, key, text, value):
        shown = page()
        shown.pick("W2")
        edit(shown, key, text)
        assert shown.form.fields.spec(key).get("error", "") == ""
        assert getattr(run(shown, "W2"), key) == (pytest.approx(value) if isinstance(value, float) else value)

    @pytest.mark.parametrize(
        ("key", "text"),
        [("length_out_m", "-3 m"), ("drop_limit_percent", "0 %"), ("conductor", "ten"), ("conductor", "5 AWG thick"),
         ("conductors_together", "2.5"), ("grouping_factor", "8"), ("ambient_c", "4 m"), ("name", "")],
    )  # fmt: skip
    def test_what_cannot_be_used_stays_under_its_field_and_leaves_the_rig(self, key, text):
        shown = page()
        shown.pick("W2")
        before = shown.session.rig
        edit(shown, key, text)
        assert shown.session.rig == before
        assert shown.form.fields.spec(key)["error"]
        assert shown.form.fields.text(key) == text

    def test_emptying_unstates(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "insulation_c", "")
        edit(shown, "conductor", "")
        assert run(shown, "W2").insulation_c is None
        assert run(shown, "W2").conductor is None
        assert "choice" in shown.decides.html

    def test_the_drop_slider_stands_at_the_limit_of_the_rules_while_none_is_typed(self):
        shown = page()
        shown.pick("W2")
        spec = shown.form.fields.spec("drop_limit_percent")
        assert spec["text"] == ""
        assert spec["slider"]["value"] == 10
        assert spec["help"] == "empty: 10 % by the rules"

    def test_chassis_and_back_again(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "return_path", "chassis")
        assert (run(shown, "W2").return_path, run(shown, "W2").length_back_m) == ("chassis", None)
        keys = [spec["key"] for spec in shown.form.fields.specs]
        assert "chassis_resistance_ohm" in keys
        assert "return_conductor" not in keys
        edit(shown, "return_path", "conductor")
        assert "Length back is empty" in shown.form.fields.spec("return_path")["error"]
        edit(shown, "length_back_m", "4 m")
        assert (run(shown, "W2").return_path, run(shown, "W2").length_back_m) == ("conductor", 4.0)

    def test_a_conductor_that_can_mean_two_things_is_asked_back(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "conductor", "6")
        assert "6 AWG (13.3 mm²) and 6 mm²" in shown.decides.html

    def test_the_pick_moves_on_when_its_run_is_gone(self):
        shown = page()
        shown.pick("W2")
        shown.runs.table._handle({"type": "remove", "id": "W2"})
        assert shown.picked == "W1"

    def test_without_any_run_the_page_still_stands(self):
        shown = page(runs=[], devices=[])
        assert shown.picked == ""
        assert "There are no runs yet" in shown.answer.html
        assert list(shown.open.open_parts()) == ["X2", "lamp"]


class TestResults:
    def test_what_fails_is_marked_in_more_than_colour(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "length_out_m", "40 m")
        assert "■ " in shown.decides.html
        assert "rig-stop" in shown.decides.html

    def test_next_smaller_choice_next_larger_and_the_other_series(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "conductor", "")
        for title in ("next smaller", "choice", "next larger", "other series"):
            assert title in shown.decides.html
        assert "mm2" in shown.decides.html

    def test_volts_along_the_way_end_at_the_device(self):
        shown = page()
        shown.pick("W2")
        study = shown.session.study
        figure = json.loads(shown.plot.figure)
        present = next(trace for trace in figure["data"] if trace["name"] == "as it is")
        volts = [study.network.node_v[node] for node in ("bank", "X2", "lamp")]
        assert present["y"] == pytest.approx([*volts, volts[-1]])
        assert "10.5 V" in shown.plot.alt
        assert shown.plot.table["rows"][0][0] == "Bank"

    def test_a_power_that_does_not_get_through_is_said(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "conductor", "18 AWG")
        edit(shown, "length_out_m", "300 m")
        assert "does not get through" in shown.plot.alt
        assert shown.runs.table.row("W2")["cells"]["current"] == "■ not deliverable"

    def test_both_drops_and_each_working_with_its_source(self):
        shown = page()
        shown.pick("W2")
        assert "Two drops" in shown.more.html
        for text in ("Working: design current of W2", "Working: ampacity", "NFPA 70", "secondary"):
            assert text in shown.more.html

    def test_other_rule_sets_are_worked_out_once_asked_for(self):
        shown = page()
        shown.pick("W2")
        assert RULE_SETS["iec_vehicle"].title not in shown.more.html
        shown.more._handle({"type": "act", "act": "others", "arg": ""})
        for rule_set, size in other_rule_sets(shown.session.study, "W2").items():
            assert RULE_SETS[rule_set].title in shown.more.html
            assert size in shown.more.html

    def test_rules_without_read_sizes_say_so_and_show_the_others(self):
        shown = page(rule_set="eu_small_craft")
        assert "not available from a read source" in shown.answer.html
        assert "not available from a read source" in shown.clauses.html
        assert RULE_SETS["us_boat"].title in shown.more.html

    def test_another_rule_set_judges_by_its_own_clauses(self):
        shown = page()
        shown.rules.fields._handle({"type": "edit", "key": "rule_set", "text": "us_boat"})
        assert shown.session.rig.rule_set == "us_boat"
        assert "33 CFR 183.425" in shown.clauses.html

    def test_us_units(self):
        shown = page(units="us")
        shown.pick("W2")
        assert shown.runs.table.row("W2")["cells"]["length_out_m"] == "9.843 ft"
        assert shown.runs.table.row("W2")["other"]["length_out_m"] == "3.00 m"
        edit_cell(shown, "W2", "length_out_m", "10")
        assert run(shown, "W2").length_out_m == pytest.approx(3.048)

    def test_what_people_type_is_escaped(self):
        shown = page()
        shown.pick("W2")
        edit(shown, "name", "<b>lamp</b>")
        assert "<b>lamp</b>" not in shown.decides.html + shown.answer.html
        assert "&lt;b&gt;lamp&lt;/b&gt;" in shown.decides.html

    def test_only_its_own_findings_stand_on_the_page(self):
        shown = page()
        edit_cell(shown, "W2", "length_out_m", "60 m")
        assert "W2" in shown.findings.html
        assert all(one.rule in shown.findings.html for one in shown.session.findings
                   if one.rule.startswith("W") and one.state == "found")  # fmt: skip

    def test_the_first_answer_of_the_example(self):
        shown = ConductorsPage(open_rig())
        shown.view()
        good = sum(one.choice is not None and not one.choice.fails for one in shown.session.study.network.runs)
        assert f"{good} of {len(shown.session.rig.runs)} runs are within every limit" in shown.answer.html


def test_an_id_that_is_not_there_is_refused():
    with pytest.raises(InputError):
        page().pick("W99")
