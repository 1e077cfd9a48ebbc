"""What is unknown or stricter is never designed around."""

from __future__ import annotations

import pytest

from tests.rigs import small_data
from tests.study.wiring_rigs import RULE_SETS, free, network, run_of


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
