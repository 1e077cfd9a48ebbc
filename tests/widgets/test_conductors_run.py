"""One run on the page on conductors: what each input changes, and what it refuses."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from tests.widgets.conductor_pages import edit, page, run
from tests.widgets.hands import type_in


class TestOneRun:
    def test_details_of_another_run(self):
        shown = page()
        shown.runs.table._handle({"type": "pick", "id": "W1"})
        assert shown.picked == "W1"
        assert "What decides W1" in shown.decides.html
        assert shown.runs.table.row("W1")["picked"]
        assert not shown.runs.table.row("W2")["picked"]
        type_in(shown.which, "run", "W2")
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


def test_an_id_that_is_not_there_is_refused():
    with pytest.raises(InputError):
        page().pick("W99")
