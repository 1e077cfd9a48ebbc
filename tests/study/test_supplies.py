"""A load's supply both ways, against sums done by hand."""

from __future__ import annotations

from typing import Any

import pytest

from rigcalc.errors import InputError
from rigcalc.formulas.conductor import copper_kg
from rigcalc.model import rig_from_data
from rigcalc.study import study
from rigcalc.study.network_results import Supply
from rigcalc.study.supplies import supply
from rigcalc.tables.conductors import conductor
from tests.rigs import small_data


def bus_rig(**rig: Any) -> dict[str, Any]:
    """Bank, main fuse, bus, feeder with its fuse, block, branch with its fuse, lamp; and a second lamp."""
    data = small_data() | {"buses": [{"id": "X1", "name": "Battery bus"}]}
    laid = {"insulation_c": 75.0, "terminal_c": 75.0, "conductors_together": 2, "installation": "enclosed"}
    data["runs"] = [
        {"id": i, "name": n, "from_id": a, "to_id": b, "length_out_m": m, "length_back_m": m, **laid}
        for i, n, a, b, m in (
            ("W0", "Bank to bus", "bank", "X1", 0.5),
            ("W1", "Bus to block", "X1", "X2", 2.0),
            ("W2", "Block to lamp", "X2", "lamp", 3.0),
            ("W3", "Block to second lamp", "X2", "lamp2", 1.0),
        )
    ]
    data["loads"].append(data["loads"][0] | {"id": "lamp2", "name": "Second lamp"})
    data["devices"] = [
        {"id": f"F{n}", "run_id": f"W{n}", "distance_m": 0.1, **({"device_class": "blade"} if n == 2 else {})}
        for n in range(4)
    ]
    return data | rig


def both(data: dict[str, Any], load_id: str = "lamp") -> Supply:
    return supply(study(rig_from_data(data)), load_id)


def test_as_wired_runs_from_the_main_fuse_to_the_branch():
    through = both(bus_rig()).through_block
    assert through is not None
    assert [line.split(":")[0] for line in through.conductors] == ["Bank to bus", "Bus to block", "Block to lamp"]
    assert [line.split(":")[0] for line in through.fuses] == ["F0", "F1", "F2"]
    assert through.joints == 3 * 4 + 3 * 2
    assert through.stops == ()


def test_the_own_pair_starts_at_the_bus_behind_the_main_fuse_over_the_length_of_the_wired_way():
    own = both(bus_rig()).own_pair
    assert own is not None
    assert own.title == "A pair of its own from X1 (Battery bus)"
    assert own.conductors[1].endswith("5.00 m out, 5.00 m back")  # 2 m of feeder and 3 m of branch
    assert "not stated" in own.notes[0]
    assert own.joints == 2 * 4 + 2 * 2


def test_stated_lengths_of_the_pair_win_and_one_way_alone_counts_for_both():
    data = bus_rig()
    data["loads"][0] |= {"own_pair_out_m": 4.0, "own_pair_back_m": 3.5}
    own = both(data).own_pair
    assert own is not None
    assert own.conductors[1].endswith("4.00 m out, 3.50 m back")
    assert own.notes[0] == "Lengths as stated for it."
    del data["loads"][0]["own_pair_back_m"]
    own = both(data).own_pair
    assert own is not None
    assert own.conductors[1].endswith("4.00 m out, 4.00 m back")
    assert "as long as the way out" in own.notes[0]


def test_copper_is_that_of_the_conductors_which_feed_the_load_alone():
    both_ways = both(bus_rig())
    assert both_ways.through_block is not None
    assert both_ways.own_pair is not None
    for way, length_m in ((both_ways.through_block, 6.0), (both_ways.own_pair, 10.0)):
        size = way.conductors[-1].split(": ")[1].split(",")[0]
        assert way.copper_kg == pytest.approx(copper_kg(conductor(size).area_mm2, length_m))


