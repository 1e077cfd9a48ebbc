"""The page on daily energy without a browser: what it says, what each input does, and what it refuses.

Invented figures; energies are checked by hand: 9 W for 10 h is 90 Wh, 50 W for 4 h is 200 Wh.
"""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from rigcalc.model import rig_from_data
from rigcalc.widgets.energy import EnergyPage, energy_page
from rigcalc.widgets.energy_ways import NOT_HELD
from rigcalc.widgets.figures import as_figure
from rigcalc.widgets.session import Session, open_rig
from tests.rigs import small_data
from tests.widgets.hands import type_in, viewed, words

INVERTER = {
    "id": "inv", "name": "Sine inverter", "rated_w": 1000.0, "idle_w": 9.0, "on_h": 10.0,
    "efficiency_10": 0.85, "efficiency_50": 0.93, "efficiency_100": 0.91,
}  # fmt: skip
SINGLE = {"id": "inv", "name": "Sine inverter", "rated_w": 1000.0, "idle_w": 9.0, "on_h": 10.0, "efficiency": 0.9}
CONVERTER = {"id": "dc5", "name": "USB supply", "output_v": 5.0, "efficiency": 0.9}
FRIDGE = {
    "id": "fridge", "name": "Fridge", "provenance": "measured", "power_w": 45.0, "cycles": True, "duty_cycle": 0.35,
    "duty_ambient_c": 25.0, "daily_use_h": 24.0, "cold_box": {"inside_c": 4.0},
}  # fmt: skip
KETTLE = {
    "id": "kettle", "name": "Kettle <b>", "provenance": "guess", "power_w": 900.0, "daily_use_h": 0.5,
    "feed": "inverter", "fed_by": "inv",
}  # fmt: skip


def page(*loads: dict[str, Any], **changes: Any) -> EnergyPage:
    data = small_data()
    return viewed(EnergyPage(Session(rig_from_data(data | {"loads": data["loads"] + list(loads)} | changes))))


def full(**changes: Any) -> EnergyPage:
    return page(FRIDGE, KETTLE, **{"inverters": [INVERTER], "converters": [CONVERTER]} | changes)


def edit(form: Any, key: str, text: str | bool) -> None:
    type_in(form.fields, key, text)


def inverter(shown: EnergyPage) -> Any:
    return shown.inverters.forms["inv"]


class TestAnswer:
    def test_idle_draw_is_said_beside_the_day(self):
        assert re.search(r"A day takes \S+ Wh from the battery; 90 Wh of it the inverter eats by being on\.",
                         words(full().answer.html))  # fmt: skip

    def test_without_an_inverter_the_largest_load_is_said(self):
        assert "takes 200 Wh from the battery; the most, 200 Wh, goes to Lamp." in words(page().answer.html)

    def test_the_largest_type_of_day_is_named(self):
        lamp = {"id": "late", "name": "Late lamp", "provenance": "guess", "power_w": 10.0, "daily_use_h": 1.0,
                "day_use": [{"day_type": "b", "daily_use_h": 5.0}]}  # fmt: skip
        shown = page(lamp, day_types=[{"id": "a", "name": "Rest"}, {"id": "b", "name": "Market"}])
        assert "The largest day, Market, takes 250 Wh" in words(shown.answer.html)
        assert "Late lamp 10 50" in words(shown.rest.html)

    def test_a_load_that_says_too_little_is_said_and_counts_nothing(self):
        shown = page({"id": "fan", "name": "Fan", "power_w": 20.0})
        assert "takes 200 Wh" in words(shown.answer.html)
        assert "1 load says too little to be counted" in words(shown.answer.html)
        assert "▲ not stated: hours of use; counts as 0 Wh" in words(shown.loads.html)

    def test_a_rig_without_loads_says_what_to_do(self):
        data = small_data()
        shown = page(loads=[], runs=data["runs"][:1], devices=data["devices"][:1])
        assert "No loads yet" in shown.compare.html
        assert shown.ways.figure == "{}"


