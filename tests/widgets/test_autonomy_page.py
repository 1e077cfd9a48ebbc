"""The page on autonomy without a browser: what it says, what each input does, and what it refuses.

Invented figures, checked by hand: a lamp of 50 W for 4 h takes 200 Wh; 100 Ah at 12.8 V and 80 % give 1024 Wh.
"""

from __future__ import annotations

import json
from typing import Any

import pytest

from rigcalc.model import rig_from_data
from rigcalc.widgets.autonomy import AutonomyPage, autonomy_page
from rigcalc.widgets.figures import as_figure
from rigcalc.widgets.session import Session, open_rig
from tests.rigs import small_data
from tests.widgets.hands import press, type_in, viewed, words

FAN = {"id": "fan", "name": "Fan", "provenance": "label", "power_w": 78.0, "daily_use_h": 1.0}


def page(bank: dict[str, Any] | None = None, loads: list[dict[str, Any]] | None = None, **changes: Any) -> AutonomyPage:
    data = small_data()
    data["bank"] |= bank or {}
    data["bank"] = {key: value for key, value in data["bank"].items() if value is not None}
    data["loads"] += loads or []
    return viewed(AutonomyPage(Session(rig_from_data(data | changes))))


def edit(shown: AutonomyPage, key: str, text: str) -> None:
    form = next(form for form in shown.forms if key in form.boxes)
    type_in(form.fields, key, text)


def spec(shown: AutonomyPage, key: str) -> dict[str, Any]:
    return next(form for form in shown.forms if key in form.boxes).fields.spec(key)


def try_use(shown: AutonomyPage, text: str) -> None:
    type_in(shown.try_use, "use_wh", text)


class TestAnswer:
    def test_days_with_their_range_and_what_is_wanted(self):
        """1024 Wh over 200 Wh a day; the lamp is measured, so the range is narrow."""
        said = words(page().answer.html)
        assert "Without charging the bank lasts 5.12 days , " in said
        assert "in 8 of 10 cases; Lamp adds most to that range; 1 day is wanted and met." in said

    def test_what_is_missed_is_not_called_met(self):
        said = words(page({"wanted_autonomy_days": 5.2}).answer.html)
        assert "5.2 days are wanted." in said
        assert "met" not in said

    def test_without_loads_it_says_what_to_do(self):
        data, shown = small_data(), page()
        bare = {"loads": [], "runs": data["runs"][:1], "devices": data["devices"][:1]}
        shown.session.replace(rig_from_data(data | bare))
        assert "Nothing is drawn from the bank yet" in words(shown.answer.html)
        assert shown.by_use.figure == shown.by_temperature.figure == "{}"

    def test_the_strict_product_and_the_nominal_division_stand_beside_it_by_name(self):
        """100 Ah · 12.8 V = 1280 Wh: nominal 6.4 d; depth 0.8 times ageing 0.8: 4.1 d."""
        said = words(page().lasting.html)
        assert "The answer depth of discharge or ageing, whichever allows less 5.12 d" in said
        assert "Aged to 80 % the strict product: depth of discharge times ageing 4.10 d" in said
        assert "Nominal whole capacity, no losses: arithmetic, never the answer 6.40 d" in said


