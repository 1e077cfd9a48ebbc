"""The page on overcurrent protection without a browser: what it says, what each edit does, and what it refuses."""

from __future__ import annotations

import json

import pytest

from rigcalc.model import rig_from_data
from rigcalc.widgets.overcurrent import OvercurrentPage
from rigcalc.widgets.session import Session, open_rig
from tests.rigs import small, small_data
from tests.widgets.hands import press, type_in, viewed


def page(**changes) -> OvercurrentPage:
    return viewed(OvercurrentPage(Session(small(**changes))))


def with_device(**fields) -> OvercurrentPage:
    """The small rig with fields of the lamp's fuse replaced; None takes a field away."""
    data = small_data()
    data["devices"][1] |= fields
    data["devices"][1] = {key: value for key, value in data["devices"][1].items() if value is not None}
    shown = page(devices=data["devices"])
    shown.pick("F2")
    return shown


def device(shown: OvercurrentPage, device_id: str):
    return next(one for one in shown.session.rig.devices if one.id == device_id)


def edit(shown: OvercurrentPage, key: str, text: str | bool) -> None:
    type_in(shown.forms.device.fields, key, text)


class TestTable:
    def test_each_circuit_has_a_row(self):
        shown = with_device()
        row = shown.circuits.table.row("F2")
        cells = {key: text.replace("\u00a0", " ") for key, text in row["cells"].items()}
        one = next(one for one in shown.session.study.network.circuits if one.circuit_id == "F2")
        assert cells["run"] == "W2 · Block to lamp"
        assert cells["loads"] == "Lamp"
        assert cells["rating"] == "10 A"
        assert row["other"]["rating"] == "stated"
        assert cells["class"] == "blade fuse"
        assert cells["window"].endswith("to 15.0 A")
        assert cells["breaks"] == f"{one.prospective_a:.0f} A of 1000 A"
        assert cells["distance"] == "0 m of 0.457 m"
        assert cells["state"] == "passes"

    def test_a_short_circuit_above_what_it_breaks_is_marked(self):
        data = small_data()
        data["bank"]["unit_short_circuit_a"] = 60_000.0
        row = page(bank=data["bank"]).circuits.table.row("F1")["cells"]
        assert row["breaks"].startswith("■ ")
        assert row["state"] == "■ stop"

    def test_a_distance_beyond_the_rules_is_marked(self):
        row = with_device(distance_m=2.0).circuits.table.row("F2")["cells"]
        assert row["distance"] == "■ 2.00 m of 0.457 m"

    def test_a_distance_nobody_stated_is_neither_passed_nor_failed(self):
        row = with_device(distance_m=None).circuits.table.row("F2")["cells"]
        assert row["distance"] == "not stated, up to 0.457 m"
        assert row["state"] == "not all stated"

    def test_removing_a_device_leaves_its_run_with_the_one_before_it(self):
        shown = page()
        shown.circuits.table._handle({"type": "remove", "id": "F2"})
        assert [one.id for one in shown.session.rig.devices] == ["F1"]
        assert "W2 (Block to lamp) is protected by the device before it." in shown.lacking.html
        assert shown.picked == "F1"

    def test_a_device_is_added_where_none_is(self):
        shown = page(devices=[])
        assert "■ W1 (Bank to block) has nothing before it." in shown.lacking.html
        assert "There is <strong>no fuse or breaker</strong>" in shown.answer.html
        press(shown.lacking, "add", "W2")
        added = shown.session.rig.devices[0]
        assert (added.id, added.run_id, added.distance_m) == ("F1", "W2", 0.0)  # in the block's way
        press(shown.lacking, "add", "W1")
        assert device(shown, "F2").distance_m is None
        assert shown.picked == "F2"

    def test_one_in_the_return_has_no_window(self):
        shown = with_device(conductor="negative")
        assert shown.circuits.table.row("F2")["cells"]["window"] == "none: in the return"
        assert "sits in the return" in shown.answer.html
        assert "leaves what it feeds live" in shown.why.html
        assert "no window" in shown.plot.alt


