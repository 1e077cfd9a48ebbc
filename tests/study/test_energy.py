"""The day of a rig against published figures and worked exercises, and what must hold for every rig."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.formulas.energy import charge_ah
from rigcalc.study.energy import IDLE
from tests.study.load_rigs import (
    CURVE,
    FED,
    converter,
    energy_of,
    inverter,
    load,
    loads,
    numbers,
    partly_stated,
    row_of,
    unstated,
)

ON_INVERTER = {"feed": "inverter", "fed_by": "inv"}
ON_ADAPTER = {"feed": "inverter_adapter", "fed_by": "inv", "adapter_efficiency": 0.85}
ON_CONVERTER = {"feed": "converter", "fed_by": "dc"}


class TestPublished:
    def test_fan_and_light(self):
        # "How to calculate the batteries needed", web page: fan 20 W x 12 h, light 16 W x 5 h; printed 320 Wh, 26.7 Ah.
        day = energy_of(load("fan", power_w=20.0, daily_use_h=12.0), load("light", power_w=16.0))
        assert day.daily_energy_wh == pytest.approx(320, abs=0.5)
        assert charge_ah(day.daily_energy_wh, 12) == pytest.approx(26.7, abs=0.05)

    def test_one_lamp_all_day_and_everything_for_an_hour(self):
        # Florida Solar Design Group, "Power versus energy": 5 lamps of 100 W, pump 1500 W; printed 2000 Wh both ways.
        assert energy_of(load(daily_use_h=20.0)).daily_energy_wh == pytest.approx(2000, abs=0.5)
        lamps, pump = load(quantity=5, daily_use_h=1.0), load("pump", power_w=1500.0, daily_use_h=1.0)
        assert energy_of(lamps, pump).daily_energy_wh == pytest.approx(2000, abs=0.5)

    @pytest.mark.parametrize("at", ["wall_plug", "dc_at_appliance", "at_battery"])
    def test_plug_meter_over_an_odd_interval(self, at):
        # Published refrigerator log, measured: 0.98 kWh in 31.28 h, printed 0.752 kWh a day.
        reading = {"energy_wh": 980.0, "over_h": 31.28, "at": at}
        assert energy_of(unstated(reading=reading)).daily_energy_wh == pytest.approx(752, abs=0.5)

    def test_idle_draw_of_a_day(self):
        # Article on no-load draw: 10 W at 12 V for 24 h; printed 20 Ah.
        day = energy_of(inverters=[inverter(idle_w=10.0, on_h=24.0)])
        assert charge_ah(day.inverters[0].idle_wh, 12) == pytest.approx(20, abs=0.5)

    def test_median_cold_box_of_nine(self):
        # Chamber test of nine 12 V cold boxes, second-hand: median 2.3 A over 24 h at 12 V; 662.4 Wh is arithmetic.
        reading = {"charge_ah": 55.2, "voltage_v": 12.0, "over_h": 24.0, "at": "dc_at_appliance"}
        assert energy_of(unstated(reading=reading)).daily_energy_wh == pytest.approx(662.4, abs=0.05)


class TestArithmeticOfOursNoEvidence:
    def test_television_behind_a_converter(self):
        # Textbook case study, tropical health post: television 60 W behind a converter of 0.8, fan 20 W x 6 h.
        television = load("tv", power_w=60.0, daily_use_h=1.0, **ON_CONVERTER)
        day = energy_of(television, load("fan", power_w=20.0, daily_use_h=6.0), converters=[converter(efficiency=0.8)])
        assert row_of(day, "tv").battery_running_w == pytest.approx(75.0, abs=0.05)
        assert row_of(day, "fan").battery_wh.likely == pytest.approx(120, abs=0.5)

    def test_cycling_load_with_standby(self):
        box = load(power_w=45.0, daily_use_h=24.0, cycles=True, duty_cycle=0.35, standby_w=1.0)
        assert energy_of(box).daily_energy_wh == pytest.approx(394, abs=0.5)

    @pytest.mark.parametrize(("p", "efficiency"), [(0.02, 0.5443), (0.2, 0.9082), (1.0, 0.91)])
    def test_loss_curve_with_its_idle_draw(self, p, efficiency):
        # A load alone for as long as the inverter is on: the row and the idle row together are the curve's efficiency.
        alone = load(power_w=2000.0 * p, daily_use_h=5.0, **ON_INVERTER)
        day = energy_of(alone, inverters=[inverter(on_h=5.0)])
        assert row_of(day).appliance_wh.likely / day.daily_energy_wh == pytest.approx(efficiency, abs=0.00005)

    def test_laptop_by_inverter_and_by_adapter(self):
        # 60 W for 5 h: inverter with 12 W idle and 0.93 on the rest, 383 Wh; DC adapter of 0.93, 323 Wh.
        points = {f"efficiency_{at}": at / 100 / (at / 100 / 0.93 + 12 / 600) for at in (10, 50, 100)}
        laptop = load(power_w=60.0, **ON_INVERTER)
        by_inverter = energy_of(laptop, inverters=[inverter(rated_w=600.0, on_h=5.0, **points)])
        by_adapter = energy_of(load(power_w=60.0, **ON_CONVERTER), converters=[converter(efficiency=0.93)])
        assert by_inverter.daily_energy_wh == pytest.approx(383, abs=0.5)
        assert by_adapter.daily_energy_wh == pytest.approx(323, abs=0.5)

    def test_plug_meter_behind_an_inverter(self):
        # 0.42 kWh in 36 h through 0.88, at 12.8 V: 24.9 Ah a day.
        reading = {"energy_wh": 420.0, "over_h": 36.0, "at": "wall_plug"}
        day = energy_of(unstated(reading=reading, **ON_INVERTER), inverters=[inverter(efficiency=0.88)])
        assert charge_ah(day.daily_energy_wh, 12.8) == pytest.approx(24.9, abs=0.05)


class TestReadings:
    """Losses are applied from the point of measurement to the battery, and no further back."""

    def day(self, at, **fields):
        return energy_of(
            unstated(reading={"energy_wh": 170.0, "over_h": 24.0, "at": at}, **fields),
            inverters=[inverter(efficiency=0.8)],
            converters=[converter(efficiency=0.85)],
        )

    def test_a_plug_reading_holds_the_adapter_already(self):
        row = row_of(self.day("wall_plug", **ON_ADAPTER))
        assert row.battery_wh.likely == pytest.approx(170 / 0.8)
        assert row.appliance_wh.likely == pytest.approx(170 * 0.85)

    def test_a_reading_behind_the_adapter_does_not(self):
        row = row_of(self.day("dc_at_appliance", **ON_ADAPTER))
        assert row.battery_wh.likely == pytest.approx(170 / 0.8 / 0.85)

    @pytest.mark.parametrize("fields", [ON_ADAPTER, ON_INVERTER, ON_CONVERTER, {}])
    def test_a_reading_at_the_battery_gets_nothing_added(self, fields):
        assert row_of(self.day("at_battery", **fields)).battery_wh.likely == pytest.approx(170)

    def test_a_reading_at_the_battery_goes_back_through_the_curve(self):
        reading = {"energy_wh": 170.0, "over_h": 24.0, "at": "at_battery"}
        row = row_of(energy_of(unstated(reading=reading, power_w=200.0, **ON_INVERTER), inverters=[inverter()]))
        above_idle = (0.1 / CURVE["efficiency_10"] - 0.016682) / 0.1  # k0 of this curve, by hand
        assert row.appliance_wh.likely == pytest.approx(170 / above_idle, abs=0.005)
        assert row.battery_wh.likely == pytest.approx(170)

    @pytest.mark.parametrize(("fields", "expected"), [({}, 170), (ON_CONVERTER, 170 / 0.85)])
    def test_a_plug_reading_of_a_dc_load_counts_as_it_is_and_says_so(self, fields, expected):
        row = row_of(self.day("wall_plug", **fields))
        assert row.battery_wh.likely == pytest.approx(expected)
        assert any("adapter is inside" in note for note in row.notes)

    def test_a_short_reading_of_a_load_that_cycles_is_doubted(self):
        # Own simulation of a cycling load: one hour times 24 is off by -70 to +67 %.
        reading = {"energy_wh": 20.0, "over_h": 1.0, "at": "dc_at_appliance"}
        assert any(
            "less than a day" in note for note in row_of(energy_of(unstated(cycles=True, reading=reading))).notes
        )

    def test_a_reading_goes_before_power_times_hours(self):
        reading = {"energy_wh": 170.0, "over_h": 24.0, "at": "dc_at_appliance"}
        assert row_of(energy_of(load(reading=reading))).appliance_wh.likely == pytest.approx(170)


class TestNotStated:
    @pytest.mark.parametrize(
        ("fields", "missing"),
        [
            ({}, ("power", "hours of use")),
            ({"power_w": 40.0}, ("hours of use",)),
            ({"daily_use_h": 3.0}, ("power",)),
            ({"power_w": 40.0, "daily_use_h": 24.0, "cycles": True}, ("duty cycle",)),
        ],
    )
    def test_such_a_row_is_0_wh_and_named(self, fields, missing):
        row = row_of(energy_of(unstated(**fields)))
        assert row.missing == missing
        assert (row.battery_wh.low, row.battery_wh.likely, row.battery_wh.high) == (0, 0, 0)

    def test_an_unknown_source_counts_as_a_guess(self):
        study = energy_of(unstated(power_w=100.0, daily_use_h=5.0))
        guess = row_of(energy_of(load(provenance="guess")))
        assert row_of(study).battery_wh == guess.battery_wh
        assert study.guess_share == 1

    def test_25_hours_are_not_counted_and_say_so(self):
        row = row_of(energy_of(load(daily_use_h=25.0)))
        assert row.battery_wh.likely == 0
        assert any("more than a day has" in note for note in row.notes)

    def test_idle_draw_not_stated(self):
        one = energy_of(inverters=[inverter(efficiency=0.9)]).inverters[0]
        assert (one.idle_stated, one.idle_wh) == (False, 0)


class TestInverter:
    def test_one_efficiency_pays_idle_only_while_unloaded(self):
        ac = load(power_w=100.0, daily_use_h=4.0, **ON_INVERTER)
        study = energy_of(ac, inverters=[inverter(efficiency=0.8, idle_w=12.0, on_h=10.0)])
        assert study.inverters[0].idle_wh == pytest.approx(12 * 6)
        assert row_of(study).battery_wh.likely == pytest.approx(500)

    def test_typed_idle_draw_replaces_that_of_the_curve(self):
        ac, by_curve = load(**ON_INVERTER), energy_of(load(**ON_INVERTER), **FED)
        typed = energy_of(ac, **FED | {"inverters": [inverter(idle_w=40.0)]})
        assert typed.inverters[0].idle_wh == pytest.approx(400)
        assert row_of(typed).battery_wh.likely == pytest.approx(row_of(by_curve).battery_wh.likely)

    def test_a_load_longer_than_its_inverter_is_named_and_counted(self):
        study = energy_of(load(**ON_INVERTER), inverters=[inverter(on_h=3.0)])
        assert "runs 5 h but its inverter is on 3 h" in row_of(study).notes
        assert row_of(study).battery_wh.likely > 500
        assert study.inverters[0].idle_wh == pytest.approx(3 * 33.36, rel=0.001)

    def test_loads_beside_each_other_share_the_square_loss(self):
        one, two = load("one", **ON_INVERTER), load("two", **ON_INVERTER)
        alone, both = energy_of(one, **FED), energy_of(one, two, **FED)
        assert row_of(both).battery_wh.likely > row_of(alone).battery_wh.likely
        assert both.inverters[0].idle_wh == alone.inverters[0].idle_wh


class TestDayTypes:
    top = {"day_types": [{"id": "camp", "name": "Camp"}, {"id": "drive", "name": "Drive"}]} | FED

    def test_the_design_day_is_the_largest_at_the_battery(self):
        lamp = load("lamp", day_use=[{"day_type": "drive", "daily_use_h": 1.0}])
        kettle = load("kettle", power_w=90.0, day_use=[{"day_type": "camp", "daily_use_h": 1.0}], **ON_INVERTER)
        study = energy_of(lamp, kettle, **self.top)
        idle = study.inverters[0].idle_wh
        assert study.day_type == "camp"
        assert study.by_day_type["camp"] == study.daily_energy_wh
        assert study.by_day_type["drive"] - idle == pytest.approx(sum(row.by_day_type["drive"] for row in study.rows))
        assert row_of(study, "lamp").by_day_type == pytest.approx({"camp": 500, "drive": 100})

    def test_a_reading_follows_the_hours_of_the_day(self):
        reading = {"energy_wh": 200.0, "over_h": 24.0, "at": "dc_at_appliance"}
        study = energy_of(load(reading=reading, day_use=[{"day_type": "camp", "daily_use_h": 10.0}]), **self.top)
        assert row_of(study).by_day_type == pytest.approx({"camp": 400, "drive": 200})

    def test_a_reading_without_hours_stays_and_says_so(self):
        reading = {"energy_wh": 200.0, "over_h": 24.0, "at": "dc_at_appliance"}
        one = unstated(reading=reading, day_use=[{"day_type": "camp", "daily_use_h": 10.0}])
        study = energy_of(one, day_types=self.top["day_types"])
        assert study.by_day_type == pytest.approx({"camp": 200, "drive": 200})
        assert any("not used" in note for note in row_of(study).notes)


class TestRange:
    def test_by_how_it_is_known(self):
        # The table's own starting figures: common practice, no source.
        spread = row_of(energy_of(load(provenance="label"))).appliance_wh
        assert (spread.low, spread.high) == pytest.approx((375, 625))

    def test_as_stated(self):
        spread = row_of(energy_of(load(daily_low_wh=450.0, daily_high_wh=600.0))).appliance_wh
        assert (spread.low, spread.likely, spread.high) == pytest.approx((450, 500, 600))

    def test_a_stated_range_that_misses_the_day_is_not_used_and_says_so(self):
        row = row_of(energy_of(load(daily_low_wh=600.0)))
        assert row.appliance_wh.low == pytest.approx(450)
        assert any("is not used" in note for note in row.notes)

    def test_what_to_measure_first(self):
        study = energy_of(
            load("known", power_w=5000.0), load("guessed", provenance="guess"), load("small", power_w=1.0)
        )
        assert (study.measure_first, study.adds_most) == ("guessed", "known")

    def test_cold_boxes_add_their_ranges_end_to_end(self):
        def width(*extra):
            study = energy_of(*(load(f"l{at}", **fields) for at, fields in enumerate(extra)))
            return study.daily_90_wh - study.daily_10_wh

        box = {"cold_box": {"inside_c": 4.0}, "duty_ambient_c": 20.0}
        assert width(box, box) == pytest.approx(2 * width(box))
        assert width({}, {}) < 1.5 * width({})


@given(loads())
def test_rows_and_idle_are_the_whole_day(some):
    study = energy_of(*some, **FED)
    rows = sum(row.battery_wh.likely for row in study.rows)
    assert rows + sum(one.idle_wh for one in study.inverters) == pytest.approx(study.daily_energy_wh)
    assert sum(study.by_path.values()) == pytest.approx(study.daily_energy_wh)
    assert study.by_path[IDLE] == study.inverters[0].idle_wh
    ac = [row for row in study.rows if row.path.startswith("inverter")]
    one = study.inverters[0]
    assert one.ac_wh + one.loss_wh == pytest.approx(sum(row.battery_wh.likely for row in ac))


@given(loads())
def test_ranges_hold_the_likely_day_and_no_way_gives_back_energy(some):
    study = energy_of(*some, **FED)
    for row in study.rows:
        assert row.appliance_wh.low <= row.appliance_wh.likely <= row.appliance_wh.high
        assert row.battery_wh.likely >= row.appliance_wh.likely
    assert study.daily_10_wh <= study.daily_90_wh


@given(loads(), numbers(0, 24))
def test_more_hours_never_make_a_smaller_day(some, hours):
    """With the inverter on all day: were it on for longer because of one load, the others would meet less often."""
    first, fed = some[0], FED | {"inverters": [inverter(on_h=24.0)]}
    more = [first | {"daily_use_h": max(hours, first["daily_use_h"])}, *some[1:]]
    before, after = energy_of(*some, **fed), energy_of(*more, **fed)
    assert after.daily_energy_wh >= before.daily_energy_wh * (1 - 1e-12)


@given(partly_stated(), st.sampled_from([FED, FED | {"inverters": [inverter(efficiency=0.9, idle_w=8.0)]}]))
def test_any_valid_rig_has_a_study(some, top):
    study = energy_of(*some, **top)
    assert study.daily_energy_wh >= 0
    for row in study.rows:
        assert not row.missing or row.battery_wh.high == 0
        assert len(row.workings) >= 1