class TestBank:
    def test_from_the_rating_to_what_may_be_used(self):
        said = words(page().content.html)
        assert "Rated 100 Ah 1280 Wh" in said
        assert "May be used, 80 % 1024 Wh" in said
        assert "no rates around this current" in said

    def test_a_temperature_outside_the_table_is_said(self):
        said = words(page({"temperature_c": -30.0}).content.html)
        assert "At -30 °C ▲ outside the table 44 %" in said
        assert "its last one stands in and is too much here" in said

    def test_the_bank_needed_and_the_nearest_of_these_units(self):
        """8 days of 200 Wh over 0.8 are 2000 Wh, 156 Ah: two strings of 100 Ah."""
        shown = page({"wanted_autonomy_days": 8.0})
        said = words(shown.needed.html)
        assert "Needed 156 Ah 2000 Wh" in said
        assert "Nearest of these units 2 strings, 2 units of 100 Ah 200 Ah 2560 Wh" in said
        press(shown.needed, "strings", "2")
        assert shown.session.rig.bank.parallel == 2
        assert "Use" not in shown.needed.html

    def test_days_wanted_not_stated(self):
        assert "not stated" in page({"wanted_autonomy_days": None}).needed.html

    def test_more_strings_than_a_bank_may_have_are_not_offered(self):
        shown = page({"wanted_autonomy_days": 365.0})
        assert "larger units are needed" in shown.needed.html
        assert "<button" not in shown.needed.html

    def test_currents_against_limits(self):
        said = words(page().currents.html)
        assert "All that may run at once 4.17 A 100 A" in said  # 50 W / 12 V
        assert "not stated" in said

    def test_a_current_past_its_limit_is_marked_in_more_than_colour(self):
        assert "■ 4.17" in page({"unit_discharge_max_a": 4.0}).currents.html


class TestCurves:
    def test_plotly_takes_them_and_the_rig_stands_on_them(self):
        shown = page()
        for plot in (shown.by_use, shown.by_temperature):
            as_figure(json.loads(plot.figure))
            assert "5.12" in plot.alt.replace("\u00a0", " ")
            assert plot.table["rows"]

    def test_half_the_use_lasts_twice_as_long(self):
        rows = {float(use): float(lasts) for use, lasts in page().by_use.table["rows"]}
        first = min(rows)
        assert all(lasts * use == pytest.approx(rows[first] * first, rel=0.05) for use, lasts in rows.items())

    def test_fahrenheit_where_people_read_it(self):
        shown = page(units="us")
        assert "at 77 °F" in shown.by_temperature.alt
        assert json.loads(shown.by_temperature.figure)["layout"]["xaxis"]["title"]["text"].endswith("°F")


class TestWhatIf:
    @pytest.mark.parametrize(("text", "days"), [("400", "2.56 d"), ("0,4 kWh", "2.56 d"), ("1024 Wh", "1.00 d")])
    def test_a_use_is_tried_and_not_saved(self, text, days):
        shown = page()
        before = shown.session.rig
        try_use(shown, text)
        assert f"only tried, not saved {days}" in words(shown.lasting.html)
        assert '"what if"' in shown.by_use.figure
        assert shown.session.rig is before
        assert "5.12 days" in words(shown.answer.html)

    def test_empty_tries_nothing(self):
        shown = page()
        try_use(shown, "400")
        try_use(shown, "")
        assert "only tried" not in shown.lasting.html
        assert shown.try_use.spec("use_wh")["slider"]["value"] == 200.0

    @pytest.mark.parametrize("text", ["0", "much", "-3 Wh", "4 A"])
    def test_what_cannot_be_tried_is_said_under_its_box(self, text):
        shown = page()
        try_use(shown, text)
        assert shown.try_use.spec("use_wh")["error"].startswith("Energy a day is ")
        assert shown.try_use.text("use_wh") == text