def test_the_pair_drops_what_a_rig_wired_that_way_drops():
    data = bus_rig()
    own = both(data).own_pair
    data["runs"][2] |= {"from_id": "X1", "length_out_m": 5.0, "length_back_m": 5.0}
    data["devices"][2].pop("device_class")
    wired = study(rig_from_data(data)).network
    assert own is not None
    assert own.drop_v == pytest.approx(12.0 - wired.node_v["lamp"])
    assert own.drop_percent == pytest.approx(100 * (12.0 - wired.node_v["lamp"]) / 12)


@pytest.mark.parametrize(
    ("switch", "through_live", "own_live"), [(None, None, None), ("W0", False, False), ("W1", False, True)]
)
def test_what_does_not_hang_behind_the_main_switch_is_always_live(switch, through_live, own_live):
    found = both(bus_rig(main_switch_run=switch) if switch else bus_rig())
    assert found.through_block is not None
    assert found.own_pair is not None
    assert (found.through_block.always_live, found.own_pair.always_live) == (through_live, own_live)


def test_a_short_circuit_above_what_the_inline_fuse_breaks_is_a_stop():
    data = bus_rig()
    data["bank"]["unit_short_circuit_a"] = 30_000.0  # above the 20 kA of the last class tried
    data["runs"][0] |= {"length_out_m": 0.01, "length_back_m": 0.01}
    own = both(data).own_pair
    assert own is not None
    assert any("dead short at inline" in text for text in own.stops)


def test_a_fuse_beyond_the_distance_of_the_rules_is_a_stop():
    data = bus_rig()
    data["runs"][2] |= {"from_id": "X1"}  # the lamp has its pair from the bus already
    data["devices"][2]["distance_m"] = 0.6
    found = both(data)
    assert found.through_block is not None
    assert found.own_pair is not None
    for way in (found.through_block, found.own_pair):  # 18 in, NFPA 70 552.10(E)(4) by analogy
        assert any("0.600 m from its source; these rules allow 0.457 m" in text for text in way.stops)


def test_a_holder_carrying_more_than_its_share_is_a_stop():
    data = bus_rig()
    data["loads"][0]["power_w"] = 300.0
    data["devices"][2] |= {"rating_a": 30.0, "holder_rating_a": 30.0}
    through = both(data).through_block
    assert through is not None
    assert any("F2 carries" in text for text in through.stops)  # 0.75 of 30 A is 22.5 A


def test_nothing_protecting_a_run_is_a_stop():
    data = bus_rig()
    data["devices"] = data["devices"][1:]
    found = both(data)
    assert found.through_block is not None
    assert "Nothing protects W0." in found.through_block.stops


def test_without_a_main_fuse_the_pair_starts_at_the_bank():
    data = bus_rig(devices=[])
    own = both(data).own_pair
    assert own is not None
    assert own.title == "A pair of its own from the bank"
    assert own.conductors[0].endswith("5.50 m out, 5.50 m back")
    assert own.fuses[0].startswith("inline:")


def test_a_load_that_is_not_wired_has_a_pair_only_where_its_length_is_stated():
    data = bus_rig()
    data["runs"] = [run for run in data["runs"] if run["id"] != "W2"]
    data["devices"] = [one for one in data["devices"] if one["run_id"] != "W2"]
    assert both(data) == Supply("lamp", None, None)
    data["loads"][0]["own_pair_out_m"] = 4.0
    found = both(data)
    assert found.through_block is None
    assert found.own_pair is not None
    assert found.own_pair.title == "A pair of its own from X1 (Battery bus)"


def test_rules_without_sizes_give_no_conductor_and_no_copper():
    data = bus_rig(rule_set="eu_small_craft")
    own = both(data).own_pair
    assert own is not None
    assert "not available from a read source" in own.conductors[-1]
    assert own.copper_kg is None


def test_the_power_may_not_get_through():
    data = bus_rig()
    data["runs"][2] |= {"conductor": "18 AWG", "length_out_m": 60.0, "length_back_m": 60.0}
    data["loads"][0] |= {"power_w": 900.0}
    through = both(data).through_block
    assert through is not None
    assert through.drop_v is None
    assert "The power does not get through with the bank low." in through.stops


def test_only_loads_fed_directly_are_asked():
    with pytest.raises(InputError, match="fed directly"):
        both(bus_rig(), "nobody")