class TestInputs:
    @pytest.mark.parametrize(
        ("key", "text", "value"),
        [
            ("device_class", "high_current_blade", "high_current_blade"),
            ("rating_a", "15 A", 15.0),
            ("distance_m", "6 in", 0.1524),
            ("distance_m", "3 m", 3.0),  # outside the slider's travel
            ("voltage_rating_v", "58", 58.0),
            ("interrupting_a", "2 kA", 2000.0),
            ("holder_rating_a", "30", 30.0),
            ("ambient_c", "122 F", 50.0),
            ("conductor", "negative", "negative"),
        ],
    )
    def test_each_input_changes_the_device(self, key, text, value):
        shown = with_device()
        edit(shown, key, text)
        assert getattr(device(shown, "F2"), key) == (pytest.approx(value) if isinstance(value, float) else value)

    @pytest.mark.parametrize(("key", "text"), [("rating_a", "0 A"), ("distance_m", "near"), ("interrupting_a", "5 V")])
    def test_what_cannot_be_used_stays_under_its_field(self, key, text):
        shown = with_device()
        before = shown.session.rig
        edit(shown, key, text)
        assert shown.session.rig == before
        assert shown.forms.device.fields.spec(key)["error"]
        assert shown.forms.device.fields.text(key) == text

    def test_an_empty_box_says_what_is_taken(self):
        shown = with_device(rating_a=None)
        spec = shown.forms.device.fields.spec("rating_a")
        assert spec["text"] == ""
        assert spec["help"] == "empty: 7.5 A, the smallest that holds the load"
        assert shown.forms.device.fields.spec("ambient_c")["slider"]["value"] == 30

    def test_the_sheath_is_the_runs(self):
        shown = with_device()
        type_in(shown.forms.run.fields, "sheathed", True)
        assert shown.session.rig.runs[1].sheathed

    def test_the_block_of_the_circuit(self):
        shown = with_device(device_class=None)
        assert shown.forms.block.part_id == "X2"
        type_in(shown.forms.block.fields, "rating_a", "60 A")
        type_in(shown.forms.block.fields, "branch_class", "blade")
        block = shown.session.rig.blocks[0]
        assert (block.rating_a, block.branch_class) == (60.0, "blade")
        assert shown.circuits.table.row("F2")["cells"]["class"] == "blade fuse"

    def test_main_switch_and_the_makers_short_circuit_current(self):
        shown = page()
        type_in(shown.forms.switch.fields, "main_switch_run", "W1")
        type_in(shown.forms.bank.fields, "unit_short_circuit_a", "1,5 kA")
        assert shown.session.rig.main_switch_run == "W1"
        assert shown.session.rig.bank.unit_short_circuit_a == 1500.0
        type_in(shown.forms.switch.fields, "main_switch_run", "")
        assert shown.session.rig.main_switch_run is None

    def test_another_circuit(self):
        shown = page()
        shown.circuits.table._handle({"type": "pick", "id": "F2"})
        assert shown.picked == "F2"
        type_in(shown.forms.which, "device", "F1")
        assert shown.picked == "F1"
        assert shown.circuits.table.row("F1")["picked"]

    def test_us_units(self):
        shown = OvercurrentPage(Session(rig_from_data(small_data() | {"units": "us"})))
        shown.view()
        shown.pick("F1")
        assert shown.forms.device.fields.text("distance_m") == "3.937 in"
        assert shown.circuits.table.row("F1")["cells"]["distance"] == "3.94 in of 18.0 in"


