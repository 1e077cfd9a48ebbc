"""Days without charging, the bank for wanted days and currents at the bank: published figures, and properties."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.study.autonomy import runtime_of
from rigcalc.study.bank import CONTRADICTED, FASTER, INSIDE_POINTS, SLOWER
from rigcalc.study.cold import OUTSIDE
from tests.study.load_rigs import FED, autonomy_of, inverter, lead, load, loads, numbers, rig_of, unstated

ON_INVERTER = {"feed": "inverter", "fed_by": "inv"}
DATA_SHEET = [
    {"over_h": hours, "capacity_ah": ah} for hours, ah in ((20.0, 40.0), (10.0, 37.2), (5.0, 34.0), (1.0, 24.0))
]


def daily(wh):
    """A load of that many Wh a day."""
    return load(power_w=wh / 20, daily_use_h=20.0)


class TestArithmeticOfOursNoEvidence:
    def test_two_days_at_48_v(self):
        # Installer's practice item: 20 kWh a day, two days, half of a 48 V bank: 1666.7 Ah.
        bank = lead(series=4, wanted_autonomy_days=2.0, lowest_working_v=46.0, highest_charge_v=57.6)
        found = autonomy_of(daily(20_000), bank=bank, system_v=48)
        assert found.needed_ah == pytest.approx(1666.7, abs=0.05)

    def test_run_time_of_a_bank(self):
        # Battery capacity page: 300 W for 5 h from half of a 12 V bank takes 250 Ah.
        rig = rig_of(load(power_w=300.0), bank=lead(unit_capacity_ah=250.0))
        assert runtime_of(rig, ["one"]) == pytest.approx(5.0, abs=0.05)

    def test_days_of_a_small_bank(self):
        # 100 Ah at 12.8 V, 80 % of it, 620 Wh a day: 1.65 d.
        assert autonomy_of(daily(620)).autonomy_d == pytest.approx(1.65, abs=0.005)

    def test_efficiency_is_divided_not_multiplied(self):
        # A public reply multiplied 1000 W by 0.85 and got 66 A at 12.8 V, where 92 A is right.
        found = autonomy_of(load(power_w=1000.0, **ON_INVERTER), inverters=[inverter(efficiency=0.85)],
                            bank={"lowest_working_v": 12.8})  # fmt: skip
        assert found.running_a == pytest.approx(92, abs=0.5)

    def test_current_at_the_lowest_voltage(self):
        # 1500 W through 0.88 at 11.5 V: 148 A.
        found = autonomy_of(load(power_w=1500.0, **ON_INVERTER), inverters=[inverter(efficiency=0.88)], bank=lead())
        assert found.running_a == pytest.approx(148, abs=0.5)


@pytest.mark.parametrize(("daily_wh", "days"), [(180, 7.1), (600, 2.1)])
def test_nominal_days_are_arithmetic_and_autonomy_is_less(daily_wh, days):
    # 12.8 V x 100 Ah = 1280 Wh over the day: common practice, no source. It is never the answer.
    found = autonomy_of(daily(daily_wh))
    assert found.nominal_d == pytest.approx(days, abs=0.05)
    assert found.autonomy_strict_d < found.autonomy_d < found.nominal_d


class TestTemperature:
    @pytest.mark.parametrize(
        ("at_c", "size_factor", "half_digit"), [(10, 1.19, 0.005), (20, 1.056, 0.0005), (25, 1, 0.0005)]
    )
    def test_lead_by_ieee_485_table_1(self, at_c, size_factor, half_digit):
        # Read from a trade sheet that reprints the table; 20 °C (68 °F) lies between two of its rows.
        found = autonomy_of(daily(100), bank=lead(temperature_c=float(at_c)))
        assert 1 / found.temperature_fraction == pytest.approx(size_factor, abs=half_digit)
        assert found.temperature_status == "secondary"

    @pytest.mark.parametrize(("at_c", "percent"), [(0, 80.2), (-10, 66.4), (-20, 44.1)])
    def test_lithium_iron_phosphate_by_a_read_article(self, at_c, percent):
        found = autonomy_of(daily(100), bank={"temperature_c": float(at_c)})
        assert 100 * found.temperature_fraction == pytest.approx(percent, abs=0.05)

    def test_rows_from_memory_are_marked(self):
        # The rows of 25 to 35 °F are recalled, not read; 2 °C lies between 35 and 40 °F.
        assert autonomy_of(daily(100), bank=lead(temperature_c=2.0)).temperature_status == "memory"

    @pytest.mark.parametrize("bank", [lead(temperature_c=-20.0), lead(temperature_c=55.0), {"temperature_c": -30.0}])
    def test_outside_the_table_is_said(self, bank):
        assert autonomy_of(daily(100), bank=bank).temperature_status == OUTSIDE

    @pytest.mark.parametrize("bank", [lead(temperature_c=35.0), {"temperature_c": 35.0}])
    def test_warmth_gains_nothing(self, bank):
        assert autonomy_of(daily(100), bank=bank).temperature_fraction == 1


class TestRate:
    """12 V 40 Ah sealed lead-acid data sheet: 40, 37.2, 34 and 24 Ah over 20, 10, 5 and 1 h, as printed."""

    bank = lead(unit_capacity_ah=40.0, rate_points=DATA_SHEET)

    @pytest.mark.parametrize(("current_a", "printed_ah"), [(2, 40), (3.72, 37.2), (6.8, 34), (24, 24)])
    def test_printed_capacities_come_back(self, current_a, printed_ah):
        found = autonomy_of(daily(current_a * 24 * 12), bank=self.bank)
        assert found.rate_current_a == pytest.approx(current_a)
        assert found.capacity_at_rate_ah == pytest.approx(printed_ah)

    @pytest.mark.parametrize(
        ("current_a", "known", "status"), [(1.0, True, SLOWER), (5.0, True, INSIDE_POINTS), (30.0, False, FASTER)]
    )
    def test_where_the_current_lies(self, current_a, known, status):
        found = autonomy_of(daily(current_a * 24 * 12), bank=self.bank)
        assert (found.rate_known, found.rate_status) == (known, status)

    @pytest.mark.parametrize(("current_a", "status"), [(1.0, SLOWER), (5.0, FASTER)])
    def test_one_rating_is_all_there_is(self, current_a, status):
        found = autonomy_of(daily(current_a * 24 * 12), bank=lead(unit_capacity_ah=40.0))
        assert (found.capacity_at_rate_ah, found.rate_known, found.rate_status) == (40, False, status)

    def test_strings_share_the_current(self):
        two = autonomy_of(daily(7.44 * 24 * 12), bank=self.bank | {"parallel": 2})
        assert two.capacity_at_rate_ah == pytest.approx(2 * 37.2)

    def test_points_against_the_rating_are_not_used_and_it_is_said(self):
        points = [{"over_h": 20.0, "capacity_ah": 35.0}]
        found = autonomy_of(daily(100), bank=lead(unit_capacity_ah=40.0, rate_points=points))
        assert (found.capacity_at_rate_ah, found.rate_status) == (40, CONTRADICTED)

    def test_strings_needed_count_on_the_slower_rate_each_then_has(self):
        # 172.8 Ah at 20 A: 5 strings hold 5 x 36.7 Ah at 4 A each; one string's capacity at 20 A would ask for 7.
        found = autonomy_of(
            daily(20 * 24 * 12), bank=self.bank | {"wanted_autonomy_days": 0.18, "depth_of_discharge": 0.5}
        )
        assert found.needed_ah == pytest.approx(20 * 24 * 0.18 / 0.5)
        assert found.needed_strings == 5


class TestWear:
    def test_the_larger_allowance_not_the_product(self):
        # IEEE 1013 sizing sequence, from memory: end of life and depth of discharge are not multiplied.
        found = autonomy_of(daily(512), bank={"depth_of_discharge": 0.9, "end_of_life_fraction": 0.8})
        assert found.autonomy_d == pytest.approx(1280 * 0.8 / 512)
        assert found.autonomy_strict_d == pytest.approx(1280 * 0.72 / 512)

    def test_wiring_loss_only_where_it_is_stated(self):
        plain, wired = autonomy_of(daily(512)), autonomy_of(daily(512), bank={"wiring_efficiency": 0.8})
        assert wired.autonomy_d == pytest.approx(0.8 * plain.autonomy_d)
        assert wired.nominal_d == plain.nominal_d

    def test_a_rig_that_draws_nothing_has_no_autonomy(self):
        found = autonomy_of()
        assert (found.autonomy_d, found.autonomy_10_d, found.nominal_d, found.needed_wh) == (None, None, None, None)
        assert found.usable_wh == pytest.approx(1024)


class TestCurrents:
    def test_starting_comes_on_top_of_everything_else(self):
        pump = load("pump", power_w=60.0, starting_power_w=240.0)
        found = autonomy_of(load(power_w=120.0), pump, load("fan", power_w=24.0, starting_power_w=30.0))
        assert found.running_a == pytest.approx(204 / 12)
        assert (found.starting_a, found.starting_load) == (pytest.approx(384 / 12), "pump")

    def test_loads_that_alternate_count_once(self):
        heater, pump = load(power_w=240.0, alternates_with="A"), load("pump", power_w=60.0, alternates_with="A")
        assert autonomy_of(heater, pump).running_a == pytest.approx(20)
        started = autonomy_of(heater, pump | {"starting_power_w": 300.0})
        assert (started.running_a, started.starting_a) == (pytest.approx(20), pytest.approx(25))

    def test_an_inverter_gives_its_loads_together_and_its_idle_draw(self):
        two = [load("a", power_w=1000.0, **ON_INVERTER), load("b", power_w=1000.0, **ON_INVERTER)]
        assert autonomy_of(*two, **FED).running_a == pytest.approx(2000 / 0.91 / 12)
        assert autonomy_of(inverters=[inverter(idle_w=24.0)]).running_a == pytest.approx(2)

    @pytest.mark.parametrize(
        ("bank", "limit_a"),
        [
            ({}, 100),
            ({"parallel": 2}, None),
            ({"parallel": 2, "largest_share": 0.625}, 160),
            ({"largest_share": 0.5}, 100),
        ],
    )
    def test_limit_of_a_bank_that_shares_unevenly(self, bank, limit_a):
        found = autonomy_of(load(), bank=bank | {"unit_peak_a": 100.0})
        assert (found.limit_a, found.peak_limit_a) == (limit_a, limit_a)


class TestRunTime:
    def test_chosen_loads_only(self):
        rig = rig_of(load(power_w=64.0), load("other", power_w=500.0))
        assert runtime_of(rig, ["one"]) == pytest.approx(1024 / 64)
        assert runtime_of(rig, []) == float("inf")

    def test_a_cycling_load_at_its_duty_and_an_inverter_with_its_idle_draw(self):
        fridge = load(power_w=100.0, cycles=True, duty_cycle=0.4)
        rig = rig_of(fridge, load("kettle", power_w=1000.0, **ON_INVERTER), **FED)
        assert runtime_of(rig, ["one"]) == pytest.approx(1024 / 40)
        assert runtime_of(rig, ["kettle"]) == pytest.approx(1024 / (1000 / 0.93))

    @pytest.mark.parametrize("one", [unstated(), unstated(power_w=50.0, cycles=True)])
    def test_what_is_not_stated_is_asked_for(self, one):
        with pytest.raises(InputError, match=f"(Power|Duty cycle) of {one['name']} is empty"):
            runtime_of(rig_of(one), ["one"])

    def test_a_cycling_load_without_duty_cycle_runs_at_the_mean_of_its_reading(self):
        read = {"energy_wh": 960.0, "over_h": 48.0, "at": "dc_at_appliance"}
        rig = rig_of(load(power_w=50.0, cycles=True, duty_cycle=None, reading=read))
        assert runtime_of(rig, ["one"]) == pytest.approx(1024 / 20)

    def test_a_reading_at_the_plug_holds_the_adapter_already(self):
        read = {"energy_wh": 480.0, "over_h": 24.0, "at": "wall_plug"}
        brick = unstated(reading=read, feed="inverter_adapter", fed_by="inv", adapter_efficiency=0.5)
        rig = rig_of(brick, inverters=[inverter(efficiency=0.8)])
        assert runtime_of(rig, ["one"]) == pytest.approx(1024 / (20 / 0.8))

    def test_unknown_load(self):
        with pytest.raises(InputError, match="Load is 'two'"):
            runtime_of(rig_of(load()), ["two"])


banks = st.fixed_dictionaries(
    {
        "depth_of_discharge": numbers(0.1, 1),
        "end_of_life_fraction": numbers(0.1, 1),
        "temperature_c": numbers(-30, 60),
        "parallel": st.integers(1, 4),
    },
    optional={"rate_points": st.just([{"over_h": 5.0, "capacity_ah": 92.0}, {"over_h": 1.0, "capacity_ah": 80.0}])},
)


@given(loads(), banks)
def test_days_are_ordered(some, bank):
    found = autonomy_of(*some, bank=bank, **FED)
    assert found.autonomy_10_d <= found.autonomy_90_d
    assert found.autonomy_strict_d <= found.autonomy_d <= found.nominal_d * (1 + 1e-12)
    assert found.starting_a >= found.running_a


@given(loads(), banks, numbers(0, 0.5), numbers(0, 30))
def test_deeper_discharge_never_shortens_and_cold_never_lengthens(some, bank, deeper, colder_k):
    days = autonomy_of(*some, bank=bank, **FED).autonomy_d
    deep = bank | {"depth_of_discharge": min(1.0, bank["depth_of_discharge"] + deeper)}
    cold = bank | {"temperature_c": max(-60.0, bank["temperature_c"] - colder_k)}
    assert autonomy_of(*some, bank=deep, **FED).autonomy_d >= days
    assert autonomy_of(*some, bank=cold, **FED).autonomy_d <= days


@given(loads(), banks, numbers(0.1, 10))
def test_the_needed_bank_gives_the_wanted_days(some, bank, wanted_d):
    needed = autonomy_of(*some, bank=bank | {"wanted_autonomy_days": wanted_d}, **FED).needed_strings
    if needed <= 24:
        assert autonomy_of(*some, bank=bank | {"parallel": needed}, **FED).autonomy_d >= wanted_d * (1 - 1e-9)
    if 1 < needed <= 25:
        assert autonomy_of(*some, bank=bank | {"parallel": needed - 1}, **FED).autonomy_d < wanted_d