class TestInputs:
    @pytest.mark.parametrize(
        ("key", "text", "field", "value"),
        [
            ("temperature_c", "41 F", "temperature_c", 5.0),
            ("depth_of_discharge", "50 %", "depth_of_discharge", 0.5),
            ("end_of_life_fraction", "70", "end_of_life_fraction", 0.7),
            ("wanted_autonomy_days", "2,5 days", "wanted_autonomy_days", 2.5),
            ("wiring_efficiency", "97 %", "wiring_efficiency", 0.97),
            ("unit_capacity_ah", "120 Ah", "unit_capacity_ah", 120.0),
            ("rated_h", "10 h", "rated_h", 10.0),
            ("parallel", "2", "parallel", 2),
            ("lowest_working_v", "11,8 V", "lowest_working_v", 11.8),
            ("highest_charge_v", "14.2", "highest_charge_v", 14.2),
            ("unit_peak_a", "0.2 kA", "unit_peak_a", 200.0),
            ("unit_peak_s", "300 ms", "unit_peak_s", 0.3),
            ("largest_share", "60 %", "largest_share", 0.6),
            ("unit_short_circuit_a", "700 A", "unit_short_circuit_a", 700.0),
            ("unit_resistance_ohm", "2 mohm", "unit_resistance_ohm", 0.002),
            ("cranking_a", "800 A", "cranking_a", 800.0),
        ],
    )
    def test_each_kind_as_typed(self, key, text, field, value):
        shown = page()
        edit(shown, key, text)
        assert getattr(shown.session.rig.bank, field) == pytest.approx(value)
        assert spec(shown, key)["error"] == ""

    def test_typed_text_is_kept_and_the_other_unit_shown(self):
        shown = page()
        edit(shown, "temperature_c", "41 F")
        assert spec(shown, "temperature_c")["text"] == "41 F"
        assert spec(shown, "temperature_c")["other"] == "5.00 °C"

    @pytest.mark.parametrize(
        ("key", "text"),
        [("temperature_c", "warm"), ("depth_of_discharge", "120 %"), ("series", "1.5"), ("lowest_working_v", "20 V"),
         ("temperature_c", ""), ("rated_h", "0 h")],
    )  # fmt: skip
    def test_an_error_stays_with_its_text_and_leaves_the_rig(self, key, text):
        shown = page()
        before = shown.session.rig
        edit(shown, key, text)
        assert shown.session.rig is before
        assert spec(shown, key)["error"]
        assert spec(shown, key)["text"] == text

    def test_another_chemistry_sets_its_cells_in_sight(self):
        shown = page()
        edit(shown, "chemistry", "agm")
        assert shown.session.rig.bank.chemistry == "agm"
        assert spec(shown, "cells_per_unit")["text"] == "6"
        assert shown.session.rig.bank.nominal_v == 12.0

    def test_cells_and_units_in_a_string_wait_for_each_other(self):
        shown = page()
        edit(shown, "cells_per_unit", "1")
        assert spec(shown, "cells_per_unit")["error"]
        assert shown.session.rig.bank.cells_per_unit == 4
        edit(shown, "series", "4")
        assert (shown.session.rig.bank.cells_per_unit, shown.session.rig.bank.series) == (1, 4)
        assert spec(shown, "cells_per_unit")["error"] == ""


class TestTogether:
    def tick(self, shown: AutonomyPage, load_id: str, ticked: bool = True) -> None:
        type_in(shown.together, load_id, ticked)

    def test_hours_of_the_chosen_loads_alone(self):
        """1024 Wh over 50 W are 20.5 h; with 78 W more, 8 h."""
        shown = page(loads=[FAN])
        assert "Tick the loads" in shown.runtime.html
        self.tick(shown, "lamp")
        assert "this load alone for 20.5 h" in words(shown.runtime.html)
        self.tick(shown, "fan")
        assert "these 2 loads together for 8 h" in words(shown.runtime.html)
        self.tick(shown, "lamp", False)
        assert "for 13.1 h" in words(shown.runtime.html)

    def test_a_load_without_power_is_asked_for(self):
        shown = page(loads=[{"id": "x", "name": "Unknown", "daily_use_h": 1.0}])
        self.tick(shown, "x")
        assert "Power of Unknown is empty" in shown.runtime.html

    def test_a_load_that_is_gone_is_not_chosen_any_more(self):
        shown = page(loads=[FAN])
        self.tick(shown, "fan")
        shown.session.replace(page().session.rig)
        assert shown.running == []
        assert [one["key"] for one in shown.together.specs] == ["lamp"]


def test_each_deciding_number_has_its_working_and_memory_is_marked():
    html = page().workings.html
    for what in ("usable energy", "autonomy", "bank for the wanted days", "running current"):
        assert f"<summary>Working: {what}</summary>" in html
    assert '<span class="rig-tag rig-warn">▲ memory</span>' in html


def test_another_rig_is_taken_over_whole():
    shown = page()
    shown.session.replace(open_rig().rig)
    assert spec(shown, "parallel")["text"] == "3"
    assert len(shown.together.specs) == len(shown.session.rig.loads)


def test_the_view_is_one_widget():
    assert autonomy_page(Session(page().session.rig)).children