class TestDay:
    def test_plot_table_and_sentence_say_the_same(self):
        shown = full()
        as_figure(json.loads(shown.bars.figure))
        assert shown.bars.table["rows"][0][0] in shown.bars.alt
        assert [row[0] for row in shown.bars.table["rows"]][-1] == "Sine inverter, being on"

    def test_names_are_escaped(self):
        shown = full()
        assert "Kettle <b>" not in shown.loads.html + shown.bars.figure + shown.ways.figure
        assert "Kettle &lt;b&gt;" in shown.loads.html

    def test_the_row_worth_measuring_first_is_marked(self):
        shown = full()
        assert "Kettle &lt;b&gt;" in shown.loads.html.split("● measure this first")[0].rsplit("<tr", 1)[1]
        assert "of the day rests on guesses. Measure Kettle &lt;b&gt; first" in words(shown.loads.html)

    def test_idle_draw_not_stated_is_said_and_counts_nothing(self):
        shown = full(inverters=[{key: value for key, value in SINGLE.items() if key != "idle_w"}])
        assert "Sine inverter, being on ▲ not stated: idle draw; counts as 0 Wh" in words(shown.loads.html)
        assert "L07" in shown.findings.html

    def test_each_way_has_its_share(self):
        assert "inverter, being on 90 Wh" in words(full().rest.html)
        assert "direct 578 Wh" in words(full(ambient_usual_c=25.0).rest.html)  # 200 Wh + 45 W · 24 h · 0.35


class TestWays:
    def test_side_by_side_with_what_it_is_now(self):
        shown = full(inverters=[INVERTER])
        assert "Direct ● as now 200 Wh none" in words(shown.compare.html)
        assert "Converter 222 Wh 22.2 Wh, 11 %" in words(shown.compare.html)  # 200 Wh / 0.9

    def test_picking_a_load(self):
        shown = full()
        type_in(shown.pick, "load", "kettle")
        assert "Kettle &lt;b&gt; by each way of feeding it" in shown.compare.html
        assert 'class="rig-pick"' in shown.loads.html.split("Kettle")[0].rsplit("<tr", 1)[1]
        assert "Inverter, already on ● as now" in words(shown.compare.html)

    def test_ways_the_rig_does_not_have_say_why_and_what_to_add(self):
        shown = page()
        said = words(shown.compare.html)
        assert "Converter The rig has no converter. Add one at the left." in said
        assert "The rig has no inverter. Add one at the left." in said
        with_inverter = words(page(inverters=[INVERTER]).compare.html)
        assert "states the efficiency of an adapter. State one in the load inventory." in with_inverter

    def test_idle_charged_to_the_load_alone(self):
        """50 W at 4 h and 9 W of idle for these 4 h: 36 Wh."""
        shown = full()
        rows = {row[0]: row[1:] for row in shown.ways.table["rows"]}
        assert rows["Inverter, idle charged to it"][1] == "36"
        assert rows["Inverter, already on"][1] == "0"

    def test_converters_are_told_apart_by_name(self):
        shown = full(converters=[CONVERTER, CONVERTER | {"id": "dc24", "name": "Supply of 24 V"}])
        assert "USB supply 222 Wh" in words(shown.compare.html)
        assert "Supply of 24 V 222 Wh" in words(shown.compare.html)

    def test_working_of_the_chosen_load_and_of_each_way(self):
        assert "50 W · 4 h" in full().working.html
        assert "200 Wh / 0.9" in full().working.html


class TestColdBoxes:
    def test_the_same_box_at_two_set_points_in_three_rooms(self):
        said = words(full().cold.html)
        for place in ("Fridge, 4 °C room 16 °C", "Fridge, 4 °C room 25 °C", "Freezer, -18 °C room 32 °C"):
            assert place in said

    def test_at_the_cap_it_is_said_not_clamped_in_silence(self):
        assert "▲ all the time" in words(full().cold.html)
        assert NOT_HELD in full().cold.html

    def test_a_box_whose_air_is_not_stated_says_so(self):
        box = {key: value for key, value in FRIDGE.items() if key != "duty_ambient_c"}
        assert "▲ Not known: state its energy and the air temperature" in words(page(box).cold.html)

    def test_us_units(self):
        shown = full(units="us")
        assert "Freezer, -0.4 °F room 89.6 °F" in words(shown.cold.html)
        assert shown.air.fields.text("ambient_usual_c") == "68 °F"


