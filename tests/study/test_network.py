"""Conductors and protection of whole rigs against facts of the trade."""

from __future__ import annotations

import pytest

from tests.rigs import small_data
from tests.study.wiring_rigs import at_12_volts, free, network, run_of


def test_50_w_at_12_v_takes_a_7_5_a_fuse_and_10_a_is_allowed_on_14_awg():
    # Common practice, no source: 50 W at 12 V = 4.2 A, x 1.25 = 5.2 A; a 10 A fuse on 14 AWG is allowed.
    net = network(at_12_volts(free()))
    run, circuit = run_of(net, "W2"), net.circuits[1]
    assert run.design_current_a == pytest.approx(4.2, abs=0.05)
    assert 1.25 * run.design_current_a == pytest.approx(5.2, abs=0.05)
    assert run.choice is not None
    assert run.choice.size == "14 AWG"
    assert circuit.rating_a == 7.5
    assert circuit.most_a is not None
    assert circuit.most_a >= 10


@pytest.mark.parametrize(
    ("rule_set", "size", "installation"),
    [("na_vehicle", "8 AWG", "enclosed"), ("iec_vehicle", "10 mm2", "enclosed")],
)
def test_a_block_loaded_to_40_a_gets_a_50_a_feeder_fuse(rule_set, size, installation):
    # Common practice, no source: 40 A x 1.25 = 50 A feeder fuse on 8 AWG (75 °C column, uncorrected) or 10 mm2.
    data = at_12_volts(free(rule_set=rule_set))
    data["loads"][0] |= {"power_w": 40.0 * 12.0 * 0.999, "max_fuse_a": 60.0}
    data["runs"][0]["installation"] = installation
    data["devices"][0]["device_class"] = "current_limiting"
    net = network(data)
    run = run_of(net, "W1")
    assert run.design_current_a == pytest.approx(40, abs=0.05)
    assert net.circuits[0].rating_a == 50
    assert run.choice is not None
    assert run.choice.size == size


def test_without_a_read_table_the_rule_set_says_so_and_picks_nothing():
    net = network(free(rule_set="eu_small_craft"))
    assert not net.available
    assert all(run.choice is None for run in net.runs)


def test_a_grouped_run_under_iec_needs_a_typed_factor():
    data = free(rule_set="iec_vehicle")
    data["runs"][1]["conductors_together"] = 6
    assert run_of(network(data), "W2").choice is None
    data["runs"][1]["grouping_factor"] = 0.7
    choice = run_of(network(data), "W2").choice
    assert choice is not None
    assert choice.ampacity_a == pytest.approx(0.7 * (choice.table_a or 0))


@pytest.mark.parametrize("table_row", [("16 AWG", "us_boat"), ("14 AWG", "na_vehicle")])
def test_sizes_below_the_read_minimum_are_never_chosen(table_row):
    # 33 CFR 183.425(d)-(f): 16 AWG for a single conductor. NFPA 70 310.16: nothing below 14 AWG was read.
    size, rule_set = table_row
    data = at_12_volts(free(rule_set=rule_set))
    data["loads"][0]["power_w"] = 1.0
    assert all(run.choice and run.choice.size == size for run in network(data).runs)


def test_the_conductor_grows_until_a_fuse_fits_and_says_so():
    data = at_12_volts(free())
    data["runs"][1] |= {"insulation_c": 75.0, "terminal_c": 75.0}
    data["loads"][0] |= {"power_w": 12.0 * 18, "max_fuse_a": 40.0}  # 18 A runs in 14 AWG (20 A), its fuse does not
    net = network(data)
    run = run_of(net, "W2")
    assert run.decided_by == "fuse"
    assert net.circuits[1].grown
    assert run.smaller is not None
    assert run.smaller.fails == ("fuse",)


def test_a_thinner_way_back_counts_in_the_physical_drop():
    data = small_data()
    data["runs"][1]["return_conductor"] = "10 AWG"
    thick = run_of(network(data), "W2").choice
    data["runs"][1]["return_conductor"] = "14 AWG"
    thin = run_of(network(data), "W2").choice
    assert thick
    assert thin
    assert thick.drop_v < thin.drop_v


def test_chassis_return_drops_on_one_conductor_only():
    data = small_data()
    data["runs"][1] |= {"return_path": "chassis", "length_back_m": None}
    both = run_of(network(small_data()), "W2").choice
    one = run_of(network(data), "W2").choice
    assert both
    assert one
    assert one.rule_drop_v == pytest.approx(both.rule_drop_v / 2, rel=0.02)
