"""Cells of the load inventory: what is typed in them, and what they show. Invented figures."""

from __future__ import annotations

import pytest

from rigcalc.errors import InputError
from rigcalc.model.edit import change, changed
from rigcalc.widgets.load_cells import (
    LABELS,
    beside,
    edited,
    fed_another_way,
    feed_choices,
    power,
    reading,
    said,
    texts,
    use,
)
from tests.rigs import small, small_data

INVERTER = {"id": "V1", "name": "Inverter", "rated_w": 300.0, "on_h": 5.0, "efficiency": 0.9}
CONVERTER = {"id": "K1", "name": "To 24 V", "output_v": 24.0, "efficiency": 0.92}


def rig(**load: object):
    made = small(inverters=[INVERTER], converters=[CONVERTER], runs=small_data()["runs"][:1], devices=[])
    return changed(made, change("loads", "lamp", **load)) if load else made


def set_cell(at, key: str, text: str):
    """The load after one edited cell."""
    return changed(at, change("loads", "lamp", **edited(at, at.loads[0], key, text))).loads[0]


@pytest.mark.parametrize(
    ("text", "power_w", "current_a", "voltage_v", "shown"),
    [
        ("45 W", 45.0, None, None, "45 W"),
        ("45", 45.0, None, None, "45 W"),
        ("0,045 kW", pytest.approx(45.0), None, None, "0,045 kW"),
        ("3.5 A at 12 V", None, 3.5, 12.0, "3.5 A at 12 V"),
        ("3,5A @ 12.8V", None, 3.5, 12.8, "3,5A at 12.8V"),
        ("800 mA AT 12 V", None, pytest.approx(0.8), 12.0, "800 mA at 12 V"),
        ("", None, None, None, ""),
    ],
)
def test_power_is_typed_as_such_or_as_a_current_at_its_voltage(text, power_w, current_a, voltage_v, shown):
    load = set_cell(rig(), "power", text)
    assert (load.power_w, load.current_a, load.voltage_v) == (power_w, current_a, voltage_v)
    assert texts(load, "metric")["power"] == shown


@pytest.mark.parametrize(
    ("text", "hours_h", "events", "minutes", "shown"),
    [
        ("5 h", 5.0, None, None, "5 h"),
        ("20 min", pytest.approx(1 / 3), None, None, "20 min"),
        ("1 h 20 min", pytest.approx(4 / 3), None, None, "1 h 20 min"),
        ("6 × 3 min", None, 6.0, 3.0, "6 × 3 min"),
        ("6x40 s", None, 6.0, pytest.approx(2 / 3), "6 × 40 s"),
        ("1,5 * 0.25 h", None, 1.5, 15.0, "1.5 × 0.25 h"),
        ("", None, None, None, ""),
    ],
)
def test_use_is_typed_as_a_time_or_as_events(text, hours_h, events, minutes, shown):
    load = set_cell(rig(), "use", text)
    assert (load.daily_use_h, load.events_per_day, load.event_min) == (hours_h, events, minutes)
    assert texts(load, "metric")["use"] == shown


@pytest.mark.parametrize(
    ("parse", "text", "allowed"),
    [
        (power, "3.5 A", "3.5 A at 12 V"),
        (power, "45 Wh", "45 W, or a current"),
        (power, "at 12 V", "3.5 A at 12 V"),
        (power, "3.5 A at", "3.5 A at 12 V"),
        (power, "1,500 W", "can mean both"),
        (use, "6 × 3", "a unit behind the second number"),
        (use, "often", "6 × 3 min"),
        (use, "six x 3 min", "6 × 3 min"),
        (use, "6 x", "6 × 3 min"),
        (reading, "0.98", "0.98 kWh"),
        (reading, "42 Ah", "42 Ah at 12.8 V"),
        (reading, "42 kg at 12 V", "42 Ah at 12.8 V"),
    ],
)
def test_what_cannot_be_read_says_what_can(parse, text, allowed):
    with pytest.raises(InputError) as caught:
        parse(text, "metric")
    assert caught.value.given == text
    assert allowed in caught.value.allowed


def test_a_reading_is_an_energy_or_a_charge_at_its_mean_voltage():
    assert reading("0.98 kWh", "metric") == {"energy_wh": 980.0, "typed": {"energy_wh": "0.98 kWh"}}
    assert reading("42 Ah at 12.8 V", "metric") == {"charge_ah": 42.0, "voltage_v": 12.8}