class TestResults:
    def test_the_window_is_drawn_with_its_edges_ratings_and_choice(self):
        shown = with_device(rating_a=None)
        one = next(one for one in shown.session.study.network.circuits if one.circuit_id == "F2")
        figure = json.loads(shown.plot.figure)
        marks = {trace["name"]: trace["x"] for trace in figure["data"]}
        assert marks["load for hours"] == [pytest.approx(one.continuous_a)]
        assert marks[f"load / 0.75 / {one.rerating:.2f}"] == [pytest.approx(one.least_a)]
        assert marks["14 AWG in W2"] == [15.0]
        assert marks["this one"] == [7.5]
        assert 10.0 in marks["ratings made"]
        assert figure["layout"]["shapes"][0]["x0"] == pytest.approx(one.least_a)
        assert figure["layout"]["shapes"][0]["x1"] == 15.0
        assert "7.5 A is chosen" in shown.plot.alt

    def test_without_a_window_nothing_is_shaded_and_it_is_said(self):
        data = small_data()
        data["loads"][0] |= {"power_w": 300.0, "max_fuse_a": 15.0}
        shown = page(loads=data["loads"])
        shown.pick("F2")
        assert json.loads(shown.plot.figure)["layout"]["shapes"] == []
        assert "outside the window" in shown.why.html
        assert "rig-stop" in shown.why.html

    def test_why_it_won(self):
        shown = with_device(rating_a=None)
        assert "the smallest rating of its class that holds the load" in shown.why.html
        assert "At most 15.0 A: " in shown.why.html

    def test_a_conductor_that_grew_for_its_fuse_is_named(self):
        shown = OvercurrentPage(open_rig("starter"))
        shown.view()
        grown = next(one for one in shown.session.study.network.circuits if one.grown)
        shown.pick(grown.circuit_id)
        assert "A larger conductor was chosen so that this fuse fits" in shown.why.html

    def test_a_rating_from_memory_is_to_be_confirmed(self):
        shown = with_device(device_class="current_limiting", rating_a=None)
        assert "confirm on the maker" in shown.why.html
        assert shown.circuits.table.row("F2")["other"]["rating"] == "▲ from memory"

    def test_a_start_that_may_open_it_is_said(self):
        data = small_data()
        data["loads"][0] |= {"starting_power_w": 400.0, "starting_s": 30.0}
        shown = page(loads=data["loads"])
        shown.pick("F2")
        assert "A start on it may last longer than it holds." in shown.why.html

    def test_prospective_current_and_its_working(self):
        shown = with_device()
        for text in (
            "Short circuit and place",
            "prospective short-circuit current",
            "short-circuit current, as stated",
        ):
            assert text in shown.faults.html

    def test_block_against_its_rating_and_feeder(self):
        data = small_data()
        data["blocks"][0]["rating_a"] = 40.0
        shown = page(blocks=data["blocks"])
        assert "■ F1, 50 A" in shown.blocks.html

    def test_supply_both_ways_once_a_load_is_chosen(self):
        shown = page()
        assert shown.supply.sheet.html == ""
        type_in(shown.supply.which, "load", "lamp")
        assert "As wired" in shown.supply.sheet.html
        assert "A pair of its own from X2" in shown.supply.sheet.html
        type_in(shown.supply.lengths.fields, "own_pair_out_m", "12 ft")
        assert shown.session.rig.loads[0].own_pair_out_m == pytest.approx(3.6576)
        assert "Lengths as stated for it" in shown.supply.sheet.html
        type_in(shown.supply.which, "load", "")
        assert shown.supply.sheet.html == ""

    def test_rules_without_read_sizes(self):
        shown = page(rule_set="eu_small_craft")
        shown.pick("F2")
        assert "not available from a read source" in shown.why.html
        assert shown.circuits.table.row("F2")["cells"]["window"].endswith("not available from a read source")

    def test_what_people_type_is_escaped(self):
        data = small_data()
        data["runs"][1]["name"] = data["loads"][0]["name"] = "<i>x</i>"
        shown = page(runs=data["runs"], loads=data["loads"])
        shown.pick("F2")
        shown.supply.choose("lamp")
        assert "<i>" not in shown.answer.html + shown.why.html + shown.supply.sheet.html + shown.lacking.html

    def test_an_empty_rig_still_has_a_page(self):
        shown = page(runs=[], devices=[], blocks=[])
        assert shown.picked == ""
        assert "no fuse or breaker" in shown.answer.html
