"""Conductors and protection of whole rigs against facts of the trade, and properties that must always hold."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from rigcalc.errors import InputError
from rigcalc.model import Rig, rig_from_data
from rigcalc.rules import findings
from rigcalc.study import study
from rigcalc.study.network_results import NetworkStudy, RunStudy
from rigcalc.tables.conductors import conductor
from rigcalc.tables.overcurrent import ratings
from rigcalc.tables.size_text import parse_size
from tests.rigs import small_data

RULE_SETS = ("us_boat", "na_vehicle", "iec_vehicle", "na_cabin", "iec_cabin", "strictest_of_all")


def free(**changes: Any) -> dict[str, Any]:
    """The small rig with all sizes and devices left to be chosen."""
    data = small_data() | changes
    for run in data["runs"]:
        run.pop("conductor", None)
    for device in data["devices"]:
        device.pop("rating_a", None)
        device.pop("device_class", None)
    return data


def network(data: dict[str, Any]) -> NetworkStudy:
    return study(rig_from_data(data)).network


def run_of(net: NetworkStudy, run_id: str) -> RunStudy:
    return next(run for run in net.runs if run.run_id == run_id)


def at_12_volts(data: dict[str, Any]) -> dict[str, Any]:
    """Lengths next to nothing and a lowest voltage of 12 V: the arithmetic of the trade facts."""
    data["bank"]["lowest_working_v"] = 12.0
    for run in data["runs"]:
        run |= {"length_out_m": 0.01, "length_back_m": 0.01}
    return data


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


@pytest.mark.parametrize(
    ("text", "name"),
    [("10 AWG", "10 AWG"), ("AWG 10", "10 AWG"), ("4/0", "4/0 AWG"), ("6 mm²", "6 mm2"), ("2,5 mm2", "2.5 mm2")],
)
def test_sizes_as_printed_on_cables(text, name):
    size, meanings = parse_size(text)
    assert size is not None
    assert (size.name, meanings) == (name, ())


@pytest.mark.parametrize("text", ["6", "10", "6 mm", "2,5"])
def test_sizes_that_can_mean_two_things_are_not_guessed(text):
    size, meanings = parse_size(text)
    assert size is None
    assert len(meanings) == 2


@pytest.mark.parametrize("text", ["", "red", "7 AWG", "5 mm2", "-6 mm2", "6 mm2 or so", "<b>6</b>"])
def test_sizes_that_do_not_exist_are_refused(text):
    with pytest.raises(InputError, match="Conductor is"):
        parse_size(text)


@st.composite
def rigs(draw) -> Rig:
    """Small rigs of one to five loads on a block, everything left to be chosen."""
    data = free(rule_set=draw(st.sampled_from(RULE_SETS)))
    data["ambient_hot_c"] = draw(st.sampled_from([25.0, 30.0, 45.0, 60.0]))
    data["bank"]["unit_short_circuit_a"] = draw(st.sampled_from([300.0, 900.0, 6000.0]))
    load, feeder, branch = data["loads"][0], data["runs"][0], data["runs"][1]
    feeder |= {"length_out_m": draw(st.floats(0.1, 4)), "length_back_m": draw(st.floats(0.1, 4))}
    data["loads"], data["runs"], data["devices"] = [], [feeder], data["devices"][:1]
    for i in range(draw(st.integers(1, 5))):
        use = draw(st.sampled_from(["lighting", "pump", "electronics", "other"]))
        watts = draw(st.floats(1, 250))
        data["loads"].append(load | {"id": f"L{i}", "power_w": watts, "circuit_use": use, "max_fuse_a": 60.0})
        lengths = {"length_out_m": draw(st.floats(0.1, 9)), "length_back_m": draw(st.floats(0.1, 9))}
        data["runs"].append(branch | lengths | {"id": f"B{i}", "to_id": f"L{i}"})
        data["devices"].append({"id": f"G{i}", "run_id": f"B{i}", "distance_m": 0.0})
    return rig_from_data(data)


@given(rigs())
def test_a_chosen_fuse_protects_every_conductor_behind_it_and_carries_its_load(rig):
    net = study(rig).network
    runs = {run.run_id: run for run in net.runs}
    for circuit in net.circuits:
        if circuit.rating_a is None or any(runs[one].choice is None for one in circuit.runs):
            continue
        assert circuit.rating_a >= 1.25 * circuit.continuous_a * (1 - 1e-6)
        assert circuit.rating_a in {row.rating_a for row in ratings(circuit.device_class or "")}
        for one in circuit.runs:
            choice = runs[one].choice
            assert choice is not None
            assert choice.fuse_limit_a is not None
            assert circuit.rating_a <= choice.fuse_limit_a
            if net.rule_set != "us_boat":  # the one rule set read that lets a device pass the ampacity
                assert circuit.rating_a <= (choice.ampacity_a or 0) * (1 + 1e-9)
            else:
                assert circuit.rating_a <= 1.5 * (choice.ampacity_a or 0)


@given(rigs())
def test_a_choice_passes_every_limit_and_the_next_smaller_does_not(rig):
    for run in study(rig).network.runs:
        if run.choice is None:
            continue
        assert run.choice.fails == ()
        assert run.choice.way_drop_percent <= (run.drop_limit_percent or 100) + 1e-6
        if run.smaller and run.decided_by != "smallest of the table":
            assert run.smaller.fails


@given(rigs(), st.floats(0.1, 5))
def test_a_longer_branch_never_gets_a_smaller_conductor_nor_more_volts(rig, further_m):
    before = study(rig).network
    longer = rig.model_copy(
        update={"runs": tuple(
            run.model_copy(update={"length_out_m": run.length_out_m + further_m}) if run.id == "B0" else run
            for run in rig.runs
        )}
    )  # fmt: skip
    after = study(longer).network
    one, other = run_of(before, "B0"), run_of(after, "B0")
    if one.choice and other.choice and one.choice.size == other.choice.size:
        assert other.load_v <= one.load_v + 1e-3
    elif one.choice and other.choice:
        assert conductor(other.choice.size).order > conductor(one.choice.size).order


@given(rigs())
def test_findings_never_fail_and_chosen_conductors_pass_their_own_rules(rig):
    found = findings(study(rig))
    chosen = {run.run_id for run in study(rig).network.runs if run.choice}
    wrong = [f for f in found if f.rule in ("W01", "P03", "P06") and f.stops and f.subject in chosen]
    assert wrong == []


class TestNothingUnknownIsDesignedAround:
    """Each of these once let something through."""

    def test_a_load_without_a_stated_power_leaves_its_way_unchosen(self):
        data = free()
        del data["loads"][0]["power_w"]
        data["loads"][0]["reading"] = {"energy_wh": 2400.0, "over_h": 24.0, "at": "dc_at_appliance"}
        net = network(data)
        assert all(run.choice is None and run.unknown == ("lamp",) for run in net.runs)
        assert all(circuit.rating_a is None for circuit in net.circuits)

    def test_a_cranking_feeder_to_a_block_is_no_starter_cable(self):
        data = small_data()
        data["runs"][0]["purpose"] = "cranking"
        data["devices"] = data["devices"][1:]
        assert network(data).unprotected == ("W1",)

    def test_an_unread_conductor_leaves_the_window_open(self):
        data = small_data()
        data["runs"][1]["conductor"] = "16 AWG"
        data["devices"] = data["devices"][:1]
        circuit = network(data).circuits[0]
        assert circuit.most_a is None
        assert "16 AWG in W2" in circuit.most_because

    def test_no_rating_is_given_outside_its_window(self):
        data = small_data()
        data["loads"][0]["power_w"] = 400.0
        data["devices"][1].pop("rating_a")
        circuit = network(data).circuits[1]
        assert circuit.most_a is not None
        assert circuit.least_a > circuit.most_a
        assert circuit.rating_a is None

    def test_a_makers_resistance_replaces_the_safe_side_where_it_is_smaller(self):
        data = small_data()
        del data["bank"]["unit_short_circuit_a"]
        data["bank"]["unit_resistance_ohm"] = 0.0002
        assert network(data).circuits[0].prospective_a == pytest.approx(14.4 / 0.0002)
        data["bank"]["unit_resistance_ohm"] = 0.008  # an upper bound says nothing of the largest fault
        assert network(data).circuits[0].prospective_a == pytest.approx(14.4 / 0.0008)

    @pytest.mark.parametrize("change", [{"sheathed": True}, {"purpose": "charging"}])
    def test_the_strictest_distance_is_that_of_the_strictest_member(self, change):
        def limit(rule_set: str) -> float:
            data = small_data() | {"rule_set": rule_set}
            data["runs"][0] |= change
            return network(data).circuits[0].distance_limit_m or 99.0

        assert limit("strictest_of_all") == min(limit(one) for one in RULE_SETS)

    def test_a_start_behind_an_inverter_reaches_its_fuse(self):
        data = small_data()
        data["inverters"] = [{"id": "inv", "name": "Inverter", "rated_w": 300.0, "on_h": 8.0, "efficiency": 0.9}]
        pump = {"id": "pump", "name": "Pump", "provenance": "label", "power_w": 200.0, "daily_use_h": 1.0}
        start = {"starting_power_w": 3000.0, "starting_s": 20.0, "feed": "inverter", "fed_by": "inv"}
        data["loads"].append(pump | start)
        data["runs"].append(data["runs"][1] | {"id": "W3", "to_id": "inv", "from_id": "bank", "conductor": "4 AWG"})
        fuse = {"id": "F3", "run_id": "W3", "device_class": "high_current_blade", "rating_a": 40.0}
        data["devices"].append(fuse)
        assert network(data).circuits[2].start_opens is True

    def test_a_stated_chassis_counts_in_every_rule_sets_drop(self):
        for rule_set in RULE_SETS:
            data = small_data() | {"rule_set": rule_set}
            data["runs"][1] |= {"return_path": "chassis", "length_back_m": None, "chassis_resistance_ohm": 0.3}
            choice = run_of(network(data), "W2").choice
            assert choice is not None
            assert choice.rule_drop_v > 0.3 * choice.current_a

    def test_under_nfpa_70_an_unmarked_terminal_bounds_the_fuse(self):
        # NFPA 70 110.14(C): unmarked terminals up to 100 A take the 60 °C column, 40 A for 8 AWG.
        data = small_data()
        data["runs"][0] |= {"insulation_c": 90.0, "terminal_c": None}
        choice = run_of(network(data), "W1").choice
        assert choice is not None
        assert choice.fuse_limit_a == 40

    def test_a_large_lead_bank_asks_for_more_than_a_blade_breaks(self):
        # ABYC E-11 as quoted: over 2200 CCA or 500 Ah the maker's figure, or 20 kA.
        data = free()
        lead = {"chemistry": "agm", "cells_per_unit": 6, "cranking_a": 2300.0, "lowest_working_v": 11.8}
        data["bank"] |= lead
        del data["bank"]["unit_short_circuit_a"]
        assert network(data).circuits[0].device_class == "current_limiting"


def test_a_share_below_an_even_one_and_a_hot_day_below_the_usual_are_refused():
    data = small_data()
    data["bank"] |= {"parallel": 2, "largest_share": 0.1}
    with pytest.raises(InputError, match="even share of the 2 strings"):
        rig_from_data(data)
    with pytest.raises(InputError, match="ambient_hot_c is -20"):
        rig_from_data(small_data() | {"ambient_hot_c": -20.0})