@pytest.mark.parametrize(
    ("key", "text", "field", "value"),
    [
        ("name", " Rear  lamp ", "name", "Rear lamp"),
        ("quantity", "3", "quantity", 3),
        ("duty", "35 %", "duty_cycle", pytest.approx(0.35)),
        ("duty", "", "duty_cycle", None),
        ("standby", "300 mW", "standby_w", pytest.approx(0.3)),
        ("provenance", "Guess", "provenance", "guess"),
        ("provenance", "", "provenance", None),
        ("feed", "to 24 v", "fed_by", "K1"),
        ("feed", "inverter:V1", "feed", "inverter"),
        ("feed", "direct", "fed_by", None),
    ],
)
def test_the_other_cells(key, text, field, value):
    assert getattr(set_cell(rig(), key, text), field) == value


@pytest.mark.parametrize(
    ("key", "text", "message"),
    [
        ("provenance", "estimate", "Known by is 'estimate'; expected not stated or measured or label or guess."),
        ("feed", "generator", "Fed by is 'generator'; expected direct or To 24 V or Inverter or"),
        ("feed", "inverter_adapter:V1", "Adapter efficiency is empty; expected a share, typed in the details"),
        ("quantity", "0", "How many is '0'; expected 1 or more."),
        ("duty", "0.35", "Runs for is '0.35'; expected 35 % or 0.35 %; without the sign it can mean both."),
        ("name", "", "Load is empty; expected a value; the rig cannot be without it."),
        ("power", "4,2 A", "Power is '4,2 A'; expected its voltage too: 4,2 A at 12 V."),
        ("power", "-5 W", "Power is '-5 W'; expected 0 W or more."),
        ("use", "0 h 5", "Use a day is '0 h 5'; expected 5 h, 20 min or 6 × 3 min."),
    ],
)
def test_a_cell_is_refused_in_the_words_of_its_column(key, text, message):
    at = rig()
    with pytest.raises(InputError) as caught:
        set_cell(at, key, text)
    assert str(said(caught.value, key, text)).startswith(message)


def test_a_word_on_something_else_stays():
    other = InputError("Bank voltage", "12 V", "24 V")
    assert said(other, "power", "45 W") is other
    assert said(other, "provenance", "x") is other


def test_quiet_words_beside_the_cells():
    days = {"camp": "Camp day", "drive": "Drive"}
    by_amperes = rig(power_w=None, current_a=2.3, voltage_v=12.0).loads[0]
    assert beside(by_amperes, "metric", days) == {"power": "27.6 W", "use": ""}
    events = rig(daily_use_h=None, events_per_day=6.0, event_min=3.0).loads[0]
    assert beside(events, "metric", days)["use"] == "0.300 h"
    read = rig(reading={"energy_wh": 90.0, "over_h": 24.0, "at": "at_battery"}).loads[0]
    assert beside(read, "metric", days)["use"] == "day as read"
    uses = [{"day_type": "camp", "daily_use_h": 5.0}, {"day_type": "drive", "daily_use_h": 0.5}]
    typed = changed(
        small(day_types=[{"id": "camp", "name": "Camp day"}, {"id": "drive", "name": "Drive"}]),
        change("loads", "lamp", day_use=uses),
    )
    assert beside(typed.loads[0], "metric", days)["use"] == "Camp\u00a0day\u00a05\u00a0h, Drive\u00a00.5\u00a0h"


def test_ways_of_feeding_are_those_the_rig_has():
    assert [value for value, _ in feed_choices(small())] == ["direct"]
    assert [value for value, _ in feed_choices(rig())] == [
        "direct", "converter:K1", "inverter:V1", "inverter_adapter:V1",
    ]  # fmt: skip
    assert set(LABELS) == {"name", "quantity", "power", "use", "duty", "standby", "provenance", "feed", "day"}


def test_an_adapters_efficiency_goes_when_the_load_is_fed_without_one():
    behind = rig(feed="inverter_adapter", fed_by="V1", adapter_efficiency=0.85)
    assert texts(behind.loads[0], "metric")["feed"] == "inverter_adapter:V1"
    kept = set_cell(behind, "feed", "inverter_adapter:V1")
    assert kept.adapter_efficiency == 0.85
    assert set_cell(behind, "feed", "inverter:V1").adapter_efficiency is None


def test_a_run_from_the_wrong_side_goes_with_the_old_way_of_feeding():
    wired = small(inverters=[INVERTER])
    fields = edited(wired, wired.loads[0], "feed", "inverter:V1")
    out = fed_another_way(wired, "lamp", fields)
    after = changed(wired, *out.changes)
    assert (out.also, after.loads[0].feed) == (("run W2", "device F2"), "inverter")
    assert [run.id for run in after.runs] == ["W1"]
    direct = fed_another_way(after, "lamp", edited(after, after.loads[0], "feed", "direct"))
    assert direct.also == ()


def test_a_way_of_feeding_that_is_wrong_for_another_reason_is_refused():
    with pytest.raises(InputError, match="fed_by of load lamp is 'V9'"):
        fed_another_way(rig(), "lamp", {"feed": "inverter", "fed_by": "V9"})