class TestInputs:
    @pytest.mark.parametrize(("text", "idle_wh"), [("30", 300), ("0.03 kW", 300), ("9,5 W", 95), ("400 W", 4000)])
    def test_idle_draw_as_typed_even_past_the_slider(self, text, idle_wh):
        shown = full()
        edit(inverter(shown), "idle_w", text)
        assert f"{idle_wh} Wh of it the inverter eats" in words(shown.answer.html)
        assert inverter(shown).fields.text("idle_w") == (text if " " in text else f"{text} W")

    def test_an_error_stays_with_its_text_and_leaves_the_rig(self):
        shown = full()
        edit(inverter(shown), "on_h", "26 h")
        assert "Hours on a day is '26 h'; expected" in inverter(shown).fields.spec("on_h")["error"]
        assert inverter(shown).fields.text("on_h") == "26 h"
        assert shown.session.rig.inverters[0].on_h == 10.0
        edit(inverter(shown), "on_h", "6 h")
        assert inverter(shown).fields.spec("on_h")["error"] == ""
        assert shown.session.rig.inverters[0].on_h == 6.0

    def test_the_usual_air_moves_the_cold_box(self):
        shown = full()
        before = shown.session.study.energy.rows[1].battery_wh.likely
        edit(shown.air, "ambient_usual_c", "86 F")
        assert shown.session.rig.ambient_usual_c == pytest.approx(30.0)
        assert shown.air.fields.text("ambient_usual_c") == "86 F"
        assert shown.session.study.energy.rows[1].battery_wh.likely > before

    def test_one_efficiency_takes_over_once_typed(self):
        shown = full()
        edit(inverter(shown), "efficiencies", "one")
        assert shown.session.rig.inverters[0].efficiency_10 == 0.85
        assert "holds until" in inverter(shown).fields.spec("efficiencies")["help"]
        edit(inverter(shown), "efficiency", "0.9")
        assert "can mean both" in inverter(shown).fields.spec("efficiency")["error"]
        edit(inverter(shown), "efficiency", "90 %")
        assert shown.session.rig.inverters[0].efficiency == 0.9
        assert shown.session.rig.inverters[0].efficiency_10 is None

    def test_three_efficiencies_wait_for_each_other_and_must_make_a_curve(self):
        shown = full(inverters=[SINGLE])
        form = inverter(shown)
        edit(form, "efficiencies", "three")
        for at, text in (("10", "99 %"), ("50", "90 %"), ("100", "95 %")):
            assert shown.session.rig.inverters[0].efficiency == 0.9
            edit(form, f"efficiency_{at}", text)
        assert "check the three efficiencies" in form.fields.spec("efficiency_100")["error"]
        assert shown.session.rig.inverters[0].efficiency == 0.9
        assert form.fields.text("efficiency_10") == "99 %"
        edit(form, "efficiency_10", "85 %")
        assert shown.session.rig.inverters[0].efficiency_10 == 0.85

    def test_undo_brings_the_form_of_the_efficiencies_back(self):
        shown = full()
        edit(inverter(shown), "efficiencies", "one")
        edit(inverter(shown), "efficiency", "90 %")
        shown.session.undo()
        assert inverter(shown).fields.text("efficiencies") == "three"
        assert inverter(shown).fields.text("efficiency_50") == "93 %"


def test_another_rig_is_taken_over_whole():
    shown = full()
    shown.session.replace(open_rig().rig)
    assert shown.chosen == shown.session.rig.loads[0].id
    assert list(shown.converters.forms) == [one.id for one in shown.session.rig.converters]
    assert "Market day" in words(shown.answer.html)


def test_a_slider_that_changes_nothing_sends_nothing():
    shown = full()
    sent: list[str] = []
    shown.cold.observe(lambda change: sent.append(change["name"]), names="html")
    edit(inverter(shown), "idle_w", "12 W")
    assert sent == []


def test_the_view_is_one_widget():
    assert energy_page(Session(full().session.rig)).children
